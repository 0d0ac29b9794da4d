"""The app around the pages: new versions, a second address, what keeps phones from recording too early, and access."""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Playwright, expect

from fieldbook import folders
from fieldbook.book.opening import create_book
from tests.browser.conftest import FLAGS
from tests.browser.phones import CONTROLLED, Laptop, Phone, until
from tests.browser.serving import that_refuses_once, that_refuses_until, under_another_name, with_files_from
from tests.sites import survey


@pytest.fixture
def laptop(tmp_path: Path) -> Iterator[Laptop]:
    """A served book with a site, a room and a face."""
    with create_book(tmp_path / "book") as book:
        survey(book)
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
    changed.write_text(today.read_text(encoding="utf-8").replace("New room", "Another room"), encoding="utf-8")
    top = "document.querySelector('#name').getBoundingClientRect().top"
    stood = page.evaluate(top)
    changed.replace(today)  # in one step: the phone asks for the version now and then, and half a file is one too
    offered = page.locator("#notices", has_text="A new version of the app is ready")

    def offers() -> bool:
        page.evaluate("navigator.serviceWorker.getRegistration('/phone/').then((one) => one.update())")
        return offered.is_visible()

    # A browser that is asked while it still waits for the answer to an earlier asking, of the list as it was before,
    # takes that answer for this one too, and never asks again by itself.
    until(offers)
    expect(page.locator("#notices")).to_be_in_viewport()
    assert page.evaluate(top) == stood  # nothing moves under a finger
    expect(page.locator("#name")).to_have_value("Old paint")
    page.get_by_role("button", name="Use it now").click()
    expect(page.locator("#said")).to_contain_text("A new version of the app is in use")
    expect(page.locator("#name")).to_have_value("Old paint")
    again = page.get_by_role("button", name="Use it now")

    def cleared() -> bool:
        kept = page.evaluate(files)
        if again.is_visible():  # one more came meanwhile: it is taken up as well, and nothing is cleared before that
            again.click()
        return len(kept) == 1 and kept != before

    # The new worker fills its own files first and clears the old ones away only once it has taken over.
    until(cleared)
    expect(phone.go("#/").get_by_role("link", name="Another room")).to_be_visible()
    laptop.stop()
    page.reload()
    expect(page.get_by_role("link", name="Another room")).to_be_visible()


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


def test_app_that_did_not_come_whole_says_so_and_is_fetched_again(phone: Phone, laptop: Laptop) -> None:
    """One file is missing at first: until all are here the page tells that it does not open without the laptop."""
    laptop.stop()
    laptop.start(that_refuses_once("/phone/icon-mask.png"))
    page = phone.open()
    expect(page.locator("#notices")).to_contain_text("does not open without the laptop")
    page.evaluate("dispatchEvent(new Event('online'))")
    page.evaluate(CONTROLLED)
    expect(page.locator("#notices")).not_to_contain_text("does not open without the laptop")


def test_app_of_which_a_script_did_not_come_says_so_and_opens_when_it_is_loaded_again(
    phone: Phone, laptop: Laptop, tmp_path: Path
) -> None:
    """The script is missing: nobody is left before "Opening the book"."""
    laptop.stop()
    laptop.start(that_refuses_until(tmp_path / "whole", "/phone/app.js"))
    page = phone.open()
    expect(page.locator("#page")).to_contain_text("Not all of the app has come to this phone")
    (tmp_path / "whole").touch()
    code = page.get_by_label("Code")
    page.get_by_role("button", name="Load again").or_(code).first.click()  # after half a minute it loads by itself
    expect(code).to_be_visible()


def hold_an_older_store(page: Page) -> None:
    """Another window with a store of an earlier version, which it does not let go."""
    other = page.context.new_page()
    other.route("**/*", lambda route: route.fulfill(content_type="text/html"))  # any page of the same address
    other.goto("/phone/")
    other.evaluate(
        "new Promise((keep) => { const asked = indexedDB.open('fieldbook', 1);"
        "asked.onsuccess = () => keep(void (window.held = asked.result)); })"
    )


def test_window_that_holds_an_older_store_is_told_of_while_the_book_opens(phone: Phone, laptop: Laptop) -> None:
    """The book opens as soon as the other window is closed."""
    page = phone.open(before=hold_an_older_store, wait=False, base_url=laptop.address)
    expect(page.locator("#notices")).to_contain_text("Another window of this app holds an older version open")
    page.context.pages[1].close()
    expect(page.get_by_label("Code")).to_be_visible()


def test_opening_that_stands_still_is_tried_once_more_then_told(phone: Phone, laptop: Laptop) -> None:
    """What the app waits for does not come: it is loaded again by itself once, and the second time it is said."""

    def before(page: Page) -> None:
        page.clock.install()
        hold_an_older_store(page)

    page = phone.open(before=before, wait=False, base_url=laptop.address)
    expect(page.locator("#notices")).to_contain_text("Another window")
    with page.expect_navigation():
        page.clock.fast_forward(30_000)
    expect(page.locator("#page")).to_contain_text("Opening the book")
    page.clock.fast_forward(30_000)
    expect(page.locator("#page")).to_contain_text("What was entered on this phone is kept")
    page.context.pages[1].close()
    expect(page.get_by_label("Code")).to_be_visible()


def test_list_of_the_app_names_every_file_it_loads(phone: Phone, laptop: Laptop) -> None:
    """What the page asks for at its start is in the list the worker keeps, so that nothing is missing offline."""
    page = phone.open()
    asked = page.evaluate("performance.getEntriesByType('resource').map(({ name }) => new URL(name).pathname)")
    listed = json.loads(page.evaluate("fetch('/sw.js').then((one) => one.text())").split(";\n")[0].split("=", 1)[1])
    pages = {path for path in asked if not path.startswith("/phone/hello")}
    assert pages <= set(listed["files"]) | {"/sw.js"}
