"""A visit carried in a file, for a phone that cannot reach the laptop: out to it, and back from it.

The way back is the way of sync: the same entries through `Book.append`, the same photographs
through `photographs.keep`, so that a file taken twice, or beside sync, has the effect of once. The
answers wait in the book until they go out with the next file.
"""

from __future__ import annotations

import base64
import hashlib
import json
import shutil
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from typing import IO, Any

from ..book import apart, ledger, photographs
from ..book.accepting import FIRST, AheadOfBook, EntryAnswer, Status, is_here
from ..book.book import Book
from ..book.photographs import UnsuitablePhotograph, original
from ..book.storage import DiskFull
from ..errors import FieldbookError, shown
from . import devices, messages, put_back, taken_out
from .messages import UnsuitableRequest
from .pieces import ROOM_LEFT_BYTES, DigestDiffers
from .put_back import KnownRevision

PROTOCOL = 1
ENDING = ".fieldbook.jsonl"
MOST_LINES, MOST_ENTRY_BYTES = 200_000, 1 << 20
MOST_ANSWERS = 20_000
MOST_LINE_BYTES = photographs.MOST_BYTES * 4 // 3 + 1_000


class UnsuitableFile(FieldbookError):
    """A file that is none of this book's, or is not whole."""

    code = "unsuitable-file"


@dataclass
class _Carried:
    """What a checked file says: who made it in which epoch, and the entries; photographs are read again.

    known     the latest revision the phone knows; `hashes` some before it
    returned  ids of the entries that other devices made
    after     id of an entry -> the one the phone made last about the same item, of those it knows to be in the book
    """

    device: str
    epoch: str
    described: str = FIRST
    known: KnownRevision | None = None
    hashes: list[KnownRevision] = field(default_factory=list)
    after: dict[str, Any] = field(default_factory=dict)
    entries: list[Any] = field(default_factory=list)
    returned: set[str] = field(default_factory=set)


def write_out(book: Book, device: str, file: IO[bytes]) -> int:
    """Write all a phone needs to go on alone; returns the number of lines.

    device  id of the phone it is for
    Raises UnknownItem and ShutOut, and the errors of `storage`.
    """
    devices.device_named(book, device)
    number = 0
    for line in _lines_out(book, device):
        file.write(_line(line))
        number += 1
    file.write(_line({"end": number}))
    return number + 1


def _lines_out(book: Book, device: str) -> Iterator[dict[str, Any]]:
    with book.db.atomic():  # all of it as of one moment
        yield _header(book, device)
        for entry in ledger.entries(book.db):
            plain = {key: value for key, value in entry.items() if key not in {"received_at", "hash"}}
            yield {"entry": plain, "hash": entry["hash"]}
        digests = sorted({photograph["sha256"] for photograph in book.items("photograph")})
        answers = json.loads(book.fact(_answers(device)) or "[]")
        gone = taken_out.taken_out(book)
    if gone.state:
        yield {"taken_out": gone.state, "ids": [entry["id"] for entry in gone.entries], "photographs": gone.files}
    yield from ({"answer": answer} for answer in answers)
    for sha256 in digests:
        with suppress(UnsuitablePhotograph):  # it is not here yet, or cannot be shown: the others go out all the same
            copy = photographs.small_copy(book, sha256, photographs.PHONE_COPY_PX).read_bytes()
            yield {"copy": sha256, "media_type": "image/jpeg", "base64": base64.b64encode(copy).decode()}


def _header(book: Book, device: str) -> dict[str, Any]:
    about = {"fieldbook": PROTOCOL, "book": book.fact("book"), "epoch": book.fact("epoch")}
    return about | {"device": device, "way": "out", "made_at": ledger.now(), "shared": book.shared_revisions()}


def _line(values: dict[str, Any]) -> bytes:
    return json.dumps(values, ensure_ascii=False, separators=(",", ":")).encode() + b"\n"


def _answers(device: str) -> str:
    return f"carried answers of {device}"


def take_back(book: Book, file: IO[bytes]) -> list[EntryAnswer]:
    """Take in what a phone wrote; an answer to each photograph, by its digest, and to each entry.

    file  open for reading, from its beginning; read twice, since nothing is taken from one that is not whole
    Raises UnsuitableFile, UnknownItem, ShutOut, NewerBook, and the errors of `storage`.
    """
    book.refuse_newer()
    start = file.tell()
    carried = _checked(book, file)
    size = file.tell() - start
    if shutil.disk_usage(book.folder).free < size + ROOM_LEFT_BYTES:
        raise DiskFull(f"The disk that holds {book.folder} is nearly full.", "Make room, then take the file again.")
    file.seek(start)
    answers = [_take_photograph(book, line) for line in _read(file) if "photograph" in line]
    _part(book, carried)
    early = _out_of_turn(book, carried)
    in_turn = [entry for entry in _lowered(book, carried) if _id_of(entry) not in early]
    answers += book.append(in_turn, carried.device, carried.described, carried.returned) + list(early.values())
    with book.writing():
        _keep_answers(book, carried.device, answers)
    return answers


def _keep_answers(book: Book, device: str, answers: list[EntryAnswer]) -> None:
    """Keep answers for the next file out, beside those of former files, since a visit may come in several parts."""
    before = {answer["id"]: answer for answer in json.loads(book.fact(_answers(device)) or "[]")}
    now = {answer.id: answer.as_dict() for answer in answers}
    kept = [answer for key, answer in before.items() if key not in now] + list(now.values())
    book.set_fact(_answers(device), json.dumps(kept[-MOST_ANSWERS:]))


def _read(file: IO[bytes]) -> Iterator[dict[str, Any]]:
    """The lines of a file as objects; what is none, or too long, raises UnsuitableFile."""
    for number in range(1, MOST_LINES + 2):
        line = file.readline(MOST_LINE_BYTES + 1)
        if not line:
            return
        try:
            if number > MOST_LINES or len(line) > MOST_LINE_BYTES:
                raise UnsuitableRequest("It is too long.", "")
            yield messages.read(line)
        except UnsuitableRequest:
            raise _unsuitable(f"Line {number} of the file cannot be read.") from None


def _checked(book: Book, file: IO[bytes]) -> _Carried:
    """What the file says, once it is known to be whole and of a phone of this book."""
    carried, ended = None, False
    for before, line in enumerate(_read(file)):
        if ended:
            raise _unsuitable("The file goes on after its end.")
        if carried is None:
            carried = _begun(book, line)
        elif set(line) == {"end"}:
            ended = line["end"] == before and not isinstance(line["end"], bool)
            if not ended:
                raise _unsuitable(f"The file says it has {shown(line['end'])} lines before its end; it has {before}.")
        elif set(line) - {"returned"} == {"entry"} and len(_line(line)) <= MOST_ENTRY_BYTES:
            carried.entries.append(line["entry"])
            if line.get("returned") is True and isinstance(line["entry"], dict):
                carried.returned.add(str(line["entry"].get("id")))
        elif set(line) != {"photograph", "media_type", "base64"}:
            raise _unsuitable(f"Line {before + 1} of the file is none that a phone writes.")
    if carried is None or not ended:
        raise _unsuitable("The file is cut short: its end is missing.")
    return carried


def _begun(book: Book, line: dict[str, Any]) -> _Carried:
    if line.get("fieldbook") != PROTOCOL or line.get("way") != "back":
        raise _unsuitable("This is no file that a phone wrote for the laptop.")
    if line.get("book") != book.fact("book"):
        raise _unsuitable("This file is of another book.")
    device, epoch = line.get("device"), line.get("epoch")
    if not isinstance(device, str) or not isinstance(epoch, str):
        raise _unsuitable("The file does not say which phone wrote it.")
    described = line.get("described", FIRST)
    given = line.get("hashes", [])
    known = [put_back.known_from(one) for one in [line.get("known"), *(given if isinstance(given, list) else [])]]
    hashes = [one for one in known if one]
    after = line.get("after")
    of_phone = devices.device_named(book, device).id
    return _Carried(of_phone, epoch, str(described), known[0], hashes, after if isinstance(after, dict) else {})


def _unsuitable(reason: str) -> UnsuitableFile:
    return UnsuitableFile(reason, "Write it on the phone again; nothing was taken from this one.", field="file")


def _part(book: Book, carried: _Carried) -> None:
    """Begin a new epoch where the phone that wrote the file knows what this book does not have."""
    device = devices.device_named(book, carried.device)
    put_back.part(book, device, carried.epoch, carried.known, put_back.last_shared(book, carried.hashes))


def _out_of_turn(book: Book, carried: _Carried) -> dict[str, EntryAnswer]:
    """Entries that wait (S14): an earlier one of the phone about the same item was lost with the book it was in."""
    asked = {_id_of(entry): carried.after.get(_id_of(entry)) for entry in carried.entries}
    waits = AheadOfBook(
        "An entry that this phone made before it, about the same thing, is not in this book any more.",
        "Let the phone send both, or bring it a file from here and import the one it writes then.",
        field="base",
    )
    return {
        entry_id: EntryAnswer(entry_id, Status.WAITING, None, (waits,))
        for entry_id, before in asked.items()
        if before and not is_here(book.db, str(before)) and not is_here(book.db, entry_id)
    }


def _id_of(entry: Any) -> str:
    return str(entry.get("id")) if isinstance(entry, dict) else ""


def _lowered(book: Book, carried: _Carried) -> list[Any]:
    """The entries, their bases lowered to what a former epoch and this one share."""
    if carried.epoch == book.fact("epoch"):
        return carried.entries
    by_hash = put_back.last_shared(book, carried.hashes).revision
    shared = by_hash if carried.hashes else book.shared_revision(carried.epoch)
    return [
        entry | {"base": min(entry["base"], shared)}
        if isinstance(entry, dict) and isinstance(entry.get("base"), int)
        else entry
        for entry in carried.entries
    ]


def _take_photograph(book: Book, line: dict[str, Any]) -> EntryAnswer:
    sha256 = str(line["photograph"])
    try:
        content = base64.b64decode(line["base64"], validate=True)
        if hashlib.sha256(content).hexdigest() != sha256:
            raise DigestDiffers("The bytes are not those of this checksum.", "Write the file again.", value=sha256)
        known = original(book, sha256).exists() or apart.is_taken_out(book.db, sha256)
        if not known:
            photographs.keep(book, content)
    except (ValueError, TypeError):
        return EntryAnswer(sha256, Status.REFUSED, None, (_unsuitable("A photograph in the file cannot be read."),))
    except (DigestDiffers, UnsuitablePhotograph) as error:
        return EntryAnswer(sha256, Status.REFUSED, None, (error,))
    return EntryAnswer(sha256, Status.REPEATED if known else Status.ACCEPTED)
