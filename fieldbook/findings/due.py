"""What is due on a site: when, by whom, where. Desk, phone, diary and record all tell of it from here.

Mirrored by static/phone/book/due.js, which is told by the desk what it cannot answer itself. What is dated after today
counts only when its day has come: a clock that runs ahead may hide nothing; `dated_ahead` names what it has touched.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, datetime
from typing import NamedTuple
from uuid import UUID, uuid5

from ..book.site import Item, Site
from ..checks.rounds import months_after, next_round
from ..checks.verdict import STOP
from ..model.choices import DONE, PLANNED
from .appraisal import appraise

PATCH_MONTHS = {3: "three", 12: "twelve"}
"""When a test patch is looked at: common practice, no source."""
URGENT_MONTHS = {"3": 0, "2": 1, "1": 12}
"""Urgency class of EN 16096 -> months in which it is seen to: common practice, no source."""
EARLY_DAYS = 14
SOON_MONTHS = 3
DATED = {"work": "on", "visit": "on", "observation": "at", "patch": "looked_on"}
HAPPENED = {
    **{kind: (name,) for kind, name in DATED.items()},
    **dict.fromkeys(("fitting", "fixing"), ("fitted_on", "taken_down_on")),
    **dict.fromkeys(("colour", "statement"), ("on",)),
}
"""Kind -> the days on which something is said to have happened."""
ANSWERS = "answers"
OVERDUE, SOON, LATER, UNDATED = STATES = ("overdue", "soon", "later", "no day entered")


class Due(NamedTuple):
    """One thing that is to be done.

    uid    by which it is told apart for good
    on     the day; None where none is entered
    sort   care, visit, agreement, condition, test patch, tightness, finding, answer
    what   in words; `why_not` why it was not done when it was to be
    item   what says so; `about` the thing it is at, None for the whole site; `room` where that is
    by     role; "" where nobody is named
    every  months between two rounds; None: it comes once
    open   False: it was done, or needs to be done no more
    """

    uid: str
    on: date | None
    sort: str
    what: str
    item: Item
    about: Item | None = None
    by: str = ""
    every: int | None = None
    why_not: str = ""
    open: bool = True


def due_on(site: Site, today: date) -> list[Due]:
    """What is to be done on a site, what is overdue first, each part in the order of a walk through the rooms."""
    places = _Walk(site)
    found = [one for one in all_due(site, today) if one.open]
    return sorted(found, key=lambda one: (STATES.index(state(one, today)), *places.of(one.about), one.on or today))


def state(one: Due, today: date) -> str:
    """Whether it should have been done by today, is to be done in the next months, or later."""
    if one.on is None:
        return UNDATED
    if one.on <= today:
        return OVERDUE
    return SOON if one.on <= months_after(today, SOON_MONTHS) else LATER


def all_due(site: Site, today: date) -> Iterator[Due]:
    """Everything that is or was to be done, with whether it still is."""
    yield from _tasks(site, today)
    yield from _visits(site, today)
    yield from _agreements(site)
    yield from _patches(site, today)
    yield from _tightness(site, today)
    yield from _findings(site, today)
    yield from _answers(site, today)


def dated_ahead(site: Site, today: date) -> list[Item]:
    """What is dated after today: its clock was wrong, or this one is."""
    return [
        one
        for kind, names in HAPPENED.items()
        for one in site.all(kind)
        if any(text and _day(text) > today for text in (one.values[name] for name in names))
    ]


def done_on(site: Site, task: Item, today: date) -> list[date]:
    """The days on which a task was done: by an entry of it, or at a visit that says what was done and names the task.

    Books are older than entries of work: until there were such, a visit was where it could be written down.
    """
    works = [one.on for one in site.pointing_at(task, "work", "task") if one.outcome == DONE]
    visits = [one.on for one in site.all("visit") if _names(one.done or "", task.what)]
    return [on for text in (*works, *visits) if (on := _day(text)) <= today]


def _names(words: str, what: str) -> bool:
    """Whether words name a thing whole, whatever the case of their letters and the spaces between."""
    said, sought = (" ".join("".join(x if x.isalnum() else " " for x in one.lower()).split()) for one in (words, what))
    return bool(sought) and f" {sought} " in f" {said} "


def room_of(site: Site, about: Item | None) -> Item | None:
    """The room something is in; None for what is of no room."""
    while about is not None and about.kind not in {"room", "site"}:
        about = site.get(about.values["face"]) if about.kind == "fixing" else site.parent(about)
    return about if about is not None and about.kind == "room" else None


def _day(text: str) -> date:
    return date.fromisoformat(text[:10])


def _on(one: Item) -> date | None:
    text = one.values[DATED[one.kind]]
    return _day(text) if text else None


def _tasks(site: Site, today: date) -> Iterator[Due]:
    for task in site.all("task"):
        about = site.get(task.fitting) or site.get(task.room)
        first = _day(task.first_on) if task.first_on else None
        done = done_on(site, task, today)
        on = next_round(first, task.every_months, done)
        needed = (about is None or about.stands) and not (done and on is None)
        why = _why_not(site, task, on, today)
        yield Due(task.id, on, "care", task.what, task, about, task.who or "", task.every_months, why, needed)


def _why_not(site: Site, task: Item, on: date | None, today: date) -> str:
    """Why it was not done when it was last tried, in the round that is due: had it been done then, that were over."""
    works = [one for one in site.pointing_at(task, "work", "task") if one.outcome != DONE and _day(one.on) <= today]
    last = max(works, key=lambda one: (one.on, one.id), default=None)
    if last is None or on is None:
        return ""
    first = _day(task.first_on) if task.first_on else None
    after = next_round(first, task.every_months, [*done_on(site, task, today), _day(last.on)])
    return last.reason if after is None or after > on else ""


def _visits(site: Site, today: date) -> Iterator[Due]:
    visits = sorted((one for one in site.all("visit") if _day(one.on) <= today), key=lambda one: (one.on, one.id))
    for place, visit in enumerate(visits):
        if visit.next_on:
            by = visit.by or site.item.fitter or ""
            last = place + 1 == len(visits)
            yield Due(visit.id, _day(visit.next_on), "visit", "Visit", visit, None, by, open=last)


def _agreements(site: Site) -> Iterator[Due]:
    for one in site.all("agreement"):
        named = [item for link in one.items or () if (item := site.get(link))]
        about = named[0] if len(named) == 1 else None
        stands = not named or any(item.stands for item in named)
        told = (one, about)
        if one.until:
            what = f"End of agreement {one.reference}: ask again"
            again = one.answer != "no" and not _agreed_anew(site, one)
            yield Due(one.id, _day(one.until), "agreement", what, *told, one.said_by, open=stands and again)
        if one.conditions:
            what = f"Conditions of agreement {one.reference}: {one.conditions}"
            unmet = stands and one.answer != "no" and one.conditions_met in {"not yet", "no"}
            uid = uid_of(one, "conditions")
            yield Due(uid, _day(one.on), "condition", what, *told, site.item.fitter or "", open=unmet)


def _agreed_anew(site: Site, old: Item) -> bool:
    """Whether all it names is named by a later agreement that ends later, or not at all."""
    later = [one for one in site.all("agreement") if one.id != old.id and one.on > old.on and one.answer != "no"]
    return bool(old.items) and any(
        set(old.items) <= set(one.items or ()) and (not one.until or one.until > old.until) for one in later
    )


def _patches(site: Site, today: date) -> Iterator[Due]:
    for patch in site.all("patch"):
        looked = _on(patch)
        for months, words in PATCH_MONTHS.items():
            on = months_after(_day(patch.laid_on), months)
            seen = looked is not None and looked <= today and (on - looked).days <= EARLY_DAYS
            what = f"Test patch {patch.called}: look after {words} months, with a photograph"
            by = patch.seen_by or site.item.fitter or ""
            yield Due(uid_of(patch, f"{months} months"), on, "test patch", what, patch, patch, by, open=not seen)


def _tightness(site: Site, today: date) -> Iterator[Due]:
    for fixing in site.all("fixing"):
        if fixing.looked_at_on:
            on = _day(fixing.looked_at_on)
            works = site.pointing_at(fixing, "work", "fixing")
            tightened = (_day(one.on) for one in works if one.sort == "tightening" and one.outcome == DONE)
            seen = any(day <= today and (on - day).days <= EARLY_DAYS for day in tightened)
            needed = fixing.stands and not seen
            by = fixing.fitted_by or site.item.fitter or ""
            what = f"Look whether {fixing.called} is tight"
            yield Due(fixing.id, on, "tightness", what, fixing, fixing, by, open=needed)


def _findings(site: Site, today: date) -> Iterator[Due]:
    for seen in site.all("observation"):
        months = URGENT_MONTHS.get(seen.urgency_class or "")
        if months is not None and _day(seen.at) <= today:
            about = site.get(seen.fitting) or site.get(seen.face) or site.get(seen.room)
            on = months_after(_day(seen.at), months)
            needed = (about is None or about.stands) and not _seen_to(site, seen, today)
            yield Due(seen.id, on, "finding", seen.what, seen, about, site.item.fitter or "", open=needed)


def _answers(site: Site, today: date) -> Iterator[Due]:
    """What stands and is refused or over: one entry a fitting, to be seen to on the day it is asked."""
    told = stopping(site, today)
    for fitting in site.all("fitting"):
        if fitting.state != PLANNED:
            found = told.get(fitting.id, []) if fitting.stands else []
            what = answered_in_words(fitting.called, found)
            by, uid = site.item.fitter or "", uid_of(fitting, ANSWERS)
            on = today if found else None
            yield Due(uid, on, "answer", what, fitting, fitting, by, open=bool(found))


def answered_in_words(called: str, sentences: Sequence[str]) -> str:
    """A fitting with the first of what is wrong with it, and how much more there is."""
    more = f" And {len(sentences) - 1} more." if len(sentences) > 1 else ""
    return f"{called} needs attention: {sentences[0] if sentences else 'nothing now.'}{more}"


def stopping(site: Site, today: date) -> dict[str, list[str]]:
    """Id of a fitting that stands -> what is refused or over about it and its fixings, gravest first."""
    told: dict[str, list[str]] = {}
    for finding in appraise(site, today):
        one = finding.subject
        fitting = site.get(one.fitting) if one.kind == "fixing" else one if one.kind == "fitting" else None
        if finding.word in STOP and fitting is not None and fitting.state != PLANNED and one.state != PLANNED:
            where = f"{one.called}: " if one.id != fitting.id else ""  # its own mark stands before all of it
            told.setdefault(fitting.id, []).append(f"{where}{finding.verdict.sentence}")
    return told


def _seen_to(site: Site, seen: Item, today: date) -> bool:
    """Whether it was mended, or somebody has looked over the same fitting again since."""
    works = site.pointing_at(seen, "work", "observation")
    if any(one.outcome == DONE and _day(one.on) <= today for one in works):
        return True
    fitting = site.get(seen.fitting)
    again: Iterable[Item] = site.pointing_at(fitting, "observation", "fitting") if fitting else ()
    return any(one.occasion == "inspection" and _moment(one) > _moment(seen) and _day(one.at) <= today for one in again)


def _moment(one: Item) -> tuple[datetime, str]:
    return datetime.fromisoformat(one.at), one.id


def uid_of(item: Item, what: str) -> str:
    """The id of one of several things that an item brings with it."""
    return str(uuid5(UUID(item.id), what))


class _Walk:
    """The order of a walk: room by room, wall by wall, along each wall from its datum."""

    def __init__(self, site: Site):
        self.site = site
        self.rooms = {room.id: place for place, room in enumerate(site.all("room"))}
        self.faces = {face.id: place for place, face in enumerate(site.all("face"))}

    def of(self, about: Item | None) -> tuple[int, int, float, float]:
        """Where on it something stands; what is of no room comes last, of a room as a whole first in it."""
        room = room_of(self.site, about)
        if about is None or room is None:
            return len(self.rooms), 0, 0.0, 0.0
        face = about.id if about.kind == "face" else about.values.get("face")
        x_mm, z_mm = (about.values.get(name) or 0.0 for name in ("x_mm", "z_mm"))
        return self.rooms[room.id], self.faces.get(face or "", -1), x_mm, z_mm
