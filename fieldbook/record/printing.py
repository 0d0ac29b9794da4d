"""Records being made: each by a thread of its own, which says how far it is."""

from __future__ import annotations

import logging
import threading
from dataclasses import dataclass, field
from pathlib import Path

from ..book import printed
from ..book.book import Book
from ..book.evidence import RECORDS
from ..book.identity import uuid7
from ..book.opening import open_book
from ..book.storage import storage_errors
from ..errors import FieldbookError, Refused
from .editions import Edition

log = logging.getLogger(__name__)


@dataclass
class Printing:
    """One record on its way.

    share   how far it is, 0 to 1; `words` what is being done
    edition what came of it, `error` why nothing did
    """

    id: str
    site: str
    costs: bool
    share: float = 0.0
    words: str = "Waiting for another record to be finished"
    edition: Edition | None = None
    error: FieldbookError | None = None
    thread: threading.Thread | None = field(default=None, repr=False)

    @property
    def finished(self) -> bool:
        """Whether nothing more will come of it."""
        return self.edition is not None or self.error is not None

    @property
    def findings(self) -> list[FieldbookError]:
        """Why nothing came of it, each by itself."""
        if isinstance(self.error, Refused):
            return self.error.findings
        return [self.error] if self.error else []

    def tell(self, done: int, total: int, words: str) -> None:
        """Note how far it is."""
        self.share, self.words = done / total if total else 0.0, words


class Printer:
    """Makes the records of one book, one after the other: each uses all the machine has."""

    def __init__(self, folder: Path):
        self._folder = folder
        self._printings: dict[str, Printing] = {}
        self._list = threading.Lock()
        self._one_at_a_time = threading.Lock()

    def start(self, site: str, costs: bool) -> Printing:
        """Begin a record, or join one like it that is being made."""
        with self._list:
            alike = [one for one in self._printings.values() if (one.site, one.costs) == (site, costs)]
            if under_way := [one for one in alike if not one.finished]:
                return under_way[0]
            for one in alike:
                del self._printings[one.id]
            printing = Printing(uuid7(), site, costs)
            self._printings[printing.id] = printing
            printing.thread = threading.Thread(target=self._make, args=(printing,), name="record", daemon=True)
            printing.thread.start()
            return printing

    def printing(self, printing_id: str) -> Printing | None:
        """A record that is or was being made since the server started."""
        return self._printings.get(printing_id)

    def _make(self, printing: Printing) -> None:
        try:
            with self._one_at_a_time, open_book(self._folder) as book:
                printing.edition = _made(book, printing)
        except FieldbookError as error:
            printing.error = error
        except Exception as error:  # a thread has nobody above it to tell
            log.exception("record of site %s", printing.site)
            printing.error = FieldbookError(
                f"The record could not be made: {error}.", "Try again; all entries are safe."
            )


def _made(book: Book, printing: Printing) -> Edition:
    from .pdf import make_record  # with all its chapters, which a server that prints nothing can do without

    file = file_of(book, printing.site, printing.id, printing.costs)
    with storage_errors(file.parent):
        file.parent.mkdir(parents=True, exist_ok=True)
    edition = make_record(book, printing.site, file, costs=printing.costs, progress=printing.tell)
    printed.keep(book, file, file_of(book, printing.site, str(edition.number), printing.costs))
    return edition


def file_of(book: Book, site: str, number: str, costs: bool) -> Path:
    """Where the PDF of an edition lies."""
    return book.folder / RECORDS / site / f"edition-{number}{'-with-costs' if costs else ''}.pdf"
