"""Whether a thing can be where it is said to be: on its face, not through another, on its fitting, at its hold."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from datetime import date

from ..book.cells import cells_in
from ..book.site import Item, Site
from ..book.wording import joined
from ..checks.clearance import Stretch
from ..checks.limits import rounded_up
from ..checks.verdict import Verdict, Word, not_known
from ..model.choices import AS_PLANNED, FITTED
from . import geometry, other_walls
from .answering import find
from .asking import MORE, NEITHER, Asked, Question, label_of
from .finding import Blank, Outcome
from .off_place import SOURCE, Wrong, away_from, beyond, off_its_fitting, off_its_hold, off_the_other, reaching_past
from .phase_order import at_one_time
from .reach import hung_on

FACE_MM = 0.5  # what two measured edges may differ by and still meet: common practice, no source
LEAST_SEEN_MM = 10.0  # a thing smaller both ways was entered in metres: common practice, no source
WIDEST_MM = 200.0  # no fixing may be entered as wider: two of them touch no farther apart
BLANK_MM = 20.0  # what is not entered as wider may ordinarily measure across: common practice, no source
UNMEASURED = "Where it is as fitted was not measured; in all answers it is taken to be where it was planned."
# What a thing may be entered as held by, and how that is said.
HELD_BY = {
    "fitting": (("hangs_on", "hang on"),),
    "fixing": (("hold", "use"), ("member", "be let into"), ("other_fitting", "be fixed to")),
}


def of_fitting(asked: Asked, fitting: Item) -> Outcome:
    """A fitting's outline held against the edges of its face and the other fittings there."""
    site = asked.site
    part = geometry.fitting_stretch(fitting)
    wrong = [*beyond(site[fitting.face], part), *_through(site, fitting, part)]
    met = [one for one in other_walls.met(site, fitting) if one.by_mm > FACE_MM and _apart(site, fitting, one.other)]
    wrong += [(one.by_mm, _stands_into(one.by_mm, one.other), one.other) for one in met if not one.missing]
    if not wrong and (open_yet := _in_metres(fitting) or _gone(site, fitting) or _perhaps_met(site, met)):
        return open_yet
    return _outcome(wrong, f"It lies on {site[fitting.face].called} and through nothing else there.")


def of_fixing(asked: Asked, fixing: Item) -> Outcome:
    """A fixing's place held against its face, its fitting, its hold, and what else stands there."""
    site = asked.site
    half = [name for name in ("fitted_x_mm", "fitted_z_mm") if fixing.values[name] is None]
    if len(half) == 1:
        return _half(Blank(fixing, half[0]))
    at = geometry.place_of(fixing)
    face = site[fixing.face]
    wrong = [*beyond(face, Stretch(at[0], at[0], at[1], at[1])), *off_its_fitting(site, fixing, at)]
    beside = _beside(site, fixing, at)
    wrong += [*off_the_other(site, fixing, at), *off_its_hold(site, fixing, at), *_in_the_way(site, fixing, at, beside)]
    if not wrong and (open_yet := _gone(site, fixing) or _perhaps_in_the_way(fixing, beside)):
        return open_yet
    found = _outcome(wrong, f"It lies on {face.called}, on its fitting, and in nothing else’s place.")
    if not wrong and (past := reaching_past(face, fixing)):
        found = past
    unmeasured = fixing.state == FITTED and fixing.fitted_x_mm is None and fixing.fitted_place != AS_PLANNED
    return found._replace(assumed=(UNMEASURED,)) if unmeasured else found


def _outcome(wrong: list[Wrong], well: str) -> Outcome:
    if not wrong:
        return Outcome(Verdict("place", Word.WITHIN, None, None, None, "mm", well, SOURCE))
    by, sentence, against = max(wrong, key=lambda one: (one[0], one[2].id if one[2] else ""))
    if math.isinf(by):
        return Outcome(Verdict("place", Word.OVER, None, None, None, "mm", sentence, SOURCE), against)
    figure = rounded_up(by)
    return Outcome(Verdict("place", Word.OVER, figure, 0, -figure, "mm", sentence, SOURCE), against)


def _in_metres(fitting: Item) -> Outcome | None:
    """A thing too small to be one, as it is where metres were typed for millimetres."""
    if max(fitting.width_mm, fitting.height_mm) >= LEAST_SEEN_MM:
        return None
    size = f"{fitting.width_mm:g} × {fitting.height_mm:g} mm"
    verdict = not_known("place", ("width_mm",), f"It is {size}; enter its size in millimetres.", SOURCE, "mm")
    return Outcome(verdict, missing=(Blank(fitting, "width_mm"),))


def _half(blank: Blank) -> Outcome:
    sentence = f"Half a place was measured. Not entered: {label_of(blank)}."
    verdict = Verdict("place", Word.NOT_KNOWN, None, None, None, "mm", sentence, SOURCE, (blank.field,))
    return Outcome(verdict, missing=(blank,))


def _gone(site: Site, item: Item) -> Outcome | None:
    """Where what is to hold a thing was withdrawn or taken down since; None where all of it is there."""
    for name, words in HELD_BY[item.kind]:
        held_by = site.get(item.values[name])
        if item.values[name] is not None and (held_by is None or not held_by.stands):
            sentence = (
                f"What it is to {words} is not in the book any more."
                if held_by is None
                else f"{held_by.called}, which it is to {words}, was taken down."
            )
            verdict = not_known("place", (name,), f"{sentence} Enter what takes its place.", SOURCE, "mm")
            return Outcome(verdict, held_by, missing=(Blank(item, name),))
    return None


def _through(site: Site, fitting: Item, part: Stretch) -> Iterator[Wrong]:
    for other in near(site, "fitting", fitting.face, part):
        shared = overlap(part, geometry.fitting_stretch(other))
        if shared > FACE_MM and other.id != fitting.id and _apart(site, fitting, other):
            yield shared, _stands_into(shared, other), other


def _stands_into(by_mm: float, other: Item) -> str:
    return f"It stands {rounded_up(by_mm):g} mm into the place of {other.called}."


def _apart(site: Site, fitting: Item, other: Item) -> bool:
    """Whether two fittings need a place each."""
    return not _belong(site, fitting, other) and at_one_time(site, fitting, other)


def _perhaps_met(site: Site, met: list[other_walls.Neighbour]) -> Outcome | None:
    """Where what is not entered decides whether a thing on another wall is in its place."""
    found = max(met, key=lambda one: (one.by_mm, one.other.id), default=None)
    if found is None:
        return None
    lacking = joined(dict.fromkeys(label_of(blank) for blank in found.missing))
    of = f"{found.other.called} on {site[found.other.face].called}"
    sentence = f"Whether it stands in the place of {of} is not known. Not entered: {lacking}."
    verdict = not_known("place", tuple(blank.field for blank in found.missing), sentence, SOURCE, "mm")
    return Outcome(verdict, found.other, missing=found.missing)


def near(site: Site, kind: str, face: str, part: Stretch) -> Iterator[Item]:
    """The standing fittings or fixings that may share a point with a part of a face."""
    return site.standing_in(kind, cells_in(face, part.x_from, part.x_to, part.z_from, part.z_to))


def _belong(site: Site, one: Item, other: Item) -> bool:
    """Whether one of two fittings hangs on, is fixed to, or covers the other, so that they may lie over each other."""
    for first, second in ((one, other), (other, one)):
        if second.id in (first.covers or ()) or any(carrier.id == second.id for carrier in hung_on(site, first)):
            return True
    return False


def overlap(one: Stretch, other: Stretch) -> float:
    """How deep one rectangle lies in another, mm; 0 or less where they are apart."""
    across = min(one.x_to, other.x_to) - max(one.x_from, other.x_from)
    return min(across, min(one.z_to, other.z_to) - max(one.z_from, other.z_from))


def _beside(site: Site, fixing: Item, at: tuple[float, float]) -> list[tuple[float, Item]]:
    """The other fixings let into the same face that may reach into its place, with how far off they are, mm."""
    if fixing.fabric == "another fitting":
        return []
    found = []
    for other in near(site, "fixing", fixing.face, Stretch(at[0], at[0], at[1], at[1]).widened(WIDEST_MM)):
        x, z = geometry.place_of(other)
        off = math.hypot(at[0] - x, at[1] - z)
        apart = off > WIDEST_MM or other.fabric == "another fitting"
        if not apart and other.id != fixing.id and at_one_time(site, fixing, other):
            found.append((off, other))
    return found


def _in_the_place(
    fixing: Item, beside: Iterable[tuple[float, Item]], blank_mm: float = 0
) -> Iterator[tuple[float, Item]]:
    """How far other fixings reach into its place, mm, where one of no diameter measures `blank_mm` across."""
    radius = _across(fixing, blank_mm) / 2
    for off, other in beside:
        into = radius + _across(other, blank_mm) / 2 - off
        if into > 0 or off == 0:
            yield max(into, 0.1), other


def _across(fixing: Item, blank_mm: float) -> float:
    return blank_mm if fixing.diameter_mm is None else fixing.diameter_mm


def _perhaps_in_the_way(fixing: Item, beside: Iterable[tuple[float, Item]]) -> Outcome | None:
    """Where a diameter that is not entered decides whether another fixing is in its place."""
    found = max(_in_the_place(fixing, beside, BLANK_MM), key=lambda one: (one[0], one[1].id), default=None)
    if found is None:
        return None
    other = found[1]
    blanks = tuple(Blank(one, "diameter_mm") for one in (fixing, other) if one.diameter_mm is None)
    lacking = " and ".join(label_of(blank) for blank in blanks)
    sentence = f"Whether it is in the place of {other.called} is not known. Not entered: {lacking}."
    verdict = Verdict("place", Word.NOT_KNOWN, None, None, None, "mm", sentence, SOURCE, ("diameter_mm",))
    return Outcome(verdict, other, missing=blanks)


def _in_the_way(
    site: Site, fixing: Item, at: tuple[float, float], beside: Iterable[tuple[float, Item]]
) -> Iterator[Wrong]:
    """Other fixings in its place, and fittings it would go through."""
    if fixing.fabric == "another fitting":
        return
    for into, other in _in_the_place(fixing, beside):
        yield into, f"It is in the place of {other.called}.", other
    spot = Stretch(at[0], at[0], at[1], at[1])
    own = site.get(fixing.fitting)
    for other in near(site, "fitting", fixing.face, spot):
        if own is None or other.id == own.id or not at_one_time(site, fixing, other):
            continue
        if not _belong(site, own, other):
            into = overlap(spot.widened(FACE_MM), geometry.fitting_stretch(other))
            if into > FACE_MM and away_from(geometry.fitting_stretch(other), at) == 0:
                yield into, f"It goes through {other.called}, which it does not hold.", other


FACE = {
    "face.left_mm": NEITHER,
    "face.bottom_mm": NEITHER,
    "face.width_mm": NEITHER,
    "face.height_mm": NEITHER,
    **other_walls.READS,
    "fitting.x_mm": NEITHER,
    "fitting.z_mm": NEITHER,
    "fitting.width_mm": NEITHER,
    "fitting.height_mm": NEITHER,
}
TIME = dict.fromkeys(("fitting.phase", "fitting.until_phase", "fitting.state"), NEITHER)
FIXING = dict.fromkeys(
    (
        *("fixing.x_mm", "fixing.z_mm", "fixing.fitted_x_mm", "fixing.fitted_z_mm", "fixing.sort", "fixing.fabric"),
        *("fixing.contact_radius_mm", "fitting.moves_mm", "hold.sort", "hold.x_mm", "hold.z_mm"),
    ),
    NEITHER,
)
QUESTIONS = (
    Question("place", "fitting", "Can it be where it is said to be?", of_fitting, FACE | TIME),
    Question(
        "place",
        "fixing",
        "Is it on its face, on its fitting and at its hold, and through nothing else?",
        of_fixing,
        FACE | FIXING | TIME | {"fixing.state": NEITHER, "fixing.fitted_place": NEITHER} | {"fixing.diameter_mm": MORE},
    ),
)


def warnings(site: Site, items: Iterable[str], today: date) -> Iterator[tuple[Item, str]]:
    """What is wrong with the places of items that were accepted all the same: beyond a face, or through another."""
    of_kind = {question.kind: question for question in QUESTIONS if question.name == "place"}
    for item in items:
        one = site.get(item)
        if one is not None and one.kind in of_kind and one.stands:
            found = find(of_kind[one.kind], one, site, today)
            if found.word in {Word.OVER, Word.CLOSE}:
                yield one, found.verdict.sentence
