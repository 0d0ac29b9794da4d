"""Records being made: each by a thread of its own, which says how far it is."""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from ..book import Book, open_book
from ..errors import FieldbookError
from ..identity import uuid7
from ..record.editions import Edition
from ..record.pdf import make_record

FOLDER = "records"
Make = Callable[..., Edition]


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
    words: str = "Beginning"
    edition: Edition | None = None
    error: FieldbookError | None = None
    thread: threading.Thread | None = field(default=None, repr=False)

    @property
    def finished(self) -> bool:
        """Whether nothing more will come of it."""
        return self.edition is not None or self.error is not None

    def tell(self, done: int, total: int, words: str) -> None:
        """Note how far it is."""
        self.share, self.words = done / total if total else 0.0, words


class Printer:
    """Makes the records of one book, one at a time for each site."""

    def __init__(self, folder: Path):
        self._folder = folder
        self._printings: dict[str, Printing] = {}
        self._lock = threading.Lock()

    def start(self, site: str, costs: bool) -> Printing:
        """Begin a record, or join one of this site that is being made."""
        with self._lock:
            for printing in self._printings.values():
                if (printing.site, printing.costs) == (site, costs) and not printing.finished:
                    return printing
            printing = Printing(uuid7(), site, costs)
            self._printings[printing.id] = printing
            printing.thread = threading.Thread(
                target=self._make, args=(printing,), name=f"record {printing.id}", daemon=True
            )
            printing.thread.start()
            return printing

    def printing(self, printing_id: str) -> Printing | None:
        """A record that is or was being made since the server started."""
        return self._printings.get(printing_id)

    def _make(self, printing: Printing) -> None:
        try:
            with open_book(self._folder) as book:
                file = file_of(book, printing.site, printing.id, printing.costs)
                file.parent.mkdir(parents=True, exist_ok=True)
                edition = make_record(book, printing.site, file, costs=printing.costs, progress=printing.tell)
                file.replace(file_of(book, printing.site, str(edition.number), printing.costs))
                printing.edition = edition
        except FieldbookError as error:
            printing.error = error
        except Exception as error:
            printing.error = FieldbookError(
                f"The record could not be made: {error}.", "Try again; what was entered is safe."
            )
            raise


def file_of(book: Book, site: str, number: str, costs: bool) -> Path:
    """Where the PDF of an edition lies."""
    return book.folder / FOLDER / site / f"edition-{number}{'-with-costs' if costs else ''}.pdf"
