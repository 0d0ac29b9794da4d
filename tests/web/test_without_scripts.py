"""The main job at the desk by links and forms alone, as a browser without scripts has it."""

from __future__ import annotations

import re
from html import unescape
from typing import Any

import pytest

from fieldbook.book.book import Book
from fieldbook.web import create_app
from tests.web.conftest import Desk, messages, shown


class Walk:
    """Somebody who goes from page to page: only what a page links to is opened, only what its form asks is sent."""

    def __init__(self, desk: Desk, address: str):
        self.desk, self.at, self.page = desk, address, desk.get(address).text

    def click(self, words: str) -> Walk:
        """Follow the first link with these words."""
        for attributes, inner in re.findall(r"<a\b([^>]*)>(.*?)</a>", self.page, re.DOTALL):
            if re.sub(r"<[^>]+>|\s+", " ", inner).strip() == words:
                return self._to(unescape(re.findall(r'href="([^"]*)"', attributes)[0]))
        raise AssertionError(f"{self.at} has no link {words}")

    def find(self, title: str) -> Walk:
        """Search the site for something, and open it."""
        self.click("Search")
        return self._to(f"{self.at}?words={title}").click(title)

    def save(self, **typed: Any) -> Walk:
        """Fill in the form of the page and send it; it must be accepted."""
        asked = shown(self.page)
        assert typed.keys() <= asked.keys() | set(re.findall(r'name="([^"]+)"', self.page)), typed.keys() - asked.keys()
        answer = self.desk.checked(self.desk.client.post(self.at, data=asked | typed, buffered=True))
        assert answer.status_code == 303, messages(answer) or answer.text
        return self._to(answer.location)

    def _to(self, address: str) -> Walk:
        self.at, self.page = address, self.desk.get(address).text
        return self


@pytest.fixture
def walk(empty_book: Book) -> Walk:
    """In front of an empty book."""
    return Walk(Desk(create_app(empty_book.folder, access="open")), "/")


def test_job_is_done_by_links_and_forms_alone(walk: Walk, empty_book: Book) -> None:
    """A room from its outline as typed, its walls, zones by the row, a hook, a fitting with fixings, all put up."""
    walk.click("New site").save(name="Weigh house", keeper="warden of the weigh house")
    walk.click("New room").save(mark="R4", name="Tally room", plan="0 0\n0 3415\n4870 3415\n4870 0", ceiling_mm="2935")
    rows = walk.click("Walls from the plan").page
    names = (f"Wall {letter}" for letter in "ABCD")
    told = "\n".join(row.replace("; ;", f"; {next(names)};", 1) for row in shown(rows)["rows"].splitlines())
    walk.save(rows=told)
    walls = empty_book.items("face")
    assert sorted(one["width_mm"] for one in walls) == [3415, 3415, 4870, 4870]

    wall = next(f"{one['mark']} {one['name']}" for one in walls if one["width_mm"] == 4870)
    walk.find(wall).click("New keep-off zone")
    assert 'aria-label="What is meant by margin?"' in walk.page
    walk.click("Several at once").save(
        forbids=["drilling", "contact"], margin_mm="35", reason="stencilled weights under the wash",
        columns=["mark", "name", "outline"],
        rows="K1; Stencil; rectangle 310 1490 640 205\n; Tally marks; rectangle 3960 905 415 270",
    )  # fmt: skip
    assert [one["mark"] for one in empty_book.items("zone")] == ["K1", "K2"]
    walk.find(wall).click("New existing hole or fixing point").save(
        mark="H1", sort="hook", x_mm="1 735", z_mm="2015", may_be_used="yes"
    )
    walk.find(wall).click("New fitting").save(
        mark="D1",
        name="Chart rail",
        x_mm="1460",
        z_mm="1985",
        width_mm="1275",
        height_mm="65",
        build_up="rail; 24; 1,5",
    )
    common = {"sort": "hook", "contact_radius_mm": "9", "hole": "none", "fabric": "later work", "trace": "none"}
    walk.click("New fixing").save(**common, mark="D1.1", x_mm="1735", z_mm="2015")
    walk.find("D1 Chart rail").click("New fixing").click("Several at once").save(
        **common, rows='; 2110; 2015\n; 2545; "'
    )
    walk.find("D1 Chart rail").click("Fitted, with its fixings").save(
        fitted_by="fitter", fitted_on="2026-03-19", fitted_place="as planned, checked with a tape"
    )

    fixings = empty_book.items("fixing")
    assert [(one["mark"], one["x_mm"], one["state"]) for one in fixings] == [
        ("D1.1", 1735, "fitted"), ("D1.2", 2110, "fitted"), ("D1.3", 2545, "fitted"),
    ]  # fmt: skip
    assert {one["state"] for one in empty_book.items("fitting")} == {"fitted"}
