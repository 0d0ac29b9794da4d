"""The sheet a face is drawn on: its scale, where the face lies on the paper, and lettering that finds its place."""

from __future__ import annotations

from dataclasses import dataclass, field

from shapely.geometry.base import BaseGeometry

from ..checks.clearance import Stretch
from ..checks.verdict import Word
from ..gather import Item
from . import drafting as d
from . import placing
from .placing import Box, Plan
from .signs import verdict_mark

SIGN_MM = 1.05  # radius of a verdict's sign beside letters


@dataclass
class Sheet:
    """A face on paper.

    scale      1:scale; left_mm, top_mm where the face's upper left corner lies on the paper
    part       the part of the face's plane that is drawn; top of it at top_mm
    plan       what letters keep clear of; unlettered  marks there was no room for
    """

    scale: int
    left_mm: float
    top_mm: float
    part: Stretch
    plan: Plan
    interactive: bool = False
    unlettered: list[str] = field(default_factory=list)

    def x(self, x_mm: float) -> float:
        """Paper x of a face x."""
        return self.left_mm + (x_mm - self.part.x_from) / self.scale

    def y(self, z_mm: float) -> float:
        """Paper y of a face z."""
        return self.top_mm + (self.part.z_to - z_mm) / self.scale

    def at(self, x_mm: float, z_mm: float) -> d.Point:
        """Paper point of a point of the face."""
        return self.x(x_mm), self.y(z_mm)

    def box(self, stretch: Stretch) -> Box:
        """Paper box of a stretch of the face, cut to what is drawn."""
        return (
            self.x(max(stretch.x_from, self.part.x_from)),
            self.y(min(stretch.z_to, self.part.z_to)),
            self.x(min(stretch.x_to, self.part.x_to)),
            self.y(max(stretch.z_from, self.part.z_from)),
        )

    @property
    def right_mm(self) -> float:
        """Paper x of the face's right edge."""
        return self.x(self.part.x_to)

    @property
    def bottom_mm(self) -> float:
        """Paper y of the lowest z drawn."""
        return self.y(self.part.z_from)

    def letter(
        self,
        words: str,
        at: d.Point,
        reach: float,
        height: float = d.FIGURE,
        *,
        ink: str = d.BLACK,
        word: Word | None = None,
        area: BaseGeometry | None = None,
        bold: bool = False,
    ) -> list[d.Drawn]:
        """Words in or along an area, or beside a point, with a verdict's sign and word unless it is within.

        Where there is no room nothing is drawn, and the words are kept in `unlettered`.
        """
        if shown := word is not None and word is not Word.WITHIN:
            words = f"{words} {word}"
        sign_room = 2 * SIGN_MM + 0.8 if shown else 0.0
        size = placing.size_of(words, height, bold=bold)
        size = (size[0] + sign_room, size[1])
        placed = self.plan.place(size, at, reach, area)
        if placed is None:
            self.unlettered.append(words)
            return []
        base = placing.base_of(placed.box, height)
        drawn = [d.letters(words, (base[0] + sign_room, base[1]), height, ink=ink, bold=bold)]
        if shown:
            drawn.append(verdict_mark(word, (base[0] + SIGN_MM + 0.2, base[1] - height / 2), SIGN_MM))
        if placed.leader:
            drawn.append(d.stroke(d.through(placed.leader)))
        return drawn

    def item(self, item: Item, *children: d.Drawn) -> d.Drawn:
        """What is drawn for an item, marked as its own; on an interactive sheet it leads to the item's page."""
        if not self.interactive:
            return d.group(*children, data_item=item.id, data_kind=item.kind)
        name = d.element("title", f"{item.kind} {item.title}")
        return d.element("a", name, *children, href=f"/item/{item.id}", data_item=item.id, data_kind=item.kind)
