"""A book that was put back from a plain copy of its folder: noticed by what phones know of its chain.

A backup that is restored begins a new epoch by itself; a folder that was copied back does not, and
would go on counting where phones have counted already. So phones tell the latest revision they know
and its hash: where these are not the book's, the two have parted, and a new epoch begins.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from typing import Any

from ..book import ledger
from ..book.book import Book
from ..errors import FieldbookError
from ..model.fields import Field, Type
from ..model.values import accept
from .devices import Device

_FACT = "put back"
_REVISION = Field("revision", "Revision", Type.WHOLE, low=0, high=10**12, required=True)
_HASH = Field("digest", "Digest", Type.LINE, required=True)


class EpochChanged(FieldbookError):
    """The book is not the one the phone knew: it was restored from a backup, or put back from a copy."""

    code = "epoch-changed"


@dataclass(frozen=True)
class KnownRevision:
    """A revision of the chain and its hash, as somebody knows them."""

    revision: int
    digest: str


@dataclass(frozen=True)
class PutBack:
    """That a book was found to be another than a phone knew.

    at, device  when it was found, and by whose entries
    known       the latest revision the phone knew
    shared      the last one both have
    """

    at: str
    device: str
    known: int
    shared: int


def known_from(given: Any) -> KnownRevision | None:
    """What a phone says it knows, `{"revision", "digest"}`; None for nothing. Raises what is wrong with it."""
    if not isinstance(given, dict) or not given:
        return None
    return KnownRevision(accept(_REVISION, given.get("revision")), accept(_HASH, given.get("digest")))


def last_shared(book: Book, known: Iterable[KnownRevision]) -> KnownRevision:
    """The latest of these that is the book's as well; revision 0 where none is."""
    found = [one for one in known if book.holds(one.revision, one.digest)]
    return max(found, key=lambda one: one.revision, default=KnownRevision(0, ledger.NO_HASH))


def part(book: Book, device: Device, epoch: Any, known: KnownRevision | None, shared: KnownRevision) -> bool:
    """Begin a new epoch where a phone of the present one knows what the book does not have; whether it began.

    shared  the last revision both have, as far as the phone could find out
    """
    with book.noting():
        if epoch != book.fact("epoch") or known is None or book.holds(known.revision, known.digest):
            return False
        last = last_shared(book, [shared]).revision
        book.begin_epoch(last)
        found = PutBack(ledger.now(), device.name, known.revision, last)
        book.set_fact(_FACT, json.dumps([asdict(one) for one in [*every(book), found]]))
    return True


def every(book: Book) -> list[PutBack]:
    """Each time it was found that the book had been put back, oldest first."""
    return [PutBack(**one) for one in json.loads(book.fact(_FACT) or "[]")]
