"""The record's pages as HTML, made from `templates/record/`, and the files they may show."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from ..book import wording
from ..book.book import Book
from ..book.photographs import UnsuitablePhotograph, small_copy
from ..book.site import Item
from ..book.storage import StorageFailed
from ..checks.verdict import Word
from ..drawing import signs
from ..drawing.signature import signature
from ..folders import TEMPLATES
from ..model.kinds import KINDS
from .answers import standing
from .contents import Record

PHOTOGRAPH_PX = 660
"""Longest side of a printed photograph: about 200 dots per inch at the 84 mm it is printed at."""

MAY_BREAK = "\u200b"
_ENDLESS, _PIECE = re.compile(r"\S{60,}"), re.compile(r".{1,5}")
"""Longer than any address here, and than words are."""

SVG, JPEG = "image/svg+xml", "image/jpeg"
Photographed = Callable[[int, int], None]


@dataclass(frozen=True)
class Chapter:
    """One chapter: its anchor and template's name, its heading, and whether it begins a page."""

    name: str
    heading: str
    new_page: bool = True


@dataclass(frozen=True)
class Pages:
    """What is to be printed.

    html   one whole page of HTML, its style inside
    files  address (`app:…`) -> {"path", "media_type"} of every file it may show
    """

    html: str
    files: Mapping[str, Mapping[str, str]]


def typeset(record: Record, book: Book, folder: Path, photographed: Photographed = lambda _done, _total: None) -> Pages:
    """The pages of a record; drawings and signs are written into a folder that must outlast the printing.

    photographed  told how many photographs have been made small for printing, and of how many
    """
    files: dict[str, dict[str, str]] = {}

    def show(address: str, path: Path, media_type: str) -> None:
        files[address] = {"path": str(path), "media_type": media_type}

    for address, drawing in _drawings(record):
        path = folder / f"{len(files)}.svg"
        path.write_text(drawing, encoding="utf-8")
        show(address, path, SVG)
    shown = [photograph for kept in record.photographs.values() for photograph in kept]
    for done, photograph in enumerate(shown, 1):
        with suppress(UnsuitablePhotograph, StorageFailed):  # the page says that it is missing or damaged
            show(f"app:photograph/{photograph.id}", small_copy(book, photograph.sha256, PHOTOGRAPH_PX), JPEG)
        photographed(done, len(shown))
    html = environment(record).get_template("record.html").render(record=record, chapters=chapters(record), files=files)
    return Pages(html, files)


def _drawings(record: Record) -> Iterator[tuple[str, str]]:
    for word in Word:
        yield f"app:sign/{word.name.lower()}", signs.sign(word)
    yield "app:key", record.key
    for note in record.cautions:
        yield f"app:hazard/{note.caution.key.replace(' ', '-')}", signs.hazard(note.caution.key, note.caution.title)
    for agreement in record.agreements:
        if agreement.signature:
            yield f"app:signature/{agreement.id}", signature(agreement.signature)
    for room in record.rooms:
        if room.plan:
            yield f"app:plan/{room.room.id}", room.plan
        for number, plot in enumerate(room.plots):
            yield f"app:plot/{room.room.id}/{number}", plot
        for sheet in room.faces:
            yield f"app:elevation/{sheet.face.id}", sheet.drawing
            if sheet.bow:
                yield f"app:bow/{sheet.face.id}", sheet.bow
    for fitting in record.sheets:
        yield f"app:detail/{fitting.fitting.id}", fitting.detail
        if fitting.load_path:
            yield f"app:load-path/{fitting.fitting.id}", fitting.load_path


def chapters(record: Record) -> tuple[Chapter, ...]:
    """The chapters this record has, in order; what there is nothing to say about is left out."""
    previous = record.previous.number if record.previous else 0
    wanted = (
        (True, Chapter("summary", "What was put up, and what trace it will leave")),
        (True, Chapter("cautions", "Before anyone works on it")),
        (previous, Chapter("changes", f"What changed since edition {previous}")),
        (True, Chapter("findings", "What is refused, over, not agreed, not known or close")),
        (record.rooms, Chapter("rooms", "Rooms and faces")),
        (record.sheets, Chapter("fittings", "Fittings, a sheet for each")),
        (record.finishes, Chapter("finishes", "Finishes and touch-up card")),
        (True, Chapter("maintenance", "Maintenance")),
        (record.sheets, Chapter("removal", "Taking it down")),
        (True, Chapter("agreements", "Agreements")),
        (record.visits, Chapter("visits", "Visits", new_page=False)),
        (record.costs is not None, Chapter("costs", "Costs", new_page=False)),
        (record.photographs.get(""), Chapter("photographs", "Further photographs")),
        (True, Chapter("gaps", "What is missing from this record")),
        (True, Chapter("sources", "Sources", new_page=False)),
        (True, Chapter("glossary", "Words", new_page=False)),
    )
    return tuple(chapter for there, chapter in wanted if there)


def with_breaks(value: Any) -> Any:
    """A word of extraordinary length with places where it may break; finding them itself takes the renderer minutes."""
    if isinstance(value, str) and not isinstance(value, Markup):
        return _ENDLESS.sub(lambda word: MAY_BREAK.join(re.findall(_PIECE, word[0])), value)
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
    made.globals.update(
        say=partial(_say, record),
        mark=partial(_mark, record),
        facts=partial(_facts, record),
        others=partial(_others, record),
        figure=wording.figure,
        place=wording.place,
        span=wording.span,
        standing=standing,
        count=wording.count,
        kinds=KINDS,
        Word=Word,
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
