"""The record's pages as HTML, made from `templates/record/`, and the files they may show."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path
from string import ascii_uppercase
from typing import Any

from ..book.book import Book
from ..book.photographs import UnsuitablePhotograph, reduced
from ..book.storage import StorageFailed
from ..checks.verdict import Word
from ..drawing import signs
from ..drawing.signature import signature
from .contents import Record
from .environment import environment
from .flat_pictures import flat_pictures
from .glossary import met_in

PHOTOGRAPH_PX = 660
"""Longest side of a printed photograph: about 200 dots per inch at the 84 mm it is printed at."""

LETTERS_PT, LARGE_LETTERS_PT = 9.0, 14.0
"""Size of plain text, and in large print; nothing but a drawing's lettering is set smaller than 0.95 of it."""

WORDS_MET = "<!-- the words met in these pages -->"  # stands in glossary.html
_TAG = re.compile(r"<style>.*?</style>|<[^>]*>", re.DOTALL)

SVG, JPEG = "image/svg+xml", "image/jpeg"
Photographed = Callable[[int, int], None]


@dataclass(frozen=True)
class Chapter:
    """One chapter: its anchor and template's name, its heading, whether it begins a page, and whether it is annexed."""

    name: str
    heading: str
    new_page: bool = True
    annex: bool = False


@dataclass(frozen=True)
class Pages:
    """What is to be printed.

    html   one whole page of HTML, its style inside
    files  address (`app:…`) -> {"path", "media_type"} of every file it may show
    """

    html: str
    files: Mapping[str, Mapping[str, str]]


def typeset(
    record: Record,
    book: Book,
    folder: Path,
    photographed: Photographed = lambda _done, _total: None,
    *,
    large: bool = False,
) -> Pages:
    """The pages of a record; drawings and signs are written into a folder that must outlast the printing.

    large         in large print
    photographed  told how many photographs have been made small for printing, and of how many
    """
    files: dict[str, dict[str, str]] = {}

    def show(address: str, path: Path, media_type: str) -> None:
        files[address] = {"path": str(path), "media_type": media_type}

    def picture(address: str, content: bytes) -> None:
        path = folder / f"{len(files)}.jpg"
        path.write_bytes(content)
        show(address, path, JPEG)

    for address, drawing in drawings_of(record):
        path = folder / f"{len(files)}.svg"
        path.write_text(drawing, encoding="utf-8")
        show(address, path, SVG)
    shown = [photograph for kept in record.photographs.values() for photograph in kept]
    for done, photograph in enumerate(shown, 1):
        with suppress(UnsuitablePhotograph, StorageFailed):  # the page says that it is missing or damaged
            picture(f"app:photograph/{photograph.id}", reduced(book, photograph.sha256, PHOTOGRAPH_PX))
        photographed(done, len(shown))
    for address, content in flat_pictures(record, book):
        picture(address, content)
    parts = chapters(record)
    names: dict[str, Any] = {"record": record, "chapters": parts, "numbers": numbers_of(parts), "files": files}
    names |= {"few": is_small(record), "large": large, "noughts": "0" * len(str(record.pages_expected))}
    names["letters_pt"] = LARGE_LETTERS_PT if large else LETTERS_PT
    templates = environment(record)
    html = templates.get_template("record.html").render(names)
    words = templates.get_template("words.html").render(words=met_in(_TAG.sub(" ", html), record.glossary))
    return Pages(html.replace(WORDS_MET, words), files)


def drawings_of(record: Record) -> Iterator[tuple[str, str]]:
    """Address and SVG of every drawing and sign of a record."""
    for word in Word:
        yield f"app:sign/{word.name.lower()}", signs.sign(word)
    yield "app:key", record.key
    if record.key_plan:
        yield "app:key-plan", record.key_plan
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


def is_small(record: Record) -> bool:
    """Whether there is one thing at most: then chapters follow close on each other, and the record is a few sheets."""
    return len(record.sheets) < 2


def chapters(record: Record) -> tuple[Chapter, ...]:
    """The chapters this record has, in order, the annex last; what there is nothing to say about is left out.

    In a small record they follow on without a new page.
    """
    previous = record.previous.number if record.previous else 0
    few = is_small(record)
    wanted = (
        (True, Chapter("first_pages", "For whoever looks after these rooms")),
        (len(record.rooms) > 1 or not few, Chapter("glance", "Overview of the rooms")),
        (True, Chapter("cautions", "Before anyone works on it")),
        (record.sheets, Chapter("fittings", "What is put up, thing by thing", new_page=False)),
        (record.finishes, Chapter("finishes", "Finishes and touch-up card")),
        (True, Chapter("care", "The year’s care", new_page=False)),
        (record.sheets, Chapter("removal", "Taking it down")),
        (record.sheets, Chapter("fixings", "Fittings and fixings in full", new_page=False)),
        (True, Chapter("touched", "What touches the building, and what will be left", new_page=False)),
        (True, Chapter("agreements", "Agreements", new_page=False)),
        (previous, Chapter("changes", f"What changed since edition {previous}", new_page=False)),
        (record.costs is not None, Chapter("costs", "Costs", new_page=False)),
        (record.for_an_engineer, Chapter("loads", "Loads, for an engineer to sign", new_page=False)),
        (True, Chapter("gaps", "What is missing from this record", new_page=False)),
        (True, Chapter("glossary", "Words", new_page=False)),
        (True, Chapter("signing", "Signed for", new_page=False)),
        (record.rooms, Chapter("rooms", "Survey: rooms and faces", annex=True)),
        (True, Chapter("workings", "Every finding, and what it was worked out from", new_page=False, annex=True)),
        (record.documents, Chapter("documents", "Documents", new_page=False, annex=True)),
        (record.photographs.get(""), Chapter("photographs", "Further photographs", new_page=False, annex=True)),
        (True, Chapter("sources", "Sources", new_page=False, annex=True)),
    )
    return tuple(replace(chapter, new_page=chapter.new_page and not few) for there, chapter in wanted if there)


def numbers_of(chapters: Sequence[Chapter]) -> dict[str, str]:
    """Name of a chapter -> its number, or its letter in the annex."""
    book = [chapter for chapter in chapters if not chapter.annex]
    annex = [chapter for chapter in chapters if chapter.annex]
    numbers = {chapter.name: str(number) for number, chapter in enumerate(book, 1)}
    return numbers | {chapter.name: f"Annex {letter}" for letter, chapter in zip(ascii_uppercase, annex, strict=False)}
