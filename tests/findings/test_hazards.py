"""Which cautions a fitting calls for, from what the book holds."""

from __future__ import annotations

import pytest

from fieldbook.book.gathering import gather
from fieldbook.findings import hazards


def keys(surveyed, fitting):
    """The cautions of a fitting, by key."""
    site = gather(surveyed.book, surveyed.site)
    return {caution.key for caution in hazards.cautions_for(site, site[fitting])}


def test_what_nobody_entered_counts_as_dangerous(surveyed):
    """A fitting without mass, in a room nobody looked at for hazards, calls for all that could apply."""
    fitting = surveyed.fitting(z_mm=2000)
    surveyed.fixing(fitting)
    assert keys(surveyed, fitting) == {
        "loads", "overhead work", "leaning or climbing", "lifting", "old lead paint", "escape route",
        "solvents and fumes",
    }  # fmt: skip


def test_what_is_ruled_out_is_left_out(surveyed):
    """Facts that rule a caution out leave it out; loads always stay."""
    surveyed.book.write("room", {"hazards": ["dust"]}, item=surveyed.room)
    fitting = surveyed.fitting(z_mm=900, mass_empty_kg=2, climbable=0)
    surveyed.fixing(fitting, adhesive=0)
    assert keys(surveyed, fitting) == {"loads"}
    site = gather(surveyed.book, surveyed.site)
    assert not hazards.engineer_decides(site, site[fitting])


@pytest.mark.parametrize(
    ("fitting", "fixing", "expected"),
    [
        ({}, {"hole": "new", "trace": "a new hole in old fabric"}, {"dust", "asbestos", "hidden services"}),
        ({"gives": ["light"]}, {}, {"electricity"}),
        ({"mass_empty_kg": 12}, {}, {"lifting"}),
        ({"mass_empty_kg": 2, "mass_loaded_kg": 12}, {}, {"lifting"}),
        ({"z_mm": 1800}, {}, {"overhead work"}),
        ({"climbable": 1}, {}, {"leaning or climbing"}),
        ({}, {"adhesive": 1}, {"solvents and fumes"}),
    ],
)
def test_each_fact_brings_its_caution(surveyed, fitting, fixing, expected):
    """What is entered about a fitting or a fixing brings the caution that goes with it."""
    surveyed.book.write("room", {"hazards": ["loads"]}, item=surveyed.room)
    item = surveyed.fitting(**{"z_mm": 900, "mass_empty_kg": 2, "climbable": 0} | fitting)
    surveyed.fixing(item, **{"adhesive": 0} | fixing)
    assert keys(surveyed, item) == {"loads"} | expected


@pytest.mark.parametrize(
    ("face", "fixing", "expected"),
    [
        ({}, {}, set()),
        ({}, {"hole": "new", "trace": "a new hole in old fabric"}, set(hazards.MINDED["hole"])),
        ({"sort": "ceiling"}, {}, {"overhead work"}),
    ],
)
def test_a_hole_and_a_ceiling_bring_their_cautions_to_a_fixing(surveyed, face, fixing, expected):
    """Whoever enters a fixing that makes a hole, or hangs over heads, is told what to mind."""
    surveyed.book.write("face", {"name": "North wall"} | face, item=surveyed.face)
    made = surveyed.fixing(surveyed.fitting(), **fixing)
    site = gather(surveyed.book, surveyed.site)
    assert {caution.key for caution in hazards.cautions_of(site, site[made])} == expected
    assert ("overhead", face and surveyed.face or "") in [(when, of) for when, of, _ in hazards.minded(site)]


def test_lamp_over_a_low_floor_hangs_higher(surveyed):
    """The height above people's heads is measured from the lowest floor in front of the face."""
    surveyed.book.write("face", {"floor": [[0, 0], [5000, -200]]}, item=surveyed.face)
    item = _fitting(surveyed)
    assert hazards.underside(gather(surveyed.book, surveyed.site), item) == 1900


def _fitting(surveyed):
    item = surveyed.fitting(z_mm=1700)
    return gather(surveyed.book, surveyed.site)[item]


def test_height_on_a_ceiling_is_not_known(surveyed):
    """On a ceiling z is no height, so the caution for what hangs over heads stays."""
    surveyed.book.write("face", {"sort": "ceiling"}, item=surveyed.face)
    item = _fitting(surveyed)
    assert hazards.underside(gather(surveyed.book, surveyed.site), item) is None
    assert "overhead work" in keys(surveyed, item.id)


def test_fitting_along_a_route_warns_of_escape(surveyed):
    """A fitting inside the band of a route calls for the caution about ways out."""
    surveyed.book.write("room", {"hazards": ["dust"]}, item=surveyed.room)
    route = {"sort": "route", "leaf": None, "available_mm": 1500, "clear_width_mm": 1200, "x_to_mm": 2500}
    surveyed.limit(**route)
    assert "escape route" in keys(surveyed, surveyed.fitting())
    assert "escape route" not in keys(surveyed, surveyed.fitting(mark="D2", x_mm=3000))


def test_hazards_of_a_room_bring_their_cautions(surveyed):
    """Every hazard that can be entered for a room has its caution."""
    surveyed.book.write("room", {"hazards": list(hazards.HAZARDS)}, item=surveyed.room)
    room = gather(surveyed.book, surveyed.site)[surveyed.room]
    assert {caution.key for caution in hazards.cautions_in(room)} == set(hazards.HAZARDS)
