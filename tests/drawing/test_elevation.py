"""The elevation of a face: everything where it is, nothing told by colour alone, nothing on top of anything."""

from __future__ import annotations

import math
import re
from itertools import combinations
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.book.site import Item
from fieldbook.checks.verdict import Verdict, Word
from fieldbook.drawing import drafting as d
from fieldbook.drawing.elevation import elevation, scale_on
from fieldbook.drawing.symbols import FIXING_MM
from fieldbook.findings import Finding, appraise, worst_words
from fieldbook.model.choices import STATES
from tests.drawing.drawn import (
    LOOKED,
    SVG,
    Wall,
    face_place,
    of_item,
    paths_of,
    points_of,
    read,
    symbol_at,
    text_boxes,
    words_of,
)
from tests.examples import examples

ON_PAPER_MM = 0.006  # coordinates are written to a hundredth


def elevation_of(wall: Wall, **more: Any) -> str:
    """The wall's elevation with its own verdicts."""
    return elevation(wall.site, wall.face, appraise(wall.site), **more)


def scale_of(drawing: str) -> int:
    """The scale the root tells."""
    return int(read(drawing).get("data-scale", ""))


def finding(item: Item, word: Word) -> Finding:
    """A verdict of this word about an item."""
    return Finding("keep-off", item, None, Verdict("keep-off", word, None, None, None, "mm", "", ""))


@examples(25)
@given(st.floats(0, 4000), st.floats(0, 2600))
def test_fixing_lands_where_it_is(x: float, z: float) -> None:
    """Read back through the figures of the root, the middle of a fixing's symbol is the fixing's place."""
    wall = Wall()
    fixing = wall.fixing(wall.fitting(), x_mm=x, z_mm=z)
    drawing = elevation_of(wall)
    assert face_place(drawing, *symbol_at(drawing, fixing)) == pytest.approx(
        (x, z), abs=2 * ON_PAPER_MM * scale_of(drawing)
    )


def test_place_on_a_face_whose_datum_is_not_its_corner_is_read_back() -> None:
    """With the datum in the middle of the face, places left of and below it have their negative figures."""
    wall = Wall()
    wall.change(wall.face, left_mm=-2000, bottom_mm=-900)
    fixing = wall.fixing(wall.fitting(x_mm=-1500, z_mm=-400), x_mm=-1400, z_mm=-360)
    drawing = elevation_of(wall)
    assert face_place(drawing, *symbol_at(drawing, fixing)) == pytest.approx((-1400, -360), abs=1)


def test_fitted_fixing_stands_where_it_was_fitted_with_a_tick_towards_the_plan() -> None:
    """The tick points from the as-fitted to the planned place, and is long enough to be seen."""
    wall = Wall()
    fixing = wall.fixing(wall.fitting(), state="fitted", x_mm=2100, fitted_x_mm=2110, fitted_z_mm=1540)
    drawing = elevation_of(wall)
    x, y = symbol_at(drawing, fixing)
    assert face_place(drawing, x, y) == pytest.approx((2110, 1540), abs=1)
    (tick,) = [path for path in paths_of(drawing, fixing) if path.get("stroke") == d.BLUE]
    start, end, *_ = points_of(tick)
    assert start == pytest.approx((x, y), abs=2 * ON_PAPER_MM)
    assert end[1] == pytest.approx(y, abs=2 * ON_PAPER_MM)
    assert x - end[0] >= 2 * FIXING_MM


@pytest.mark.parametrize(("width", "height"), [(300, 2000), (4000, 2600), (9200, 4100), (30_000, 6_000), (100, 80)])
def test_drawing_fits_its_paper_and_says_its_scale(width: float, height: float) -> None:
    """It is no larger than asked for, and no standard scale larger than the one chosen would have fitted."""
    wall = Wall()
    wall.change(wall.face, width_mm=width, height_mm=height)
    drawing = elevation_of(wall, paper_width_mm=170, paper_height_mm=210)
    root = read(drawing)
    assert float(root.get("width", "").removesuffix("mm")) == 170
    assert float(root.get("height", "").removesuffix("mm")) <= 210
    assert f"Elevation, scale 1:{root.get('data-scale')}" in words_of(drawing)
    assert scale_on(wall.site, wall.face, 170, 210) == scale_of(drawing)


def test_face_is_drawn_true_to_scale() -> None:
    """Its outline measures its width and height divided by the scale."""
    wall = Wall()
    drawing = elevation_of(wall)
    outlines = [path for path in read(drawing).iter(f"{SVG}path") if path.get("stroke-width") == "0.5"]
    xs, ys = zip(*(point for path in outlines[-1:] for point in points_of(path)), strict=True)
    assert max(xs) - min(xs) == pytest.approx(4000 / scale_of(drawing), abs=2 * ON_PAPER_MM)
    assert max(ys) - min(ys) == pytest.approx(2600 / scale_of(drawing), abs=2 * ON_PAPER_MM)


def test_zone_is_outlined_where_it_is_and_its_margin_lies_round_it() -> None:
    """The dashed line keeps the margin's distance from the outline."""
    wall = Wall()
    zone = wall.zone(margin_mm=200)
    drawing = elevation_of(wall)
    outline = next(path for path in paths_of(drawing, zone) if path.get("stroke-width") == "0.35")
    margin = next(path for path in paths_of(drawing, zone) if path.get("stroke-dasharray"))
    places = {tuple(round(value) for value in face_place(drawing, *point)) for point in points_of(outline)}
    assert places == {(500, 1500), (1100, 1500), (1100, 1900), (500, 1900)}
    xs, zs = zip(*(face_place(drawing, *point) for point in points_of(margin)), strict=True)
    assert (min(xs), max(xs), min(zs), max(zs)) == pytest.approx((300, 1300, 1300, 2100), abs=1)


def test_everything_with_a_mark_is_lettered_or_listed() -> None:
    """No mark of a zone, limit, hold, fitting or fixing is missing from the drawing, however crowded it is."""
    wall = Wall()
    fitting = wall.fitting(width_mm=600, height_mm=400)
    marks = ["K1", "L1", "H1", "D1"]
    wall.zone(), wall.limit(), wall.hold()
    for index in range(30):
        mark = f"D1.{index + 1}"
        wall.fixing(fitting, mark=mark, x_mm=2030 + 60 * (index % 10), z_mm=1550 + 120 * (index // 10))
        marks.append(mark)
    said = " ".join(words_of(elevation_of(wall)))
    words = {word.rstrip(",;.") for word in said.split()}
    for first, last in re.findall(r"D1\.(\d+) to D1\.(\d+)", said):
        words |= {f"D1.{number}" for number in range(int(first), int(last))}
    assert set(marks) <= words


def low_wall() -> Wall:
    """A wall of 24 m by 0.9 m, which is 4.5 mm high on paper."""
    wall = Wall()
    wall.change(wall.face, width_mm=24_000, height_mm=900)
    return wall


def test_what_there_is_no_room_for_is_listed_once_for_all_alike() -> None:
    """A long rail on a low wall with sixty fixings: their marks are told in runs, not one by one."""
    wall = low_wall()
    rail = wall.fitting(x_mm=300, z_mm=700, width_mm=22_000, height_mm=40)
    for index in range(60):
        wall.fixing(rail, mark=f"D1.{index + 1}", x_mm=500 + 360 * index, z_mm=720)
    said = " ".join(words_of(elevation_of(wall)))
    listed = said.partition("No room on the drawing to letter: ")[2]
    assert re.search(r"D1\.\d+ to D1\.\d+", listed)
    assert len(listed.split(";")) < 6


def test_letters_of_a_low_face_stand_below_it_rather_than_on_its_outline() -> None:
    """Where a face is too low for its letters there is paper under it, and what stands below makes room."""
    wall = low_wall()
    wall.limit()
    for index in range(8):
        left = 600 + 2_900 * index
        outline = [[left, 100], [left + 900, 100], [left + 900, 800], [left, 800]]
        wall.zone(mark=f"K{index + 1}", outline=outline, forbids=["contact"])
    drawing = elevation_of(wall)
    root = read(drawing)
    scale, top = (float(root.get(f"data-{name}", "")) for name in ("scale", "top-mm"))
    foot = top / scale  # paper y of the face's lower edge
    words = [(words, shape.bounds) for words, shape in text_boxes(drawing) if words.startswith("K")]
    assert len(words) >= 4
    assert any(bounds[1] > foot for _, bounds in words)
    assert not any(bounds[1] < foot < bounds[3] for _, bounds in words)
    heading = next(shape.bounds for said, shape in text_boxes(drawing) if said.startswith("Clear depth"))
    assert all(bounds[3] < heading[1] for _, bounds in words)


def test_twenty_fixings_on_one_fitting_are_all_lettered() -> None:
    """On a rail of a metre and a half drawn at 1:20 there is room for twenty marks."""
    wall = Wall()
    wall.change(wall.face, width_mm=2400, height_mm=1800, looked_for=LOOKED)
    fitting = wall.fitting(x_mm=400, z_mm=700, width_mm=1600, height_mm=500)
    fixings = [
        wall.fixing(fitting, mark=f"D1.{index + 1}", x_mm=440 + 169 * (index % 10), z_mm=740 + 420 * (index // 10))
        for index in range(20)
    ]
    drawing = elevation_of(wall)
    assert scale_of(drawing) == 20
    for fixing in fixings:
        (letters,) = [text for group in of_item(drawing, fixing) for text in group.iter(f"{SVG}text")]
        assert letters.text == fixing.mark


@examples(15)
@given(st.data())
def test_no_two_pieces_of_lettering_overlap(data: st.DataObject) -> None:
    """Wherever zones, fittings and fixings lie, letters and figures keep clear of each other."""
    wall = Wall()
    places = st.tuples(st.integers(0, 3900), st.integers(0, 2500))
    for index, (x, z) in enumerate(data.draw(st.lists(places, max_size=4))):
        outline = [[x, z], [x + 100, z], [x + 100, z + 100], [x, z + 100]]
        wall.zone(mark=f"K{index}", outline=outline, forbids=["drilling", "heat"])
    for index, (x, z) in enumerate(data.draw(st.lists(places, max_size=4))):
        fitting = wall.fitting(mark=f"D{index}", x_mm=x, z_mm=z, width_mm=min(800, 4000 - x), height_mm=100)
        for number, (dx, dz) in enumerate(
            data.draw(st.lists(st.tuples(st.integers(0, 99), st.integers(0, 99)), max_size=8))
        ):
            wall.fixing(fitting, mark=f"D{index}.{number}", x_mm=x + dx, z_mm=z + dz)
    if data.draw(st.booleans()):
        wall.limit()
    overlapping = [
        (one, other)
        for (one, room), (other, other_room) in combinations(text_boxes(elevation_of(wall)), 2)
        if room.intersection(other_room).area > 0.01
    ]
    assert overlapping == []


def test_running_dimensions_without_room_are_counted() -> None:
    """None is dropped without a word: those written and those that the note counts are all there are."""
    wall = Wall()
    rail = wall.fitting(mark="D1", x_mm=0, width_mm=4000)
    places = range(21, 4000, 40)
    for number, x in enumerate(places):
        wall.fixing(rail, mark=f"D1.{number}", x_mm=x)
    drawing = elevation_of(wall, to_fixings=True)
    words = words_of(drawing)
    written = sum(str(x) in words for x in places)
    (lacking,) = re.findall(r"no room for: (\d+);", " ".join(words))
    assert 0 < written < len(places)
    assert written + int(lacking) == len(places)
    assert "no room for" not in " ".join(words_of(elevation_of(Wall(), to_fixings=True)))


@pytest.mark.parametrize("word", [Word.OVER, Word.CLOSE, Word.NOT_KNOWN])
def test_verdict_stands_beside_its_item_as_word_and_sign(word: Word) -> None:
    """What is over, close or not known is told by a word and a shape, not by colour."""
    wall = Wall()
    fixing = wall.fixing(wall.fitting())
    drawing = elevation(wall.site, wall.face, [finding(fixing, word)])
    lettered = [group for group in of_item(drawing, fixing) if group.find(f"{SVG}text") is not None]
    assert [text.text for group in lettered for text in group.iter(f"{SVG}text")] == [f"D1.1 {word}"]
    assert any(list(group.iter(f"{SVG}path")) or list(group.iter(f"{SVG}circle")) for group in lettered)


def test_what_is_within_carries_no_sign() -> None:
    """A drawing on which all is well stays quiet."""
    wall = Wall()
    fixing = wall.fixing(wall.fitting())
    drawing = elevation(wall.site, wall.face, [finding(fixing, Word.WITHIN)])
    assert "D1.1" in words_of(drawing)


def test_verdicts_that_are_not_about_the_place_are_left_to_the_sheets() -> None:
    """A load that is over does not make the place look wrong; the note says what the signs are about."""
    wall = Wall()
    fixing = wall.fixing(wall.fitting())
    over = Verdict("withdrawal", Word.OVER, None, None, None, "N", "", "")
    words = words_of(elevation(wall.site, wall.face, [Finding("withdrawal", fixing, None, over)]))
    assert "D1.1" in words
    assert "keep-off zones and clearance only" in " ".join(words)


def test_worst_of_several_verdicts_is_shown() -> None:
    """Over outweighs not known, which outweighs close."""
    item = Wall().face
    words = worst_words([finding(item, word) for word in (Word.CLOSE, Word.OVER, Word.NOT_KNOWN, Word.WITHIN)])
    assert words == {item.id: Word.OVER}


def test_states_of_a_fitting_differ_by_line_and_not_by_ink_alone() -> None:
    """Planned is narrow, fitted wide, taken down dashed."""
    styles = set()
    for state in STATES:
        wall = Wall()
        fitting = wall.fitting(state=state)
        outline = paths_of(elevation_of(wall), fitting)[0]
        styles.add((outline.get("stroke-width"), outline.get("stroke-dasharray")))
    assert len(styles) == len(STATES)


def test_holes_of_fixings_differ_by_shape() -> None:
    """No hole, an existing one and a new one have three different symbols."""
    shapes = set()
    for hole in ("none", "existing", "new"):
        wall = Wall()
        fixing = wall.fixing(wall.fitting(), hole=hole)
        shapes.add(tuple(path.get("d") for path in paths_of(elevation_of(wall), fixing)))
    assert len(shapes) == 3


def test_clear_depth_is_given_for_each_fitting() -> None:
    """23 mm stand out; the door of the published case leaves 204.6269 mm there, and 204.6 may be relied on.

    Source of the figure: plane geometry of a leaf that opens to 160°, worked by hand beside `leaf_clear_depth`.
    """
    wall = Wall()
    wall.limit()
    wall.fitting(x_mm=500, width_mm=0.001)
    assert any(words.split() == ["D1", "23", "of", "204.6"] for words in words_of(elevation_of(wall)))


def test_clear_depth_is_not_invented_where_nothing_limits() -> None:
    """Without a limit the strip shows what stands out and says that there is no limit."""
    wall = Wall()
    wall.fitting()
    words = words_of(elevation_of(wall))
    assert any(each.split() == ["D1", "23"] for each in words)
    assert "No clearance limit is entered for this face." in words


def test_unknown_projection_is_shown_as_such() -> None:
    """A fitting without a build-up has a question mark for its figure."""
    wall = Wall()
    wall.fitting(build_up=None)
    assert any(each.split() == ["D1", "?"] for each in words_of(elevation_of(wall)))


def test_strip_at_a_height_shows_what_holds_at_that_height() -> None:
    """Above the door's band neither the leaf nor a lower fitting is cut."""
    wall = Wall()
    wall.limit(z_from_mm=0, z_to_mm=2000)
    wall.fitting()
    wall.fitting(mark="D2", z_mm=2200)
    figures = [words.split() for words in words_of(elevation_of(wall, z_mm=2240)) if "  " in words]
    assert figures == [["D2", "23"]]


def test_open_and_closed_leaf_lie_square_under_the_elevation() -> None:
    """The hinge side of the closed leaf lies under x = 1,000, its free edge under x = 1,800."""
    wall = Wall()
    limit = wall.limit()
    drawing = elevation_of(wall)
    ends = next(path for path in paths_of(drawing, limit) if path.get("stroke") == d.BLACK)
    closed = ends.get("d", "").split("M")[1]
    xs = [float(point.split()[0]) for point in closed.split("L")]
    assert [face_place(drawing, x, 0)[0] for x in (min(xs), max(xs))] == pytest.approx([1000, 1800], abs=1)


def test_limit_the_check_refuses_is_named_under_the_drawing() -> None:
    """A leaf without an area cannot be drawn; the drawing says which and why, and shows the rest."""
    wall = Wall()
    wall.limit(boxes=[[0, 0, -50, -10]])
    wall.fitting()
    words = " ".join(words_of(elevation_of(wall)))
    assert "L1 cannot be drawn" in words
    assert "D1" in words


def test_zone_on_the_floor_is_told_below_the_drawing() -> None:
    """Drawn 150 to 250 mm below the foot of the wall it lies so far out on the floor, where the wall shows nothing."""
    wall = Wall()
    wall.zone(mark="K1")
    assert not [words for words in words_of(elevation_of(wall)) if words.startswith("On the floor")]
    wall.zone(mark="K2", outline=[[0, -250], [4000, -250], [4000, -150], [0, -150]])
    assert "On the floor before it: K2 150 to 250\u00a0mm out." in " ".join(words_of(elevation_of(wall)))


def test_floor_lower_than_the_face_is_on_the_sheet() -> None:
    """The profile is drawn where it was surveyed, and a face without one says so."""
    wall = Wall()
    assert "The floor in front of this face was not surveyed." in words_of(elevation_of(wall))
    wall.change(wall.face, floor=[[0, -60], [4000, -20]])
    drawing = elevation_of(wall)
    assert "The floor in front of this face was not surveyed." not in words_of(drawing)
    (floor,) = [p for p in read(drawing).iter(f"{SVG}path") if p.get("stroke-width") == "0.7" and "L" in p.get("d", "")]
    places = [face_place(drawing, *point) for point in points_of(floor)]
    assert [z for _, z in places] == pytest.approx([-60, -20], abs=1)


def test_hostile_names_stay_text() -> None:
    """Names from outside add no element and break no drawing."""
    hostile = '"><script>alert(1)</script>'
    wall = Wall()
    wall.change(wall.face, name=hostile, layers=[[hostile, 20, "old"]])
    wall.zone(mark=hostile)
    wall.fixing(wall.fitting(mark=hostile), mark=hostile)
    for interactive in (False, True):
        drawing = elevation_of(wall, interactive=interactive)
        tags = {element.tag.removeprefix(SVG) for element in read(drawing).iter()}
        assert tags <= {"svg", "title", "g", "a", "path", "text", "circle"}
        assert "<script" not in drawing


def test_interactive_drawing_leads_to_each_item_once_by_keyboard() -> None:
    """Every item has a link with a name; the letters' links are passed over by the keyboard."""
    wall = Wall()
    fitting = wall.fitting()
    items = [wall.zone(), wall.limit(), wall.hold(), fitting, wall.fixing(fitting)]
    root = read(elevation_of(wall, interactive=True))
    for item in items:
        links = [link for link in root.iter(f"{SVG}a") if link.get("href") == f"/item/{item.id}"]
        reached = [link for link in links if link.get("tabindex") is None]
        assert links
        assert all(link.get("data-kind") == item.kind for link in links)
        assert len(reached) == (2 if item.kind in {"limit", "fitting"} else 1)  # those are in the strip as well
        assert all((link.find(f"{SVG}title").text or "").startswith(item.kind) for link in reached)


@pytest.mark.parametrize("interactive", [False, True])
def test_drawing_needs_nothing_from_outside(interactive: bool) -> None:
    """No style, no script, no reference but the links: it passes a strict content policy."""
    wall = Wall()
    wall.zone(forbids=["heat"])
    wall.fixing(wall.fitting(), hole="new")
    for element in read(elevation_of(wall, interactive=interactive)).iter():
        assert element.tag.removeprefix(SVG) in {"svg", "title", "g", "a", "path", "text", "circle"}
        assert not {"style", "class", "id", "{http://www.w3.org/1999/xlink}href"} & set(element.attrib)
        assert not any(name.startswith("on") for name in element.attrib)
        assert not any("url(" in value for value in element.attrib.values())


def test_figures_of_fittings_run_from_the_datum() -> None:
    """Left and right edges, lower and upper, each as it is measured from the datum."""
    wall = Wall()
    wall.fitting()
    words = words_of(elevation_of(wall))
    assert {"2000", "3000", "1500", "1580", "4000", "2600"} <= set(words)


def test_extension_line_of_a_figure_stands_over_its_edge() -> None:
    """The line down to the face lies at the edge it gives the figure of."""
    wall = Wall()
    wall.fitting()
    drawing = elevation_of(wall)
    strokes = [
        path
        for path in read(drawing).iter(f"{SVG}path")
        if path.get("d", "").count("M") == 3 and "L" in path.get("d", "")
    ]
    starts = [part.split("L")[0].split() for part in strokes[0].get("d", "").split("M")[1:]]
    assert [face_place(drawing, float(x), 0)[0] for x, _ in starts] == pytest.approx([0, 2000, 3000], abs=1)
    assert not any(math.isnan(float(y)) for _, y in starts)
