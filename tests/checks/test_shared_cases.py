"""The cases at the wall that both desk and phone must answer, at the desk; tests/js runs the same file on the phone."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from fieldbook.checks.clearance import Limit, Stretch, clear_depth, projection_verdict
from fieldbook.checks.keep_off import area_distance, disc_distance, keep_off_verdict, outline_of
from fieldbook.checks.packers import from_box, packers_mm
from fieldbook.checks.surface import proud_mm
from fieldbook.checks.sweep import Leaf
from fieldbook.errors import FieldbookError

CASES = json.loads((Path(__file__).parent.parent / "cases" / "at_the_wall.json").read_text(encoding="utf-8"))["cases"]
Given = Mapping[str, Any]


def keep_off(given: Given) -> dict[str, Any]:
    """A round footprint held against a zone."""
    distance = disc_distance(outline_of(given["zone_mm"]), tuple(given["point_mm"]), given["radius_mm"])
    depths = given.get("penetration_mm"), given.get("safe_depth_mm")
    verdict = keep_off_verdict("K1", distance, given["margin_mm"], *depths)
    return {"distance_mm": distance, "word": verdict.word, "left_mm": verdict.margin}


def keep_off_area(given: Given) -> dict[str, Any]:
    """An outlined footprint held against a zone."""
    distance = area_distance(outline_of(given["zone_mm"]), outline_of(given["footprint_mm"]))
    return {"distance_mm": distance, "word": keep_off_verdict("K1", distance, given["margin_mm"]).word}


def clear_depth_of(given: Given) -> dict[str, Any]:
    """The clear depth over a stretch, and whether a projection fits it."""
    limits, part = [limit_of(limit) for limit in given["limits"]], Stretch(*given["stretch_mm"])
    clear = clear_depth(limits, part)
    verdict = projection_verdict(given["projection_mm"], limits, part)
    name = clear.limited_by and clear.limited_by.name
    return {"clear_mm": clear.depth_mm, "limited_by": name, "word": verdict.word, "sentence": verdict.sentence}


def limit_of(given: Given) -> Limit:
    """A limit as the check takes it; an open end of its band is null."""
    ends = (-math.inf, math.inf, -math.inf, math.inf)
    band = Stretch(*(end if bound is None else bound for bound, end in zip(given["band_mm"], ends, strict=True)))
    leaf = given.get("leaf")
    swung = leaf and Leaf(
        tuple(leaf["hinge_mm"]), leaf["from_deg"], leaf["to_deg"], tuple(tuple(box) for box in leaf["boxes_mm"])
    )
    below = tuple(tuple(point) for point in given.get("below_mm", ()))
    return Limit(given["name"], band, given["margin_mm"], swung, given.get("projection_mm"), below)


def packers(given: Given) -> dict[str, Any]:
    """The packers behind points, and what they are made of where a box is given."""
    points, plane, least = given["points_mm"], given["plane"], given["least_mm"]
    if "stock_mm" in given:
        made_of, off = from_box(points, plane, given["stock_mm"], least)
        return {"made_of_mm": made_of, "off_mm": off}
    found = packers_mm(points, plane, least)
    return {"packers_mm": found, "sum_mm": sum(found), "thickest_mm": max(found), "thinnest_mm": min(found)}


def proud(given: Given) -> dict[str, Any]:
    """How proud a face stands at a place between its readings."""
    return {"proud_mm": proud_mm(given["readings_mm"], *given["place_mm"])}


ANSWERS = {
    "proud": proud,
    "keep_off": keep_off,
    "keep_off_area": keep_off_area,
    "clear_depth": clear_depth_of,
    "packers": packers,
}


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["check"])
def test_case_at_the_wall_is_answered_as_expected(case: Given) -> None:
    """Figures within the tolerance of the case, words alike; what has no answer is refused by code and field."""
    answer = ANSWERS[case["check"]]
    if refused := case.get("refused"):
        with pytest.raises(FieldbookError) as refusal:
            answer(case["given"])
        assert (refusal.value.code, refusal.value.field) == (refused["code"], refused["field"])
        return
    found = answer(case["given"])
    for name, expected in case["expect"].items():
        if name == "made_of_mm" or expected is None or isinstance(expected, str):
            assert found[name] == expected, name
        else:
            assert found[name] == pytest.approx(expected, abs=case["tolerance"]), name


def test_every_check_both_sides_offer_has_cases() -> None:
    """No check at the wall goes without cases, and at least 300 of them are generated."""
    assert {case["check"] for case in CASES} == set(ANSWERS)
    assert sum(case["generated"] for case in CASES) >= 300
