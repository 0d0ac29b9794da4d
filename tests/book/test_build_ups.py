"""Layers described once under a name, and what follows when they are changed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from fieldbook.book.build_ups import following, layers_named
from fieldbook.book.gathering import gather
from fieldbook.book.site import Item, Site
from fieldbook.model.kinds import KINDS
from tests.cases.shared import cases, site_of_cases
from tests.sites import Surveyed

LIMED = [["limewash", 1, "old"], ["soft brick", 228, "old"]]


def built(values: dict[str, Any], number: int) -> Item:
    """A build-up of the cases."""
    return Item("build_up", f"b{number}", dict.fromkeys(KINDS["build_up"].by_name) | values)


@pytest.mark.parametrize("case", cases("build_ups")["asked"], ids=lambda case: case["why"])
def test_layers_are_taken_by_their_name_as_on_the_phone(case: dict[str, Any]) -> None:
    """By what has layers of that sort, however the name is written."""
    items = [built(values, number) for number, values in enumerate(cases("build_ups")["items"])]
    site = Site(site_of_cases(cases("site")).item, items, Path(), 0, "")
    assert layers_named(site, case["kind"], case["field"], case["text"]) == case["layers"]


def test_faces_that_are_described_so_are_asked_about_and_others_are_not(surveyed: Surveyed) -> None:
    """A wall is there whatever is written of it: nothing is set for it unasked."""
    book = surveyed.book
    made = book.write("build_up", {"site": surveyed.site, "name": "Limed brick", "sort": "wall", "layers": LIMED})
    book.write("face", {"layers": LIMED}, item=surveyed.face)
    own = {"room": surveyed.room, "mark": "R1-S", "name": "South", "sort": "wall", "width_mm": 900, "height_mm": 2400}
    book.write("face", own | {"layers": LIMED[1:]})
    site = gather(book, surveyed.site)
    follows = following(site, site[made], {"layers": LIMED[1:]})
    assert ([one.id for one in follows.standing], follows.lines, follows.taken_over) == ([surveyed.face], [], [])
    assert following(site, site[made], {"name": "Brick"}).standing == []


def test_planned_fittings_follow_and_those_that_stand_are_asked_about(surveyed: Surveyed) -> None:
    """As with a make; what came down is left as it was."""
    book, layers = surveyed.book, [["larch batten", 19, 0.5]]
    made = book.write("build_up", {"site": surveyed.site, "name": "Batten", "sort": "fitting", "build_up": layers})
    planned, fitted, down = (surveyed.fitting(mark=mark, build_up=layers) for mark in ("D5", "D6", "D7"))
    book.write("fitting", {"state": "fitted", "fitted_on": "2026-03-02"}, item=fitted)
    book.write("fitting", {"state": "taken down", "taken_down_on": "2026-03-03"}, item=down)
    site = gather(book, surveyed.site)
    new = [["larch batten", 22, 0.5]]
    follows = following(site, site[made], {"build_up": new})
    assert follows.lines == [{"kind": "fitting", "item": planned, "set": {"build_up": new}}]
    assert [one.id for one in follows.standing] == [fitted]
