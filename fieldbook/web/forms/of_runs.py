"""One form that enters several things: where a figure is each thing's own, a run of them makes as many."""

from __future__ import annotations

from typing import Any

from ...book.next_mark import MARKS, mark_after
from ...errors import FieldbookError, Refused
from ...model.fields import Field, Type
from ...model.kinds import Kind
from ...model.runs import runs_of
from .of_kind import EntryForm, fields_of

BY_COPIES = ("fitting",)  # several of these are copies, which keep what they were made like


def may_run(kind: Kind) -> list[Field]:
    """The fields that take a run: figures that another like it does not take over."""
    if kind.with_a_file or kind.name in ("site", *BY_COPIES):
        return []
    return [one for one in fields_of(kind) if one.type in {Type.NUMBER, Type.WHOLE} and not one.copied]


def each_accepted(form: EntryForm) -> list[dict[str, Any]]:
    """What the form enters, a thing at a time: one, or as many as there are figures in its runs; raises Refused.

    Marks go on from the one that stands there.
    """
    try:
        runs = runs_of({field: form[field.name].data or "" for field in may_run(form.kind)})
    except FieldbookError as error:
        raise Refused([error]) from error
    typed = {name: form[name].data for name in runs}
    found: list[dict[str, Any]] = []
    try:
        for at in range(max(map(len, runs.values()), default=1)):
            for name, figures in runs.items():
                form[name].data = figures[at]
            values = {name: value for name, value in form.accepted().items() if value is not None}
            if found and (mark := found[-1].get(form.kind.numbered_by)) and form.kind.numbered_by in MARKS:
                values[form.kind.numbered_by] = mark_after(mark) or mark
            found.append(values)
    finally:
        for name, text in typed.items():
            form[name].data = text
    return found
