"""A folder sealed as a bag: every file in it named in a list with its SHA-256, so that any machine can tell damage.

Source: RFC 8493, The BagIt File Packaging Format (V1.0), J. Kunze and others, 2018; sections 2.1.1 (bagit.txt),
2.1.3 (payload manifest), 2.2.1 (tag manifest), 2.2.2 (bag-info.txt, Payload-Oxum), 2.4 (other algorithms, which an
archive may have added its lists by; each is followed). What lies elsewhere (fetch.txt, 2.2.3) is never fetched: such a
bag is not whole.
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
STRONG = ("sha256", "sha384", "sha512")  # a folder by none of these alone may have been altered to fit
FOLLOWED = (*STRONG, "sha224", "sha1", "md5")
LEFT_BY_DESKTOPS = {".DS_Store", "Thumbs.db", "desktop.ini"}  # in every folder they show; nothing reads them here
_LIST = re.compile(r"(tag)?manifest-([^/]+)\.txt")
_LINE = re.compile(r"([0-9A-Fa-f]+)[ \t]+\*?(\S.*)")
_LINE_ENDS = re.compile(r"\r\n|\r|\n")
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


def digest_of(path: Path, algorithm: str = "sha256") -> str:
    """Digest of a file, in hexadecimal."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, algorithm).hexdigest()


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
    files = {name: path for name, path in _files(folder) if path.name not in LEFT_BY_DESKTOPS}
    regular = {name for name, path in files.items() if stat.S_ISREG(path.lstat().st_mode)}
    yield from (Flaw(name, "is a link or no plain file") for name in files.keys() - regular)
    if not _VERSION.fullmatch(_text(files, regular, DECLARATION)):
        yield Flaw(DECLARATION, "is not here, or does not say that this is a bag in UTF-8")
    lists: dict[str, dict[str, str]] = {}
    for name, algorithm in _lists(files):
        if algorithm not in FOLLOWED:
            yield Flaw(name, f"is a list by “{algorithm[:20]}”, which cannot be followed here")
            continue
        lists[name], unfit = _read(_text(files, regular, name), algorithm)
        yield from (Flaw(name, f"has a line that names no file of this folder: {line[:80]!r}") for line in unfit)
    strong = {stem: any(f"{stem}-{one}.txt" in lists for one in STRONG) for stem in ("manifest", "tagmanifest")}
    yield from (Flaw(f"{stem}-sha256.txt", "is not here") for stem, here in strong.items() if not here)
    if "fetch.txt" in files:
        yield Flaw("fetch.txt", "names files that lie elsewhere; they are not fetched")
    if all(strong.values()):
        yield from _differences(files, regular, lists)


def _lists(files: Mapping[str, Path]) -> list[tuple[str, str]]:
    """Name and algorithm of every manifest and tag manifest."""
    return [(name, found[2].lower()) for name in files if (found := _LIST.fullmatch(name))]


def _text(files: Mapping[str, Path], regular: set[str], name: str) -> str:
    """What a tag file says; "" for none, and for one that cannot be read."""
    try:
        fits = name in regular and files[name].stat().st_size <= MOST_LIST_BYTES
        return files[name].read_bytes().decode() if fits else ""
    except (OSError, UnicodeDecodeError):
        return ""


def _read(text: str, algorithm: str) -> tuple[dict[str, str], list[str]]:
    """Path -> digest as a manifest gives them, and the lines that are none or that lead out of the folder."""
    listed: dict[str, str] = {}
    unfit = []
    digits = 2 * hashlib.new(algorithm, usedforsecurity=False).digest_size
    for line in filter(None, _LINE_ENDS.split(text)):
        found = _LINE.fullmatch(line)
        name = re.sub("%0A|%0D|%25", lambda code: _ESCAPED[code[0].upper()], found[2], flags=re.I) if found else ""
        if not found or len(found[1]) != digits or not stays_inside(name) or name in listed:
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
    """What the lists and the folder do not agree on. A list need not name the others: each is followed by itself."""
    payload = {name for name in files if name.startswith(f"{PAYLOAD}/")}
    beside = {name for name in files.keys() - payload if not ((found := _LIST.fullmatch(name)) and found[1])}
    for manifest, listed in lists.items():
        wanted = beside if manifest.startswith("tag") else payload
        unnamed = sorted(wanted - listed.keys() - lists.keys())
        yield from (Flaw(name, f"is not named in {manifest}") for name in unnamed)
        algorithm = manifest.rsplit("-", 1)[1].removesuffix(".txt").lower()
        for name, digest in sorted(listed.items()):
            if name not in wanted:
                yield Flaw(name, f"is named in {manifest} and is not here")
            elif name in regular and (now := digest_of(files[name], algorithm)) != digest:
                yield Flaw(name, f"has changed: its checksum is {now[:12]}…, not {digest[:12]}…")
