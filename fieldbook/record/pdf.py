"""The record as a PDF that will still open in thirty years: archival (PDF/A-3a), tagged, fonts inside."""

from __future__ import annotations

import errno
import os
import tempfile
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from ..book.book import Book
from ..book.examine import refuse_altered, refuse_damaged
from ..book.gathering import site_of
from ..book.identity import uuid7
from ..errors import FieldbookError
from ..set_up.needs import INSTALL_COMMANDS, NEEDS, package_manager
from .compile import Record, compile_record
from .editions import Edition, issue_edition
from .part_processes import Stopped, TooLong, rendered
from .rendering import NOT_WRITTEN, PANGO_MISSING
from .typesetting import Pages, typeset

TIME_LIMIT_S = 900
"""A record that takes longer than this to set is given up: a thousand fixings take about a minute and a half."""

GATHERED_SHARE, PAGES_SHARE = 0.1, 0.7
"""What parts of the whole work gathering the site and setting the pages are, for the progress shown."""

STEPS = 1000
Progress = Callable[[int, int, str], None]


class PangoMissing(FieldbookError):
    """The libraries that set type are not on this machine."""

    code = "pango-missing"


class RecordNotWritten(FieldbookError):
    """The file of the record cannot be written where it was wanted."""

    code = "record-not-written"


class RecordNotMade(FieldbookError):
    """Setting the pages took too long, or stopped."""

    code = "record-not-made"


@dataclass(frozen=True)
class Printed:
    """What came of a printing.

    pages     how many there are
    warnings  what the typesetter complained of: nothing, as a rule
    letters   for which there was no font, in words; "" where all are there
    """

    pages: int
    warnings: tuple[str, ...]
    letters: str = ""


def make_record(
    book: Book,
    site_id: str,
    file: Path,
    *,
    costs: bool = False,
    large: bool = False,
    progress: Progress | None = None,
    now: datetime | None = None,
) -> Edition:
    """Compile the record of a site, write it as PDF, and note the edition as issued.

    What an older Fieldbook prints of a newer one's book says what it leaves out, and is no edition.

    file      where it goes; an older file there is replaced in one step, and stays as it is when anything fails
    costs     whether money is shown
    large     in large print, for whoever reads with difficulty; the same edition
    progress  told how far it is: done, total, in words
    Raises Refused where ledger, tables or photographs are not as they were, UnknownItem, PangoMissing,
    RecordNotWritten, RecordNotMade, EditionTaken, and the errors of `storage`.
    """
    progress = progress or (lambda _done, _total, _words: None)
    progress(0, STEPS, "Gathering the site")
    refuse_damaged(book)
    record = compile_record(book, site_id, costs=costs, now=now)
    pictures = [photograph.id for on_sheet in record.photographs.values() for photograph in on_sheet]
    logs = [log["id"] for log in book.items("log") if site_of(book, log["id"]) == site_id]
    refuse_altered(book, [*pictures, *logs, *(document.id for document in record.documents)])
    with written_in_one_step(file) as target:
        printed = write_pdf(record, book, target, progress, large=large)
        if not book.is_only_read:
            issue_edition(book, record.edition)
    progress(STEPS, STEPS, " ".join(filter(None, ["Done.", printed.letters])))
    return record.edition


def write_pdf(
    record: Record,
    book: Book,
    file: Path,
    progress: Progress,
    time_limit_s: float = TIME_LIMIT_S,
    *,
    large: bool = False,
) -> Printed:
    """Set a compiled record and write it to a file. The same record gives the same bytes.

    Raises PangoMissing, RecordNotWritten, RecordNotMade.
    """
    with tempfile.TemporaryDirectory(prefix="fieldbook-record-") as folder:
        pages = typeset(record, book, Path(folder), _photographed(progress), large=large)
        warnings: list[str] = []
        count, furthest, letters = 0, 0.0, ""
        for news in _rendered(pages, Path(folder), file, time_limit_s):
            if "warning" in news:
                warnings.append(news["warning"])
            if "page" in news:
                furthest = max(furthest, min(news["page"] / record.pages_expected, 0.95))
                progress(int((1 - PAGES_SHARE + PAGES_SHARE * furthest) * STEPS), STEPS, f"Setting page {news['page']}")
            count, letters = news.get("pages", count), news.get("letters", letters)
        return Printed(count, tuple(warnings), letters)


def write_sheets(pages: Pages, file: Path, time_limit_s: float = TIME_LIMIT_S) -> Printed:
    """Write pages that are no record, such as labels, to a file. The same pages give the same bytes.

    Raises PangoMissing, RecordNotWritten, RecordNotMade.
    """
    with tempfile.TemporaryDirectory(prefix="fieldbook-sheets-") as folder:
        told = list(_rendered(pages, Path(folder), file, time_limit_s))
    warnings = tuple(news["warning"] for news in told if "warning" in news)
    last = {name: news[name] for news in told for name in ("pages", "letters") if name in news}
    return Printed(last.get("pages", 0), warnings, last.get("letters", ""))


def _photographed(progress: Progress) -> Callable[[int, int], None]:
    def report(done: int, total: int) -> None:
        share = GATHERED_SHARE + (1 - PAGES_SHARE - GATHERED_SHARE) * done / total
        progress(int(share * STEPS), STEPS, f"Photograph {done} of {total}")

    return report


def _rendered(pages: Pages, folder: Path, target: Path, time_limit_s: float) -> Iterator[Mapping[str, Any]]:
    """What is reported of pages being rendered, until they are written; what went wrong is raised."""
    try:
        for news in rendered(pages, folder, target, time_limit_s):
            if "failure" in news:
                raise _failure(news, target)
            yield news
    except TooLong:
        raise RecordNotMade(
            f"Setting the pages took longer than {time_limit_s:g} s and was stopped.",
            "Look for text of extraordinary length on this site, or make the record on a faster machine.",
        ) from None
    except Stopped as stopped:
        why = f"Setting the pages stopped: {str(stopped)[:200]}."
        raise RecordNotMade(why, "See that memory is free, and try again.") from None


def _failure(news: Mapping[str, Any], target: Path) -> FieldbookError:
    if news["failure"] == PANGO_MISSING:
        return pango_missing(news["words"])
    if news["failure"] == NOT_WRITTEN:
        return not_written(target, OSError(news["errno"], news["words"]))
    return RecordNotMade(f"Setting the pages stopped: {news['words']}.", "Try again.")


def pango_missing(words: str) -> PangoMissing:
    """The error for a machine without the libraries that set type; says what to type on this one."""
    needs = [need for need in NEEDS if "PDF" in need.what]
    manager = package_manager()
    if manager:
        packages = [package for need in needs for package in need.packages[manager]]
        remedy = f"Type: {' '.join([INSTALL_COMMANDS[manager], *packages])}"
    else:
        remedy = f"Bring {' and '.join(need.what for need in needs)} in this system's own way."
    first = (words.splitlines() or ["no reason given"])[0][:200]
    reason = f"The record as PDF needs Pango and HarfBuzz, and they could not be loaded ({first})."
    return PangoMissing(reason, f"{remedy} Everything else works without them.")


@contextmanager
def written_in_one_step(file: Path) -> Iterator[Path]:
    """A temporary file beside the one wanted; it takes its place at the end, or goes away when anything fails.

    Raises RecordNotWritten.
    """
    part = file.parent / f".record-{uuid7()}.part"
    try:
        if file.is_dir():
            raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR))
        part.touch(exist_ok=False)
        yield part
        with part.open("rb") as written:
            os.fsync(written.fileno())
        part.replace(file)
    except OSError as error:
        raise not_written(file, error) from error
    finally:
        with suppress(OSError):
            part.unlink(missing_ok=True)


_REMEDIES = {
    errno.ENOSPC: "Make room on that disk and make the record again.",
    errno.EDQUOT: "Make room on that disk and make the record again.",
    errno.ENOENT: "Make its folder first, or name another.",
    errno.EISDIR: "Name a file, such as record.pdf.",
}


def not_written(file: Path, error: OSError) -> RecordNotWritten:
    """The error for a file that cannot be written, with what to do about it."""
    remedy = _REMEDIES.get(error.errno or 0, "Name a place you may write to.")
    why = (error.strerror or "storage failed").lower()
    return RecordNotWritten(f"{file} cannot be written: {why}.", remedy, field="file", value=file)
