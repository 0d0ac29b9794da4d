"""Where a fitting may be set along what it is fixed to, and how much more it may carry, with every word as good as now.

The same questions are asked of a site in which it stands elsewhere, or weighs more. No word as good as one that stops
is good: it may not be set where it strikes something already, nor carry more while what holds it is over or not known.
"""

from __future__ import annotations

from collections.abc import Container, Iterator
from datetime import date
from typing import NamedTuple

from ..book.site import Item, Site
from ..checks.limits import rounded_down
from ..checks.room_to_move import intervals, most
from ..checks.verdict import FINE, STOP
from ..errors import FieldbookError
from . import ways
from .answering import find
from .finding import WORST_FIRST, Finding
from .load_paths import carried
from .questions import OF_KIND
from .specialist import OF_WHAT_IT_CARRIES

MOST_KG, STEP_KG = 500.0, 0.1
MOVED = {"fitting": ("x_mm", "centre_x_mm"), "fixing": ("x_mm", "fitted_x_mm")}
MANY_EDGES = 12  # that close to where it may be set

OF_ITS_PLACE = frozenset(("place", "keep-off", "clearance", "projection"))
OF_ITS_WEIGHT = frozenset(
    ("load", "pull", "shear", "together", "slip", "carrier", "carries", "wall", "one-lost")
    + ("tipping", "sliding", "floor", OF_WHAT_IT_CARRIES.name)
)

_CLEARANCE = next(one for one in OF_KIND["fitting"] if one.name == "clearance")

Words = dict[tuple[str, str], Finding]


class RoomToMove(NamedTuple):
    """Stretches in which the left edge of a fitting may be set, mm; how much more it may carry, kg; and what sets that.

    more_kg  None where its loaded mass is not entered
    set_by   what would become worse first; "" where nothing does
    """

    along_mm: tuple[tuple[int, int], ...]
    more_kg: float | None
    set_by: str


def room_to_move(site: Site, fitting: Item, today: date) -> RoomToMove:
    """The room a fitting has. One that is not made to be moved stays where it is."""
    try:
        parts = carried(site, fitting)
    except FieldbookError:
        parts = [fitting]
    asked = _Asking(site, fitting, parts, today)
    along, beside = asked.along()
    more, above = asked.more()
    return RoomToMove(along, more, (above or beside) if along else (beside or above))


def moved_to(site: Site, fitting: Item, x_mm: float, today: date) -> tuple[Site, Finding | None]:
    """The site with a fitting, and what hangs on it, set so that its left edge is there; and what is worse there."""
    asking = _Asking(site, fitting, [fitting, *site.all_hung_on(fitting)], today)
    there = asking.at(x_mm)
    still = dict(there[fitting.id].values) | {"moves_mm": fitting.moves_mm}
    return there.with_changed(Item("fitting", fitting.id, still)), asking.worse(there)


class _Asking:
    """The questions that moving or loading a fitting bears on, with what they come to now."""

    def __init__(self, site: Site, fitting: Item, parts: list[Item], today: date):
        self.site, self.fitting, self.today = site, fitting, today
        face = fitting.face
        self.moved = [one for one in _with_fixings(site, parts) if one.face == face]
        subjects = dict.fromkeys([*_with_fixings(site, parts), *_carrying(site, parts)])
        self.questions = [(question, one) for one in subjects for question in OF_KIND[one.kind]]
        self.questions += [(OF_WHAT_IT_CARRIES, one) for one in subjects if one.kind == "fitting"]
        self.questions += [(_CLEARANCE, one) for one in ways.sharing(site, site[face])]
        self.now = self.words(self.at(fitting.x_mm))

    def at(self, x_mm: float) -> Site:
        """The site with the fitting, and what hangs on it, set so that its left edge is there."""
        by = x_mm - self.fitting.x_mm
        return self.site.with_changed(*(self._shifted(one, by) for one in self.moved))

    def loaded(self, more_kg: float) -> Site:
        """The site with so much more on the fitting, where it stands: how far it may be moved does not change that."""
        values = dict(self.fitting.values) | {"mass_loaded_kg": self.fitting.mass_loaded_kg + more_kg, "moves_mm": None}
        return self.site.with_changed(Item("fitting", self.fitting.id, values))

    def words(self, site: Site) -> Words:
        """What the questions come to on a site."""
        return {
            (question.name, one.id): find(question, site[one.id], site, self.today) for question, one in self.questions
        }

    def worse(self, site: Site, stopped_by: Container[str] = ()) -> Finding | None:
        """The first answer that is worse than now, or to one of some questions stops; None where all are as good."""
        for question, one in self.questions:
            was = self.now[question.name, one.id]
            found = find(question, site[one.id], site, self.today)
            stops = found.word in STOP and question.name in stopped_by
            if stops or WORST_FIRST.index(found.word) < WORST_FIRST.index(was.word):
                return found
        return None

    def along(self) -> tuple[tuple[tuple[int, int], ...], str]:
        """Where it may be set, and what would become worse beside the stretch it stands in."""
        x, moves = self.fitting.x_mm, self.fitting.moves_mm
        if moves is None:
            return ((round(x), round(x)),), ""
        edges = sorted(set(_edges(self.site, self.fitting)), key=lambda edge: abs(edge - x))[:MANY_EDGES]

        def wrong(place: float) -> Finding | None:
            return self.worse(self.at(place), OF_ITS_PLACE)

        found = intervals(lambda place: wrong(place) is None, x - moves, x + moves, [x, *edges])
        here = next((stretch for stretch in found if stretch[0] - 1 <= x <= stretch[1] + 1), None)
        ends = [end for end in (here[0] - 1, here[1] + 1) if abs(end - x) <= moves] if here else [x]
        beside = next((worse for end in ends if (worse := wrong(end))), None)
        return tuple(found), _called(beside)

    def more(self) -> tuple[float | None, str]:
        """How much more it may carry where it is, and what would become worse above that."""
        if self.fitting.mass_loaded_kg is None:
            return None, ""
        if (unsettled := self.unsettled()) is not None:
            return 0.0, _called(unsettled)
        found = most(lambda more_kg: self.worse(self.loaded(more_kg)) is None, MOST_KG, STEP_KG)
        made_for = self.made_for_kg()
        if made_for is not None and found is not None and found > made_for:
            return made_for, f"what {self.fitting.called} is made to carry"
        if found is None or found >= MOST_KG:
            return found, ""
        return found, _called(self.worse(self.loaded(found + STEP_KG)))

    def unsettled(self) -> Finding | None:
        """The worst of what does not say of the weight there is that it holds; or whoever said no to it at all.

        What a specialist has yet to decide counts where it bears on a mass: an electrician's word on a lamp does not.
        """
        weighed = (
            found
            for (name, _), found in self.now.items()
            if (name in OF_ITS_WEIGHT and found.word not in FINE) or (name == "specialist" and found.word in STOP)
        )
        return min(weighed, key=lambda found: WORST_FIRST.index(found.word), default=None)

    def made_for_kg(self) -> float | None:
        """What may still hang on it of what it is made to carry, kg; None where that is not entered.

        Nothing more where somebody has not said how heavy what hangs there is.
        """
        if self.fitting.carries_kg is None:
            return None
        hung = [one.mass_loaded_kg for one in self.site.all_hung_on(self.fitting)]
        return 0.0 if None in hung else rounded_down(max(self.fitting.carries_kg - sum(hung), 0.0), STEP_KG)

    def _shifted(self, one: Item, by_mm: float) -> Item:
        moved = {name: one.values[name] + by_mm for name in MOVED[one.kind] if one.values[name] is not None}
        # Asked for each place by itself, it stays there.
        stays = {"moves_mm": None} if one.id == self.fitting.id else {}
        return Item(one.kind, one.id, dict(one.values) | moved | stays)


def _with_fixings(site: Site, fittings: list[Item]) -> Iterator[Item]:
    for fitting in fittings:
        yield fitting
        yield from (fixing for fixing in site.of(fitting, "fixing") if fixing.stands)


def _carrying(site: Site, parts: list[Item]) -> Iterator[Item]:
    """What carries them, up to the fabric, and all that shares a board or hold with any of their fixings."""
    seen, waiting = {one.id for one in parts}, list(parts)
    above: list[Item] = []
    while waiting:
        for carrier in site.goes_through(waiting.pop()):
            if carrier.id not in seen:
                seen.add(carrier.id)
                above.append(carrier)
                waiting.append(carrier)
    whole = list(_with_fixings(site, [*parts, *above]))
    yield from whole
    for fixing in [one for one in whole if one.kind == "fixing"]:
        for used in (site.get(fixing.hold), site.get(fixing.member)):
            for part in site.all_of(used) if used else ():
                yield from site.let_into(part)


def _edges(site: Site, fitting: Item) -> Iterator[float]:
    """Places of its left edge at which one of its edges meets an edge of something else on the face."""
    face = site[fitting.face]
    ends: list[float] = [x for zone in site.of(face, "zone") for x, _ in zone.outline]
    for limit in site.of(face, "limit"):
        ends += [end for end in (limit.x_from_mm, limit.x_to_mm, limit.hinge_x_mm) if end is not None]
    for one in (*site.of(face, "member"), *site.of(face, "fitting")):
        if one.id != fitting.id:
            ends += [one.x_mm, one.x_mm + one.width_mm]
    for end in ends:
        yield end
        yield end - fitting.width_mm


def _called(finding: Finding | None) -> str:
    if finding is None:
        return ""
    decides = finding.question in {"specialist", OF_WHAT_IT_CARRIES.name}
    asked = "what a specialist decides" if decides else finding.question.replace("-", " ")
    return f"{asked} of {finding.subject.called}"
