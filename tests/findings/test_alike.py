"""Things that share mark and name, through the findings; tests/record and tests/js run the same site."""

from __future__ import annotations

import pytest

from fieldbook.findings import appraise
from fieldbook.findings.at_point import answer
from fieldbook.findings.taking_down import takedown_items
from tests.cases.shared import cases, site_of_cases

CASE = cases("alike")


def test_each_is_held_against_its_own_limit_and_zone() -> None:
    """Two limits, zones, fittings and fixings of one mark and name never answer for each other."""
    found = [one for one in appraise(site_of_cases(CASE["items"])) if one.against]
    for check, wanted in (("clearance", CASE["clearance"]), ("keep-off", CASE["keep_off"])):
        told = {(one.subject.id, one.against.id): one.verdict for one in found if one.verdict.check == check}
        for one in wanted:
            verdict = told[one["subject"], one["against"]]
            assert (verdict.word, verdict.limit if "limit" in one else None) == (one["word"], one.get("limit"))


@pytest.mark.parametrize("at", CASE["answers"], ids=lambda at: f"x {at['x']}")
def test_answer_at_a_point_names_the_one_that_decides(at: dict) -> None:
    """What is forbidden and how deep something may stand come from the zone and the limit that are there."""
    site = site_of_cases(CASE["items"])
    said = answer(site, site[CASE["face"]], at["x"], at["z"], 0)
    (contact,) = [act for act in said.acts if act.act == "contact"]
    assert (contact.answer, contact.against and contact.against.id) == (at["contact"], at["zone"])
    assert (said.clear_mm, said.limited_by and said.limited_by.id) == (at["clear"], at["limited_by"])


def test_order_of_taking_down_goes_by_what_a_thing_is() -> None:
    """Two rails of one mark, one of which hangs on the other, are two things to take down."""
    rail, panel = [one["subject"] for one in CASE["clearance"]]
    assert [(item.id, item.hangs_on, item.tools) for item in takedown_items(site_of_cases(CASE["items"]))] == [
        (rail, (), ("hex key",)),
        (panel, (rail,), ("spanner",)),
    ]
