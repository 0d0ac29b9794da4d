"""What things were like when somebody agreed to them, read from the ledger."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from typing import Any, NamedTuple

from sqlite_utils import Database

from ..model import versions
from . import ledger

RULING = {"items", "answer", "on", "question", "acts", "outline", "depth_mm", "holes", "trace", "until"}
"""The fields of an agreement or a specialist's word that say what was decided; with them it is decided again."""

Then = Mapping[tuple[str, str], Mapping[str, Any]]
"""(id of what was decided, id of a thing) -> the thing's fields in the state that was decided on."""


class Decided(NamedTuple):
    """What whoever decided had seen of the book: all up to a revision, and what their own device had entered since.

    What others sent before the decision reached the book, but after it was made, nobody agreed to.
    """

    seen: int
    revision: int = 0
    device: str | None = None

    def knew(self, entry: Mapping[str, Any]) -> bool:
        """Whether an entry was among it."""
        own = entry["revision"] <= self.revision and entry["device"] == self.device
        return own or bool(entry["revision"] <= self.seen)


def states(db: Database, rulings: Mapping[str, int | None], covered: Mapping[str, Iterable[str]]) -> Then:
    """How each thing stood when it was decided on; a thing that was not there yet is left out.

    rulings  id of an agreement or a specialist's word -> the revision it is about; None: what was seen as it was made
    covered  the same id -> ids of the things it covers
    """
    wanted: dict[str, list[tuple[str, Decided]]] = defaultdict(list)
    for ruling, said in rulings.items():
        decided = _decided(db, ruling) if said is None else Decided(said)
        for thing in covered[ruling]:
            wanted[thing].append((ruling, decided))
    return {key: values for thing, at in wanted.items() for key, values in _of(db, thing, at)}


def _decided(db: Database, ruling: str) -> Decided:
    """What was seen by whoever last entered what is decided."""
    made = [entry for entry in _history(db, ruling) if RULING & entry.get("set", {}).keys()]
    return Decided(made[-1]["base"], made[-1]["revision"], made[-1]["device"]) if made else Decided(0)


def _of(db: Database, thing: str, at: list[tuple[str, Decided]]) -> Iterator[tuple[tuple[str, str], dict[str, Any]]]:
    history = _history(db, thing)
    for ruling, decided in at:
        values: dict[str, Any] = {}
        for entry in filter(decided.knew, history):
            values |= entry.get("set", {})
        if values:
            yield (ruling, thing), values


def _history(db: Database, item: str) -> list[Mapping[str, Any]]:
    return [versions.in_present_words(entry) for entry in ledger.entries(db, item=item)]
