"""Whether what stands on a face keeps off the parts of it where that is forbidden: the worst of all zones counts."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import lru_cache
from typing import Any, NamedTuple

from ..book.site import Item, Site
from ..checks import keep_off as check
from ..checks.keep_off import Outline
from ..checks.verdict import FINE, Verdict, Word, not_known
from . import geometry, on_floor
from .acts import Act, fitting_acts, fixing_acts, joins_ours
from .ahead import OnADay
from .asking import LESS, MORE, NEITHER, Asked, Question, label_of
from .finding import Blank, Outcome, Recalculation
from .looked import ZONES, ahead, looked, not_looked
from .reach import moves_mm
from .through import THROUGH_HOLES, comes_out
from .zones_seen import READS, behind, zones_near

# Radius of the widest hole that is ordinarily drilled for a fixing; taken where a hole's width is not entered and
# less than that touches: common practice, no source.
WIDEST_HOLE_MM = 12.5
AT_THE_NUT = ("contact", "load")
ANOTHER = "It joins two fittings and does not touch the face."


class Held(NamedTuple):
    """One thing a fixing or fitting does, held against one zone.

    left_mm  what is left of the margin, or of the depth that may be penetrated; negative: too near or too deep
    missing  the empty fields on which it rests that it is done, or how deep or wide; () where that is certain
    depth    penetration and safe depth, where these decide
    round_at where a round footprint is, and its radius; None for any other
    outline  of a footprint that is not round
    """

    left_mm: float
    act: str
    zone: Item
    distance_mm: float
    missing: tuple[Blank, ...]
    depth: tuple[float, float] | None = None
    round_at: tuple[tuple[float, float], float] | None = None
    outline: Outline = ()


def of_fixing(asked: Asked, fixing: Item) -> Outcome:
    """A fixing, with all it does, held against every zone of the face it stands on."""
    site, face = asked.site, asked.site[fixing.face]
    if joins_ours(asked, fixing):
        return Outcome(Verdict("keep-off", Word.DOES_NOT_APPLY, None, None, None, "mm", ANOTHER, check.SOURCE))
    return judged(asked, face, [*fixing_held(site, fixing, fixing_acts(site, fixing)), *_come_out(asked, fixing)])


def _come_out(asked: Asked, fixing: Item) -> Iterator[Held]:
    """What the nut of a bolt that goes right through does on the other side, held against each zone there."""
    zones = behind(asked.site, asked.site[fixing.face]) if fixing.sort in THROUGH_HOLES else []
    struck = [one for one in zones if not one.forbids.isdisjoint(AT_THE_NUT)]
    if struck and comes_out(asked, fixing):
        place, radius = geometry.place_of(fixing), fixing.contact_radius_mm
        for one in struck:
            distance = check.disc_distance(one.outline, place, radius)
            act = next(act for act in AT_THE_NUT if act in one.forbids)
            if distance - one.item.margin_mm < check.CLOSE_MM:
                held = Held(
                    distance - one.item.margin_mm, act, one.item, distance, one.missing, round_at=(place, radius)
                )
                yield held


def of_fitting(asked: Asked, fitting: Item) -> Outcome:
    """A fitting, with what it touches and gives off, held against every zone of its face."""
    site, face = asked.site, asked.site[fitting.face]
    moves = moves_mm(site, fitting)
    footprint, acts = geometry.fitting_outline(fitting, moves), list(fitting_acts(fitting))
    held = []
    for one in zones_near(site, face, footprint[0][0], footprint[1][0]):
        zone = one.item
        for act, blank in acts:
            if act in one.forbids:
                distance = _area(one.outline, footprint)
                missing = (*one.missing, *((blank,) if blank else ()))
                if one.counts(distance - zone.margin_mm):
                    held.append(Held(distance - zone.margin_mm, act, zone, distance, missing, outline=footprint))
    for zone, act, distance, base, missing in on_floor.at_foot(site, fitting, moves):
        held.append(Held(distance - zone.margin_mm, act, zone, distance, missing, outline=base))
    found = judged(asked, face, held)
    if found.verdict.word not in FINE or not on_floor.may_stand(site, fitting):
        return found
    return found._replace(verdict=replace(found.verdict, sentence=f"{found.verdict.sentence} {on_floor.DRAWN}"))


def fixing_held(site: Site, fixing: Item, acts: Iterable[Act]) -> Iterator[Held]:
    """What a fixing does held against each zone that forbids it, but for those that lie too far to decide."""
    place, acts = geometry.place_of(fixing), list(acts)
    done = {act for act, _ in acts}
    widest = max(fixing.contact_radius_mm, (fixing.diameter_mm or 0) / 2, WIDEST_HOLE_MM)
    near = [
        (_least_away(one.round, place) - widest - one.item.margin_mm, one.item.id, index, one)
        for index, one in enumerate(zones_near(site, site[fixing.face], place[0] - widest, place[0] + widest))
        if not done.isdisjoint(one.forbids)
    ]
    near.sort()
    left = distance = math.inf
    for least_left, _, _, one in near:
        if least_left > max(left, 0) and least_left + one.item.margin_mm > distance:
            continue
        here = [act for act in acts if act[0] in one.forbids]
        for held in _held_against(fixing, place, one.item, here, check.disc_distance(one.outline, place, 0)):
            if not (one.counts(held.left_mm) or held.depth):
                continue
            if one.missing:  # which may lie elsewhere, and then is not the nearest
                yield held._replace(missing=(*one.missing, *held.missing))
                continue
            left, distance = min(left, held.left_mm), min(distance, held.distance_mm)
            yield held


def _held_against(
    fixing: Item, place: tuple[float, float], zone: Item, acts: Iterable[Act], away: float
) -> Iterator[Held]:
    for act, blank in acts:
        if act == "drilling":
            held = _drilled(fixing, zone, away)
            yield held._replace(missing=tuple(dict.fromkeys((*held.missing, blank)))) if blank else held
        else:
            distance, missing = away - fixing.contact_radius_mm, (blank,) if blank else ()
            at = (place, fixing.contact_radius_mm)
            yield Held(distance - zone.margin_mm, act, zone, distance, missing, round_at=at)


def _least_away(box: tuple[float, float, float, float], place: tuple[float, float]) -> float:
    """No part of a zone lies nearer than the rectangle round it; below zero where the place is in that."""
    left, bottom, right, top = box
    x, z = place
    beside = left - x if x < left else x - right
    above = bottom - z if z < bottom else z - top
    if beside > 0:
        return math.hypot(beside, above) if above > 0 else beside
    return above if above > 0 else -math.inf


def _drilled(fixing: Item, zone: Item, away_mm: float) -> Held:
    """A hole: beside the zone by its distance; inside it, where some depth may be penetrated, by how deep it goes."""
    known = fixing.diameter_mm is not None
    radius = fixing.diameter_mm / 2 if known else max(fixing.contact_radius_mm, WIDEST_HOLE_MM)
    distance = away_mm - radius
    left, missing = distance - zone.margin_mm, () if known else (Blank(fixing, "diameter_mm"),)
    at = (geometry.place_of(fixing), radius)
    if left >= 0 or zone.safe_depth_mm is None:
        certain = known or away_mm < zone.margin_mm  # its middle lies too near, however narrow it is
        return Held(left, "drilling", zone, distance, () if certain else missing, round_at=at)
    may_go = zone.safe_depth_mm - zone.margin_mm
    if fixing.penetration_mm is None:
        blank = () if may_go < 0 else (Blank(fixing, "penetration_mm"),)
        return Held(min(left, may_go), "drilling", zone, distance, blank)
    deep = (fixing.penetration_mm, zone.safe_depth_mm)
    return Held(may_go - fixing.penetration_mm, "drilling", zone, distance, missing, deep, at)


def judged(asked: OnADay, face: Item, held: list[Held]) -> Outcome:
    """The answer for a thing, from what it does held against each zone."""
    certain = [one for one in held if not one.missing and one.left_mm < 0]
    if certain:
        return _outcome(min(certain, key=_left))
    doubtful = [one for one in held if one.missing and one.left_mm < 0]
    if doubtful:
        return _doubtful(min(doubtful, key=_left), doubtful)
    seen = looked(asked, face, ZONES)
    if not seen:
        nearest = min((one.distance_mm for one in held), default=None)
        return _not_looked(asked, face, nearest)
    if not held:
        sentence = f"No zone of {face.called} forbids what it does. Keep-off zones were {seen}."
        return Outcome(Verdict("keep-off", Word.WITHIN, None, None, None, "mm", sentence, check.SOURCE))
    return _outcome(min(held, key=_left))._replace(assumed=(f"All keep-off zones are recorded: {seen}.",))


def _left(held: Held) -> float:
    return held.left_mm


def _outcome(held: Held) -> Outcome:
    zone = held.zone
    verdict = check.keep_off_verdict(zone.called, held.distance_mm, zone.margin_mm, *(held.depth or ()))
    return Outcome(replace(verdict, sentence=f"{verdict.sentence} {why(zone, held.act)}"), zone, again=_again(held))


def _again(held: Held) -> Recalculation:
    """The distance, or the depth, of this footprint."""
    given: dict[str, Any] = {"zone_mm": held.zone.outline, "margin_mm": held.zone.margin_mm}
    if held.round_at:
        given["point_mm"], given["radius_mm"] = held.round_at
    else:
        given["footprint_mm"] = held.outline
    if held.depth:
        given["penetration_mm"], given["safe_depth_mm"] = held.depth
    return Recalculation("keep-off", given)


def why(zone: Item, act: str) -> str:
    """Why a zone forbids something, and who said so."""
    said = f", said by {zone.said_by}" if zone.said_by else ""
    return f"No {act} in {zone.called}: {zone.reason.rstrip('.')}{said}."


def _doubtful(worst: Held, doubtful: Iterable[Held]) -> Outcome:
    """Too near if something is so that is not entered."""
    missing = tuple(dict.fromkeys(blank for one in doubtful for blank in one.missing))
    names = "; ".join(label_of(blank) for blank in missing)
    sentence = f"Near {worst.zone.called}, and not entered: {names}. {why(worst.zone, worst.act)}"
    fields = tuple(blank.field for blank in missing)
    return Outcome(not_known("keep-off", fields, sentence, check.SOURCE, "mm"), worst.zone, missing=missing)


def _not_looked(asked: OnADay, face: Item, nearest_mm: float | None) -> Outcome:
    far = "" if nearest_mm is None else f" The nearest that is recorded lies {check.rounded_down(nearest_mm):g} mm off."
    sentence = f"Nobody has looked for keep-off zones on {face.called}, so others may be there.{far}"
    sentence += ahead(asked, face, ZONES)
    verdict = not_known("keep-off", ("looked_for",), sentence, check.SOURCE, "mm")
    if nearest_mm is not None:
        verdict = replace(verdict, figure=check.rounded_down(nearest_mm))
    return Outcome(verdict, missing=(not_looked(face, ZONES),))


@lru_cache(maxsize=16_384)
def _area(outline: Outline, footprint: Outline) -> float:
    return check.area_distance(outline, footprint)


ZONE = READS | {
    "zone.outline": NEITHER,
    "zone.forbids": MORE,
    "zone.margin_mm": MORE,
    "zone.reason": NEITHER,
    "zone.said_by": NEITHER,
    "face.looked_for": NEITHER,
    "room.looked_for": NEITHER,
    "fitting.gives": NEITHER,
}
QUESTIONS = (
    Question(
        "keep-off",
        "fixing",
        "Does it keep off what is not to be drilled, touched, glued, loaded or warmed?",
        of_fixing,
        ZONE
        | {
            "fixing.sort": NEITHER,
            "fixing.hole": NEITHER,
            "fixing.fabric": NEITHER,
            "fixing.adhesive": NEITHER,
            "fixing.x_mm": NEITHER,
            "fixing.z_mm": NEITHER,
            "fixing.fitted_x_mm": NEITHER,
            "fixing.fitted_z_mm": NEITHER,
            "fixing.contact_radius_mm": MORE,
            "fixing.diameter_mm": MORE,
            "fixing.penetration_mm": MORE,
            "hold.depth_mm": LESS,
            "zone.safe_depth_mm": LESS,
        },
    ),
    Question(
        "keep-off",
        "fitting",
        "Does it keep off what is not to be touched, loaded, warmed or lit?",
        of_fitting,
        ZONE
        | on_floor.READS
        | {
            "fitting.touches_face": NEITHER,
            "fitting.moves_mm": MORE,
            "fitting.x_mm": NEITHER,
            "fitting.z_mm": NEITHER,
            "fitting.width_mm": MORE,
            "fitting.height_mm": MORE,
        },
    ),
)
