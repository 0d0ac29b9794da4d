"""The packers behind each fitting of a face: what its surface calls for, beside what is entered."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..book.site import Item, Site
from ..checks import packers, surface
from ..errors import FieldbookError
from ..model.choices import PLANNED
from .geometry import place_of

SOURCE = f"{surface.SOURCE}. {packers.SOURCE}"
PLANE = "plumb"
AGREE_MM = 1.0  # what packers may differ by and still be those called for: common practice, no source


@dataclass(frozen=True)
class Packed:
    """One fixing: how proud the face is there, the packer it calls for, and what that is made of from the box, mm."""

    fixing: Item
    proud_mm: float
    packer_mm: float
    made_of: tuple[float, ...]

    @property
    def difference_mm(self) -> float | None:
        """What is entered less what is called for; None where nothing is entered."""
        return None if self.fixing.packers_mm is None else self.fixing.packers_mm - self.packer_mm


@dataclass(frozen=True)
class Packing:
    """One fitting: its fixings, how far the box leaves it off the plane, or why that cannot be said."""

    fitting: Item
    packed: tuple[Packed, ...]
    out_of_plane_mm: float
    refusal: FieldbookError | None = None

    @property
    def to_take_over(self) -> tuple[Packed, ...]:
        """The planned ones without packers; none where those entered are others than the face calls for."""
        own = [row.difference_mm for row in self.packed if row.difference_mm is not None]
        if any(abs(difference) > AGREE_MM for difference in own):
            return ()
        return tuple(row for row in self.packed if row.difference_mm is None and row.fixing.state == PLANNED)


def packing_on(site: Site, face: Item, stock_mm: Sequence[float] = ()) -> list[Packing]:
    """Every fitting that is fixed to a face in more than one place, packed so that it is plumb and stands out least.

    stock_mm  thicknesses in the box; empty: packers of any thickness
    Raises what `packers.from_box` raises for the thicknesses.
    """
    if stock_mm:
        packers.from_box([(0, 0, 0)], PLANE, stock_mm)
    fixings = {fitting.id: _on(site, face, fitting) for fitting in site.of(face, "fitting") if fitting.stands}
    return [_packing(site[fitting], face, fixed, stock_mm) for fitting, fixed in fixings.items() if len(fixed) > 1]


def packing_of(site: Site, face: Item, fitting: Item, stock_mm: Sequence[float] = ()) -> Packing:
    """One fitting, packed so that it is plumb and stands out least."""
    return _packing(fitting, face, _on(site, face, fitting), stock_mm)


def _on(site: Site, face: Item, fitting: Item) -> list[Item]:
    """The fixings that bear on the face itself, not on another fitting."""
    own = [fixing for fixing in site.of(fitting, "fixing") if fixing.face == face.id and fixing.stands]
    return [fixing for fixing in own if fixing.fabric != "another fitting"]


def _packing(fitting: Item, face: Item, fixings: Sequence[Item], stock_mm: Sequence[float]) -> Packing:
    try:
        proud = [surface.proud_mm(face.surface or [], *place_of(fixing)) for fixing in fixings]
        points = [(*place_of(fixing), out) for fixing, out in zip(fixings, proud, strict=True)]
        if stock_mm:
            made_of, off = packers.from_box(points, PLANE, stock_mm)
            thick = [sum(pieces) for pieces in made_of]
        else:
            thick, off = packers.packers_mm(points, PLANE), 0.0
            made_of = [[] for _ in thick]
    except FieldbookError as error:
        return Packing(fitting, (), 0.0, error)
    rows = zip(fixings, proud, thick, map(tuple, made_of), strict=True)
    return Packing(fitting, tuple(Packed(*row) for row in rows), off)
