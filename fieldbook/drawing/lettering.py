"""Letters on a drawing: each finds its place by `placing`, lies on top, and interrupts the lines it has to run over."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from shapely.geometry.base import BaseGeometry

from ..book.site import Item
from ..book.wording import marks
from ..checks.verdict import PLAINLY_FINE, Word
from ..model.order import counting
from . import drafting as d
from . import placing
from .placing import Placed, Plan
from .signs import verdict_mark

SIGN_MM = 1.05  # radius of a verdict's sign beside letters
SIGN_ROOM_MM = 2 * SIGN_MM + 0.8
MOST_LINES = 3


def of_item(item: Item, *children: str, interactive: bool, again: bool = False) -> d.Drawn:
    """What is drawn for an item, marked as its own; on an interactive drawing it leads to the item's page.

    again  for what is drawn elsewhere than the rest of the item: it need not be reached by the keyboard twice
    """
    if not interactive:
        return d.group(*children, data_item=item.id, data_kind=item.kind)
    hidden = {"tabindex": -1, "aria_hidden": "true"} if again else {}
    name = [] if again else [d.element("title", f"{item.kind} {item.title}")]
    return d.element("a", *name, *children, href=f"/item/{item.id}", data_item=item.id, data_kind=item.kind, **hidden)


@dataclass(frozen=True)
class Letters:
    """What to write and how; `word` is the verdict whose sign and word go with it, unless it is within."""

    lines: tuple[str, ...]
    height: float = d.FIGURE
    ink: str = d.BLACK
    bold: bool = False
    word: Word | None = None

    @property
    def size(self) -> d.Point:
        """Width and height of the box they need."""
        width, height = placing.size_of(self.lines, self.height, bold=self.bold)
        return width + (SIGN_ROOM_MM if self.word else 0), height


def letters(
    text: str, height: float = d.FIGURE, ink: str = d.BLACK, *, bold: bool = False, word: Word | None = None
) -> Letters:
    """Words in one line, with a verdict's word at the end unless it is within."""
    shown = word if word not in PLAINLY_FINE else None
    return Letters((f"{text} {shown}" if shown else text,), height, ink, bold, shown)


class Lettering:
    """All letters of one drawing."""

    def __init__(self, plan: Plan, *, interactive: bool):
        self.plan, self.interactive = plan, interactive
        self._unlettered: dict[str, list[str]] = defaultdict(list)  # what was to stand behind a mark -> the marks
        self._written: list[tuple[Item | None, Letters, Placed]] = []

    def beside(self, item: Item | None, words: Letters, at: d.Point, reach: float) -> None:
        """Write next to a symbol, `reach` from the point to its edge; or keep the words as unlettered."""
        self._write(item, [words], [at], reach, None)

    def within(
        self,
        item: Item | None,
        words: Letters,
        at: Sequence[d.Point],
        area: BaseGeometry,
        around: placing.Box | None = None,
    ) -> None:
        """Write in an area or along a box round it, folded where that serves; or led to from one of its points."""
        self._write(item, list(_forms(words)), at, 0.6, (area, around or area.bounds))

    @property
    def left_out(self) -> list[str]:
        """A note of what there was no room for, what is said of several once; no note where all is lettered."""
        said = [f"{marks(sorted(names, key=counting))}{words}" for words, names in self._unlettered.items()]
        return [f"No room on the drawing to letter: {'; '.join(said)}."] if said else []

    @property
    def lowest_mm(self) -> float:
        """Paper y of the lowest letters written so far; 0 where there are none."""
        return max((placed.box[3] for _, _, placed in self._written), default=0.0)

    def drawn(self) -> list[d.Drawn]:
        """All letters, once every line is known: those that run over one lie on a piece of paper."""
        return [self._drawn(*written) for written in self._written]

    def _write(
        self, item: Item | None, forms: list[Letters], at: Sequence[d.Point], reach: float, area: placing.Area | None
    ) -> None:
        best, chosen = placing.NOWHERE, forms[0]
        for fault, form in enumerate(forms):
            if best[0] <= fault:
                break
            cost, placed = self.plan.find(form.size, at, reach, area)
            if cost + fault < best[0]:
                best, chosen = (cost + fault, placed), form
        if (placed := best[1]) is None:
            text, called = " ".join(chosen.lines), item.called if item else ""
            mark = called if text.startswith(called) and called else text
            self._unlettered[text.removeprefix(mark)].append(mark)
            return
        self.plan.settle(placed)
        self._written.append((item, chosen, placed))

    def _drawn(self, item: Item | None, words: Letters, placed: Placed) -> d.Drawn:
        runs_over = self.plan.runs_over_lines(placed.box)
        paper = [d.filled(d.rectangle_of(placed.box), d.PAPER)] if runs_over else []
        drawn = [*paper, *_drawn(words, placed)]
        return of_item(item, *drawn, interactive=self.interactive, again=True) if item else d.group(*drawn)


def _drawn(words: Letters, placed: Placed) -> Iterator[d.Drawn]:
    bases = placing.bases_of(placed.box, words.height, len(words.lines))
    indent = SIGN_ROOM_MM if words.word else 0
    for line, (x, y) in zip(words.lines, bases, strict=True):
        yield d.letters(line, (x + indent, y), words.height, ink=words.ink, bold=words.bold)
    if words.word:
        x, y = bases[0]
        yield verdict_mark(words.word, (x + SIGN_MM + 0.2, y - words.height / 2), SIGN_MM)
    if placed.leader:
        yield d.stroke(d.through(placed.leader))


def _forms(words: Letters) -> Iterator[Letters]:
    """The ways to write words, the best first: in one line, in two or three."""
    text = " ".join(words.lines)
    forms = {}
    for count in range(1, MOST_LINES + 1):
        lines = tuple(d.wrapped(text, words.height, d.width_of(text, words.height) / count * 1.25 + 1))
        if " ".join(lines) == text:  # no word is broken
            forms[lines] = replace(words, lines=lines)
    yield from forms.values()
