"""A plan of the workshop back from the day it must stand, from what is asked for on its page."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from typing import Any, NamedTuple

from ...book.site import Item
from ...checks.plan_back import Planned, Stage, plan_back
from ...errors import FieldbookError
from ...model.fields import Field, Type
from ...model.typed import from_text
from ...model.values import accept


def _hours(name: str, label: str, help: str = "") -> Field:
    return Field(name, label, Type.NUMBER, unit="h", low=0, high=10_000, help=help)


def _days(name: str, label: str, help: str = "") -> Field:
    return Field(name, label, Type.NUMBER, unit="days", low=0, high=1_000, help=help)


ASKED = (
    Field("stands_on", "Must stand on", Type.DATE),
    Field("first_on", "First lot wanted on", Type.DATE, help="empty where all of it comes at once"),
    Field("first_lot", "Fittings in the first lot", Type.WHOLE, low=1, high=500),
    Field("hours_a_day", "Hours a working day", Type.NUMBER, unit="h", low=0.5, high=24),
    _days("delivery", "Delivery of stock and hardware"),
    _hours("cut_h", "Cutting and drilling, all of it"),
    _hours("make_h", "Putting together, all of it"),
    _hours("coat_h", "Finishing, each coat of all of it"),
    _days("dry", "Drying, each coat", help="as its data sheet says for the cold and damp of the room"),
    _hours("fit_h", "Fitting, all of it"),
)
NEEDED = ("stands_on", "hours_a_day", "delivery", "cut_h", "make_h", "coat_h", "dry", "fit_h")


class LotPlan(NamedTuple):
    """What of it is planned, in words, and its stages."""

    of: str
    stages: Sequence[Planned]


class Planning(NamedTuple):
    """The plans, what was refused by field, and the labels of what is still to be told before there is a plan."""

    plans: Sequence[LotPlan]
    wrong: Mapping[str, FieldbookError]
    lacking: Sequence[str]


def planning(given: Mapping[str, str], fittings: Sequence[Item], finishes: Iterable[Item]) -> Planning:
    """The plan of a phase, nothing taken for what is not told.

    given     texts by the names of ASKED
    finishes  one whose coats are not entered has to be told of first
    """
    values, wrong = _accepted(given)
    lacking = [one.label for one in ASKED if one.name in NEEDED and values.get(one.name) is None]
    coats = [(finish.called, finish.coats) for finish in finishes]
    lacking += [f"Coats of {name}" for name, number in coats if number is None]
    if values.get("first_on") and not values.get("first_lot"):
        lacking.append("Fittings in the first lot")
    if wrong or lacking or not fittings:
        return Planning((), wrong, lacking)
    most = max((number for _, number in coats), default=0)
    early = min(values.get("first_lot") or 0, len(fittings)) if values.get("first_on") else 0
    plans = []
    if early:
        plans.append(_plan(f"First lot, {early} of {len(fittings)}", values["first_on"], values, most, early, fittings))
    if late := len(fittings) - early:
        named = "All of it" if not early else f"The rest, {late} of {len(fittings)}"
        plans.append(_plan(named, values["stands_on"], values, most, late, fittings))
    return Planning(plans, {}, [])


def _plan(of: str, on: str, values: Mapping[str, Any], coats: int, number: int, fittings: Sequence[Item]) -> LotPlan:
    share = number / len(fittings)
    stages = [
        Stage("Order stock and hardware", 0, values["delivery"]),
        Stage("Cut and drill", values["cut_h"] * share, 0),
        Stage("Put together", values["make_h"] * share, 0),
        *(Stage(f"Coat {place} of {coats}", values["coat_h"] * share, values["dry"]) for place in range(1, coats + 1)),
        Stage("Fit", values["fit_h"] * share, 0),
    ]
    return LotPlan(of, plan_back(date.fromisoformat(on), stages, values["hours_a_day"]))


def _accepted(given: Mapping[str, str]) -> tuple[dict[str, Any], dict[str, FieldbookError]]:
    values, wrong = {}, {}
    for field in ASKED:
        try:
            text = given.get(field.name, "").strip()
            values[field.name] = accept(field, from_text(field, text)) if text else None
        except FieldbookError as error:
            wrong[field.name] = error
    return values, wrong
