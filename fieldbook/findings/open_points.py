"""What is open on a site, in three short lists: what stops the work, what to measure on this walk, what can wait.

A point is one thing to do, with all that it settles: nobody is asked twice for the same mass.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ..book.site import Item, Site
from ..book.wording import count
from ..checks.verdict import STOP, UNKNOWN, Word
from ..model.kinds import KINDS
from .asking import label_of
from .finding import Blank, Finding

SHOWN = 12  # lines of a list; the rest is folded
# What is found out at a desk or from somebody else, not at the wall.
AT_A_DESK = {"site", "agreement", "decision", "finish", "material", "cost", "task"}
FROM_OTHERS = {"load_limit_n", "load_said_by", "stated_load_n", "stated_by", "floor_limit_kn_m2", "fire_limit"}


def _waiting(answers: int) -> str:
    return f"{count(answers, 'answer')} {'waits' if answers == 1 else 'wait'} for it"


@dataclass(frozen=True)
class Point:
    """One open point.

    words    what it is, or what to enter
    item     where it is looked at
    blank    what is to be entered, where that is it
    settles  how many findings it bears on
    """

    words: str
    item: Item
    blank: Blank | None
    settles: int

    @property
    def field(self) -> str | None:
        """The field that is to be filled in, or the kind of what is to be entered."""
        return self.blank.field if self.blank else None

    @property
    def line(self) -> str:
        """The point in one line: the loaded mass of C2: 9 answers wait for it."""
        return f"{self.words}: {_waiting(self.settles)}" if self.blank else self.words


@dataclass(frozen=True)
class OpenPoints:
    """The three lists, each with what settles most first."""

    stop: tuple[Point, ...]
    this_walk: tuple[Point, ...]
    later: tuple[Point, ...]


def open_points(site: Site, findings: Sequence[Finding]) -> OpenPoints:
    """What is open, from findings in the order of `appraise`."""
    stop = tuple(_alike(one for one in findings if one.word in STOP))
    missing = Counter(blank_key(blank) for one in findings if one.word in UNKNOWN for blank in one.missing)
    blanks = {blank_key(blank): blank for one in findings for blank in one.missing}
    entries = [_entry(blanks[key], settles) for key, settles in missing.most_common()]
    walk = tuple(point for point in entries if _at_the_wall(point))
    later = [point for point in entries if not _at_the_wall(point)]
    return OpenPoints(stop, walk, (*_unagreed(site, findings), *later, *_undecided(findings)))


def blank_key(blank: Blank) -> tuple[str, str, str]:
    """A missing entry as a key: the item's id, the field, and what is missing in it."""
    return blank.item.id, blank.field, blank.words


def _entry(blank: Blank, settles: int) -> Point:
    return Point(label_of(blank), blank.item, blank, settles)


def _at_the_wall(point: Point) -> bool:
    return point.item.kind not in AT_A_DESK and point.field not in FROM_OTHERS


def _unagreed(site: Site, findings: Iterable[Finding]) -> list[Point]:
    """One line a fitting: what the keeper is still to be asked about it and its fixings."""
    about: Counter[str] = Counter()
    items: dict[str, Item] = {}
    for one in findings:
        if one.word is Word.NOT_AGREED:
            item = site.get(one.subject.fitting) if one.subject.kind == "fixing" else None
            item = item or one.subject
            items[item.id] = item
            about[item.id] += 1
    return [
        Point(
            f"Ask the keeper about {items[key].called} and what it does to old fabric: {_waiting(number)}",
            items[key],
            None,
            number,
        )
        for key, number in about.most_common()
    ]


def _undecided(findings: Iterable[Finding]) -> list[Point]:
    """What no entry settles: a method that does not reach, or a specialist who has to decide."""
    return _alike(one for one in findings if one.word is Word.NOT_KNOWN and not one.missing)


def _alike(findings: Iterable[Finding]) -> list[Point]:
    """One line for all that are told the same: a fitting that was refused, and its fixings with it."""
    of: dict[str, list[Finding]] = {}
    for one in findings:
        of.setdefault(one.verdict.sentence, []).append(one)
    return [Point(f"{_names(alike)}: {sentence}", alike[0].subject, None, len(alike)) for sentence, alike in of.items()]


def _names(findings: Sequence[Finding]) -> str:
    names = list(dict.fromkeys(one.subject.called or KINDS[one.subject.kind].label for one in findings))
    return ", ".join(names[:4]) + (f" and {len(names) - 4} more" if len(names) > 4 else "")
