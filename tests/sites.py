"""Small sites for tests: just enough of one to stand in front of a face."""

from __future__ import annotations

from dataclasses import dataclass
from io import BytesIO
from typing import Any

from PIL import Image
from PIL.ImageCms import ImageCmsProfile, createProfile

from fieldbook.book.book import Book
from fieldbook.checks.linear_light import light_of_lab
from fieldbook.model.choices import LOOKED_FOR

SQUARE = [[0, 0], [100, 0], [100, 100], [0, 100]]


@dataclass(frozen=True)
class Surveyed:
    """A book with one site, one room and one face of 5 m by 3 m, and the ids of them."""

    book: Book
    site: str
    room: str
    face: str

    def zone(self, **more: Any) -> str:
        """A keep-off zone of 100 mm square at the datum."""
        values = {"face": self.face, "mark": "K1", "name": "Old paint", "outline": SQUARE, "forbids": ["contact"]}
        return self.book.write("zone", values | {"margin_mm": 20, "reason": "painted scheme below"} | more)

    def fitting(self, **more: Any) -> str:
        """A planned rail of 1,000 by 80 mm with its projection, at x = 1,000, z = 1,500."""
        place = {"x_mm": 1000, "z_mm": 1500, "width_mm": 1000, "height_mm": 80}
        values = {"face": self.face, "mark": "D1", "name": "Rail", "state": "planned", "build_up": [["rail", 22, 1]]}
        return self.book.write("fitting", values | place | more)

    def fixing(self, fitting: str, **more: Any) -> str:
        """A planned clamp with a jaw of 12 mm radius, without a hole, 100 mm from its fitting's left end at mid-height.

        On the fitting as it is made here that is x = 1,100, z = 1,540.
        """
        holds = self.book.item(fitting)[1]
        place = {"x_mm": holds["x_mm"] + 100, "z_mm": holds["z_mm"] + holds["height_mm"] / 2}
        values = {"fitting": fitting, "face": self.face, "mark": "D1.1", "sort": "clamp", "state": "planned"}
        contact = {"contact_radius_mm": 12, "hole": "none", "trace": "none", "fabric": "old fabric"}
        return self.book.write("fixing", values | place | contact | more)

    def looked(self, *what: str) -> None:
        """Somebody looked for these in the room; for all there is to look for when none is named."""
        rows = [[one, "the surveyor", "with a torch and a detector", "2026-05-04"] for one in what or LOOKED_FOR]
        self.book.write("room", {"looked_for": rows}, item=self.room)

    def limit(self, **more: Any) -> str:
        """A door hung at x = 1,000 that opens to 160°: the leaf of the published cases."""
        values = {"face": self.face, "mark": "L1", "name": "Door", "sort": "leaf", "margin_mm": 0, "leaf": "door"}
        leaf = {"hinge_x_mm": 1000, "hinge_y_mm": 12, "swing_from_deg": 0, "swing_to_deg": 160}
        return self.book.write("limit", values | leaf | {"boxes": [[0, 800, -50, -10]]} | more)


def survey(book: Book) -> Surveyed:
    """Enter the small site into an empty book."""
    site = book.write("site", {"name": "Customs shed", "keeper": "harbour trust caretaker"})
    room = book.write("room", {"site": site, "mark": "R1", "name": "Long room"})
    size = {"width_mm": 5000, "height_mm": 3000}
    face = book.write("face", {"room": room, "mark": "R1-N", "name": "North wall", "sort": "wall"} | size)
    return Surveyed(book, site, room, face)


def picture(width: int = 64, height: int = 48, form: str = "JPEG", **more: Any) -> bytes:
    """The bytes of a small picture."""
    return saved(Image.new("RGB", (width, height), (120, 90, 60)), form, **more)


def noted(moment: Any, offset: Any = None) -> Image.Exif:
    """A camera’s notes of when a picture was taken, as 2026:02:11 09:41:07, and how far its clock is before UTC."""
    exif = Image.Exif()
    exif[0x0112] = 1  # upright; notes of the second level alone are written into no PNG
    exif.get_ifd(0x8769).update(
        {tag: value for tag, value in ((0x9003, moment), (0x9011, offset)) if value is not None}
    )
    return exif


def saved(image: Image.Image, form: str = "PNG", **more: Any) -> bytes:
    """The bytes of a picture's file."""
    buffer = BytesIO()
    image.save(buffer, form, **more)
    return buffer.getvalue()


def carded() -> Image.Image:
    """A picture under a warm, dim light: a grey of L* 70 on its left, a finish of (62, 8, 20) on its right."""
    image = Image.new("RGB", (400, 200))
    for left, lab in ((0, (70, 0, 0)), (200, (62, 8, 20))):
        light = [part * gain for part, gain in zip(light_of_lab(lab), (0.7, 0.55, 0.4), strict=True)]
        levels = tuple(round(255 * (1.055 * part ** (1 / 2.4) - 0.055)) for part in light)
        image.paste(levels, (left, 0, left + 200, 200))
    return image


def exchanged() -> bytes:
    """A colour profile that is sRGB with red and blue exchanged, by the tags of their colourants (ICC.1:2010, 9.2)."""
    profile = ImageCmsProfile(createProfile("sRGB")).tobytes()
    return profile.replace(b"rXYZ", b"____", 1).replace(b"bXYZ", b"rXYZ", 1).replace(b"____", b"bXYZ", 1)


def two_in_one(width: int = 64, height: int = 48) -> bytes:
    """A JPEG with a second, smaller picture behind it, as phones make them (CIPA DC-007, Multi-Picture Format)."""
    buffer = BytesIO()
    second = Image.new("RGB", (width // 2, height // 2), (10, 20, 30))
    Image.new("RGB", (width, height), (120, 90, 60)).save(buffer, "MPO", save_all=True, append_images=[second])
    return buffer.getvalue()
