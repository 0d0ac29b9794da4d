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
from ..drawing.before_after import BeforeAfter
from ..drawing.swatch import Swatch
from ..model.choices import FITTED, TAKEN_DOWN
from .answers import AnswerRow
from .care import Care
from .coming_off import ComingOff, Takedown
from .editions import Change, Edition
from .first_pages import FirstOff, MayCarry, OpenMatter
from .gaps import Gap
from .removal import Removal
from .touched import RoomTouch


@dataclass(frozen=True)
class FaceSheet:
    """One face: its drawing (SVG, `width_mm` wide on paper), its bow where that was read, and what is agreed.

    under  the photograph that lies faintly under the drawing
    pair   its first and its last photograph that measure, in the part both show
    """

    face: Item
    width_mm: float
    drawing: str
    under: Item | None
    pair: BeforeAfter | None
    bow: str
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
class Make:
    """How some fixings of a fitting are made: `fixing` is one of them, and speaks for all of these."""

    marks: str
    fixing: Item
    fixings: tuple[Item, ...]


@dataclass(frozen=True)
class FittingSheet:
    """One fitting with its fixings, and all that was found about them, worst first.

    wide        whether its drawing takes the whole width of a page
    detail      SVG of it on its face; `load_path` from its weight to the fabric, "" where that is not known
    off         how it comes off
    answers     what was found about it and its fixings, worst first; `open_answers` only what is not plainly fine
    projection  mm, with all tolerances; None when no build-up is entered
    drifts      what was measured again, and how far it has changed
    trace       the worst of its fixings' traces; None without fixings
    """

    fitting: Item
    room: Item
    face: Item
    wide: bool
    detail: str
    load_path: str
    projection_mm: float | None
    fixings: tuple[Item, ...]
    makes: tuple[Make, ...]
    takedowns: tuple[Takedown, ...]
    off: ComingOff
    answers: tuple[AnswerRow, ...]
    open_answers: tuple[AnswerRow, ...]
    cautions: tuple[Caution, ...]
    engineer: bool
    carries: tuple[Item, ...]
    covered_by: tuple[Item, ...]
    finishes: tuple[Item, ...]
    tasks: tuple[Item, ...]
    agreements: tuple[Item, ...]
    observations: tuple[Item, ...]
    drifts: tuple[str, ...]
    trace: str | None


@dataclass(frozen=True)
class FinishCard:
    """One finish; `swatch` is None where no colour was measured. `used_on` are the fittings that wear it; `became`
    what was measured again, with how far it is from the card.
    """

    finish: Item
    swatch: Swatch | None
    used_on: tuple[Item, ...]
    became: tuple[tuple[Item, str], ...]


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

    open_matters what stops or is not known, thing by thing
    may_carry    what may be put on what is up, and where it may be set
    first_off    what comes off first in a hurry
    is_issued    whether this is an edition, of which the book keeps a note
    care         what falls due in the twelve months from the edition on; `works` what was done
    touched      what touches the fabric, room by room and in all
    site_answers what was found about the site and what is of no room, such as a finish
    common_answers what is plainly fine without a figure, once for all
    consent      how many things the keeper has agreed to, and which not, in words; "" where nothing was asked
    standing     id of an agreement -> what became of its yes; "" while it counts
    counts       how many findings have each word
    key_plan     SVG of all rooms at one scale; "" where no outline was surveyed
    photographs  id of the sheet they stand on -> photographs, in order; "" for those that stand at the end
    numbers      id of a photograph -> its number in this record
    titles       id -> mark and name of an item, as a heading shows it; `called` the mark alone, where there is one
    costs        None unless money was asked for
    """

    edition: Edition
    is_issued: bool
    newer: tuple[str, ...]
    previous: Edition | None
    program: str
    site: Item
    fittings: Mapping[str, int]
    fixings: Mapping[str, int]
    traces: tuple[TraceCount, ...]
    consent: str
    open_matters: tuple[OpenMatter, ...]
    may_carry: tuple[MayCarry, ...]
    first_off: FirstOff
    care: Care
    touched: tuple[RoomTouch, ...]
    site_answers: tuple[AnswerRow, ...]
    common_answers: tuple[AnswerRow, ...]
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
    documents: tuple[Item, ...]
    citing: Mapping[str, str]
    resting: Mapping[str, str]
    visits: tuple[Item, ...]
    works: tuple[Item, ...]
    statements: tuple[Item, ...]
    costs: tuple[Item, ...] | None
    money: tuple[Money, ...]
    changes: tuple[Change, ...]
    gaps: tuple[Gap, ...]
    sources: tuple[Source, ...]
    key: str
    key_plan: str
    materials: tuple[Item, ...]
    build_ups: tuple[Item, ...]
    glossary: tuple[tuple[str, str], ...]
    photographs: Mapping[str, tuple[Item, ...]]
    numbers: Mapping[str, int]
    pointers: Mapping[str, tuple[Item, ...]]
    titles: Titles
    called: Titles

    @property
    def pages_expected(self) -> int:
        """About how many pages it will fill, for the progress shown while they are set."""
        faces = sum(len(room.faces) for room in self.rooms)
        return 14 + len(self.rooms) + faces + 2 * len(self.sheets) + sum(self.fixings.values()) // 20

    @property
    def answers(self) -> tuple[AnswerRow, ...]:
        """Every row of findings: of rooms, of fittings, of the site, and of many things alike."""
        rooms = (answer for room in self.rooms for answer in room.answers)
        things = (answer for sheet in self.sheets for answer in sheet.answers)
        return (*rooms, *things, *self.site_answers, *self.common_answers)

    @property
    def for_an_engineer(self) -> tuple[FittingSheet, ...]:
        """What is up or planned and an engineer decides on, whatever the figures say."""
        return tuple(sheet for sheet in self.sheets if sheet.engineer and sheet.fitting.stands)

    @property
    def front(self) -> Item | None:
        """The photograph in front: of the site, or of the first room that has one."""
        own = self.photographs.get(self.site.id, ())
        return next(filter(None, (*own, *(self.glimpse(sheet.room) for sheet in self.rooms))), None)

    @property
    def up_minutes(self) -> float:
        """Minutes to take down what is up, of all whose time is entered."""
        return sum(step.fitting.minutes_to_remove or 0 for step in self.removal.steps if step.fitting.state == FITTED)

    @property
    def walls_as_found(self) -> tuple[tuple[Item, Item | None], ...]:
        """The faces that something stands on, each with its photograph as found, or its first; None without one."""
        faces = {sheet.face.id: sheet.face for sheet in self.sheets if sheet.fitting.state != TAKEN_DOWN}
        return tuple((face, self._as_found(face)) for face in faces.values())

    def _as_found(self, face: Item) -> Item | None:
        kept = self.photographs.get(face.id, ())
        own = sorted((one for one in kept if one.subject == face.id), key=lambda one: one.purpose != "as found")
        return own[0] if own else None

    def glimpse(self, room: Item) -> Item | None:
        """A photograph to know a room by: its own, or one of what is up in it."""
        homes = [room.id, *(sheet.fitting.id for sheet in self.sheets if sheet.room.id == room.id)]
        kept = [one for home in homes for one in self.photographs.get(home, ())]
        return kept[0] if kept else None

    def source_number(self, words: str) -> int | None:
        """The number a source is listed under."""
        return next((source.number for source in self.sources if source.words == words), None)
