"""Whether a thing can be where it is said to be, and whether its mark is its own."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.book.gathering import gather
from fieldbook.checks.verdict import Word
from fieldbook.errors import Refused
from fieldbook.findings import Finding
from fieldbook.findings.answering import find
from fieldbook.findings.questions import OF_KIND
from tests.cases.shared import cases, shared_site
from tests.findings.asked import TODAY, one
from tests.findings.generated import changed
from tests.sites import Surveyed

PLACE_OF_FITTING = next(each for each in OF_KIND["fitting"] if each.name == "place")


def old(surveyed: Surveyed, item: str, **values: Any) -> Finding:
    """The place of an item as a book made before the rules may hold it."""
    site = gather(surveyed.book, surveyed.site)
    now = changed(site, site[item], **values)
    (asked,) = [each for each in OF_KIND[now[item].kind] if each.name == "place"]
    return find(asked, now[item], now, TODAY)


def test_thing_beyond_its_face_is_over_by_what_it_overhangs(surveyed: Surveyed) -> None:
    """A rail of 1,000 mm from x = 4,200 on a face of 5,000 mm overhangs by 200."""
    rail = surveyed.fitting(x_mm=4200)
    found = one(surveyed, "place", rail)
    assert (found.word, found.verdict.figure) == (Word.OVER, 200)


def test_thing_through_another_is_over_unless_it_hangs_on_it(surveyed: Surveyed) -> None:
    """A panel 60 mm into the rail's 80 is over; one that hangs on it lies over it; one that only touches is well."""
    rail = surveyed.fitting()
    through = surveyed.fitting(mark="D2", z_mm=1520, height_mm=600)
    assert (one(surveyed, "place", through).word, one(surveyed, "place", through).verdict.figure) == (Word.OVER, 60)
    surveyed.book.write("fitting", {"hangs_on": rail}, item=through)
    assert one(surveyed, "place", through).word is Word.WITHIN
    above = surveyed.fitting(mark="D3", z_mm=1580, x_mm=3000, height_mm=600)
    assert one(surveyed, "place", above).word is Word.WITHIN


def test_half_a_place_measured_is_not_known(surveyed: Surveyed) -> None:
    """An old book may hold an as-fitted x without its z: the other half is asked for."""
    fixing = surveyed.fixing(surveyed.fitting())
    found = old(surveyed, fixing, fitted_x_mm=1103)
    assert (found.word, [blank.field for blank in found.missing]) == (Word.NOT_KNOWN, ["fitted_z_mm"])


def test_fixing_off_its_fitting_is_over(surveyed: Surveyed) -> None:
    """At z = 1,640 it lies 60 mm above a rail that ends at 1,580, less the 12 mm of its jaw; a strap may."""
    rail = surveyed.fitting()
    clamp, strap = surveyed.fixing(rail), surveyed.fixing(rail, sort="strap", z_mm=1700)
    off = old(surveyed, clamp, z_mm=1640)
    assert (off.word, off.verdict.figure) == (Word.OVER, 48)
    assert one(surveyed, "place", strap).word is Word.WITHIN


def test_fixing_lies_where_its_hold_is(surveyed: Surveyed) -> None:
    """3-4-5: 30 mm right of its hole and 40 above it lies 50 mm off; 5 mm is what setting out is good for."""
    hold = {"face": surveyed.face, "mark": "H1", "sort": "hole", "z_mm": 1540, "may_be_used": "yes"}
    near = surveyed.book.write("hold", hold | {"x_mm": 1097, "z_mm": 1536})
    far = surveyed.book.write("hold", hold | {"x_mm": 1070, "z_mm": 1500, "mark": "H2"})
    rail = surveyed.fitting()
    used = {"hole": "existing", "trace": "an old hole used again"}
    well, off = (surveyed.fixing(rail, hold=hold, **used) for hold in (near, far))
    assert one(surveyed, "place", off).verdict.figure == 50
    assert "H1" not in one(surveyed, "place", well).verdict.sentence


def test_two_fixings_in_one_place_are_over(surveyed: Surveyed) -> None:
    """Two holes of 8 mm whose middles lie 5 mm apart run 3 mm into each other."""
    rail = surveyed.fitting()
    first = surveyed.fixing(rail, diameter_mm=8)
    surveyed.fixing(rail, mark="D1.2", x_mm=1105, diameter_mm=8)
    assert one(surveyed, "place", first).verdict.figure == 3


def test_diameter_that_decides_whether_two_fixings_meet_is_asked_for(surveyed: Surveyed) -> None:
    """13 mm apart, one of 8 mm meets one that measures up to 20 across: 4 + 10 = 14; 15 mm apart it does not."""
    rail = surveyed.fitting()
    first = surveyed.fixing(rail, diameter_mm=8)
    second = surveyed.fixing(rail, mark="D1.2", x_mm=1113)
    found = one(surveyed, "place", first)
    assert (found.word, [blank.item.id for blank in found.missing]) == (Word.NOT_KNOWN, [second])
    surveyed.book.write("fixing", {"x_mm": 1115}, item=second)
    assert one(surveyed, "place", first).word is Word.WITHIN
    surveyed.book.write("fixing", {"x_mm": 1113, "diameter_mm": 6}, item=second)
    assert one(surveyed, "place", first).word is Word.WITHIN


def test_fixing_through_a_fitting_it_does_not_hold_is_over(surveyed: Surveyed) -> None:
    """A clamp of the rail where a case stands goes through the case."""
    rail = surveyed.fitting()
    surveyed.fitting(mark="D2", x_mm=1050, z_mm=1400, width_mm=300, height_mm=300)
    assert "D2" in one(surveyed, "place", surveyed.fixing(rail)).verdict.sentence


@pytest.mark.parametrize("kind", ["fitting", "fixing"])
def test_equal_marks_stand_as_findings(surveyed: Surveyed, kind: str) -> None:
    """Of two things with one mark it is not known which is meant."""
    rail = surveyed.fitting()
    make = {"fitting": lambda: surveyed.fitting(z_mm=200), "fixing": lambda: surveyed.fixing(rail, x_mm=1500)}[kind]
    first = rail if kind == "fitting" else surveyed.fixing(rail)
    assert one(surveyed, "mark", first).word is Word.WITHIN
    make()
    assert one(surveyed, "mark", first).word is Word.NOT_KNOWN


def test_what_held_it_and_is_gone_is_asked_for(surveyed: Surveyed) -> None:
    """A hold or a board that was withdrawn holds nothing, nor does a fitting that was taken down."""
    rail, carrier = surveyed.fitting(), surveyed.fitting(mark="D2", x_mm=3000)
    at = {"face": surveyed.face, "x_mm": 1100, "z_mm": 1540}
    hold = surveyed.book.write("hold", {"mark": "H1", "sort": "hole", "may_be_used": "yes", **at})
    size = {"mark": "B1", "sort": "board", "material": "C24", "width_mm": 900, "height_mm": 100}
    board = surveyed.book.write("member", size | at)
    links = {"hold": hold, "member": board, "other_fitting": carrier}
    fixings = {
        name: surveyed.fixing(rail, mark=f"D1.{name}", x_mm=1100 + 100 * number, **{name: link})
        for number, (name, link) in enumerate(links.items())
    }
    hung = surveyed.fitting(mark="D3", x_mm=3000, z_mm=2000, hangs_on=carrier)
    surveyed.book.withdraw(hold)
    surveyed.book.withdraw(board)
    surveyed.book.write("fitting", {"state": "taken down"}, item=carrier)
    for name, item in (fixings | {"hangs_on": hung}).items():
        found = one(surveyed, "place", item)
        assert (found.word, [blank.field for blank in found.missing]) == (Word.NOT_KNOWN, [name])


def test_what_cannot_be_is_refused_where_it_is_entered(surveyed: Surveyed) -> None:
    """Half a place; a room of two corners; a clamp 60 mm above its rail, 48 past its jaw; a leaf through the wall.

    Hung 12 mm out and swung to 200°, the corner 800 mm along it and 10 behind lies 12 - 800 · sin 20° + 10 · cos 20°
    = -252 mm out of the wall.
    """
    rail = surveyed.fitting()
    for enter, field, figure in (
        (lambda: surveyed.fixing(rail, fitted_x_mm=1103), "fitted_z_mm", ""),
        (lambda: surveyed.book.write("room", {"plan": [[0, 0], [1, 0]]}, item=surveyed.room), "plan", "2 corners"),
        (lambda: surveyed.fixing(rail, z_mm=1640), "z_mm", "48 mm off"),
        (lambda: surveyed.limit(swing_to_deg=200), "boxes", "252 mm inside the wall"),
    ):
        with pytest.raises(Refused) as refused:
            enter()
        (finding,) = refused.value.findings
        assert finding.field == field
        assert figure in finding.reason


@pytest.mark.parametrize(
    ("until", "phase", "state", "word"),
    [
        ("2", "2", "planned", Word.WITHIN),
        ("2", "10", "planned", Word.WITHIN),  # phases follow each other as people count
        ("10", "2", "planned", Word.OVER),
        (None, "2", "planned", Word.OVER),
        ("2", None, "planned", Word.OVER),
        ("2", "2", "fitted", Word.OVER),  # both are up, whatever was planned
    ],
)
def test_what_is_down_by_the_phase_of_another_leaves_it_its_place(
    surveyed: Surveyed, until: str | None, phase: str | None, state: str, word: Word
) -> None:
    """D2 goes up where D1 was, with a clamp in the place of its clamp."""
    rails = [
        surveyed.fitting(until_phase=until, state=state, touches_face=0),
        surveyed.fitting(mark="D2", phase=phase, state=state, touches_face=0),
    ]
    clamps = [surveyed.fixing(rail, mark=f"C{at}", state=state, diameter_mm=8) for at, rail in enumerate(rails)]
    assert {one(surveyed, "place", item).word for item in (*rails, *clamps)} == {word}


@pytest.mark.parametrize(
    ("place", "told"),
    [
        ({}, True),
        ({"fitted_place": "not measured"}, True),
        ({"fitted_place": "as planned, checked with a tape"}, False),
        ({"fitted_x_mm": 1101, "fitted_z_mm": 1540}, False),
    ],
)
def test_place_as_fitted_that_nobody_measured_is_said_to_be_assumed(
    surveyed: Surveyed, place: dict[str, Any], told: bool
) -> None:
    """What is in already is where it is, and not where it was planned."""
    clamp = surveyed.fixing(surveyed.fitting(state="fitted"), state="fitted", **place)
    assert any("not measured" in words for words in one(surveyed, "place", clamp).assumed) is told


@pytest.mark.parametrize("question", ["consent", "keep-off", "touch", "before-hole"])
def test_what_joins_a_fitting_that_nobody_named_is_not_known(surveyed: Surveyed, question: str) -> None:
    """Into another fitting, and none is named nor hung on: it may as well go into the wall."""
    joint = surveyed.fixing(surveyed.fitting(), fabric="another fitting")
    found = one(surveyed, question, joint)
    assert (found.word, found.missing[0].field) == (Word.NOT_KNOWN, "other_fitting")
    surveyed.book.write("fixing", {"other_fitting": surveyed.fitting(mark="D2")}, item=joint)
    assert one(surveyed, question, joint).word is Word.DOES_NOT_APPLY


def test_fixing_off_the_other_fitting_it_joins_is_over(surveyed: Surveyed) -> None:
    """D2 begins at x = 1,500; a screw at 1,100 with 12 mm round it ends 388 mm before, in the wall or in the air."""
    other = surveyed.fitting(mark="D2", x_mm=1500)
    rail = surveyed.fitting(hangs_on=other)
    joint = surveyed.fixing(rail, fabric="another fitting", other_fitting=other)
    found = one(surveyed, "place", joint)
    assert (found.word, found.verdict.figure) == (Word.OVER, 388)
    surveyed.book.write("fitting", {"x_mm": 1088}, item=other)
    assert one(surveyed, "place", joint).word is Word.WITHIN


@pytest.mark.parametrize(("x_mm", "word"), [(1012, Word.WITHIN), (1011, Word.CLOSE)])
def test_what_may_reach_round_a_corner_is_warned_of(surveyed: Surveyed, x_mm: float, word: Word) -> None:
    """A jaw of 12 mm round its middle at 11 mm from the left edge, x = 1,000, may reach 1 mm past it."""
    surveyed.book.write("face", {"left_mm": 1000}, item=surveyed.face)
    found = one(surveyed, "place", surveyed.fixing(surveyed.fitting(), x_mm=x_mm))
    assert found.word is word
    if word is Word.CLOSE:
        assert found.verdict.figure == 1


@pytest.mark.parametrize("case", cases("in_metres"), ids=lambda case: case["what"])
def test_metres_typed_for_millimetres_are_asked_about_as_on_the_phone(case: dict[str, Any]) -> None:
    """The case D10 of the site that desk and phone share, entered in another size."""
    shared = shared_site()
    (own,) = (one for one in shared.all("fitting") if one.mark == "D10")
    site = changed(shared, own, width_mm=case["width_mm"], height_mm=case["height_mm"])
    verdict = find(PLACE_OF_FITTING, site[own.id], site, TODAY).verdict
    said = verdict.word, list(verdict.missing), verdict.sentence
    assert said == (case["word"], case["missing"], case["sentence"])


def test_thing_entered_in_metres_is_asked_about(surveyed: Surveyed) -> None:
    """1.2 by 0.8 is a panel in metres, and nothing at all in millimetres; a strip of 6 mm is one."""
    panel = surveyed.fitting(width_mm=1.2, height_mm=0.8)
    found = one(surveyed, "place", panel)
    assert (found.word, found.missing[0].field) == (Word.NOT_KNOWN, "width_mm")
    surveyed.book.write("fitting", {"width_mm": 1200, "height_mm": 6}, item=panel)
    assert one(surveyed, "place", panel).word is Word.WITHIN
