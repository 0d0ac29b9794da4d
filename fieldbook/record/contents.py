"""What a record holds: plain values, gathered once, from which every output is a rendering.

Items are as the book holds them; everything reckoned or sorted out for the record stands beside them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..book.site import Item
from ..book.wording import Titles
from ..checks.cautions import Caution
from ..checks.verdict import Word
from ..drawing.swatch import Swatch
from .answers import AnswerRow
from .editions import Change, Edition
from .gaps import Gap
from .removal import Removal


@dataclass(frozen=True)
class FaceSheet:
    """One face: its drawing (SVG, at a scale that fits the paper), its bow where that was read, and what is agreed.

    wide         whether the drawing wants the paper's long side
    room_beside  whether it leaves room above it for a photograph of the datum
    """

    face: Item
    drawing: str
    bow: str
    wide: bool
    room_beside: bool
    zones: tuple[Item, ...]
    limits: tuple[Item, ...]
    holds: tuple[Item, ...]
    members: tuple[Item, ...]
    patches: tuple[Item, ...]
    fittings: tuple[Item, ...]


@dataclass(frozen=True)
class ReadingSummary:
    """All readings of one quantity at one place (the room, or a face of it).

    latest  the newest of them; `first` the oldest
    """

    quantity: str
    unit: str
    where: str
    number: int
    lowest: float
    highest: float
    first: Item
    latest: Item
    instruments: tuple[str, ...]


@dataclass(frozen=True)
class RoomSheet:
    """One room; `plan` is SVG, empty when no outline was surveyed; `answers` are about all in it that is no fitting."""

    room: Item
    plan: str
    plots: tuple[str, ...]
    faces: tuple[FaceSheet, ...]
    readings: tuple[ReadingSummary, ...]
    logs: tuple[Item, ...]
    observations: tuple[Item, ...]
    answers: tuple[AnswerRow, ...]
    cautions: tuple[Caution, ...]


@dataclass(frozen=True)
class Takedown:
    """How some fixings of a fitting come off or, where they are `down`, came off; told once for all that are alike."""

    marks: str
    down: bool
    tool: str
    removal: str
    make_good: str
    trace: str
    consent: str


@dataclass(frozen=True)
class Make:
    """How some fixings of a fitting are made: `fixing` is one of them, and speaks for all of these marks."""

    marks: str
    fixing: Item


@dataclass(frozen=True)
class FittingSheet:
    """One fitting with its fixings, and all that was found about them, worst first.

    detail      SVG of it on its face; `load_path` from its weight to the fabric, "" where that is not known
    answers     what was found about it and its fixings, worst first
    projection  mm, with all tolerances; None when no build-up is entered
    trace       the worst of its fixings' traces; None without fixings
    """

    fitting: Item
    room: Item
    face: Item
    detail: str
    load_path: str
    projection_mm: float | None
    fixings: tuple[Item, ...]
    makes: tuple[Make, ...]
    takedowns: tuple[Takedown, ...]
    answers: tuple[AnswerRow, ...]
    cautions: tuple[Caution, ...]
    engineer: bool
    carries: tuple[Item, ...]
    covered_by: tuple[Item, ...]
    finishes: tuple[Item, ...]
    tasks: tuple[Item, ...]
    agreements: tuple[Item, ...]
    trace: str | None


@dataclass(frozen=True)
class FinishCard:
    """One finish; `swatch` is None where no colour was measured. `used_on` are the fittings that wear it."""

    finish: Item
    swatch: Swatch | None
    used_on: tuple[Item, ...]


@dataclass(frozen=True)
class CautionNote:
    """One caution, and the marks of what it is about; `everywhere` when that is every fitting."""

    caution: Caution
    where: tuple[str, ...]
    everywhere: bool


@dataclass(frozen=True)
class TraceCount:
    """Fixings that leave one trace: how many in each state, and their marks."""

    trace: str
    states: Mapping[str, int]
    marks: tuple[str, ...]


@dataclass(frozen=True)
class Money:
    """Costs in one currency."""

    currency: str
    expected: float
    paid: float


@dataclass(frozen=True)
class Source:
    """Where a method comes from; findings refer to its number."""

    number: int
    what: str
    words: str


@dataclass(frozen=True)
class Record:
    """Everything one edition of a site's record says.

    answers      what is over, not known or close, worst first
    consent      how many things the keeper has agreed to, and which not, in words; "" where nothing was asked
    standing     id of an agreement -> what became of its yes; "" while it counts
    counts       how many findings have each word
    photographs  id of the sheet they stand on -> photographs, in order; "" for those that stand at the end
    numbers      id of a photograph -> its number in this record
    titles       id -> mark and name of an item, as a heading shows it; `called` the mark alone, where there is one
    costs        None unless money was asked for
    """

    edition: Edition
    newer: tuple[str, ...]
    previous: Edition | None
    program: str
    site: Item
    fittings: Mapping[str, int]
    fixings: Mapping[str, int]
    traces: tuple[TraceCount, ...]
    consent: str
    answers: tuple[AnswerRow, ...]
    counts: Mapping[Word, int]
    cautions: tuple[CautionNote, ...]
    rooms: tuple[RoomSheet, ...]
    sheets: tuple[FittingSheet, ...]
    finishes: tuple[FinishCard, ...]
    tasks: tuple[Item, ...]
    removal: Removal
    agreements: tuple[Item, ...]
    standing: Mapping[str, str]
    decisions: tuple[Item, ...]
    visits: tuple[Item, ...]
    costs: tuple[Item, ...] | None
    money: tuple[Money, ...]
    changes: tuple[Change, ...]
    gaps: tuple[Gap, ...]
    sources: tuple[Source, ...]
    key: str
    materials: tuple[Item, ...]
    glossary: tuple[tuple[str, str], ...]
    photographs: Mapping[str, tuple[Item, ...]]
    numbers: Mapping[str, int]
    titles: Titles
    called: Titles

    @property
    def pages_expected(self) -> int:
        """About how many pages it will fill, for the progress shown while they are set."""
        faces = sum(len(room.faces) for room in self.rooms)
        return 14 + 2 * (len(self.rooms) + faces + len(self.sheets)) + sum(self.fixings.values()) // 20

    def source_number(self, words: str) -> int | None:
        """The number a source is listed under."""
        return next((source.number for source in self.sources if source.words == words), None)
