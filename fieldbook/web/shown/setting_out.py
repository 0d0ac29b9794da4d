"""What is set out on a face: packers from its surface readings, and marks for a level line from its floor."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from ...book.site import Item, Site
from ...checks.level import marks_mm
from ...errors import FieldbookError, NotANumber, UnsuitableShape
from ...findings.geometry import floor_of
from ...findings.packing import Packing, packing_on
from ...findings.remeasured import Remeasured, remeasured
from ...model.fields import Field, Type
from ...model.figures import lengths_in
from ...model.typed import from_text
from ...model.values import accept

STOCK = Field("stock_mm", "Thicknesses in the box", unit="mm", help="with spaces between: 0.5 1 2 5; empty for any")
LINE = Field("line_mm", "Level line above the datum", Type.NUMBER, unit="mm", low=0, high=20_000)
MEASURE = Field("measure", "One new measure", unit="mm", help="x z proud: what it would change is shown below")
USUAL_LINE = "1000"


@dataclass
class SettingOut:
    """Packers of each fitting; (x, floor, mark above the floor) of the level line; what a new measure changes.

    typed   what stands in the inputs, by their names
    errors  what is to be mended in them, likewise
    """

    typed: Mapping[str, str]
    packing: Sequence[Packing] = ()
    marks: Sequence[tuple[float, float, float]] = ()
    errors: dict[str, FieldbookError] = field(default_factory=dict)
    changes: Sequence[Remeasured] = ()
    asked: tuple[Field, Field, Field] = (STOCK, LINE, MEASURE)


def setting_out(site: Site, face: Item, address: Mapping[str, str]) -> SettingOut:
    """What is set out on a face, with what the address gives for it."""
    out = SettingOut({field.name: address.get(field.name, "") for field in (STOCK, MEASURE)} | _line(address))
    if face.surface:
        try:
            out.packing = packing_on(site, face, thicknesses(out.typed[STOCK.name]))
        except FieldbookError as error:
            out.errors[STOCK.name] = error
    if face.floor:
        try:
            out.marks = _marks(face, accept(LINE, from_text(LINE, out.typed[LINE.name] or USUAL_LINE)))
        except FieldbookError as error:
            out.errors[LINE.name] = error
    if typed := out.typed[MEASURE.name].strip():
        try:
            out.changes = remeasured(site, face, measure_from(typed), date.today())
        except FieldbookError as error:
            out.errors[MEASURE.name] = error
    return out


def _line(address: Mapping[str, str]) -> dict[str, str]:
    return {LINE.name: address.get(LINE.name, USUAL_LINE)}


def measure_from(text: str) -> list[float]:
    """x, z and proud; raises NotANumber, and UnsuitableShape for more or fewer figures."""
    figures = thicknesses(text, MEASURE)
    if len(figures) != 3:
        reason = f"{MEASURE.label} has {len(figures)} figures."
        raise UnsuitableShape(reason, "Give x, z and proud with spaces between.", field=MEASURE.name, value=text)
    return figures


def thicknesses(text: str, asked: Field = STOCK) -> list[float]:
    """Figures with spaces or semicolons between them; raises NotANumber."""
    found = lengths_in(text)
    for one in found:
        if isinstance(one, str):
            reason = f"{asked.label}: “{one[:40]}” is not a number."
            raise NotANumber(reason, "Give figures with spaces between them.", field=asked.name, value=text)
    return [float(one) for one in found]


def _marks(face: Item, line_mm: float) -> list[tuple[float, float, float]]:
    floor = floor_of(face)
    marks = marks_mm({str(place): z for place, (_, z) in enumerate(floor)}, line_mm)
    return [(x, z, marks[str(place)]) for place, (x, z) in enumerate(floor)]
