"""The sheet a face is drawn on: its scale, and where the face lies on the paper."""

from __future__ import annotations

from ..book.site import Item
from ..checks.clearance import Stretch
from . import drafting as d
from .lettering import Lettering, of_item
from .placing import Box, Plan


class Sheet:
    """A face, or a room's plan, on paper.

    scale            1:scale
    left_mm, top_mm  where the upper left corner of what is drawn lies on the paper
    part             the part of the face's plane that is drawn; of a plan, z stands for its y
    plan, lettering  what letters keep clear of, and the letters
    """

    def __init__(self, scale: int, corner_mm: d.Point, part: Stretch, free_mm: Box, *, interactive: bool):
        self.scale, (self.left_mm, self.top_mm), self.part = scale, corner_mm, part
        self.interactive = interactive
        left, above, right, below = free_mm  # room for letters round what is drawn
        self.paper_right_mm = self.right_mm + right  # what lies farther right is cut off
        self.plan = Plan((self.left_mm - left, self.top_mm - above, self.right_mm + right, self.bottom_mm + below))
        self.lettering = Lettering(self.plan, interactive=interactive)

    def let_letters_below(self, kept_mm: float, room_mm: float) -> None:
        """Let letters stand below what is drawn, past a strip that is kept for the ground's strokes."""
        if room_mm > 0:
            left, _, right, _ = self.plan.sheet
            self.plan.take((left, self.bottom_mm, right, self.bottom_mm + kept_mm))
            self.plan.sheet = (*self.plan.sheet[:3], self.bottom_mm + kept_mm + room_mm)

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

    def item(self, item: Item, *children: d.Drawn) -> d.Drawn:
        """What is drawn for an item, marked as its own."""
        return of_item(item, *children, interactive=self.interactive)

    @property
    def facts(self) -> dict[str, float]:
        """Attributes of the root by which a point of the drawing is found on the face."""
        return {
            "data_scale": self.scale,
            "data_left_mm": float(self.part.x_from - self.left_mm * self.scale),
            "data_top_mm": float(self.part.z_to + self.top_mm * self.scale),
        }
