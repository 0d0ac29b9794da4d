"""How a rigid plate settles between fixings that only pull and a bed or pads that only press.

The plate moves off the face by c + a·x + b·z. Each fixing pulls in proportion to how far it is drawn out,
each spot of the bed presses in proportion to how far it is pushed in, and neither does the other. Among all
places of the plate the one of least energy balances the load. Sizes are made free of units before that is
looked for, and the only thing asked of a step is which fixings pull and where the bed presses: that pattern
makes the stiffness, and the stiffness makes the next place.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from ..errors import UnsuitableShape

Vector = tuple[float, float, float]
# c, a, b against c, a, b: the six different entries of a symmetric 3 × 3 matrix, row by row.
Stiffness = tuple[float, float, float, float, float, float]
NOTHING: Stiffness = (0.0,) * 6
Springs = Sequence[tuple[float, float, float]]

# Stiffness of a fixing, N/mm, over that of what the plate bears on, N/mm³: stress area times modulus of the fixing
# over modulus of the ground, as in a cracked section. Soft: a steel screw on softwood across the grain
# (11 mm² × 210 000 / 230 N/mm², EN 338, C14) or on a thin lining. Then ground a thousand times as firm: a plugged screw
# on hard stone. Soft ground pulls the hardest pulled fixing hardest, firm ground those nearer to where it presses.
SOFT_MM2 = 10_000.0
FIRMNESS: tuple[float, ...] = (1.0, 1000.0)
# A washer or spacer of 10 mm, the smallest in common use: common practice, no source.
PAD_MM2 = 80.0

STEPS_HIGH = 120
# Share of the whole stiffness that is added to every step, and at first to one that failed.
TRACE, ADDED_FIRST = 1e-12, 1e-5
# Shares of the fall in energy hoped for: less is a poor step, after which more stiffness is added; more a good one.
POOR, GOOD = 0.25, 0.75
# Greatest part of the load that may be left out of balance, where steps lead no nearer, and what counts as a load, N.
BALANCED, BALANCED_ENOUGH = 1e-8, 1e-6
# What each corner of an outline presses as part of the whole area, where the area alone balances nothing.
EDGE_SHARE = 0.01
# Where so little of the load is left, or of the energy to be gained, rounding hides in the energy what is better.
NEAR, ROUNDED = 1e-3, 1e-8
# A plate that goes as far as this, in its own sizes for a load of one on a stiffness of one, is held by nothing.
RUNAWAY = 1e10
NO_LOAD_N = 1e-9


class Spring(NamedTuple):
    """A fixing (pulls only) or a pad (presses only): x and z in mm, stiffness in any one unit, N/mm."""

    x_mm: float
    z_mm: float
    stiffness: float


class Bed(NamedTuple):
    """What the plate lies on along an outline: (x, z) corners in mm, and stiffness per area, N/mm³."""

    outline_mm: Sequence[Sequence[float]]
    stiffness: float


def pulls_n(
    fixings: Sequence[Spring],
    load: Vector,
    pads: Sequence[Spring] = (),
    bed: Bed | None = None,
    firmness: Sequence[float] = (1.0,),
) -> list[float]:
    """What pulls each fixing, by elastic balance of a rigid plate with one-sided contact.

    fixings   at least one; mm and N/mm, above 0
    load      force straight out of the face, N, and its moments Σ(out·x − along·standoff) that draw the right and
              the top side out, N·mm
    pads      spots that press and never pull, mm and N/mm
    bed       outline of an area that presses, mm, and its stiffness, N/mm³
    firmness  what pads and bed are made stiffer by, no unit; of several each fixing gets the greatest pull, and it
              goes quickest from soft to firm
    returns   one pull a fixing, N, none below 0; for one firmness they balance the load, with the pressure of pads
              and bed, to 1e-6

    Source: EN 1992-4:2018, 6.2.1 (rigid plate, strains in one plane, no tension in what it bears on, nothing but
    what is drawn out pulls); clause from memory. By least potential energy, which has one minimum.
    Raises UnsuitableShape where no pulls and pressures whatever can balance the load.

    >>> [round(pull, 2) for pull in pulls_n([Spring(50, 150, 1e4)], (0, 0, 30_000),
    ...                                     bed=Bed([(0, 0), (100, 0), (100, 150), (0, 150)], 10))]
    [222.59]
    """
    try:
        return _greatest_n(_Scaled(fixings, pads, bed), load, firmness)
    except UnsuitableShape:
        if bed is None:
            raise
        # Fixings in line with an edge want the pressure on that very edge: there the corners press as well.
        edge = [Spring(x, z, EDGE_SHARE * bed.stiffness * _extent(bed.outline_mm)) for x, z in bed.outline_mm]
        return _greatest_n(_Scaled(fixings, [*pads, *edge], bed), load, firmness)


def _greatest_n(plate: _Scaled, load: Vector, firmness: Sequence[float]) -> list[float]:
    unit, load = plate.load(load)
    greatest = [0.0] * len(plate.fixings)
    if unit < NO_LOAD_N:
        return greatest
    place = None
    for factor in firmness:
        c, a, b = place = _settled(plate, load, factor, place)
        greatest = [
            max(pull, unit * k * (c + a * x + b * z)) for pull, (x, z, k) in zip(greatest, plate.fixings, strict=True)
        ]
    return greatest


def _extent(outline_mm: Sequence[Sequence[float]]) -> float:
    """Area of the rectangle round an outline, mm²."""
    xs, zs = [x for x, _ in outline_mm], [z for _, z in outline_mm]
    return (max(xs) - min(xs)) * (max(zs) - min(zs))


class _Scaled:
    """The same plate with lengths from −1 to 1 about the fixings' middle and a stiffness of 1 in all fixings."""

    def __init__(self, fixings: Sequence[Spring], pads: Sequence[Spring], bed: Bed | None):
        corners = bed.outline_mm if bed else ()
        whole = sum(fixing.stiffness for fixing in fixings)
        x0 = sum(fixing.stiffness * fixing.x_mm for fixing in fixings) / whole
        z0 = sum(fixing.stiffness * fixing.z_mm for fixing in fixings) / whole
        wide = max(abs(point[0] - x0) for points in (fixings, pads, corners) for point in points) or 1.0
        high = max(abs(point[1] - z0) for points in (fixings, pads, corners) for point in points) or 1.0
        self._frame = x0, z0, wide, high
        self.fixings = [((x - x0) / wide, (z - z0) / high, k / whole) for x, z, k in fixings]
        self.pads = [((x - x0) / wide, (z - z0) / high, k / whole) for x, z, k in pads]
        self.corners = [((x - x0) / wide, (z - z0) / high) for x, z in corners]
        self._bedding = bed.stiffness * wide * high / whole if bed else 0.0
        self.drawn = _of_springs(self.fixings, 1.0, NOTHING)  # as if the whole plate were off the face
        self._pressing = _of_springs(self.pads, 1.0, _of_area(self.corners, self._bedding))

    def load(self, load: Vector) -> tuple[float, Vector]:
        """The load about the fixings' middle, as a size and the load for a size of 1."""
        x0, z0, wide, high = self._frame
        out, right, top = load[0], (load[1] - load[0] * x0) / wide, (load[2] - load[0] * z0) / high
        unit = max(abs(out), abs(right), abs(top))
        return unit, (out / unit, right / unit, top / unit) if unit else (0.0, 0.0, 0.0)

    def all_at_work(self, factor: float) -> Stiffness:
        """As if fixings pressed and bed and pads pulled as well: at least as stiff as the plate ever is."""
        return _firmer(self.drawn, self._pressing, factor)

    def stiffness(self, place: Vector, factor: float) -> Stiffness:
        """Of the fixings that are drawn out and of what is pressed in at this place of the plate."""
        c, a, b = place
        drawn = [spring for spring in self.fixings if c + a * spring[0] + b * spring[1] > 0]
        pressed = [spring for spring in self.pads if c + a * spring[0] + b * spring[1] < 0]
        bed = _of_area(_pressed(self.corners, place), factor * self._bedding) if self.corners else NOTHING
        return _of_springs(drawn, 1.0, _of_springs(pressed, factor, bed))


def _settled(plate: _Scaled, load: Vector, factor: float, place: Vector | None) -> Vector:
    """The place of the plate that balances the load, looked for from a place near it where one is known.

    A step that does not lower the energy is tried again with some of the whole stiffness added; with all of it
    added a step always lowers it.
    """
    whole, added = plate.all_at_work(factor), 0.0
    here = _at(plate, place, load, factor) if place else _first(plate, whole, load, factor)
    for _ in range(STEPS_HIGH):
        if here.off <= BALANCED or max(map(abs, here.place)) > RUNAWAY:
            break
        step = _solved(_firmer(here.stiffness, whole, added + TRACE), here.left)
        hoped = (step[0] * here.left[0] + step[1] * here.left[1] + step[2] * here.left[2]) / 2
        x, y, z = here.place
        tried = _at(plate, (x + step[0], y + step[1], z + step[2]), load, factor)
        gained = (here.energy - tried.energy) / (hoped or 1.0)
        nearer = tried.off < here.off and (here.off < NEAR or hoped < ROUNDED * abs(here.energy))
        if nearer or tried.energy < here.energy:
            here = tried
        if gained < POOR and not nearer:
            added = max(10 * added, ADDED_FIRST)
        elif nearer or gained > GOOD:
            added = added / 10 if added > ADDED_FIRST else 0.0
    if here.off <= BALANCED_ENOUGH and max(map(abs, here.place)) <= RUNAWAY:
        return here.place
    raise UnsuitableShape(
        "Nothing balances this load: the fixings and what the plate bears on leave it free to turn off the face.",
        "Add a fixing away from the others, or say what else the plate bears on.",
        field="fixings",
        value=len(plate.fixings),
    )


class _Place(NamedTuple):
    """The plate at one place: its stiffness there, what of the load is out of balance, the most of it, the energy."""

    place: Vector
    stiffness: Stiffness
    left: Vector
    off: float
    energy: float


def _first(plate: _Scaled, whole: Stiffness, load: Vector, factor: float) -> _Place:
    """A first guess: what is pulled mostly lifts off as a whole, and then that is the answer."""
    if load[0] > 0:
        lifted = _at(plate, _solved(_firmer(plate.drawn, whole, TRACE), load), load, factor)
        if lifted.off <= BALANCED:
            return lifted
    return _at(plate, _solved(whole, load), load, factor)


def _at(plate: _Scaled, place: Vector, load: Vector, factor: float) -> _Place:
    stiffness = plate.stiffness(place, factor)
    s0, s1, s2, s3, s4, s5 = stiffness
    c, a, b = place
    out = load[0] - s0 * c - s1 * a - s2 * b
    right = load[1] - s1 * c - s3 * a - s4 * b
    top = load[2] - s2 * c - s4 * a - s5 * b
    energy = -(c * (out + load[0]) + a * (right + load[1]) + b * (top + load[2])) / 2
    return _Place(place, stiffness, (out, right, top), max(abs(out), abs(right), abs(top)), energy)


def _firmer(stiffness: Stiffness, whole: Stiffness, share: float) -> Stiffness:
    """A stiffness with a share of the whole added."""
    s0, s1, s2, s3, s4, s5 = stiffness
    w0, w1, w2, w3, w4, w5 = whole
    return (
        s0 + share * w0,
        s1 + share * w1,
        s2 + share * w2,
        s3 + share * w3,
        s4 + share * w4,
        s5 + share * w5,
    )


def _pressed(corners: Sequence[tuple[float, float]], place: Vector) -> list[tuple[float, float]]:
    """The part of an outline that is pushed into the bed."""
    c, a, b = place
    kept = []
    last_x, last_z = corners[-1]
    last = c + a * last_x + b * last_z
    for x, z in corners:
        off = c + a * x + b * z
        if (off < 0) != (last < 0):
            share = last / (last - off)
            kept.append((last_x + share * (x - last_x), last_z + share * (z - last_z)))
        if off < 0:
            kept.append((x, z))
        last_x, last_z, last = x, z, off
    return kept


def _of_area(corners: Sequence[tuple[float, float]], k: float) -> Stiffness:
    """Stiffness of an area of the bed: k times its area and its first and second moments, by Green's theorem."""
    if len(corners) < 3:
        return NOTHING
    area = first_x = first_z = second_x = mixed = second_z = 0.0
    last_x, last_z = corners[-1]
    for x, z in corners:
        cross = last_x * z - x * last_z
        area += cross
        first_x += cross * (last_x + x)
        first_z += cross * (last_z + z)
        second_x += cross * (last_x * last_x + last_x * x + x * x)
        mixed += cross * (last_x * z + 2 * (last_x * last_z + x * z) + x * last_z)
        second_z += cross * (last_z * last_z + last_z * z + z * z)
        last_x, last_z = x, z
    if area < 0:  # corners that run the other way round
        k = -k
    return k * area / 2, k * first_x / 6, k * first_z / 6, k * second_x / 12, k * mixed / 24, k * second_z / 12


def _of_springs(springs: Springs, factor: float, start: Stiffness) -> Stiffness:
    """Stiffness of springs, each times a factor, on top of another."""
    s0, s1, s2, s3, s4, s5 = start
    for x, z, k in springs:
        k *= factor
        along, up = k * x, k * z
        s0 += k
        s1 += along
        s2 += up
        s3 += along * x
        s4 += along * z
        s5 += up * z
    return s0, s1, s2, s3, s4, s5


def _solved(stiffness: Sequence[float], load: Vector) -> Vector:
    """Where a plate of this stiffness goes under a load, by elimination."""
    s0, s1, s2, s3, s4, s5 = stiffness
    least = (s0 + s3 + s5) / RUNAWAY / 1e3 or 1.0  # a direction without stiffness runs away rather than divides by 0
    s0 = max(s0, least)
    low1, low2 = s1 / s0, s2 / s0
    pivot1 = max(s3 - low1 * s1, least)
    rest = s4 - low2 * s1
    low3 = rest / pivot1
    pivot2 = max(s5 - low2 * s2 - low3 * rest, least)
    right = load[1] - low1 * load[0]
    b = (load[2] - low2 * load[0] - low3 * right) / pivot2
    a = right / pivot1 - low3 * b
    return load[0] / s0 - low1 * a - low2 * b, a, b
