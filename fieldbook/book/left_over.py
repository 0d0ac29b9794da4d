"""What lies in a book's folder that no entry points to: left over from something cut short, or nobody knows why."""

from __future__ import annotations

import re
import time
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from sqlite_utils import Database

from .book import FILE
from .evidence import ASIDE, PART, RECORDS, SHELVES
from .making import MAKING

OLD_S = 3_600  # by then nothing that is being written lasts
_DIGEST = re.compile("[0-9a-f]{64}")
_KNOWN = re.compile(
    rf"{re.escape(FILE)}(-wal|-shm|-journal)?|keys/[A-Za-z0-9._-]+|copies/[0-9a-f]{{64}}-\d+\.jpg|{ASIDE}/[0-9a-f]{{64}}"
    rf"|arriving/[^/]+/[^/]+\.(part|whole)|{RECORDS}/[^/]+/edition-\d+(-with-costs)?\.pdf"
)
_UNFINISHED = re.compile(
    rf"(.*/)?{re.escape(PART)}[^/]*|{re.escape(MAKING)}(/.*)?"
    rf"|{RECORDS}/[^/]+/(\.record-[^/]*|edition-[0-9a-f]{{8}}-[0-9a-f-]+(-with-costs)?\.pdf)"
)


def left_over(folder: Path, db: Database) -> Iterator[str]:
    """One line for each file that is no part of the book as its ledger tells it."""
    pointed = _pointed_to(db)
    for path in _files_in(folder):
        place = path.relative_to(folder).as_posix()
        if _UNFINISHED.fullmatch(place):
            yield f"{place}: left over from something that was cut short"
        elif (shelf := place.partition("/")[0]) in SHELVES.values() and _DIGEST.fullmatch(path.name):
            if path.name not in pointed:
                yield f"{place}: no entry points to this file of the {shelf}"
        elif not _KNOWN.fullmatch(place):
            yield f"{place}: not known to this version"


def _pointed_to(db: Database) -> set[str]:
    """Every digest that stands anywhere in an entry of a kind with files."""
    kinds = ", ".join("?" * len(SHELVES))
    rows = db.execute(f"SELECT content FROM ledger WHERE kind IN ({kinds})", list(SHELVES))  # noqa: S608
    return {digest for (content,) in rows for digest in _DIGEST.findall(content)}


def _files_in(folder: Path) -> Iterator[Path]:
    return (path for path in sorted(folder.rglob("*")) if not path.is_dir())


def clear_left_over(folder: Path) -> None:
    """Throw away what was cut short more than an hour ago; what cannot be thrown away stays."""
    for path in _files_in(folder):
        if _UNFINISHED.fullmatch(path.relative_to(folder).as_posix()):
            with suppress(OSError):
                if path.stat().st_mtime < time.time() - OLD_S:
                    path.unlink()
    with suppress(OSError):
        (folder / MAKING).rmdir()
