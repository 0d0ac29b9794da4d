"""What things were like when somebody agreed to them, read from the ledger."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from sqlite_utils import Database

from ..model import versions
from . import ledger

RULING = {"items", "answer", "on", "question", "acts", "outline", "depth_mm", "holes", "trace", "until"}
"""The fields of an agreement or a specialist's word that say what was decided; with them it is decided anew."""

Then = Mapping[tuple[str, str], Mapping[str, Any]]
"""(id of what was decided, id of a thing) -> the thing's fields in the state that was decided on."""


def states(db: Database, rulings: Mapping[str, int | None], covered: Mapping[str, Iterable[str]]) -> Then:
    """How each thing stood when it was decided on; a thing that was not there yet is left out.

    rulings  id of an agreement or a specialist's word -> the revision it is about; None: when it was entered
    covered  the same id -> ids of the things it covers
    """
    wanted: dict[str, list[tuple[str, int]]] = defaultdict(list)
    for ruling, said in rulings.items():
        revision = _decided_at(db, ruling) if said is None else said
        for thing in covered[ruling]:
            wanted[thing].append((ruling, revision))
    return {key: values for thing, at in wanted.items() for key, values in _of(db, thing, at)}


def _decided_at(db: Database, ruling: str) -> int:
    """The revision of the last entry that said what is decided."""
    made = [entry["revision"] for entry in _history(db, ruling) if RULING & entry.get("set", {}).keys()]
    return made[-1] if made else 0


def _of(db: Database, thing: str, at: list[tuple[str, int]]) -> Iterator[tuple[tuple[str, str], dict[str, Any]]]:
    history = _history(db, thing)
    for ruling, revision in at:
        values: dict[str, Any] = {}
        for entry in history:
            if entry["revision"] <= revision:
                values |= entry.get("set", {})
        if values:
            yield (ruling, thing), values


def _history(db: Database, item: str) -> list[Mapping[str, Any]]:
    return [versions.in_present_words(entry) for entry in ledger.entries(db, item=item)]
