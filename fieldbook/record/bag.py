"""A folder sealed as a bag: every file in it named in a list with its SHA-256, so that any machine can tell damage.

Source: RFC 8493, The BagIt File Packaging Format (V1.0), J. Kunze and others, 2018; sections 2.1.1 (bagit.txt),
2.1.3 (payload manifest), 2.2.1 (tag manifest), 2.2.2 (bag-info.txt, Payload-Oxum). What lies elsewhere (fetch.txt,
2.2.3) is never fetched: such a bag is not whole.
"""

from __future__ import annotations

import hashlib
import os
import re
import stat
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

PAYLOAD = "data"
DECLARATION, INFO = "bagit.txt", "bag-info.txt"
MANIFEST, TAG_MANIFEST = "manifest-sha256.txt", "tagmanifest-sha256.txt"
DECLARED = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"
MOST_LIST_BYTES = 50_000_000
MOST_FLAWS = 200
_LINE = re.compile(r"([0-9A-Fa-f]{64})[ \t]+\*?(\S.*)")
_VERSION = re.compile(r"BagIt-Version: (0\.97|1\.0)\s+Tag-File-Character-Encoding: UTF-8\s*")
_ESCAPED = {"%0A": "\n", "%0D": "\r", "%25": "%"}  # in manifests: RFC 8493, 2.1.3


@dataclass(frozen=True)
class Flaw:
    """One thing about a bag that is not as it should be: which file of it, and what is wrong."""

    path: str
    words: str


def seal(folder: Path, info: Mapping[str, str]) -> None:
    """Make a bag of a folder whose payload lies in `data/`; what lies beside it is listed among the tag files.

    info  label -> value of what bag-info.txt says besides the payload's size
    """
    payload = {name: path for name, path in _files(folder) if name.startswith(f"{PAYLOAD}/")}
    octets = sum(path.stat().st_size for path in payload.values())
    about = {label: " ".join(value.split()) for label, value in info.items()}
    about["Payload-Oxum"] = f"{octets}.{len(payload)}"
    _write(folder / DECLARATION, DECLARED)
    _write(folder / INFO, "".join(f"{label}: {value}\n" for label, value in about.items()))
    _write(folder / MANIFEST, _listed(payload))
    tags = {name: path for name, path in _files(folder) if name not in payload and name != TAG_MANIFEST}
    _write(folder / TAG_MANIFEST, _listed(tags))


def _write(path: Path, text: str) -> None:
    path.write_text(text, encoding="utf-8", newline="")


def _listed(files: Mapping[str, Path]) -> str:
    return "".join(f"{digest_of(path)}  {name}\n" for name, path in sorted(files.items()))


def digest_of(path: Path) -> str:
    """SHA-256 of a file, in hexadecimal."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _files(folder: Path) -> Iterator[tuple[str, Path]]:
    """Every file below a folder with its path in it; links are named, and nothing behind them."""
    for entry in sorted(os.scandir(folder), key=lambda one: one.name):
        path = Path(entry.path)
        if entry.is_dir(follow_symlinks=False):
            yield from ((f"{entry.name}/{name}", inner) for name, inner in _files(path))
        else:
            yield entry.name, path


def flaws_of(folder: Path) -> list[Flaw]:
    """Everything that is wrong with a bag, at most 200 of it; an empty list for one that is whole."""
    if not folder.is_dir():
        return [Flaw(str(folder), "is no folder")]
    found: list[Flaw] = []
    for flaw in _flaws(folder):
        found.append(flaw)
        if len(found) == MOST_FLAWS:
            break
    return found


def _flaws(folder: Path) -> Iterator[Flaw]:
    files = dict(_files(folder))
    regular = {name for name, path in files.items() if stat.S_ISREG(path.lstat().st_mode)}
    yield from (Flaw(name, "is a link or no plain file") for name in files.keys() - regular)
    lists: dict[str, dict[str, str]] = {}
    for name in (DECLARATION, MANIFEST, TAG_MANIFEST):
        text = _text(files[name]) if name in regular else None
        if text is None:
            yield Flaw(name, "is not here, or cannot be read")
        elif name == DECLARATION:
            if not _VERSION.fullmatch(text):
                yield Flaw(name, "does not say that this is a bag in UTF-8")
        else:
            lists[name], unfit = _read(text)
            yield from (Flaw(name, f"has a line that names no file of this folder: {line[:80]!r}") for line in unfit)
    if "fetch.txt" in files:
        yield Flaw("fetch.txt", "names files that lie elsewhere; they are not fetched")
    if len(lists) == 2:
        yield from _differences(files, regular, lists)


def _text(path: Path) -> str | None:
    try:
        return path.read_text(encoding="utf-8") if path.stat().st_size <= MOST_LIST_BYTES else None
    except (OSError, UnicodeDecodeError):
        return None


def _read(text: str) -> tuple[dict[str, str], list[str]]:
    """Path -> digest as a manifest gives them, and the lines that are none or that lead out of the folder."""
    listed: dict[str, str] = {}
    unfit = []
    for line in text.splitlines():
        found = _LINE.fullmatch(line)
        name = re.sub("%0A|%0D|%25", lambda code: _ESCAPED[code[0].upper()], found[2], flags=re.I) if found else ""
        if not found or not stays_inside(name) or name in listed:
            unfit.append(line)
        else:
            listed[name] = found[1].lower()
    return listed, unfit


def stays_inside(name: str) -> bool:
    """Whether a path, as a manifest or an archive writes it, leads to a file below the folder on every system."""
    parts = name.split("/")
    odd = "\\" in name or ":" in name or any(ord(letter) < 32 for letter in name)
    return not odd and not PurePosixPath(name).is_absolute() and not {"", ".", ".."} & set(parts)


def _differences(
    files: Mapping[str, Path], regular: set[str], lists: Mapping[str, Mapping[str, str]]
) -> Iterator[Flaw]:
    payload = {name for name in files if name.startswith(f"{PAYLOAD}/")}
    wanted = {MANIFEST: payload, TAG_MANIFEST: files.keys() - payload - {TAG_MANIFEST}}
    for manifest, listed in lists.items():
        yield from (Flaw(name, f"is not named in {manifest}") for name in sorted(wanted[manifest] - listed.keys()))
        for name, digest in sorted(listed.items()):
            if name not in wanted[manifest]:
                yield Flaw(name, f"is named in {manifest} and is not here")
            elif name in regular and (found := digest_of(files[name])) != digest:
                yield Flaw(name, f"has changed: its checksum is {found[:12]}…, not {digest[:12]}…")
