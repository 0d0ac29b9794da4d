"""What must hold between the fields of an item, and between it and its surroundings."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.book.identity import uuid7
from fieldbook.errors import Refused
from tests.sites import Surveyed


def refusal(write: Any, **values: Any) -> list[tuple[str, str | None]]:
    """Codes and fields of the findings when something is written that must be refused."""
    with pytest.raises(Refused) as refused:
        write(**values)
    return [(finding.code, finding.field) for finding in refused.value.findings]


@pytest.mark.parametrize(
    ("values", "field"),
    [
        ({"x_mm": 5000.1}, "x_mm"),
        ({"x_mm": -1}, "x_mm"),
        ({"z_mm": 3001}, "z_mm"),
        ({"fitted_x_mm": 6000, "fitted_z_mm": 1}, "fitted_x_mm"),
    ],
)
def test_fixing_off_its_face_is_refused(surveyed: Surveyed, values: dict[str, Any], field: str) -> None:
    """A fixing must lie on its face, as planned and as fitted; the message names the coordinate."""
    fitting = surveyed.fitting()
    before = surveyed.book.revision()
    assert refusal(surveyed.fixing, fitting=fitting, **values) == [("outside-the-face", field)]
    assert surveyed.book.revision() == before


def test_fixing_on_the_very_edge_of_its_face_is_accepted(surveyed: Surveyed) -> None:
    """The edges belong to the face."""
    fitting = surveyed.fitting(x_mm=4000, z_mm=2920)
    fixing = surveyed.fixing(fitting, x_mm=5000, z_mm=3000)
    assert surveyed.book.item(fixing)[1]["x_mm"] == 5000


def test_face_with_its_datum_inside_reaches_to_the_left_of_it(surveyed: Surveyed) -> None:
    """Where the left edge lies left of the datum, negative places are on the face and the right end moves too."""
    surveyed.book.write("face", {"left_mm": -500}, item=surveyed.face)
    fitting = surveyed.fitting(x_mm=-500)
    surveyed.fixing(fitting, x_mm=-500)
    assert refusal(surveyed.fixing, fitting=fitting, x_mm=4501) == [("outside-the-face", "x_mm")]


@pytest.mark.parametrize(
    ("sort", "missing"),
    [
        ("leaf", ["hinge_x_mm", "hinge_y_mm", "swing_from_deg", "swing_to_deg", "boxes"]),
        ("route", ["available_mm", "clear_width_mm"]),
        ("headroom", ["headroom_mm", "projection_mm"]),
        ("flat", ["projection_mm"]),
    ],
)
def test_limit_without_what_its_sort_needs_is_refused(surveyed: Surveyed, sort: str, missing: list[str]) -> None:
    """Each sort of limit needs its own figures, and every one that is missing is named."""
    nothing = dict.fromkeys(("hinge_x_mm", "hinge_y_mm", "swing_from_deg", "swing_to_deg", "boxes"))
    assert refusal(surveyed.limit, sort=sort, **nothing) == [("missing", name) for name in missing]


def test_leaf_that_does_not_swing_is_refused(surveyed: Surveyed) -> None:
    """A leaf needs two different angles."""
    assert refusal(surveyed.limit, swing_to_deg=0) == [("out-of-range", "swing_to_deg")]


def test_leaf_box_without_area_is_refused(surveyed: Surveyed) -> None:
    """A box of a leaf is given from small to large."""
    assert refusal(surveyed.limit, boxes=[[800, 0, -50, -10]]) == [("unsuitable-shape", "boxes")]


@pytest.mark.parametrize(
    ("values", "found"),
    [
        ({"hole": "new", "trace": "none"}, ("unsuitable-shape", "trace")),
        ({"hole": "new", "fabric": "later work", "trace": "a new hole in old fabric"}, ("unsuitable-shape", "trace")),
        ({"hole": "none", "penetration_mm": 5}, ("out-of-range", "penetration_mm")),
        ({"hole": "existing", "penetration_mm": 50, "length_mm": 40}, ("out-of-range", "penetration_mm")),
        ({"fitted_on": "2026-05-02", "taken_down_on": "2026-05-01"}, ("out-of-range", "fitted_on")),
        ({"hold": "00000000-0000-7000-8000-000000000000"}, ("unknown-item", "hold")),
    ],
)
def test_fixing_that_contradicts_itself_is_refused(
    surveyed: Surveyed, values: dict[str, Any], found: tuple[str, str]
) -> None:
    """Hole, trace, penetration and dates of a fixing must fit together."""
    assert found in refusal(surveyed.fixing, fitting=surveyed.fitting(), **values)


def test_fixing_with_a_new_hole_and_its_trace_is_accepted(surveyed: Surveyed) -> None:
    """A new hole in later work leaves just that."""
    trace = "a new hole in later work"
    fixing = surveyed.fixing(surveyed.fitting(), hole="new", fabric="later work", trace=trace, penetration_mm=30)
    assert surveyed.book.item(fixing)[1]["trace"] == trace


def test_link_to_another_kind_is_refused(surveyed: Surveyed) -> None:
    """A link must point to the kind it is for."""
    assert refusal(surveyed.fitting, hangs_on=surveyed.face) == [("not-a-choice", "hangs_on")]


def test_link_to_the_item_itself_is_refused(surveyed: Surveyed) -> None:
    """Nothing hangs on itself."""
    fitting = surveyed.fitting()
    with pytest.raises(Refused) as refused:
        surveyed.book.write("fitting", {"hangs_on": fitting}, item=fitting)
    assert refused.value.findings[0].field == "hangs_on"


def test_mass_loaded_below_mass_empty_is_refused(surveyed: Surveyed) -> None:
    """Loading a fitting does not make it lighter."""
    assert refusal(surveyed.fitting, mass_empty_kg=12, mass_loaded_kg=8) == [("out-of-range", "mass_empty_kg")]


def test_edit_of_one_field_is_judged_with_the_others_as_they_stand(surveyed: Surveyed) -> None:
    """A change that makes an item contradict what is already recorded is refused."""
    fitting = surveyed.fitting(mass_empty_kg=12, mass_loaded_kg=20)
    with pytest.raises(Refused) as refused:
        surveyed.book.write("fitting", {"mass_loaded_kg": 8}, item=fitting)
    assert refused.value.findings[0].code == "out-of-range"


def test_new_item_without_required_fields_names_each(surveyed: Surveyed) -> None:
    """Every empty required field is named at once."""
    with pytest.raises(Refused) as refused:
        surveyed.book.write("hold", {"face": surveyed.face}, item=uuid7())
    assert {finding.field for finding in refused.value.findings} == {"sort", "x_mm", "z_mm", "may_be_used"}


def test_fixing_fixes_its_fitting_to_another_that_does_not_hang_on_it(surveyed: Surveyed) -> None:
    """Weight goes one way: what hangs on the rail cannot carry it, and nothing carries itself."""
    rail = surveyed.fitting()
    panel = surveyed.fitting(mark="D2", hangs_on=rail)
    joined = {"fabric": "another fitting"}
    for other in (panel, rail):
        assert refusal(surveyed.fixing, fitting=rail, other_fitting=other, **joined) == [
            ("unsuitable-shape", "other_fitting")
        ]
    surveyed.fixing(panel, mark="D2.1", other_fitting=rail, **joined)


@pytest.mark.parametrize(
    ("values", "found"),
    [
        ({"fitted_x_mm": 1103}, ("missing", "fitted_z_mm")),
        ({"fitted_z_mm": 1540}, ("missing", "fitted_x_mm")),
        ({"fitted_x_mm": 1103, "fitted_z_mm": 1540, "fitted_place": "not measured"}, ("not-a-choice", "fitted_place")),
        ({"x_mm": 2013}, ("outside-the-face", "x_mm")),  # 13 mm beside a fitting that ends at 2,000, with a jaw of 12
        ({"z_mm": 1600}, ("outside-the-face", "z_mm")),
    ],
)
def test_fixing_that_cannot_be_where_it_is_said_to_be_is_refused(
    surveyed: Surveyed, values: dict[str, Any], found: tuple[str, str]
) -> None:
    """Half a place is none, and a fixing lies on its fitting."""
    assert refusal(surveyed.fixing, fitting=surveyed.fitting(), **values) == [found]


def test_fixing_at_the_edge_of_its_fitting_and_a_strap_beyond_it_are_accepted(surveyed: Surveyed) -> None:
    """A jaw that still touches it holds; a strap reaches; what is made to be moved is held where it may be set."""
    fitting = surveyed.fitting()
    surveyed.fixing(fitting, x_mm=2012)
    surveyed.fixing(fitting, x_mm=3000, sort="strap")
    surveyed.book.write("fitting", {"moves_mm": 300}, item=fitting)
    surveyed.fixing(fitting, x_mm=2300)


def test_place_that_just_touches_is_accepted_whatever_the_sum_of_its_tenths(surveyed: Surveyed) -> None:
    """Binary numbers hold no tenths: a jaw that touches its fitting, or the edge of its face, is not 0 mm off it."""
    fitting = surveyed.fitting(x_mm=100.1, width_mm=200.2)
    surveyed.fixing(fitting, x_mm=320.3, contact_radius_mm=20)
    assert 320.3 - 100.1 - 200.2 - 20 > 0
    surveyed.book.write("face", {"left_mm": 100.1, "width_mm": 200.2}, item=surveyed.face)
    surveyed.fixing(fitting, x_mm=300.3, contact_radius_mm=20)
    assert 100.1 + 200.2 < 300.3


def test_hold_of_another_face_is_refused(surveyed: Surveyed) -> None:
    """A fixing lies where its hold is."""
    size = {"width_mm": 500, "height_mm": 500}
    other = surveyed.book.write("face", {"room": surveyed.room, "name": "Reveal", "sort": "reveal"} | size)
    hold = {"face": other, "mark": "H1", "sort": "hook", "x_mm": 100, "z_mm": 100, "may_be_used": "yes"}
    hook = surveyed.book.write("hold", hold)
    assert refusal(surveyed.fixing, fitting=surveyed.fitting(), hold=hook) == [("not-a-choice", "hold")]


def test_thing_beyond_its_face_is_accepted(surveyed: Surveyed) -> None:
    """It is warned of and stands as a finding: a board may well overhang an edge."""
    assert surveyed.book.item(surveyed.fitting(x_mm=-200))[1]["x_mm"] == -200


@pytest.mark.parametrize("plan", [[[0, 0]], [[0, 0], [100, 0]], [[0, 0], [100, 100], [100, 0], [0, 100]]])
def test_room_that_is_no_area_is_refused(surveyed: Surveyed, plan: list[list[float]]) -> None:
    """A plan of one corner, of two, or one that crosses itself."""
    with pytest.raises(Refused) as refused:
        surveyed.book.write("room", {"plan": plan}, item=surveyed.room)
    assert [finding.field for finding in refused.value.findings] == ["plan"]


@pytest.mark.parametrize(
    ("values", "found"),
    [
        # The leaf's tip reaches 800 mm from its hinge at 1,000 mm one way, and 800 × cos 160° the other.
        ({"x_from_mm": 900}, ("out-of-range", "x_from_mm")),
        ({"x_to_mm": 1700}, ("out-of-range", "x_to_mm")),
        # At 180° a handle 45 mm before the leaf lies at 12 − 45 = −33 mm.
        (
            {"swing_to_deg": 180, "boxes": [[0, 800, -50, -10], [700, 740, -10, 45]]},
            ("unsuitable-shape", "boxes"),
        ),
    ],
)
def test_leaf_that_cannot_be_is_refused(surveyed: Surveyed, values: dict[str, Any], found: tuple[str, str]) -> None:
    """A band narrower than the sweep, and a handle inside the wall."""
    assert refusal(surveyed.limit, **values) == [found]


def test_leaf_in_a_reveal_and_a_band_as_wide_as_the_sweep_are_accepted(surveyed: Surveyed) -> None:
    """What opens into a splay is not inside the wall; a band may be entered where it hides nothing."""
    surveyed.limit(hinge_y_mm=-140, swing_to_deg=120)
    surveyed.limit(x_from_mm=240, x_to_mm=1802)


def test_what_must_be_seen_needs_its_place(surveyed: Surveyed) -> None:
    """Without its four edges nobody knows what to keep in view."""
    names = ("x_from_mm", "x_to_mm", "z_from_mm", "z_to_mm")
    assert refusal(surveyed.limit, sort="keep in view") == [("missing", name) for name in names]


@pytest.mark.parametrize(
    ("quantity", "value", "unit", "found"),
    [
        ("ultraviolet", -20, "µW/lm", ("out-of-range", "value")),
        ("relative humidity", 101, "%", ("out-of-range", "value")),
        ("air temperature", 64, "%", ("not-a-choice", "unit")),
    ],
)
def test_reading_that_cannot_be_is_refused(
    surveyed: Surveyed, quantity: str, value: float, unit: str, found: tuple[str, str]
) -> None:
    """A quantity has its unit, and bounds in it."""
    values = {"room": surveyed.room, "quantity": quantity, "value": value, "unit": unit, "at": "2026-05-31T14:30Z"}
    assert refusal(surveyed.book.write, kind="reading", values=values) == [found]


def test_board_of_another_face_is_refused(surveyed: Surveyed) -> None:
    """A screw is let into a board of the face it stands on."""
    size = {"width_mm": 900, "height_mm": 900}
    other = surveyed.book.write("face", {"room": surveyed.room, "name": "East", "sort": "wall"} | size)
    board = {"face": other, "sort": "board", "material": "oak", "x_mm": 0, "z_mm": 0}
    member = surveyed.book.write("member", board | size)
    assert refusal(surveyed.fixing, fitting=surveyed.fitting(), member=member) == [("not-a-choice", "member")]
