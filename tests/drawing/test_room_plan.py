"""The plan of a room: faces on their bearings, leaves and ways in front of them, and what is missing said."""

from __future__ import annotations

import pytest

from fieldbook.drawing import drafting as d
from fieldbook.drawing.room_plan import plan_point, room_plan
from fieldbook.findings import appraise
from tests.drawing.drawn import LOOKED, SVG, Wall, face_place, of_item, paths_of, points_of, read, words_of

ROOM = [[0, 0], [4000, 0], [4000, 3000], [0, 3000]]


@pytest.fixture
def hall() -> Wall:
    """A room of 4 m by 3 m; its one face is the north wall, which one stands in front of looking along +y."""
    wall = Wall()
    wall.change(wall.room, plan=ROOM)
    wall.change(wall.face, start_x_mm=0, start_y_mm=3000, bearing_deg=0)
    return wall


def plan_of(hall: Wall, **more: object) -> str:
    """The plan with the site's own verdicts."""
    return room_plan(hall.site, hall.room, appraise(hall.site), **more)


@pytest.mark.parametrize(
    ("bearing", "x", "y", "place"),
    [
        (0, 1000, 100, (1000, 2900)),  # the north wall: out of it is southwards
        (-90, 1000, 100, (-100, 2000)),  # the east wall: x runs southwards, out of it is westwards
        (180, 1000, 0, (-1000, 3000)),
        (90, 1000, 100, (100, 4000)),
    ],
)
def test_out_of_a_face_lies_a_quarter_turn_clockwise_from_along_it(
    hall: Wall, bearing: float, x: float, y: float, place: tuple[float, float]
) -> None:
    """Standing in front of a face x runs to the right, so seen from above y points back at whoever stands there."""
    assert plan_point(hall.change(hall.face, bearing_deg=bearing), x, y) == pytest.approx(place)


def test_outline_of_the_room_is_true_to_scale(hall: Wall) -> None:
    """Its corners are read back where they were surveyed, and its size is dimensioned."""
    drawing = plan_of(hall)
    outline = next(path for path in read(drawing).iter(f"{SVG}path") if path.get("stroke-width") == "0.7")
    places = [face_place(drawing, *point) for point in points_of(outline)]
    assert [tuple(round(value) for value in place) for place in places] == [tuple(corner) for corner in ROOM]
    assert {"4000", "3000"} <= set(words_of(drawing))


def test_fitting_stands_out_into_the_room(hall: Wall) -> None:
    """A case 300 mm deep on the north wall lies between its surface and 300 mm south of it."""
    hall.change(hall.face, looked_for=LOOKED)
    fitting = hall.fitting(build_up=[["case", 300, 0]])
    drawing = plan_of(hall)
    (outline,) = paths_of(drawing, fitting)
    xs, ys = zip(*(face_place(drawing, *point) for point in points_of(outline)), strict=True)
    assert (min(xs), max(xs), min(ys), max(ys)) == pytest.approx((2000, 3000, 2700, 3000), abs=1)


def test_leaf_swings_into_the_room(hall: Wall) -> None:
    """What the door sweeps reaches as far into the room as its leaf is wide, less what it hangs behind the surface."""
    limit = hall.limit()
    drawing = plan_of(hall)
    swept = next(path for path in paths_of(drawing, limit) if path.get("stroke-dasharray") == "3 0.75")
    assert min(face_place(drawing, *point)[1] for point in points_of(swept)) == pytest.approx(3000 - 812, abs=8)


def test_way_is_drawn_as_wide_as_it_must_stay(hall: Wall) -> None:
    """1,200 mm clear of 1,400 mm lie from 200 to 1,400 mm in front of the face."""
    limit = hall.add(
        "limit",
        face=hall.face.id,
        mark="L2",
        name="Way",
        sort="route",
        margin_mm=0,
        available_mm=1400,
        clear_width_mm=1200,
    )
    drawing = plan_of(hall)
    (edge,) = paths_of(drawing, limit)
    ys = {round(face_place(drawing, *point)[1]) for point in points_of(edge)}
    assert ys == {2800, 1600}
    assert "L2 1200 clear" in words_of(drawing)


def test_face_without_a_place_in_the_plan_is_named(hall: Wall) -> None:
    """The drawing says which faces it leaves out and what to enter."""
    hall.add("face", room=hall.room.id, mark="R1-C", name="Column", sort="column side", width_mm=200, height_mm=2600)
    assert any("Not placed in the plan: R1-C" in words for words in words_of(plan_of(hall)))


def test_room_without_an_outline_is_drawn_from_its_faces(hall: Wall) -> None:
    """What is known is drawn, and what is missing said."""
    hall.change(hall.room, plan=None)
    drawing = plan_of(hall)
    assert of_item(drawing, hall.face)
    assert "The outline of this room was not entered." in words_of(drawing)


def test_room_without_any_plan_says_what_is_missing() -> None:
    """No drawing is made up."""
    wall = Wall()
    words = " ".join(words_of(room_plan(wall.site, wall.room, [])))
    assert "The outline of this room was not entered." in words
    assert "R1-N" in words


def test_face_that_looks_out_of_its_room_is_reported(hall: Wall) -> None:
    """A bearing the wrong way round would put everything on the far side of the wall: the plan says so."""
    assert not any("looks out of the room" in words for words in words_of(plan_of(hall)))
    hall.change(hall.face, start_x_mm=4000, bearing_deg=180)
    assert any("R1-N looks out of the room" in words for words in words_of(plan_of(hall)))


def test_verdict_of_a_fitting_stands_in_the_plan_as_a_word(hall: Wall) -> None:
    """Over is told in words."""
    hall.limit()
    hall.fitting(x_mm=600, width_mm=300, build_up=[["case", 400, 0]])
    assert "D1 over" in " ".join(words_of(plan_of(hall)))


def test_hostile_names_stay_text(hall: Wall) -> None:
    """Names from outside add no element."""
    hall.change(hall.room, name="<script>x</script>")
    hall.fitting(mark='"><b>')
    tags = {element.tag.removeprefix(SVG) for element in read(plan_of(hall, interactive=True)).iter()}
    assert tags <= {"svg", "title", "g", "a", "path", "text", "circle"}


def test_planned_fitting_is_in_the_ink_of_plans(hall: Wall) -> None:
    """As on the elevation."""
    fitting = hall.fitting()
    assert paths_of(plan_of(hall), fitting)[0].get("stroke") == d.BLUE
