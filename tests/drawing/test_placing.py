"""Letters on a crowded sheet: never on each other, on a symbol, on a leader, or off the sheet."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, box

from fieldbook.drawing.placing import Placed, Plan, size_of
from tests.examples import examples

SHEET = (0.0, 0.0, 160.0, 120.0)
SPOTS = st.lists(st.tuples(st.floats(5, 155), st.floats(5, 115)), min_size=1, max_size=60)


def lettered(spots: list[tuple[float, float]]) -> Plan:
    """A plan with a symbol and letters at each spot, as far as there was room."""
    plan = Plan(SHEET)
    for x, y in spots:
        plan.take((x - 1.2, y - 1.2, x + 1.2, y + 1.2))
    for index, spot in enumerate(spots):
        _, placed = plan.find(size_of([f"D{index}.12"], 1.8), [spot], 1.1)
        if placed:
            plan.settle(placed)
    return plan


@examples(40)
@given(SPOTS)
def test_letters_never_overlap(spots: list[tuple[float, float]]) -> None:
    """However the symbols lie, no letters lie on letters or symbols, and all lie on the sheet."""
    plan = lettered(spots)
    shapes = [box(*letters) for letters in plan.letters]
    for index, shape in enumerate(shapes):
        assert all(shape.intersection(other).area < 1e-9 for other in shapes[:index])
        assert all(shape.intersection(box(x - 1.2, y - 1.2, x + 1.2, y + 1.2)).area < 1e-9 for x, y in spots)
        assert box(*SHEET).covers(shape)


@examples(40)
@given(SPOTS)
def test_leaders_cross_neither_letters_nor_each_other(spots: list[tuple[float, float]]) -> None:
    """A leader can be followed by eye from the symbol to its letters."""
    plan = lettered(spots)
    lines = [LineString(leader) for leader in plan.leaders]
    for index, line in enumerate(lines):
        assert not any(line.crosses(other) for other in lines[:index])
        assert all(line.intersection(box(*letters).buffer(-1e-6)).is_empty for letters in plan.letters)


def test_lone_symbol_is_lettered_beside_it_without_a_leader() -> None:
    """Where there is room nothing is led."""
    plan = lettered([(80, 60)])
    assert plan.leaders == []
    assert box(*plan.letters[0]).distance(box(78.9, 58.9, 81.1, 61.1)) < 1


@examples(40)
@given(SPOTS, st.lists(st.tuples(st.floats(0, 160), st.floats(0, 120)), min_size=2, max_size=8))
def test_letters_lie_on_no_line(spots: list[tuple[float, float]], line: list[tuple[float, float]]) -> None:
    """However lines run, none is hidden by letters: what finds no place beside them is not placed."""
    plan = Plan(SHEET)
    plan.avoid(line)
    for spot in spots:
        _, placed = plan.find(size_of(["D7.12"], 1.8), [spot], 1.1)
        if placed:
            plan.settle(placed)
    drawn = [LineString(ends) for ends in zip(line, line[1:], strict=False) if ends[0] != ends[1]]
    assert all(one.intersection(box(*letters).buffer(-1e-6)).is_empty for one in drawn for letters in plan.letters)


def test_area_is_led_to_from_whichever_of_its_points_has_room() -> None:
    """Where lines and letters close in its first point, the second one leads."""
    plan, area = Plan(SHEET), box(75, 30, 80, 90)
    for y in range(2, 120, 2):
        plan.avoid([(0, y), (76, y)])
    plan.settle(Placed((77, 0, 78, 120)))
    plan.take((80, 0, 84, 120))
    assert plan.find(size_of(["K1 no drilling"]), [(75, 60)], 0.6, (area, area.bounds))[1] is None
    _, placed = plan.find(size_of(["K1 no drilling"]), [(75, 60), (80, 60)], 0.6, (area, area.bounds))
    assert placed
    assert placed.box[0] > 84
    assert placed.leader


def test_letters_go_round_a_line() -> None:
    """With a line on the right, the letters come to stand on the left."""
    plan = Plan(SHEET)
    plan.avoid([(82, 0), (82, 120)])
    _, placed = plan.find(size_of(["D1.1"], 1.8), [(80, 60)], 1.1)
    assert placed
    assert placed.box[2] < 80
    assert not plan.runs_over_lines(placed.box)


def test_letters_of_an_area_stand_inside_it_where_they_fit() -> None:
    """A roomy area keeps its letters."""
    area = box(20, 20, 90, 60)
    _, placed = Plan(SHEET).find(size_of(["K1 no drilling"]), [(55, 40)], 0.6, (area, area.bounds))
    assert placed
    assert area.covers(box(*placed.box))


def test_letters_of_an_area_too_small_stand_along_it() -> None:
    """They touch neither the area nor wander off."""
    area = box(70, 50, 76, 56)
    _, placed = Plan(SHEET).find(size_of(["K1 no drilling"]), [(73, 53)], 0.6, (area, area.bounds))
    assert placed
    assert 0 < box(*placed.box).distance(area) < 1


def test_full_sheet_takes_no_more_letters() -> None:
    """Where there is no room it says so, rather than writing over something."""
    plan = Plan((0, 0, 10, 10))
    plan.take((0, 0, 10, 10))
    assert plan.find(size_of(["D1.1"]), [(5, 5)], 1)[1] is None
