"""What went up in one act: one day, one person, one word for the places, and figures where they differ."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from typing import Any

from flask import request
from wtforms import HiddenField

from ...book.entry_lines import Line
from ...book.site import Item, Site
from ...book.wording import count
from ...errors import FieldbookError, Missing, NotANumber, Refused
from ...model.choices import FITTED, PLANNED
from ...model.fields import Field
from ...model.kinds import KINDS
from ...model.runs import NONE
from ...model.values import accept
from ...model.written_together import lists_in
from ..all_or_nothing import ITEMS
from .figures_together import of_group
from .inputs import inputs_of
from .of_kind import MendableForm

FIXING = KINDS["fixing"]
PLACE, ON, BY = "fitted_place", "fitted_on", "fitted_by"
FIGURES = ("fitted_x_mm", "fitted_z_mm")
PLACED = tuple(FIXING.by_name[name] for name in FIGURES)
OF_ALL = tuple(FIXING.by_name[name] for name in (ON, BY, PLACE))
OF_EACH = tuple(field for field in FIXING.asked if field.ticked and field not in OF_ALL)


class FittedForm(MendableForm):
    """What was fitted.

    items   what is offered, by id, in the order of the page; chosen  the ids of those that were fitted
    """

    base = HiddenField()
    items: Mapping[str, Item]
    chosen: Sequence[str]


def fitted_form(site: Site, ticked: Iterable[Item], revision: int) -> FittedForm:
    """The form for what was ticked and is only planned; a fitting brings its fixings."""
    items = {one.id: one for one in _with_fixings(site, ticked) if one.values.get("state") == PLANNED}
    asked: list[Field] = list(OF_ALL)
    asked += [of_one(field, one) for one in items.values() if one.kind == FIXING.name for field in OF_EACH]
    last = [one.fitted_by for one in site.all(FIXING.name) if one.fitted_by]
    shown = {"base": str(revision), ON: date.today().isoformat(), BY: last[-1] if last else ""}
    made: type[FittedForm] = type("FittedFormOf", (FittedForm,), dict[str, Any](inputs_of(asked)))
    form = made(data=shown)
    form.items = items
    for item in items.values():
        if item.kind == FIXING.name:
            told = of_group([f"{name}-{item.id}" for name in FIGURES], PLACED) | {
                "own": False,
                "down": True,
            }
            form[f"{FIGURES[0]}-{item.id}"].render_kw = {"data-together": json.dumps(told), "data-of": item.fitting}
    form.chosen = request.form.getlist(ITEMS) if request.method == "POST" else list(items)
    return form


def of_one(field: Field, item: Item) -> Field:
    """The field of one thing among several."""
    name = f"{field.name}-{item.id}"
    return Field(name, field.label, field.type, unit=field.unit, low=field.low, high=field.high)


def _with_fixings(site: Site, ticked: Iterable[Item]) -> Iterator[Item]:
    seen = set()
    for one in ticked:
        if one.kind not in ("fitting", FIXING.name):
            continue
        for each in (one, *(site.of(one, FIXING.name) if one.kind == "fitting" else ())):
            if each.id not in seen:
                seen.add(each.id)
                yield each


def put_up(form: FittedForm) -> list[Line]:
    """A line for each thing that was fitted; raises Refused."""
    findings: list[FieldbookError] = []
    _part_places(form, findings)
    shared = {field.name: _accepted(form, field, field, findings) for field in OF_ALL}
    lines: list[Line] = []
    unplaced = []
    for item in (form.items[one] for one in form.chosen if one in form.items):
        values = {"state": FITTED, ON: shared[ON]}
        if item.kind == FIXING.name:
            own = {one.name: _accepted(form, of_one(one, item), one, findings) for one in OF_EACH}
            values |= {BY: shared[BY]} | {name: value for name, value in own.items() if value is not None}
            if not any(name in values for name in FIGURES):
                values[PLACE] = shared[PLACE]
                unplaced += [] if shared[PLACE] else [item.called]
        lines.append({"kind": item.kind, "item": item.id, "set": {k: v for k, v in values.items() if v is not None}})
    if shared[ON] is None:
        findings.append(Missing("The day is empty.", "Say when they were fitted.", field=ON))
    if unplaced:
        reason = f"Nothing says where {', '.join(unplaced)} came to sit."
        remedy = "Give x and z as measured, or say what is known of the others’ places."
        findings.append(Missing(reason, remedy, field=PLACE))
    if not lines:
        findings.append(Missing("Nothing is ticked.", "Tick what was fitted."))
    if findings:
        raise Refused(findings)
    return lines


def _part_places(form: FittedForm, findings: list[FieldbookError]) -> None:
    """Where x and z were typed into the cell of x, each comes into its own; those of several go on down the fitting."""
    fixings = [one for one in form.items.values() if one.kind == FIXING.name and one.id in form.chosen]
    for at, item in enumerate(fixings):
        x, z = _place_inputs(form, item)
        lists = lists_in(PLACED, x.data or "", runs=False) if not (z.data or "").strip() else []
        down = [one for one in fixings[at : at + len(lists)] if one.fitting == item.fitting]
        free = [one for one in down if one is item or not any(cell.data for cell in _place_inputs(form, one))]
        if len(free) < len(lists):
            findings.append(_too_many(x.name, item, len(lists), len(free)))
            continue
        for one, figures in zip(free, lists, strict=True):
            for cell, figure in zip(_place_inputs(form, one), figures, strict=True):
                cell.data = "" if figure == NONE else figure


def _place_inputs(form: FittedForm, item: Item) -> list[Any]:
    return [form[f"{name}-{item.id}"] for name in FIGURES]


def _too_many(name: str, item: Item, given: int, there: int) -> FieldbookError:
    reason = f"From {item.called} on {given} places are given, for {count(there, 'fixing')} without any."
    return NotANumber(reason, "Give x and z of each that was measured, with a slash between.", field=name)


def _accepted(form: FittedForm, asked: Field, field: Field, findings: list[FieldbookError]) -> Any:
    try:
        return accept(field, form.meant(asked))
    except FieldbookError as error:
        error.field = asked.name
        findings.append(error)
        return None


__all__ = ["FIGURES", "OF_ALL", "OF_EACH", "FittedForm", "fitted_form", "of_one", "put_up"]
