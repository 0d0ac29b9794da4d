"""What a field of a kind may hold, who reads it, and how it is shown."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from typing import Any

LINE_LENGTH = 200
NOTE_LENGTH = 20_000
MOST_ROWS = 5_000
ANY = "any"
ALWAYS, ONCE_FITTED = "always", "once fitted"  # when a record lacks a field that is empty


class Type(StrEnum):
    """The sorts of value a field can have; each is stored and shown in one way."""

    LINE = "line"  # one line of text
    NOTE = "note"  # text of several lines
    NUMBER = "number"
    WHOLE = "whole"  # whole number
    YES_NO = "yes-no"
    CHOICE = "choice"
    CHOICES = "choices"  # any of several words
    DATE = "date"  # RFC 3339 full-date
    MOMENT = "moment"  # RFC 3339 date-time with offset
    LINK = "link"  # id of another item
    LINKS = "links"
    ROWS = "rows"  # a small table: lists in the order of `columns`
    OUTLINE = "outline"  # polygon [[x, z], ...], mm, not closed
    DIGEST = "digest"  # SHA-256, lower-case hexadecimal


TEXTS = {Type.LINE, Type.NOTE}
STRUCTURED = {Type.CHOICES, Type.LINKS, Type.ROWS, Type.OUTLINE}


@dataclass(frozen=True)
class Field:
    """One field of one kind: from it come the column, the input, the validation and the heading.

    name      column name, with its unit where it has one (`width_mm`)
    low, high bounds of a number, inclusive, in `unit`; of rows a calculation takes, how many there may be
    to        kind a link points to, or ANY
    columns   the fields of one row, for ROWS
    group     heading it stands under in a form
    read_by   the questions that read it (see findings/questions.py); none: it is for the reader only
    ordinary  values that are tried where nothing is entered, the least favourable first: a question that comes
              to one answer with all of them needs no entry. None: what is not entered is not known
    listed    whether it is a column where items of its kind stand in a list
    foremost  whether the phone's page of an item shows it before all else
    wanted    when a record lacks it while it is empty: ALWAYS, ONCE_FITTED, or "" for never
    lack      how a gap calls it; "" for its label
    copied    whether another item made like this one takes it over
    separate  of a fixing: whether a fitting's sheet says it of each one, and not once for all that are made alike
    ticked    whether it is asked for when a planned item is ticked off as fitted
    personal  whether it tells who somebody is: it stands apart from the ledger, so that it can be taken out
    of_sorts  the words of its kind's sort it is asked for; (): whatever the sort

    What a field goes through in its life (the guide in DEVELOPERS.md has the steps):
    since            the version that began to ask for it: entries made before, and on older phones, do without
    renamed_from     names it had before; entries that use them are about it
    retired          the version since which it is no longer asked for; what it holds stays readable
    renamed_choices  pairs of a word it had before and the one that says the same now
    retired_choices  words that are no longer offered; where they stand, they stay
    """

    name: str
    label: str
    type: Type = Type.LINE
    unit: str = ""
    low: float = -1e9
    high: float = 1e9
    choices: tuple[str, ...] = ()
    to: str = ""
    required: bool = False
    help: str = ""
    group: str = ""
    columns: tuple[Field, ...] = ()
    since: str = ""
    renamed_from: tuple[str, ...] = ()
    retired: str = ""
    renamed_choices: tuple[tuple[str, str], ...] = ()
    retired_choices: tuple[str, ...] = ()
    read_by: tuple[str, ...] = ()
    ordinary: tuple[Any, ...] = ()
    listed: bool = False
    foremost: bool = False
    wanted: str = ""
    lack: str = ""
    copied: bool = True
    separate: bool = False
    ticked: bool = False
    personal: bool = False
    of_sorts: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if self.retired:  # what is not asked for cannot be demanded, nor is it spread
            never = {"required": False, "wanted": "", "ticked": False, "copied": False, "listed": False}
            for name, value in never.items():
                object.__setattr__(self, name, value)

    @property
    def words(self) -> tuple[str, ...]:
        """Every word it may hold, those no longer offered included."""
        return self.choices + self.retired_choices

    @property
    def can_wait(self) -> bool:
        """Whether nobody needs it before the thing is up: it is for the reader alone, or known only then."""
        if self.required or self.name in ("mark", "reference"):
            return False
        only_up = self.wanted == ONCE_FITTED or (self.ticked and not self.copied)
        return only_up or not (self.read_by or self.wanted or self.foremost or self.listed)

    @property
    def shown_label(self) -> str:
        """Label as it stands beside a value: one that is no longer asked for says so."""
        return f"{self.label} (no longer asked)" if self.retired else self.label

    @cached_property
    def tried(self) -> tuple[Any, ...]:
        """What it may ordinarily be where nothing is entered; empty where that is not known."""
        if self.ordinary:
            return self.ordinary
        return {Type.YES_NO: (1, 0), Type.CHOICE: self.choices}.get(self.type, ())

    @property
    def heading(self) -> str:
        """Label with its unit, as a form or a table head shows it."""
        return f"{self.label} ({self.unit})" if self.unit else self.label
