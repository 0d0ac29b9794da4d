"""A colour from a photograph, by a grey or a card of known colours beside it.

The light and the exposure are taken out in linear light: by a grey, channel by channel; by a card of six patches or
more also what the camera makes of colours. It holds where card and finish lie in the same light and neither shines.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from statistics import fmean, median
from typing import NamedTuple

from ..errors import Missing, OutOfRange, UnsuitableShape
from .colour_difference import ciede2000
from .limits import within
from .linear import least_squares
from .linear_light import Lab, Light, lab_of_light, light_of, light_of_lab, times

SOURCE = (
    "Linear light: IEC 61966-2-1 (sRGB); CIELAB for D65, 2°: ISO/CIE 11664-4; correction by least squares of a card’s "
    "patches; what is refused: common practice, no source"
)
FULL_CARD = 6  # patches from which on a matrix is found
GREY_CHROMA = 10.0  # of a patch that serves without a full card
CLIPPED, BLACK = 250, 5  # of 255: beyond, a channel no longer tells how much light there was
FEWEST_PIXELS = 25
EIGHT_BIT = 0.6  # what steps of 1 in 255 leave uncertain in a dark colour, CIEDE2000: held in the tests
UNEVEN = 4.0  # lightness between the quarters of a patch: a shadow's edge, a shine
MOST_MISSED = 6.0  # by a card, CIEDE2000: its patches are marked in another order, or the light is not one
_LOOK = "Look whether each patch has its own known colour, and all of them lie in the light of the finish."


class PatchSeen(NamedTuple):
    """A patch as the photograph has it: its light, as shares of full scale, and how its pixels spread, L*."""

    light: Light
    spread: float


class Matched(NamedTuple):
    """A colour for D65, 2°, and how far it may be off, as a colour difference (CIEDE2000)."""

    lab: Lab
    within: float


@dataclass(frozen=True)
class Correction:
    """What the light and the camera have done to colours, undone.

    rows     the matrix that takes a photograph's linear light to that under D65
    patches  how many it was found from
    missed   how far they are from their known colours after it, CIEDE2000, root of the mean square
    """

    rows: tuple[Light, Light, Light]
    patches: int
    missed: float

    def colour(self, seen: PatchSeen) -> Matched:
        """The colour of a patch; raises OutOfRange for one that no surface has."""
        lab = _of_a_surface(lab_of_light(times(self.rows, seen.light)))
        # a grey says nothing of what the camera makes of colours: 3 beside it, common practice, no source
        camera = 0.0 if self.patches >= FULL_CARD else 3.0
        return Matched(lab, math.hypot(2 * self.missed, 2 * seen.spread, camera, EIGHT_BIT))


def seen_in(pixels: Iterable[Sequence[int]]) -> PatchSeen:
    """What the pixels of one patch tell, without those that lie far from the others.

    pixels   red, green and blue of each, 0 to 255, without unit, row by row
    returns  the mean of their light, and how far they spread

    Source: SOURCE; robust mean: the pixels within three scaled median deviations of the median.
    Raises Missing for fewer than 25 pixels, OutOfRange for a patch that is clipped, black, or unevenly lit.
    """
    rows = [tuple(pixel[:3]) for pixel in pixels]
    if len(rows) < FEWEST_PIXELS:
        reason = f"The patch has {len(rows)} pixels in the photograph; {FEWEST_PIXELS} are needed."
        raise Missing(reason, "Take a wider reach, or a photograph from nearer.", field="card_patches")
    middle = [median(row[channel] for row in rows) for channel in range(3)]
    if max(middle) >= CLIPPED:
        raise _badly_lit(f"is clipped: a channel stands at {max(middle):.0f} of 255", "Expose it darker.", max(middle))
    if max(middle) <= BLACK:
        raise _badly_lit(f"is black: no channel is above {max(middle):.0f} of 255", "Bring light to it.", max(middle))
    if min(middle) < 1:
        raise _badly_lit("has no light in one of its channels", "Bring whiter light to it.", min(middle))
    lightness = [lab_of_light(light_of(row))[0] for row in rows]
    quarter = max(1, len(rows) // 4)
    parts = [median(lightness[at : at + quarter]) for at in range(0, quarter * 4, quarter)]
    if max(parts) - min(parts) > UNEVEN:
        apart = max(parts) - min(parts)
        raise _badly_lit(
            f"is unevenly lit: L* differs by {apart:.1f} across it", "Take it out of shadow and shine.", apart
        )
    centre = median(lightness)
    off = 1.4826 * median(abs(value - centre) for value in lightness)
    kept = [row for row, value in zip(rows, lightness, strict=True) if abs(value - centre) <= max(3 * off, 0.5)]
    lights = [light_of(row) for row in kept]
    mean = tuple(fmean(light[channel] for light in lights) for channel in range(3))
    return PatchSeen(mean, off / math.sqrt(len(kept)))  # type: ignore[arg-type]


def correction_of(patches: Iterable[tuple[PatchSeen, Sequence[float]]]) -> Correction:
    """The correction that brings a card's patches to their known colours.

    patches  each as it is seen, with its known L*, a*, b* for D65, without unit
    returns  the correction: a gain for each channel from greys, a matrix from six patches or more

    Source: SOURCE; each patch counts by its share of light, so that dark ones are not drowned.
    Raises Missing without patches, OutOfRange, UnsuitableShape for patches that settle nothing or contradict another.
    """
    known = [(seen, _clean(lab)) for seen, lab in patches]
    if not known:
        raise Missing("No patch of a card is marked.", "Mark a grey of known colour, or a card.", field="card_patches")
    full = len(known) >= FULL_CARD
    if not full and (coloured := [lab for _, lab in known if math.hypot(*lab[1:]) > GREY_CHROMA]):
        raise UnsuitableShape(
            f"The card has {len(known)} patches, one of them coloured (a* {coloured[0][1]:g}, b* {coloured[0][2]:g}).",
            f"Mark greys alone, or {FULL_CARD} patches and more.",
            field="card_patches",
        )
    wanted = [(seen.light, light_of_lab(lab), 1 / max(0.02, lab[0] / 100) ** 1.5) for seen, lab in known]
    rows = _matrix(wanted) if full else _gains(wanted)
    differences = [ciede2000(_of_a_surface(lab_of_light(times(rows, seen.light))), lab) for seen, lab in known]
    missed = math.sqrt(fmean(one**2 for one in differences))
    if missed > MOST_MISSED:
        raise _contradiction(max(zip(differences, known, strict=True))[1][1], max(differences))
    return Correction(rows, len(known), missed)


Wanted = Sequence[tuple[Light, Light, float]]


def _matrix(wanted: Wanted) -> tuple[Light, Light, Light]:
    left = [[weight * part for part in seen] for seen, _, weight in wanted]
    right = [[weight * part for part in light] for _, light, weight in wanted]
    columns = least_squares(left, right)[0]
    return tuple(zip(*columns, strict=True))  # type: ignore[return-value]


def _gains(wanted: Wanted) -> tuple[Light, Light, Light]:
    found = []
    for channel in range(3):
        left = [[weight * seen[channel]] for seen, _, weight in wanted]
        right = [[weight * light[channel]] for _, light, weight in wanted]
        found.append(least_squares(left, right)[0][0][0])
    return ((found[0], 0.0, 0.0), (0.0, found[1], 0.0), (0.0, 0.0, found[2]))


def _of_a_surface(lab: Lab) -> Lab:
    if not (0 <= round(lab[0], 9) <= 100 and abs(lab[1]) <= 200 and abs(lab[2]) <= 200):
        raise OutOfRange(
            f"It comes out as L* {lab[0]:.1f}, a* {lab[1]:.1f}, b* {lab[2]:.1f}, which no surface has.",
            _LOOK,
            field="card_patches",
            value=[round(part, 1) for part in lab],
        )
    return lab


def _contradiction(lab: Lab, difference: float) -> UnsuitableShape:
    named = ", ".join(f"{name} {part:g}" for name, part in zip(("L*", "a*", "b*"), lab, strict=True))
    reason = (
        f"The card’s patches contradict each other: that of {named} comes out {difference:.0f} from it (CIEDE2000)."
    )
    return UnsuitableShape(reason, _LOOK, field="card_patches", value=round(difference, 1))


def _clean(lab: Sequence[float]) -> Lab:
    lightness, a, b = lab
    within("lab_l", round(lightness, 9), 0, 100, "")
    within("lab_a", a, -200, 200, "")
    within("lab_b", b, -200, 200, "")
    return lightness, a, b


def _badly_lit(why: str, remedy: str, value: float) -> OutOfRange:
    return OutOfRange(f"The patch {why}.", remedy, field="card_patches", value=value)
