"""A book on a medium that cannot be written to: examined, backed up and read, and nothing is entered."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from pypdf import PdfReader

from fieldbook.book.backup import restore
from fieldbook.book.book import FILE
from fieldbook.book.opening import create_book
from fieldbook.book.photographs import keep
from tests.sites import picture, survey

pytestmark = pytest.mark.slow

# Root may write anywhere, unless it gives that up.
AS_ANYONE = [] if os.geteuid() else ["setpriv", "--bounding-set=-dac_override", "--inh-caps=-dac_override"]
DESK = """
import sys
from fieldbook.book.opening import open_book
from fieldbook.book.read_only import to_be_read
from fieldbook.errors import FieldbookError
from fieldbook.web import create_app
with to_be_read(sys.argv[1]) as folder:
    desk = create_app(folder, access="open").test_client()
    with open_book(folder) as book:
        (photograph,), (site,) = book.items("photograph"), book.items("site")
        try:
            book.write("site", {"name": "Another"}, site["id"])
        except FieldbookError as error:
            print(error.code, error.reason)
    print(desk.get(f"/site/{site['id']}").status_code)
    print(desk.get(f"/photographs/{photograph['sha256']}/320.jpg").status_code)
"""


@pytest.fixture
def sealed(tmp_path: Path) -> Iterator[Path]:
    """A book in a folder that may be read and not written, with what its journal still holds."""
    if AS_ANYONE and not shutil.which(AS_ANYONE[0]):
        pytest.skip("root, and no way to give up what it may")
    folder = tmp_path / "sealed"
    with create_book(tmp_path / "book") as book:
        surveyed = survey(book)
        about = {"site": surveyed.site, "subject": surveyed.face, "purpose": "datum"}
        book.write("photograph", about | {"sha256": keep(book, picture()).sha256})
        shutil.copytree(book.folder, folder)  # while the journal is there
    assert (folder / f"{FILE}-wal").stat().st_size
    paths = [folder, *folder.rglob("*")]
    for path in paths:
        path.chmod(0o555 if path.is_dir() else 0o444)
    yield folder
    assert [folder, *folder.rglob("*")] == paths
    for path in paths:
        path.chmod(0o755)


def run(*arguments: str) -> subprocess.CompletedProcess[str]:
    """Python, as somebody who may not write where it is forbidden."""
    return subprocess.run([*AS_ANYONE, sys.executable, *arguments], capture_output=True, text=True, check=False)


def test_sealed_book_is_examined_and_backed_up(sealed: Path, tmp_path: Path) -> None:
    """All its entries count, those in the journal too."""
    done = run("-m", "fieldbook", "examine", str(sealed))
    assert (done.returncode, "is sound: 4 entries" in done.stdout) == (0, True), done.stderr
    done = run("-m", "fieldbook", "backup", str(sealed), str(tmp_path / "saved"))
    assert done.returncode == 0, done.stderr
    with restore(tmp_path / "saved", tmp_path / "again") as again:
        assert again.revision() == 4


def test_sealed_book_is_printed_and_becomes_no_edition(sealed: Path, tmp_path: Path) -> None:
    """Its record says so, since the book cannot keep what was issued."""
    done = run("-m", "fieldbook", "record", str(sealed), "Customs shed", "-o", str(tmp_path / "record.pdf"))
    assert (done.returncode, "no edition" in done.stdout) == (0, True), done.stderr
    printed = " ".join(page.extract_text() for page in PdfReader(tmp_path / "record.pdf").pages)
    assert "Not an edition" in printed and "Edition 1" not in printed


def test_sealed_book_is_read_at_the_desk_and_takes_no_entry(sealed: Path) -> None:
    """Its pages show, with the smaller copies of its photographs; what would be entered is refused in words."""
    done = run("-c", DESK, str(sealed))
    assert done.stdout.splitlines() == [f"book-read-only {sealed} cannot be written to.", "200", "200"], done.stderr
