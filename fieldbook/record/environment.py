"""What the templates of the record can say: their filters and functions, and how words break."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import partial
from itertools import groupby
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from ..book import wording
from ..book.site import Item
from ..checks.verdict import Word
from ..drawing.underlay import box_under
from ..findings.questions import AT_STAKE, PEOPLE
from ..findings.room_to_move import RoomToMove
from ..folders import TEMPLATES
from ..model.kinds import KINDS
from ..model.terms import Term
from .answers import standing
from .contents import FaceSheet, Record, RoomSheet
from .flat_pictures import pair_scale
from .folding import alike, looked, most_said, told, unusual, usual, when
from .parts import MAY_BEGIN
from .room_sheets import COLUMN_MM
from .workings import lacking, worked

ON_LOADS = frozenset(name for name, stake in AT_STAKE.items() if stake == PEOPLE) - {"lifting", "fire", "glass"}
"""The questions of a statement of loads."""

MOST_OPEN = 12
"""Things listed as open on the first pages; all of them stand in the annex."""

MEASURING = ("plane_face", "plane_marks", "mark_px", "card_patches")  # of a photograph, told under it

MAY_BREAK = "\u200b"
_ENDLESS, _PIECE = re.compile(r"\S{60,}"), re.compile(r".{1,5}")
"""Longer than any address here, and than words are."""

_NOT_PLAIN = re.compile(r"""[\x00-\x1f\\"'<>&]""")


def side_by_side(rooms: Iterable[RoomSheet]) -> Iterator[tuple[bool, Iterator[tuple[RoomSheet, FaceSheet | None]]]]:
    """The parts of a survey in order: a room's own words (no face), then its faces.

    Together and True: those that follow each other in two columns; False: one that needs the page's width.
    """
    parts = ((room, face) for room in rooms for face in (None, *room.faces))
    return groupby(parts, lambda part: part[1] is None or (part[1].width_mm <= COLUMN_MM and not part[1].pair))


def room_to_move(room: RoomToMove, fitting: Item) -> str:
    """Where a fitting may be set and how much more it may carry, in one line."""
    along = [f"from {wording.figure(low)} to {wording.figure(high, 'mm')}" for low, high in room.along_mm if low < high]
    words = [
        f"left edge {wording.joined(along, 'or')}" if along else "stays where it is",
        f"may carry {wording.figure(room.more_kg, 'kg')} more" if room.more_kg else "nothing more",
        f"set by {room.set_by}" if room.set_by and (along or room.more_kg) else "",
    ]
    return "; ".join(filter(None, words)) if fitting.mass_loaded_kg is not None or along else words[0]


def clause(words: str, last: bool) -> str:
    """Words in a row of others, parted from the next by a semicolon instead of their own full stop."""
    return words if last else f"{words.removesuffix('.')}; "


def quoted(words: str) -> Markup:
    """Words within a string of a style sheet, none of which can end it."""
    return Markup(_NOT_PLAIN.sub(lambda sign: f"\\{ord(sign[0]):x} ", words))  # noqa: S704


def with_breaks(value: Any) -> Any:
    """Words as they may break into lines: no figure from its unit, and one of extraordinary length within itself.

    Finding places in such a one takes the renderer minutes.
    """
    if isinstance(value, str) and not isinstance(value, Markup):
        together = wording.kept_together(value)
        return _ENDLESS.sub(lambda word: MAY_BREAK.join(re.findall(_PIECE, word[0])), together)
    return value


def environment(record: Record) -> Environment:
    """Where the templates find their words. Everything that comes from the book is escaped."""
    made = Environment(
        loader=FileSystemLoader(TEMPLATES / "record"),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=with_breaks,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters.update(day=wording.day, moment=wording.moment, marks=wording.marks, joined=wording.joined)
    made.filters.update(other_facts=partial(_others, record), clause=clause, quoted=quoted)
    made.globals.update(
        say=partial(_say, record),
        mark=partial(_mark, record),
        facts=partial(_facts, record),
        others=partial(_others, record),
        box_under=box_under,
        pair_scale=pair_scale,
        side_by_side=side_by_side,
        papers=partial(_papers, record),
        measuring=lambda one: wording.facts(one, MEASURING, record.titles),
        figure=wording.figure,
        place=wording.place,
        span=wording.span,
        standing=standing,
        alike=partial(alike, titles=record.titles),
        told=told,
        looked=looked,
        most_said=most_said,
        usual=usual,
        unusual=unusual,
        when=when,
        worked=worked,
        lacking=lacking,
        count=wording.count,
        kinds=KINDS,
        Term=Term,
        Word=Word,
        MAY_BEGIN=MAY_BEGIN,
        most_open=MOST_OPEN,
        ON_LOADS=ON_LOADS,
        room_to_move=room_to_move,
    )
    return made


def _say(record: Record, item: Item, name: str) -> str:
    return wording.of_item(item, name, record.titles)


def _mark(record: Record, item: Item, name: str) -> str:
    """As `say`, with what a link points to by its mark alone."""
    return wording.of_item(item, name, record.called)


def _facts(record: Record, item: Item, *names: str) -> list[tuple[str, str]]:
    return wording.facts(item, names, record.titles)


def _others(record: Record, item: Item, *shown: str) -> list[tuple[str, str]]:
    """Every filled field that is not shown elsewhere: one that nobody thought of here is printed all the same."""
    kind = KINDS[item.kind]
    return wording.facts(item, [name for name in kind.by_name if name not in {kind.parent, *shown}], record.titles)


def _papers(record: Record, items: Iterable[Item]) -> str:
    """The documents about any of these, by reference and sort: a fixing's data sheet, a letter about its fitting."""
    ids = {item.id for item in items}
    return ", ".join(f"{one.reference} ({one.sort})" for one in record.documents if ids & set(one.items or ()))
