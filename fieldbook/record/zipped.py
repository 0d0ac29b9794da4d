"""A folder in one file, for a browser or the post, and out of it again without trusting what it says of itself."""

from __future__ import annotations

import shutil
import stat
import tempfile
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

from ..errors import FieldbookError
from .bag import stays_inside

MADE_AT = (1980, 1, 1, 0, 0, 0)  # the earliest a ZIP can say: the same folder gives the same bytes
MOST_FILES = 50_000
MOST_TIMES_LARGER = 200  # text packs to a fiftieth at most, and nothing else is worth packing
SPARE_BYTES = 200_000_000  # what a disk keeps free


class UnsuitableArchive(FieldbookError):
    """A file that is no ZIP of a folder, or that would write where or how much it should not."""

    code = "unsuitable-archive"


def pack(folder: Path, file: IO[bytes], top: str) -> None:
    """Write a folder as a ZIP, everything in it below one name."""
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        for path in sorted(path for path in folder.rglob("*") if path.is_file()):
            entry = zipfile.ZipInfo(f"{top}/{path.relative_to(folder).as_posix()}", MADE_AT)
            entry.compress_type = zipfile.ZIP_DEFLATED
            with path.open("rb") as source, archive.open(entry, "w", force_zip64=True) as target:
                shutil.copyfileobj(source, target)


@contextmanager
def as_folder(given: Path) -> Iterator[Path]:
    """The folder itself, or what a ZIP of one holds, laid out in a folder that goes away afterwards.

    Raises UnsuitableArchive.
    """
    if not given.is_file():
        yield given
        return
    with tempfile.TemporaryDirectory(prefix="fieldbook-folder-") as temporary:
        yield _unpack(given, Path(temporary))


def _unpack(file: Path, folder: Path) -> Path:
    try:
        with zipfile.ZipFile(file) as archive:
            entries = [entry for entry in archive.infolist() if not entry.is_dir()]
            _refuse(file, entries, folder)
            for entry in entries:
                target = folder / entry.filename
                target.parent.mkdir(parents=True, exist_ok=True)
                with archive.open(entry) as source, target.open("xb") as written:
                    shutil.copyfileobj(source, written)  # ends at the size that was looked at
    except (zipfile.BadZipFile, NotImplementedError, RuntimeError, EOFError, OSError, ValueError) as error:
        raise _unsuitable(file, f"cannot be unpacked: {error}") from None
    inside = list(folder.iterdir())
    return inside[0] if len(inside) == 1 and inside[0].is_dir() else folder


def _refuse(file: Path, entries: list[zipfile.ZipInfo], folder: Path) -> None:
    """Raise for an archive before anything of it is written."""
    names = [entry.filename for entry in entries]
    if len(names) > MOST_FILES or len({name.lower() for name in names}) < len(names):
        raise _unsuitable(file, f"holds more than {MOST_FILES:,} files, or one name twice")
    for entry in entries:
        kind = stat.S_IFMT(entry.external_attr >> 16)
        if not stays_inside(entry.orig_filename) or kind not in {0, stat.S_IFREG}:
            raise _unsuitable(
                file, f"holds a link, or a file that would lie outside its folder ({entry.filename!r:.80})"
            )
    size, packed = sum(entry.file_size for entry in entries), file.stat().st_size
    if size > packed * MOST_TIMES_LARGER or size + SPARE_BYTES > shutil.disk_usage(folder).free:
        raise _unsuitable(file, f"unfolds to {size / 1e6:,.0f} MB, more than its size lets expect or there is room for")


def _unsuitable(file: Path, why: str) -> UnsuitableArchive:
    return UnsuitableArchive(f"{file} {why}.", "Do not use it; ask for another copy.", field="folder", value=file)
