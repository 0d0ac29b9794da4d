"""May I, here? What may be done at a point of a face, act by act, and how deep something may stand there."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from ..book.book import NewerBook
from ..book.site import Item, Site
from ..book.wording import day, joined
from ..checks.cautions import CAUTIONS, Caution
from ..checks.clearance import ClearDepth, Limit, Stretch, clear_depth
from ..checks.keep_off import disc_distance
from ..checks.limits import rounded_down
from ..checks.verdict import Word
from ..errors import FieldbookError, OutsideTheFace, Refused
from ..model.choices import FORBIDDEN
from ..model.fields import Field, Type, accept
from ..model.typed import from_text
from . import beyond, geometry
from .ages import LATER, OLD, fabric_at, of_no_age
from .before_hole import FIRST
from .keep_off import why
from .looked import ZONES, looked
from .rulings import BY_HOLD, given, holes_under, lapsed, latest_at, said_by, unsaid

ASKED = (
    Field("x_mm", "x", Type.NUMBER, unit="mm", low=-100_000, high=100_000, required=True),
    Field("z_mm", "z", Type.NUMBER, unit="mm", low=-100_000, high=100_000, required=True),
    Field("radius_mm", "Radius of what touches", Type.NUMBER, unit="mm", low=0, high=2_000),
    Field("depth_mm", "Depth of a hole", Type.NUMBER, unit="mm", low=0, high=2_000),
)
NO, ASK, AGREED, NOTHING_AGAINST, NOT_KNOWN = ANSWERS = (
    *("no", "ask the keeper", "agreed", "nothing against it", "not known"),
)
# The sign that stands with an answer: those of the findings, so that nobody learns two sets.
SIGNS: Mapping[str, Word] = {
    NO: Word.REFUSED,
    ASK: Word.NOT_AGREED,
    AGREED: Word.AGREED,
    NOTHING_AGAINST: Word.WITHIN,
    NOT_KNOWN: Word.NOT_KNOWN,
}
AT_THE_WALL = ("hidden services", "dust", "old lead paint", "asbestos", "electricity", "loads", "overhead work")
AT_HOLD_MM = 5.0  # what setting out on uneven old walls can be trusted to; common practice, no source
UNSIZED = "How far it reaches round its middle is not entered: nothing is so small that it touches a point alone."


@dataclass(frozen=True)
class Act:
    """One thing one may want to do.

    answer      one of ANSWERS, with `why`
    against     what decides: a zone, an agreement or a hold; None where nothing recorded does
    nearest_mm  from the footprint's edge to the nearest zone that forbids it, negative inside; None without one
    """

    act: str
    answer: str
    why: str
    against: Item | None = None
    nearest_mm: float | None = None

    @property
    def word(self) -> Word:
        """The word whose sign stands with the answer."""
        return SIGNS[self.answer]


@dataclass(frozen=True)
class Answer:
    """The answer for one point.

    clear_mm  how far something may stand out; None where nothing limits it, `refusal` where that cannot be said
    depth_mm  how deep a hole may go by zones and agreements; None where none of them says
    cautions  what stands with every answer
    """

    x_mm: float
    z_mm: float
    radius_mm: float | None
    acts: tuple[Act, ...]
    clear_mm: float | None
    limited_by: Limit | None
    refusal: FieldbookError | None
    depth_mm: float | None
    cautions: tuple[Caution, ...]

    def as_dict(self) -> dict[str, Any]:
        """The same as plain values, for JSON."""
        acts = {act.act: {"answer": act.answer, "why": act.why, "nearest_mm": act.nearest_mm} for act in self.acts}
        limited = self.limited_by and {"id": self.limited_by.id, "name": self.limited_by.name}
        about = {"clear_mm": self.clear_mm, "depth_mm": self.depth_mm, "limited_by": limited}
        cautions = [caution.title for caution in self.cautions]
        return acts | about | {"refusal": self.refusal and self.refusal.as_dict(), "cautions": cautions}


@dataclass(frozen=True)
class _Place:
    """What is asked: where on which face, how wide a footprint, how deep a hole (None: any), on which day.

    sized  whether the footprint was told; where it was not, the place itself is looked at, and nothing is fine there
    """

    site: Site
    face: Item
    at: tuple[float, float]
    radius_mm: float
    depth_mm: float | None
    today: date
    sized: bool = True


def asked_in(address: Mapping[str, str]) -> tuple[float, float, float | None, float | None]:
    """x, z, radius and depth as typed; raises Refused with all findings."""
    values, findings = [], []
    for field in ASKED:
        try:
            values.append(accept(field, from_text(field, address.get(field.name, ""))))
        except FieldbookError as error:
            findings.append(error)
    if findings:
        raise Refused(findings)
    return values[0], values[1], values[2], values[3]


def answer(
    site: Site,
    face: Item,
    x_mm: float,
    z_mm: float,
    radius_mm: float | None,
    depth_mm: float | None = None,
    today: date | None = None,
) -> Answer:
    """What may be done by a round footprint at a point, and how deep something may stand there.

    radius_mm  None: not told, and then nothing is agreed, nor without anything against it
    Raises Refused when the point lies off the face.
    """
    _on_the_face(face, x_mm, z_mm)
    sized = radius_mm is not None
    place = _Place(site, face, (x_mm, z_mm), radius_mm or 0.0, depth_mm, today or date.today(), sized)
    acts = tuple(_act(place, act) for act in FORBIDDEN)
    try:
        if site.beyond:  # a limit may be among what is not known here
            raise NewerBook(beyond.REASON, beyond.REMEDY)
        clear, refusal = clear_depth(geometry.limits_of(site, face), _part(place)), None
    except FieldbookError as error:
        clear, refusal = ClearDepth(None, None), error
    out = None if clear.depth_mm is None else rounded_down(clear.depth_mm)
    cautions = tuple(CAUTIONS[key] for key in AT_THE_WALL)
    deep = _deepest(place)
    return Answer(x_mm, z_mm, radius_mm, acts, out, clear.limited_by, refusal, deep, cautions)


def _part(place: _Place) -> Stretch:
    x, z = place.at
    return Stretch(x, x, z, z).widened(place.radius_mm)


def _on_the_face(face: Item, x_mm: float, z_mm: float) -> None:
    part = geometry.face_stretch(face)
    findings = [
        OutsideTheFace(
            f"{name[0]} is {value:g} mm; the face reaches from {low:g} to {high:g} mm.",
            "Choose a point on it.",
            field=name,
            value=value,
        )
        for name, value, low, high in (("x_mm", x_mm, part.x_from, part.x_to), ("z_mm", z_mm, part.z_from, part.z_to))
        if not low <= value <= high
    ]
    if findings:
        raise Refused(findings)


def _act(place: _Place, act: str) -> Act:
    """No before all else; then what is not known before a hole; then what was agreed; then what is old."""
    near = list(_zones(place, act))
    nearest = rounded_down(min(distance for _, distance in near)) if near else None
    for decide in (_forbidden, _refused, _agreed, _by_fabric):
        said = decide(place, act, near)
        if said is not None:
            found, reason, against = said
            if not place.sized and found in {AGREED, NOTHING_AGAINST}:
                return Act(act, NOT_KNOWN, UNSIZED, None, nearest)
            if place.site.beyond and found in (AGREED, NOTHING_AGAINST):
                found, reason = NOT_KNOWN, f"{beyond.SENTENCE} Without it: {found}. {reason}"
            return Act(act, found, reason, against, nearest)
    raise AssertionError("the fabric always decides")


_Said = tuple[str, str, Item | None] | None


def _zones(place: _Place, act: str) -> Iterator[tuple[Item, float]]:
    """The zones that forbid an act, with the distance of the footprint's edge."""
    for zone in place.site.of(place.face, "zone"):
        if act in zone.forbids:
            yield zone, disc_distance(geometry.zone_outline(zone), place.at, place.radius_mm)


def _forbidden(place: _Place, act: str, near: Sequence[tuple[Item, float]]) -> _Said:
    """What zones forbid: all of them hold."""
    struck = [(zone, distance) for zone, distance in near if distance < zone.margin_mm and not _bears(place, act, zone)]
    if struck:
        zone, distance = min(struck, key=lambda pair: pair[1] - pair[0].margin_mm)
        where = (
            f"{rounded_down(distance):g} mm from it" if distance >= 0 else f"{-rounded_down(distance):g} mm inside it"
        )
        deep = f" A hole may go {_may_go(zone):g} mm deep there." if act == "drilling" and _may_go(zone) > 0 else ""
        return NO, f"{why(zone, act)} The edge lies {where}; {zone.margin_mm:g} mm must be kept.{deep}", zone
    hazards = place.site[place.face.room].hazards or ()
    if act == "drilling" and "asbestos" in hazards:
        return NO, "Asbestos is entered for this room: no hole until whoever is licensed has said where and how.", None
    return None


def _bears(place: _Place, act: str, zone: Item) -> bool:
    """Whether a zone about depth leaves room for the hole that is asked about."""
    room = _may_go(zone)
    return act == "drilling" and room > 0 and (place.depth_mm is None or place.depth_mm <= room)


def _may_go(zone: Item) -> float:
    """How deep a hole may go in a zone, mm; 0 where not at all."""
    return 0.0 if zone.safe_depth_mm is None else max(zone.safe_depth_mm - zone.margin_mm, 0.0)


def _refused(place: _Place, act: str, _: object) -> _Said:
    """What the keeper said no to: for the face, or for a hold that is here."""
    ruling = _ruling(place, act)
    if ruling is not None and ruling.answer == NO:
        return NO, f"{given(ruling)}: no. {ruling.words}", ruling
    hold = _hold(place)
    if act in BY_HOLD and hold is not None and hold.may_be_used == NO:
        return NO, f"{hold.called} is not to be used{said_by(hold)}.", hold
    return None


def _agreed(place: _Place, act: str, _: object) -> _Said:
    """What the keeper said yes to, unless it has ended, has conditions that are not met, or does not reach so far."""
    ruling, hold = _ruling(place, act), _hold(place)
    if ruling is None:
        if act in BY_HOLD and hold is not None and hold.may_be_used == "yes" and hold.said_by:
            return AGREED, f"{hold.called} may be used again{said_by(hold)}.", hold
        return None
    by = given(ruling)
    if why := lapsed(ruling, place.today) or (_not_to_this_hole(place, ruling) if act == "drilling" else ""):
        return ASK, f"{by}{why}", ruling
    if why := unsaid(ruling):
        return NOT_KNOWN, f"{by}{why}", ruling
    if act == "drilling" and (unseen := _unseen(place)):
        return NOT_KNOWN, f"{by} agrees to it, but {unseen}", ruling
    deep = _deepest(place) if act == "drilling" else None
    parts = [f"{by}."]
    parts += [f"Not deeper than {deep:g} mm."] if deep is not None else []
    parts += [f"On condition: {ruling.conditions.rstrip('.')}; met."] if ruling.conditions else []
    parts += [f"Until {day(ruling.until)}."] if ruling.until else []
    return AGREED, " ".join(parts), ruling


def _not_to_this_hole(place: _Place, ruling: Item) -> str:
    """Why a yes to holes is none to this one, to stand behind its reference; "" where it is."""
    if ruling.depth_mm is None:
        return " agrees to a hole, and does not say how deep it may go."
    if place.depth_mm is not None and place.depth_mm > ruling.depth_mm:
        return f" agrees to {ruling.depth_mm:g} mm, not to {place.depth_mm:g} mm."
    if ruling.holes is None:
        return ""
    made = holes_under(place.site, ruling)
    here = any(math.dist(geometry.place_of(one), place.at) <= AT_HOLD_MM for one in made if one.face == place.face.id)
    if len(made) < ruling.holes or (here and len(made) == ruling.holes):
        return ""
    return f" agrees to {ruling.holes} new holes, and {len(made)} are planned or made."


def _by_fabric(place: _Place, act: str, _: object) -> _Said:
    """Where nothing was said about it: old fabric is asked about, and later work where nobody looked is not known."""
    through = place.depth_mm if act == "drilling" else 0.0
    fabric = fabric_at(place.site, place.face, place.at, through)
    if fabric == OLD:
        return ASK, f"Nothing is agreed here, and it is old fabric.{_also(place, act)}", None
    if fabric != LATER:
        what = of_no_age(place.site, place.face, place.at, through)
        return NOT_KNOWN, f"Whether {what.called} is old or later work here is not entered.", None
    if place.site.item.asks_about_later_work:
        return ASK, f"It is later work, about which the keeper is asked too.{_also(place, act)}", None
    seen = looked(place.site, place.face, ZONES)
    if not seen:
        return NOT_KNOWN, f"It is later work, but nobody has looked for keep-off zones on {place.face.called}.", None
    if act == "drilling" and (unseen := _unseen(place)):
        return NOT_KNOWN, f"It is later work, but {unseen}", None
    deep = _deepest(place) if act == "drilling" else None
    most = "" if deep is None else f" Not deeper than {deep:g} mm."
    return NOTHING_AGAINST, f"It is later work, and no zone forbids it: keep-off zones were {seen}.{most}", None


def _unseen(place: _Place) -> str:
    """What nobody looked for that must be looked for before a hole, as the end of a sentence; "" for nothing."""
    unseen = [what for what in FIRST if not looked(place.site, place.face, what)]
    return f"nobody has looked for {joined(unseen)}." if unseen else ""


def _also(place: _Place, act: str) -> str:
    unseen = _unseen(place) if act == "drilling" else ""
    return f" Also, {unseen}" if unseen else ""


def _ruling(place: _Place, act: str) -> Item | None:
    return latest_at(place.site, place.face, place.at, place.radius_mm, act)


def _hold(place: _Place) -> Item | None:
    """The existing hold that is here, the nearest of them."""
    x, z = place.at
    near = [(math.hypot(one.x_mm - x, one.z_mm - z), one.id, one) for one in place.site.of(place.face, "hold")]
    here = [one for one in near if one[0] <= max((one[2].diameter_mm or 0) / 2, AT_HOLD_MM)]
    return min(here)[2] if here else None


def _deepest(place: _Place) -> float | None:
    """The least of what zones and agreements here say about how deep a hole may go; None where none does."""
    bounds = [_may_go(zone) for zone, distance in _zones(place, "drilling") if distance < zone.margin_mm]
    ruling = _ruling(place, "drilling")
    if ruling is not None:
        bounds += [0.0] if ruling.answer == NO else [ruling.depth_mm] if ruling.depth_mm is not None else []
    return min(bounds, default=None)
