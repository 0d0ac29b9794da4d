"""Whether the air of a room keeps to what was set for it and to its own past, and whether its surfaces stay dry."""

from __future__ import annotations

from ..book.site import Item
from ..checks import air, range_seen
from ..checks.verdict import Verdict, Word, not_known_because
from ..errors import FieldbookError
from . import at_surface, logs, readings
from .asking import LESS, MORE, NEITHER, Asked, Question
from .finding import Outcome
from .lighting import NOTHING_HANGS, fittings_in
from .verdicts import badness, does_not_apply

LIMITS = "The limits entered for the room"
NOTHING_MINDS = "Nothing here minds dry or damp air, as its limits of 0 and 100 % say."
NOT_READ_TOGETHER = "No surface was read together with the air; what covers an outer wall is asked about by itself."


def in_room(asked: Asked, room: Item) -> Outcome:
    """The worst of the range seen against the limits set, and of the time after each logger's band against the band."""
    if not fittings_in(asked.site, room):
        return does_not_apply("humidity", NOTHING_HANGS)
    measured = asked.site.of(room, "log") or readings.measured(asked, room, "relative humidity")
    if room.humidity_low_pct == 0 and room.humidity_high_pct == 100 and not measured:
        return does_not_apply("humidity", NOTHING_MINDS)
    found: list[tuple[Verdict, Item | None]] = []
    if room.humidity_low_pct is not None or room.humidity_high_pct is not None:
        found.append((_within_limits(asked, room), None))
    for log in asked.site.of(room, "log"):
        try:
            found.append((logs.after_band(asked, log), log))
        except FieldbookError as error:
            found.append((not_known_because("humidity", error, range_seen.SOURCE, "%"), log))
    if not found:
        seen = readings.seen(asked, room, "relative humidity")
        asked.need(room, "humidity_high_pct", seen.high, "%")
    verdict, against = min(found, key=lambda one: badness(one[0]))
    return Outcome(
        verdict,
        against,
        assumed=("The air where it was measured is the air where things hang.",),
        left_out=("Air behind a panel and beside a cold wall differs; it is asked about where something covers one.",),
    )


def _within_limits(asked: Asked, room: Item) -> Verdict:
    seen = readings.seen(asked, room, "relative humidity")
    verdict = readings.firm(
        _held(room, seen),
        lambda: _held(room, readings.seen(asked, room, "relative humidity", as_read=True)),
        _unsure(asked, room),
    )
    if verdict.word is not Word.OVER:  # a limit on one side says nothing of the other
        asked.need(room, "humidity_low_pct", seen.low, "%")
        asked.need(room, "humidity_high_pct", seen.high, "%")
    return verdict


def _held(room: Item, seen: range_seen.Seen) -> Verdict:
    low, high = room.humidity_low_pct, room.humidity_high_pct
    return range_seen.within_limits_verdict("humidity", "The relative humidity", seen, low, high, "%", LIMITS)


def _unsure(asked: Asked, room: Item) -> list[Item]:
    """What was measured without saying how unsure it is: loggers, then readings."""
    kept = [log for log in asked.site.of(room, "log") if log.uncertainty_pct is None]
    return [*kept, *readings.unsure(asked, room, "relative humidity")]


def condensing(asked: Asked, room: Item) -> Outcome:
    """The surface that came nearest to the dew point, of those read together with the air, as unsure as they are."""
    surfaces, warmths, damps = (
        readings.measured(asked, room, quantity)
        for quantity in ("surface temperature", "air temperature", "relative humidity")
    )
    verdicts = []
    for surface in surfaces:
        warmth, damp = at_surface.beside(warmths, surface), at_surface.beside(damps, surface)
        if warmth is not None and damp is not None:
            (cold, _), (_, warm), (_, moist) = (readings.span_of(one) for one in (surface, warmth, damp))
            verdicts.append(air.condensation_verdict(warm, moist, cold))
    if not verdicts:
        return does_not_apply("condensing", NOT_READ_TOGETHER)
    return Outcome(min(verdicts, key=badness))


QUESTIONS = (
    Question(
        "humidity",
        "room",
        "Does the air keep to what was set for the room, and to the room's own past?",
        in_room,
        {**readings.READS, "room.humidity_low_pct": MORE, "room.humidity_high_pct": LESS},
    ),
    Question(
        "condensing",
        "room",
        "Did the surfaces that were read stay dry?",
        condensing,
        {"reading.quantity": NEITHER, "reading.value": NEITHER, "reading.unit": NEITHER, "reading.uncertainty": MORE},
    ),
)
