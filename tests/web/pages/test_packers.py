"""The packers a face calls for, entered by one press."""

from __future__ import annotations

from tests.sites import Surveyed
from tests.web.conftest import Desk

BULGE = [[x, z, 6.0 if x == 1500 else 0.0] for x in (500, 1000, 1500, 2000) for z in (1000, 2000)]


def stands(surveyed: Surveyed, *items: str) -> list[float | None]:
    """The packers of some fixings, mm."""
    return [surveyed.book.item(item)[1]["packers_mm"] for item in items]


def test_packers_are_taken_over_where_none_is_entered(surveyed: Surveyed, desk: Desk) -> None:
    """Over a bulge of 6 mm the two at the flat need 6 each and the one on it none; what is fitted is left."""
    surveyed.book.write("face", {"surface": BULGE}, surveyed.face)
    fitting = surveyed.fitting()
    left, on_it, right = (
        surveyed.fixing(fitting, mark=f"D1.{at}", x_mm=x, z_mm=1500) for at, x in enumerate((1000, 1500, 2000), 1)
    )
    surveyed.book.write("fixing", {"state": "fitted"}, right)
    page = desk.get(f"/face/{surveyed.face}").text
    assert "Enter these packers" in page
    answer = desk.post(
        f"/item/{fitting}/packers", {"base": str(surveyed.book.revision())}, page=f"/face/{surveyed.face}"
    )
    assert answer.location.endswith("#setting-out")
    assert stands(surveyed, left, on_it, right) == [6, 0, None]
    assert "Enter these packers" not in desk.get(page).text


def test_packers_of_ones_own_are_not_mixed_with_those_worked_out(surveyed: Surveyed, desk: Desk) -> None:
    """All 2 mm thicker is as plumb, only further out: the others' would be wrong beside it."""
    surveyed.book.write("face", {"surface": BULGE}, surveyed.face)
    fitting = surveyed.fitting()
    left, right = (surveyed.fixing(fitting, mark=f"D1.{at}", x_mm=x, z_mm=1500) for at, x in enumerate((1000, 1500), 1))
    surveyed.book.write("fixing", {"packers_mm": 8}, left)
    page = f"/face/{surveyed.face}"
    assert "Enter these packers" not in desk.get(page).text
    answer = desk.post(f"/item/{fitting}/packers", page=page)
    assert "packers of their own" in desk.get(answer.location).text
    assert stands(surveyed, left, right) == [8, None]


def test_thicknesses_that_are_none_are_told(surveyed: Surveyed, desk: Desk) -> None:
    """Nothing is entered, and the page says why; a fitting that is none is not there."""
    fitting = surveyed.fitting()
    surveyed.fixing(fitting)
    page = f"/face/{surveyed.face}"
    surveyed.book.write("face", {"surface": BULGE}, surveyed.face)
    answer = desk.post(f"/item/{fitting}/packers", {"stock_mm": "thin"}, page=page)
    assert "not a number" in desk.get(answer.location).text
    assert desk.post(f"/item/{surveyed.face}/packers", page=page).status_code == 404
