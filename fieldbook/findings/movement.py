"""Whether a part that damp or warmth moves has the room for it."""

from __future__ import annotations

from ..book.site import Item
from ..checks import materials, moisture, movement
from ..checks.humidity_record import moisture_range
from ..checks.range_seen import Seen
from ..errors import OutOfRange
from . import logs, readings
from .asking import LESS, MORE, NEITHER, Asked, Question
from .finding import Outcome
from .geometry import known_materials
from .verdicts import does_not_apply

NOTHING_MOVES = "Nothing in it is moved by damp or warmth, as entered."
BY_WARMTH = {"metal", "plastic", "glass"}


def moving(asked: Asked, fitting: Item) -> Outcome:
    """What the moving part changes in its room through the year, held against what its gap or slot allows."""
    if fitting.moving_part is None and not asked.need(fitting, "moves"):
        return does_not_apply("movement", NOTHING_MOVES)
    part, size = asked.need(fitting, "moving_part"), asked.need(fitting, "moving_mm")
    material = known_materials(asked.site).lookup(part, "moving_part")
    room = asked.site[asked.site[fitting.face].room]
    warmth = readings.seen(asked, room, "air temperature")
    if material.group in BY_WARMTH:
        figure = material.figure("thermal_per_c", field="moving_part")
        change = movement.with_warmth(size, figure.value, warmth.low, warmth.high)
        working: tuple[tuple[str, str], ...] = (("coldest", f"{warmth.low:g} °C"), ("warmest", f"{warmth.high:g} °C"))
        rests_on = warmth.rests_on
    else:
        change, figure, working, rests_on = _with_damp(asked, fitting, room, material, size, warmth)
    allowed = asked.need(fitting, "movement_allowed_mm", abs(change), "mm")
    verdict = movement.movement_verdict(change, allowed, figure.cited(), working)
    return Outcome(
        verdict,
        against=room,
        assumed=(f"The year to come is no drier, damper, colder or warmer than what was seen: {rests_on}.",),
    )


def _with_damp(
    asked: Asked, fitting: Item, room: Item, material: materials.Material, size: float, warmth: Seen
) -> tuple[float, materials.Figure, tuple[tuple[str, str], ...], str]:
    damp = readings.seen(asked, room, "relative humidity")
    low, high = moisture_span(asked, room, damp, (warmth.low + warmth.high) / 2)
    sheet = material.group == "sheet"
    wanted = "in_plane_per_pct" if sheet else f"{asked.need(fitting, 'grain')}_per_pct"
    figure = material.figure(wanted, field="moving_part")
    least, most = movement.MOISTURE_PCT
    covered = max(low, least), min(high, most)
    change = movement.with_moisture(size, figure.value, *covered) if covered[0] <= covered[1] else 0.0
    working: tuple[tuple[str, str], ...] = (
        ("wood at its driest", f"{low:.1f} % moisture content"),
        ("wood at its dampest", f"{high:.1f} % moisture content"),
        ("movement", "in the plane of the sheet" if sheet else str(fitting.grain or "as tried")),
    )
    allowed = fitting.movement_allowed_mm
    if covered != (low, high) and not (allowed is not None and abs(change) > allowed):
        raise OutOfRange(
            f"Wood in {room.called} comes to {low:.1f} % to {high:.1f} % moisture content; "
            f"the coefficients hold from {least:g} to {most:g} %.",
            "Allow for more than they would say, or ask a timber adviser.",
            field="moisture content",
            value=high,
        )
    return change, figure, working, damp.rests_on


def moisture_span(asked: Asked, room: Item, damp: Seen, middle_c: float) -> tuple[float, float]:
    """Least and greatest moisture content that wood comes to in a room, %.

    By the days of its loggers and by its readings, whichever lie further apart. Raises what the moisture check raises.
    """
    spans = [moisture_range(logs.days_come(asked, log), middle_c) for log in asked.site.of(room, "log")]
    spot = readings.of(asked, room, "relative humidity")
    if spot or not spans:
        low, high = (damp.low, damp.high) if not spans else readings.spot_range(spot)
        spans.append((moisture.equilibrium(middle_c, low), moisture.equilibrium(middle_c, high)))
    return min(low for low, _ in spans), max(high for _, high in spans)


QUESTIONS = (
    Question(
        "movement",
        "fitting",
        "Has what damp or warmth moves the room for it?",
        moving,
        {
            **readings.READS,
            "fitting.moves": NEITHER,
            "fitting.moving_part": NEITHER,
            "fitting.moving_mm": MORE,
            "fitting.grain": NEITHER,
            "fitting.movement_allowed_mm": LESS,
            "material.group": NEITHER,
            "material.radial_per_pct": MORE,
            "material.tangential_per_pct": MORE,
            "material.in_plane_per_pct": MORE,
            "material.thermal_per_c": MORE,
        },
    ),
)
