"""Rows of a table, typed or pasted, as lines of new items that `entering.enter` takes.

A cell holds what an input of its field would; of a link the mark or name of an item. A ditto mark says the same as
the cell above; an empty cell of a column that counts on is the one above and a step more; a time alone is on the day
above, a day without a year in the year above.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from datetime import date, datetime, timedelta
from typing import Any

from ..errors import FieldbookError, Missing, NotAChoice, NotANumber, UnsuitableText
from ..model.days_typed import day_in, moment_in
from ..model.fields import ANY, STRUCTURED, Field, Type
from ..model.figures import number_from
from ..model.implied import implied
from ..model.kinds import KINDS, Kind
from ..model.order import taken_for
from ..model.runs import runs_of
from ..model.typed import DITTO, from_text, whole_word
from .entry_lines import Line
from .next_mark import MARKS, next_mark
from .placed import place_of_hold
from .site import Item, Site

COUNTING = {Type.NUMBER, Type.WHOLE, Type.DATE, Type.MOMENT}
SPANS = {"min": timedelta(minutes=1), "h": timedelta(hours=1), "d": timedelta(days=1), "w": timedelta(weeks=1)}
_CORNERS = re.compile(r"\s*/\s*")  # in a cell, corners and rows of figures are parted by a stroke
_SPAN = re.compile(r"([+-]?\d+(?:[.,]\d+)?)\s*(min|h|d|w)[a-z]*")


def lines_of(
    site: Site,
    kind: Kind,
    common: Mapping[str, Any],
    columns: Sequence[Field],
    rows: Sequence[Sequence[str]],
    steps: Mapping[str, str] | None = None,
) -> list[Line]:
    """A line for each row, or the error that says why it is none.

    common   values that all have, unless a row says otherwise
    columns  what the cells are of, in order
    steps    name of a column -> what an empty cell of it counts on by: a figure, or a time as in 7 d, 2 h, 30 min
    Marks that no cell gives go on counting. Raises FieldbookError for a step that cannot be read.
    """
    go_on = {name: step_of(kind.by_name[name], text) for name, text in (steps or {}).items() if text.strip()}
    above: dict[str, Any] = {}
    marks: list[str] = []
    lines: list[Line] = []
    for number, row in enumerate(rows, 1):
        try:
            own = dict(_cells(site, columns, row, above, go_on, common))
        except FieldbookError as error:
            lines.append(error)
            continue
        above |= own
        values = {**common, **{name: value for name, value in own.items() if value is not None}}
        if kind.numbered_by in MARKS:
            values[kind.numbered_by] = values.get(kind.numbered_by) or next_mark(kind, site, values, marks) or None
            marks += filter(None, [values[kind.numbered_by]])
        lines.append(
            {
                "kind": kind.name,
                "item": f"row {number}",
                "set": values | implied(kind.name, values) | place_of_hold(site, values),
            }
        )
    return lines


def spread(columns: Sequence[Field], rows: Sequence[Sequence[str]], counting: Collection[str] = ()) -> list[list[str]]:
    """Rows with each run of figures as a row for each; what else such a row says is said again of all.

    counting  names of the columns whose empty cells count on. Raises NotANumber where runs of a row are uneven.
    """
    found: list[list[str]] = []
    for number, row in enumerate(rows, 1):
        try:
            runs = runs_of(dict(zip(columns, row, strict=False)))
        except FieldbookError as error:
            raise NotANumber(f"Row {number}: {error.reason}", error.remedy, value=error.value) from error
        said = list(zip((column.name for column in columns), row, strict=False))
        found.append([runs[name][0] if name in runs else cell for name, cell in said])
        again = [(name, '"' if cell.strip() and name not in (*MARKS, *counting) else "") for name, cell in said]
        for at in range(1, max(map(len, runs.values()), default=1)):
            found.append([runs[name][at] if name in runs else cell for name, cell in again])
    return found


def _cells(
    site: Site,
    columns: Sequence[Field],
    row: Sequence[str],
    above: Mapping[str, Any],
    go_on: Mapping[str, Callable[[Any], Any]],
    common: Mapping[str, Any],
) -> Iterator[tuple[str, Any]]:
    if len(row) > len(columns):
        reason = f"It has {len(row)} cells."
        raise NotAChoice(reason, f"Give: {', '.join(column.label for column in columns)}.", value="; ".join(row))
    said = dict(common)
    for column, cell in zip(columns, [*row, *[""] * (len(columns) - len(row))], strict=True):
        text, last = cell.strip(), above.get(column.name)
        if text in DITTO:
            if last is None:
                reason = f"{column.label} is a ditto mark with nothing above it."
                raise Missing(reason, "Write out the first.", field=column.name, value=text)
            value = last
        elif not text and column.name in go_on and last is not None:
            value = go_on[column.name](last)
        else:
            value = value_of(site, column, _as_above(column, text, last), said)
        said[column.name] = value
        yield column.name, value


def _as_above(field: Field, text: str, last: Any) -> str:
    """A day without its year, or a time without its day, with that of the cell above."""
    if not isinstance(last, str) or field.type not in {Type.DATE, Type.MOMENT}:
        return text
    return day_in(text, last) if field.type is Type.DATE else moment_in(text, last)


def value_of(site: Site, field: Field, text: str, said: Mapping[str, Any] | None = None) -> Any:
    """What a cell's text means; of a link the id of the item that has this mark or name. Raises NotAChoice.

    said  what else the row says: of two items that are called alike, the one on the same face or in the same room
    """
    if field.type is Type.LINK:
        return _item_called(site, field, text, said or {}).id if text else None
    if field.type in STRUCTURED and text.startswith("["):
        return _listed(field, text)
    if field.type in {Type.OUTLINE, Type.ROWS}:
        return from_text(field, _CORNERS.sub("\n", text))
    words = [word.strip() for word in text.split(",") if word.strip()]
    if field.type is Type.LINKS:
        return [_item_called(site, field, word, said or {}).id for word in words]
    return [whole_word(word, field.choices) for word in words] if field.type is Type.CHOICES else from_text(field, text)


def _listed(field: Field, text: str) -> Any:
    """A list as tables are handed over: JSON."""
    try:
        return json.loads(text)
    except (ValueError, RecursionError) as error:
        reason = f"{field.label} begins like a list of JSON and is none."
        raise UnsuitableText(reason, "Write it as its input takes it.", field=field.name, value=text) from error


def _item_called(site: Site, field: Field, text: str, said: Mapping[str, Any]) -> Item:
    if (known := site.get(text)) is not None:
        return known
    kinds = [kind.name for kind in KINDS.values() if kind.pointed_to] if field.to == ANY else [field.to]
    items = [site.item] if kinds == ["site"] else [one for kind in kinds for one in site.all(kind)]
    found = [one for one in items if taken_for(one.mark_or_name) == taken_for(text)]
    for around in ("face", "room"):
        here = [one for one in found if said.get(around) and one.values.get(around) == said[around]]
        found = here or found
    if len(found) == 1:
        return found[0]
    what = "anything" if field.to == ANY else f"{KINDS[field.to].label.lower()}"
    reason = f"{field.label} is “{text}”: {'more than one' if found else 'no'} {what} of this site is called that."
    raise NotAChoice(reason, "Give its mark, or its id.", field=field.name, value=text)


def step_of(field: Field, text: str) -> Callable[[Any], Any]:
    """What makes the next value of the one before; raises NotANumber."""
    if field.type in {Type.DATE, Type.MOMENT}:
        if found := _SPAN.fullmatch(text.strip().lower()):
            return _later(field, float(found[1].replace(",", ".")) * SPANS[found[2]])
        reason = f"{field.label} counts on by “{text.strip()}”, which is no span of time."
        raise NotANumber(reason, "Write it as 7 d, 2 h or 30 min.", field=f"step-{field.name}", value=text)
    step = number_from(text)
    if isinstance(step, str):
        reason = f"{field.label} counts on by “{text.strip()}”, which is not a number."
        raise NotANumber(reason, "Give it in figures.", field=f"step-{field.name}", value=text)
    return lambda last: round(last + step, 6) if isinstance(last, (int, float)) else last


def _later(field: Field, span: timedelta) -> Callable[[Any], Any]:
    def later(last: Any) -> Any:
        try:
            if field.type is Type.DATE:
                return (date.fromisoformat(last) + span).isoformat()
            moment = datetime.fromisoformat(last)
        except (TypeError, ValueError):
            return last  # is refused where it stands
        # The clock on the wall goes on by the span: what is read at nine each week is read at nine in summer too.
        return (moment.replace(tzinfo=None) + span).astimezone().isoformat()

    return later
