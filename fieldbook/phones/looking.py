"""Looking at the pixels of photographs that have arrived, one at a time, while nothing else arrives.

A phone is answered once the bytes are safe; what takes long comes afterwards. A photograph that cannot
be shown steps aside, and the phone that still has it is asked for it again (see `photographs.look_at`).
"""

from __future__ import annotations

import logging
import threading
from pathlib import Path

from ..book import evidence, photographs
from ..book.book import Book
from ..book.opening import open_book
from ..errors import FieldbookError

QUIET_S = 1.0

log = logging.getLogger(__name__)


def not_looked_at(book: Book) -> list[str]:
    """Digests of the photographs that have arrived and were not looked at yet."""
    shelf = book.folder / evidence.SHELVES["photograph"]
    here = sorted(path.name for path in shelf.glob("??/*") if not path.name.startswith("."))
    return [sha256 for sha256 in here if not photographs.is_looked_at(book, sha256)]


class Looker(threading.Thread):
    """Looks at what has arrived whenever nothing has for a moment; stop it when serving ends."""

    def __init__(self, folder: Path):
        super().__init__(name="looking at photographs", daemon=True)
        self._folder = folder
        self._told, self._stopping = threading.Event(), threading.Event()

    def tell(self) -> None:
        """Something of a photograph has just arrived."""
        self._told.set()

    def stop(self) -> None:
        """Finish the photograph under way, and end."""
        self._stopping.set()
        self._told.set()
        if self.is_alive():
            self.join()

    def run(self) -> None:
        """Look at what an earlier run has left, then at what arrives."""
        while not self._stopping.is_set():
            try:
                self._look_at_all()
            except FieldbookError as error:  # the disk is full, or the book in use: tried again after the next arrival
                log.warning("photographs could not be looked at: %s", error)
            self._told.wait()
            self._until_quiet()

    def _until_quiet(self) -> None:
        while self._told.is_set() and not self._stopping.is_set():
            self._told.clear()
            self._told.wait(QUIET_S)

    def _look_at_all(self) -> None:
        with open_book(self._folder) as book:
            for sha256 in not_looked_at(book):
                if self._told.is_set():  # something arrives: it goes first
                    return
                photographs.look_at(book, sha256)
