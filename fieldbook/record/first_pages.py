"""The two pages in front, for a volunteer who never met the fitter: what is open, whom to call, what may be done."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from ..book.site import Item, Site
from ..checks.verdict import STOP, UNKNOWN, Word
from ..findings import Finding
from ..findings.questions import AT_STAKE, CONSENT, FUNCTION, OLD_FABRIC, PEOPLE
from ..findings.room_to_move import RoomToMove, room_to_move
from ..model.choices import FITTED
from .removal import Removal, RemovalStep

DECIDES: Mapping[str, tuple[str, ...]] = {
    PEOPLE: ("fitter", "a structural engineer where it hangs over people or is heavy"),
    OLD_FABRIC: ("conservation adviser",),
    CONSENT: ("keeper",),
    FUNCTION: ("fitter",),
}
"""What is at stake -> who decides: common practice, no source."""

A_GLANCE = 120
"""Letters of a sentence that is not shortened."""

_STANDS_ON = {"fixing": "fitting", "zone": "face", "limit": "face", "hold": "face", "member": "face", "patch": "face"}


@dataclass(frozen=True)
class OpenMatter:
    """All that is open about one thing.

    subject  the fitting, face, room or site whose sheet tells all of it
    where    the room it is in; "" for the site
    worst    of the findings; `words` is what the worst of them says, `more` how many there are besides
    decides  who decides, each once
    """

    subject: Item
    where: str
    worst: Word
    words: str
    more: int
    decides: tuple[str, ...]


@dataclass(frozen=True)
class MayCarry:
    """What may be put on a fitting that is up, and where it may be set.

    load_kg  what may lie on it, at most; None where it is not made for that or nothing is entered
    room     where it may be set, and how much more it may carry, with every answer as good as now
    """

    fitting: Item
    load_kg: float | None
    room: RoomToMove


@dataclass(frozen=True)
class FirstOff:
    """What comes off first if it must go at once.

    said     whether somebody has said so; else it is what nothing else waits for
    people   the most of them at a time; None where any is not entered, and so `minutes` for all
    """

    steps: tuple[RemovalStep, ...]
    said: bool
    people: int | None
    minutes: float | None
    tools: tuple[str, ...]


def open_matters(site: Site, findings: Iterable[Finding]) -> tuple[OpenMatter, ...]:
    """What stops or is not known, thing by thing, in the order of the findings: the gravest first."""
    of: dict[str, list[Finding]] = {}
    for finding in findings:
        if finding.word in STOP | UNKNOWN:
            of.setdefault(_home(site, finding.subject).id, []).append(finding)
    return tuple(_matter(site, site[home], alike) for home, alike in of.items())


def _home(site: Site, item: Item) -> Item:
    """The item whose sheet tells what was found about another."""
    if item.kind in _STANDS_ON:
        return site[item.values[_STANDS_ON[item.kind]]]
    return item if item.kind in {"fitting", "face", "room"} else site.item


def _matter(site: Site, home: Item, findings: Sequence[Finding]) -> OpenMatter:
    worst = findings[0]
    asked = (AT_STAKE[one.question] for one in findings if one.question != "specialist")
    decides = tuple(dict.fromkeys(who for at_stake in asked for who in DECIDES[at_stake]))
    face = site[home.face] if home.kind == "fitting" else home
    room = site[face.room] if face.kind == "face" else face
    where = room.title if room.kind == "room" else ""
    return OpenMatter(home, where, worst.word, in_short(worst.verdict.own_sentence), len(findings) - 1, decides)


def in_short(words: str) -> str:
    """As many of the first sentences as a glance takes, one at least; all of them stand where the page leads.

    >>> in_short("It is 40 N, 12 N above the limit. " + "Left out: fatigue, impact and what nobody has opened. " * 3)
    'It is 40 N, 12 N above the limit. Left out: fatigue, impact and what nobody has opened.'
    """
    short, *others = re.split(r"(?<=[.!?]) (?=[A-Z])", words.strip())
    for sentence in others:
        if len(short) + len(sentence) >= A_GLANCE:
            break
        short = f"{short} {sentence}"
    return short


def may_carry(site: Site, today: date) -> tuple[MayCarry, ...]:
    """The fittings that are up and made to be loaded or moved."""
    up = [one for one in site.all("fitting") if one.state == FITTED]
    return tuple(
        MayCarry(one, load, room_to_move(site, one, today))
        for one in up
        if (load := _load_kg(one)) is not None or one.moves_mm is not None
    )


def _load_kg(fitting: Item) -> float | None:
    """What may lie or hang on it: what it is made to carry, and what it weighs loaded more than empty."""
    loaded, empty = fitting.mass_loaded_kg, fitting.mass_empty_kg
    lies = loaded - empty if loaded is not None and empty is not None and loaded > empty else None
    parts = [part for part in (lies, fitting.carries_kg) if part is not None]
    return sum(parts) if parts else None


def first_off(removal: Removal) -> FirstOff:
    """What comes off first in a hurry: what the keeper named, else what waits for nothing, of what is up."""
    up = [step for step in removal.steps if step.fitting.state == FITTED]
    named = [step for step in up if step.fitting.goes_first]
    steps = named or [step for step in up if not step.after]
    people = [step.fitting.people_to_remove for step in steps]
    minutes = [step.fitting.minutes_to_remove for step in steps]
    return FirstOff(
        tuple(steps),
        bool(named),
        None if None in people or not people else max(people),
        None if None in minutes or not minutes else sum(minutes),
        tuple(dict.fromkeys(tool for step in steps for tool in step.tools)),
    )
