"""The colour of something in a photograph, by the card that was photographed beside it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from PIL import Image

from ..checks.card_colour import Correction, Matched, PatchSeen, correction_of, seen_in
from ..errors import FieldbookError, OutOfRange
from .book import Book
from .photographs import small_copy

LONGEST_PX = 1600


def colour_in(
    book: Book, photograph: Mapping[str, Any], across_px: float, down_px: float, reach_px: float
) -> tuple[Matched, Correction]:
    """The colour of a square of a photograph, and the correction its card gave.

    photograph            the fields of the photograph's item; its `card_patches` tell where the card is
    across_px, down_px    middle of the square, px of the upright picture; reach_px half its side
    Raises what `correction_of` and `seen_in` raise, OutOfRange for what lies beside the picture, and the errors of
    the photograph's file.
    """
    with Image.open(small_copy(book, photograph["sha256"], LONGEST_PX)) as opened:
        picture = opened.convert("RGB")
    share = picture.width / (photograph["width_px"] or picture.width)
    rows: Sequence[Sequence[float]] = photograph["card_patches"] or ()
    patches = [(_numbered(number, picture, share, row[:3]), row[3:6]) for number, row in enumerate(rows, 1)]
    correction = correction_of(patches)
    return correction.colour(_seen(picture, share, (across_px, down_px, reach_px))), correction


def _numbered(number: int, picture: Image.Image, share: float, place: Sequence[float]) -> PatchSeen:
    try:
        return _seen(picture, share, place)
    except FieldbookError as error:
        error.reason = f"Patch {number} of the card: {error.reason}"
        raise


def _seen(picture: Image.Image, share: float, place: Sequence[float]) -> PatchSeen:
    across, down, reach = (part * share for part in place)
    box = round(across - reach), round(down - reach), round(across + reach), round(down + reach)
    if box[0] < 0 or box[1] < 0 or box[2] > picture.width or box[3] > picture.height:
        raise OutOfRange(
            f"It reaches beyond the photograph: {place[0]:g} across, {place[1]:g} down, {place[2]:g} to each side.",
            "Mark it inside the picture, or with a smaller reach.",
            field="card_patches",
            value=list(place),
        )
    square = picture.crop(box)
    content = square.tobytes()
    return seen_in(zip(content[0::3], content[1::3], content[2::3], strict=True))
