"""One form for every kind, made from its fields; the checking is that of the fields themselves."""

from __future__ import annotations

import dataclasses
import json
from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from typing import Any, ClassVar

from flask import request
from flask_wtf import FlaskForm
from wtforms import HiddenField

from ...book.build_ups import by_name, layers_named
from ...book.documents import KeptDocument
from ...book.photographs import Kept
from ...book.placed import place_of_hold
from ...book.site import Site
from ...errors import FieldbookError, Missing, NotAChoice, Refused
from ...model.choices import STATES
from ...model.fields import Field, Type
from ...model.implied import IMPLIED, implied
from ...model.kinds import Kind
from ...model.typed import from_text, to_text
from ...model.values import accept
from .figures_together import write_together
from .inputs import inputs_of
from .of_statement import asked_first
from .options import Options
from .words_before import words_before, words_of_columns

FROM_THE_FILE = {part.name for known in (Kept, KeptDocument) for part in dataclasses.fields(known)}
DRAWN = frozenset({"signature", "fitter_signature"})
BY_COPYING = frozenset({"make", "mirrored"})  # said by the act that copies, not by hand
NO_LONGER = "No longer offered"
FEWEST_FOLDED = 3
LISTS = {Type.CHOICES, Type.LINKS}
LINKING = {Type.LINK, Type.LINKS}


class MendableForm(FlaskForm):
    """A form that comes back with each finding beside its input.

    unplaced  findings that belong to none
    words     name of an input -> what is offered while it is typed in
    usual     names of the inputs that the last of the kind had something in
    """

    class Meta(FlaskForm.Meta):
        """Where what was sent is read from."""

        def wrap_formdata(self, form: FlaskForm, formdata: Any) -> Any:
            """What was typed; JSON is none of it, whose numbers and lists would stand where text is meant."""
            return None if request.is_json else super().wrap_formdata(form, formdata)

    def __init__(self, *args: Any, **more: Any):
        super().__init__(*args, **more)
        self.unplaced: list[FieldbookError] = []
        self.words: dict[str, list[str]] = {}
        self.usual: set[str] = set()

    def add_errors(self, findings: Iterable[FieldbookError]) -> None:
        """Put each finding beside its input."""
        for finding in findings:
            if finding.field in self:
                self[finding.field].errors = [*self[finding.field].errors, finding]
            else:
                self.unplaced.append(finding)

    def calls_for(self, fields: Iterable[Field]) -> bool:
        """Whether some of these are needed, usual, or say something already, so that they stand open."""
        return any(one.required or one.name in self.usual or self[one.name].data for one in fields)

    def rarely_asked(self, _: Sequence[Field]) -> list[Field]:
        """Those under a heading that can wait."""
        return []

    def can_be_filled(self, field: Field) -> bool:
        """Whether there is anything to choose from; what is needed is asked for all the same."""
        return field.required or field.type not in LINKING or bool(self[field.name].groups.keys() - {""})

    def is_wrong_in(self, fields: Iterable[Field]) -> bool:
        """Whether something is to be mended in one of these."""
        return any(self[one.name].errors for one in fields)

    def meant(self, field: Field) -> Any:
        """What stands in the input of a field, before the field judges it."""
        typed = self[field.name].data
        return typed if field.type in LISTS else from_text(field, typed or "")


class EntryForm(MendableForm):
    """What a person enters about one item.

    entered_on  the site it is of; None where that is entered by it
    base        the revision of the book the person saw
    """

    kind: ClassVar[Kind]
    entered_on: Site | None = None
    base = HiddenField()

    def rarely_asked(self, fields: Sequence[Field]) -> list[Field]:
        """Those under a heading that can wait: of a thing that is put up, what is for the reader alone or known then.

        None where there are so few that folding them spares nothing, or one of them says something already.
        """
        if not any(one.choices == STATES for one in self.kind.fields):
            return []
        rare = [one for one in fields if one.can_wait and one.name not in self.usual]
        says = any(self[one.name].data or self[one.name].errors for one in rare)
        return [] if says or len(rare) < FEWEST_FOLDED else rare

    def accepted(self, before: Mapping[str, Any] | None = None) -> dict[str, Any]:
        """Every input's value as it is stored, None where it is empty; raises Refused with all findings.

        before  the item as it stands, if it does: what was not asked for when it was made may stay empty; of a new
                one what follows from the rest is filled in
        """
        values: dict[str, Any] = {}
        missing: dict[str, FieldbookError] = {}
        findings: list[FieldbookError] = []
        for field in fields_of(self.kind):
            try:
                values[field.name] = self._offered(field, accept(field, self.meant(field)))
            except Missing as error:
                if before is None or before.get(field.name) is not None:
                    missing[field.name] = error
                values[field.name] = None
            except FieldbookError as error:
                findings.append(error)
        follows = implied(self.kind.name, values) | place_of_hold(self.entered_on, values) if before is None else {}
        findings += [error for name, error in missing.items() if name not in follows]
        findings += asked_first(self.kind, self.entered_on, values) if before is None else []
        if findings:
            raise Refused(findings)
        return values | follows

    def meant(self, field: Field) -> Any:
        """What stands in the input of a field; of layers that are only named, those of the build-up of that name."""
        if field.type is Type.ROWS and self.entered_on is not None:
            named = layers_named(self.entered_on, self.kind.name, field.name, self[field.name].data or "")
            if named is not None:
                return named
        return super().meant(field)

    def _offered(self, field: Field, value: Any) -> Any:
        """The value, when it is no link or one that was to be chosen from."""
        if field.type in {Type.LINK, Type.LINKS}:
            offered = {one for choices in self[field.name].groups.values() for one, _ in choices}
            for link in [value] if isinstance(value, str) else value or []:
                if link not in offered:
                    raise NotAChoice(
                        f"{field.label} is no item of this site.",
                        "Choose one from the list.",
                        field=field.name,
                        value=link,
                    )
        return value

    def show(self, name: str, value: Any) -> None:
        """Let an input show a stored value."""
        field = self.kind.by_name[name]
        self[name].data = value or [] if field.type in LISTS else to_text(field, value)


def fields_of(kind: Kind) -> tuple[Field, ...]:
    """The fields a person at the desk fills in; not what is read from a file, drawn, or said by copying."""
    machine_made = FROM_THE_FILE if kind.with_a_file else DRAWN | BY_COPYING
    return tuple(field for field in kind.asked if field.name not in machine_made)


def entry_form(kind: Kind, site: Site | None, shown: Mapping[str, Any], base: int) -> EntryForm:
    """The form of a kind on a site: as sent when it was sent, else showing these values."""
    typed = as_typed(fields_of(kind), shown)
    form = _form_class(kind)(data=typed | {"base": str(base)})
    form.entered_on = site
    write_together(form, fields_of(kind), runs=site is not None)
    options = Options(site, shown.get("photograph"))
    for field in fields_of(kind):
        if field.type in {Type.LINK, Type.LINKS}:
            form[field.name].groups = options.of(field, shown.get(field.name))
        elif kept := [word for word in field.retired_choices if word in _words(shown.get(field.name))]:
            form[field.name].groups = form[field.name].groups | {NO_LONGER: [(word, word) for word in kept]}
    last = max(site.all(kind.name), key=lambda one: one.id, default=None) if site else None
    form.usual = {name for name, value in last.values.items() if value not in (None, [])} if last else set()
    form.words = words_before(site, kind, fields_of(kind))
    for name in form.words:
        said = "data-said" if kind.by_name[name].type is Type.NOTE else "list"
        form[name].render_kw = {**(form[name].render_kw or {}), said: f"{name}-before"}
    for field in fields_of(kind):
        form.words |= in_columns(field.name, words_of_columns(site, kind, field))
        if site and (named := by_name(site, kind.name, field.name)):
            told = json.dumps({name: _cells(field, layers) for name, layers in named.items()})
            form[field.name].render_kw = {**(form[field.name].render_kw or {}), "data-named": told}
    return form


def _cells(field: Field, rows: Iterable[Sequence[Any]]) -> list[list[str]]:
    """Rows as their cells show them."""
    return [[to_text(column, cell) for column, cell in zip(field.columns, row, strict=False)] for row in rows]


def in_columns(name: str, words: Iterable[list[str]]) -> dict[str, list[str]]:
    """What is offered in the cells of a table, by the name of the table and the place of the column."""
    return {f"{name}-{at}": offered for at, offered in enumerate(words) if offered}


def _words(value: Any) -> list[str]:
    return value if isinstance(value, list) else [value]


def as_typed(fields: Iterable[Field], values: Mapping[str, Any]) -> dict[str, Any]:
    """What inputs show for values."""
    return {field.name: _typed(field, values.get(field.name)) for field in fields}


def _typed(field: Field, value: Any) -> Any:
    return list(value or []) if field.type in LISTS else to_text(field, value)


@cache
def _form_class(kind: Kind) -> type[EntryForm]:
    inputs = inputs_of(fields_of(kind))
    for name, cases in IMPLIED.get(kind.name, {}).items():
        shown = json.dumps([(said, to_text(kind.by_name[name], value)) for said, value in cases])
        inputs[name].kwargs["render_kw"] = {**inputs[name].kwargs.get("render_kw", {}), "data-implied": shown}
    return type(f"{kind.name.title()}Form", (EntryForm,), inputs | {"kind": kind})
