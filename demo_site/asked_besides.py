"""What was looked for, measured and asked besides the survey's lines and levels, by the mark of what it is about."""

from __future__ import annotations

from collections.abc import Mapping

from fieldbook.model.choices import LOOKED_FOR

from .booking import Values, grid


def _looked(on: str, by: str, how: str) -> list[list[str]]:
    return [[what, by, how, on] for what in LOOKED_FOR]


_SURVEYORS = "fitter and conservation adviser"
ROOMS: Mapping[str, Values] = {
    "R1": {"damp": "damp", "fire_limit": "D", "uv_limit_uw_lm": 250, "floor_limit_kn_m2": 5,
           "looked_for": _looked("2025-03-11", _SURVEYORS, "raking light, detector, swabs sent to be tested")},
    "R2": {"damp": "dry", "fire_limit": "D", "uv_limit_uw_lm": 75, "floor_limit_kn_m2": 1.5,
           "looked_for": _looked("2025-03-12", _SURVEYORS, "raking light, tapping, detector, swabs sent to be tested")},
    "R3": {"damp": "damp", "fire_limit": "D", "uv_limit_uw_lm": 250, "floor_limit_kn_m2": 5,
           "light_hours": 1600, "uv_filtered": 0,
           "looked_for": _looked("2025-03-12", "fitter and keeper", "detector, swabs sent to be tested")},
    "R4": {"damp": "wet", "fire_limit": "D", "uv_limit_uw_lm": 250, "floor_limit_kn_m2": 5,
           "light_hours": 200, "uv_filtered": 0,
           "looked_for": _looked("2025-03-13", "fitter and keeper", "straight edge, detector, swabs tested")},
}  # fmt: skip

_OUTER, _INNER = {"outer_wall": 1}, {"outer_wall": 0}
FACES: Mapping[str, Values] = {
    "R1-N": _OUTER, "R1-E": _OUTER, "R1-C": _INNER, "R2-N": _OUTER, "R2-W": _INNER, "R2-S": _INNER,
    "R3-W": _INNER, "R3-E": _INNER, "R4-N": _OUTER, "R4-E": _OUTER, "R4-R": _OUTER,
    "R1-S": _INNER | {"surface": grid((3200, 3700, 4200), (900, 1300, 1700), ((0, 1, 1), (1, 2, 1), (0, 1, 2)))},
}  # fmt: skip

_PLAIN: Values = {
    "glass": "none",
    "fire_class": "D",
    "closed": 0,
    "moves": 0,
    "gives": ["nothing"],
    "open_behind": 1,
    "mass_is": "weighed",
}
FITTINGS: Mapping[str, Values] = {
    "D1": _PLAIN | {"support": "the floor and its fixings", "base_mm": 100, "stands_on": "all of its base",
                    "carries_kg": 30},
    "D2": _PLAIN,
    "D3": _PLAIN | {"mass_is": "calculated"},
    "D4": _PLAIN | {"glass": "laminated", "closed": 1, "made_of": "birch plywood, oiled ash, glass",
                    "tested_as": "not tested"},
    "D5": _PLAIN | {"fire_class": "A1"},
    "D6": _PLAIN | {"moves": 1, "mass_is": "calculated"},
    "D7": _PLAIN | {"fire_class": "A1", "gives": ["heat", "light"]},
    "D8": _PLAIN | {"moves": 1},
    "D9": _PLAIN | {"moves": 1},
    "D10": _PLAIN,
    "D11": _PLAIN,
    "D12": _PLAIN | {"glass": "toughened", "support": "the floor and its fixings", "base_mm": 60,
                     "stands_on": "all of its base", "mass_is": "calculated"},
    "D14": _PLAIN | {"fire_class": None, "mass_is": "at most"},
}  # fmt: skip

# Packers by the number of the fixing, as the wall calls for them, mm.
_PACKERS: Mapping[str, tuple[float, ...]] = {
    "D6": (10, 10, 12.5, 12, 11, 11),
    "D8": (1, 0, 0, 0, 3, 2, 2, 1.5),
    "D9": (1.5, 0, 0, 3.5, 1, 0.5),
    "D10": (4, 3.5, 3, 2, 2.5, 2, 2.5, 2),
    "D11": (4, 3, 3, 4, 4, 3.5, 4, 5),
    "D12": (1.5, 1.5, 13, 14, 0, 0),
}
FIXINGS: dict[str, Values] = {
    f"{fitting}.{number}": {"packers_mm": thick}
    for fitting, packers in _PACKERS.items()
    for number, thick in enumerate(packers, 1)
}
FIXINGS["D10.1"] |= {"tested_n": 12, "tested_on": "2025-04-24", "tested_by": "fitter", "tested_held": 1}
