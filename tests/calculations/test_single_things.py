"""Fasteners, standing things and what the years do, by hand and by the standards' own tables."""

from __future__ import annotations

import math
from typing import Any

import pytest

from fieldbook.calculations.catalogue import CALCULATIONS, calculate
from tests.checks.refusals import refused


def answered(name: str, **changed: Any) -> dict[str, Any]:
    """The answer for the example with some keys changed; None leaves one out."""
    return calculate(name, {**CALCULATIONS[name].example, **changed})


def test_bolt_carries_what_table_3_4_gives() -> None:
    """M20 class 4.6, 245 mm²: 0.6·400·245/1.25 N of shear, 0.9·400·245/1.25 N of pull (EN 1993-1-8, Table 3.4)."""
    answer = answered(
        "bolt", metal="4.6", diameter_mm=20, pull_permanent_n=None, shear_permanent_n=20_000, pull_people_n=None
    )
    assert (answer["shear_n"], answer["tension_n"]) == (pytest.approx(47_040), pytest.approx(70_560))
    # 1.35 is the factor on what hangs for good alone, EN 1990, equation 6.10
    assert answer["verdict"]["figure"] == pytest.approx(100 * 1.35 * 20_000 / 47_040, abs=0.1)
    assert (
        answered("bolt", metal="4.6", diameter_mm=20, shear_permanent_n=None, pull_permanent_n=None)["verdict"] is None
    )


def test_nail_between_woods_gives_as_equation_8_6_has_it() -> None:
    """3.1 mm nail of 600 N/mm², 20 and 45 mm in 350 kg/m³: 607 N, and 15 % more at most with a rope effect."""
    nail = {"sort": "smooth nail", "diameter_mm": 3.1, "strength_n_mm2": 600, "held_mm": 45, "front_mm": 20}
    plain = answered("shear", **nail, plate_mm=None)
    assert plain["characteristic_n"] == pytest.approx(607, abs=0.5)
    roped = answered("shear", **nail, plate_mm=None, pull_holds_n=10_000)
    assert roped["characteristic_n"] == pytest.approx(1.15 * plain["characteristic_n"])


def test_gap_takes_most_of_what_a_screw_carries_sideways() -> None:
    """Plaster between weakens, more plaster more, and a load that hangs free of any part most of all."""
    loads = [answered("shear", front_mm=20, plate_mm=None, gap_mm=gap)["characteristic_n"] for gap in (0, 10, 30)]
    free = answered("shear", plate_mm=None, gap_mm=30)["characteristic_n"]
    assert loads[0] > loads[1] > loads[2] > free


def test_what_a_fastener_holds_has_to_be_said() -> None:
    """Neither wood nor plate in front is nothing held, and a load needs its service class."""
    with refused("missing", "front_mm"):
        answered("shear", plate_mm=None)
    for name in ("shear", "screw-pull"):
        with refused("missing", "service_class"):
            answered(name, service_class=None)


def test_screw_goes_by_rule_by_declaration_or_as_a_plain_one() -> None:
    """8 mm, core 5.5, 60 of 68 mm of thread in 350 kg/m³: 13.24 N/mm² (8.39); as a plain screw 70·10⁻⁶·350² N/mm²."""
    screw = {"diameter_mm": 8, "thread_mm": 68, "density_kg_m3": 350, "permanent_n": None}
    by_rule = answered("screw-pull", **screw, core_mm=5.5)
    assert by_rule["strength_n_mm2"] == pytest.approx(13.2403, abs=0.0001)
    assert by_rule["withdrawal_n"] == pytest.approx(13.2403 * 8 * 60, rel=1e-4)
    assert answered("screw-pull", **screw)["strength_n_mm2"] == pytest.approx(70e-6 * 350**2)
    declared = answered("screw-pull", **screw, declared_n_mm2=12, declared_density_kg_m3=350)
    assert declared["strength_n_mm2"] == 12
    assert len({answer["source"][1] for answer in (by_rule, declared, answered("screw-pull", **screw))}) == 3


def test_weakest_part_of_a_screw_counts() -> None:
    """A small head gives before the thread, and what its maker does not say is asked for."""
    answer = answered("screw-pull", head_mm=7)
    assert answer["characteristic_n"] == answer["head_n"] < answer["withdrawal_n"]
    with refused("missing", "declared_head_n_mm2"):
        answered("screw-pull", declared_n_mm2=12, declared_density_kg_m3=350, head_mm=7)
    with refused("missing", "core_mm"):
        answered("screw-pull", strength_n_mm2=500)


def test_distances_are_those_of_table_8_2() -> None:
    """5 mm screw along the grain, light wood, not drilled: 12, 5, 15 and 10 diameters (EN 1995-1-1, Table 8.2)."""
    answer = answered("spacing", angle_deg=0, loaded_edge_measured_mm=None, unloaded_end_measured_mm=None)
    found = [answer[f"{name}_mm"] for name in ("along", "across", "loaded_end", "unloaded_end")]
    assert found == [60, 25, 75, 50]
    assert answer["verdict"] is None


def test_plate_on_two_screws_pulls_as_one_sided_contact() -> None:
    """Overhead, 60 kg midway between two: half of 588.6 N each; when one goes the other cannot keep it level."""
    ceiling = {"fixings": [{"x_mm": -200, "z_mm": 0}, {"x_mm": 200, "z_mm": 0}], "mass_kg": 60}
    ceiling |= {"centre_mm": [0, 0, 100], "slope_deg": 90, "pull_n": None, "outline_mm": None, "overhead": True}
    answer = answered("plate-contact", **ceiling, strength_n=1000)
    assert answer["pull_n"] == pytest.approx([294.3, 294.3])
    assert answer["verdicts"][0]["figure"] == pytest.approx(29.5)
    assert (answer["verdict"]["check"], answer["verdict"]["word"]) == ("one-lost", "over")


def test_plinth_tips_as_moments_about_its_edge() -> None:
    """50 kg on 400 mm: steadied by 0.9·50·9.81·200, tipped by 1.5·60·900 N·mm; friction holds 0.3 of 0.9 of it."""
    plinth = {"feet_mm": [[0, 0], [400, 0], [400, 400], [0, 400]], "parts": [[50, 200, 200, 500]], "fall_mm_m": None}
    answer = answered("tipping", **plinth, pushes=[[60, 900, 0, 0, 0]])
    assert answer["steadying_nmm"] == pytest.approx(0.9 * 50 * 9.81 * 200, rel=1e-3)
    assert answer["tipping_nmm"] == pytest.approx(1.5 * 60 * 900)
    assert answer["friction_holds_n"] == pytest.approx(0.3 * 0.9 * 50 * 9.81, rel=1e-3)
    assert [verdict["word"] for verdict in answer["verdicts"]] == ["close", "within"]
    assert answer["verdict"]["word"] == "close"
    assert "friction_holds_n" not in answered("tipping", **plinth, friction=None)


def test_wall_behind_a_panel_is_colder() -> None:
    """(13 - 1)/(17 - 1) = 0.75; behind 0.2 m²K/W: 1 - 0.45/1.2 = 0.625 (EN ISO 13788, ISO 6946)."""
    answer = answered("covered-wall")
    assert (answer["factor"], answer["factor_behind"]) == (pytest.approx(0.75), pytest.approx(0.625))
    assert answer["verdict"]["word"] == "over"
    assert answered("covered-wall", cover_m2k_w=0)["verdict"]["word"] != "over"


def test_metals_are_told_by_the_difference_of_their_indexes() -> None:
    """Where the place is not said, the answer says that it is missing."""
    answer = answered("metal-pair", one="cast iron", other="brass", place=None, kept_apart=None)
    assert answer["difference_v"] == pytest.approx(0.45)
    assert (answer["verdict"]["word"], answer["verdict"]["missing"]) == ("not known", ["place"])


def test_years_to_fade_are_held_against_those_it_stands() -> None:
    """Blue wool 3, ultraviolet out, 120 klx·h a year: 3 Mlx·h last 25 years (CIE 157:2004, from memory)."""
    light = {"lux": 50, "hours_per_year": 2400, "blue_wool": 3, "uv_filtered": True}
    answer = answered("fading", **light, stands_years=30)
    assert (answer["years_to_noticeable_fade"], answer["verdict"]["word"]) == (25, "over")
    assert answered("fading", **light, stands_years=None)["verdict"] is None
    assert math.isclose(answered("fading", **light | {"uv_filtered": None})["years_to_noticeable_fade"], 12.5)
