"""What a question about a thing comes to, with what it stands on, what it assumed, and what it leaves out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from ..book.site import Item
from ..checks.verdict import Verdict, Word

WORST_FIRST = list(Word)


class Blank(NamedTuple):
    """Something of an item that is not entered.

    field  a field of it, or the kind of what belongs to it and is missing: a reading of a room
    words  what is missing, where the field's own label does not say it
    given  what is known of it already, to be filled in: the quantity of a reading
    tried  what may stand there, where the thing itself bounds it; empty: the field's ordinary values
    """

    item: Item
    field: str
    words: str = ""
    given: tuple[tuple[str, str], ...] = ()
    tried: tuple[Any, ...] = ()


class Recalculation(NamedTuple):
    """The calculation that does a figure again, and what it takes."""

    name: str
    payload: Mapping[str, Any]


class Outcome(NamedTuple):
    """What a question came to, as the function that answers it returns it.

    against   what the thing was held against: the worst of them
    assumed   sentences: what was taken for granted
    left_out  sentences: what the answer leaves out that matters for this thing
    again     the calculation that does its figure again; None where there is none
    missing   the entries that would settle it, where the answer itself says that it is not known for want of them
    papers    the documents it rests on, where the answer itself knows them
    """

    verdict: Verdict
    against: Item | None = None
    assumed: tuple[str, ...] = ()
    left_out: tuple[str, ...] = ()
    again: Recalculation | None = None
    missing: tuple[Blank, ...] = ()
    papers: tuple[Item, ...] = ()


class Finding(NamedTuple):
    """The outcome of one question about one thing.

    missing  the fields that would settle it; empty unless it is not known for want of an entry
    papers   the documents that what decided it is kept in
    """

    question: str
    subject: Item
    against: Item | None
    verdict: Verdict
    missing: tuple[Blank, ...] = ()
    assumed: tuple[str, ...] = ()
    left_out: tuple[str, ...] = ()
    again: Recalculation | None = None
    papers: tuple[Item, ...] = ()

    @property
    def word(self) -> Word:
        """What it comes to."""
        return self.verdict.word
