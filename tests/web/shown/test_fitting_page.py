"""The page of a fitting: its place, its load path, its cutting plan and its projection."""

from __future__ import annotations

import re

from tests.sites import Surveyed
from tests.web.conftest import Desk

CUT = {"parts": [["shelf", 900, 300, 7, "along"]], "stock_length_mm": 2440, "stock_width_mm": 1220, "kerf_mm": 3}


def headings(page: str) -> list[str]:
    """What the drawings of a page are."""
    return re.findall(r'<h2 id="drawing-\d">([^<]+)</h2>', page)


def test_fitting_that_is_all_entered_has_all_drawings(surveyed: Surveyed, desk: Desk) -> None:
    """Its place with its fixings, its load path and its cutting plan with the number of sheets."""
    rail = surveyed.fitting(mass_loaded_kg=9, centre_out_mm=30, **CUT)
    surveyed.fixing(rail)
    surveyed.fixing(rail, mark="D1.2", x_mm=1900)
    page = desk.get(f"/item/{rail}").text
    assert headings(page) == ["Place on the face", "Load path", "Cutting plan"]
    assert "89 N down" in page.replace("\xa0", " ")
    assert "omes out of 1\xa0sheet; no layout can do with fewer." in page


def test_what_is_not_entered_is_not_drawn(surveyed: Surveyed, desk: Desk) -> None:
    """No weight, no load path; no parts, no plan."""
    assert headings(desk.get(f"/item/{surveyed.fitting()}").text) == ["Place on the face"]


def test_parts_without_stock_are_not_known(surveyed: Surveyed, desk: Desk) -> None:
    """It is said what is missing."""
    page = desk.get(f"/item/{surveyed.fitting(**CUT | {'kerf_mm': None})}").text
    assert "Cutting plan" not in headings(page)
    assert "The kerf of the saw for D1 is not entered." in page


def test_fitting_cut_from_named_stock_has_no_plan_of_its_own(surveyed: Surveyed, desk: Desk) -> None:
    """It is laid out with all others on the workshop sheets; nothing is asked for here. Its form offers the name."""
    prices = [["ash board", 2100, 180, None], ["hinge", None, None, 4.4]]
    surveyed.book.write("site", {"prices": prices}, surveyed.site)
    rail = surveyed.fitting(**CUT | {"cut_from": "Ash board", "stock_length_mm": None, "stock_width_mm": None})
    page = desk.get(f"/item/{rail}").text
    assert "Cutting plan" not in headings(page)
    assert "length of the stock" not in page
    form = desk.get(f"/item/{rail}/change").text
    assert '<option value="ash board">' in form
    assert '<option value="hinge">' not in form


def test_projection_stands_beside_what_is_clear(surveyed: Surveyed, desk: Desk) -> None:
    """Layers of 10 ± 3 and 20 ± 4: 30 as drawn, 35 likely, 37 at worst; the flat limit leaves 60 less its margin."""
    surveyed.limit(sort="flat", name="Way", projection_mm=60, margin_mm=5)
    rail = surveyed.fitting(build_up=[["packers", 10, 3], ["rail", 20, 4]])
    surveyed.fixing(rail, packers_mm=8)
    page = desk.get(f"/item/{rail}").text
    foot = page.partition("<tfoot>")[2].partition("</tfoot>")[0]
    assert re.findall(r'<td class="figure">([^<]+)</td>', foot) == ["30\xa0mm", "35\xa0mm", "37\xa0mm", "55\xa0mm"]
    assert "The thickest packer entered behind its fixings is 8\xa0mm" in page


def test_depth_that_nothing_limits_is_said(surveyed: Surveyed, desk: Desk) -> None:
    """No limit is no figure."""
    assert "nothing limits it" in desk.get(f"/item/{surveyed.fitting()}").text


def test_other_items_and_withdrawn_fittings_have_no_drawings(surveyed: Surveyed, desk: Desk) -> None:
    """A zone is not cut out of sheets; what was withdrawn is on no drawing."""
    rail = surveyed.fitting(**CUT)
    surveyed.book.withdraw(rail)
    for item in (rail, surveyed.zone()):
        assert headings(desk.get(f"/item/{item}").text) == []
