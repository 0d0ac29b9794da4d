"""Whether a fixing lies off what it belongs to: its face, its fitting, the other one it joins, its hold, its board."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..book.site import Item, Site
from ..checks.clearance import Stretch
from ..checks.limits import rounded_up
from ..checks.verdict import Verdict, Word
from . import geometry
from .finding import Outcome
from .rulings import AT_HOLD_MM

SOURCE = "plane geometry of the places entered"
# A hold of these sorts is one place; a frame, flange or moulding runs on, and how far is not entered.
ONE_PLACE = frozenset({"hole", "hook", "bolt"})
# What reaches from the fabric to its fitting over some distance; all else lies on its fitting.
REACHING = frozenset({"hook", "strap", "prop", "weight"})

Wrong = tuple[float, str, Item | None]
"""By how much, in mm; the sentence; and what it collides with."""


def beyond(face: Item, part: Stretch) -> Iterator[Wrong]:
    whole = geometry.face_stretch(face)
    over = max(whole.x_from - part.x_from, part.x_to - whole.x_to, whole.z_from - part.z_from, part.z_to - whole.z_to)
    if over > 0:
        yield over, f"It reaches {rounded_up(over):g} mm beyond the edge of {face.called}.", face


def reaching_past(face: Item, fixing: Item) -> Outcome | None:
    """What touches the fabric and may reach round a corner, where something else is to be kept; None within its face.

    How far it reaches is told of its far corner: it need not reach so far that way.
    """
    if fixing.fabric == "another fitting":
        return None
    past = next(beyond(face, geometry.fixing_stretch(fixing)), None)
    if past is None:
        return None
    figure = rounded_up(past[0])
    sentence = f"What touches round it may reach {figure:g} mm beyond the edge of {face.called}. Look at what is there."
    return Outcome(Verdict("place", Word.CLOSE, figure, None, None, "mm", sentence, SOURCE), face)


def off_its_fitting(site: Site, fixing: Item, at: tuple[float, float]) -> Iterator[Wrong]:
    """A fixing that does not lie on the fitting it is said to hold."""
    fitting = site.get(fixing.fitting)
    if fitting is None or fitting.face != fixing.face or fixing.sort in REACHING:
        return
    moves = fitting.moves_mm or 0  # blank: it stays where it is
    off = away_from(geometry.fitting_stretch(fitting), at, moves) - fixing.contact_radius_mm
    if off > 0:
        yield off, f"It lies {rounded_up(off):g} mm off {fitting.called}, which it is to hold.", fitting


def off_the_other(site: Site, fixing: Item, at: tuple[float, float]) -> Iterator[Wrong]:
    """A fixing that does not lie on the other fitting it is said to be fixed to."""
    other, own = site.get(fixing.other_fitting), site.get(fixing.fitting)
    if other is None or own is None or fixing.fabric != "another fitting" or fixing.sort in REACHING:
        return
    if other.face == fixing.face:
        moves = max(one.moves_mm or 0 for one in (own, other))
        off = away_from(geometry.fitting_stretch(other), at, moves) - fixing.contact_radius_mm
        if off > 0:
            yield off, f"It lies {rounded_up(off):g} mm off {other.called}, which it is to be fixed to.", other


def off_its_hold(site: Site, fixing: Item, at: tuple[float, float]) -> Iterator[Wrong]:
    member = site.get(fixing.member)
    if member is not None and member.face != fixing.face:
        yield math.inf, f"{member.called}, which it is let into, is on another face.", member
    hold = site.get(fixing.hold)
    if hold is None:
        return
    if hold.face != fixing.face:
        yield math.inf, f"{hold.called}, which it is to use, is on another face.", hold
    elif hold.sort in ONE_PLACE:
        off = math.hypot(at[0] - hold.x_mm, at[1] - hold.z_mm)
        if off > AT_HOLD_MM:
            yield off, f"It lies {rounded_up(off):g} mm from {hold.called}, which it is to use.", hold


def away_from(part: Stretch, at: tuple[float, float], moves_mm: float = 0) -> float:
    """How far a place lies off a rectangle that may be moved so far to either side, mm; 0 on it."""
    x, z = at
    across = max(part.x_from - moves_mm - x, x - part.x_to - moves_mm, 0)
    return math.hypot(across, max(part.z_from - z, z - part.z_to, 0))
