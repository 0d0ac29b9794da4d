"""What phones ask for: the protocol of DEVELOPERS.md, step by step.

Nothing is acknowledged before it is on disk, whatever is refused is answered in words, and no
answer here ever tells a phone to throw something away.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import suppress
from datetime import date
from functools import lru_cache
from pathlib import Path
from threading import Lock
from typing import Any

from flask import Blueprint, Response, current_app, g, jsonify, request, send_file
from werkzeug.exceptions import ClientDisconnected, UnsupportedMediaType

from ...book import accepting, ledger, photographs
from ...book.gathering import gather
from ...errors import UnknownItem, shown
from ...findings.told_phones import told_phones
from ...phones import devices, messages, pieces, put_back, taken_out
from ...phones.devices import Device, UnknownToken
from ...phones.messages import UnsuitableRequest
from ...phones.put_back import EpochChanged, KnownRevision
from ..books import book
from ..security import csrf

PROTOCOL = 1
LEVEL = 2  # what this server understands beyond the first version of all; a phone asks for no more than that
MOST_ENTRIES, MOST_BYTES = 100, 1 << 20
MOST_ASKED = 500
LOOKER = "LOOKER"  # the setting that holds who looks at photographs once they are here, where somebody does
MOST_PULLED = 500
COPY_SIZES_PX = {"320": 320, "800": 800, "1600": 1600}
WITHOUT_TOKEN = {"sync.hello", "sync.join"}
_RANGE = re.compile(r"bytes (\d{1,12})-(\d{1,12})/(\d{1,12})")
_DIGEST = re.compile(r"[0-9a-f]{64}")

blueprint = Blueprint("sync", __name__, url_prefix="/phone")
csrf.exempt(blueprint)  # a token in a header comes from no other site's form


@blueprint.before_request
def know_the_device() -> None:
    """Find out which phone asks, before anything else is looked at."""
    request.max_content_length = pieces.MOST_BYTES if request.endpoint == "sync.take_piece" else MOST_BYTES
    if request.endpoint not in WITHOUT_TOKEN:
        scheme, _, token = request.headers.get("Authorization", "").partition(" ")
        if scheme.lower() != "bearer" or not token:
            raise UnknownToken("The request carries no token.", "Join this phone first.")
        g.device = devices.authenticate(book(), token)


@blueprint.after_request
def keep_no_copy(response: Response) -> Response:
    """Nothing of this belongs in a cache of the browser's; the phone has its own store."""
    response.headers["Cache-Control"] = "no-store"
    return response


def device() -> Device:
    """The phone that asks."""
    return g.device


@blueprint.get("/hello")
def hello() -> Response:
    """Step 1: that this is a book, which one, and how far it is."""
    said = {"fieldbook": PROTOCOL, "level": LEVEL, "time": ledger.now(), "shell": current_app.config.get("SHELL", "")}
    about = {"book": book().fact("book"), "shared": book().shared_revision(request.args.get("epoch"))}
    about["taken_out"] = taken_out.state(book())
    return _answer(said | about | {"agrees": _agrees(_known_in_query())})


@blueprint.post("/join")
def join() -> Response:
    """Step 2: a phone that brings a code is given its token."""
    sent = _sent()
    joined = devices.join(book(), sent.get("code"), sent.get("name"), sent.get("device"))
    return _answer({"book": book().fact("book"), "device": joined.device, "token": joined.token})


@blueprint.post("/entries")
def send() -> Response:
    """Step 3: an answer to each entry, after all that were accepted are on disk."""
    sent = _sent()
    entries = sent.get("entries")
    if not isinstance(entries, list) or len(entries) > MOST_ENTRIES:
        raise UnsuitableRequest(
            f"“entries” is no list of at most {MOST_ENTRIES}.", "Send fewer at once.", field="entries"
        )
    if sent.get("epoch") != book().fact("epoch"):
        raise EpochChanged("This book was restored from a backup.", "Pull all of it again, then send.", field="epoch")
    known = put_back.known_from(sent.get("known"))
    _refuse_parted(known)
    described, returned = sent.get("described", accepting.FIRST), sent.get("returned", [])
    answers = book().append(
        entries,
        device().id,
        described if isinstance(described, str) else accepting.FIRST,
        {one for one in returned if isinstance(one, str)} if isinstance(returned, list) else (),
    )
    devices.touch(book(), device(), _waiting(sent), _as_pair(known))
    return _answer({"answers": [answer.as_dict() for answer in answers]})


@blueprint.get("/entries")
def pull() -> Response:
    """Step 4: what came after a revision, in order."""
    since, most = _whole("since", 0), min(_whole("most", MOST_PULLED), MOST_PULLED)
    known = _known_in_query()
    _refuse_parted(known)
    if known is None and since > book().revision():  # a phone of the first version, of which no more can be learnt
        put_back.part(
            book(), device(), book().fact("epoch"), KnownRevision(since, ""), KnownRevision(0, ledger.NO_HASH)
        )
        _refuse_parted(KnownRevision(since, ""))
    with book().db.atomic():  # the entries and the revision they lead to, of one moment
        entries = list(ledger.entries(book().db, since, most=most))
        hashes = [entry["hash"] for entry in entries]
        answer = _answer({"since": since, "entries": [_as_pulled(entry) for entry in entries], "hashes": hashes})
    devices.touch(book(), device(), known=_as_pair(known))
    return answer


@blueprint.post("/shared")
def shared() -> Response:
    """Step 6: the latest of the revisions a phone knows, by its hash, that is the book's as well."""
    return _answer({"shared": vars(put_back.last_shared(book(), _hashes(_sent())))})


@blueprint.post("/epoch")
def part() -> Response:
    """Step 6: a phone knows what this book does not have; the answer tells the epoch that holds from now on."""
    sent = _sent()
    if (last := put_back.known_from(sent.get("shared"))) is None:
        raise UnsuitableRequest("“shared” is no revision with its digest.", "Send 0 where none is.", field="shared")
    put_back.part(book(), device(), sent.get("epoch"), put_back.known_from(sent.get("known")), last)
    return _answer({})


@blueprint.get("/answers")
def answers() -> Response:
    """Step 9: what only the desk can answer, as it is now."""
    today = date.today()
    with _ASKED:
        told = _told(book().folder, *book().head(), today)
    return _answer({"day": today.isoformat(), "sites": told})


_ASKED = Lock()  # phones that ask together wait for one answer


@lru_cache(maxsize=8)
def _told(_folder: Path, _revision: int, _digest: str, today: date) -> dict[str, Any]:
    """By id of a site of the book; asked again when that has changed, not by each phone."""
    return {site["id"]: told_phones(gather(book(), site["id"]), today) for site in book().items("site")}


def _hashes(sent: dict[str, Any]) -> list[KnownRevision]:
    given = sent.get("hashes")
    if not isinstance(given, list) or len(given) > MOST_ASKED or not all(isinstance(one, dict) for one in given):
        raise UnsuitableRequest(f"“hashes” is no list of at most {MOST_ASKED}.", "Send fewer at once.", field="hashes")
    return [known for one in given if (known := put_back.known_from(one))]


def _known_in_query() -> KnownRevision | None:
    digest = request.args.get("digest", "")
    return KnownRevision(_whole("known", 0), digest) if _DIGEST.fullmatch(digest) else None


def _as_pair(known: KnownRevision | None) -> tuple[int, str] | None:
    return (known.revision, known.digest) if known else None


def _agrees(known: KnownRevision | None) -> bool:
    return known is None or book().holds(known.revision, known.digest)


def _refuse_parted(known: KnownRevision | None) -> None:
    if not _agrees(known):
        raise EpochChanged(
            "This book is not the one the phone knew: it was put back from a copy.",
            "Ask how far both are the same, then go on from there.",
            field="epoch",
        )


@blueprint.get("/taken-out")
def what_was_taken_out() -> Response:
    """Step 8: what a person took out of the book, so that it goes from the phone as well."""
    with book().db.atomic():
        gone = taken_out.taken_out(book())
        entries = [_as_pulled(entry) for entry in gone.entries]
        return _answer({"taken_out": gone.state, "entries": entries, "photographs": gone.files})


@blueprint.post("/photographs")
def lacking() -> Response:
    """Step 5: of all these photographs, how far each has come, and whether its pixels were looked at."""
    digests = _sent().get("digests")
    if not isinstance(digests, list) or len(digests) > MOST_ASKED:
        raise UnsuitableRequest(
            f"“digests” is no list of at most {MOST_ASKED}.", "Ask for fewer at once.", field="digests"
        )
    return _answer({"photographs": [_how_far(_digest(sha256)) for sha256 in digests]})


def _how_far(sha256: str) -> dict[str, Any]:
    here = vars(pieces.progress(book(), device().id, sha256))
    return {"sha256": sha256} | here | {"looked_at": photographs.is_looked_at(book(), sha256)}


@blueprint.get("/photographs/<sha256>")
def photograph_progress(sha256: str) -> Response:
    """Step 5, as phones of the first version ask: how far a photograph has come."""
    return jsonify(vars(pieces.progress(book(), device().id, _digest(sha256))))


@blueprint.put("/photographs/<sha256>")
def take_piece(sha256: str) -> Response:
    """Step 5: one piece of a photograph, written as it comes; after the last, all is on disk before the answer."""
    if request.mimetype != "application/octet-stream":
        raise UnsupportedMediaType("A piece is sent as application/octet-stream.")
    found = _RANGE.fullmatch(request.headers.get("Content-Range", ""))
    first, last, total = map(int, found.groups()) if found else (0, -1, 0)
    if not first <= last < total or request.content_length != last - first + 1:
        raise UnsuitableRequest(
            "The piece is not as long as its Content-Range says, or has none.",
            "Send “Content-Range: bytes FIRST-LAST/TOTAL”.",
            field="Content-Range",
            value=request.headers.get("Content-Range"),
        )
    here = pieces.take(book(), device().id, _digest(sha256), first, total, _chunks(last - first + 1))
    if looker := current_app.config.get(LOOKER):
        looker.tell()
    return jsonify(vars(here))


def _chunks(length: int) -> Iterator[bytes]:
    """The body as it comes, so many bytes or until the connection is cut."""
    with suppress(OSError, ClientDisconnected):
        while length and (chunk := request.stream.read(min(length, pieces.CHUNK_BYTES))):
            length -= len(chunk)
            yield chunk


@blueprint.get("/photographs/<sha256>/copy/<pixels>")
def copy(sha256: str, pixels: str) -> Response:
    """Step 6: a smaller copy, without the camera's notes."""
    try:
        size_px = COPY_SIZES_PX[pixels]
        return send_file(photographs.small_copy(book(), _digest(sha256), size_px).resolve(), "image/jpeg")
    except (KeyError, photographs.UnsuitablePhotograph):
        raise UnknownItem(
            "There is no such copy here, or not yet.", "Ask again later.", field="photograph", value=sha256
        ) from None


def _answer(values: dict[str, Any]) -> Response:
    revision, digest = book().head()
    return jsonify(values | {"epoch": book().fact("epoch"), "revision": revision, "digest": digest})


def _as_pulled(entry: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in entry.items() if key not in {"received_at", "hash"}}


def _sent() -> dict[str, Any]:
    """The JSON object of the body."""
    if request.mimetype != "application/json":
        raise UnsupportedMediaType("The body is sent as application/json.")
    return messages.read(request.get_data(cache=False))


def _waiting(sent: dict[str, Any]) -> int | None:
    waiting = sent.get("waiting")
    return waiting if isinstance(waiting, int) and 0 <= waiting < 10**9 else None


def _whole(name: str, otherwise: int) -> int:
    text = request.args.get(name, str(otherwise))
    if not re.fullmatch(r"[0-9]{1,15}", text):
        raise UnsuitableRequest(f"“{name}” is “{shown(text)}”.", "Give a whole number.", field=name, value=text)
    return int(text)


def _digest(text: Any) -> str:
    if not isinstance(text, str) or not _DIGEST.fullmatch(text):
        raise UnsuitableRequest(
            f"“{shown(text)}” is no SHA-256 checksum.", "Give 64 hexadecimal digits.", field="photograph", value=text
        )
    return text
