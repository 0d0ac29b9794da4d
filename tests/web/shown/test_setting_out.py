"""What is set out on a face: packers, what is in the box, and the marks of a level line."""

from __future__ import annotations

import re

import pytest

from fieldbook.errors import FieldbookError
from fieldbook.web.shown.setting_out import thicknesses
from tests.sites import Surveyed
from tests.web.conftest import Desk, messages

SURFACE = [[x, z, proud] for z in (1000, 2000) for x, proud in ((900, 4), (1500, 0), (2100, 2))]
FLOOR = [[0, -4], [2500, 10], [5000, 0]]


def set_out(surveyed: Surveyed) -> None:
    """A face with surface and floor, and a rail on three fixings, one of them packed by 3 mm."""
    surveyed.book.write("face", {"surface": SURFACE, "floor": FLOOR}, surveyed.face)
    rail = surveyed.fitting()
    for number, x in enumerate((1000, 1500, 2000)):
        surveyed.fixing(rail, mark=f"D1.{number + 1}", x_mm=x, packers_mm=3 if number == 1 else None)


def row_of(page: str, mark: str) -> list[str]:
    """The cells of a fixing's row among the packers."""
    row = re.search(rf"<tr><th scope=\"row\"><a [^>]*><bdi>{re.escape(mark)}</bdi></a>(.*?)</tr>", page, re.DOTALL)
    assert row, mark
    return [re.sub(r"<[^>]+>", "", cell).strip() for cell in re.findall(r"<td.*?</td>", row[1], re.DOTALL)]


def test_packers_stand_beside_what_is_entered(surveyed: Surveyed, desk: Desk) -> None:
    """Where it is, how proud the face is, the packer, what is entered, and the difference."""
    set_out(surveyed)
    page = desk.get(f"/face/{surveyed.face}").text
    x, z, proud, packer, entered, difference = row_of(page, "D1.2")
    assert (x, z, proud, entered) == ("1500", "1540", "0\xa0mm", "3\xa0mm")
    assert float(packer.removesuffix("\xa0mm")) + float(difference.removesuffix("\xa0mm")) == pytest.approx(3)
    assert row_of(page, "D1.1")[-2:] == ["–", "–"]


def test_box_is_asked_for_and_made_of_is_told(surveyed: Surveyed, desk: Desk) -> None:
    """The thicknesses stay in the input, and each packer is a sum of them."""
    set_out(surveyed)
    page = desk.get(f"/face/{surveyed.face}", query_string={"stock_mm": "0,5 1; 2"})
    assert 'value="0,5 1; 2"' in page.text
    made_of = row_of(page.text, "D1.2")[4]
    assert set(re.findall(r"[\d.]+", made_of)) <= {"0.5", "1", "2"}
    assert "of the plane" in page.text


def test_level_line_is_marked_above_the_floor(surveyed: Surveyed, desk: Desk) -> None:
    """Where the floor lies lower the mark is higher above it: 1,000 less the floor."""
    set_out(surveyed)
    page = desk.get(f"/face/{surveyed.face}").text
    for mark in ("1004\xa0mm", "990\xa0mm", "1000\xa0mm"):
        assert f"<strong>{mark}</strong>" in page
    assert "<strong>1204\xa0mm</strong>" in desk.get(f"/face/{surveyed.face}?line_mm=1200").text


@pytest.mark.parametrize(
    ("query", "field"),
    [
        ({"stock_mm": "thick"}, "stock_mm"),
        ({"stock_mm": "-1"}, "stock_mm"),
        ({"stock_mm": "1 " * 60}, "stock_mm"),
        ({"line_mm": "knee"}, "line_mm"),
        ({"line_mm": "-5"}, "line_mm"),
        ({"line_mm": "NaN"}, "line_mm"),
    ],
)
def test_what_cannot_be_set_out_is_said_beside_its_input(
    surveyed: Surveyed, desk: Desk, query: dict[str, str], field: str
) -> None:
    """The page comes all the same, with what was typed."""
    set_out(surveyed)
    answer = desk.get(f"/face/{surveyed.face}", query_string=query)
    assert answer.status_code == 422
    assert set(messages(answer)) == {field}
    assert "Booking" in answer.text


def test_face_without_survey_has_no_setting_out(surveyed: Surveyed, desk: Desk) -> None:
    """Neither surface nor floor: nothing is offered."""
    assert "Setting out" not in desk.get(f"/face/{surveyed.face}").text


def test_figures_may_be_parted_by_spaces_or_semicolons() -> None:
    """A decimal comma is understood."""
    assert thicknesses(" 0,5 1;2\n5 ") == [0.5, 1, 2, 5]
    assert thicknesses("") == []
    with pytest.raises(FieldbookError):
        thicknesses("1 x")


def test_packers_at_the_desk_are_those_that_stand_it_upright(surveyed: Surveyed, desk: Desk) -> None:
    """On a face that leans back 6 mm in a metre the upper fixing is packed out, though the rail would lie flat."""
    leaning = [[x, z, proud] for x in (900, 2100) for z, proud in ((1000, 6), (2000, 0))]
    surveyed.book.write("face", {"surface": leaning}, surveyed.face)
    post = surveyed.fitting(x_mm=1000, z_mm=1000, width_mm=60, height_mm=1000)
    for mark, z in (("D1.1", 1000), ("D1.2", 2000)):
        surveyed.fixing(post, mark=mark, x_mm=1000, z_mm=z)
    page = desk.get(f"/face/{surveyed.face}").text
    assert [row_of(page, mark)[3] for mark in ("D1.1", "D1.2")] == ["0\xa0mm", "6\xa0mm"]
