"""What storage refuses, said in words."""

from __future__ import annotations

import errno
from pathlib import Path

import pytest

from fieldbook.book.storage import connect, storage_errors
from fieldbook.errors import FieldbookError
from tests.sites import Surveyed


@pytest.mark.parametrize(
    ("number", "code"),
    [
        (errno.ENOSPC, "disk-full"),
        (errno.EDQUOT, "disk-full"),
        (errno.EACCES, "book-read-only"),
        (errno.EROFS, "book-read-only"),
        (errno.EIO, "storage-failed"),
    ],
)
def test_told_system_error_becomes_our_own(number: int, code: str) -> None:
    """What the system says about a file becomes an error with a path and a remedy."""
    with pytest.raises(FieldbookError) as refusal, storage_errors(Path("book")):
        raise OSError(number, "words of the system")
    assert (refusal.value.code, refusal.value.value) == (code, Path("book"))
    assert refusal.value.remedy


def test_book_that_cannot_be_written_is_said_to_be_read_only(surveyed: Surveyed) -> None:
    """A write SQLite refuses because the book may only be read is named so, and nothing changes."""
    surveyed.book.db.execute("PRAGMA query_only = 1")
    before = surveyed.book.revision()
    with pytest.raises(FieldbookError) as refusal:
        surveyed.zone()
    assert refusal.value.code == "book-read-only"
    assert surveyed.book.revision() == before


def test_connect_to_a_folder_is_refused(tmp_path: Path) -> None:
    """What cannot be opened as a file is refused in words."""
    with pytest.raises(FieldbookError) as refusal:
        connect(tmp_path)
    assert refusal.value.code == "book-read-only"


def test_connect_to_a_file_that_is_no_database_is_refused(tmp_path: Path) -> None:
    """A letter is no book."""
    (tmp_path / "letter").write_text("Dear keeper, " * 200)
    with pytest.raises(FieldbookError) as refusal:
        connect(tmp_path / "letter")
    assert refusal.value.code == "book-damaged"
    assert (tmp_path / "letter").read_text().startswith("Dear keeper")
