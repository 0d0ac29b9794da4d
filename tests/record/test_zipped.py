"""A folder in one file: equal each time, and nothing of a hostile one is written."""

from __future__ import annotations

import stat
import zipfile
from io import BytesIO
from pathlib import Path

import pytest

from fieldbook.record import zipped
from fieldbook.record.zipped import UnsuitableArchive, as_folder, pack


def test_folder_comes_out_as_it_went_in_and_twice_the_same(tmp_path: Path) -> None:
    """The bytes of the ZIP are those of the folder alone, and it unfolds to the same files."""
    folder = tmp_path / "folder"
    (folder / "data").mkdir(parents=True)
    (folder / "data" / "a.bin").write_bytes(bytes(range(256)))
    first, second = BytesIO(), BytesIO()
    pack(folder, first, "Customs shed")
    pack(folder, second, "Customs shed")
    assert first.getvalue() == second.getvalue()
    (tmp_path / "one.zip").write_bytes(first.getvalue())
    with as_folder(tmp_path / "one.zip") as out:
        assert (out / "data" / "a.bin").read_bytes() == bytes(range(256))
    with as_folder(folder) as out:
        assert out == folder


def entry(name: str, mode: int = stat.S_IFREG) -> zipfile.ZipInfo:
    """An entry of this name and file type, whatever the library thinks of it."""
    made = zipfile.ZipInfo(name)
    made.external_attr = (mode | 0o644) << 16
    return made


HOSTILE = {
    "slips out": [(entry("../../out.txt"), b"x")],
    "absolute": [(entry("/tmp/out.txt"), b"x")],
    "drive": [(entry("C:/out.txt"), b"x")],
    "link": [(entry("link", stat.S_IFLNK), b"/etc/passwd")],
    "device": [(entry("dev", stat.S_IFCHR), b"")],
    "twice": [(entry("a.txt"), b"x"), (entry("A.txt"), b"y")],
    "bomb": [(entry("big"), b"\0" * 30_000_000)],
}


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_archive_is_refused_and_leaves_nothing(tmp_path: Path, name: str) -> None:
    """Slips, links, doubles and bombs are refused before a byte is written."""
    file = tmp_path / "hostile.zip"
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        for made, content in HOSTILE[name]:
            archive.writestr(made, content, zipfile.ZIP_DEFLATED)
    with pytest.raises(UnsuitableArchive), as_folder(file):
        pass
    assert [path.name for path in tmp_path.iterdir()] == ["hostile.zip"]


def test_more_than_the_disk_holds_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Room is asked for before it is taken."""
    monkeypatch.setattr(zipped, "SPARE_BYTES", 10**18)
    with zipfile.ZipFile(tmp_path / "a.zip", "w") as archive:
        archive.writestr("a", b"x")
    with pytest.raises(UnsuitableArchive), as_folder(tmp_path / "a.zip"):
        pass


def test_file_that_is_no_archive_is_refused(tmp_path: Path) -> None:
    """In words, not with what the library raises."""
    (tmp_path / "a.zip").write_bytes(b"PK\x03\x04 and no more")
    with pytest.raises(UnsuitableArchive), as_folder(tmp_path / "a.zip"):
        pass
