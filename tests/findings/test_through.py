"""What goes right through a wall comes out on its other side, and is held to what is there."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.book.gathering import gather
from fieldbook.checks.verdict import Word
from fieldbook.findings.act_here import Act
from fieldbook.findings.at_point import answer
from fieldbook.findings.before_hole import AS_SHALLOW, COMES_OUT
from fieldbook.model.choices import LOOKED_FOR
from tests.findings.asked import TODAY, one
from tests.findings.hung import HUNG, STATED, found
from tests.sites import Surveyed

BRICK = [["brick", 103, "later"]]
HOLE: dict[str, Any] = {"hole": "new", "trace": "a new hole in later work", "fabric": "later work"}
BOLT = HOLE | {"sort": "bolt", "diameter_mm": 10, "penetration_mm": 103, "adhesive": 0, "contact_radius_mm": 15}
LOOKED = [[what, "the surveyor", "with a detector", "2026-05-04"] for what in LOOKED_FOR]


def partition(surveyed: Surveyed, *, looked: bool = True, **more: Any) -> str:
    """A half-brick wall of 103 mm; behind it, in the store, x runs the other way from 5,000 mm on."""
    surveyed.looked()
    surveyed.book.write("face", {"layers": BRICK}, item=surveyed.face)
    store = surveyed.book.write("room", {"site": surveyed.site, "mark": "R2", "name": "Store"})
    size = {"mark": "R2-S", "name": "Partition", "sort": "wall", "width_mm": 5000, "height_mm": 3000}
    there = {"behind": surveyed.face, "behind_x_mm": 5000, "looked_for": LOOKED if looked else None}
    return surveyed.book.write("face", size | there | {"room": store} | more)


def bolt(surveyed: Surveyed, **more: Any) -> str:
    """A bolt at x = 1,100, z = 1,540, right through; seen from the store at x = 3,900."""
    return surveyed.fixing(surveyed.fitting(gives=["nothing"]), **BOLT | more)


@pytest.mark.parametrize(
    ("sort", "thick", "deep", "word"),
    [
        ("hook", 340, None, Word.WITHIN),  # of unknown depth it does not go through more than half a brick
        ("hook", 60, None, Word.NOT_KNOWN),
        ("bolt", 340, None, Word.NOT_KNOWN),  # which may have its nut on the other side
        ("hook", None, None, Word.WITHIN),
        ("bolt", None, None, Word.NOT_KNOWN),  # the wall may be as thin as half a brick
        ("hook", 340, 340, Word.NOT_KNOWN),
    ],
)
def test_depth_is_asked_for_where_a_hole_may_come_out(
    surveyed: Surveyed, sort: str, thick: float | None, deep: float | None, word: Word
) -> None:
    """What is on the other side was not looked at."""
    partition(surveyed, looked=False)
    surveyed.book.write("face", {"layers": [["brick", thick, "later"]]}, item=surveyed.face)
    hole = one(surveyed, "before-hole", bolt(surveyed, sort=sort, penetration_mm=deep, length_mm=None))
    assert hole.word is word
    assert (AS_SHALLOW in hole.assumed) == (word is Word.WITHIN)


def square(x: float, z: float, size: float = 100) -> list[list[float]]:
    """A square round a place."""
    half = size / 2
    return [[x - half, z - half], [x + half, z - half], [x + half, z + half], [x - half, z + half]]


@pytest.mark.parametrize(
    ("deep", "looked", "word"),
    [(103, True, Word.WITHIN), (103, False, Word.NOT_KNOWN), (102, False, Word.WITHIN)],
)
def test_other_side_is_looked_at_before_a_hole_comes_out_there(
    surveyed: Surveyed, deep: float, looked: bool, word: Word
) -> None:
    """103 mm in a wall of 103 come out; 102 do not."""
    other = partition(surveyed, looked=looked)
    hole = one(surveyed, "before-hole", bolt(surveyed, penetration_mm=deep))
    assert hole.word is word
    if word is Word.NOT_KNOWN:
        assert {blank.item.id for blank in hole.missing} == {other}


def test_asbestos_on_the_other_side_stops_a_hole_that_comes_out_there(surveyed: Surveyed) -> None:
    """A board of it in the store, which nobody in this room sees."""
    partition(surveyed, layers=[["asbestos board", 9, "later"], *BRICK])
    assert one(surveyed, "before-hole", bolt(surveyed)).word is Word.OVER


def test_depth_is_asked_for_where_the_wall_is_entered_as_thin(surveyed: Surveyed) -> None:
    """Of 103 mm a hole of unknown depth may come out, a bolt 60 mm long cannot."""
    partition(surveyed, looked=False)
    deep = {"penetration_mm": None, "length_mm": None}
    asked = one(surveyed, "before-hole", bolt(surveyed, **deep))
    assert (asked.word, asked.missing[0].field) == (Word.NOT_KNOWN, "penetration_mm")
    assert one(surveyed, "before-hole", bolt(surveyed, mark="D1.2", **deep | {"length_mm": 60})).word is Word.WITHIN


def test_hole_that_comes_out_nobody_knows_where_is_not_known(surveyed: Surveyed) -> None:
    """The wall is 103 mm thick, and what is behind it is not entered."""
    surveyed.looked()
    surveyed.book.write("face", {"layers": BRICK}, item=surveyed.face)
    hole = one(surveyed, "before-hole", bolt(surveyed))
    assert (hole.word, hole.missing[0].field, COMES_OUT in hole.verdict.sentence) == (Word.NOT_KNOWN, "behind", True)


@pytest.mark.parametrize(
    ("wall_mm", "deep", "word"),
    [(None, 99, Word.WITHIN), (None, 100, Word.NOT_KNOWN), (120, 100, Word.WITHIN), (60, 60, Word.NOT_KNOWN)],
)
def test_thickness_of_a_wall_is_asked_for_where_a_hole_may_come_out(
    surveyed: Surveyed, wall_mm: float | None, deep: float, word: Word
) -> None:
    """Of unknown thickness no wall is taken to be thinner than half a brick, 100 mm; one of 60 lets 60 mm through."""
    surveyed.looked()
    surveyed.book.write("face", {"layers": [["brick", None, "later"]], "wall_mm": wall_mm}, item=surveyed.face)
    hole = one(surveyed, "before-hole", bolt(surveyed, penetration_mm=deep))
    assert hole.word is word
    if word is Word.NOT_KNOWN:
        assert hole.missing[0].field == ("wall_mm" if wall_mm is None else "behind")


@pytest.mark.parametrize(
    ("x_mm", "deep", "word"), [(3900, 103, Word.OVER), (3900, 50, Word.OVER), (3700, 103, Word.WITHIN)]
)
def test_hole_keeps_off_services_that_are_marked_on_the_other_side(
    surveyed: Surveyed, x_mm: float, deep: float, word: Word
) -> None:
    """Of 103 mm the 100 before a zone of the other side are kept: 50 mm deep is 47 too deep; 200 mm beside it is well.

    Seen from the store the bolt lies at x = 5,000 - 1,100 = 3,900.
    """
    store = partition(surveyed)
    surveyed.zone(face=store, outline=square(x_mm, 1540), forbids=["drilling"], margin_mm=0, name="Conduit")
    keep = one(surveyed, "keep-off", bolt(surveyed, penetration_mm=deep))
    assert keep.word is word
    if deep == 50:
        assert keep.verdict.margin == -47
    site = gather(surveyed.book, surveyed.site)
    said = answer(site, site[surveyed.face], 1100, 1540, 5.0, 50, TODAY)
    assert (said.acts[0].answer == "no") == (x_mm == 3900)


def test_thick_wall_leaves_room_before_a_zone_behind(surveyed: Surveyed) -> None:
    """Of 400 mm a hole may go 300 deep before a zone of the other side; where nobody says how thick, it is asked."""
    store = partition(surveyed, wall_mm=400)
    surveyed.zone(face=store, outline=square(3900, 1540), forbids=["drilling"], margin_mm=0)
    assert one(surveyed, "keep-off", bolt(surveyed, penetration_mm=60)).verdict.margin == 240
    surveyed.book.write("face", {"wall_mm": None}, item=store)
    surveyed.book.write("face", {"layers": [["brick", None, "later"]]}, item=surveyed.face)
    keep = one(surveyed, "keep-off", bolt(surveyed, penetration_mm=60, mark="D1.2"))
    assert (keep.word, keep.missing[0].field) == (Word.NOT_KNOWN, "wall_mm")


def test_nut_of_a_bolt_keeps_off_what_must_not_be_touched_behind(surveyed: Surveyed) -> None:
    """A painted scheme on the other side: the nut of a bolt touches it, the tip of a hole that ends before does not."""
    surveyed.zone(face=partition(surveyed), outline=square(3900, 1540), forbids=["contact"], margin_mm=0)
    assert one(surveyed, "keep-off", bolt(surveyed)).word is Word.OVER
    assert one(surveyed, "keep-off", bolt(surveyed, penetration_mm=60, mark="D1.2")).word is Word.WITHIN


def both_sides(surveyed: Surveyed, stated_n: float, there_x: float) -> None:
    """A rail of 20 kg on either side of the wall, each on one bolt; 150 N are stated for each."""
    store = partition(surveyed)
    for mark, face, x in (("D1", surveyed.face, 1200), ("D2", store, there_x)):
        rail = surveyed.fitting(**HUNG | {"mark": mark, "face": face, "x_mm": x - 200, "centre_out_mm": 0})
        stated = {"stated_load_n": stated_n, "x_mm": x, "z_mm": 1150, "mark": f"{mark}.1"}
        surveyed.fixing(rail, face=face, **BOLT | {"hole": "existing"} | stated | STATED)


@pytest.mark.parametrize(("there_x", "figure"), [(3800, 392.4), (3806, 392.4), (3700, 196.2)])
def test_bolt_that_is_entered_on_both_faces_carries_both(surveyed: Surveyed, there_x: float, figure: float) -> None:
    """196.2 N on either end are 392.4 N in one bolt of 10 mm; 100 mm beside it is another, with 196.2 N alone."""
    both_sides(surveyed, 300, there_x)
    for shear in found(surveyed, "shear"):
        assert shear.verdict.figure == pytest.approx(figure)
        assert shear.word is (Word.OVER if figure > 300 else Word.WITHIN)


def test_whether_two_bolts_are_one_is_asked_where_nobody_says_what_is_behind(surveyed: Surveyed) -> None:
    """Both go right through, and either may be the other's end."""
    both_sides(surveyed, 300, 3800)
    (store,) = (face["id"] for face in surveyed.book.items("face") if face["mark"] == "R2-S")
    surveyed.book.write("face", {"behind": None, "layers": BRICK}, item=store)
    for shear in found(surveyed, "shear"):
        assert (shear.word, shear.missing[0].field) == (Word.NOT_KNOWN, "behind")


@pytest.mark.parametrize(("deep", "looked", "found"), [(103, False, "not known"), (102, False, ""), (103, True, "")])
def test_answer_at_a_point_tells_of_the_other_side(surveyed: Surveyed, deep: float, looked: bool, found: str) -> None:
    """At the wall a hole of 103 mm comes out where nobody looked; asbestos there stops it, whoever looked."""
    store = partition(surveyed, looked=looked, layers=BRICK)
    surveyed.book.write("site", {"asks_about_later_work": 0}, item=surveyed.site)

    def drilling() -> Act:
        site = gather(surveyed.book, surveyed.site)
        return answer(site, site[surveyed.face], 1100, 1540, 5.0, deep, TODAY).acts[0]

    assert drilling().answer == (found or "nothing against it")
    assert ("on R2-S, where it comes out" in drilling().why) == bool(found)
    surveyed.book.write("face", {"layers": [["asbestos board", 103, "later"]]}, item=store)
    assert (drilling().answer == "no") == (deep == 103)


def test_hold_that_a_bolt_goes_through_carries_both_sides(surveyed: Surveyed) -> None:
    """196.2 N of either rail on one bolt in an old hole for which 300 N are agreed."""
    both_sides(surveyed, 900, 3800)
    hole = {"face": surveyed.face, "mark": "H1", "sort": "hole", "x_mm": 1200, "z_mm": 1150, "may_be_used": "yes"}
    surveyed.book.write("hold", hole | {"load_limit_n": 300, "load_said_by": "structural engineer"})
    one_side = found(surveyed, "carrier", "D1.1")[0]
    assert (one_side.word, one_side.verdict.figure) == (Word.OVER, pytest.approx(392.4))


@pytest.mark.parametrize(("kg", "word"), [(30, Word.OVER), (0, Word.CLOSE)])
def test_what_hangs_on_the_other_end_counts_when_a_bolt_lets_go(surveyed: Surveyed, kg: float, word: Word) -> None:
    """26 kg on two bolts good for 300 N: all of it on one is 255.1 N, and with 294.3 behind it 549.4."""
    store = partition(surveyed)
    rails = ((surveyed.face, "D1", 1200, 26, (1100, 1200)), (store, "D2", 3800, kg, (1100,)))
    for face, mark, x, mass, heights in rails:
        at = {"face": face, "mark": mark, "x_mm": x - 200, "mass_loaded_kg": mass, "centre_out_mm": 0}
        rail = surveyed.fitting(**HUNG | at)
        for number, z in enumerate(heights, 1):
            there = {"face": face, "mark": f"{mark}.{number}", "x_mm": x, "z_mm": z}
            surveyed.fixing(rail, **BOLT | {"hole": "existing", "stated_load_n": 300} | there | STATED)
    assert found(surveyed, "one-lost", "D1")[0].word is word


def yes(surveyed: Surveyed, *items: str, **more: Any) -> str:
    """A yes of the keeper, to holes of up to 103 mm where it names a place."""
    given = {"site": surveyed.site, "reference": "A1", "answer": "yes", "on": "2026-05-04", "said_by": "harbour trust"}
    return surveyed.book.write("agreement", given | {"items": list(items), "words": "as drawn"} | more)


PLACE: dict[str, Any] = {"acts": ["drilling", "contact", "load"], "depth_mm": 103, "trace": "a new hole in old fabric"}


@pytest.mark.parametrize(
    ("deep", "layers", "word"),
    [
        (103, [["lime plaster", 20, "old"]], Word.NOT_AGREED),
        (103, [["board", 9, "later"]], Word.AGREED),
        (103, None, Word.NOT_KNOWN),
        (102, [["lime plaster", 20, "old"]], Word.AGREED),
    ],
)
def test_yes_to_one_side_of_a_wall_is_none_to_what_comes_out_of_the_other(
    surveyed: Surveyed, deep: float, layers: list[Any] | None, word: Word
) -> None:
    """The keeper of the long room agreed to bolts in its wall; 103 mm in 103 break out of the plaster of the store."""
    store = partition(surveyed, layers=layers, wall_mm=103)
    surveyed.book.write("site", {"asks_about_later_work": 0}, item=surveyed.site)
    yes(surveyed, surveyed.face, **PLACE)
    hole = one(surveyed, "consent", bolt(surveyed, penetration_mm=deep))
    assert hole.word is word
    if word is Word.NOT_AGREED:
        assert "It comes out on R2-S, where nobody has agreed to contact, load and drilling" in hole.verdict.sentence
        yes(surveyed, store, **PLACE | {"reference": "A2"})
        assert one(surveyed, "consent", bolt(surveyed, mark="D1.2")).word is Word.AGREED
        yes(surveyed, store, answer="no", reference="A3")
        assert one(surveyed, "consent", bolt(surveyed, mark="D1.3")).word is Word.REFUSED


def test_yes_that_names_a_bolt_is_to_both_its_ends(surveyed: Surveyed) -> None:
    """It was drawn as going right through; a no to the face behind, given later, is a no to what comes out there."""
    store = partition(surveyed, layers=[["lime plaster", 20, "old"]], wall_mm=103)
    through = bolt(surveyed, carries_load=0)
    yes(surveyed, through)
    assert one(surveyed, "consent", through).word is Word.AGREED
    yes(surveyed, store, answer="no", reference="A2", on="2026-05-05")
    found = one(surveyed, "consent", through)
    assert (found.word, found.against and found.against.reference) == (Word.REFUSED, "A2")


@pytest.mark.parametrize(
    ("layers", "ruling", "found"),
    [
        ([["lime plaster", 20, "old"]], None, "ask the keeper"),
        ([["lime plaster", 20, "old"]], {"answer": "no"}, "no"),
        ([["lime plaster", 20, "old"]], PLACE, "nothing against it"),
        ([["lime plaster", 20, "old"]], PLACE | {"depth_mm": 90}, "ask the keeper"),
        ([["lime plaster", 20, None]], None, "not known"),
        ([["board", 9, "later"]], None, "nothing against it"),
    ],
)
def test_answer_at_a_point_asks_for_the_other_side(
    surveyed: Surveyed, layers: list[Any], ruling: dict[str, Any] | None, found: str
) -> None:
    """The near side is later work; a hole of 103 mm breaks out of what the store has there."""
    store = partition(surveyed, layers=layers, wall_mm=103)
    surveyed.book.write("site", {"asks_about_later_work": 0}, item=surveyed.site)
    if ruling is not None:
        yes(surveyed, store, **ruling)
    site = gather(surveyed.book, surveyed.site)
    drilling = answer(site, site[surveyed.face], 1100, 1540, 5.0, 103, TODAY).acts[0]
    assert drilling.answer == found
    if found != "nothing against it":
        assert drilling.why.startswith("It comes out on R2-S")
