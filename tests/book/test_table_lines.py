"""Rows of a table become lines of new items: dittos, counting on, marks, links by their marks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import pytest

from fieldbook.book.gathering import gather
from fieldbook.book.next_mark import next_mark
from fieldbook.book.site import Site
from fieldbook.book.table_lines import lines_of
from fieldbook.errors import FieldbookError
from fieldbook.model.kinds import KINDS
from fieldbook.model.typed import from_text
from fieldbook.model.values import accept
from tests.cases.shared import cases
from tests.sites import Surveyed

READING, FIXING = KINDS["reading"], KINDS["fixing"]


def set_by(
    site: Site, kind: str, columns: Sequence[str], rows: Sequence[Sequence[str]], **steps: str
) -> list[Mapping[str, Any]]:
    """What each row sets."""
    known = KINDS[kind]
    lines = lines_of(site, known, {}, [known.by_name[name] for name in columns], rows, steps)
    return [line["set"] for line in lines if isinstance(line, dict)]


@pytest.mark.parametrize("case", cases("next_mark"), ids=lambda case: case["what"])
def test_mark_goes_on_counting_as_on_the_phone(surveyed: Surveyed, case: dict[str, Any]) -> None:
    """From the highest of its fitting, as it is written."""
    fitting = surveyed.fitting(mark="D1")
    for mark in case["marks"]:
        surveyed.fixing(fitting, mark=mark)
    values = {"fitting": fitting} if case["fitting"] else {}
    site = gather(surveyed.book, surveyed.site)
    assert next_mark(KINDS[case["kind"]], site, values, case["more"]) == case["next"]


def test_ditto_mark_says_what_stands_above_it(surveyed: Surveyed) -> None:
    """As in a booking on paper, whichever way the mark is written; the unit follows."""
    site = gather(surveyed.book, surveyed.site)
    rows = [["level", "4"], ['"', "6"], ["”", ""]]
    assert set_by(site, "reading", ("quantity", "value"), rows) == [
        {"quantity": "level", "value": 4, "unit": "mm"},
        {"quantity": "level", "value": 6, "unit": "mm"},
        {"quantity": "level", "unit": "mm"},
    ]


def test_days_are_read_as_people_and_spreadsheets_write_them(surveyed: Surveyed) -> None:
    """What a cell leaves out of a day or a moment is as in the cell above."""
    site = gather(surveyed.book, surveyed.site)
    days = ("17/02/2026", "18 Feb", "1. 3.", "March 9, 2025", "30 Sept", "2026-05-31")
    found = set_by(site, "cost", ("what", "on"), [["oak", day] for day in days])
    assert [one["on"] for one in found] == [
        *("2026-02-17", "2026-02-18", "2026-03-01", "2025-03-09", "2025-09-30", "2026-05-31"),
    ]
    found = set_by(site, "reading", ("at",), [["11 Feb 2026 9:40"], ["10:05"], ["12 Feb 9:30"]])
    assert [one["at"][:16] for one in found] == ["2026-02-11T09:40", "2026-02-11T10:05", "2026-02-12T09:30"]


def test_day_that_can_be_read_two_ways_is_asked_back() -> None:
    """Neither is taken for the other; what is no day at all is refused as such."""
    on = KINDS["cost"].by_name["on"]
    with pytest.raises(FieldbookError) as refused:
        accept(on, from_text(on, "3/5/2026"))
    assert refused.value.remedy == "Write 2026-05-03 or 2026-03-05."
    for text in ("31/31/2026", "30 Feb 2026", "Marble 3 2026"):
        with pytest.raises(FieldbookError) as refused:
            accept(on, from_text(on, text))
        assert refused.value.remedy == "Write it as 2026-05-31."


def test_empty_cells_count_on_by_a_step(surveyed: Surveyed) -> None:
    """Figures by a figure, days and moments by a span of time; what is written out begins anew."""
    site = gather(surveyed.book, surveyed.site)
    found = set_by(site, "fixing", ("x_mm", "z_mm"), [["100", "50"], ["", "60"], ["900"], ["", "70"]], x_mm="150,5")
    assert [one.get("x_mm") for one in found] == [100, 250.5, 900, 1050.5]
    assert [one.get("z_mm") for one in found] == [50, 60, None, 70]
    days = set_by(site, "visit", ("on", "by"), [["2026-02-26", "a"], ["", "b"]], on="7 days")
    assert [one["on"] for one in days] == ["2026-02-26", "2026-03-05"]
    moments = set_by(site, "reading", ("at", "value"), [["2026-03-26T09:00", "1"], ["", "2"]], at="1 w")
    assert [one["at"][:16] for one in moments] == ["2026-03-26T09:00", "2026-04-02T09:00"]


def test_marks_go_on_counting_and_links_are_found_by_mark(surveyed: Surveyed) -> None:
    """D1.1 gives D1.2; a fitting is named by D1 as well as by its id."""
    fitting = surveyed.fitting()
    surveyed.fixing(fitting)
    site = gather(surveyed.book, surveyed.site)
    found = set_by(site, "fixing", ("fitting", "x_mm"), [["d1", "100"], ['"', "200"], [fitting, "300"]])
    assert [(one["fitting"], one["mark"]) for one in found] == [(fitting, f"D1.{number}") for number in (2, 3, 4)]


@pytest.mark.parametrize(
    ("row", "field"), [(["D9"], "fitting"), (['"'], "fitting"), (["D1", "1", "2"], None)], ids=["link", "ditto", "long"]
)
def test_row_that_cannot_be_read_is_an_error_of_its_own(
    surveyed: Surveyed, row: Sequence[str], field: str | None
) -> None:
    """It names the field; the rows beside it are read."""
    surveyed.fitting()
    site = gather(surveyed.book, surveyed.site)
    columns = [FIXING.by_name["fitting"], FIXING.by_name["x_mm"]]
    wrong, right = lines_of(site, FIXING, {}, columns, [row, ["D1", "5"]])
    assert isinstance(wrong, FieldbookError)
    assert wrong.field == field
    assert isinstance(right, dict)


@pytest.mark.parametrize(("column", "step"), [("at", "often"), ("value", "far")])
def test_step_that_cannot_be_read_is_refused_at_its_input(surveyed: Surveyed, column: str, step: str) -> None:
    """With the name of the input it stands in."""
    site = gather(surveyed.book, surveyed.site)
    with pytest.raises(FieldbookError) as refused:
        lines_of(site, READING, {}, [READING.by_name[column]], [["1"]], {column: step})
    assert refused.value.field == f"step-{column}"


def test_of_two_that_are_called_alike_the_one_on_the_same_face_is_meant(surveyed: Surveyed) -> None:
    """As marks of holes go on from one on each wall."""
    wall = {"room": surveyed.room, "name": "Far wall", "sort": "wall", "width_mm": 2350, "height_mm": 2480}
    other = surveyed.book.write("face", wall)
    hole = {"mark": "H3", "sort": "hook", "may_be_used": "yes", "x_mm": 470, "z_mm": 1310}
    here, there = (surveyed.book.write("hold", hole | {"face": face}) for face in (surveyed.face, other))
    site = gather(surveyed.book, surveyed.site)
    columns = [FIXING.by_name["mark"], FIXING.by_name["hold"]]
    for face, hold in ((surveyed.face, here), (other, there)):
        (line,) = lines_of(site, FIXING, {"face": face}, columns, [["F1", "H3"]])
        assert isinstance(line, dict) and line["set"]["hold"] == hold
    (refused,) = lines_of(site, FIXING, {}, columns, [["F1", "H3"]])
    assert isinstance(refused, FieldbookError)


def test_outline_stands_in_one_cell(surveyed: Surveyed) -> None:
    """Its corners parted by strokes, or as a rectangle."""
    site = gather(surveyed.book, surveyed.site)
    first, second = set_by(site, "zone", ["outline"], [["310 640 / 720 640 / 720 910"], ["rectangle 310 640 410 270"]])
    assert first["outline"] == [[310, 640], [720, 640], [720, 910]]
    assert second["outline"] == [[310, 640], [720, 640], [720, 910], [310, 910]]
