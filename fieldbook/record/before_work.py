"""What the keeper is given before work begins: what will be done, what is protected, what stops it, and where to sign.

All of it is from what is entered; what nobody entered or looked for is said, so that it is asked before a tool is
picked up.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from ..book.site import Item, Site
from ..book.wording import NO_BREAK, figure, joined, marks, of_item
from ..checks.cautions import Caution
from ..checks.limits import rounded_up
from ..checks.verdict import FINE, STOP, UNKNOWN, Word
from ..drawing.signs import hazard, sign
from ..findings import Finding
from ..findings.hazards import cautions_for, cautions_in
from ..findings.looked import looked
from ..model.choices import LOOKED_FOR, PLANNED
from .coming_off import HANDS
from .first_pages import in_short
from .pdf import Printed
from .setting_out_sheet import turns_of
from .sheets import print_sheets

KEPT_FREE = ("route", "headroom", "leaf", "keep in view")


@dataclass(frozen=True)
class Work:
    """One thing that is to go up, in its turn.

    fixings  how it is held, alike ones together, with the holes they take
    hand_kg  what is in each hand of the people entered, to a tenth upwards; None where people or mass are not
    word     the worst found about it or a fixing of it, where that is not fine
    """

    number: int
    fitting: Item
    room: Item
    fixings: tuple[str, ...]
    tools: tuple[str, ...]
    hand_kg: float | None
    word: Word | None


MOST_NAMED = 12
"""Zones of a face that are told by their names; their drawing has the marks of all."""


@dataclass(frozen=True)
class WorkPlace:
    """A face that is worked at, and what is protected there.

    kept_free  ways, leaves and signs that stay free while work goes on
    unlooked   what nobody is known to have looked for
    """

    room: Item
    face: Item
    zones: tuple[Item, ...]
    kept_free: tuple[Item, ...]
    unlooked: tuple[str, ...]

    @property
    def kept_off(self) -> list[tuple[str, str]]:
        """Zones and what they forbid, those that say the same together; of many by their marks alone."""
        alike: dict[tuple[str, str], list[str]] = defaultdict(list)
        for zone in self.zones:
            says = f"no {', '.join(zone.forbids)} within {figure(zone.margin_mm, 'mm')}"
            alike["" if len(self.zones) > MOST_NAMED and zone.mark else zone.name, says].append(zone.mark or "")
        return [(f"{marks(list(filter(None, called)))} {name}".strip(), says) for (name, says), called in alike.items()]


@dataclass(frozen=True)
class _OnADay:
    site: Site
    today: date


@dataclass(frozen=True)
class BeforeWork:
    """What is told before work begins.

    stops  what has to be settled first: title of a thing, word, and what is open about it
    """

    work: tuple[Work, ...]
    places: tuple[WorkPlace, ...]
    rooms: tuple[Item, ...]
    cautions: tuple[Caution, ...]
    new_holes: int
    stops: tuple[tuple[Item, Word, str], ...]

    @property
    def unlooked(self) -> list[tuple[str, str]]:
        """What nobody is known to have looked for, and on which faces; faces of which that is alike together."""
        faces: dict[str, list[str]] = defaultdict(list)
        for place in self.places:
            if place.unlooked:
                faces["; ".join(place.unlooked)].append(place.face.called)
        return [(what, joined(called)) for what, called in faces.items()]


def before_work(site: Site, findings: Sequence[Finding], today: date) -> BeforeWork:
    """What is planned on a site and what has to be known before it is done; findings in the order of `appraise`."""
    turns = turns_of(site)
    planned = [one for one in site.all("fitting") if one.state == PLANNED]
    planned.sort(key=lambda one: turns.get(one.id, 0))
    faces = dict.fromkeys(site[face] for one in planned for face in _faces_of(site, one))
    rooms = dict.fromkeys(site[face.room] for face in faces)
    about = [*(one for room in rooms for one in cautions_in(room))]
    about += [one for fitting in planned for one in cautions_for(site, fitting)]
    open_about = _open_about(planned, findings)
    return BeforeWork(
        tuple(_work(site, one, number, open_about.get(one.id)) for number, one in enumerate(planned, 1)),
        tuple(_place(_OnADay(site, today), face) for face in faces),
        tuple(rooms),
        tuple({caution.key: caution for caution in about}.values()),
        sum(fixing.hole == "new" for one in planned for fixing in _fixings(site, one)),
        tuple(
            (site[item], finding.word, in_short(finding.verdict.own_sentence)) for item, finding in open_about.items()
        ),
    )


def _faces_of(site: Site, fitting: Item) -> list[str]:
    return [fitting.face, *(fixing.face for fixing in _fixings(site, fitting))]


def _fixings(site: Site, fitting: Item) -> list[Item]:
    return [one for one in site.of(fitting, "fixing") if one.state == PLANNED]


def _open_about(planned: Iterable[Item], findings: Iterable[Finding]) -> dict[str, Finding]:
    """Id of a planned fitting -> the gravest finding about it or a fixing of it that is not fine."""
    ids = {one.id for one in planned}
    open_about: dict[str, Finding] = {}
    for finding in findings:
        subject = finding.subject
        home = subject.fitting if subject.kind == "fixing" else subject.id
        if home in ids and finding.word in STOP | UNKNOWN:
            open_about.setdefault(home, finding)
    return open_about


def _work(site: Site, fitting: Item, number: int, found: Finding | None) -> Work:
    fixings = _fixings(site, fitting)
    mass, people = fitting.mass_empty_kg, fitting.people_to_remove
    return Work(
        number,
        fitting,
        site[site[fitting.face].room],
        tuple(f"{many}{NO_BREAK}×{NO_BREAK}{words}" for words, many in Counter(map(_held_by, fixings)).items()),
        tuple(dict.fromkeys(one.removal_tool for one in fixings if one.removal_tool)),
        rounded_up(mass / people / HANDS) if mass is not None and people else None,
        found.word if found and found.word not in FINE else None,
    )


def _held_by(fixing: Item) -> str:
    size = of_item(fixing, "size", {})
    words = f"{fixing.sort}{f' {size}' if size else ''}"
    if fixing.hole == "existing":
        return f"{words} in a hole that is there"
    if fixing.hole != "new":
        return f"{words}, no hole"
    deep = f", {figure(fixing.penetration_mm, 'mm')} deep" if fixing.penetration_mm else ""
    return f"{words}, a new hole{deep} in {fixing.into or fixing.fabric}"


def _place(on_a_day: _OnADay, face: Item) -> WorkPlace:
    site = on_a_day.site
    return WorkPlace(
        site[face.room],
        face,
        site.of(face, "zone"),
        tuple(one for one in site.of(face, "limit") if one.sort in KEPT_FREE),
        tuple(what for what in LOOKED_FOR if not looked(on_a_day, face, what)),
    )


def write_before_work(site: Site, findings: Sequence[Finding], file: Path, today: date) -> Printed:
    """Write the sheet that the keeper is given before work as PDF. Raises what printing raises."""
    told = before_work(site, findings, today)
    drawings = {f"app:sign/{word.name.lower()}": sign(word) for word in Word}
    drawings |= {f"app:hazard/{one.key.replace(' ', '-')}": hazard(one.key, one.title) for one in told.cautions}
    return print_sheets("before_work.html", drawings, file, site=site, told=told)
