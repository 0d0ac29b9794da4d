"""What is got from a photograph: where a point of it lies on the face, and a colour by the card beside it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ..checks import card_colour, colour_difference, linear_light, picture_plane
from ..checks.plane_marks import LEAST, MOST, OFF_MM
from .description import Calculation, Result, column, mm, number, row, table

PX = ("px", 0, 100_000)
POINT = (column("across_px", "across", *PX), column("down_px", "down", *PX))


def _placed(marks: Sequence[Sequence[Any]], mark_px: float, point_px: Sequence[float]) -> Result:
    plane = picture_plane.plane_of([(*mark[:4], mark[4] or 0.0) for mark in marks], mark_px)
    spot = plane.place(*point_px)
    steps = [("marks that fit one another", "yes, with more than four" if plane.checked else "four always do")]
    if plane.times > 1:
        steps.append(("they miss more than stated by", f"{plane.times:.1f} times"))
    figures = {**spot._asdict(), "residuals_mm": plane.residuals_mm, "times": plane.times}
    return Result(figures, (picture_plane.SOURCE,), steps=tuple(steps))


PLACE = Calculation(
    "photograph-place",
    "Where a point of a photograph lies on the wall",
    "Where on a flat face a point of a photograph lies, mm, by marks whose places are known, and how far it may be "
    "off in 95 cases of 100.",
    (
        table("marks", "Marks", *POINT, column("x_mm", "x"), column("z_mm", "z"),
              mm("off_mm", "off", *OFF_MM), least=LEAST, most=MOST, required=True,
              help="one a line: across and down the picture in px, x and z on the face in mm, and how far these may "
                   "be off"),
        number("mark_px", "Marks are accurate to", "px", *picture_plane.MARK_PX, required=True),
        row("point_px", "Point", *POINT, help="across and down the picture", required=True),
    ),
    {"marks": [[212, 1043, 0, 0, 1], [1418, 1011, 2600, 0, 1], [1389, 187, 2600, 1700, 2], [241, 148, 0, 1700, 2],
               [818, 585, 1250, 850, 2]], "mark_px": 2, "point_px": [640, 420]},
    _placed,
)  # fmt: skip

LEVELS = (0, 255)
SEEN = tuple(column(name, name, "", *LEVELS) for name in ("red", "green", "blue"))
LAB = (
    column("lab_l", "L*", "", *colour_difference.LIGHTNESS),
    *(column(name, label, "", *colour_difference.OPPONENT) for name, label in (("lab_a", "a*"), ("lab_b", "b*"))),
)


def _matched(card: Sequence[Sequence[float]], seen_rgb: Sequence[float]) -> Result:
    patches = [(_patch(one[:3]), one[3:]) for one in card]
    correction = card_colour.correction_of(patches)
    matched = correction.colour(_patch(seen_rgb))
    figures = {"lab": matched.lab, "within_delta_e00": matched.within, "card_missed_delta_e00": correction.missed}
    full = correction.patches >= card_colour.FULL_CARD
    steps = (("corrected by", "a matrix of all three channels" if full else "the balance of greys alone"),)
    return Result(figures, (card_colour.SOURCE,), steps=steps)


def _patch(rgb: Sequence[float]) -> card_colour.PatchSeen:
    return card_colour.PatchSeen(linear_light.light_of(rgb), 0.0)


COLOUR = Calculation(
    "card-colour",
    "Colour from a photograph with a grey or colour card",
    "A colour from a photograph, CIELAB for D65 and 2°, by a grey or a card of known colours in the same light.",
    (
        table("card", "Card", *SEEN, *LAB, most=200, required=True,
              help="its patches, one a line: red, green and blue as the photograph has them, 0 to 255, then the known "
                   "L*, a*, b*; one grey is enough for the balance, six or more correct the colours as well"),
        row("seen_rgb", "Patch", *SEEN, help="red, green and blue of the finish, means of its pixels", required=True),
    ),
    {"card": [[171, 152, 118, 72, 0, 0], [96, 84, 63, 42, 0, 0]], "seen_rgb": [139, 102, 61]},
    _matched,
)  # fmt: skip

CALCULATIONS = (PLACE, COLOUR)
