"""What one act comes to at a place of a face: no, ask the keeper, agreed, nothing against it, or not known."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..book.site import Item
from ..book.wording import day, joined
from ..checks.limits import rounded_down, rounded_up
from ..checks.verdict import Word
from . import beyond, geometry
from .ages import LATER, OLD, fabric_at, known_to_mm, of_no_age
from .before_hole import FIRST
from .behind_here import against_behind, refused_behind
from .holes_agreed import not_to_hole
from .looked import ZONES, ahead, looked
from .rulings import BY_HOLD, given, hold_at, lapsed, latest_at, may_be_used, said_by, unsaid
from .through import far_side
from .zones_here import NO, PlaceAsked, Said, forbidden, may_go, perhaps, zones_at

ANSWERS = (NO, "ask the keeper", "agreed", "nothing against it", "not known")
_, ASK, AGREED, NOTHING_AGAINST, NOT_KNOWN = ANSWERS
# The sign that stands with an answer: those of the findings, so that nobody learns two sets.
SIGNS: Mapping[str, Word] = {
    NO: Word.REFUSED,
    ASK: Word.NOT_AGREED,
    AGREED: Word.AGREED,
    NOTHING_AGAINST: Word.WITHIN,
    NOT_KNOWN: Word.NOT_KNOWN,
}
LATER_UNSAID = "It is later work; whether the keeper is asked about that too is not entered with the site."
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


def act_at(place: PlaceAsked, act: str) -> Act:
    """No before all else; then what is not known before a hole; then what was agreed; then what is old."""
    near = list(zones_at(place, act))
    nearest = rounded_down(min(distance for _, distance in near)) if near else None
    for decide in (forbidden, _refused, refused_behind, _agreed, _by_fabric):
        said = decide(place, act, near)
        if said is not None:
            found, reason, against = said
            if not place.sized and found in {AGREED, NOTHING_AGAINST}:
                return Act(act, NOT_KNOWN, UNSIZED, None, nearest)
            if found in {AGREED, NOTHING_AGAINST} and act == "drilling" and (behind := against_behind(place)):
                return Act(act, *behind, nearest)
            if found in {AGREED, NOTHING_AGAINST} and (past := past_edge(place) or perhaps(place, act)):
                return Act(act, NOT_KNOWN, f"{past} Without that: {found}. {reason}", None, nearest)
            if place.site.beyond and found in (AGREED, NOTHING_AGAINST):
                found, reason = NOT_KNOWN, f"{beyond.SENTENCE} Without it: {found}. {reason}"
            return Act(act, found, reason, against, nearest)
    raise AssertionError("the fabric always decides")


def past_edge(place: PlaceAsked) -> str:
    """That a footprint reaches beyond its face, as a sentence; "" where it lies on it."""
    whole, (x, z) = geometry.face_stretch(place.face), place.at
    over = place.radius_mm - min(x - whole.x_from, whole.x_to - x, z - whole.z_from, whole.z_to - z)
    return f"It reaches {rounded_up(over):g} mm beyond the edge of {place.face.called}." if over > 0 else ""


def _refused(place: PlaceAsked, act: str, _: object) -> Said:
    """What the keeper said no to: for the face, or for a hold that is here."""
    ruling = _ruling(place, act)
    if ruling is not None and ruling.answer == NO:
        return NO, f"{given(ruling)}: no. {ruling.words}", ruling
    hold = _hold(place)
    if act in BY_HOLD and hold is not None and hold.may_be_used == NO:
        return NO, f"{hold.called} is not to be used{said_by(hold)}.", hold
    return None


def _agreed(place: PlaceAsked, act: str, _: object) -> Said:
    """What the keeper said yes to, unless it has ended, has conditions that are not met, or does not reach so far."""
    ruling, hold = _ruling(place, act), _hold(place)
    if ruling is None:
        if act in BY_HOLD and hold is not None and may_be_used(hold, place.today):
            return AGREED, f"{hold.called} may be used again{said_by(hold)}.", hold
        return None
    by = given(ruling)
    if why := lapsed(ruling, place.today) or _not_to_it(place, ruling, act):
        return ASK, f"{by}{why}", ruling
    if why := unsaid(ruling):
        return NOT_KNOWN, f"{by}{why}", ruling
    if act == "drilling" and (unseen := _unseen(place)):
        return NOT_KNOWN, f"{by} agrees to it, but {unseen}", ruling
    deep = deepest(place) if act == "drilling" else None
    parts = [f"{by}."]
    parts += [f"Not deeper than {deep:g} mm."] if deep is not None else []
    parts += [f"On condition: {ruling.conditions.rstrip('.')}; met."] if ruling.conditions else []
    parts += [f"Until {day(ruling.until)}."] if ruling.until else []
    return AGREED, " ".join(parts), ruling


def _not_to_it(place: PlaceAsked, ruling: Item, act: str) -> str:
    return not_to_hole(place, ruling, place.face, place.at, place.depth_mm) if act == "drilling" else ""


def _by_fabric(place: PlaceAsked, act: str, _: object) -> Said:
    """Where nothing was said about it: old fabric is asked about, and later work where nobody looked is not known."""
    through = place.depth_mm if act == "drilling" else 0.0
    fabric = fabric_at(place.site, place.face, place.at, through, place.radius_mm)
    if fabric == OLD:
        return ASK, f"Nothing is agreed here, and it is old fabric.{_also(place, act)}", None
    if fabric != LATER:
        what = of_no_age(place.site, place.face, place.at, through, place.radius_mm)
        known = known_to_mm(place.site, place.face, place.at)
        if place.face.layers and fabric_at(place.site, place.face, place.at, known, place.radius_mm) == LATER:
            return NOT_KNOWN, f"It is later work; what lies deeper than {known:g} mm here is not entered.", None
        return NOT_KNOWN, f"Whether {what.called} is old or later work here is not entered.", None
    if place.site.item.asks_about_later_work:
        return ASK, f"It is later work, about which the keeper is asked too.{_also(place, act)}", None
    seen = looked(place, place.face, ZONES)
    if not seen:
        nobody = f"nobody has looked for keep-off zones on {place.face.called}."
        return NOT_KNOWN, f"It is later work, but {nobody}{ahead(place, place.face, ZONES)}", None
    if act == "drilling" and (unseen := _unseen(place)):
        return NOT_KNOWN, f"It is later work, but {unseen}", None
    if place.site.item.asks_about_later_work is None:
        return NOT_KNOWN, LATER_UNSAID, None
    deep = deepest(place) if act == "drilling" else None
    most = "" if deep is None else f" Not deeper than {deep:g} mm."
    return NOTHING_AGAINST, f"It is later work, and no zone forbids it: keep-off zones were {seen}.{most}", None


def _unseen(place: PlaceAsked) -> str:
    """What nobody looked for that must be looked for before a hole, as the end of a sentence; "" for nothing."""
    if unseen := [what for what in FIRST if not looked(place, place.face, what)]:
        return f"nobody has looked for {joined(unseen)}.{ahead(place, place.face, *unseen)}"
    comes_out, there = far_side(place.site, place.face, place.depth_mm)
    if not comes_out:
        return ""
    if there is None:
        return "nobody has entered what is on the other side, where it comes out."
    unseen = [what for what in FIRST if not looked(place, there, what)]
    return f"nobody has looked for {joined(unseen)} on {there.called}, where it comes out." if unseen else ""


def _also(place: PlaceAsked, act: str) -> str:
    unseen = _unseen(place) if act == "drilling" else ""
    return f" Also, {unseen}" if unseen else ""


def _ruling(place: PlaceAsked, act: str) -> Item | None:
    return latest_at(place, place.face, place.at, place.radius_mm, act)


def _hold(place: PlaceAsked) -> Item | None:
    return hold_at(place.site, place.face, place.at)


def deepest(place: PlaceAsked) -> float | None:
    """The least of what zones and agreements here say about how deep a hole may go; None where none does."""
    bounds = [may_go(zone) for zone, distance in zones_at(place, "drilling") if distance < zone.margin_mm]
    ruling = _ruling(place, "drilling")
    if ruling is not None:
        bounds += [0.0] if ruling.answer == NO else [ruling.depth_mm] if ruling.depth_mm is not None else []
    return min(bounds, default=None)
