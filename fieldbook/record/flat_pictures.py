"""The pictures of faces laid flat that the record prints: under a drawing, and before beside after."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress

from ..book.book import Book
from ..book.photographs import UnsuitablePhotograph
from ..book.storage import StorageFailed
from ..drawing.elevation import drawn_part
from ..drawing.rectified import laid_flat
from .contents import FaceSheet, Record

LONGEST_PX = 1000
"""Longest side of a face laid flat: about 150 dots per inch at the 172 mm it is printed at, at most."""

PAIR_MM = (83.0, 70.0)
"""Room for each of two pictures side by side, width and height, mm."""

SCALES = (5, 10, 20, 25, 50, 100, 200, 500, 1000)


def pair_scale(sheet: FaceSheet) -> int:
    """The scale, 1 to this, at which the part both photographs show finds room."""
    part = sheet.pair.part  # type: ignore[union-attr]
    wide, high = part.x_to - part.x_from, part.z_to - part.z_from
    return next((one for one in SCALES if wide / one <= PAIR_MM[0] and high / one <= PAIR_MM[1]), SCALES[-1])


def flat_pictures(record: Record, book: Book) -> Iterator[tuple[str, bytes]]:
    """Address and JPEG of each; one whose file is missing or damaged is left out, which the page says."""
    for sheet in (sheet for room in record.rooms for sheet in room.faces):
        wanted = []
        if sheet.under:
            wanted.append((f"app:under/{sheet.face.id}", sheet.under, drawn_part(sheet.face), True))
        if sheet.pair:
            for name, taken in (("before", sheet.pair.before), ("after", sheet.pair.after)):
                wanted.append((f"app:{name}/{sheet.face.id}", taken, sheet.pair.part, False))
        for address, taken, part, faint in wanted:
            with suppress(UnsuitablePhotograph, StorageFailed):
                yield address, laid_flat(book, taken, part, faint=faint, longest_px=LONGEST_PX)
