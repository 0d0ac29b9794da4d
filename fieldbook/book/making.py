"""A folder that is there whole or not at all: filled out of sight, then moved into its place.

A book is there once its file is. So all is made in a folder within the folder, brought to disk, and
moved out, the book's file last: whoever is cut short leaves nothing that opens, and the same command
said again clears it and begins anew. Works on a folder that is a disk of its own as well.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from ..errors import FieldbookError
from .evidence import synchronise
from .storage import storage_errors

MAKING = ".making"


class NotABook(FieldbookError):
    """A folder without a book in it, or one that cannot become a book."""

    code = "not-a-book"


@contextmanager
def made_whole(folder: Path, last: str) -> Iterator[Path]:
    """A folder to be filled; what lies in it at the end is in `folder` and on disk, or nothing is.

    folder  empty, not there yet, or left unfinished by this
    last    name of the file by which the folder counts as made
    Raises NotABook for a folder with something else in it, and the errors of `storage`.
    """
    was_there = folder.exists()
    with storage_errors(folder):
        _refuse_what_is_not_empty(folder, last)
        _clear(folder)
        (making := folder / MAKING).mkdir(parents=True)
    try:
        yield making
        with storage_errors(folder):
            _move_out(folder, making, last)
    except BaseException:
        with suppress(OSError):
            _clear(folder)
            if not was_there:
                folder.rmdir()
        raise


def is_unfinished(folder: Path, last: str) -> bool:
    """Whether making something here was cut short.

    The file by which it counts as made leaves last: where it is gone from within, what lies beside was made whole
    once and has lost it, and must not be cleared.
    """
    making = folder / MAKING
    if not making.is_dir() or (folder / last).exists():
        return False
    return (making / last).exists() or all(part == making for part in folder.iterdir())


def _refuse_what_is_not_empty(folder: Path, last: str) -> None:
    if is_unfinished(folder, last) or not folder.exists() or (folder.is_dir() and not any(folder.iterdir())):
        return
    there = "holds a book already" if (folder / last).exists() else "is not empty"
    raise NotABook(f"{folder} {there}.", "Name a folder that does not exist yet.", field="book", value=folder)


def _clear(folder: Path) -> None:
    """Empty a folder that was empty when all in it was begun."""
    if not folder.is_dir():
        return
    for part in sorted(folder.iterdir(), key=lambda part: part.name == MAKING):  # that it is unfinished goes last
        shutil.rmtree(part) if part.is_dir() else part.unlink()


def _move_out(folder: Path, making: Path, last: str) -> None:
    for within, _, files in os.walk(making):
        for name in files:
            _to_disk(Path(within) / name)
        synchronise(Path(within))
    for part in making.iterdir():
        if part.name != last:
            part.rename(folder / part.name)
    synchronise(folder)
    (making / last).rename(folder / last)
    synchronise(folder)
    making.rmdir()
    synchronise(folder)
    synchronise(folder.parent)


def _to_disk(file: Path) -> None:
    with file.open("rb") as written:
        os.fsync(written.fileno())
