"""Figures that are read off together and typed into the input of the first."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from fieldbook.model.fields import Field, Type
from fieldbook.model.kinds import KINDS
from fieldbook.model.written_together import GROUPS, groups_in, parted

CASES = json.loads((Path(__file__).parents[1] / "cases" / "written_together.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("case", CASES, ids=[case["why"] for case in CASES])
def test_figures_part(case: dict[str, Any]) -> None:
    """As the script parts them."""
    names = ["x_mm", "z_mm", "y_mm"][: len(case["texts"])]
    units = case.get("units", ["mm"] * len(names))
    group = tuple(
        Field(name, name, Type.NUMBER, unit=unit, low=case["low"], high=case["high"], copied=not case["own"])
        for name, unit in zip(names, units, strict=True)
    )
    found = parted([group], dict(zip(names, case["texts"], strict=True)))
    assert found == (dict(zip(names, case["parted"], strict=True)) if case["parted"] else {})


@pytest.mark.parametrize("names", GROUPS, ids="-".join)
def test_every_group_is_of_figures_that_stand_one_after_the_other(names: tuple[str, ...]) -> None:
    """In some kind, so that what can follow the first is what comes next on the page."""
    found = [kind for kind in KINDS.values() if all(name in kind.by_name for name in names)]
    assert found
    for kind in found:
        asked = [field.name for field in kind.asked]
        at = asked.index(names[0])
        assert tuple(asked[at : at + len(names)]) == names, kind.name
        assert groups_in(kind.asked)
