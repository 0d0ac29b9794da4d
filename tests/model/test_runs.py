"""Runs of figures: what makes several things of one form or row, and what is one figure all the same."""

from __future__ import annotations

import pytest

from fieldbook.errors import NotANumber
from fieldbook.model.fields import Field, Type
from fieldbook.model.runs import figures_in, runs_of

X, Z = (Field(name, name, Type.NUMBER, low=-20_000, high=20_000) for name in ("x_mm", "z_mm"))


@pytest.mark.parametrize(
    ("text", "figures"),
    [
        ("470 1330", ["470", "1330"]),
        ("310 620 930", ["310", "620", "930"]),  # as one figure it would be outside
        ("4,5 -6 0", ["4,5", "-6", "0"]),
        ("310, 620, 1205", ["310", "620", "1205"]),
        ("12 500", []),  # thousands parted
        ("12 / 500", ["12", "500"]),
        ("1960 ” ” 1280", ["1960", "1960", "1960", "1280"]),
        ("- 12 -", ["", "12", ""]),
        ("1500", []),
        ("-", []),
        ("", []),
        ("” 12", []),
        ("12 mm", []),
    ],
)
def test_figures_are_a_run_where_they_are_no_one_figure(text: str, figures: list[str]) -> None:
    """A dash is none, a ditto mark the one before, and a figure with its thousands parted is one."""
    assert figures_in(X, text) == figures


def test_words_are_no_run() -> None:
    """Only a field of figures takes one."""
    assert figures_in(Field("size", "Size"), "4 6 8") == []


def test_figure_that_could_be_two_is_a_run_beside_another() -> None:
    """What can be read in two ways is a figure where it stands alone."""
    assert runs_of({X: "470 1330", Z: "12 500"}) == {"x_mm": ["470", "1330"], "z_mm": ["12", "500"]}
    assert runs_of({X: "470", Z: "12 500"}) == {}


@pytest.mark.parametrize(
    ("x", "z", "wrong"),
    [("470 1330 1520", "30 40", "z_mm"), ("470 1330 1520", "12 500", "z_mm"), ("1 " * 501, "40", "x_mm")],
)
def test_runs_of_one_thing_have_as_many_figures_each(x: str, z: str, wrong: str) -> None:
    """The one that has fewer is named; so is one that goes on for too long."""
    with pytest.raises(NotANumber) as refused:
        runs_of({X: x, Z: z})
    assert refused.value.field == wrong
