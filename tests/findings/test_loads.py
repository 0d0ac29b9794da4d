"""From weight to fabric: what each fixing carries, and whether what it is may carry that."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.book.site import gather
from fieldbook.checks.verdict import Word
from fieldbook.errors import Missing
from fieldbook.findings import Finding, appraise
from fieldbook.findings.geometry import own_materials
from fieldbook.findings.loads import shares, weight
from tests.sites import Surveyed

HUNG = {"mass_loaded_kg": 20, "centre_out_mm": 60, "x_mm": 1000, "z_mm": 1000, "width_mm": 400, "height_mm": 300}
CLAMP = {"torque_nm": 5, "diameter_mm": 8, "nut_factor": 0.2, "grade": "8.8", "bolts": 1, "friction_faces": 2}
GRIP = {"friction": 0.4, "jaw_mm2": 2500, "bears_on": "test block"}
BLOCK = {"name": "test block", "group": "substrate", "bearing_n_mm2": 6.0, "source": "crushed on the bench"}


def found(surveyed: Surveyed, check: str) -> list[Finding]:
    """The findings of one check, worst first."""
    return [one for one in appraise(gather(surveyed.book, surveyed.site)) if one.verdict.check == check]


def test_weight_of_a_fitting_with_another_hung_on_it_is_both(surveyed: Surveyed) -> None:
    """20 kg at x 1,200 and 10 kg at x 1,500 weigh 30 kg at x 1,300; the lever arm is the mean by mass."""
    rail = surveyed.fitting(**HUNG)
    surveyed.fitting(
        **HUNG | {"mark": "D2", "x_mm": 1300, "mass_loaded_kg": 10, "centre_out_mm": 120, "hangs_on": rail}
    )
    gone = {"mark": "D3", "hangs_on": rail, "state": "taken down"}
    surveyed.fitting(**HUNG | gone)
    site = gather(surveyed.book, surveyed.site)
    carried = weight(site, site[rail])
    assert carried.mass_kg == 30
    assert carried.at_mm == pytest.approx((1300, 1150))
    assert carried.out_mm == pytest.approx(80)
    assert carried.force_n == pytest.approx(294.3)


def test_two_fixings_share_a_weight_that_hangs_between_them(surveyed: Surveyed) -> None:
    """Each takes half of 20 kg × 9.81 in shear; the tension follows from the lever arm over what presses below.

    M = 196.2 N × 60 mm; both 250 mm above the edge of a plate 400 wide, soft ground of 10 000 mm² a fixing:
    ½ · 400 · x² = 2 · 10 000 · (250 − x), x = 115.83; T = M / (250 − x/3) / 2 = 27.844 N each.
    """
    rail = surveyed.fitting(**HUNG)
    for number, x in enumerate((1100, 1300)):
        surveyed.fixing(rail, mark=f"D1.{number}", x_mm=x, z_mm=1250)
    site = gather(surveyed.book, surveyed.site)
    assert [(share.shear_n, share.tension_n) for share in shares(site, site[rail])] == [
        pytest.approx((98.1, 27.844), abs=0.001),
        pytest.approx((98.1, 27.844), abs=0.001),
    ]


def test_only_fixings_said_to_carry_load_share_it(surveyed: Surveyed) -> None:
    """Where some fixings are said to carry load, the others only keep the fitting in place."""
    rail = surveyed.fitting(**HUNG)
    bearer = surveyed.fixing(rail, x_mm=1200, z_mm=1250, carries_load=1)
    surveyed.fixing(rail, x_mm=1300, z_mm=1250)
    site = gather(surveyed.book, surveyed.site)
    assert [share.fixing.id for share in shares(site, site[rail])] == [bearer]


@pytest.mark.parametrize("field", ["mass_loaded_kg", "centre_out_mm"])
def test_missing_mass_or_lever_arm_is_not_known_and_named(surveyed: Surveyed, field: str) -> None:
    """Without its mass or its lever arm nothing is said of a fitting's load."""
    rail = surveyed.fitting(**HUNG | {field: None})
    surveyed.fixing(rail)
    site = gather(surveyed.book, surveyed.site)
    with pytest.raises(Missing) as refusal:
        weight(site, site[rail])
    assert refusal.value.field == field
    (one,) = found(surveyed, "fixing-group")
    assert (one.verdict.word, one.verdict.missing) == (Word.NOT_KNOWN, (field,))


def test_screw_in_wood_is_held_against_its_withdrawal(surveyed: Surveyed) -> None:
    """A 4.17 mm screw 25 mm deep in wood of specific gravity 0.48 may be pulled with 472 N (NDS; check values)."""
    rail = surveyed.fitting(**HUNG)
    own = {"name": "test softwood", "group": "species", "specific_gravity": 0.48, "source": "weighed on the bench"}
    surveyed.book.write("material", own | {"site": surveyed.site})
    screw = {"sort": "wood screw", "hole": "existing", "trace": "an old hole used again", "diameter_mm": 4.17}
    surveyed.fixing(rail, z_mm=1250, x_mm=1200, penetration_mm=25, grips="test softwood", **screw)
    (one,) = found(surveyed, "withdrawal")
    assert one.verdict.limit == pytest.approx(472, abs=1)
    # ½ · 400 · x² = 10 000 · (250 − x), x = 89.56; 11 772 N·mm / (250 − x/3) = 53.47 N
    assert one.verdict.figure == pytest.approx(53.5, abs=0.05)
    assert one.verdict.word is Word.WITHIN


def test_clamp_is_held_against_slip_proof_and_pressure(surveyed: Surveyed) -> None:
    """5 N·m on M8 with K 0.2 is 3,125 N: slips at 2 × 0.4 × 3,125 = 2,500 N, of which half; presses 1.25 N/mm²."""
    rail = surveyed.fitting(**HUNG)
    surveyed.book.write("material", BLOCK | {"site": surveyed.site})
    surveyed.fixing(rail, x_mm=1200, z_mm=1250, **CLAMP, **GRIP)
    slip, pressure = sorted(found(surveyed, "clamp"), key=lambda one: one.verdict.unit)
    assert slip.verdict.limit == 1250
    assert slip.verdict.figure == pytest.approx(203.4, abs=0.1)  # √(196.2² + 53.47²)
    assert pressure.verdict.figure == pytest.approx(1.625)  # 30 % above the nominal pressure
    assert pressure.verdict.limit == 2
    (proof,) = found(surveyed, "preload")
    assert proof.verdict.limit == 21_200  # EN ISO 898-1, M8, class 8.8


@pytest.mark.parametrize(
    ("missing", "check"),
    [
        ("torque_nm", "preload"),
        ("nut_factor", "preload"),
        ("grade", "preload"),
        ("friction", "clamp"),
        ("bears_on", "clamp"),
        ("jaw_mm2", "clamp"),
    ],
)
def test_clamp_with_something_not_entered_is_not_known_and_named(surveyed: Surveyed, missing: str, check: str) -> None:
    """Whatever a clamp's figure needs and nobody entered is named."""
    rail = surveyed.fitting(**HUNG)
    surveyed.book.write("material", BLOCK | {"site": surveyed.site})
    values: dict[str, Any] = CLAMP | GRIP | {missing: None}
    surveyed.fixing(rail, x_mm=1200, z_mm=1250, **values)
    unknown = [one.verdict for one in found(surveyed, check) if one.verdict.word is Word.NOT_KNOWN]
    assert [verdict.missing for verdict in unknown] == [(missing,)]


def test_existing_hold_is_held_against_the_load_agreed_for_it(surveyed: Surveyed) -> None:
    """A hook for which 150 N are agreed is over with 203.4 N; one for which nothing is agreed is not known."""
    hold = {"face": surveyed.face, "sort": "hook", "x_mm": 1200, "z_mm": 1250, "may_be_used": "yes"}
    agreed = surveyed.book.write("hold", hold | {"load_limit_n": 150, "mark": "H1"})
    unsaid = surveyed.book.write("hold", hold | {"mark": "H2"})
    for mark, used in (("D1", agreed), ("D2", unsaid)):
        rail = surveyed.fitting(**HUNG | {"mark": mark})
        surveyed.fixing(rail, x_mm=1200, z_mm=1250, hole="existing", trace="an old hole used again", hold=used)
    words = {(one.verdict.word, one.verdict.limit) for one in found(surveyed, "fixing-group")}
    assert words == {(Word.OVER, 150), (Word.NOT_KNOWN, None)}


def test_load_verdict_says_what_it_leaves_out(surveyed: Surveyed) -> None:
    """Every sentence about a load names what was not reckoned and who decides."""
    rail = surveyed.fitting(**HUNG)
    surveyed.fixing(rail, x_mm=1200, z_mm=1250, **CLAMP, **GRIP)
    sentence = found(surveyed, "preload")[0].verdict.sentence
    assert "true strength of old fabric" in sentence
    assert "engineer" in sentence


def test_own_material_goes_before_the_table_and_is_marked(surveyed: Surveyed) -> None:
    """A site's own rows carry the site's own source."""
    surveyed.book.write("material", BLOCK | {"site": surveyed.site})
    (row,) = own_materials(gather(surveyed.book, surveyed.site))
    assert (row["material"], row["bearing_n_mm2"], row["source"]) == ("test block", 6.0, "crushed on the bench")
    assert "friction" not in row


def test_loads_on_one_hold_are_added_up(surveyed: Surveyed) -> None:
    """Two fittings of 20 kg on one hook put 2 × 203.4 N on it: over 300 N, though each alone would be within."""
    hold = {"face": surveyed.face, "sort": "hook", "x_mm": 1200, "z_mm": 1250, "may_be_used": "yes", "mark": "H1"}
    hook = surveyed.book.write("hold", hold | {"load_limit_n": 300})
    for mark in ("D1", "D2"):
        rail = surveyed.fitting(**HUNG | {"mark": mark})
        surveyed.fixing(rail, x_mm=1200, z_mm=1250, hole="existing", trace="an old hole used again", hold=hook)
    verdicts = [one.verdict for one in found(surveyed, "fixing-group")]
    assert {(verdict.word, verdict.limit) for verdict in verdicts} == {(Word.OVER, 300)}
    assert verdicts[0].figure == pytest.approx(406.8, abs=0.2)


def test_hold_with_something_of_unknown_load_on_it_is_not_known(surveyed: Surveyed) -> None:
    """As long as the load of one fitting on a hold is not known, nothing is said of the hold."""
    hold = {"face": surveyed.face, "sort": "hook", "x_mm": 1200, "z_mm": 1250, "may_be_used": "yes", "mark": "H1"}
    hook = surveyed.book.write("hold", hold | {"load_limit_n": 300})
    for mark, mass in (("D1", 5), ("D2", None)):
        rail = surveyed.fitting(**HUNG | {"mark": mark, "mass_loaded_kg": mass})
        surveyed.fixing(rail, x_mm=1200, z_mm=1250, hole="existing", trace="an old hole used again", hold=hook)
    assert {one.verdict.word for one in found(surveyed, "fixing-group")} == {Word.NOT_KNOWN}
