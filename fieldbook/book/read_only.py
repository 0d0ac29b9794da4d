"""A book on a medium that cannot be written to: everything is read through a folder that stands for it.

SQLite needs room beside its file even to read, and pages, smaller copies and one-time addresses are kept
somewhere. So the file is copied aside and the rest is pointed to; nothing can be entered there.
"""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from .book import FILE, READ_ONLY
from .evidence import ASIDE, RECORDS, SHELVES
from .opening import file_in
from .storage import connect, copied, is_writable, storage_errors


@contextmanager
def to_be_read(folder: Path | str) -> Iterator[Path]:
    """The folder of a book, or one that stands for it while the block runs, where it cannot be written to.

    Raises NotABook, BookDamaged and the other errors of `storage`.
    """
    folder = Path(folder)
    file = file_in(folder)
    if is_writable(folder) and is_writable(file):
        yield folder
        return
    with storage_errors(folder), tempfile.TemporaryDirectory(prefix="fieldbook-") as temporary:
        aside = Path(temporary)
        copied(file, aside)
        for part in (*SHELVES.values(), RECORDS, ASIDE):
            if (folder / part).is_dir():
                (aside / part).symlink_to((folder / part).resolve())
        db = connect(aside / FILE)
        with closing(db):
            db.execute("INSERT OR REPLACE INTO fact VALUES (?, ?)", [READ_ONLY, str(folder)])
            db.conn.commit()
        yield aside
