"""The table of materials: every row with its source, the site's own marked and first, found by name."""

from __future__ import annotations

import re
from html import unescape

import pytest

from fieldbook.checks.materials import GROUPS, table
from tests.sites import Surveyed
from tests.web.conftest import Desk

ROW = re.compile(r'<tr><th scope="row"[^>]*>(.*?)</tr>', re.DOTALL)


def rows_of(page: str) -> list[str]:
    """The rows of the table, as text."""
    return [unescape(re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", row))).strip() for row in ROW.findall(page)]


def test_every_row_stands_with_its_source_and_how_sure_it_is(desk: Desk) -> None:
    """As many as the table has, none without a source."""
    rows = rows_of(desk.get("/materials").text)
    assert len(rows) == len(table())
    told = re.compile(r"(read in the source|second hand|from memory|no published source found –)$")
    assert all(told.search(row) for row in rows)
    assert any("Wood Handbook" in row for row in rows)


def test_rows_of_the_site_stand_first_and_are_marked_as_its_own(surveyed: Surveyed, desk: Desk) -> None:
    """A figure from an adviser's letter, with a link to where it is entered."""
    own = {"site": surveyed.site, "name": "Old dado deal", "group": "substrate", "bearing_n_mm2": 1.2}
    item = surveyed.book.write("material", own | {"source": "Adviser's letter"})
    page = desk.get(f"/site/{surveyed.site}/materials").text
    first = rows_of(page)[0]
    assert first.startswith("Old dado deal")
    assert first.endswith("Adviser's letter the site's own")
    assert "bearing strength 1.2 N/mm²" in first
    assert f'href="/item/{item}"' in page


@pytest.mark.parametrize(
    ("named", "name"), [("sitka spruce", "Spruce, Sitka"), ("SPRUCE si", "Spruce, Sitka"), ("basswood", "Basswood, ")]
)
def test_name_is_found_in_any_order_and_case(desk: Desk, named: str, name: str) -> None:
    """Words may be begun only."""
    rows = rows_of(desk.get("/materials", query_string={"named": named}).text)
    assert rows
    assert all(row.startswith(name) for row in rows)


def test_group_and_name_are_kept_in_the_form(desk: Desk) -> None:
    """What was asked for stays to be seen."""
    page = desk.get("/materials", query_string={"named": "steel", "group": "metal"}).text
    assert 'value="steel"' in page
    assert "<option selected>metal</option>" in page
    assert {row.group for row in table(named="steel", group="metal")} == {"metal"}


@pytest.mark.parametrize("query", [{"named": "unobtainium"}, {"group": "cheese"}, {"named": "<zzz>\x00"}])
def test_nothing_found_is_said(desk: Desk, query: dict[str, str]) -> None:
    """An empty answer is an answer."""
    answer = desk.get("/materials", query_string=query)
    assert answer.status_code == 200
    assert "0 rows." in answer.text


def test_every_group_has_rows() -> None:
    """No group to choose from is empty."""
    assert all(table(group=group) for group in GROUPS)
