"""The app around the pages: new versions, a second address, what keeps phones from recording too early, and access."""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, Playwright, expect

from fieldbook import folders
from fieldbook.book.book import create_book
from fieldbook.book.photographs import keep
from tests.browser.conftest import FLAGS
from tests.browser.phones import Laptop, Phone, until
from tests.browser.serving import under_another_name, with_files_from
from tests.sites import picture, survey

LEAST_TARGET_PX = 48
VISITED = (
    *("#/", "#/site/{site}", "#/room/{room}", "#/face/{face}", "#/here/{face}?x_mm=50&z_mm=50&radius_mm=5"),
    *("#/packers/{face}", "#/item/{fixing}", "#/item/{fitting}", "#/item/{zone}", "#/history/{fixing}"),
    *(
        "#/choose/{face}",
        "#/fitted/{fixing}",
        "#/work/{face}",
        "#/row/{fixing}",
        "#/photograph/{face}",
        "#/picture/{photograph}",
    ),
    *("#/new/fixing?face={face}", "#/new/agreement", "#/new/zone?face={face}", "#/change/{face}"),
    *("#/waiting", "#/storage", "#/join", "#/nowhere", "#/mine", "#/search"),
)


@pytest.fixture
def laptop(tmp_path: Path) -> Iterator[Laptop]:
    """A served book with a face that has something of everything on it."""
    with create_book(tmp_path / "book") as book:
        known = survey(book)
        book.write(
            "face", {"floor": [[0, 0], [5000, 30]], "surface": [[0, 0, 4], [300, 0, 1], [600, 0, 0]]}, known.face
        )
        known.zone()
        known.limit()
        known.fixing(known.fitting(build_up=[["rail", 22, 1]]))
        hold = {"face": known.face, "mark": "H1", "sort": "hole", "x_mm": 200, "z_mm": 200, "may_be_used": "no"}
        book.write("hold", hold)
        kept = vars(keep(book, picture(640, 480)))
        book.write("photograph", {"site": known.site, "subject": known.face, "purpose": "datum"} | kept)
    running = Laptop(tmp_path / "book")
    running.start()
    yield running
    running.stop()


@pytest.fixture
def phone(browser: Browser, laptop: Laptop, tmp_path: Path) -> Iterator[Phone]:
    """A phone that has not joined yet; at the end nothing may have gone wrong in it."""
    held = Phone(tmp_path / "phone", laptop.address, browser)
    yield held
    held.close()
    assert held.troubles == []


def routes(laptop: Laptop) -> list[str]:
    """The addresses of all pages, about what the book holds."""
    with laptop.book() as book:
        ids = {kind: items[0]["id"] for kind in book_kinds() if (items := book.items(kind))}
    return [route.format(**ids) for route in VISITED]


def book_kinds() -> tuple[str, ...]:
    """The kinds the pages are visited about."""
    return "site", "room", "face", "zone", "fitting", "fixing", "photograph"


DRAWN = """async () => {
  await Promise.allSettled([...document.images].map((image) => image.decode()));
  await document.fonts.ready;
  await new Promise((go) => requestAnimationFrame(() => requestAnimationFrame(go)));
}"""


def look_around(phone: Phone, laptop: Laptop) -> Iterator[Page]:
    """Every page in turn, with something that waits and something refused."""
    with laptop.book() as book:
        face = book.items("face")[0]["id"]
    zone = {"face": face, "name": "Paint", "outline": [[0, 0], [9, 0], [9, 9]], "forbids": ["load"], "reason": "old"}
    entry = {"kind": "zone", "item": "00000000-0000-7000-8000-000000000001", "set": zone | {"margin_mm": -5}}
    phone.write(entry)
    phone.go("#/waiting").get_by_role("button", name="Send now").click()
    expect(phone.page.locator("#waits")).to_contain_text("1 refused")
    for route in [*routes(laptop), "#/mend/1"]:
        page = phone.go(route)
        page.evaluate(DRAWN)
        yield page


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_audit_finds_no_violation_on_any_page(phone: Phone, laptop: Laptop, scheme: str) -> None:
    """Source of the rules: axe-core, WCAG 2.2 A and AA with its best practices."""
    page = phone.open(color_scheme=scheme)
    found = [violations(page, "join")]
    phone.join(laptop.code())
    found += [violations(each, each.url) for each in look_around(phone, laptop)]
    assert [one for one in found if one] == []


def violations(page: Page, where: str) -> str:
    """What the audit finds on the page as it stands, in words."""
    audit = Axe().run(page)
    return f"{where}: {audit.generate_report()}" if audit.violations_count else ""


@pytest.mark.parametrize(("width", "letters"), [(320, "100%"), (320, "200%"), (390, "100%"), (1440, "100%")])
def test_page_fits_narrow_screens_and_large_letters(phone: Phone, laptop: Laptop, width: int, letters: str) -> None:
    """No page is wider than the screen, and what is pressed is at least 48 px high."""
    phone.open(viewport={"width": width, "height": 640})
    page = phone.join(laptop.code())
    page.add_style_tag(url="/static/phone.css")
    page.evaluate("(size) => document.documentElement.style.setProperty('font-size', size)", letters)
    for each in look_around(phone, laptop):
        overflow = each.evaluate("() => document.documentElement.scrollWidth - innerWidth")
        assert overflow <= 0, f"{each.url} is {overflow} px too wide"
        small = each.evaluate(SMALL_TARGETS, [LEAST_TARGET_PX, TARGETS])
        assert small == [], f"{each.url}: {small}"


TARGETS = "button, .action, .button, select, input:not([type=checkbox]):not([type=file]), .head a, .row-link, summary"
SMALL_TARGETS = """([least, targets]) => [...document.querySelectorAll(targets)]
  .filter((one) => one.checkVisibility() && one.getBoundingClientRect().height < least - 0.5)
  .map((one) => `${one.outerHTML.slice(0, 80)} ${one.getBoundingClientRect().height}`)"""


def test_new_version_is_taken_up_between_forms_and_loses_nothing(
    phone: Phone, laptop: Laptop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """While a form is open the old version stays, whole; the new one comes when the person says so, with the draft."""
    static = tmp_path / "static"
    shutil.copytree(folders.STATIC, static)
    laptop.stop()
    laptop.start(with_files_from(static))
    phone.open()
    phone.join(laptop.code())
    with laptop.book() as book:
        face = book.items("face")[0]["id"]
    page = phone.go(f"#/new/zone?face={face}")
    page.locator("#name").fill("Old paint")
    files = "caches.keys().then((names) => names.filter((name) => name.startsWith('fieldbook-app-')))"
    before = page.evaluate(files)
    today = static / "phone" / "pages" / "today.js"
    changed = tmp_path / "today.js"
    changed.write_text(today.read_text(encoding="utf-8").replace("The site", "The whole site"), encoding="utf-8")
    changed.replace(today)  # in one step: the phone asks for the version now and then, and half a file is one too
    page.evaluate("navigator.serviceWorker.getRegistration('/phone/').then((one) => one.update())")
    expect(page.locator("#notices")).to_contain_text("A new version of the app is ready")
    expect(page.locator("#name")).to_have_value("Old paint")
    page.get_by_role("button", name="Use it now").click()
    expect(page.locator("#said")).to_contain_text("A new version of the app is in use")
    expect(page.locator("#name")).to_have_value("Old paint")
    # The new worker fills its own files first and clears the old ones away only once it has taken over.
    until(lambda: len(kept := page.evaluate(files)) == 1 and kept != before)
    expect(phone.go("#/").get_by_role("link", name="The whole site")).to_be_visible()
    laptop.stop()
    page.reload()
    expect(page.get_by_role("link", name="The whole site")).to_be_visible()


def test_second_address_of_the_book_is_told_and_refuses_to_record(phone: Phone, laptop: Laptop) -> None:
    """Under another port the app names the first address; nothing can be entered until a person says it is gone."""
    phone.open()
    phone.join(laptop.code())
    first = laptop.address
    laptop.stop()
    moved = Laptop(laptop.folder)
    moved.start()
    try:
        page = phone.page
        page.goto(moved.address)
        expect(page.get_by_role("heading", name="second address")).to_be_visible()
        expect(page.get_by_role("link", name=first.removesuffix("/phone/"))).to_be_visible()
        phone.go("#/new/site")
        expect(page.locator("form")).to_have_count(0)
        page.get_by_text("The first address is gone for good").click()
        page.get_by_role("button", name="Join under this address").click()
        expect(page.get_by_label("Code")).to_be_visible()
        page.goto(first)  # the laptop is stopped there; the app opens all the same, with what it holds
        expect(page.get_by_role("link", name="Long room")).to_be_visible()
    finally:
        moved.stop()


def test_address_that_is_not_the_book_s_own_is_told_before_a_phone_joins(
    driver: Playwright, laptop: Laptop, tmp_path: Path
) -> None:
    """A phone that was joined under the book's name is led back there; one that cannot open it may join here."""
    laptop.stop()
    laptop.start(under_another_name)
    phone = Phone(tmp_path / "another", "", driver=driver)
    phone.address = f"http://another.example:{laptop.port}/phone/"
    found = "--host-resolver-rules=MAP another.example 127.0.0.1"
    trusted = f"--unsafely-treat-insecure-origin-as-secure=http://another.example:{laptop.port}"
    page = phone.open(args=[*FLAGS, found, trusted])
    expect(page.get_by_role("heading", name="not the book’s own address")).to_be_visible()
    expect(page.get_by_role("link", name="https://book.example:20000/phone/")).to_be_visible()
    expect(page.get_by_label("Code")).to_have_count(0)
    page.get_by_text("This phone cannot open that address").click()
    page.get_by_role("button", name="Join under this address").click()
    expect(page.get_by_label("Code")).to_be_visible()
    phone.join(laptop.code())
    phone.close()
    assert phone.troubles == []


def test_browser_that_forgets_is_led_to_the_home_screen_first(phone: Phone) -> None:
    """On an iPhone's browser, which tells that it is not standing alone, nothing can be joined or recorded."""
    page = phone.open(has_touch=True)
    page.add_init_script(
        "Object.defineProperty(navigator, 'standalone', { value: false });"
        "Object.defineProperty(navigator, 'maxTouchPoints', { value: 5 });"
    )
    page.reload()
    expect(page.get_by_role("heading", name="Put this on the home screen first")).to_be_visible()
    expect(page.get_by_label("Code")).to_have_count(0)


def test_list_of_the_app_names_every_file_it_loads(phone: Phone, laptop: Laptop) -> None:
    """What the page asks for at its start is in the list the worker keeps, so that nothing is missing offline."""
    page = phone.open()
    asked = page.evaluate("performance.getEntriesByType('resource').map(({ name }) => new URL(name).pathname)")
    listed = json.loads(page.evaluate("fetch('/sw.js').then((one) => one.text())").split(";\n")[0].split("=", 1)[1])
    pages = {path for path in asked if not path.startswith("/phone/hello")}
    assert pages <= set(listed["files"]) | {"/sw.js"}
