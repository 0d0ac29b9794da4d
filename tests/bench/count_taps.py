"""The common acts on the phone, counted from its first screen: touches, and characters or figures typed.

A touch on a list of choices counts two, one to open it and one to choose; a figure that stands already takes two
more, to select it; a photograph three: the button, the release, and keeping it.

Run by hand: python -m tests.bench.count_taps
"""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import FilePayload, Locator, Page, sync_playwright

from fieldbook.book.book import create_book
from tests.browser.phones import Laptop, Phone
from tests.sites import picture, survey

SIXTY = 60
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
        """Touch an empty field and type."""
        self.page.locator(f"#page #{field}").fill(text)
        self.taps += 1
        self.typed += len(text)

    def replace(self, field: str, text: str) -> None:
        """Touch a field that holds something, select that, and type."""
        self.write(field, text)
        self.taps += 2

    def choose(self, field: str, words: str) -> None:
        """Open a list and choose from it."""
        self.page.locator(f"#page #{field}").select_option(label=words)
        self.taps += 2

    def shoot(self, field: str) -> None:
        """Press the button, release the camera, keep the picture."""
        self.page.locator(f"#page #{field}").set_input_files(SHOT)
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


def to_the_face(thumb: Thumb) -> None:
    """From the first screen."""
    thumb.tap("Long room")
    thumb.tap("North wall")


def may_i_drill_here(thumb: Thumb) -> None:
    """Where something of 12 mm radius is to touch."""
    to_the_face(thumb)
    thumb.tap("May I, here?")
    thumb.write("here-x", "1200")
    thumb.write("here-z", "1540")
    thumb.write("here-radius", "12")
    thumb.page.locator(".finding", has_text="May I drill?").wait_for()


def tick_with_measured_place(thumb: Thumb) -> None:
    """A planned fixing, measured where it came to sit."""
    thumb.tap("North wall")
    thumb.tap(thumb.page.locator("details a", has_text="D1.1"))
    thumb.replace("fitted_x_mm", "1103")
    thumb.replace("fitted_z_mm", "1544")
    thumb.save("Fitted")


def its_photograph(thumb: Thumb) -> None:
    """Of that fixing, as fitted."""
    to_the_face(thumb)
    thumb.tap(thumb.page.locator(".booking a", has_text="D1.1"))
    thumb.tap("Photograph")
    thumb.choose("purpose", "as fitted")
    thumb.shoot("camera-file")
    thumb.page.get_by_text("kept on this phone").wait_for()
    thumb.save()


def fill_fixing(thumb: Thumb, mark: str, x: str) -> None:
    """What a fixing cannot do without."""
    thumb.choose("fitting", "D1 Rail (R1-N)")
    thumb.write("mark", mark)
    thumb.choose("sort", "clamp")
    thumb.write("x_mm", x)
    thumb.write("z_mm", "1540")
    thumb.write("contact_radius_mm", "12")
    thumb.choose("hole", "none")
    thumb.choose("fabric", "old fabric")
    thumb.choose("trace", "none")
    thumb.save()


def new_fixing(thumb: Thumb) -> None:
    """A clamp that holds the rail."""
    to_the_face(thumb)
    thumb.tap("New…")
    thumb.tap(thumb.page.locator("a", has=thumb.page.get_by_text("Fixing", exact=True)))
    fill_fixing(thumb, "D1.7", "1400")


def zone(thumb: Thumb) -> None:
    """Four corners about paint that nothing may touch."""
    to_the_face(thumb)
    thumb.tap("New…")
    thumb.tap("Keep-off zone")
    thumb.write("name", "Paint")
    thumb.write("outline", "300 300\n600 300\n600 500\n300 500")
    thumb.tap(thumb.page.get_by_role("checkbox", name="contact"))
    thumb.write("margin_mm", "20")
    thumb.write("reason", "painted")
    thumb.save()


def new_face(thumb: Thumb) -> None:
    """A wall with its size."""
    thumb.tap("Long room")
    thumb.tap("New face")
    thumb.write("mark", "R1-S")
    thumb.write("name", "South wall")
    thumb.choose("sort", "wall")
    thumb.write("width_mm", "4800")
    thumb.write("height_mm", "2900")
    thumb.save()


def new_fitting(thumb: Thumb) -> None:
    """A rail with place and size."""
    to_the_face(thumb)
    thumb.tap("New…")
    thumb.tap(thumb.page.locator("a", has=thumb.page.get_by_text("Fitting", exact=True)))
    thumb.write("mark", "D2")
    thumb.write("name", "Rail")
    thumb.write("x_mm", "2400")
    thumb.write("z_mm", "1500")
    thumb.write("width_mm", "1000")
    thumb.write("height_mm", "80")
    thumb.save()


def observation(thumb: Thumb) -> None:
    """What was seen in the room, with its class."""
    thumb.tap("Long room")
    thumb.tap("New…")
    thumb.tap("Observation")
    thumb.write("what", "Plaster hollow")
    thumb.choose("condition_class", "1")
    thumb.choose("urgency_class", "1")
    thumb.save()


def signed_agreement(thumb: Thumb) -> None:
    """A yes to the rail and its fixings, signed."""
    thumb.tap("The site")
    thumb.tap("Agreement")
    thumb.write("reference", "A1")
    for heading in ("Fittings (", "Fixings ("):
        thumb.tap(thumb.page.locator("#items summary", has_text=heading))
    for words in ("D1 Rail (R1-N)", *(f"D1.{number}" for number in range(1, 7))):
        thumb.tap(thumb.page.get_by_role("checkbox", name=words))
    thumb.choose("answer", "yes")
    thumb.write("words", "Clamps on the dado")
    thumb.write("said_by", "caretaker")
    thumb.sign()
    thumb.save()


def new_room(thumb: Thumb) -> None:
    """Mark and name."""
    thumb.tap("New room")
    thumb.write("mark", "R2")
    thumb.write("name", "Store")
    thumb.save()


def sixty_fixings(thumb: Thumb) -> None:
    """One by its form, and another like it as often as is needed: each of these costs what the first of them does."""
    new_fixing(thumb)
    before = thumb.taps, thumb.typed
    thumb.tap("Another like this")
    thumb.write("mark", "D1.8")
    thumb.write("x_mm", "1500")
    thumb.write("z_mm", "1540")
    thumb.save()
    more = thumb.taps - before[0], thumb.typed - before[1]
    thumb.taps += (SIXTY - 2) * more[0]
    thumb.typed += (SIXTY - 2) * more[1]


ACTS: tuple[Callable[[Thumb], None], ...] = (
    may_i_drill_here,
    tick_with_measured_place,
    its_photograph,
    new_fixing,
    zone,
    new_face,
    new_fitting,
    observation,
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
    "signed_agreement": (18, 29),
    "new_room": (4, 7),
    "sixty_fixings": (314, 722),
}


def furnish(folder: Path) -> None:
    """A wall with a rail and six clamps that are planned."""
    with create_book(folder) as book:
        known = survey(book)
        known.looked()
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
        phone.open()
        phone.join(laptop.code())
        laptop.stop()
        print(f"{'':28}{'before':>20}{'now':>20}")
        for act in ACTS:
            taps, typed = counted(act, phone.page, laptop.address)
            old = BEFORE.get(act.__name__)
            told = f"{old[0]} taps, {old[1]}" if old else "–"
            print(f"{act.__name__.replace('_', ' '):28}{told:>20}{f'{taps} taps, {typed}':>20}")
        phone.close()


if __name__ == "__main__":
    main()
