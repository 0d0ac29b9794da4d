"""Whether what stands out keeps clear of all that swings, passes, must be seen, or has heads below it."""

from __future__ import annotations

import math
from dataclasses import asdict, replace
from typing import Any

from ..book.site import Item, Site
from ..checks import clearance as check
from ..checks.clearance import ClearDepth, Limit, Stretch
from ..checks.limits import rounded_down, rounded_up
from ..checks.verdict import Verdict, Word, not_known
from . import geometry
from .asking import LESS, MORE, NEITHER, Asked, Question, label_of
from .finding import Blank, Outcome, Recalculation
from .limits_here import limits_of, untold
from .looked import SWINGS, ahead, looked, not_looked
from .reach import Reach, fixing_reach, moves_mm, reach_of

# Nobody asks for more headroom than this; codes of practice ask for 2,000 to 2,300 mm: common practice, no source.
HEADROOM_MM = 2_300
LEANS_DEG = 15.0  # a face that leans over so far has heads below it: common practice, no source
TAKEN = "How far it stands out is not entered; head, knob or jaw are taken to lie within its fitting."
INSIDE = "It lies within its fitting, which is held against what must stay clear."
SEEN = "What must be seen is judged from straight in front; whether it is hidden from the side is judged on the spot."


def of_fitting(asked: Asked, fitting: Item) -> Outcome:
    """A fitting's front, at worst, held against the clear depth over the part of the face it covers."""
    part = geometry.fitting_stretch(fitting)
    moves = moves_mm(asked.site, fitting)
    part = replace(part, x_from=part.x_from - moves, x_to=part.x_to + moves)
    return _held(asked, asked.site[fitting.face], part, reach_of(asked.site, fitting))


def of_fixing(asked: Asked, fixing: Item) -> Outcome:
    """What stands out of a fixing by itself, or beside its fitting; what lies within its fitting is not asked."""
    site, part = asked.site, geometry.fixing_stretch(fixing)
    fitting = site.get(fixing.fitting)
    beside = fitting is None or fitting.face != fixing.face or not part.meets(geometry.fitting_stretch(fitting))
    if fixing.stands_out_mm is None and not beside:
        verdict = Verdict("clearance", Word.DOES_NOT_APPLY, None, None, None, "mm", INSIDE, check.SOURCE)
        return Outcome(verdict, assumed=(TAKEN,))
    return _held(asked, site[fixing.face], part, fixing_reach(site, fixing))


def clear_over(site: Site, face: Item, part: Stretch, out_mm: float) -> ClearDepth:
    """The clear depth over a part of a face, for something that stands out so far at least.

    Raises what `geometry.need_upright` raises where that is too far for headroom on a face that leans, and for that
    alone: at which z heads pass there is not known.
    """
    limits = limits_of(site, face)
    clear = check.clear_depth(limits, part)
    if geometry.overhead(face) or geometry.is_upright(face) or clear.depth_mm is None or out_mm <= clear.depth_mm:
        return clear
    sure = check.clear_depth([limit for limit in limits if site[limit.id].sort != "headroom"], part)
    if clear.limited_by is not None and (sure.depth_mm is None or out_mm <= sure.depth_mm):
        geometry.need_upright(face, f"the headroom of {clear.limited_by.name}")
    return sure


def _held(asked: Asked, face: Item, part: Stretch, reach: Reach) -> Outcome:
    site = asked.site
    clear, seen = clear_over(site, face, part, reach.low), looked(asked, face, SWINGS)
    against = site.get(clear.limited_by.id) if clear.limited_by else None
    depth = math.inf if clear.depth_mm is None else clear.depth_mm
    if reach.low > depth or (reach.high <= depth and seen):
        figure = reach.low if reach.low > depth else reach.high
        if geometry.overhead(face) and reach.low <= depth and (low := _low_overhead(site, face, part, figure)):
            return low
        if reach.low <= depth and (low := _below_a_slope(site, face, part)):
            return low
        if reach.low <= depth and (unsure := _past(site, face, part, figure) or _over_a_way(site, face, part, figure)):
            return unsure
        return _outcome(part, figure, reach, clear, against, seen)
    if reach.high > depth:
        return _unsure(reach, clear, against)
    return _not_looked(asked, face, reach, against)


def _outcome(part: Stretch, figure: float, reach: Reach, clear: ClearDepth, against: Item | None, seen: str) -> Outcome:
    if math.isinf(figure):
        sentence = f"Nothing limits the depth here. What swings, passes or must be seen was {seen}."
        return Outcome(Verdict("clearance", Word.WITHIN, None, None, None, "mm", sentence, check.SOURCE))
    verdict = check.held(figure, clear)
    if against is None and seen:
        verdict = replace(verdict, sentence=f"{verdict.sentence} What swings, passes or must be seen was {seen}.")
    verdict = replace(verdict, working=(*reach.steps, *verdict.working))
    assumed = (SEEN,) if against is not None and against.sort == "keep in view" else ()
    return Outcome(verdict, against, assumed=assumed, again=_again(part, figure, clear.limited_by))


def _unsure(reach: Reach, clear: ClearDepth, against: Item | None) -> Outcome:
    """Clear or not, as the case may be with what is not entered."""
    names = "; ".join(label_of(blank) for blank in reach.missing)
    name = clear.limited_by.name if clear.limited_by else ""
    depth, out = check.as_entered(clear.depth_mm or 0), reach.least
    sentence = f"{reach.in_words()}; {check.clear_in_words(depth, name)}. Not entered: {names}."
    verdict = not_known("clearance", tuple(blank.field for blank in reach.missing), sentence, check.SOURCE)
    verdict = replace(verdict, figure=out, limit=depth, unit="mm", working=reach.steps)
    return Outcome(verdict, against, missing=reach.missing)


def _not_looked(asked: Asked, face: Item, reach: Reach, against: Item | None) -> Outcome:
    far = "" if math.isinf(reach.high) else f" It stands out {rounded_up(reach.high):g} mm."
    sentence = f"Nobody has looked for what swings, passes or must be seen in front of {face.called}.{far}"
    sentence += ahead(asked, face, SWINGS)
    verdict = not_known("clearance", ("looked_for",), sentence, check.SOURCE, "mm")
    verdict = replace(verdict, figure=None if math.isinf(reach.high) else rounded_up(reach.high))
    return Outcome(verdict, against, missing=(not_looked(face, SWINGS),))


def _past(site: Site, face: Item, part: Stretch, figure: float) -> Outcome | None:
    """A limit of another wall of which it is not known whether it comes past; None where there is none."""
    sentence, blanks = untold(site, face, part, figure)
    if not blanks:
        return None
    verdict = not_known("clearance", tuple(blank.field for blank in blanks), sentence, check.SOURCE, "mm")
    shown = None if math.isinf(figure) else rounded_up(figure)
    return Outcome(replace(verdict, figure=shown), missing=blanks)


def _over_a_way(site: Site, face: Item, part: Stretch, figure: float) -> Outcome | None:
    """What stands out of a wall over a way lower than heads need, where no headroom is set; None anywhere else."""
    low = part.z_from - check.highest(geometry.floor_of(face), part.x_from, part.x_to)
    limits = limits_of(site, face)
    if geometry.overhead(face) or not geometry.is_upright(face) or low >= HEADROOM_MM:
        return None
    if any(site[limit.id].sort == "headroom" and _reaches(limit, part) for limit in limits):
        return None
    for limit in limits:
        depth = check.clear_depth([replace(limit, band=replace(limit.band, z_from=-math.inf, z_to=math.inf))], part)
        if site[limit.id].sort != "route" or part.z_from < limit.band.z_to or figure <= (depth.depth_mm or math.inf):
            continue
        top = f"which is kept free up to z {limit.band.z_to:g} mm"
        sentence = f"It hangs {rounded_down(low):g} mm above the floor over {limit.name}, {top}, and no headroom is "
        sentence += f"set for {face.called}. Enter a limit of type “headroom”."
        verdict = not_known("clearance", (), sentence, check.SOURCE, "mm")
        return Outcome(verdict, site[limit.id])
    return None


def heads_below(site: Site, face: Item, part: Stretch, out_mm: float) -> Outcome | None:
    """Whether what stands out so far may be in the way of heads for all that is entered; None where it is not."""
    low = _low_overhead(site, face, part, out_mm) if geometry.overhead(face) else None
    return low or _below_a_slope(site, face, part) or _over_a_way(site, face, part, out_mm)


def _reaches(limit: Limit, part: Stretch) -> bool:
    """Whether a headroom is set over all of a part."""
    return limit.leaf is None and limit.band.x_from <= part.x_from and part.x_to <= limit.band.x_to


def _low_overhead(site: Site, face: Item, part: Stretch, figure: float) -> Outcome | None:
    """What hangs over the floor, where nobody said how much headroom must stay; None where that is settled."""
    own = [limit for limit in limits_of(site, face) if limit.leaf is None and limit.projection_mm]
    if check.clear_depth(own, part).limited_by is not None:
        return None  # a headroom or a depth was set for it
    above = geometry.above_floor(site, face)
    if above is None:
        sentence = f"How high {face.called} is above the floor is not entered, so the headroom below it is not known."
        verdict = not_known("clearance", ("above_floor_mm",), sentence, check.SOURCE, "mm")
        return Outcome(verdict, missing=(Blank(face, "above_floor_mm"),))
    if above - figure >= HEADROOM_MM:
        return None
    left = f"{max(above - figure, 0):g} mm above the floor" if not math.isinf(figure) else "over the floor"
    sentence = f"It hangs {left}, and no headroom is set for {face.called}. Enter a limit of type “headroom”."
    return Outcome(not_known("clearance", (), sentence, check.SOURCE, "mm"))


def _below_a_slope(site: Site, face: Item, part: Stretch) -> Outcome | None:
    """What stands on a face that leans over, where nobody said how much headroom must stay; None anywhere else."""
    if geometry.overhead(face) or geometry.is_upright(face) or (face.slope_deg or LEANS_DEG) < LEANS_DEG:
        return None
    limits = limits_of(site, face)
    if any(site[limit.id].sort == "headroom" and _reaches(limit, part) for limit in limits):
        return None
    if face.slope_deg is None:
        sentence = f"How far {face.called} leans over is not entered, so whether heads pass below it is not known."
        verdict = not_known("clearance", ("slope_deg",), sentence, check.SOURCE, "mm")
        return Outcome(verdict, missing=(Blank(face, "slope_deg"),))
    sentence = f"It stands on a face that leans over by {face.slope_deg:g}°, and no headroom is set for {face.called}. "
    sentence += "Enter a limit of type “headroom”."
    return Outcome(not_known("clearance", (), sentence, check.SOURCE, "mm"))


def _again(part: Stretch, figure: float, limit: Limit | None) -> Recalculation | None:
    """The clear depth over the part under the limit that sets it."""
    if limit is None:
        return None
    edges = asdict(limit.band).items()
    given: dict[str, Any] = {
        "band": {f"{name}_mm": edge for name, edge in edges if math.isfinite(edge)},
        "margin_mm": limit.margin_mm,
        "stretch_mm": [part.x_from, part.x_to, part.z_from, part.z_to],
        "projection_mm": figure,
    }
    if limit.leaf is not None and limit.projection_mm is None:
        return Recalculation("clearance", given | {"leaf": asdict(limit.leaf)})
    below = {"below_mm": limit.below_mm} if limit.below_mm else {}
    return Recalculation("clearance", given | {"allowed_mm": limit.projection_mm} | below)


WHERE = {
    "face.looked_for": NEITHER,
    "face.slope_deg": NEITHER,
    "room.looked_for": NEITHER,
    "face.sort": NEITHER,
    "face.above_floor_mm": LESS,
    "room.ceiling_mm": LESS,
    "face.surface": NEITHER,
    "face.floor": NEITHER,
    "face.left_mm": NEITHER,
    "face.bottom_mm": NEITHER,
    "face.width_mm": NEITHER,
    "face.height_mm": NEITHER,
    "face.start_x_mm": NEITHER,
    "face.start_y_mm": NEITHER,
    "face.bearing_deg": NEITHER,
    "limit.sort": NEITHER,
    "limit.margin_mm": MORE,
    "limit.x_from_mm": NEITHER,
    "limit.x_to_mm": NEITHER,
    "limit.z_from_mm": NEITHER,
    "limit.z_to_mm": NEITHER,
    "limit.hinge_x_mm": NEITHER,
    "limit.hinge_y_mm": NEITHER,
    "limit.swing_from_deg": NEITHER,
    "limit.swing_to_deg": NEITHER,
    "limit.boxes": NEITHER,
    "limit.available_mm": LESS,
    "limit.clear_width_mm": MORE,
    "limit.headroom_mm": MORE,
    "limit.projection_mm": LESS,
    "fitting.x_mm": NEITHER,
    "fitting.z_mm": NEITHER,
    "fitting.width_mm": NEITHER,
    "fitting.height_mm": NEITHER,
    "fitting.moves_mm": MORE,
}
STANDING_OUT = {
    "fitting.build_up": NEITHER,
    "fixing.packers_mm": MORE,
    "fixing.fabric": NEITHER,
    "fixing.x_mm": NEITHER,
    "fixing.z_mm": NEITHER,
    "fixing.fitted_x_mm": NEITHER,
    "fixing.fitted_z_mm": NEITHER,
}
QUESTIONS = (
    Question(
        "clearance",
        "fitting",
        "Does it stay clear of all that swings, passes, must be seen, or has heads below it?",
        of_fitting,
        WHERE | STANDING_OUT,
    ),
    Question(
        "clearance",
        "fixing",
        "Does what stands out of it stay clear of all that swings, passes or must be seen?",
        of_fixing,
        WHERE | STANDING_OUT | {"fixing.contact_radius_mm": NEITHER, "fixing.stands_out_mm": MORE},
    ),
)
