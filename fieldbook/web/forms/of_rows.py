"""New items by the row: what all have in common in the form of their kind, the rest in a table under it."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from flask import request

from ...book.site import Item, Site
from ...book.table_lines import COUNTING, spread
from ...book.walls import Wall, walls_lacking
from ...errors import FieldbookError
from ...model.fields import Field, Type
from ...model.kinds import KINDS, Kind
from ...model.typed import row_cells, to_text
from ...model.written_together import groups_in, parted
from .figures_together import of_group
from .inputs import choices_told, inputs_of
from .of_kind import MendableForm, fields_of
from .presets import usual

ROWS, COLUMNS, STEP = "rows", "columns", "step-"
SHOW, ALL = "show", "all"  # the buttons that only change the columns
WALLS = "walls"  # of faces: whether the rows begin with the walls of the room's plan
_OF_A_WALL = {"mark", "name", "width_mm", "height_mm", "datum", *Wall._fields}
WALL_COLUMNS = {field.name: field for field in fields_of(KINDS["face"]) if field.name in _OF_A_WALL}


def columns_of(kind: Kind, site: Site) -> list[Field]:
    """The columns that were chosen, in the order of the form; at first what two things of the kind do not share."""
    chosen = may_be_columns(kind) if request.values.get(SHOW) == ALL else request.values.getlist(COLUMNS)
    given = set(dict(usual(kind, site))) | ({kind.parent} if kind.parent else set())
    named = (kind.numbered_by, "name")
    first = [one for one in fields_of(kind) if one.name in named or (one.required and not one.copied)]
    first += [one for one in fields_of(kind) if one.separate and one.type is Type.LINK and not one.copied]
    wanted = chosen or [
        one.name
        for one in first
        if (one.name not in given or one.type is Type.MOMENT) and (one.type is not Type.LINK or site.all(one.to))
    ]
    return [field for field in fields_of(kind) if field.name in wanted and field.name in may_be_columns(kind)]


def may_be_columns(kind: Kind) -> list[str]:
    """What fits into a cell; the site is the one at hand."""
    return [field.name for field in fields_of(kind) if field.type is not Type.ROWS and field.to != "site"]


def walls_rows(site: Site, room: Item | None) -> str:
    """The walls that a room's plan has and the book has not, as rows of WALL_COLUMNS; names and data are left to say.

    "" where there is no plan.
    """
    height = to_text(WALL_COLUMNS["height_mm"], room.ceiling_mm) if room else ""
    rows = []
    for mark, wall in walls_lacking(site, room) if room else ():
        told = {"mark": mark, "height_mm": height}
        told |= {name: to_text(WALL_COLUMNS[name], value) for name, value in wall._asdict().items()}
        rows.append("; ".join(told.get(name, "") for name in WALL_COLUMNS))
    return "\n".join(rows)


class RowsForm(MendableForm):
    """The table, and what each column counts on by.

    written_together  columns whose figures can all be typed into the cell of the first
    """

    written_together: Sequence[tuple[Field, ...]] = ()

    @property
    def counting(self) -> list[Any]:
        """The inputs for what columns count on by."""
        return [self[name] for name in self._fields if name.startswith(STEP)]

    @property
    def steps(self) -> dict[str, str]:
        """Name of a column -> what was typed."""
        return {one.name.removeprefix(STEP): one.data or "" for one in self.counting}

    @property
    def cells(self) -> list[list[str]]:
        """What stands in the table, row by row."""
        return [row_cells(line) for line in (self[ROWS].data or "").splitlines() if line.strip()]

    def spread(self, columns: Sequence[Field]) -> None:
        """Let the table show a row for each figure of a run; what cannot be one is told."""
        if any(len(row) > len(columns) for row in self.cells):
            return  # is refused as it stands
        counting = [name for name, step in self.steps.items() if step.strip()]
        cells = [_parted(columns, counting, row) for row in self.cells]
        try:
            rows = spread(columns, cells, counting)
        except FieldbookError as error:
            error.field = ROWS
            self.add_errors([error])
            return
        if rows != self.cells:
            self[ROWS].data = "\n".join(("\t" if any(";" in cell for cell in row) else "; ").join(row) for row in rows)


def _parted(columns: Sequence[Field], counting: Sequence[str], row: list[str]) -> list[str]:
    """A row with the figures of several columns, typed into the cell of the first, each in its own."""
    said = dict(zip((column.name for column in columns), [*row, *[""] * (len(columns) - len(row))], strict=True))
    new = parted(groups_in(column for column in columns if column.name not in counting), said, in_rows=True)
    return list((said | new).values()) if new else row


NO_COLUMN = Field("line", "Choose the columns first", Type.LINE)  # where an address asked for columns that are none


def rows_form(columns: Sequence[Field], shown: str = "") -> RowsForm:
    """The table for these columns: as sent if it was, else with these rows."""
    # Cells are text here: what they mean is told only where a ditto mark and a link are understood.
    texts = tuple(Field(one.name, one.heading, Type.LINE) for one in columns) or (NO_COLUMN,)
    asked: list[Field] = [Field(ROWS, "Rows", Type.ROWS, columns=texts)]
    asked += [Field(f"{STEP}{one.name}", one.heading) for one in columns if one.type in COUNTING]
    made: type[RowsForm] = type("RowsOfKind", (RowsForm,), dict[str, Any](inputs_of(asked)))
    steps = {name: value for name, value in request.args.items() if name.startswith(STEP)}
    form = made(meta={"csrf": False}, data={ROWS: shown, **steps})
    places = {one.name: at for at, one in enumerate(columns)}
    form.written_together = groups_in(columns)
    told = [of_group([places[one.name] for one in group], group) | {"own": True} for group in form.written_together]
    form[ROWS].render_kw = {**form[ROWS].render_kw, "data-together": json.dumps(told)} | choices_told(columns)
    return form
