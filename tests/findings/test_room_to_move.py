"""Where a fitting may be set and how much more it may carry, by the same questions as its findings."""

from __future__ import annotations

import json
from datetime import date

import pytest

from fieldbook.book.gathering import gather
from fieldbook.book.site import Item
from fieldbook.checks.verdict import Word
from fieldbook.cli import main
from fieldbook.findings.answering import find
from fieldbook.findings.room_to_move import room_to_move
from fieldbook.findings.specialist import QUESTIONS as SPECIALIST
from tests.findings.hung import HUNG, STATED
from tests.sites import Surveyed

DAY = date(2026, 5, 30)


def hung(surveyed: Surveyed, stated_n: float | None = 225, **more: object) -> str:
    """18 kg on one hook at its middle, whose maker states a load; it may be moved by 300 mm along a sound moulding."""
    surveyed.looked()
    surveyed.book.write("face", {"layers": [["limestone", 400, "old"]]}, item=surveyed.face)
    agreed = {"load_limit_n": 5000, "load_said_by": "structural engineer, letter of May"}
    place = {"face": surveyed.face, "sort": "moulding", "x_mm": 1200, "z_mm": 1150, "may_be_used": "yes"}
    moulding = surveyed.book.write("hold", place | agreed)
    rail = surveyed.fitting(
        **HUNG | {"centre_out_mm": 0, "mass_loaded_kg": 18, "moves_mm": 300, "gives": ["nothing"]} | more
    )
    at = {"x_mm": 1200, "z_mm": 1150, "sort": "hook", "hold": moulding, "hole": "none", "adhesive": 0}
    surveyed.fixing(rail, **at, stated_load_n=stated_n, **STATED)
    return rail


def test_more_is_carried_until_the_first_word_would_be_worse(surveyed: Surveyed) -> None:
    """Of 225 N a fifth must be left to be within: 180 N. 18 kg weigh 176.6 N, 0.3 kg more 179.5 N, 0.4 kg 180.5 N."""
    rail = hung(surveyed)
    site = gather(surveyed.book, surveyed.site)
    room = room_to_move(site, site[rail], DAY)
    assert (room.more_kg, room.set_by) == (0.3, "shear of D1.1")


@pytest.mark.parametrize(("stated_n", "more"), [(150, {}), (225, {"climbable": 1, "pull_n": None})])
def test_no_more_is_carried_by_what_is_over_or_not_known(
    surveyed: Surveyed, stated_n: float, more: dict[str, object]
) -> None:
    """176.6 N on a hook for 150 N are over with any more of it as well; how hard people pull at it nobody entered."""
    rail = hung(surveyed, stated_n, **more)
    site = gather(surveyed.book, surveyed.site)
    assert room_to_move(site, site[rail], DAY).more_kg == 0


@pytest.mark.parametrize("route", [False, True])
def test_who_decides_about_current_or_a_way_out_does_not_decide_what_is_carried(
    surveyed: Surveyed, route: bool
) -> None:
    """An electrician has to decide about its warmth, or a fire officer about the way; the hook holds 0.3 kg more.

    Nor do they hide whoever does: on a hook for 2 500 N an engineer is asked above 20 kg, 2 kg more.
    """
    rail = hung(surveyed, gives=["nothing"] if route else ["heat"])
    if route:
        surveyed.limit(sort="route", available_mm=1400, clear_width_mm=1000, x_from_mm=900, x_to_mm=1500)
    site = gather(surveyed.book, surveyed.site)
    assert find(SPECIALIST[0], site[rail], site, DAY).word is Word.NOT_KNOWN
    assert room_to_move(site, site[rail], DAY).more_kg == 0.3
    (hook,) = site.of(site[rail], "fixing")
    stronger = site.with_changed(Item("fixing", hook.id, dict(hook.values) | {"stated_load_n": 2500}))
    room = room_to_move(stronger, stronger[rail], DAY)
    assert (room.more_kg, room.set_by) == (2.0, "what a specialist decides of D1")


def test_what_an_engineer_has_yet_to_decide_carries_no_more(surveyed: Surveyed) -> None:
    """Above 20 kg an engineer is asked, who has not said yes, though 21 kg are nothing to a hook for 2 500 N."""
    rail = hung(surveyed, stated_n=2500, mass_loaded_kg=21)
    site = gather(surveyed.book, surveyed.site)
    assert room_to_move(site, site[rail], DAY) == (((700, 1300),), 0, "what a specialist decides of D1")


def test_what_anybody_entitled_refused_carries_no_more(surveyed: Surveyed) -> None:
    """An electrician said no to it as it is, though that is not about its weight."""
    rail = hung(surveyed, gives=["heat"])
    no = {"reference": "S1", "question": "specialist", "role": "electrician", "answer": "no", "document": "letter"}
    about = {"site": surveyed.site, "items": [rail], "on": "2026-05-02", "words": "not on this circuit"}
    surveyed.book.write("decision", about | no)
    site = gather(surveyed.book, surveyed.site)
    assert room_to_move(site, site[rail], DAY).more_kg == 0


def test_fitting_is_set_nowhere_that_stops_it(surveyed: Surveyed) -> None:
    """Over the whole way along which it can be moved nothing may stand out more than 10 mm, and it stands out 23."""
    rail = hung(surveyed)
    surveyed.book.write(
        "limit",
        {"face": surveyed.face, "mark": "L1", "name": "Case", "sort": "flat", "margin_mm": 0, "projection_mm": 10},
    )
    site = gather(surveyed.book, surveyed.site)
    room = room_to_move(site, site[rail], DAY)
    assert (room.along_mm, room.set_by) == ((), "clearance of D1")


def test_what_may_not_be_set_everywhere_may_carry_more_where_it_stands(surveyed: Surveyed) -> None:
    """A door at its side bounds where a rail may be set, and not what it carries: 0.3 kg, as above."""
    rail = hung(surveyed)
    surveyed.limit(hinge_x_mm=900, swing_from_deg=90, swing_to_deg=180)
    site = gather(surveyed.book, surveyed.site)
    assert room_to_move(site, site[rail], DAY).more_kg == 0.3


@pytest.mark.parametrize(("lamp_kg", "more"), [(None, 6), (3.5, 2.5), ("", 0)])
def test_no_more_is_carried_than_a_fitting_is_made_for(
    surveyed: Surveyed, lamp_kg: float | str | None, more: float
) -> None:
    """Its hook would hold far more; it is made to carry 6 kg, of which a lamp of 3.5 kg leaves 2.5."""
    rail = hung(surveyed, stated_n=2500, carries_kg=6, mass_loaded_kg=2)
    if lamp_kg is not None:
        lamp = {"mark": "D2", "x_mm": 1100, "z_mm": 600, "width_mm": 200, "height_mm": 400, "climbable": 0}
        surveyed.fitting(**lamp, gives=["nothing"], hangs_on=rail, mass_loaded_kg=lamp_kg or None)
    site = gather(surveyed.book, surveyed.site)
    room = room_to_move(site, site[rail], DAY)
    if lamp_kg == "":
        assert room.more_kg in (0, None)  # how much hangs there already is not known
    else:
        assert (room.more_kg, room.set_by) == (more, "what D1 is made to carry")


def test_fitting_that_does_not_move_stays_and_one_without_a_mass_says_nothing(surveyed: Surveyed) -> None:
    """Its place alone, and no figure for more."""
    rail = hung(surveyed, moves_mm=None, mass_loaded_kg=None)
    site = gather(surveyed.book, surveyed.site)
    assert room_to_move(site, site[rail], DAY) == (((1000, 1000),), None, "")


def test_fitting_may_be_set_where_every_word_stays_as_good(surveyed: Surveyed) -> None:
    """A hook 1 200 to 1 500 mm along may not come within 20 mm of a zone from x = 1 350: 12 mm is its radius.

    Its hook is 200 mm from its left edge: 1 350 − 20 − 12 − 200 = 1 118 is the last place.
    """
    looked = [["keep-off zones", "fitter", "asked the keeper", "2026-05-04"]]
    surveyed.book.write("face", {"looked_for": looked}, item=surveyed.face)
    outline = [[1350, 1000], [2000, 1000], [2000, 1300], [1350, 1300]]
    surveyed.zone(outline=outline, forbids=["load"])
    rail = hung(surveyed, touches_face=0)
    site = gather(surveyed.book, surveyed.site)
    room = room_to_move(site, site[rail], DAY)
    assert room.along_mm[0][1] == pytest.approx(1118, abs=6)
    assert "D1" in room.set_by


def test_command_says_the_range_for_people_and_for_programs(
    surveyed: Surveyed, capsys: pytest.CaptureFixture[str]
) -> None:
    """By mark; a mark that is not there is wrong use."""
    hung(surveyed)
    folder = str(surveyed.book.folder)
    assert main(["range", folder, "D1", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert set(told) == {"along_mm", "more_kg", "set_by"}
    assert told["more_kg"] == 0.3
    assert main(["range", folder, "D1"]) == 0
    assert "More it may carry: 0.3 kg" in capsys.readouterr().out
    assert main(["range", folder, "D9"]) == 2
