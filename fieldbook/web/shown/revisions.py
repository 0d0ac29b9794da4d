"""An item as it stood at a revision, and changes made against one that may be out of date."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from ...book.book import Book
from ...book.site import Item
from ...book.tables import WITHDRAWN
from ...book.wording import moment
from ...errors import FieldbookError, NotANumber, Refused, shown
from ...model.fields import Field, Type
from ...model.kinds import KINDS, Kind
from ..forms.of_kind import EntryForm
from .filters import EMPTY, plain

Entry = Mapping[str, Any]


class Overtaken(FieldbookError):
    """Someone else changed the same field while it lay open here."""

    code = "overtaken"


def values_at(history: Iterable[Entry], revision: int) -> dict[str, Any]:
    """The fields of an item after the entry of this revision, as the tables then showed them."""
    values: dict[str, Any] = {}
    for entry in history:
        if entry["revision"] <= revision:
            values |= entry.get("set", {})
    return values


@dataclass(frozen=True)
class HistoryStep:
    """One entry in words.

    changes  label, before and after of each field it set
    """

    revision: int
    device: str
    at: str
    changes: tuple[tuple[str, str, str], ...]


def steps_of(
    kind: Kind, history: Iterable[Entry], devices: Mapping[str, str], titles: Mapping[str, str]
) -> list[HistoryStep]:
    """An item's history in words, the latest entry first."""
    steps: list[HistoryStep] = []
    now: dict[str, Any] = {}
    for entry in history:
        fields = entry["set"] if "set" in entry else {WITHDRAWN: entry["withdraw"]}
        unknown = entry.get("unknown", {})
        known = {name: value for name, value in fields.items() if name not in unknown}
        changes = tuple(_change(kind, name, now.get(name), value, titles) for name, value in known.items())
        changes += tuple((f"{name} (a newer Fieldbook’s)", EMPTY, shown(value)) for name, value in unknown.items())
        device = devices.get(entry["device"], entry["device"])
        steps.append(HistoryStep(entry["revision"], device, entry["at"], changes))
        now |= fields
    return steps[::-1]


def _change(kind: Kind, name: str, before: Any, after: Any, titles: Mapping[str, str]) -> tuple[str, str, str]:
    field = kind.by_name.get(name)
    return field.shown_label if field else "State", plain(field, before, titles), plain(field, after, titles)


def changes_against(
    kind: Kind, history: Sequence[Entry], base: int, entered: Mapping[str, Any], titles: Mapping[str, str]
) -> dict[str, Any]:
    """What a person changed, who had seen the item at `base`.

    Raises Refused with an Overtaken for each field another entry has set to something else since.
    """
    seen, now = values_at(history, base), values_at(history, history[-1]["revision"])
    changed = {name: value for name, value in entered.items() if differ(kind.by_name[name], value, seen.get(name))}
    overtaken = [
        _overtaken(kind.by_name[name], now.get(name), value, history, titles)
        for name, value in changed.items()
        if now.get(name) not in (seen.get(name), value)
    ]
    if overtaken:
        raise Refused(overtaken)
    return {name: value for name, value in changed.items() if value != now.get(name)}


def differ(field: Field, one: Any, other: Any) -> bool:
    """Whether two values of a field are not the same; links have no order."""
    return sorted(one or []) != sorted(other or []) if field.type is Type.LINKS else one != other


def _overtaken(field: Field, theirs: Any, ours: Any, history: Sequence[Entry], titles: Mapping[str, str]) -> Overtaken:
    entry = next(entry for entry in reversed(history) if field.name in entry.get("set", {}))
    return Overtaken(
        f"Meanwhile {field.label} was set to “{plain(field, theirs, titles)}” from {entry['device']}, "
        f"{moment(entry['at'])}; yours is “{plain(field, ours, titles)}”.",
        "Save again to let yours stand, or enter theirs; the history keeps both.",
        field=field.name,
        value=theirs,
    )


def undoing(kind: Kind, history: Sequence[Entry], revision: int) -> dict[str, Any]:
    """The changes that bring an item back to what it was at a revision; empty when it is so already."""
    then, now = values_at(history, revision), values_at(history, history[-1]["revision"])
    return {name: then.get(name) for name in kind.by_name if then.get(name) != now.get(name)}


def revise(
    book: Book, item: Item, form: EntryForm, titles: Mapping[str, str], write: Callable[[dict[str, Any], int], object]
) -> dict[str, Any]:
    """Record what a person changed in a form, and return it; nothing where nothing was changed.

    write  is given the changed fields and the revision the person had seen
    Raises Refused with all findings. Where others were quicker, the form then shows what they changed
    beside what was typed, and counts as having seen it.
    """
    kind, history, entered = KINDS[item.kind], book.history(item.id), form.accepted(item.values)
    base = _base(form, history)
    try:
        changed = changes_against(kind, history, base, entered, titles)
    except Refused:
        _catch_up(form, history, base, entered)
        raise
    if changed:
        write(changed, base)
    return changed


def _base(form: EntryForm, history: Sequence[Entry]) -> int:
    typed = form.base.data or ""
    if typed.isdecimal() and len(typed) < 16 and int(typed) >= history[0]["revision"]:
        return int(typed)
    raise Refused(
        [
            NotANumber(
                "The form does not say which state of the book it shows.", "Open it again.", field="base", value=typed
            )
        ]
    )


def _catch_up(form: EntryForm, history: Sequence[Entry], base: int, entered: Mapping[str, Any]) -> None:
    seen, now = values_at(history, base), values_at(history, history[-1]["revision"])
    for name, value in entered.items():
        if not differ(form.kind.by_name[name], value, seen.get(name)):
            form.show(name, now.get(name))
    form.base.data = str(history[-1]["revision"])
