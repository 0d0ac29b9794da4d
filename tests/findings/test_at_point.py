"""May I, here? The five answers, worst first: no, ask the keeper, agreed, nothing against it, not known."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.book.gathering import gather
from fieldbook.findings.act_here import ANSWERS, Act
from fieldbook.findings.at_point import Answer, answer
from tests.findings.asked import TODAY, one
from tests.sites import Surveyed

OLD, LATER = [["lime plaster", 25, "old"]], [["brick", 103, "later"]]
AREA = [[0, 0], [2000, 0], [2000, 2000], [0, 2000]]


def made_of(surveyed: Surveyed, layers: Any) -> None:
    """Say what the face is made of."""
    surveyed.book.write("face", {"layers": layers}, item=surveyed.face)


def agree(surveyed: Surveyed, **more: Any) -> str:
    """The keeper's yes to drilling and touching an area of 2 m square, not deeper than 30 mm."""
    said = {"reference": "A1", "answer": "yes", "words": "as drawn", "said_by": "the keeper", "on": "2026-03-01"}
    about = {"items": [surveyed.face], "acts": ["drilling", "contact"], "outline": AREA, "depth_mm": 30}
    return surveyed.book.write("agreement", {"site": surveyed.site} | said | about | more)


def at(surveyed: Surveyed, x: float = 500, z: float = 500, **more: Any) -> Answer:
    """The answer at a point."""
    site = gather(surveyed.book, surveyed.site)
    return answer(site, site[surveyed.face], x, z, **{"radius_mm": 5.0, "today": TODAY} | more)


def of(said: Answer, act: str) -> Act:
    """The answer for one act."""
    return next(one for one in said.acts if one.act == act)


def test_bare_face_is_not_known(surveyed: Surveyed) -> None:
    """Nothing recorded is not nothing there, for any act."""
    assert {act.answer for act in at(surveyed).acts} == {"not known"}


def test_old_fabric_without_a_word_is_for_the_keeper(surveyed: Surveyed) -> None:
    """Whether or not somebody looked: the keeper is asked first; what was not looked for is told as well."""
    made_of(surveyed, OLD)
    assert {act.answer for act in at(surveyed).acts} == {"ask the keeper"}
    assert "services in the wall" in of(at(surveyed), "drilling").why


def test_nothing_is_fine_for_what_has_no_size(surveyed: Surveyed) -> None:
    """A point alone is touched by nothing: what would be agreed, or have nothing against it, is not known."""
    made_of(surveyed, LATER)
    surveyed.looked()
    surveyed.book.write("site", {"asks_about_later_work": 0}, item=surveyed.site)
    assert of(at(surveyed), "contact").answer == "nothing against it"
    assert of(at(surveyed, radius_mm=None), "contact").answer == "not known"
    agree(surveyed)
    assert of(at(surveyed), "contact").answer == "agreed"
    assert of(at(surveyed, radius_mm=None), "contact").answer == "not known"
    surveyed.zone()
    assert of(at(surveyed, 50, 50, radius_mm=None), "contact").answer == "no"


def test_later_work_that_was_looked_at_has_nothing_against_it(surveyed: Surveyed) -> None:
    """Once zones were looked for, before a hole services, asbestos and lead, and once the keeper need not be asked."""
    made_of(surveyed, LATER)
    assert {act.answer for act in at(surveyed).acts} == {"not known"}
    surveyed.looked("keep-off zones")
    assert "whether the keeper is asked" in of(at(surveyed), "contact").why
    surveyed.book.write("site", {"asks_about_later_work": 0}, item=surveyed.site)
    assert of(at(surveyed), "contact").answer == "nothing against it"
    assert of(at(surveyed), "drilling").answer == "not known"
    surveyed.looked()
    assert of(at(surveyed), "drilling").answer == "nothing against it"
    surveyed.book.write("site", {"asks_about_later_work": 1}, item=surveyed.site)
    assert of(at(surveyed), "drilling").answer == "ask the keeper"


def test_hole_through_later_work_into_old_is_for_the_keeper(surveyed: Surveyed) -> None:
    """12 mm of later board before old stone: 10 mm deep stays in the board, 20 mm does not, and any depth may not."""
    surveyed.looked()
    surveyed.book.write("site", {"asks_about_later_work": 0}, item=surveyed.site)
    made_of(surveyed, [["board", 12, "later"], ["stone", 500, "old"]])
    assert of(at(surveyed, depth_mm=10), "drilling").answer == "nothing against it"
    assert of(at(surveyed, depth_mm=20), "drilling").answer == "ask the keeper"
    assert of(at(surveyed), "drilling").answer == "ask the keeper"
    assert of(at(surveyed), "contact").answer == "nothing against it"


def test_agreed_says_by_whom_on_what_condition_and_how_deep(surveyed: Surveyed) -> None:
    """For the acts and the area it names; beside it, for other acts and deeper than it says the keeper is asked."""
    surveyed.looked()
    made_of(surveyed, OLD)
    agree(surveyed, answer="yes, with conditions", conditions="By hand.", conditions_met="yes", until="2027-01-01")
    said = at(surveyed)
    drilling = of(said, "drilling")
    assert (drilling.answer, said.depth_mm) == ("agreed", 30)
    for words in ("A1, given by the keeper", "Not deeper than 30 mm", "On condition: By hand; met.", "Until"):
        assert words in drilling.why
    assert of(said, "load").answer == "ask the keeper"
    assert of(at(surveyed, x=1995, radius_mm=10), "contact").answer == "ask the keeper"
    assert of(at(surveyed, depth_mm=31), "drilling").answer == "ask the keeper"


def test_latest_word_rules_and_on_one_day_the_no(surveyed: Surveyed) -> None:
    """A later yes lifts a no; a no of the same day stands; what has ended is asked again."""
    surveyed.looked()
    made_of(surveyed, OLD)
    agree(surveyed, answer="no", on="2026-02-01", reference="A0", acts=None, outline=None, depth_mm=None)
    assert of(at(surveyed), "contact").answer == "no"
    first = agree(surveyed)
    assert of(at(surveyed), "contact").answer == "agreed"
    agree(surveyed, answer="no", reference="A2")
    assert (of(at(surveyed), "contact").answer, of(at(surveyed), "light").answer) == ("no", "no")
    surveyed.book.withdraw(first)
    assert "A2" in of(at(surveyed), "drilling").why


def test_ended_agreement_is_asked_again(surveyed: Surveyed) -> None:
    """The day after its last it is no yes any more."""
    surveyed.looked()
    made_of(surveyed, OLD)
    agree(surveyed, until="2026-05-31")
    assert of(at(surveyed), "contact").answer == "ask the keeper"


@pytest.mark.parametrize(
    ("more", "found", "why"),
    [
        ({"conditions_met": "yes"}, "agreed", "felt under it; met"),
        ({"conditions_met": "not yet"}, "ask the keeper", "its conditions are not met: felt under it"),
        ({"conditions_met": "no"}, "ask the keeper", "its conditions are not met: felt under it"),
        ({}, "not known", "whether its conditions are met is not entered: felt under it"),
        ({"answer": "yes"}, "not known", "whether its conditions are met is not entered: felt under it"),
    ],
)
def test_yes_whose_conditions_are_not_met_is_no_yes_at_the_wall_or_in_the_findings(
    surveyed: Surveyed, more: dict[str, Any], found: str, why: str
) -> None:
    """The answer at a point and the finding of what stands there come to one word, and both name the conditions."""
    surveyed.looked()
    made_of(surveyed, OLD)
    said = {"answer": "yes, with conditions", "conditions": "felt under it"}
    agree(surveyed, outline=None, acts=["drilling", "contact", "load"], **said | more)
    rail = surveyed.fitting(touches_face=0)
    screw = surveyed.fixing(
        rail, sort="wood screw", hole="new", trace="a new hole in old fabric", penetration_mm=30, adhesive=0
    )
    here, there = of(at(surveyed, 1100, 1540), "drilling"), one(surveyed, "consent", screw)
    assert (here.answer, here.word) == (found, there.word)
    assert why in here.why
    assert why in there.verdict.sentence


def test_yes_to_a_hole_that_does_not_say_how_deep_is_no_yes_to_it(surveyed: Surveyed) -> None:
    """Neither at the wall nor in the finding; what only touches is agreed to."""
    surveyed.looked()
    made_of(surveyed, OLD)
    agree(surveyed, depth_mm=None)
    assert "does not say how deep" in of(at(surveyed), "drilling").why
    assert [of(at(surveyed), act).answer for act in ("drilling", "contact")] == ["ask the keeper", "agreed"]


def test_hole_beyond_the_number_agreed_is_asked_about(surveyed: Surveyed) -> None:
    """One new hole was agreed in the area: the place planned for it is agreed to, another one is not."""
    surveyed.looked()
    made_of(surveyed, OLD)
    agree(surveyed, holes=1)
    assert of(at(surveyed), "drilling").answer == "agreed"
    rail = surveyed.fitting(touches_face=0, x_mm=400, z_mm=400, width_mm=300, height_mm=300)
    hole = {"sort": "wood screw", "hole": "new", "trace": "a new hole in old fabric", "penetration_mm": 30}
    surveyed.fixing(rail, x_mm=500, z_mm=500, adhesive=0, **hole)
    assert of(at(surveyed), "drilling").answer == "agreed"
    other = of(at(surveyed, 600, 600), "drilling")
    assert (other.answer, "1 new holes, and 1 are planned or made" in other.why) == ("ask the keeper", True)


def test_yes_is_no_fine_word_for_a_hole_before_services_were_looked_for(surveyed: Surveyed) -> None:
    """The keeper agrees to the hole and does not see through the wall."""
    made_of(surveyed, OLD)
    agree(surveyed)
    assert (of(at(surveyed), "drilling").answer, of(at(surveyed), "contact").answer) == ("not known", "agreed")


def test_zone_says_no_with_why_by_whom_and_how_near(surveyed: Surveyed) -> None:
    """At x = 150 a foot of 40 mm radius lies 150 − 100 − 40 = 10 mm from the zone, which keeps 20."""
    surveyed.looked()
    made_of(surveyed, OLD)
    agree(surveyed)
    zone = surveyed.zone(said_by="the conservator")
    contact = of(at(surveyed, 150, 50, radius_mm=40), "contact")
    assert (contact.answer, contact.nearest_mm, contact.against and contact.against.id) == ("no", 10, zone)
    assert "painted scheme below, said by the conservator" in contact.why
    assert of(at(surveyed, 150, 50, radius_mm=40), "drilling").answer == "agreed"


def test_where_zones_overlap_all_hold_and_the_depth_is_the_least(surveyed: Surveyed) -> None:
    """40 − 10 = 30, 30 − 10 = 20 and 30 agreed: 20 mm; with one that gives no depth at all it is no."""
    surveyed.looked()
    made_of(surveyed, OLD)
    agree(surveyed)
    surveyed.zone(mark="K1", forbids=["drilling"], safe_depth_mm=40, margin_mm=10)
    surveyed.zone(mark="K2", forbids=["drilling"], safe_depth_mm=30, margin_mm=10)
    said = at(surveyed, 50, 50)
    assert (of(said, "drilling").answer, said.depth_mm) == ("agreed", 20)
    assert "Not deeper than 20 mm" in of(said, "drilling").why
    assert of(at(surveyed, 50, 50, depth_mm=20.5), "drilling").answer == "no"
    surveyed.zone(mark="K3", forbids=["drilling"])
    assert (of(at(surveyed, 50, 50), "drilling").answer, at(surveyed, 50, 50).depth_mm) == ("no", 0)


@pytest.mark.parametrize(
    ("used", "found"),
    [
        ({"may_be_used": "yes", "said_by": "the keeper"}, "agreed"),
        ({"may_be_used": "yes"}, "ask the keeper"),
        ({"may_be_used": "no", "said_by": "the keeper"}, "no"),
        ({"may_be_used": "not known"}, "ask the keeper"),
    ],
)
def test_hold_answers_for_itself(surveyed: Surveyed, used: dict[str, str], found: str) -> None:
    """A yes with who said it is consent for that hold, and for nothing 6 mm beside it."""
    made_of(surveyed, OLD)
    hold = {"face": surveyed.face, "mark": "H1", "sort": "hook", "x_mm": 500, "z_mm": 500}
    surveyed.book.write("hold", hold | used)
    assert of(at(surveyed), "load").answer == found
    assert of(at(surveyed, 506), "load").answer == "ask the keeper"


def test_asbestos_is_no_to_any_hole(surveyed: Surveyed) -> None:
    """Whatever the keeper agreed to."""
    surveyed.looked()
    agree(surveyed)
    surveyed.book.write("room", {"hazards": ["asbestos"]}, item=surveyed.room)
    assert of(at(surveyed), "drilling").answer == "no"


def test_plain_values_hold_every_act_depth_and_caution(surveyed: Surveyed) -> None:
    """As `fieldbook ask --json` prints them; cautions stand with every answer."""
    said = at(surveyed).as_dict()
    for act in ("drilling", "contact", "adhesive", "load", "heat", "light"):
        assert said[act].keys() == {"answer", "why", "nearest_mm"}
        assert said[act]["answer"] in ANSWERS
    assert (said["clear_mm"], said["depth_mm"]) == (None, None)
    assert len(said["cautions"]) == 7


def test_board_of_no_known_age_is_what_is_asked_about(surveyed: Surveyed) -> None:
    """The wall is later work; the board in front of it may be older."""
    surveyed.looked()
    surveyed.book.write("face", {"layers": [["brick", 230, "later"]]}, item=surveyed.face)
    size = {"x_mm": 1000, "z_mm": 1000, "width_mm": 500, "height_mm": 500, "thickness_mm": 20, "behind_mm": 0}
    board = {"face": surveyed.face, "mark": "B7", "sort": "board", "material": "oak"}
    surveyed.book.write("member", board | size)
    found = of(at(surveyed, 1100, 1100), "contact")
    assert (found.answer, found.why) == ("not known", "Whether B7 is old or later work here is not entered.")


def test_depth_is_not_told_where_a_newer_version_may_know_a_limit(surveyed: Surveyed) -> None:
    """What is left out of such a book may be the very limit."""
    site = gather(surveyed.book, surveyed.site)
    assert answer(site, site[surveyed.face], 100, 100, 5, today=TODAY).refusal is None
    site.beyond = True
    said = answer(site, site[surveyed.face], 100, 100, 5, today=TODAY)
    assert said.clear_mm is None
    assert said.refusal is not None
    assert said.refusal.code == "newer-book"


def test_before_a_hole_the_zone_that_leaves_least_is_named(surveyed: Surveyed) -> None:
    """Of 40 and 25 mm less margins of 10 and 20 the second leaves 5 mm, though the first reaches farther round."""
    surveyed.looked()
    around = [[0, 0], [400, 0], [400, 400], [0, 400]]
    surveyed.zone(mark="K1", forbids=["drilling"], safe_depth_mm=40, margin_mm=10, outline=around)
    surveyed.zone(mark="K2", forbids=["drilling"], safe_depth_mm=25, margin_mm=20)
    said = at(surveyed, 50, 50, radius_mm=3, depth_mm=35)
    (drilling,) = [act for act in said.acts if act.act == "drilling"]
    assert drilling.answer == "no"
    assert drilling.why.startswith("No drilling in K2")
    assert drilling.why.endswith("A hole may go 5 mm deep there.")
    assert said.depth_mm == 5


@pytest.mark.parametrize("named", ["room", "site", "hold", "board"])
def test_no_to_what_a_place_is_in_or_on_is_no_at_the_wall(surveyed: Surveyed, named: str) -> None:
    """A no to drilling in a room, at a hook or into a board is no hole there; touching is asked as before."""
    hook = {"face": surveyed.face, "mark": "H1", "sort": "hook", "x_mm": 500, "z_mm": 500, "may_be_used": "not known"}
    board = {"face": surveyed.face, "mark": "B1", "sort": "board", "material": "oak", "x_mm": 0, "z_mm": 0}
    there = {
        "room": surveyed.room,
        "site": surveyed.site,
        "hold": surveyed.book.write("hold", hook),
        "board": surveyed.book.write(
            "member", board | {"width_mm": 900, "height_mm": 900, "age": "old"} | {"behind_mm": 0, "thickness_mm": 20}
        ),
    }
    no = {"site": surveyed.site, "reference": "A1", "items": [there[named]], "answer": "no", "acts": ["drilling"]}
    surveyed.book.write("agreement", no | {"words": "no holes", "said_by": "harbour trust", "on": "2026-01-10"})
    site = gather(surveyed.book, surveyed.site)
    said = {act.act: act.answer for act in answer(site, site[surveyed.face], 500, 500, 5, today=TODAY).acts}
    assert (said["drilling"], said["contact"]) == ("no", "ask the keeper")


PLASTER = ["gypsum plaster", 13, "later"]


@pytest.mark.parametrize(
    ("layers", "depth", "found"),
    [
        ([PLASTER], 13, "nothing against it"),
        ([PLASTER], 30, "not known"),  # 17 mm of it in what nobody entered
        ([PLASTER], None, "not known"),
        ([PLASTER, ["concrete block", 100, "later"]], None, "nothing against it"),
        ([PLASTER, ["concrete block", None, "later"]], 150, "nothing against it"),
    ],
)
def test_hole_deeper_than_what_is_entered_is_not_known(
    surveyed: Surveyed, layers: list[list[Any]], depth: float | None, found: str
) -> None:
    """Thirteen millimetres of later plaster may hang before old stone."""
    surveyed.looked()
    surveyed.book.write("site", {"asks_about_later_work": 0}, item=surveyed.site)
    surveyed.book.write("face", {"layers": layers}, item=surveyed.face)
    site = gather(surveyed.book, surveyed.site)
    said = {act.act: act for act in answer(site, site[surveyed.face], 500, 500, 5, depth, TODAY).acts}
    assert (said["drilling"].answer, said["contact"].answer) == (found, "nothing against it")
    if found == "not known":
        assert "what lies deeper than 13 mm here is not entered" in said["drilling"].why


def test_stud_behind_the_plaster_is_entered_as_deep_as_it_is(surveyed: Surveyed) -> None:
    """A stud of 90 mm behind 13 mm of plaster: to 103 mm it is known what a hole meets, and no deeper."""
    surveyed.looked()
    surveyed.book.write("site", {"asks_about_later_work": 0}, item=surveyed.site)
    surveyed.book.write("face", {"layers": [PLASTER]}, item=surveyed.face)
    stud = {"face": surveyed.face, "mark": "B1", "sort": "stud", "material": "spruce", "age": "later"}
    place = {"x_mm": 480, "z_mm": 0, "width_mm": 45, "height_mm": 3000, "behind_mm": 13, "thickness_mm": 90}
    surveyed.book.write("member", stud | place)
    site = gather(surveyed.book, surveyed.site)
    for depth, found in ((103, "nothing against it"), (104, "not known")):
        said = {act.act: act.answer for act in answer(site, site[surveyed.face], 500, 500, 5, depth, TODAY).acts}
        assert said["drilling"] == found


@pytest.mark.parametrize(("radius", "found"), [(9, "nothing against it"), (10, "ask the keeper")])
def test_old_board_that_a_footprint_touches_beside_its_middle_is_old_fabric(
    surveyed: Surveyed, radius: float, found: str
) -> None:
    """Ten millimetres beside the middle of a jaw on later plaster an old board begins."""
    surveyed.looked()
    surveyed.book.write("site", {"asks_about_later_work": 0}, item=surveyed.site)
    surveyed.book.write("face", {"layers": [PLASTER, ["brick", 110, "later"]]}, item=surveyed.face)
    board = {"face": surveyed.face, "mark": "B1", "sort": "board", "material": "oak", "age": "old", "behind_mm": 0}
    surveyed.book.write("member", board | {"x_mm": 510, "z_mm": 0, "width_mm": 300, "height_mm": 900})
    site = gather(surveyed.book, surveyed.site)
    said = {act.act: act.answer for act in answer(site, site[surveyed.face], 500, 500, radius, today=TODAY).acts}
    assert said["contact"] == found


@pytest.mark.parametrize(
    ("face", "room", "lacks"),
    [
        ({"sort": "ceiling"}, {}, "above_floor_mm"),
        ({"sort": "ceiling"}, {"ceiling_mm": 2600}, "headroom_mm"),
        ({"sort": "other"}, {}, "slope_deg"),
        ({"sort": "wall", "slope_deg": 30}, {}, "headroom_mm"),
        ({"sort": "wall"}, {}, None),
    ],
)
def test_how_far_something_may_hang_over_heads_is_not_said_without_a_height_and_a_headroom(
    surveyed: Surveyed, face: dict[str, Any], room: dict[str, Any], lacks: str | None
) -> None:
    """A ceiling nobody measured, one without a headroom, a face that leans; over a wall heads pass nowhere."""
    surveyed.book.write("face", face, item=surveyed.face)
    surveyed.book.write("room", room, item=surveyed.room)
    said = at(surveyed)
    assert said.clear_mm is None
    assert (said.refusal and said.refusal.field) == lacks


def test_headroom_that_is_set_leaves_what_is_above_it(surveyed: Surveyed) -> None:
    """2,100 mm of headroom under a ceiling at 2,600: something may hang down 500 mm."""
    surveyed.book.write("face", {"sort": "ceiling", "above_floor_mm": 2600}, item=surveyed.face)
    headroom = {"mark": "L1", "name": "Heads", "sort": "headroom", "margin_mm": 0, "headroom_mm": 2100}
    surveyed.book.write("limit", headroom | {"face": surveyed.face, "projection_mm": 0})
    assert (at(surveyed).clear_mm, at(surveyed).refusal) == (500, None)


@pytest.mark.parametrize(("x", "found"), [(30, "nothing against it"), (29, "not known")])
def test_footprint_beyond_the_edge_of_the_face_is_not_fine(surveyed: Surveyed, x: float, found: str) -> None:
    """A plate of 30 mm radius at x = 29 reaches 1 mm round the corner, where nobody asked."""
    made_of(surveyed, LATER)
    surveyed.looked()
    surveyed.book.write("site", {"asks_about_later_work": 0}, item=surveyed.site)
    said = of(at(surveyed, x, radius_mm=30.0), "contact")
    assert said.answer == found
    assert ("reaches 1 mm beyond the edge of R1-N" in said.why) == (x == 29)
