"""The colour of something in a photograph, by the card that was photographed beside it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from PIL import Image

from ..checks.card_colour import FULL_CARD, Correction, Matched, PatchSeen, correction_of, seen_in
from ..errors import FieldbookError, OutOfRange
from .book import Book
from .photographs import small_copy

LONGEST_PX = 1600
Patch = tuple[PatchSeen, Sequence[float]]
Pixels = list[tuple[int, int, int]]


def colour_in(
    book: Book, photograph: Mapping[str, Any], across_px: float, down_px: float, reach_px: float
) -> tuple[Matched, Correction]:
    """The colour of a square of a photograph, and the correction its card gave.

    A patch that is badly lit is left out, as long as the others still make a full card.

    photograph            the fields of the photograph's item; its `card_patches` tell where the card is
    across_px, down_px    middle of the square, px of the upright picture; reach_px half its side
    Raises what `correction_of` and `seen_in` raise, OutOfRange for what lies beside the picture, and the errors of
    the photograph's file.
    """
    with Image.open(small_copy(book, photograph["sha256"], LONGEST_PX)) as opened:
        picture = opened.convert("RGB")
    share = picture.width / (photograph["width_px"] or picture.width)
    rows: Sequence[Sequence[float]] = photograph["card_patches"] or ()
    correction = correction_of(_card(picture, share, rows))
    return correction.colour(seen_in(_pixels(picture, share, (across_px, down_px, reach_px)))), correction


def measured_again(
    photograph: Mapping[str, Any], finish: str, matched: Matched, correction: Correction
) -> dict[str, Any]:
    """What is entered of a finish whose colour was taken from a photograph: the fields of a colour measured again."""
    lab = {name: round(part, 1) for name, part in zip(("lab_l", "lab_a", "lab_b"), matched.lab, strict=True)}
    how = f"photograph with {'a card' if correction.patches >= FULL_CARD else 'a grey'} beside it"
    said = in_words(photograph, matched, correction)
    return lab | {
        "finish": finish,
        "on": (photograph["taken_at"] or date.today().isoformat())[:10],
        "lab_white": "D65",
        "instrument": how,
        "taken_by": photograph["taken_by"],
        "note": f"{said} Photograph {photograph['sha256'][:8]}; an instrument goes before.",
    }


def in_words(photograph: Mapping[str, Any], matched: Matched, correction: Correction) -> str:
    """A colour, how sure it is, and how many patches it rests on."""
    lab = ", ".join(f"{name} {part:.1f}" for name, part in zip(("L*", "a*", "b*"), matched.lab, strict=True))
    known = "1 known patch" if correction.patches == 1 else f"{correction.patches} known patches"
    left_out = len(photograph["card_patches"]) - correction.patches
    more = f" ({left_out} more badly lit, left out)" if left_out else ""
    return f"{lab}, to about {matched.within:.1f} (CIEDE2000), from {known}{more}."


def _card(picture: Image.Image, share: float, rows: Sequence[Sequence[float]]) -> list[Patch]:
    patches, refused = [], []
    for number, row in enumerate(rows, 1):
        try:
            pixels = _pixels(picture, share, row[:3])
        except FieldbookError as error:
            raise _numbered(number, error) from None
        try:
            patches.append((seen_in(pixels), row[3:6]))
        except FieldbookError as error:
            refused.append(_numbered(number, error))
    if refused and len(patches) < FULL_CARD:
        raise refused[0]
    return patches


def _numbered(number: int, error: FieldbookError) -> FieldbookError:
    error.reason = f"Patch {number} of the card: {error.reason}"
    return error


def _pixels(picture: Image.Image, share: float, place: Sequence[float]) -> Pixels:
    across, down, reach = (part * share for part in place)
    box = round(across - reach), round(down - reach), round(across + reach), round(down + reach)
    if box[0] < 0 or box[1] < 0 or box[2] > picture.width or box[3] > picture.height:
        raise OutOfRange(
            f"It reaches beyond the photograph: {place[0]:g} across, {place[1]:g} down, {place[2]:g} to each side.",
            "Mark it inside the picture, or with a smaller reach.",
            field="card_patches",
            value=list(place),
        )
    content = picture.crop(box).tobytes()
    return list(zip(content[0::3], content[1::3], content[2::3], strict=True))
