"""Who agreed to what: one relation, seen from the agreement and from the thing."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from fieldbook.book.gathering import gather
from fieldbook.checks.verdict import Word
from fieldbook.findings import Finding, appraise
from fieldbook.findings.ages import AS_ENTERED
from tests.sites import Surveyed

TODAY = date(2031, 3, 14)
HOLE = {"hole": "new", "trace": "a new hole in old fabric", "penetration_mm": 30, "sort": "wood screw"}


def consent(surveyed: Surveyed, thing: str) -> Finding:
    """The finding about one thing's consent."""
    site = gather(surveyed.book, surveyed.site)
    (one,) = [found for found in appraise(site, TODAY) if found.question == "consent" and found.subject.id == thing]
    return one


def agree(surveyed: Surveyed, *things: str, **more: Any) -> str:
    """A yes of the keeper to some things."""
    given = {"site": surveyed.site, "reference": "A1", "items": list(things), "answer": "yes", "on": "2031-01-10"}
    return surveyed.book.write("agreement", given | {"words": "as drawn", "said_by": "harbour trust"} | more)


def fixing(surveyed: Surveyed, **more: Any) -> tuple[str, str]:
    """A rail and one fixing of it."""
    rail = surveyed.fitting(mass_loaded_kg=12, touches_face=0)
    return rail, surveyed.fixing(rail, **{"adhesive": 0, "carries_load": 1} | more)


def test_contact_alone_with_old_fabric_needs_an_agreement(surveyed: Surveyed) -> None:
    """A lined clamp that leaves nothing still touches the wall."""
    _, clamp = fixing(surveyed)
    assert consent(surveyed, clamp).word is Word.NOT_AGREED
    agree(surveyed, clamp)
    found = consent(surveyed, clamp)
    assert (found.word, found.against and found.against.reference) == (Word.AGREED, "A1")


def test_yes_to_a_fitting_covers_its_fixings_and_so_does_a_no(surveyed: Surveyed) -> None:
    """What the keeper said of the rail is said of its screws."""
    rail, screw = fixing(surveyed, **HOLE)
    agree(surveyed, rail)
    assert consent(surveyed, screw).word is Word.AGREED
    agree(surveyed, rail, reference="A2", answer="no", on="2031-02-01")
    assert consent(surveyed, screw).word is Word.REFUSED


@pytest.mark.parametrize(
    ("first", "second", "word"),
    [
        (("yes", "2031-01-10"), ("no", "2031-01-10"), Word.REFUSED),  # on one day the no
        (("no", "2031-01-10"), ("yes", "2031-01-11"), Word.AGREED),
        (("yes", "2031-01-11"), ("no", "2031-01-10"), Word.AGREED),
    ],
)
def test_latest_answer_rules_and_on_one_day_the_no(
    surveyed: Surveyed, first: tuple[str, str], second: tuple[str, str], word: Word
) -> None:
    """The order in which they were entered does not matter."""
    _, clamp = fixing(surveyed)
    for number, (answer, on) in enumerate((first, second)):
        agree(surveyed, clamp, reference=f"A{number}", answer=answer, on=on)
    assert consent(surveyed, clamp).word is word


def test_later_work_needs_no_agreement_unless_the_keeper_asks_for_it(surveyed: Surveyed) -> None:
    """Whether the keeper asks is one entry for the whole site; until it is made the answer is not known."""
    _, screw = fixing(surveyed, fabric="later work", **HOLE | {"trace": "a new hole in later work"})
    found = consent(surveyed, screw)
    assert (found.word, found.missing[0].field) == (Word.NOT_KNOWN, "asks_about_later_work")
    for asks, word in ((0, Word.DOES_NOT_APPLY), (1, Word.NOT_AGREED)):
        surveyed.book.write("site", {"asks_about_later_work": asks}, item=surveyed.site)
        assert consent(surveyed, screw).word is word


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"x_mm": 1106}, "x is 1106 mm, not 1100 ± 5 mm"),
        ({"fitted_x_mm": 1100, "fitted_z_mm": 1546}, "z is 1546 mm"),
        ({"penetration_mm": 35}, "it goes 35 mm deep, not 30"),
        ({"adhesive": 1}, "it is glued now"),
    ],
)
def test_what_passes_the_play_of_an_agreement_is_asked_again(
    surveyed: Surveyed, change: dict[str, Any], words: str
) -> None:
    """A yes is to the state that was shown; the finding says what has changed since."""
    _, screw = fixing(surveyed, **HOLE)
    agree(surveyed, screw)
    surveyed.book.write("fixing", change, item=screw)
    found = consent(surveyed, screw)
    assert found.word is Word.NOT_AGREED
    assert words in found.verdict.sentence


def test_what_stays_within_the_play_stays_agreed(surveyed: Surveyed) -> None:
    """5 mm unless the agreement says otherwise; one that says 20 mm bears 20 mm."""
    _, screw = fixing(surveyed, **HOLE)
    ruling = agree(surveyed, screw)
    surveyed.book.write("fixing", {"x_mm": 1105}, item=screw)
    assert consent(surveyed, screw).word is Word.AGREED
    surveyed.book.write("fixing", {"x_mm": 1120}, item=screw)
    assert consent(surveyed, screw).word is Word.NOT_AGREED
    surveyed.book.write("agreement", {"play_mm": 20}, item=ruling)
    assert consent(surveyed, screw).word is Word.AGREED


def test_fixing_added_after_a_fitting_was_agreed_is_asked_again(surveyed: Surveyed) -> None:
    """The keeper has not seen it."""
    rail, _ = fixing(surveyed)
    agree(surveyed, rail)
    new = surveyed.fixing(rail, mark="D1.9", x_mm=1500, adhesive=0, carries_load=1)
    found = consent(surveyed, new)
    assert (found.word, "not there yet" in found.verdict.sentence) == (Word.NOT_AGREED, True)


def test_more_new_holes_than_were_agreed_are_asked_again(surveyed: Surveyed) -> None:
    """Two holes were agreed; a third makes all of them more than that."""
    rail = surveyed.fitting(mass_loaded_kg=12, touches_face=0)
    screws = [
        surveyed.fixing(rail, mark=f"D1.{at}", x_mm=1100 + at, adhesive=0, carries_load=1, **HOLE) for at in (1, 2, 3)
    ]
    agree(surveyed, *screws, holes=2)
    assert consent(surveyed, screws[0]).word is Word.NOT_AGREED
    surveyed.book.write("fixing", {"state": "taken down"}, item=screws[2])
    assert consent(surveyed, screws[0]).word is Word.AGREED


def test_agreement_about_an_area_covers_what_lies_in_it_with_its_acts_and_depth(surveyed: Surveyed) -> None:
    """Drilling to 40 mm in a rectangle: inside it yes, outside no word, deeper not, gluing not."""
    area = {
        "acts": ["drilling", "contact", "load"],
        "depth_mm": 40,
        "outline": [[1000, 1400], [1300, 1400], [1300, 1700], [1000, 1700]],
    }
    agree(surveyed, surveyed.face, **area)
    rail, inside = fixing(surveyed, **HOLE)
    more = {"adhesive": 0, "carries_load": 1} | HOLE
    outside = surveyed.fixing(rail, mark="D1.2", x_mm=1600, **more)
    deeper = surveyed.fixing(rail, mark="D1.3", **more | {"penetration_mm": 41})
    glued = surveyed.fixing(rail, mark="D1.4", **more | {"adhesive": 1})
    words = [consent(surveyed, one).word for one in (inside, outside, deeper, glued)]
    assert words == [Word.AGREED, Word.NOT_AGREED, Word.NOT_AGREED, Word.NOT_AGREED]


def test_holes_are_counted_in_an_area_as_well(surveyed: Surveyed) -> None:
    """One new hole was agreed for a face; a second makes both more than that."""
    acts = ["drilling", "contact", "load"]
    agree(surveyed, surveyed.face, acts=acts, depth_mm=40, holes=1)
    rail, first = fixing(surveyed, **HOLE)
    assert consent(surveyed, first).word is Word.AGREED
    surveyed.fixing(rail, mark="D1.2", x_mm=1600, **{"adhesive": 0, "carries_load": 1} | HOLE)
    found = consent(surveyed, first)
    assert (found.word, "2 new holes are planned or made, not 1" in found.verdict.sentence) == (Word.NOT_AGREED, True)


def test_no_to_a_face_without_acts_is_to_all_of_them(surveyed: Surveyed) -> None:
    """As at the wall: who refuses a face need not say what."""
    _, clamp = fixing(surveyed)
    agree(surveyed, surveyed.face, answer="no")
    assert consent(surveyed, clamp).word is Word.REFUSED


@pytest.mark.parametrize(
    ("gives", "word"), [(["nothing"], Word.AGREED), (["heat"], Word.NOT_AGREED), (None, Word.NOT_KNOWN)]
)
def test_yes_to_a_face_holds_for_what_a_fitting_gives_off_as_well(
    surveyed: Surveyed, gives: list[str] | None, word: Word
) -> None:
    """One to touching and bearing is none to heat; what gives off nothing needs no more, and a blank is asked for."""
    agree(surveyed, surveyed.face, acts=["contact", "load"])
    assert consent(surveyed, surveyed.fitting(mass_loaded_kg=12, touches_face=1, gives=gives)).word is word


@pytest.mark.parametrize(
    ("more", "word"),
    [
        ({"until": "2031-03-13"}, Word.NOT_AGREED),
        ({"until": "2031-03-14"}, Word.AGREED),
        ({"answer": "yes, with conditions", "conditions": "felt under it"}, Word.NOT_KNOWN),
        ({"answer": "yes", "conditions": "felt under it"}, Word.NOT_KNOWN),
        ({"answer": "yes, with conditions", "conditions": "felt under it", "conditions_met": "no"}, Word.NOT_AGREED),
        ({"answer": "yes", "conditions": "felt under it", "conditions_met": "not yet"}, Word.NOT_AGREED),
        ({"answer": "yes, with conditions", "conditions": "felt under it", "conditions_met": "yes"}, Word.AGREED),
    ],
)
def test_end_and_conditions_of_an_agreement_count(surveyed: Surveyed, more: dict[str, Any], word: Word) -> None:
    """One that has ended, or whose conditions are not met, no longer says yes."""
    _, clamp = fixing(surveyed)
    agree(surveyed, clamp, **more)
    assert consent(surveyed, clamp).word is word


@pytest.mark.parametrize(
    ("may", "by", "word"),
    [
        ("yes", "caretaker", Word.AGREED),
        ("yes", None, Word.NOT_AGREED),
        ("not known", None, Word.NOT_AGREED),
        ("no", None, Word.REFUSED),
    ],
)
def test_hold_that_may_be_used_with_who_said_so_is_consent_for_it(
    surveyed: Surveyed, may: str, by: str | None, word: Word
) -> None:
    """A hook that may be used is agreed to; one that may not is refused."""
    place = {"face": surveyed.face, "mark": "H1", "sort": "hook", "x_mm": 1100, "z_mm": 1540}
    hold = surveyed.book.write("hold", place | {"may_be_used": may, "said_by": by})
    _, hooked = fixing(surveyed, hole="existing", hold=hold, trace="an old hole used again", sort="hook")
    assert consent(surveyed, hooked).word is word


def test_fitting_that_bears_on_the_face_is_asked_about_itself(surveyed: Surveyed) -> None:
    """A blank is no “no”: whether it bears is asked; where only its fixings do, the question is theirs."""
    rail = surveyed.fitting()
    assert consent(surveyed, rail).word is Word.NOT_KNOWN
    surveyed.book.write("fitting", {"touches_face": 0}, item=rail)
    assert consent(surveyed, rail).word is Word.DOES_NOT_APPLY
    surveyed.book.write("fitting", {"touches_face": 1}, item=rail)
    assert consent(surveyed, rail).word is Word.NOT_AGREED


def test_agreement_of_an_older_book_entered_at_the_fixing_still_counts(surveyed: Surveyed) -> None:
    """The fixing's own link is read as the relation; a free text is kept to be read and is no agreement."""
    _, clamp = fixing(surveyed)
    surveyed.book.write("fixing", {"consent": "letter of May"}, item=clamp)
    found = consent(surveyed, clamp)
    assert (found.word, "letter of May" in found.verdict.sentence) == (Word.NOT_AGREED, True)
    surveyed.book.write("fixing", {"agreement": agree(surveyed)}, item=clamp)
    assert consent(surveyed, clamp).word is Word.AGREED


def test_yes_that_lists_acts_covers_no_other_of_a_named_thing(surveyed: Surveyed) -> None:
    """A yes to a screw's contact and load is none to the hole it needs; one that lists no acts is to all it does."""
    _, screw = fixing(surveyed, **HOLE)
    agree(surveyed, screw, acts=["contact", "load"])
    found = consent(surveyed, screw)
    assert found.word is Word.NOT_AGREED
    assert "nothing was agreed of drilling" in found.verdict.sentence
    agree(surveyed, screw, reference="A2", on="2031-01-11")
    assert consent(surveyed, screw).word is Word.AGREED


def test_what_is_asked_again_is_not_said_to_be_what_nobody_entered(surveyed: Surveyed) -> None:
    """A screw that goes too deep, of which it is not entered whether it is glued: too deep in any case, and no more."""
    _, screw = fixing(surveyed, **HOLE | {"adhesive": None})
    agree(surveyed, screw, acts=["contact", "load", "drilling"], depth_mm=20)
    found = consent(surveyed, screw)
    assert found.word is Word.NOT_AGREED
    assert "it goes 30 mm deep, not 20" in found.verdict.sentence
    assert "glued" not in found.verdict.sentence


def test_yes_of_a_day_that_has_not_come_is_none_yet(surveyed: Surveyed) -> None:
    """Dated a year ahead by a slip of the pen, it is asked again; on its day it counts."""
    _, clamp = fixing(surveyed)
    agree(surveyed, clamp, on="2031-03-15")
    assert consent(surveyed, clamp).word is Word.NOT_AGREED
    site = gather(surveyed.book, surveyed.site)
    later = [one for one in appraise(site, date(2031, 3, 15)) if one.question == "consent" and one.subject.id == clamp]
    assert [one.word for one in later] == [Word.AGREED]


@pytest.mark.parametrize(
    ("more", "word"),
    [
        ({"sort": "hook"}, Word.AGREED),
        ({"sort": "hook", "penetration_mm": 41}, Word.NOT_AGREED),  # deeper than the 40 mm of the hole
        ({"sort": "hook", "adhesive": 1}, Word.NOT_AGREED),
        ({"sort": "clamp", "hole": "none"}, Word.AGREED),
    ],
)
def test_yes_to_a_hold_is_to_what_it_is_and_to_no_deeper_hole_or_glue(
    surveyed: Surveyed, more: dict[str, Any], word: Word
) -> None:
    """The keeper said that the hole of 40 mm may be used again, and not that it may be drilled or glued into."""
    at = {"face": surveyed.face, "x_mm": 1100, "z_mm": 1540, "mark": "H1", "sort": "hole", "depth_mm": 40}
    hold = surveyed.book.write("hold", at | {"may_be_used": "yes", "said_by": "harbour trust"})
    held = {"hole": "existing", "hold": hold, "trace": "an old hole used again", "penetration_mm": 40} | more
    if held["hole"] == "none":
        held["penetration_mm"] = 0
    _, hook = fixing(surveyed, **held)
    assert consent(surveyed, hook).word is word


def test_hold_not_to_be_used_is_refused_to_what_grips_it_without_a_hole(surveyed: Surveyed) -> None:
    """A clamp on a flange of later work needs no agreement, but the flange is not to be used."""
    surveyed.book.write("site", {"asks_about_later_work": 0}, item=surveyed.site)
    at = {"face": surveyed.face, "x_mm": 1100, "z_mm": 1540, "mark": "H1", "sort": "flange", "may_be_used": "no"}
    _, clamp = fixing(surveyed, fabric="later work", hold=surveyed.book.write("hold", at))
    assert consent(surveyed, clamp).word is Word.REFUSED


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"contact_radius_mm": 17}, ""),  # 12 and the play of 5 mm
        ({"contact_radius_mm": 18}, "it reaches 18 mm round its middle, not 12"),
        ({"sort": "strap"}, "its type is strap, not clamp"),
        ({"lining": "felt"}, "its lining is felt, not leather"),
        ({"lining": None}, "its lining is not entered, not leather"),
    ],
)
def test_what_touches_the_fabric_is_agreed_as_it_was(surveyed: Surveyed, change: dict[str, Any], told: str) -> None:
    """Another sort of fixing, a wider jaw or another lining was not what the keeper agreed to."""
    _, clamp = fixing(surveyed, lining="leather")
    agree(surveyed, clamp)
    surveyed.book.write("fixing", change, item=clamp)
    found = consent(surveyed, clamp)
    assert found.word is (Word.NOT_AGREED if told else Word.AGREED)
    assert told in found.verdict.sentence


def test_fitting_that_comes_to_touch_the_wall_is_asked_about_again(surveyed: Surveyed) -> None:
    """Agreed as held by its fixings alone, it does not bear on old fabric with the same yes; nor does it warm it."""
    rail = surveyed.fitting(mass_loaded_kg=12, touches_face=0, gives=["nothing"])
    agree(surveyed, rail)
    surveyed.book.write("fitting", {"touches_face": 1, "gives": ["heat"]}, item=rail)
    found = consent(surveyed, rail)
    assert found.word is Word.NOT_AGREED
    assert "it touches the wall itself now; it gives off heat now" in found.verdict.sentence


LAYERS = [["gypsum plaster", 13, "later"], ["limestone", 500, "old"]]


@pytest.mark.parametrize(
    ("layers", "depth", "word"),
    [
        (LAYERS, 10, Word.DOES_NOT_APPLY),
        (LAYERS, 30, Word.NOT_AGREED),
        (LAYERS, None, Word.NOT_KNOWN),
        (LAYERS[1:], 10, Word.NOT_AGREED),
        ([LAYERS[0], ["limestone", 500, None]], 30, Word.NOT_KNOWN),
        (LAYERS[:1], 13, Word.DOES_NOT_APPLY),
        (LAYERS[:1], 30, Word.NOT_KNOWN),  # what lies behind the plaster nobody entered
        (LAYERS[:1], None, Word.NOT_KNOWN),
        (None, 30, Word.DOES_NOT_APPLY),
    ],
)
def test_what_is_said_to_go_into_later_work_is_held_to_the_layers_it_meets(
    surveyed: Surveyed, layers: list[list[Any]] | None, depth: float | None, word: Word
) -> None:
    """A screw of 30 mm goes 17 mm into the old stone behind 13 mm of later plaster, whatever it is said to go into."""
    surveyed.book.write("site", {"asks_about_later_work": 0}, item=surveyed.site)
    surveyed.book.write("face", {"layers": layers}, item=surveyed.face)
    later = {"fabric": "later work", "trace": "a new hole in later work", "penetration_mm": depth}
    _, screw = fixing(surveyed, **HOLE | later)
    found = consent(surveyed, screw)
    assert found.word is word
    assert found.assumed == (() if layers else (AS_ENTERED,))


def test_yes_to_some_acts_is_none_to_what_a_fitting_does_beside(surveyed: Surveyed) -> None:
    """It lies on the wall and lights it: a yes that names it for drilling and contact is asked again of the rest."""
    lamp = surveyed.fitting(mass_loaded_kg=12, touches_face=1, gives=["light"])
    agree(surveyed, lamp, acts=["drilling", "contact"])
    found = consent(surveyed, lamp)
    assert (found.word, "nothing was agreed of light and load" in found.verdict.sentence) == (Word.NOT_AGREED, True)
    agree(surveyed, lamp, reference="A2", on="2031-01-12", acts=["contact", "load", "light"])
    assert consent(surveyed, lamp).word is Word.AGREED
    surveyed.book.write("fitting", {"gives": None}, item=lamp)
    assert (consent(surveyed, lamp).word, consent(surveyed, lamp).missing[0].field) == (Word.NOT_KNOWN, "gives")


def test_what_nobody_agreed_to_is_named(surveyed: Surveyed) -> None:
    """A glued screw touches, bears, drills and sticks; a yes to the face for touching and bearing leaves two acts."""
    _, screw = fixing(surveyed, **HOLE | {"adhesive": 1})
    assert "Nobody has agreed to adhesive, contact, drilling and load;" in consent(surveyed, screw).verdict.sentence
    agree(surveyed, surveyed.face, acts=["contact", "load"])
    assert "Nobody has agreed to adhesive and drilling;" in consent(surveyed, screw).verdict.sentence


def test_agreements_to_single_acts_agree_together(surveyed: Surveyed) -> None:
    """Touching and bearing in one letter and a hole of 40 mm in another agree to a screw of 30, not to one of 50."""
    _, screw = fixing(surveyed, **HOLE)
    agree(surveyed, surveyed.face, acts=["contact", "load"])
    agree(surveyed, surveyed.face, reference="A2", acts=["drilling"], depth_mm=40, on="2031-02-01")
    found = consent(surveyed, screw)
    assert (found.word, "A1," in found.verdict.sentence, "A2," in found.verdict.sentence) == (Word.AGREED, True, True)
    surveyed.book.write("fixing", {"penetration_mm": 50}, item=screw)
    found = consent(surveyed, screw)
    assert (found.word, "50 mm deep, not 40" in found.verdict.sentence) == (Word.NOT_AGREED, True)


def test_hold_that_may_be_used_and_a_yes_to_glue_agree_together(surveyed: Surveyed) -> None:
    """The caretaker said that the hole may be used again, and the trust agreed to glue on the face."""
    hole = {"face": surveyed.face, "mark": "H1", "sort": "hole", "x_mm": 1100, "z_mm": 1540}
    hold = surveyed.book.write("hold", hole | {"may_be_used": "yes", "said_by": "caretaker"})
    _, bolt = fixing(surveyed, sort="bolt", hole="existing", hold=hold, trace="an old hole used again", adhesive=1)
    assert consent(surveyed, bolt).word is Word.NOT_AGREED
    agree(surveyed, surveyed.face, acts=["adhesive"])
    assert consent(surveyed, bolt).word is Word.AGREED


@pytest.mark.parametrize(
    ("acts", "word"),
    [
        (None, Word.REFUSED),
        (["contact"], Word.REFUSED),
        (["drilling"], Word.AGREED),  # a clamp makes no hole
        (["drilling", "heat", "light"], Word.AGREED),
    ],
)
def test_no_to_a_named_thing_is_to_the_work_it_lists(surveyed: Surveyed, acts: list[str] | None, word: Word) -> None:
    """A later no to drilling leaves the clamp agreed as it was; one that lists nothing is to all of it."""
    rail, clamp = fixing(surveyed)
    agree(surveyed, rail)
    agree(surveyed, rail, reference="A2", answer="no", on="2031-02-01", acts=acts)
    assert consent(surveyed, clamp).word is word


def test_no_to_one_act_stands_beside_a_yes_to_others(surveyed: Surveyed) -> None:
    """A1 refuses drilling, A2 agrees later to contact alone: the hole stays refused, though load was never asked."""
    rail, screw = fixing(surveyed, **HOLE)
    agree(surveyed, rail, answer="no", acts=["drilling"])
    agree(surveyed, rail, reference="A2", on="2031-02-01", acts=["contact"])
    found = consent(surveyed, screw)
    assert (found.word, found.against and found.against.reference) == (Word.REFUSED, "A1")
    agree(surveyed, surveyed.face, reference="A3", on="2031-02-02", acts=["drilling"], depth_mm=40)
    agree(surveyed, surveyed.face, reference="A4", on="2031-02-02", acts=["load"])
    assert consent(surveyed, screw).word is Word.AGREED


@pytest.mark.parametrize(
    ("gives", "word"),
    [(["nothing"], Word.DOES_NOT_APPLY), (["heat"], Word.REFUSED), (["light"], Word.REFUSED), (None, Word.NOT_KNOWN)],
)
def test_no_to_heat_is_no_to_what_lights_as_well(surveyed: Surveyed, gives: list[str] | None, word: Word) -> None:
    """A case that hangs free of the wall touches nothing; its lamp warms the wall behind it."""
    agree(surveyed, surveyed.face, answer="no", acts=["heat"])
    assert consent(surveyed, surveyed.fitting(mass_loaded_kg=12, touches_face=0, gives=gives)).word is word


def test_no_to_a_room_the_site_a_hold_or_a_board_is_no_to_what_is_fixed_there(surveyed: Surveyed) -> None:
    """Whatever the keeper names, what is in it or goes into it is refused, though the screw itself was agreed to."""
    place = {"face": surveyed.face, "x_mm": 1000, "z_mm": 1400}
    board = surveyed.book.write(
        "member", place | {"mark": "B1", "sort": "board", "material": "oak", "width_mm": 900, "height_mm": 300}
    )
    hook = {"face": surveyed.face, "mark": "H1", "sort": "hook", "x_mm": 1100, "z_mm": 1540, "may_be_used": "yes"}
    hold = surveyed.book.write("hold", hook | {"said_by": "caretaker"})
    _, screw = fixing(surveyed, member=board, hold=hold, hole="existing", trace="an old hole used again")
    agree(surveyed, screw, on="2031-01-11")
    for named in (surveyed.room, surveyed.site, hold, board):
        ruling = agree(surveyed, named, reference="A2", answer="no", on="2031-02-01")
        assert consent(surveyed, screw).word is Word.REFUSED
        surveyed.book.write("agreement", {"answer": "yes", "acts": ["heat"]}, item=ruling)
        assert consent(surveyed, screw).word is Word.AGREED


@pytest.mark.parametrize(
    ("named", "acts"), [("room", ["contact", "load"]), ("hold", None), ("board", ["contact", "load"])]
)
def test_yes_to_a_room_a_hold_or_a_board_is_to_the_acts_it_lists(
    surveyed: Surveyed, named: str, acts: list[str] | None
) -> None:
    """Touching and bearing agreed for a room, a board, or a hook used again: a clamp there is agreed, glue is not."""
    place = {"face": surveyed.face, "x_mm": 1000, "z_mm": 1400, "mark": "B1", "sort": "board", "material": "oak"}
    hook = {"face": surveyed.face, "mark": "H1", "sort": "hook", "x_mm": 1100, "z_mm": 1540, "may_be_used": "not known"}
    there = {
        "room": surveyed.room,
        "hold": surveyed.book.write("hold", hook),
        "board": surveyed.book.write("member", place | {"width_mm": 900, "height_mm": 300}),
    }
    _, clamp = fixing(surveyed, member=there["board"], hold=there["hold"])
    agree(surveyed, there[named], acts=acts)
    assert consent(surveyed, clamp).word is Word.AGREED
    surveyed.book.write("fixing", {"adhesive": 1}, item=clamp)
    assert consent(surveyed, clamp).word is Word.NOT_AGREED


@pytest.mark.parametrize(
    ("answer", "outline", "word"),
    [
        (
            "no",
            [[1400, 1520], [1500, 1520], [1500, 1560], [1400, 1560]],
            Word.REFUSED,
        ),  # amid the rail, off its corners
        ("no", [[1400, 1590], [1500, 1590], [1500, 1660], [1400, 1660]], Word.AGREED),  # 10 mm above it
        ("yes", [[900, 1400], [2100, 1400], [2100, 1700], [900, 1700]], Word.AGREED),
        # All corners lie in it, and 200 mm of the rail in the notch between 1,400 and 1,600.
        (
            "yes",
            [
                [900, 1400],
                [2100, 1400],
                [2100, 1700],
                [1600, 1700],
                [1600, 1450],
                [1400, 1450],
                [1400, 1700],
                [900, 1700],
            ],
            Word.NOT_AGREED,
        ),
    ],
)
def test_area_of_an_agreement_is_held_against_all_that_a_fitting_covers(
    surveyed: Surveyed, answer: str, outline: list[list[float]], word: Word
) -> None:
    """The rail covers x 1,000 to 2,000 and z 1,500 to 1,580, whatever its corners touch."""
    rail = surveyed.fitting(mass_loaded_kg=12, touches_face=1, gives=["nothing"])
    if answer == "no":
        agree(surveyed, rail)
    agree(
        surveyed,
        surveyed.face,
        reference="A2",
        answer=answer,
        acts=["contact", "load"],
        outline=outline,
        on="2031-02-01",
    )
    assert consent(surveyed, rail).word is word


def test_area_is_of_a_face_and_of_no_room(surveyed: Surveyed) -> None:
    """An area beside a room says nothing of where it is: of a yes it is none, of a no it is all of the room."""
    _, clamp = fixing(surveyed)
    area = [[1000, 1400], [1300, 1400], [1300, 1700], [1000, 1700]]
    agree(surveyed, surveyed.room, acts=["contact", "load"], outline=area)
    assert consent(surveyed, clamp).word is Word.NOT_AGREED
    agree(surveyed, clamp, reference="A2")
    assert consent(surveyed, clamp).word is Word.AGREED
    far = [[one + 2000 for one in corner] for corner in area]
    agree(surveyed, surveyed.room, reference="A3", answer="no", on="2031-02-01", outline=far)
    assert consent(surveyed, clamp).word is Word.REFUSED


def test_glue_that_is_among_the_work_agreed_to_is_agreed(surveyed: Surveyed) -> None:
    """A screw that was not glued when the keeper agreed to it with its glue is glued by the same yes."""
    _, screw = fixing(surveyed, **HOLE)
    agree(surveyed, screw, acts=["contact", "load", "drilling", "adhesive"])
    surveyed.book.write("fixing", {"adhesive": 1}, item=screw)
    assert consent(surveyed, screw).word is Word.AGREED


@pytest.mark.parametrize(("x_mm", "word"), [(1100, Word.REFUSED), (1105, Word.REFUSED), (1106, Word.AGREED)])
def test_hold_not_to_be_used_is_refused_where_it_is_used_unsaid(surveyed: Surveyed, x_mm: float, word: Word) -> None:
    """A screw in the place of the hole, which it is not entered to use; 6 mm beside it is no more that hole."""
    at = {"face": surveyed.face, "x_mm": 1100, "z_mm": 1540, "mark": "H1", "sort": "hole", "may_be_used": "no"}
    surveyed.book.write("hold", at)
    held = {"hole": "existing", "trace": "an old hole used again", "penetration_mm": 30, "x_mm": x_mm}
    _, screw = fixing(surveyed, sort="wood screw", **held)
    agree(surveyed, screw)
    assert consent(surveyed, screw).word is word


@pytest.mark.parametrize(
    ("age", "left", "word"),
    [
        ("old", 1900, Word.NOT_AGREED),  # the rail reaches to x 2,000
        ("old", 2001, Word.DOES_NOT_APPLY),
        ("later", 1900, Word.DOES_NOT_APPLY),
        (None, 1900, Word.NOT_KNOWN),
    ],
)
def test_old_board_at_the_surface_of_later_plaster_is_asked_about(
    surveyed: Surveyed, age: str | None, left: float, word: Word
) -> None:
    """The face is later plaster; a rail that lies on it and on a board of its surface touches the board as well."""
    surveyed.book.write("site", {"asks_about_later_work": 0}, item=surveyed.site)
    surveyed.book.write("face", {"layers": LAYERS}, item=surveyed.face)
    board = {"face": surveyed.face, "mark": "B1", "sort": "board", "material": "oak", "age": age, "behind_mm": 0}
    surveyed.book.write("member", board | {"x_mm": left, "z_mm": 1000, "width_mm": 300, "height_mm": 900})
    rail = surveyed.fitting(mass_loaded_kg=12, touches_face=1, gives=["nothing"])
    assert consent(surveyed, rail).word is word


@pytest.mark.parametrize(("x_mm", "word"), [(1100, Word.AGREED), (1110, Word.NOT_AGREED), (150, Word.AGREED)])
def test_thing_named_beside_an_area_is_agreed_as_it_was_or_in_the_area(
    surveyed: Surveyed, x_mm: float, word: Word
) -> None:
    """A yes to a clamp at x 1,100 and to an area of its face from 0 to 300: moved, it is agreed in the area alone."""
    rail = surveyed.fitting(mass_loaded_kg=12, touches_face=0, x_mm=100, width_mm=1900)
    clamp = surveyed.fixing(rail, x_mm=1100, adhesive=0, carries_load=1)
    area = [[0, 1400], [300, 1400], [300, 1700], [0, 1700]]
    agree(surveyed, clamp, surveyed.face, acts=["contact", "load"], outline=area)
    surveyed.book.write("fixing", {"x_mm": x_mm}, item=clamp)
    assert consent(surveyed, clamp).word is word


@pytest.mark.parametrize(
    ("less", "word"),
    [
        ({"depth_mm": 20}, Word.NOT_AGREED),  # the screw goes 30 mm deep
        ({"depth_mm": 60, "holes": 0}, Word.NOT_AGREED),
        ({"depth_mm": 60, "conditions": "by hand", "conditions_met": "not yet"}, Word.NOT_AGREED),
        ({"depth_mm": 60}, Word.AGREED),
    ],
)
@pytest.mark.parametrize("first", [True, False])
def test_of_two_yeses_of_one_day_the_one_that_grants_less_rules(
    surveyed: Surveyed, less: dict[str, Any], word: Word, *, first: bool
) -> None:
    """One letter of that day says 60 mm, another less: which was entered first does not matter."""
    _, screw = fixing(surveyed, **HOLE)
    acts = ["contact", "load", "drilling"]
    for number, more in enumerate([less, {"depth_mm": 60}] if first else [{"depth_mm": 60}, less]):
        agree(surveyed, surveyed.face, reference=f"A{number}", acts=acts, **more)
    assert consent(surveyed, screw).word is word
