"""What people do with things: lifting them, taking them down, and what is left behind."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Any

from ..checks import lifting, lifting_equation, removal, trace
from ..checks.cautions import CAUTIONS
from ..model.description import choice, line
from .description import Calculation, Result, column, missing, number, row, table, whole

BY_EQUATION = {"group": "By the lifting equation as well"}


def _lifting(
    mass_kg: float,
    reach: str,
    lifters: str,
    zone: str | None = None,
    hands_mm: tuple[float, ...] | None = None,
    lifts_per_minute: float = 0.5,
    twist_deg: float = 0.0,
    team: int = 1,
    equation: Mapping[str, Any] | None = None,
) -> Result:
    if hands_mm is not None:
        zone = lifting.worst_zone(*hands_mm)
    elif zone is None:
        raise missing("zone")
    guideline = lifting.guideline_kg(zone, reach, lifters, lifts_per_minute, twist_deg)
    figures = {"zone": zone, "guideline_kg": guideline, "people": lifting.people(mass_kg, guideline)}
    verdict = lifting.verdict(mass_kg, guideline, team)
    if equation is None:
        return Result(figures, (lifting.SOURCE,), verdict)
    sources = (lifting.SOURCE, lifting_equation.SOURCE)
    return Result(figures | _by_equation(mass_kg, **equation), sources, verdict)


def _by_equation(
    mass_kg: float,
    horizontal_cm: float | None = None,
    vertical_cm: float | None = None,
    distance_cm: float | None = None,
    asymmetry_deg: float = 0.0,
    frequency_multiplier: float = 1.0,
    coupling: str = "poor",
) -> dict[str, Any]:
    if horizontal_cm is None:
        raise missing("equation.horizontal_cm")
    if vertical_cm is None:
        raise missing("equation.vertical_cm")
    if distance_cm is None:
        raise missing("equation.distance_cm")
    factors = lifting_equation.multipliers(
        horizontal_cm, vertical_cm, distance_cm, asymmetry_deg, frequency_multiplier, coupling
    )
    limit = lifting_equation.recommended_kg(factors)
    return {
        "multipliers": factors._asdict(),
        "recommended_kg": limit,
        "lifting_index": mass_kg / limit if limit else None,
        "equation_source": lifting_equation.SOURCE,
    }


LIFTING = Calculation(
    "lifting",
    "What people can lift, and how many it takes",
    "The guideline, kg, and the people it takes; by the lifting equation also its recommended mass.",
    (
        number("mass_kg", "Mass", "kg", 0, lifting.MASS_HIGH_KG, required=True),
        choice("zone", "Where the hands are", *lifting.ZONES, help="or give their heights"),
        row("hands_mm", "Hands above the floor", column("from", "at the start", "mm", 0, lifting.HANDS_HIGH_MM),
              column("to", "at the end", "mm", 0, lifting.HANDS_HIGH_MM), help="at the start, at the end"),
        choice("reach", "Reach", *lifting.REACHES, help="close to the body, or at arm’s length", required=True),
        choice("lifters", "Figures for", *lifting.LIFTERS, help="women where it is not known who lifts", required=True),
        number("lifts_per_minute", "Lifts a minute", "", 0, lifting.LIFTS_HIGH, help="empty: now and then"),
        number("twist_deg", "Twist of the trunk", "°", 0, lifting.TWIST_HIGH_DEG),
        whole("team", "People who lift", 1, max(lifting.TEAM_SHARES)),
        number("equation.horizontal_cm", "Hands from the ankles", "cm", 0, 200, **BY_EQUATION),
        number("equation.vertical_cm", "Hands above the floor at the start", "cm", 0, 300, **BY_EQUATION),
        number("equation.distance_cm", "Travel up or down", "cm", 0, 300, **BY_EQUATION),
        number("equation.asymmetry_deg", "Turned from straight ahead", "°", 0, 180, **BY_EQUATION),
        number("equation.frequency_multiplier", "Frequency multiplier", "", 0, 1, **BY_EQUATION,
               help="from its table; 1 for a single lift"),
        choice("equation.coupling", "Grip", *lifting_equation.COUPLINGS, **BY_EQUATION),
    ),
    {"mass_kg": 18, "hands_mm": [700, 1500], "reach": "close", "lifters": "women", "team": 2},
    _lifting,
)  # fmt: skip


def _removal(items: Sequence[Mapping[str, Any]]) -> Result:
    given = [
        removal.Thing(
            one["name"],
            tuple(one["hangs_on"] or ()),
            tuple(one["covers"] or ()),
            tuple(one["tools"] or ()),
            one["people"],
            one["minutes"],
        )
        for one in items
    ]
    taken = removal.steps(given)
    figures = {
        "order": [step.item.name for step in taken],
        "steps": [_step(step) for step in taken],
        "tools": list(dict.fromkeys(tool for step in taken for tool in step.item.tools)),
        "people": max((one.people for one in given if one.people is not None), default=None),
        "minutes": sum(one.minutes for one in given if one.minutes is not None),
        "not_known": [one.name for one in given if one.people is None or one.minutes is None],
        "caution": CAUTIONS["lifting"].text,
    }
    return Result(figures, (removal.SOURCE,))


def _step(step: removal.Step) -> dict[str, Any]:
    own = {name: getattr(step.item, name) for name in ("tools", "people", "minutes")}
    return {"stage": step.stage, "name": step.item.name, "after": step.after} | own


REMOVAL = Calculation(
    "removal",
    "Order and time of taking down",
    "The steps of taking down, with tools, people and minutes.",
    (
        table("items", "Things to take down", line("name", "name", required=True), line("hangs_on", "hangs on"),
              line("covers", "covers"), line("tools", "tools"), whole("people", "people", 1, removal.PEOPLE_HIGH),
              number("minutes", "minutes", "min", 0, removal.MINUTES_HIGH), least=0, most=removal.ITEMS_HIGH,
              required=True,
              help="one a line: name; hangs on; covers; tools; people; minutes. Several in a cell: with commas"),
    ),
    {"items": [{"name": "rail", "tools": ["spanner 10 mm"], "people": 2, "minutes": 30},
               {"name": "panel", "hangs_on": ["rail"], "people": 1, "minutes": 10}]},
    _removal,
)  # fmt: skip


def _trace(fixings: Sequence[Mapping[str, Any]]) -> Result:
    left = [trace.Left(one["name"], one["trace"], one["fabric"], one["consent"] or "") for one in fixings]
    rows = trace.counts(left)
    by_fabric = Counter(one.fabric for one in left if one.trace != trace.NOTHING)
    figures = {
        "by_trace": {word: sum(row.count for row in rows if row.trace == word) for word in trace.TRACES},
        "by_fabric": dict(sorted(by_fabric.items())),
        "counts": [row._asdict() for row in rows],
        "uncovered": [name for row in rows for name in row.uncovered],
    }
    return Result(figures, (trace.SOURCE,), trace.verdict(left))


TRACE = Calculation(
    "trace",
    "Marks left, counted",
    "Marks left, counted by kind and by fabric, with the consents that cover them.",
    (
        table("fixings", "Fixings", line("name", "name", required=True),
              choice("trace", "trace", *trace.TRACES, required=True), line("fabric", "fabric", required=True),
              line("consent", "consent"), least=0, most=trace.FIXINGS_HIGH, required=True,
              help="one a line: name; marks left; fabric; reference of the consent"),
    ),
    {"fixings": [{"name": "D1.1", "trace": "a mark that cleans off", "fabric": "old fabric", "consent": "A1"},
                 {"name": "D1.2", "trace": "none", "fabric": "later work"}]},
    _trace,
)  # fmt: skip

CALCULATIONS = (LIFTING, REMOVAL, TRACE)
