"""Entries from a file: they go into a book together, or not at all.

A line is {"kind", "item", "set"} or {"kind", "item", "withdraw": true}. `item` is a name of the file's
own: its first use makes the item, a later one changes it; an id of the book's changes what is there.
Links in `set` are such names or ids. A photograph or a logger's file also has "file", a path from
the folder of the lines, from which digest, size and type are filled in.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from uuid import UUID

from ..errors import FieldbookError, Missing, NotAChoice, Refused, UnknownField, UnknownItem, UnsuitableText, shown
from ..model.fields import Field, Type
from ..model.kinds import Kind, kind_named
from ..model.values import accept
from ..model.versions import present_names
from . import accepting, attached, evidence, ledger
from .accepting import Status
from .book import DESK, Book
from .entry_lines import Line
from .gathering import gather, site_of
from .identity import is_id, uuid7
from .same_mark import same_mark_warning
from .site import Site

MOST_REFUSED = 200  # findings shown: more are of one cause
_ITEM = Field("item", "Item", Type.LINE, required=True)


@dataclass(frozen=True)
class Entered:
    """What came of it: the id of each name, and what is to be looked at although it was accepted."""

    ids: dict[str, str]
    warnings: list[FieldbookError]


def enter(
    book: Book,
    lines: Iterable[Line],
    folder: Path,
    *,
    device: str = DESK,
    at: str | None = None,
    known: Mapping[str, str] | None = None,
    base: int | None = None,
    called: Callable[[int, str | None], str] | None = None,
) -> Entered:
    """Enter every line, or none; on disk before this returns.

    lines   as `entry_lines.read` gives them
    folder  where the paths of files start, and which they do not leave
    at      when it was written down, RFC 3339; left out, now
    known   names that earlier lines gave to items, with their ids
    base    the revision that whoever wrote it had seen; left out, the present one
    called  what a line is called where something is wrong with it, by its number and the field; left out, both
    Raises Refused with what is wrong in each line, and the errors of `storage`; nothing is written then.
    """
    entering = _Entering(book, folder, known or {}, called or _numbered)
    for number, line in enumerate(lines, 1):
        entering.prepare(number, line)
    return entering.write(device, at or ledger.now(), base)


def looked_over(
    book: Book, lines: Iterable[Line], folder: Path, *, called: Callable[[int, str | None], str] | None = None
) -> list[FieldbookError]:
    """What `enter` would refuse of these lines, each with its line and field; nothing is written."""
    entering = _Entering(book, folder, {}, called or _numbered)
    for number, line in enumerate(lines, 1):
        entering.prepare(number, line)
    try:
        entering.write(DESK, ledger.now(), None, trial=True)
    except Refused as refused:
        return list(refused.findings)
    except _Trial:
        pass
    return []


class _Trial(Exception):  # noqa: N818 - no error: what a trial ends in, so that nothing of it stays
    """All lines would have been accepted."""


@dataclass
class _Prepared:
    """One line that could be read: its change, the ids it links to, and the file it brings."""

    kind: Kind
    item: str
    change: dict[str, Any]
    file: Path | None = None
    rests_on: set[str] = field(default_factory=set)


class _Entering:
    """One file on its way into a book.

    ids       name -> id; `before` are those that were known already
    made      name -> the kind it was made as, and the line that makes it
    values    id -> what the lines so far set of it
    refused   line -> what is wrong with it
    """

    def __init__(self, book: Book, folder: Path, known: Mapping[str, str], called: Callable[[int, str | None], str]):
        self.book, self.folder, self.called = book, folder, called
        self.before, self.ids = known, dict(known)
        self.made: dict[str, tuple[str, int]] = {}
        self.values: dict[str, dict[str, Any]] = {}
        self.prepared: dict[int, _Prepared] = {}
        self.refused: dict[int, list[FieldbookError]] = {}
        self.unknown: list[tuple[str, FieldbookError]] = []

    def prepare(self, number: int, line: Line) -> None:
        """Read one line: names become ids, and its file is looked at."""
        if line is None:
            return
        try:
            if isinstance(line, FieldbookError):
                raise line
            name = accept(_ITEM, line.get("item"))
            if not (name in self.ids or is_id(name) or "withdraw" in line):
                self.ids[name], self.made[name] = uuid7(), (str(line.get("kind")), number)
            self.prepared[number] = self._prepared(name, number, line)
        except FieldbookError as error:
            self.refused[number] = [error]

    def _prepared(self, name: str, number: int, line: Mapping[str, Any]) -> _Prepared:
        kind = kind_named(line.get("kind"))
        prepared = _Prepared(kind, self._id_of("item", name), {})
        made_as, made_in = self.made.get(name, (kind.name, 0))
        if made_as != kind.name:
            reason = f"“{shown(name)}” is a {made_as} (line {made_in}), not a {kind.name}."
            raise UnsuitableText(reason, "Give one of them another name.", field="item", value=name)
        if "withdraw" in line:
            prepared.change = {"withdraw": line["withdraw"]}
            return prepared
        values = self._linked(prepared, present_names(kind, line["set"]))
        values |= self._of_file(prepared, line.get("file"), values)
        # What a new item needs is named even where it is not given, so that all that is missing is told at once.
        needed = {one.name: None for one in kind.fields if one.required} if made_in == number else {}
        prepared.change = {"set": needed | values}
        self.values.setdefault(prepared.item, {}).update(values)
        return prepared

    def _id_of(self, field_name: str, name: str) -> str:
        """The id a name or an id of the book's stands for."""
        if name in self.ids:
            if self.made.get(name, ("", 0))[1] in self.refused:
                raise _rests_on(self.made[name][1], field_name)
            return self.ids[name]
        if is_id(name) and ledger.find(self.book.db, str(UUID(name))):
            return str(UUID(name))
        reason = f"“{shown(name)}” is no name made above, and no id of this book."
        remedy = "Check how it is written, or add the line that makes it above this one."
        error = NotAChoice(reason, remedy, field=field_name, value=name)
        self.unknown.append((name, error))
        raise error

    def _linked(self, prepared: _Prepared, given: Mapping[str, Any]) -> dict[str, Any]:
        """The fields of a line with ids in place of names; what is no text stays, to be refused."""

        def linked(value: Any) -> Any:
            if not isinstance(value, str) or not value.strip():
                return value
            item = self._id_of(name, value)
            prepared.rests_on.add(item)
            return item

        values = dict(given)
        for name in given.keys() & prepared.kind.by_name.keys():
            if prepared.kind.by_name[name].type is Type.LINK:
                values[name] = linked(given[name])
            elif prepared.kind.by_name[name].type is Type.LINKS and isinstance(given[name], list):
                values[name] = [linked(one) for one in given[name]]
        return values

    def _of_file(self, prepared: _Prepared, named: Any, values: dict[str, Any]) -> dict[str, Any]:
        """What the line's file says of its item; a digest without a file must be of one the book has."""
        kind = prepared.kind
        if named is None:
            sha256 = values.get("sha256") if kind.name in evidence.SHELVES else None
            if isinstance(sha256, str) and not evidence.path_of(self.book.folder, kind.name, sha256).is_file():
                raise Missing("The book has no file of this checksum.", "Give “file”.", field="sha256", value=sha256)
            return {}
        if kind.name not in evidence.SHELVES:
            raise UnknownField(f"A {kind.label.lower()} has no file.", "Leave “file” out.", field="file")
        prepared.file = attached.path_in(self.folder, named)
        stands = (ledger.find(self.book.db, prepared.item) or ("", {}))[1] | self.values.get(prepared.item, {})
        known = attached.known_of(kind.name, attached.bytes_of(kind.name, prepared.file), stands | values)
        for name, value in known.items():
            if values.get(name, value) != value:
                reason = f"{kind.by_name[name].label} is given as {shown(values[name])}; the file has {shown(value)}."
                raise UnsuitableText(reason, f"Leave “{name}” out.", field=name, value=values[name])
        return known

    def write(self, device: str, at: str, base: int | None, *, trial: bool = False) -> Entered:
        """Enter what was prepared, unless any line is refused; as a trial, raise _Trial instead of it."""
        if not self.prepared and not self.refused:
            raise Refused([Missing("The file holds no entries.", "Write one JSON object a line.", field="file")])
        kept: list[Path] = []
        try:
            with self.book.writing():
                seen = self.book.revision() if base is None else base
                self._append({"device": device, "at": at, "base": seen})
                if self.refused:
                    raise Refused(self._findings())
                if trial:
                    raise _Trial
                warnings = [*self._files_twice(), *self._marks_twice()]
                for number, one in self.prepared.items():
                    self._keep(number, one, kept)
        except BaseException:
            for path in kept:
                path.unlink(missing_ok=True)
            raise
        return Entered({name: item for name, item in self.ids.items() if name not in self.before}, warnings)

    def _append(self, about: Mapping[str, Any]) -> None:
        lines = {self.ids[name]: number for name, (_, number) in self.made.items()}
        for number, one in self.prepared.items():
            broken = sorted(lines[item] for item in one.rests_on | {one.item} if lines.get(item) in self.refused)
            if broken:
                self.refused[number] = [_rests_on(broken[0])]
                continue
            entry = {"id": uuid7(), "kind": one.kind.name, "item": one.item, **about, **one.change}
            answer = accepting.append(self.book.db, entry)
            if answer.status is not Status.ACCEPTED:
                self.refused[number] = list(answer.findings)

    def _findings(self) -> list[FieldbookError]:
        """All that is wrong, line by line."""
        for name, error in self.unknown:
            if name in self.made:
                error.reason = f"“{shown(name)}” is only made in line {self.made[name][1]}."
                error.remedy = "Put that line above this one."
        found = [self._at(number, error) for number in sorted(self.refused) for error in self.refused[number]]
        if len(found) > MOST_REFUSED:
            more = f"{len(found) - MOST_REFUSED:,} more findings are not shown."
            found = [*found[:MOST_REFUSED], FieldbookError(more, "Correct these first.")]
        return found

    def _files_twice(self) -> Iterator[FieldbookError]:
        for number, one in self.prepared.items():
            if one.file is None:
                continue
            twice = f'SELECT 1 FROM "{one.kind.name}" WHERE sha256 = ? AND id <> ?'  # noqa: S608
            if self.book.db.execute(twice, [one.change["set"]["sha256"], one.item]).fetchone():
                reason = f"{one.file.name} is in the book under another {one.kind.label.lower()} as well."
                yield self._at(number, FieldbookError(reason, "Withdraw one if that was not meant.", field="file"))

    def _marks_twice(self) -> Iterator[FieldbookError]:
        sites: dict[str, Site] = {}
        for number, one in self.prepared.items():
            mark = one.change.get("set", {}).get(one.kind.numbered_by)
            if mark and one.kind.parent:
                at = site_of(self.book, one.item)
                site = sites[at] = sites.get(at) or gather(self.book, at)
                if warning := same_mark_warning(site, one.kind.name, mark, one.item):
                    error = FieldbookError(warning, "Change one of them.", field=one.kind.numbered_by, value=mark)
                    yield self._at(number, error)

    def _keep(self, number: int, one: _Prepared, kept: list[Path]) -> None:
        if one.file is None:
            return
        content = attached.bytes_of(one.kind.name, one.file)
        sha256 = hashlib.sha256(content).hexdigest()
        if sha256 != one.change["set"]["sha256"]:
            error = UnsuitableText(f"{one.file.name} has just changed.", "Enter the lines again.", field="file")
            raise Refused([self._at(number, error)])
        path = evidence.path_of(self.book.folder, one.kind.name, sha256)
        if not path.exists():
            kept.append(path)
            evidence.keep(self.book.folder, one.kind.name, content)

    def _at(self, number: int, error: FieldbookError) -> FieldbookError:
        """The same error, told with its line and field."""
        error.reason = f"{self.called(number, error.field)}: {error.reason}"
        error.line = number
        return error


def _numbered(number: int, field: str | None) -> str:
    return f"Line {number}{f', {field}' if field else ''}"


def _rests_on(number: int, field_name: str = "item") -> UnknownItem:
    return UnknownItem(f"It rests on line {number}, which is refused.", "Correct that line first.", field=field_name)
