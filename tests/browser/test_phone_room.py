"""A phone without room, by a quota the browser keeps in earnest; and presses that must not cost anything."""

from __future__ import annotations

import io
import random
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Page, Playwright, expect

from fieldbook.book.opening import create_book
from fieldbook.book.photographs import keep
from tests.browser.phones import InstalledApps, Laptop, Phone
from tests.sites import survey

SPARE_BYTES = 2_500_000  # two photographs of these tests, or some thousand entries
# Drafts of what does not compress, each smaller than the last that was not taken, until nothing is.
FILL = """async () => {
  const { transact } = (await import("/phone/app.js")).modules["phone/store/database.js"];
  const random = (length) => String.fromCharCode(...crypto.getRandomValues(new Uint16Array(length)));
  const at = new Date().toISOString();
  for (const length of [30_000, 3_000, 300, 30]) {
    for (let number = 0; ; number += 1) {
      const typed = { words: random(length) };
      const draft = { key: `filler ${length} ${number}`, route: "#/", title: "Filler", typed, at };
      try {
        await transact(["drafts"], "readwrite", ({ drafts }) => void drafts.put(draft));
      } catch (error) {
        if (error.code !== "storage-full") throw error;
        break;
      }
    }
  }
}"""


# Whether nothing in the bar of actions answers in the moment another page puts its own there.
WATCH_BAR = """() => {
  const bar = document.getElementById("actions");
  const look = () => (window.stillAtFirst ??= [...bar.children].every((one) => one.inert));
  new MutationObserver(look).observe(bar, { childList: true });
}"""


def noise(seed: int, width: int, height: int) -> bytes:
    """A photograph that does not compress."""
    content = random.Random(seed).randbytes(width * height * 3)
    buffer = io.BytesIO()
    Image.frombytes("RGB", (width, height), content).save(buffer, "JPEG", quality=90)
    return buffer.getvalue()


@pytest.fixture
def laptop(tmp_path: Path, installed: InstalledApps) -> Iterator[Laptop]:
    """A served book with a face, and photographs of it that are large as small copies too."""
    with create_book(tmp_path / "book") as book:
        known = survey(book)
        for seed in range(3):
            kept = vars(keep(book, noise(seed, 800, 600)))
            book.write("photograph", {"site": known.site, "subject": known.face, "purpose": "as found"} | kept)
    running = Laptop(tmp_path / "book", installed.port)
    running.start()
    yield running
    running.stop()


@contextmanager
def joined(held: Phone, laptop: Laptop) -> Iterator[Phone]:
    """A phone that has joined; at the end nothing may have gone wrong in it."""
    held.open()
    held.join(laptop.code())
    yield held
    held.close()
    assert held.troubles == []


@pytest.fixture
def phone(installed: InstalledApps, laptop: Laptop, tmp_path: Path) -> Iterator[Phone]:
    """A phone with room enough."""
    with joined(Phone(tmp_path / "phone", laptop.address, installed=installed), laptop) as held:
        yield held


@pytest.fixture
def phone_alone(driver: Playwright, laptop: Laptop, tmp_path: Path) -> Iterator[Phone]:
    """A phone whose browser can be given less room."""
    with joined(Phone(tmp_path / "phone", laptop.address, driver=driver), laptop) as held:
        yield held


def open_with_little_room(phone: Phone, laptop: Laptop) -> Page:
    """Open the app where the browser gives the origin little more than it uses."""
    used = phone.page.evaluate("async () => (await navigator.storage.estimate()).usage")
    phone.close()

    def limited(page: Page) -> None:
        # The browser remembers what is left from the first write on: the limit must stand before.
        spoken = page.context.new_cdp_session(page)
        limit = {"origin": f"http://127.0.0.1:{laptop.port}", "quotaSize": used + SPARE_BYTES}
        spoken.send("Storage.overrideQuotaForOrigin", limit)

    return phone.open(before=limited)


def face_of(laptop: Laptop) -> str:
    """The id of the face."""
    with laptop.book() as book:
        return str(book.items("face")[0]["id"])


def test_full_phone_keeps_entries_ahead_of_photographs_and_lets_nobody_hang(phone_alone: Phone, laptop: Laptop) -> None:
    """Photographs are refused first, typing is told to be unkept at last; every way out works, and nothing is lost."""
    phone, face = phone_alone, face_of(laptop)
    page = open_with_little_room(phone, laptop)
    notices = page.locator("#notices")
    for seed in range(10, 20):
        phone.go(f"#/photograph/{face}")
        picture = {"name": "a.jpg", "mimeType": "image/jpeg", "buffer": noise(seed, 1000, 800)}
        page.locator("#camera-file").set_input_files(picture)
        expect(page.locator("#camera-said")).to_contain_text("this phone", ignore_case=True)
        if "no more room" in page.locator("#camera-said").inner_text():
            break
        page.locator("#purpose").select_option("as found")
        page.get_by_role("button", name="Save").click()
        expect(page.locator("#said")).to_contain_text("Photograph saved on this phone.")
    expect(notices).to_contain_text("photographs are not, until there is room again")

    laptop.stop()
    phone.go(f"#/new/observation?face={face}")
    phone.write({"kind": "room", "item": "00000000-0000-7000-8000-000000000001", "set": room(laptop, "Kept")})

    page.evaluate(FILL)
    phone.go(f"#/change/{face}")
    page.locator("#name").fill("East wall by the door")
    expect(notices).to_contain_text("What you type is not kept")
    page.get_by_role("button", name="Save").click()
    expect(notices).to_contain_text("this was not saved")
    page.get_by_role("navigation", name="What to do").get_by_role("link", name="On site").click()
    expect(page.get_by_role("link", name="Change R1-N North wall")).to_be_visible()
    page.get_by_role("link", name="Change R1-N North wall").click()
    expect(page.locator("#name")).to_have_value("East wall by the door")

    notices.get_by_role("button", name="Make room").first.click()
    page.get_by_role("button", name="Clear small pictures that can be fetched again").click()
    expect(page.locator("#said")).to_contain_text("3 small pictures cleared")
    expect(notices).not_to_contain_text("What you type is not kept")
    phone.go(f"#/change/{face}")
    expect(page.locator("#name")).to_have_value("East wall by the door")
    page.get_by_role("button", name="Save").click()
    expect(page.locator("#said")).to_contain_text("Saved on this phone.")

    laptop.start()
    phone.send()
    with laptop.book() as book:
        assert "East wall by the door" in {one["name"] for one in book.items("face")}
        assert "Kept" in {one["name"] for one in book.items("room")}


def room(laptop: Laptop, name: str) -> dict[str, str]:
    """What a room of the book's site is entered with."""
    with laptop.book() as book:
        return {"site": str(book.items("site")[0]["id"]), "mark": "R9", "name": name}


def test_two_quick_presses_of_save_make_one_entry_and_press_nothing_else(phone: Phone, laptop: Laptop) -> None:
    """Pressed twice in one breath: one room, its page, and nothing to be pressed yet where Save stood."""
    with laptop.book() as book:
        site = book.items("site")[0]["id"]
    page = phone.go(f"#/new/room?site={site}")
    page.locator("#mark").fill("R2")
    page.locator("#name").fill("Store")
    box = page.get_by_role("button", name="Save").bounding_box()
    assert box
    middle = (box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    page.evaluate(WATCH_BAR)
    page.mouse.dblclick(*middle)
    expect(page.locator("h1")).to_contain_text("Store")
    assert page.evaluate("window.stillAtFirst") is True
    phone.send()
    with laptop.book() as book:
        assert sorted(one["name"] for one in book.items("room")) == ["Long room", "Store"]


def test_throwing_away_asks_and_a_signature_wiped_comes_back(phone: Phone, laptop: Laptop) -> None:
    """A no leaves the form as it was; what was wiped or taken again is a press away."""
    with laptop.book() as book:
        site = book.items("site")[0]["id"]
    page = phone.go(f"#/new/agreement?site={site}")
    page.locator("#words").fill("Clamps only.")
    pad = page.locator(".pad-area")
    pad.scroll_into_view_if_needed()
    box = pad.bounding_box()
    assert box
    page.mouse.move(box["x"] + 30, box["y"] + 20)
    page.mouse.down()
    page.mouse.move(box["x"] + 90, box["y"] + 60, steps=4)
    page.mouse.up()
    expect(pad.locator("path")).to_have_count(1)
    page.get_by_role("button", name="Wipe it").click()
    expect(pad.locator("path")).to_have_count(0)
    page.get_by_role("button", name="Bring back what was wiped").click()
    expect(pad.locator("path")).to_have_count(1)
    page.once("dialog", lambda asked: asked.dismiss())
    page.get_by_role("button", name="Throw this away").click()
    expect(page.locator("#words")).to_have_value("Clamps only.")
    page.once("dialog", lambda asked: asked.accept())
    page.get_by_role("button", name="Throw this away").click()
    expect(page.locator("#said")).to_contain_text("Thrown away.")


def test_photograph_taken_again_leaves_the_one_before_at_hand(phone: Phone, laptop: Laptop) -> None:
    """The one before comes back, is the one that is saved, and the other leaves nothing behind."""
    page = phone.go(f"#/photograph/{face_of(laptop)}")
    for seed, width in ((1, 40), (2, 60)):
        picture = {"name": "a.jpg", "mimeType": "image/jpeg", "buffer": noise(seed, width, 30)}
        page.locator("#camera-file").set_input_files(picture)
        expect(page.locator("#camera-said")).to_contain_text(f"{width} × 30 px")
    page.get_by_role("button", name="Use the one before").click()
    expect(page.locator("#camera-said")).to_contain_text("40 × 30 px")
    page.locator("#purpose").select_option("as found")
    page.get_by_role("button", name="Save").click()
    expect(page.locator("#said")).to_contain_text("Photograph saved on this phone.")
    phone.send()
    assert len(phone.held()["pictures"]) == 1
    with laptop.book() as book:
        assert [one["width_px"] for one in book.items("photograph") if one["height_px"] == 30] == [40]
