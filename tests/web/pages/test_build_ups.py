"""Layers taken by the name of a build-up, and what is asked when that is changed."""

from __future__ import annotations

from urllib.parse import parse_qs, urlsplit

from fieldbook.web.all_or_nothing import ITEMS
from tests.sites import Surveyed
from tests.web.conftest import Desk, shown

LIMED = [["limewash", 1, "old"], ["soft brick", 228, None]]


def test_name_of_a_build_up_stands_for_its_layers_without_scripts(surveyed: Surveyed, desk: Desk) -> None:
    """However it is written; a name that is none is a material as before."""
    entered = {"name": "Limed brick", "sort": "wall", "layers": "limewash; 1; o\nsoft brick; 228"}
    made = desk.entered(f"/site/{surveyed.site}/new/build_up", entered)
    assert surveyed.book.item(made)[1]["layers"] == LIMED
    page = desk.get(f"/item/{surveyed.face}/change").text
    assert 'value="Limed brick"' in page
    desk.changed(surveyed.face, layers="limed brick ")
    assert surveyed.book.item(surveyed.face)[1]["layers"] == LIMED
    desk.changed(surveyed.face, layers="limed brick in parts")
    assert surveyed.book.item(surveyed.face)[1]["layers"] == [["limed brick in parts", None, None]]


def test_change_of_a_build_up_asks_about_the_faces_that_are_described_so(surveyed: Surveyed, desk: Desk) -> None:
    """The page that follows has the new layers in it and the faces ticked; saved, they hold there too."""
    book = surveyed.book
    made = book.write("build_up", {"site": surveyed.site, "name": "Limed brick", "sort": "wall", "layers": LIMED})
    book.write("face", {"layers": LIMED}, item=surveyed.face)
    answer = desk.changed(made, layers="soft brick; 228; old")
    asked = urlsplit(answer.location)
    assert parse_qs(asked.query)[ITEMS] == [surveyed.face]
    page = desk.get(answer.location).text
    assert "R1-N is described so." in page
    assert book.item(surveyed.face)[1]["layers"] == LIMED
    desk.post(answer.location, shown(page) | {ITEMS: surveyed.face})
    assert book.item(surveyed.face)[1]["layers"] == [["soft brick", 228, "old"]]


def test_change_of_a_build_up_is_taken_over_by_planned_fittings(surveyed: Surveyed, desk: Desk) -> None:
    """And told."""
    book = surveyed.book
    batten = {"site": surveyed.site, "name": "Batten", "sort": "fitting", "build_up": [["larch batten", 19, 0.5]]}
    made = book.write("build_up", batten)
    fitting = surveyed.fitting(build_up=batten["build_up"])
    answer = desk.changed(made, build_up="larch batten; 22; 0.5")
    assert book.item(fitting)[1]["build_up"] == [["larch batten", 22, 0.5]]
    assert "D1: made like it, took this over." in desk.get(answer.location).text
