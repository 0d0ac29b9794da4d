"""The common acts on the phone, counted from its first screen: touches, and characters or figures typed.

A touch on a list of choices counts two, one to open it and one to choose; a figure that stands already takes two
more, to select it; a photograph three: the button, the release, and keeping it.

Run by hand: python -m tests.bench.count_taps
"""

from __future__ import annotations

import re
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import FilePayload, Locator, Page, sync_playwright

from fieldbook.book.opening import create_book
from tests.browser.phones import HELD_PHONE, Laptop, Phone
from tests.sites import picture, survey

ROWS = 6
SEEN = {"condition_class": "1", "urgency_class": "1"}
SHOT: FilePayload = {"name": "a.jpg", "mimeType": "image/jpeg", "buffer": picture()}


@dataclass
class Thumb:
    """What touches the screen, and counts."""

    page: Page
    taps: int = 0
    typed: int = 0

    def tap(self, place: Locator | str) -> None:
        """Touch something once: by its place, or by the words of a link or button."""
        (
            self.page.locator("a, button, summary").filter(has_text=place).first if isinstance(place, str) else place
        ).click()
        self.taps += 1

    def write(self, field: str, text: str) -> None:
        """Touch an empty field, unless the page has gone to it already, and type."""
        place = self.page.locator(f"#page #{field}")
        self.taps += not self._is_at(place)
        place.fill(text)
        self.typed += len(text)

    def write_again(self, field: str, begun: str, text: str) -> None:
        """Type the beginning of words that were entered before, and touch them where they are offered."""
        offered = self.page.locator(f"#{field}-before option").evaluate_all("all => all.map(({ value }) => value)")
        assert [word for word in offered if word.startswith(begun)] == [text]
        self.taps += 1 + (not self._is_at(self.page.locator(f"#page #{field}")))
        self.typed += len(begun)
        self.page.locator(f"#page #{field}").fill(text)

    def _is_at(self, place: Locator) -> bool:
        """Whether a field has the keys; a page goes to it in the moment after it is shown."""
        self.page.evaluate("() => new Promise((go) => requestAnimationFrame(() => requestAnimationFrame(go)))")
        return bool(place.evaluate("field => field === document.activeElement"))

    def replace(self, field: str, text: str) -> None:
        """Touch a field that holds something, select that, and type."""
        self.write(field, text)
        self.taps += 2

    def choose(self, field: str, words: str) -> None:
        """Touch a word that stands on a button; else open a list and choose from it."""
        place = self.page.locator(f"#page #{field}")
        if place.is_visible():
            place.select_option(label=words)
            self.taps += 2
        else:
            around = self.page.locator(".input", has=self.page.locator(f"#{field}"))
            self.tap(around.get_by_role("button", name=words, exact=True))

    def keys(self, text: str) -> None:
        """Press figures on the pad, which is there already."""
        for key in text:
            self.page.locator(f'[data-key="{key}"]').click()
        self.typed += len(text)

    def shoot(self, button: Locator) -> None:
        """Press the button, release the camera, keep the picture."""
        with self.page.expect_file_chooser() as chosen:
            button.click()
        chosen.value.set_files(SHOT)
        self.taps += 3

    def sign(self) -> None:
        """Draw a stroke on the pad."""
        area = self.page.locator(".pad-area")
        area.scroll_into_view_if_needed()
        box = area.bounding_box()
        assert box
        self.page.mouse.move(box["x"] + 40, box["y"] + 40)
        self.page.mouse.down()
        self.page.mouse.move(box["x"] + 200, box["y"] + 60, steps=6)
        self.page.mouse.up()
        self.taps += 1

    def save(self, words: str = "Save") -> None:
        """Save, and see that it was."""
        self.tap(self.page.get_by_role("button", name=words, exact=True))
        self.page.locator("#said.shown").wait_for()


def new_on_the_face(thumb: Thumb, like: str) -> None:
    """From the first screen, at the face one was at last, to the form of something like what is there."""
    thumb.tap(thumb.page.get_by_role("link", name=re.compile(f"^Like {like}$")))


def may_i_drill_here(thumb: Thumb) -> None:
    """Where something of 12 mm radius is to touch; at the face one was at last."""
    thumb.tap("May I, at R1-N?")
    thumb.keys("1200")
    thumb.tap(thumb.page.locator("[data-key=next]"))
    thumb.keys("1540")
    thumb.page.locator(".finding", has_text="May I drill?").wait_for()


def tick_with_measured_place(thumb: Thumb, x: str = "1103") -> None:
    """A planned fixing, measured where it came to sit."""
    thumb.tap("North wall")
    thumb.tap(thumb.page.locator("#fitted_x_mm"))
    thumb.keys(x)
    thumb.tap(thumb.page.locator("[data-key=next]"))
    thumb.keys("1544")
    thumb.tap(thumb.page.get_by_role("button", name="Fitted", exact=True))
    thumb.page.locator(".just-done").wait_for()


def its_photograph(thumb: Thumb) -> None:
    """Of the fixing that was just fitted."""
    tick_with_measured_place(thumb, "1253")
    thumb.taps = thumb.typed = 0
    thumb.shoot(thumb.page.locator(".just-done button", has_text="Photograph"))
    thumb.page.locator(".just-done", has_text="1 photograph").wait_for()


def place_fixing(thumb: Thumb, x: str) -> None:
    """What a fixing like the last one cannot do without."""
    thumb.keys(x)
    thumb.tap(thumb.page.locator("[data-key=next]"))
    thumb.keys("1540")
    thumb.save()


def new_fixing(thumb: Thumb) -> None:
    """A clamp that holds the rail, as the last one does."""
    new_on_the_face(thumb, r"D1\.\d+")
    place_fixing(thumb, "1330")


def zone(thumb: Thumb) -> None:
    """Four corners about paint that nothing may touch, as about another on this face."""
    new_on_the_face(thumb, "K1")
    for x, z in (("300", "300"), ("600", "500")):
        thumb.keys(x)
        thumb.tap(thumb.page.locator("[data-key=next]"))
        thumb.keys(z)
        if x == "300":
            thumb.tap(thumb.page.locator("[data-key=next]"))
    thumb.save("Save the rectangle, 300 × 200\N{NO-BREAK SPACE}mm")


def new_face(thumb: Thumb) -> None:
    """A wall with its size."""
    thumb.tap("Long room")
    thumb.tap("New: South wall")
    thumb.write("width_mm", "4800")
    thumb.tap(thumb.page.locator("[data-key=next]"))
    thumb.write("height_mm", "2900")
    thumb.save()


def new_fitting(thumb: Thumb) -> None:
    """A rail with place and size."""
    new_on_the_face(thumb, "D1")
    thumb.keys("2400")
    thumb.tap(thumb.page.locator("[data-key=next]"))
    thumb.keys("1500")
    thumb.save()


def observation(thumb: Thumb) -> None:
    """What was seen at the wall, with its classes, as elsewhere before."""
    thumb.tap("Observation")
    thumb.tap("Plaster hollow: condition 1, urgency 1")
    thumb.save()


def observation_otherwise(thumb: Thumb) -> None:
    """The same, worse than before."""
    thumb.tap("Observation")
    thumb.write_again("what", "Pl", "Plaster hollow")
    thumb.choose("condition_class", "2")
    thumb.choose("urgency_class", "2")
    thumb.save()


def signed_agreement(thumb: Thumb) -> None:
    """A yes to the rail and its fixings, signed."""
    thumb.tap("New at R1-N")
    thumb.tap("On D1 Rail")
    thumb.tap(thumb.page.get_by_role("button", name="yes", exact=True))
    thumb.sign()
    thumb.save()


def new_room(thumb: Thumb) -> None:
    """Its mark goes on counting; its name is typed."""
    thumb.tap("New room")
    thumb.write("name", "Store")
    thumb.save()


def sixty_fixings(thumb: Thumb) -> None:
    """Six rows of ten: the first of each like the last one, and a row like it. What one costs is taken six times."""
    new_on_the_face(thumb, r"D1\.\d+")
    place_fixing(thumb, "1012")
    thumb.tap("A row like this")
    thumb.tap(thumb.page.locator("#row-count"))
    thumb.keys("9")
    thumb.tap(thumb.page.locator("[data-key=next]"))
    thumb.keys("6")
    thumb.tap("Enter the row")
    thumb.page.locator("tr.fixing", has_text="D1.17").wait_for()
    thumb.taps *= ROWS
    thumb.typed *= ROWS


ACTS: tuple[Callable[[Thumb], None], ...] = (
    may_i_drill_here,
    tick_with_measured_place,
    its_photograph,
    new_fixing,
    zone,
    new_face,
    new_fitting,
    observation,
    observation_otherwise,
    signed_agreement,
    new_room,
    sixty_fixings,
)
# Taps and characters of the same acts with the forms alone, counted by this script before there was a place for the
# day's work.
BEFORE = {
    "may_i_drill_here": (6, 10),
    "tick_with_measured_place": (9, 8),
    "its_photograph": (10, 0),
    "new_fixing": (19, 14),
    "zone": (10, 45),
    "new_face": (9, 22),
    "new_fitting": (11, 20),
    "observation": (9, 14),
    "observation_otherwise": (9, 14),
    "signed_agreement": (18, 29),
    "new_room": (4, 7),
    "sixty_fixings": (314, 722),
}


def furnish(folder: Path) -> None:
    """A wall with a rail and six clamps that are planned, paint, and what was seen in the room."""
    with create_book(folder) as book:
        known = survey(book)
        known.looked()
        known.zone()
        book.write(
            "observation", {"room": known.room, "what": "Plaster hollow", "at": "2025-03-11T10:00:00+00:00"} | SEEN
        )
        rail = known.fitting()
        for number in range(1, 7):
            known.fixing(rail, mark=f"D1.{number}", x_mm=950 + 150 * number)


def counted(act: Callable[[Thumb], None], page: Page, address: str) -> tuple[int, int]:
    """What an act costs, begun on the first screen."""
    page.goto("about:blank")
    page.goto(address)
    page.get_by_role("link", name="Long room").wait_for()
    thumb = Thumb(page)
    act(thumb)
    return thumb.taps, thumb.typed


def main() -> None:
    """All of it, on this machine."""
    with tempfile.TemporaryDirectory(dir="/tmp") as name, sync_playwright() as driver:  # noqa: S108 - sockets want short paths
        folder = Path(name)
        furnish(folder / "book")
        laptop = Laptop(folder / "book")
        laptop.start()
        phone = Phone(folder / "phone", laptop.address, driver=driver)
        phone.open(viewport=HELD_PHONE, has_touch=True, is_mobile=True)
        phone.join(laptop.code())
        laptop.stop()
        phone.page.get_by_role("link", name="North wall").click()  # one has been at work here before
        phone.page.locator(".at-work").wait_for()
        print(f"{'':28}{'before':>20}{'now':>20}")
        for act in ACTS:
            print(f"{act.__name__.replace('_', ' '):28}", end="", flush=True)
            taps, typed = counted(act, phone.page, laptop.address)
            old = BEFORE.get(act.__name__)
            told = f"{old[0]} taps, {old[1]}" if old else "–"
            print(f"{told:>20}{f'{taps} taps, {typed}':>20}")
        phone.close()


if __name__ == "__main__":
    main()
