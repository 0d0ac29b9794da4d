"""What air and light of a room do to what hangs there."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta

from ..book.site import Item, Site
from ..checks import air, light, materials, moisture, movement
from ..checks.humidity_record import moisture_range
from ..checks.verdict import Verdict, Word, not_known_because
from ..errors import FieldbookError, Missing, OutOfRange
from . import logs
from .geometry import own_materials

Found = Iterator[tuple[Item, Item | None, Verdict]]
AT_THE_SAME_TIME = timedelta(hours=1)


def readings(site: Site, room: Item, quantity: str) -> list[Item]:
    """A room's readings of one quantity, in the order of time."""
    found = [reading for reading in site.of(room, "reading") if reading.quantity == quantity]
    return sorted(found, key=lambda reading: datetime.fromisoformat(reading.at))


def _span(site: Site, room: Item, quantity: str) -> tuple[float, float]:
    values = [reading.value for reading in readings(site, room, quantity)]
    if len(values) < 2:
        raise Missing(
            f"{room.called} has {len(values)} readings of its {quantity}.",
            "Take some through the year.",
            field=quantity,
        )
    return min(values), max(values)


def lit(site: Site) -> Found:
    """The light of each room whose sensitivity is entered, and how long each finish there lasts."""
    for room in site.all("room"):
        lux = max((reading.value for reading in readings(site, room, "illuminance")), default=None)
        if room.light_category and lux is not None:
            yield room, None, _light(room, lux)
        if lux is not None and room.light_hours is not None:
            for finish in _finishes_in(site, room):
                yield finish, room, _fading(finish, room, lux)


def _light(room: Item, lux: float) -> Verdict:
    try:
        if room.light_hours is None:
            raise Missing(f"The hours of light in {room.called} are not entered.", "Enter them.", field="light_hours")
        return light.light_verdict(lux, room.light_hours, room.light_category)
    except FieldbookError as error:
        return not_known_because("light", error, light.SOURCE, "lx·h")


def _finishes_in(site: Site, room: Item) -> list[Item]:
    used = {
        finish
        for face in site.of(room, "face")
        for fitting in site.of(face, "fitting")
        if fitting.stands
        for finish in fitting.finishes or []
    }
    return [finish for finish in site.all("finish") if finish.id in used]


def blue_wool(finish: Item) -> int:
    """A finish's lightfastness as a blue wool grade; raises Missing where it is not entered in that scale."""
    grade = (finish.lightfastness or "").strip()
    if finish.lightfastness_scale == "ISO Blue Wool 1 to 8" and grade.isdecimal():
        return int(grade)
    raise Missing(
        f"The blue wool grade of {finish.called} is not entered.", "Enter it with its scale.", field="lightfastness"
    )


def _fading(finish: Item, room: Item, lux: float) -> Verdict:
    try:
        dose = light.exposure(lux, room.light_hours)
        years = light.years_to_noticeable_fade(dose, blue_wool(finish), bool(room.uv_filtered))
    except FieldbookError as error:
        return not_known_because("light", error, light.SOURCE, "years")
    lasts = (
        "lasts without end: no light falls on it" if years is None else f"changes noticeably after {years:.0f} years"
    )
    working = (
        ("exposure in a year", f"{dose:.0f} lx·h"),
        ("ultraviolet filtered", "yes" if room.uv_filtered else "no"),
    )
    sentence = f"In the light of {room.called} it {lasts}."
    return Verdict("light", Word.WITHIN, years, None, None, "years", sentence, light.SOURCE, working=working)


def condensing(site: Site) -> Found:
    """Each room's surface that came nearest to the dew point, among those read together with the air."""
    for room in site.all("room"):
        verdicts = [
            verdict
            for surface in readings(site, room, "surface temperature")
            if (verdict := _surface(site, room, surface))
        ]
        if verdicts:
            yield room, None, min(verdicts, key=lambda verdict: verdict.margin if verdict.margin is not None else 1e9)


def _surface(site: Site, room: Item, surface: Item) -> Verdict | None:
    temperature = _beside(readings(site, room, "air temperature"), surface)
    humidity = _beside(readings(site, room, "relative humidity"), surface)
    if temperature is None or humidity is None:
        return None
    try:
        return air.condensation_verdict(temperature.value, humidity.value, surface.value)
    except FieldbookError as error:
        return not_known_because("air", error, air.SOURCE, "°C")


def _beside(others: list[Item], reading: Item) -> Item | None:
    at = datetime.fromisoformat(reading.at)
    near = [(abs(datetime.fromisoformat(other.at) - at), other) for other in others]
    best = min(near, key=lambda pair: pair[0], default=None)
    return best[1] if best and best[0] <= AT_THE_SAME_TIME else None


def moving(site: Site) -> Found:
    """Each fitting with a part that moves, held against what its gap or slot allows."""
    for room in site.all("room"):
        for face in site.of(room, "face"):
            for fitting in site.of(face, "fitting"):
                if fitting.moving_part and fitting.stands:
                    yield fitting, room, _movement(site, room, fitting)


def _movement(site: Site, room: Item, fitting: Item) -> Verdict:
    try:
        for name in ("moving_mm", "movement_allowed_mm"):
            if fitting.values[name] is None:
                words = {"moving_mm": "dimension that moves", "movement_allowed_mm": "movement its gap or slot allows"}
                raise Missing(f"The {words[name]} is not entered for {fitting.called}.", "Enter it.", field=name)
        material = materials.lookup(fitting.moving_part, own_materials(site), field="moving_part")
        change, figure, working = _change(site, room, fitting, material)
        return movement.movement_verdict(change, fitting.movement_allowed_mm, figure.cited(), working)
    except FieldbookError as error:
        return not_known_because("movement", error, movement.METHOD, "mm")


def _change(
    site: Site, room: Item, fitting: Item, material: materials.Material
) -> tuple[float, materials.Figure, tuple[tuple[str, str], ...]]:
    """Between the driest and the dampest, or for what does not take up water the coldest and the warmest."""
    cold, warm = _span(site, room, "air temperature")
    if material.group in {"metal", "plastic", "glass"}:
        figure = material.figure("thermal_per_c", field="moving_part")
        span = (("coldest", f"{cold:g} °C"), ("warmest", f"{warm:g} °C"))
        return movement.with_warmth(fitting.moving_mm, figure.value, cold, warm), figure, span
    low, high = moisture_span(site, room, (cold + warm) / 2)
    least, most = movement.MOISTURE_PCT
    if not least <= low <= high <= most:
        raise OutOfRange(
            f"Wood in {room.called} comes to {low:.1f} % to {high:.1f} % moisture content; "
            f"the coefficients hold from {least:g} to {most:g} %.",
            "Allow for more than they would say, or ask a timber adviser.",
            field="moisture content",
            value=high,
        )
    grain = fitting.grain or "tangential"  # the way it moves more, where the other is not entered
    wanted = "in_plane_per_pct" if material.group == "sheet" else f"{grain}_per_pct"
    figure = material.figure(wanted, field="moving_part")
    span = (
        ("wood at its driest", f"{low:.1f} % moisture content"),
        ("wood at its dampest", f"{high:.1f} % moisture content"),
        ("movement", "in the plane of the sheet" if material.group == "sheet" else grain),
    )
    return movement.with_moisture(fitting.moving_mm, figure.value, low, high), figure, span


def moisture_span(site: Site, room: Item, middle_c: float) -> tuple[float, float]:
    """Least and greatest moisture content wood comes to in a room, %: from its loggers, or else from its readings.

    Raises Missing without either, and what the moisture check raises.
    """
    spans = [moisture_range(logs.days(site, log), middle_c) for log in site.of(room, "log")]
    if not spans:
        dry, damp = _span(site, room, "relative humidity")
        spans = [(moisture.equilibrium(middle_c, dry), moisture.equilibrium(middle_c, damp))]
    return min(low for low, _ in spans), max(high for _, high in spans)
