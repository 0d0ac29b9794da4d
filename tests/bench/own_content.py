"""What of a book nobody could know who was not there: the least that has to be typed of it, whatever the forms offer.

Each text counts once, wherever it stands again; a figure, a day or a moment where the thing before of its sort, or
the row above, has another, and a series does not go on by the same step; a mark where it does not count on. What is
chosen or ticked counts nothing, nor what a camera notes.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from datetime import datetime
from typing import Any

from fieldbook.book.next_mark import MARKS, mark_after
from fieldbook.model.fields import TEXTS, Field, Type
from fieldbook.model.kinds import KINDS
from fieldbook.model.typed import to_text
from tests.bench.typist import CHOSEN, TICKED

Entry = Mapping[str, Any]
BY_CAMERA = {"taken_at"}
FIGURES = {Type.NUMBER, Type.WHOLE, Type.DATE, Type.MOMENT}


class Own:
    """Counts entries in the order they were made, and remembers what was said before."""

    def __init__(self, left_out: Iterable[str]):
        self._left_out = BY_CAMERA | set(left_out)
        self._said: set[str] = set()
        self._last: dict[str, tuple[str, str]] = {}

    def of(self, entry: Entry) -> Counter[str]:
        """Name of a field -> how many characters of an entry are its own."""
        kind = KINDS[entry["kind"]]
        found: Counter[str] = Counter()
        of = str([value for name, value in entry["set"].items() if kind.by_any_name[name].type in CHOSEN])
        for name, value in entry["set"].items():
            field = kind.by_any_name[name]
            if value in (None, []) or name in self._left_out or field.type in (*CHOSEN, *TICKED):
                continue
            found[name] = sum(
                self._own(where, one, cell) for where, one, cell in _leaves(f"{kind.name} {of}", field, value)
            )
        return found

    def _own(self, where: str, field: Field, value: Any) -> int:
        text = to_text(field, value)
        if field.type in FIGURES:
            text = text[:16] if field.type is Type.MOMENT else text
            before, last = self._last.get(where, ("", ""))
            self._last[where] = (last, text)
            return 0 if text == last or _steps_on(field, before, last, text) else len(text)
        if field.name in MARKS:
            last, self._last[where] = self._last.get(where, ("", ""))[1], ("", text)
            if text in (mark_after(last), f"{text[:-1]}1"):
                return 0
        new = text not in self._said
        self._said.add(text)
        return len(text) if new else 0


def _steps_on(field: Field, before: str, last: str, text: str) -> bool:
    """Whether a moment is as far from the last one as that from the one before."""
    if field.type is not Type.MOMENT or not before:
        return False
    one, two, three = map(datetime.fromisoformat, (before, last, text))
    return three - two == two - one


def _leaves(where: str, field: Field, value: Any) -> Iterator[tuple[str, Field, Any]]:
    """Each text and figure of a value, with what it is one of."""
    where = f"{where} {field.name}"
    if field.type is Type.OUTLINE:
        rectangle = len(value) == 4 and len({x for x, _ in value}) == len({z for _, z in value}) == 2
        corners = [value[0], value[2]] if rectangle else value  # a corner and a size take as much as two corners
        yield from ((f"{where} {at}", one, cell) for row in corners for at, one, cell in _row(field, row))
    elif field.type is Type.ROWS:
        yield from ((f"{where} {at}", one, cell) for row in value for at, one, cell in _row(field, row))
    else:
        yield where, field, value


def _row(field: Field, row: Iterable[Any]) -> Iterator[tuple[int, Field, Any]]:
    for at, (column, cell) in enumerate(zip(field.columns, row, strict=False)):
        if cell is not None and column.type in {*TEXTS, *FIGURES}:
            yield at, column, cell


def own_pieces(entries: Iterable[Entry], left_out: Iterable[str]) -> int:
    """How many fields of these entries hold a text or a figure of their own, a table as one, or another choice."""
    left_out = BY_CAMERA | set(left_out)
    own, chosen, found = Own(left_out), dict[tuple[str, str], Any](), 0
    for entry in entries:
        found += sum(number > 0 for number in own.of(entry).values())
        for name, value in entry["set"].items():
            what, kind = (entry["kind"], name), KINDS[entry["kind"]]
            if kind.by_any_name[name].type in (*CHOSEN, *TICKED) and value and name not in left_out:
                found += chosen.get(what) != value
                chosen[what] = value
    return found


def own_content(entries: Iterable[Entry], left_out: Iterable[str]) -> Counter[str]:
    """Kind and name of a field -> how many characters of these entries are the site's own."""
    own, found = Own(left_out), Counter[str]()
    for entry in entries:
        found += Counter({f"{entry['kind']}.{name}": number for name, number in own.of(entry).items()})
    return found
