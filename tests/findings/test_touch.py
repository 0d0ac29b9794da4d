"""What touches or covers old fabric: published rules, test patches with their dates, and what is not known."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.book.gathering import gather
from fieldbook.checks.verdict import Word
from fieldbook.findings import Finding
from tests.findings.climate import JANUARY, JULY, found, read
from tests.sites import Surveyed


@pytest.fixture
def lined(surveyed: Surveyed) -> Surveyed:
    """A face of limewashed stone, inside the building, with something hung on it that touches nothing itself."""
    layers = [["limewash", 1, "old"], ["rubble stone", 600, "old"]]
    surveyed.book.write("face", {"layers": layers, "outer_wall": 0}, item=surveyed.face)
    return surveyed


def touch(surveyed: Surveyed, **fixing: Any) -> Finding:
    """The finding about one fixing."""
    fitting = surveyed.fitting(touches_face=0)
    surveyed.fixing(fitting, **({"adhesive": 0, "material": "mild steel"} | fixing))
    return next(one for one in found(surveyed, "touch") if one.subject.kind == "fixing")


def air(surveyed: Surveyed, highest: float) -> None:
    """Read the humidity in both halves of the year, as sure as it can be."""
    for at, value in ((JANUARY, min(highest, 60)), (JULY, highest)):
        read(surveyed, "relative humidity", value, "%", at)


def made_of(surveyed: Surveyed, *layers: list[Any]) -> None:
    """Say what the face is made of."""
    surveyed.book.write("face", {"layers": list(layers)}, item=surveyed.face)


@pytest.mark.parametrize("fabric", ["later work", "another fitting"])
def test_what_touches_no_old_fabric_is_no_question(lined: Surveyed, fabric: str) -> None:
    """Later work and fittings are nobody's old fabric, and the finding says so."""
    made_of(lined, ["gypsum plaster", 13, "later"], ["rubble stone", 600, "old"])
    joins = {"other_fitting": lined.fitting(mark="D2")} if fabric == "another fitting" else {}
    one = touch(lined, fabric=fabric, lining="rubber", **joins)
    assert one.word is Word.DOES_NOT_APPLY
    assert fabric in one.verdict.sentence


@pytest.mark.parametrize(
    ("highest", "word"),
    [(70, Word.WITHIN), (78, Word.CLOSE), (81, Word.OVER)],  # 80 %: BS 5250:2002, Annex D, after EN ISO 13788
)
def test_felt_that_holds_damp_is_held_against_eighty_percent(lined: Surveyed, highest: float, word: Word) -> None:
    """Felt on stone inside the building is judged by the room's highest humidity."""
    air(lined, highest)
    one = touch(lined, lining="wool felt 4 mm")
    assert (one.word, one.verdict.limit) == (word, 80)
    assert one.verdict.figure == highest


def test_felt_in_air_nobody_measured_asks_for_the_air(lined: Surveyed) -> None:
    """What would be entered is a reading of the humidity in the half of the year that lacks."""
    read(lined, "relative humidity", 50, "%", JULY)
    one = touch(lined, lining="wool felt")
    assert one.word is Word.NOT_KNOWN
    assert "October to March" in one.missing[0].words


def test_outer_wall_is_judged_at_its_cold_surface(lined: Surveyed) -> None:
    """60 % at 20 °C is 88 % at 14 °C: 23.3 hPa times 0.6 over 16.0 hPa (Magnus form, as in WMO-No. 8)."""
    lined.book.write("face", {"outer_wall": 1}, item=lined.face)
    air(lined, 60)
    assert touch(lined, lining="felt").missing[0].given == (("quantity", "surface temperature"),)
    read(lined, "air temperature", 20, "°C", JANUARY)
    surface = {"room": lined.room, "face": lined.face, "quantity": "surface temperature", "unit": "°C"}
    lined.book.write("reading", surface | {"value": 14, "at": JANUARY, "uncertainty": 0})
    one = next(one for one in found(lined, "touch") if one.subject.kind == "fixing")
    assert (one.word, one.verdict.figure) == (Word.OVER, pytest.approx(88, abs=1))


def test_blank_outer_wall_is_asked_for_where_the_answer_turns_on_it(lined: Surveyed) -> None:
    """Where the air is dry enough inside, only a cold wall could be damp: that is what is asked."""
    lined.book.write("face", {"outer_wall": None}, item=lined.face)
    air(lined, 60)
    one = touch(lined, lining="felt")
    assert [blank.field for blank in one.missing] == ["outer_wall"]


def test_lining_that_takes_up_nothing_is_fine_in_any_air(lined: Surveyed) -> None:
    """Polyethylene needs no reading (British Museum Occasional Paper 111, from memory)."""
    assert touch(lined, lining="polyethylene foam 5 mm").word is Word.WITHIN


BEHIND_PLASTER = {"fabric": "later work", "lining": "none", "trace": "a new hole in later work", "sort": "wood screw"}


@pytest.mark.parametrize(
    ("depth", "word"),
    [(12, Word.DOES_NOT_APPLY), (30, Word.OVER), (None, Word.NOT_KNOWN)],
)
def test_screw_through_later_plaster_touches_the_old_stone_behind(
    lined: Surveyed, depth: float | None, word: Word
) -> None:
    """13 mm of later plaster: a steel screw of 30 mm stands 17 mm in old stone, and rusts at 84 % (ISO 9223:1992)."""
    made_of(lined, ["gypsum plaster", 13, "later"], ["rubble stone", 600, "old"])
    air(lined, 84)
    one = touch(lined, **BEHIND_PLASTER | {"hole": "new", "penetration_mm": depth})
    assert one.word is word, one
    if word is Word.OVER:
        assert "reaches what is old there" in one.assumed[0]
    if depth is None:
        assert [blank.field for blank in one.missing] == ["penetration_mm"]


def test_layer_of_no_age_behind_later_plaster_is_asked_about(lined: Surveyed) -> None:
    """What a screw goes through may be old until somebody says that it is not."""
    made_of(lined, ["gypsum plaster", 13, "later"], ["rubble stone", 600, None])
    one = touch(lined, **BEHIND_PLASTER | {"hole": "new", "penetration_mm": 30})
    assert (one.word, [blank.field for blank in one.missing]) == (Word.NOT_KNOWN, ["layers"])
    assert "old or later is not entered" in one.verdict.sentence


@pytest.mark.parametrize("sort", ["clamp", "wood screw", "bolt", "nail"])
def test_lining_that_is_not_entered_is_asked_for(lined: Surveyed, sort: str) -> None:
    """With nothing said of what lies under a jaw or a head, anything could lie there; “none” is said."""
    steel = {"sort": sort, "material": "stainless steel A4", "penetration_mm": 0}
    one = touch(lined, **steel)
    assert one.word is Word.NOT_KNOWN
    assert [(blank.item.kind, blank.field) for blank in one.missing] == [("fixing", "lining")]


@pytest.mark.parametrize(
    ("lining", "word", "words"),
    [
        ("none", Word.WITHIN, ""),
        ("polyethylene washer", Word.WITHIN, ""),
        ("rubber washer", Word.NOT_KNOWN, "may stain what it lies on"),
        ("wool felt", Word.NOT_KNOWN, "humidity"),
    ],
)
def test_what_lies_under_the_head_of_a_screw_is_judged_as_a_lining(
    lined: Surveyed, lining: str | None, word: Word, words: str
) -> None:
    """The shank is of a metal that stone leaves alone; under the head lies what stains, or holds damp, or nothing."""
    screw = {"material": "stainless steel A4", "sort": "wood screw", "hole": "new", "penetration_mm": 40}
    one = touch(lined, lining=lining, trace="a new hole in old fabric", **screw)
    assert one.word is word, one
    assert words in one.verdict.sentence
    assert [(blank.item.kind, blank.field) for blank in one.missing if blank.field == "lining"] == []


@pytest.mark.parametrize(
    ("patch", "word", "said"),
    [
        (None, Word.NOT_KNOWN, "Lay a test patch"),
        ({"found": "no trace", "looked_on": "2026-01-01"}, Word.CLOSE, "364 days"),
        ({"found": "no trace", "looked_on": "2025-01-20"}, Word.NOT_KNOWN, "nothing before 28"),
        ({"found": "a mark that cleans off", "looked_on": "2026-01-01"}, Word.CLOSE, "left a mark that cleans off"),
        ({"found": "a mark that stays", "looked_on": "2026-01-01"}, Word.OVER, "left a mark"),
        ({}, Word.NOT_KNOWN, "Not entered"),
    ],
)
def test_rubber_that_stains_is_settled_by_a_test_patch(
    lined: Surveyed, patch: dict[str, str] | None, word: Word, said: str
) -> None:
    """No rule says when rubber stains: a patch laid on 2 January 2025 says what it has shown and for how long."""
    if patch is not None:
        laid = {"face": lined.face, "mark": "T1", "material": "black rubber", "laid_against": "limewash"}
        lined.book.write("patch", laid | {"laid_on": "2025-01-02"} | patch)
    one = touch(lined, lining="rubber 3 mm")
    assert one.word is word
    assert said in one.verdict.sentence


@pytest.mark.parametrize(
    "other", [{"material": "rubber"}, {"laid_against": "oak"}], ids=["one layer of two", "another surface"]
)
def test_patch_of_something_else_shows_nothing(lined: Surveyed, other: dict[str, str]) -> None:
    """Rubber alone does not show rubber over glue, nor does a patch on oak show limewash."""
    laid = {"face": lined.face, "mark": "T1", "material": "glued rubber", "laid_against": "limewash"}
    seen = {"laid_on": "2025-01-02", "looked_on": "2026-01-01", "found": "no trace"}
    lined.book.write("patch", laid | seen | other)
    assert touch(lined, lining="rubber, glued").word is Word.NOT_KNOWN


def test_patch_as_long_as_the_display_stands_is_within(lined: Surveyed) -> None:
    """Two years of patch show a display that is to stand two years: 730 days are not quite 730.5, 731 are."""
    lined.book.write("site", {"stands_years": 2}, item=lined.site)
    laid = {"face": lined.face, "mark": "T1", "material": "rubber", "laid_against": "limewash"}
    seen = {"laid_on": "2023-01-01", "looked_on": "2025-01-01", "found": "no trace"}
    lined.book.write("patch", laid | seen)
    assert touch(lined, lining="rubber").verdict.figure == 731


@pytest.mark.parametrize(
    ("damp", "word", "limit"),
    # anodic indexes: brass 0.40 to 0.45 V, iron 0.85 V; limits 0.50, 0.25, 0.15 V (Wheeler 1972, second hand)
    [("dry", Word.WITHIN, 0.5), ("damp", Word.OVER, 0.25), ("wet", Word.OVER, 0.15), (None, Word.NOT_KNOWN, None)],
)
def test_metal_pair_is_judged_by_the_damp_of_the_room(
    lined: Surveyed, damp: str | None, word: Word, limit: float | None
) -> None:
    """Bare brass on cast iron under old paint lies 0.45 V apart, whatever the paint keeps off today."""
    made_of(lined, ["old paint", 1, "old"], ["cast iron", 24, "old"])
    lined.book.write("room", {"damp": damp}, item=lined.room)
    one = touch(lined, material="brass", lining="none")
    assert (one.word, one.verdict.limit) == (word, limit)
    if damp:
        assert one.verdict.figure == 0.45
    else:
        assert [blank.field for blank in one.missing] == ["damp"]


@pytest.mark.parametrize(
    ("wood", "moisture", "word"), [("oak", 17, Word.CLOSE), ("chestnut", 21, Word.OVER), ("oak", None, Word.NOT_KNOWN)]
)
def test_iron_in_acid_wood_is_held_against_twenty_percent(
    lined: Surveyed, wood: str, moisture: float | None, word: Word
) -> None:
    """20 % moisture content is where metals in wood corrode (BM TRADA, Timber and metal, read in the source)."""
    made_of(lined, ["lime plaster", 25, "old"], [wood, 90, "old"])
    air(lined, 50)
    if moisture is not None:
        read(lined, "wood moisture content", moisture, "% moisture content")
    screw = {"hole": "existing", "penetration_mm": 60, "lining": "none", "trace": "an old hole used again"}
    one = touch(lined, sort="wood screw", **screw)
    assert one.word is word
    assert one.verdict.limit == (20 if moisture else None)


def test_screw_that_ends_in_the_plaster_touches_no_oak(lined: Surveyed) -> None:
    """15 mm from the surface does not come through 25 mm of plaster; 23 mm does, counted with a coat's thickness."""
    made_of(lined, ["lime plaster", 25, "old"], ["oak", 90, "old"])
    screw = {"sort": "wood screw", "hole": "existing", "lining": "none", "trace": "an old hole used again"}
    assert touch(lined, material="stainless steel A4", penetration_mm=15, **screw).word is Word.WITHIN
    air(lined, 50)
    fitting = lined.fitting(mark="D2", touches_face=0)
    deep = lined.fixing(fitting, mark="D2.1", material="steel", penetration_mm=23, adhesive=0, **screw)
    one = next(one for one in found(lined, "touch") if one.subject.id == deep)
    assert one.missing[0].given == (("quantity", "wood moisture content"),)


def test_board_at_the_place_of_a_fixing_is_touched(lined: Surveyed) -> None:
    """A board of the dado is touched where it is, whatever the wall behind it is made of."""
    size = {"x_mm": 1000, "z_mm": 1500, "width_mm": 200, "height_mm": 100, "behind_mm": 0}
    lined.book.write("member", {"face": lined.face, "sort": "board", "material": "oak"} | size)
    one = touch(lined, material="galvanised steel", lining="none")
    assert one.word is Word.NOT_KNOWN
    air(lined, 50)
    read(lined, "wood moisture content", 12, "% moisture content")
    assert next(one for one in found(lined, "touch") if one.subject.kind == "fixing").word is Word.WITHIN


@pytest.mark.parametrize(
    ("material", "word"), [("mild steel", Word.OVER), ("zinc-plated steel", Word.OVER), ("brass", Word.WITHIN)]
)
def test_bare_metal_on_a_damp_wall_rusts(lined: Surveyed, material: str, word: Word) -> None:
    """Above 80 % a surface counts as wet (ISO 9223:1992, from memory)."""
    air(lined, 84)
    assert touch(lined, material=material, lining="none").word is word


def test_glue_on_old_fabric_waits_for_a_patch(lined: Surveyed) -> None:
    """No rule says what a glue leaves; and who does not say that there is none is asked."""
    assert touch(lined, adhesive=1, material="brass", lining="none").verdict.missing == ("patch",)
    fitting = lined.fitting(mark="D2", touches_face=0)
    unsaid = lined.fixing(fitting, mark="D2.1", material="brass", lining="none")
    one = next(one for one in found(lined, "touch") if one.subject.id == unsaid)
    assert [blank.field for blank in one.missing] == ["adhesive"]


def panel(surveyed: Surveyed, **more: Any) -> Finding:
    """The finding about a panel of birch plywood on a wall."""
    size = {"width_mm": 900, "height_mm": 700, "build_up": [["packers", 20, 0], ["birch plywood", 12, 0]]}
    surveyed.fitting(**({"touches_face": 0, "open_behind": 0} | size | more))
    return found(surveyed, "touch")[0]


def cold_day(surveyed: Surveyed, outside: float) -> None:
    """Read a wall's surface, the air before it and outside, at one time in January."""
    read(surveyed, "relative humidity", 58, "%", JANUARY)
    read(surveyed, "air temperature", 17, "°C", JANUARY)
    read(surveyed, "outside temperature", outside, "°C", JANUARY)
    surface = {"room": surveyed.room, "face": surveyed.face, "quantity": "surface temperature", "unit": "°C"}
    surveyed.book.write("reading", surface | {"value": 13, "at": JANUARY, "uncertainty": 0})


def test_panel_that_covers_an_outer_wall_makes_it_damp(lined: Surveyed) -> None:
    """By hand: f = (13 - 1)/(17 - 1) = 0.75, so the wall has 0.25/0.25 = 1 m²K/W; 12 mm of sheet at 0.10 W/(m K) and
    shut-in air of 0.18 make 0.30; f behind = 1 - 0.55/1.30 = 0.577, 10.2 °C; 0.58 × 19.33 hPa over 12.45 hPa = 90.1 %.
    """
    lined.book.write("face", {"outer_wall": 1}, item=lined.face)
    cold_day(lined, 1)
    one = panel(lined)
    assert (one.word, one.verdict.limit, one.verdict.figure) == (Word.OVER, 80, 90.1)
    assert "15\u00a0January 2026" in one.assumed[0]
    assert one.again is not None
    assert one.again.name == "covered-wall"


def test_panel_with_the_rooms_air_behind_it_leaves_the_wall_as_it_was(lined: Surveyed) -> None:
    """A gap that is open at top and bottom keeps the wall as warm as beside it."""
    lined.book.write("face", {"outer_wall": 1}, item=lined.face)
    assert panel(lined, open_behind=1).word is Word.WITHIN


def test_wall_that_may_be_as_cold_as_outside_stays_over_behind_a_panel(lined: Surveyed) -> None:
    """A surface of 13 °C read to ±12 may be as cold as it is outside, colder than the method goes; over stays over."""
    lined.book.write("face", {"outer_wall": 1}, item=lined.face)
    cold_day(lined, 1)
    (surface,) = [one for one in gather(lined.book, lined.site).all("reading") if one.face == lined.face]
    lined.book.write("reading", {"uncertainty": 12}, item=surface.id)
    assert panel(lined).word is Word.OVER


def test_covered_wall_asks_for_a_cold_day(lined: Surveyed) -> None:
    """With 15 °C outside and 17 °C inside a reading says nothing of the wall."""
    lined.book.write("face", {"outer_wall": 1}, item=lined.face)
    cold_day(lined, 15)
    assert "on a cold day" in panel(lined).missing[0].words


@pytest.mark.parametrize("more", [{"height_mm": 250}, {}], ids=["narrow", "inner wall"])
def test_what_covers_no_outer_wall_is_no_question(lined: Surveyed, more: dict[str, float]) -> None:
    """A strip under 300 mm lets the warmth round it, and an inner wall is not cold."""
    lined.book.write("face", {"outer_wall": 1 if more else 0}, item=lined.face)
    assert panel(lined, **more).word is Word.DOES_NOT_APPLY


def test_back_of_a_fitting_that_bears_on_the_face_is_a_lining(lined: Surveyed) -> None:
    """Its first layer lies on the fabric: cork at 82 % is over; and who does not say whether it bears is asked."""
    air(lined, 82)
    one = panel(lined, touches_face=1, build_up=[["cork", 5, 1], ["oak", 20, 1]])
    assert (one.word, one.verdict.figure) == (Word.OVER, 82)
    lined.fitting(mark="D2", name="Rail", build_up=[["cork", 5, 1]])
    blank = next(one for one in found(lined, "touch") if one.subject.mark == "D2")
    assert [each.field for each in blank.missing] == ["touches_face"]


def test_face_nobody_described_asks_what_it_is_made_of(surveyed: Surveyed) -> None:
    """What touches what cannot be said of a face without layers."""
    one = touch(surveyed, lining="polyethylene foam")
    assert [(blank.item.kind, blank.field) for blank in one.missing] == [("face", "layers")]


def test_adhesive_pad_is_glue_whatever_is_ticked_and_asks_for_no_lining(lined: Surveyed) -> None:
    """A pad sticks: a tick of “no” for glue does not make it contact alone. What it leaves turns on no lining."""
    lined.fixing(lined.fitting(touches_face=0), sort="adhesive pad", adhesive=0, material="acrylic foam")
    no_worse = "“lining” of D1.1 is not entered; the answer is no worse with none."
    for question, word, assumed in (("touch", Word.NOT_KNOWN, True), ("trace", Word.OVER, False)):
        (one,) = [each for each in found(lined, question) if each.subject.kind == "fixing"]
        assert one.word is word
        assert "glue" in one.verdict.sentence
        assert (no_worse in one.assumed) == assumed


@pytest.mark.parametrize("metal", ["mild steel", "brass"])
@pytest.mark.parametrize("name", ["gilding", "gilt oak", "wallpaper on lime plaster", "leather", "dado", "pewter"])
def test_name_that_says_no_stone_wood_or_metal_is_not_taken_for_a_wall(lined: Surveyed, name: str, metal: str) -> None:
    """A bare metal on what no rule is known for is not known, however dry it is; a patch may show it."""
    air(lined, 55)
    made_of(lined, [name, 1, "old"], ["rubble stone", 600, "old"])
    one = touch(lined, lining="none", material=metal)
    assert one.word is Word.NOT_KNOWN
    assert name in one.verdict.sentence


@pytest.mark.parametrize("name", ["hardwood", "oak panelling", "plywood", "matchboarding", "planks", "C24"])
def test_joinery_is_wood_by_whatever_name(lined: Surveyed, name: str) -> None:
    """Its acids and damp are asked about, not the air at a stone."""
    air(lined, 55)
    made_of(lined, [name, 20, "old"])
    one = touch(lined, lining="none")
    assert one.word is Word.NOT_KNOWN
    assert "moisture content" in one.missing[0].words
