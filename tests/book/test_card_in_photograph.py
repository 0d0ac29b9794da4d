"""A colour from a photograph, and a face laid flat from one, whatever sort of picture it is."""

from __future__ import annotations

from io import BytesIO

import pytest
from PIL import Image

from fieldbook.book.book import Book
from fieldbook.book.card_in_photograph import colour_in
from fieldbook.book.photographs import keep, small_copy
from fieldbook.checks.clearance import Stretch
from fieldbook.checks.picture_plane import plane_of
from fieldbook.drawing.rectified import rectified
from fieldbook.errors import OutOfRange
from tests.sites import carded, exchanged, saved

GREY_CARD = [[100, 100, 40, 70, 0, 0]]
FINISH = (300, 100, 40)
SQUARE = plane_of([(0, 200, 0, 0), (400, 200, 800, 0), (400, 0, 800, 400), (0, 0, 0, 400)])
OTHER = Image.new("RGB", (400, 200), (0, 200, 0))
RUBBISH = b"Exif\0\0II*\0\x08\0\0\0" + b"\xff" * 4000


def turned_round() -> bytes:
    """The picture with red and blue exchanged, and a profile that says so."""
    red, green, blue = carded().split()
    return saved(Image.merge("RGB", (blue, green, red)), icc_profile=exchanged())


ODD = {
    "inks": saved(carded().convert("CMYK"), "JPEG", quality=95),
    "palette": saved(carded().quantize(4)),
    "palette that shows through elsewhere": saved(carded().quantize(4), transparency=3),
    "with a channel that hides nothing": saved(carded().convert("RGBA")),
    "moving": saved(carded(), save_all=True, append_images=[OTHER]),
    "notes that make no sense": saved(carded(), "JPEG", quality=95, exif=RUBBISH),
    "of other colours": turned_round(),
}


@pytest.mark.parametrize("content", ODD.values(), ids=ODD.keys())
def test_odd_picture_gives_the_colour_it_shows(empty_book: Book, content: bytes) -> None:
    """The finish beside the grey comes out as from a plain picture."""
    kept = keep(empty_book, content)
    photograph = {"sha256": kept.sha256, "width_px": kept.width_px, "card_patches": GREY_CARD}
    matched, _ = colour_in(empty_book, photograph, *FINISH)
    assert matched.lab == pytest.approx((62, 8, 20), abs=1)


@pytest.mark.parametrize("content", ODD.values(), ids=ODD.keys())
def test_odd_picture_is_laid_flat_as_it_looks(empty_book: Book, content: bytes) -> None:
    """Each half of the face has the colour of its half of the picture."""
    kept = keep(empty_book, content)
    copy = small_copy(empty_book, kept.sha256, 1600).read_bytes()
    with Image.open(BytesIO(rectified(copy, kept.width_px, SQUARE, Stretch(0, 800, 0, 400)))) as flat:
        for across in (400, 1200):
            assert flat.getpixel((across, 400)) == pytest.approx(carded().getpixel((across // 4, 100)), abs=4)


def test_grey_of_sixteen_bits_is_as_light_as_it_is(empty_book: Book) -> None:
    """Two greys, of L* 50 and 70 as sRGB has them (IEC 61966-2-1), are told apart by their sixteen bits."""
    image = Image.new("I;16", (400, 200), 119 * 257)
    image.paste(171 * 257, (0, 0, 200, 200))
    kept = keep(empty_book, saved(image))
    photograph = {"sha256": kept.sha256, "width_px": kept.width_px, "card_patches": GREY_CARD}
    matched, _ = colour_in(empty_book, photograph, *FINISH)
    assert matched.lab == pytest.approx((50, 0, 0), abs=0.6)


def test_finish_that_shows_through_is_refused(empty_book: Book) -> None:
    """Where nothing is but paper there is no colour to be measured."""
    image = carded().convert("RGBA")
    image.paste((0, 0, 0, 0), (200, 0, 400, 200))
    kept = keep(empty_book, saved(image))
    photograph = {"sha256": kept.sha256, "width_px": kept.width_px, "card_patches": GREY_CARD}
    with pytest.raises(OutOfRange) as refusal:
        colour_in(empty_book, photograph, *FINISH)
    assert (refusal.value.field, refusal.value.value) == ("card_patches", 255)
