"""The customs shed has everything a site can have, and hangs together."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from datetime import date, datetime
from typing import Any

import pytest

import demo_site
from fieldbook.book import ledger
from fieldbook.book.book import Book
from fieldbook.book.evidence import path_of
from fieldbook.book.examine import examine
from fieldbook.book.site import Item, Site
from fieldbook.checks import removal
from fieldbook.checks.verdict import Word
from fieldbook.findings import appraise
from fieldbook.findings.open_points import open_points
from fieldbook.findings.taking_down import takedown_items
from fieldbook.model.choices import CLASSES, FABRICS, STATES, TRACES
from tests.demo_site.conftest import Shed

TODAY = date(2026, 3, 20)
MOST_OPEN = 15
UUID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")


def entries_without_ids(book: Book) -> list[str]:
    """Every entry's text, each id replaced by how manyeth it is to appear."""
    seen: dict[str, str] = {}

    def number(match: re.Match) -> str:
        return seen.setdefault(match[0], f"<{len(seen)}>")

    keys = ("device", "at", "kind", "item", "set", "withdraw")
    return [
        UUID.sub(number, ledger.canonical({key: entry[key] for key in keys if key in entry}))
        for entry in ledger.entries(book.db)
    ]


def inside(fitting: Item, x_mm: float, z_mm: float) -> bool:
    """Whether a point of the face lies within a fitting's rectangle."""
    return (
        fitting.x_mm <= x_mm <= fitting.x_mm + fitting.width_mm
        and fitting.z_mm <= z_mm <= fitting.z_mm + fitting.height_mm
    )


@pytest.mark.parametrize(
    ("kind", "number"),
    [
        ("room", 4),
        ("face", 12),
        ("zone", 25),
        ("limit", 10),
        ("hold", 20),
        ("build_up", 1),
        ("fitting", 14),
        ("fixing", 90),
        ("finish", 6),
        ("agreement", 6),
        ("decision", 4),
        ("document", 4),
        ("member", 4),
        ("patch", 1),
        ("task", 10),
        ("visit", 7),
        ("cost", 20),
        ("observation", 12),
        ("photograph", 37),
    ],
)
def test_site_holds_so_many_of_each_kind(shed_site: Site, kind: str, number: int) -> None:
    """The shed is large enough to try everything on, and no item of it is lost."""
    assert len(shed_site.all(kind)) == number


def test_fixings_are_in_every_state_and_leave_every_trace(shed_site: Site) -> None:
    """What can be said of a fixing is said of some."""
    fixings = shed_site.all("fixing")
    assert {fixing.state for fixing in fixings} == set(STATES)
    assert {fixing.trace for fixing in fixings} == set(TRACES)
    assert {fixing.fabric for fixing in fixings} == set(FABRICS)
    assert {fitting.state for fitting in shed_site.all("fitting")} == set(STATES)


def test_limits_are_of_every_sort_and_leaf(shed_site: Site) -> None:
    """Doors, a shutter, a casement and a gate, routes, headroom and flat limits: all are there."""
    limits = shed_site.all("limit")
    assert {limit.sort for limit in limits} == {"leaf", "route", "headroom", "flat"}
    assert {limit.leaf for limit in limits if limit.leaf} == {"door", "shutter", "casement", "gate"}


def test_agreements_and_condition_classes_are_of_every_sort(shed_site: Site) -> None:
    """A keeper says yes, yes with conditions and no; conditions run from none to major."""
    assert {one.answer for one in shed_site.all("agreement")} == {"yes", "yes, with conditions", "no"}
    assert {one.condition_class for one in shed_site.all("observation")} == set(CLASSES)


# Every open point of the shed, by the marks it names and a word of it: each one that a careful person would accept.
OPEN = {
    "stop": ("D9.6: |K17", "D6: |L1", "D6, D6.1|No: A5"),
    "this_walk": (
        "depth into the wall|D11.3",
        "layers, from the wall outwards|D14",
        "reaction to fire|D14",
        "surface temperature of R1-E|from October to March",  # its one reading may be off
    ),
    "later": (
        "Ask the keeper about D14|6",
        "Ask the keeper about D9|1",
        "D4: |Have birch",
        "D6: |timber adviser",
        "load agreed for the wall|R1-S",
        "load agreed for the wall|R3-E",
    ),
}


def test_what_is_open_is_a_handful_that_a_careful_person_would_accept(shed_site: Site) -> None:
    """Ordinary work carefully entered is decided; what is left is expected, line by line, of every word there is."""
    findings = appraise(shed_site, TODAY)
    points = open_points(shed_site, findings)
    assert sum(len(getattr(points, name)) for name in OPEN) <= MOST_OPEN
    for name, expected in OPEN.items():
        lines = [point.line for point in getattr(points, name)]
        assert len(lines) == len(expected), lines
        for words in expected:
            assert any(all(word in line for word in words.split("|")) for line in lines), (words, lines)
    assert set(Word) == {one.word for one in findings}


def test_fixings_lie_within_the_rectangle_of_their_fitting(shed_site: Site) -> None:
    """Planned and as fitted, a fixing is under what it holds."""
    for fixing in shed_site.all("fixing"):
        fitting = shed_site[fixing.fitting]
        assert fixing.face == fitting.face
        assert fixing.mark.startswith(f"{fitting.mark}.")
        assert inside(fitting, fixing.x_mm, fixing.z_mm), fixing.mark
        if fixing.fitted_x_mm is not None:
            assert inside(fitting, fixing.fitted_x_mm, fixing.fitted_z_mm), fixing.mark


def test_what_went_up_was_measured_and_is_a_few_millimetres_off(shed_site: Site) -> None:
    """Everything fitted or taken down has its as-fitted place; hardly any is where it was planned to the millimetre."""
    off = []
    for fixing in shed_site.all("fixing"):
        if fixing.state == "planned":
            assert fixing.fitted_x_mm is None
        else:
            off.append(max(abs(fixing.fitted_x_mm - fixing.x_mm), abs(fixing.fitted_z_mm - fixing.z_mm)))
    assert max(off) <= 10
    assert sum(distance > 0 for distance in off) > len(off) / 2


def test_fittings_stand_inside_their_faces(shed_site: Site) -> None:
    """No fitting reaches past the edge of its face."""
    for fitting in shed_site.all("fitting"):
        face = shed_site[fitting.face]
        assert fitting.x_mm >= face.left_mm
        assert fitting.x_mm + fitting.width_mm <= face.left_mm + face.width_mm
        assert fitting.z_mm >= face.bottom_mm
        assert fitting.z_mm + fitting.height_mm <= face.bottom_mm + face.height_mm


def test_removal_order_matters(shed_site: Site) -> None:
    """What hangs on the frame and what covers the channel comes off before them."""
    order = [step.item.name.split()[0] for step in removal.steps(takedown_items(shed_site))]
    assert order.index("D2") < order.index("D1")
    assert order.index("D11") < order.index("D10")


def test_walls_lean_and_floors_slope(shed_site: Site) -> None:
    """At least five faces have readings of a surface that is not true, and a floor that is not level."""
    uneven = [
        face
        for face in shed_site.all("face")
        if len(face.surface or []) >= 12
        and max(row[2] for row in face.surface) - min(row[2] for row in face.surface) > 5
    ]
    sloping = [face for face in shed_site.all("face") if len({z for _, z in face.floor or []}) > 1]
    assert len(uneven) >= 5
    assert len(sloping) >= 5


@pytest.mark.parametrize("quantity", ["air temperature", "relative humidity"])
def test_climate_was_logged_over_a_year_in_three_rooms(shed_site: Site, quantity: str) -> None:
    """Three rooms have a reading in every week of a year, within what the room is held to."""
    logged = [room for room in shed_site.all("room") if len(_series(shed_site, room, quantity)) > 50]
    assert [room.mark for room in logged] == ["R1", "R2", "R4"]
    for room in logged:
        days = [datetime.fromisoformat(reading.at).date() for reading in _series(shed_site, room, quantity)]
        assert max(days) - min(days) >= date(2026, 3, 12) - date(2025, 3, 17)
        if quantity == "relative humidity":
            values = [reading.value for reading in _series(shed_site, room, quantity)]
            assert room.humidity_low_pct <= min(values)
            assert max(values) <= room.humidity_high_pct


def _series(site: Site, room: Item, quantity: str) -> list[Item]:
    return [reading for reading in site.of(room, "reading") if reading.quantity == quantity]


def test_costs_stay_within_the_budget(shed_site: Site) -> None:
    """What is paid and expected is less than there is, in one currency."""
    costs = shed_site.all("cost")
    assert {cost.currency for cost in costs} == {shed_site.item.currency}
    assert sum(cost.amount for cost in costs) < shed_site.item.budget


def test_history_of_a_fixing_tells_how_it_came_about(shed_site: Site, shed_book: Book) -> None:
    """A fixing was planned at the desk, measured on the phone, and one was taken down again, each on its day."""
    by_mark = {fixing.mark: fixing for fixing in shed_site.all("fixing")}
    stories = {
        mark: [
            (entry["at"][:10], entry["device"], entry["set"]["state"])
            for entry in shed_book.history(by_mark[mark].id)
            if "state" in entry["set"]
        ]
        for mark in ("D4.1", "D13.3", "D3.1")
    }
    assert stories == {
        "D4.1": [("2025-04-02", "desk", "planned"), ("2025-05-06", "fitter’s phone", "fitted")],
        "D13.3": [
            ("2025-04-02", "desk", "planned"),
            ("2025-05-07", "fitter’s phone", "fitted"),
            ("2026-02-10", "fitter’s phone", "taken down"),
        ],
        "D3.1": [("2026-03-02", "desk", "planned")],
    }


def test_book_is_sound_and_nothing_waits_to_be_settled(shed_book: Book) -> None:
    """The chain, the tables and the photographs hold together, and no two devices disagree."""
    assert examine(shed_book) == []
    assert shed_book.conflicts() == []


def test_photographs_are_kept_and_each_face_has_its_datum(shed_site: Site, shed_book: Book) -> None:
    """Every photograph's bytes are there, and every face has one of its datum."""
    photographs = shed_site.all("photograph")
    assert all(path_of(shed_book.folder, "photograph", one.sha256).exists() for one in photographs)
    datums = Counter(shed_site[one.subject].mark for one in photographs if one.purpose == "datum")
    assert datums == Counter(face.mark for face in shed_site.all("face"))
    purposes = {one.purpose for one in photographs}
    assert purposes >= {"datum", "as found", "at work", "as fitted", "evidence", "after removal"}


def test_no_text_holds_a_mark_of_trade_or_an_address_of_the_web(shed_book: Book) -> None:
    """The shed is invented: nothing in it is sold, and nothing in it is found on the web."""
    for entry in ledger.entries(shed_book.db):
        for text in _texts(entry["set"]):
            assert not re.search(r"[™®©]|https?:|www\.|@|\bTODO\b|lorem", text), text


def _texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, (list, dict)):
        for part in value.values() if isinstance(value, dict) else value:
            yield from _texts(part)


def test_made_again_it_is_the_same_but_for_the_ids(shed: Shed, shed_book: Book, empty_book: Book) -> None:
    """Two books of the shed hold the same values in the same order."""
    said: list[str] = []
    demo_site.make(empty_book, said.append, lambda: shed.drawn)
    assert entries_without_ids(empty_book) == entries_without_ids(shed_book)
    assert said
