"""May I, here? What may be done at a point of a face, act by act, and how deep something may stand there."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from ..book.book import NewerBook
from ..book.site import Item, Site
from ..checks.cautions import CAUTIONS, Caution
from ..checks.clearance import ClearDepth, Limit, Stretch, clear_depth
from ..checks.limits import rounded_down
from ..errors import FieldbookError, Missing, OutsideTheFace, Refused
from ..model.choices import FORBIDDEN
from ..model.fields import Field, Type
from ..model.terms import Term
from ..model.typed import from_text
from ..model.values import accept
from . import beyond, geometry
from .act_here import Act, act_at, deepest
from .clearance import heads_below
from .limits_here import limits_of, untold
from .zones_here import PlaceAsked

ASKED = (
    Field("x_mm", "x", Type.NUMBER, unit="mm", low=-100_000, high=100_000, required=True),
    Field("z_mm", "z", Type.NUMBER, unit="mm", low=-100_000, high=100_000, required=True),
    Field("radius_mm", Term.CONTACT_RADIUS, Type.NUMBER, unit="mm", low=0, high=2_000),
    Field("depth_mm", "Depth of a hole", Type.NUMBER, unit="mm", low=0, high=2_000),
)
ENTER = "Enter it, and ask again."
AT_THE_WALL = ("hidden services", "dust", "old lead paint", "asbestos", "electricity", "loads", "overhead work")


@dataclass(frozen=True)
class Answer:
    """The answer for one point.

    clear_mm  how far something may stand out; None where nothing limits it, `refusal` where that cannot be said
    depth_mm  how deep a hole may go by zones and agreements; None where none of them says
    cautions  what stands with every answer
    """

    x_mm: float
    z_mm: float
    radius_mm: float | None
    acts: tuple[Act, ...]
    clear_mm: float | None
    limited_by: Limit | None
    refusal: FieldbookError | None
    depth_mm: float | None
    cautions: tuple[Caution, ...]

    @property
    def alike(self) -> list[tuple[str, Act]]:
        """The acts, those that get one answer for one reason together: what they are called, and the first of them."""
        groups: dict[tuple[str, str, str | None], list[Act]] = {}
        for act in self.acts:
            groups.setdefault((act.answer, act.why, act.against.id if act.against else None), []).append(act)
        return [(", ".join(act.act for act in group), group[0]) for group in groups.values()]

    def as_dict(self) -> dict[str, Any]:
        """The same as plain values, for JSON."""
        acts = {act.act: {"answer": act.answer, "why": act.why, "nearest_mm": act.nearest_mm} for act in self.acts}
        limited = self.limited_by and {"id": self.limited_by.id, "name": self.limited_by.name}
        about = {"clear_mm": self.clear_mm, "depth_mm": self.depth_mm, "limited_by": limited}
        cautions = [caution.title for caution in self.cautions]
        return acts | about | {"refusal": self.refusal and self.refusal.as_dict(), "cautions": cautions}


def asked_in(address: Mapping[str, str]) -> tuple[float, float, float | None, float | None]:
    """x, z, radius and depth as typed; raises Refused with all findings."""
    values, findings = [], []
    for field in ASKED:
        try:
            values.append(accept(field, from_text(field, address.get(field.name, ""))))
        except FieldbookError as error:
            findings.append(error)
    if findings:
        raise Refused(findings)
    return values[0], values[1], values[2], values[3]


def answer(
    site: Site,
    face: Item,
    x_mm: float,
    z_mm: float,
    radius_mm: float | None,
    depth_mm: float | None = None,
    today: date | None = None,
) -> Answer:
    """What may be done by a round footprint at a point, and how deep something may stand there.

    radius_mm  None: not told, and then nothing is agreed, nor without anything against it
    Raises Refused when the point lies off the face.
    """
    _on_the_face(face, x_mm, z_mm)
    sized = radius_mm is not None
    place = PlaceAsked(site, face, (x_mm, z_mm), radius_mm or 0.0, depth_mm, today or date.today(), sized)
    acts = tuple(act_at(place, act) for act in FORBIDDEN)
    try:
        if site.beyond:  # a limit may be among what is not known here
            raise NewerBook(beyond.REASON, beyond.REMEDY)
        clear, refusal = clear_depth(limits_of(site, face), _part(place)), None
        told, blanks = untold(site, face, _part(place), math.inf)
        if blanks:
            raise Missing(told, ENTER, field=blanks[0].field)
        if heads := heads_below(site, face, _part(place), math.inf if clear.depth_mm is None else clear.depth_mm):
            raise Missing(heads.verdict.sentence, ENTER, field=(*heads.verdict.missing, "headroom_mm")[0])
    except FieldbookError as error:
        clear, refusal = ClearDepth(None, None), error
    out = None if clear.depth_mm is None else rounded_down(clear.depth_mm)
    cautions = tuple(CAUTIONS[key] for key in AT_THE_WALL)
    deep = deepest(place)
    return Answer(x_mm, z_mm, radius_mm, acts, out, clear.limited_by, refusal, deep, cautions)


def _part(place: PlaceAsked) -> Stretch:
    x, z = place.at
    return Stretch(x, x, z, z).widened(place.radius_mm)


def _on_the_face(face: Item, x_mm: float, z_mm: float) -> None:
    part = geometry.face_stretch(face)
    findings = [
        OutsideTheFace(
            f"{name[0]} is {value:g} mm; the face reaches from {low:g} to {high:g} mm.",
            "Choose a point on it.",
            field=name,
            value=value,
        )
        for name, value, low, high in (("x_mm", x_mm, part.x_from, part.x_to), ("z_mm", z_mm, part.z_from, part.z_to))
        if not low <= value <= high
    ]
    if findings:
        raise Refused(findings)
