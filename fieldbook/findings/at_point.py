"""What may be done at a point of a face, and how deep something may stand there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from ..book.site import Item, Site
from ..checks.clearance import ClearDepth, Limit, Stretch, clear_depth
from ..checks.keep_off import SOURCE, disc_distance, keep_off_verdict
from ..checks.limits import rounded_down
from ..checks.verdict import Verdict, Word, not_known_because
from ..errors import FieldbookError, OutsideTheFace, Refused
from ..model.choices import FORBIDDEN
from ..model.fields import Field, Type, accept
from ..model.typed import from_text
from . import WORST_FIRST, geometry

ASKED = (
    Field("x_mm", "x", Type.NUMBER, unit="mm", low=-100_000, high=100_000, required=True),
    Field("z_mm", "z", Type.NUMBER, unit="mm", low=-100_000, high=100_000, required=True),
    Field("radius_mm", "Radius of what touches", Type.NUMBER, unit="mm", low=0, high=2_000),
)
FREE = "No zone on this face forbids it here. That is no consent: ask the keeper."


@dataclass(frozen=True)
class Act:
    """One thing one may want to do; `zone` is what decides, None where no zone forbids it."""

    act: str
    verdict: Verdict
    zone: Item | None


@dataclass(frozen=True)
class PointAnswer:
    """The answer for one point; `clear_mm` None where nothing limits the depth, `refusal` where that cannot be said."""

    x_mm: float
    z_mm: float
    radius_mm: float
    acts: tuple[Act, ...]
    clear_mm: float | None
    limited_by: Limit | None
    refusal: FieldbookError | None

    def as_dict(self) -> dict[str, Any]:
        """The same as plain values, for JSON."""
        return {
            "x_mm": self.x_mm,
            "z_mm": self.z_mm,
            "radius_mm": self.radius_mm,
            "acts": [
                {
                    "act": act.act,
                    "verdict": act.verdict.word,
                    "zone": act.zone and act.zone.id,
                    "sentence": act.verdict.sentence,
                }
                for act in self.acts
            ],
            "clear_mm": self.clear_mm,
            "limited_by": self.limited_by and {"id": self.limited_by.id, "name": self.limited_by.name},
            "refusal": self.refusal and self.refusal.as_dict(),
        }


def asked_in(address: Mapping[str, str]) -> tuple[float, float, float]:
    """x, z and radius as typed; raises Refused with all findings."""
    values, findings = [], []
    for field in ASKED:
        try:
            values.append(accept(field, from_text(field, address.get(field.name, ""))))
        except FieldbookError as error:
            findings.append(error)
    if findings:
        raise Refused(findings)
    return values[0], values[1], values[2] or 0.0


def answer(site: Site, face: Item, x_mm: float, z_mm: float, radius_mm: float = 0.0) -> PointAnswer:
    """What zones and limits say about a round footprint at a point.

    Raises Refused when the point lies off the face.
    """
    _on_the_face(face, x_mm, z_mm)
    acts = tuple(_act(site, face, act, (x_mm, z_mm), radius_mm) for act in FORBIDDEN)
    try:
        clear, refusal = (
            clear_depth(geometry.limits_of(site, face), Stretch(x_mm, x_mm, z_mm, z_mm).widened(radius_mm)),
            None,
        )
    except FieldbookError as error:
        clear, refusal = ClearDepth(None, None), error
    depth = None if clear.depth_mm is None else rounded_down(clear.depth_mm)
    return PointAnswer(x_mm, z_mm, radius_mm, acts, depth, clear.limited_by, refusal)


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


def _act(site: Site, face: Item, act: str, point_mm: tuple[float, float], radius_mm: float) -> Act:
    held = [(zone, _verdict(zone, point_mm, radius_mm)) for zone in site.of(face, "zone") if act in zone.forbids]
    if not held:
        return Act(act, Verdict("keep-off", Word.WITHIN, None, None, None, "mm", FREE, SOURCE), None)
    zone, verdict = min(held, key=lambda pair: (WORST_FIRST.index(pair[1].word), pair[1].margin or 0))
    return Act(act, verdict, zone)


def _verdict(zone: Item, point_mm: tuple[float, float], radius_mm: float) -> Verdict:
    try:
        return keep_off_verdict(
            zone.called, disc_distance(geometry.zone_outline(zone), point_mm, radius_mm), zone.margin_mm
        )
    except FieldbookError as error:
        return not_known_because("keep-off", error, SOURCE, "mm")
