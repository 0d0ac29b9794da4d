"""What a screw, nail or bolt in wood holds, as plain values: characteristic resistances and the verdicts on them.

What a site does not say is taken at its worst: a core of six tenths of the thread, soft steel, a thin plate in front
that holds no head straight.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from typing import NamedTuple

from ..checks import (
    bolt_class,
    nail_pull,
    timber_combined,
    timber_design,
    timber_dowel,
    timber_gap,
    timber_group,
    timber_pull,
    timber_shear,
    timber_washer,
)
from ..checks.timber_shear import Mode, WoodPart
from ..checks.verdict import Verdict, Word
from ..errors import Missing
from .grounds import Wood

# Core over thread: the least of equation 8.39. Soft steel, and brass, from memory: common practice, no source.
CORE_SHARE, SOFT_N_MM2 = 0.6, 400.0
# What any fastener holds: whether a rule says so does not turn on the load.
SLIGHT_N = 0.01
ASSUMED = (
    "The screw's core is taken as six tenths of its thread and its metal as soft (400 N/mm²).",
    "In front lies a thin plate that holds no head straight; that it does not give first is taken for granted.",
)


class Fastener(NamedTuple):
    """A fastener in wood.

    sort        one of `timber_dowel.SORTS`
    arm_mm      from the wood to where the load hangs, over packers and plaster, with half the part in front
    predrilled  whether a hole was drilled for it
    head_mm     diameter of its head or washer; 0 where no one needs it
    grade       property class of a bolt; "" for the rest
    together    how many of its fitting are pulled together
    """

    sort: str
    diameter_mm: float
    wood: Wood
    arm_mm: float
    predrilled: bool
    head_mm: float
    grade: str
    together: int


@lru_cache(maxsize=4096)
def pull_n(one: Fastener) -> tuple[float, str]:
    """Characteristic resistance to a straight pull of one fastener, N, and where it comes from."""
    if one.sort == "bolt":
        return _bolt_pull_n(one), timber_washer.SOURCE
    if one.sort == "smooth nail":
        shank, head = nail_pull.strengths_n_mm2(one.wood.density_kg_m3)
        # Of the part in front nothing is known: its share is left out, as is that of the head.
        through = one.head_mm or one.diameter_mm
        length = one.wood.length_mm
        held = nail_pull.short_pull_n(
            shank, head, one.diameter_mm, length, 0.0, through, threaded=False, drying=one.wood.service_class > 1
        )
        return held, nail_pull.SOURCE
    thread = timber_pull.counted_thread_mm(one.wood.thread_mm, one.diameter_mm)
    strength, source = _screw_n_mm2(one, max(thread, 1.0))
    out = timber_pull.withdrawal_n(strength, one.diameter_mm, thread, 90)
    return min(out, timber_pull.core_n(CORE_SHARE * one.diameter_mm, SOFT_N_MM2)), source


@lru_cache(maxsize=4096)
def shear_mode(one: Fastener) -> Mode:
    """The way in which the fastener gives first under a sideways load, characteristic, N."""
    part = WoodPart(
        timber_dowel.embedment_n_mm2(
            one.sort, effective_mm(one), one.wood.density_kg_m3, 90, one.wood.kind, one.predrilled
        ),
        max(1.0, one.wood.length_mm),
    )
    moment = timber_dowel.yield_moment_nmm(effective_mm(one), metal_n_mm2(one))
    if one.wood.gap_mm > 0:
        ways = timber_gap.standing_out(part, effective_mm(one), moment, one.arm_mm)
    else:
        ways = timber_shear.thin_plate(part, effective_mm(one), moment)
    return timber_shear.weakest(ways, one.sort)


@lru_cache(maxsize=16_384)
def pull_verdict(one: Fastener, lasting_n: float, people_n: float) -> Verdict:
    """Whether it holds a pull, for good and with people."""
    held, source = pull_n(one)
    wood, loads = one.wood, (lasting_n, people_n, one.wood.service_class)
    if one.sort == "smooth nail":
        return nail_pull.verdict(held, *loads, threaded=False, end_grain=wood.end_grain)
    if one.sort == "bolt":
        what = "The pull on the bolt"
        return timber_design.verdict("pull", what, held, *loads, source, working=(("in", wood.name),))
    return timber_pull.verdict(
        held,
        *loads,
        thread_mm=wood.thread_mm,
        diameter_mm=one.diameter_mm,
        end_grain=wood.end_grain,
        count=one.together,
        strength_source=source,
        working=(("in", f"{wood.name}, {wood.density_kg_m3:g} kg/m³"),),
    )


@lru_cache(maxsize=16_384)
def shear_verdict(one: Fastener, lasting_n: float, people_n: float) -> Verdict:
    """Whether it holds a sideways load, for good and with people; across a gap it bends."""
    mode, wood = shear_mode(one), one.wood
    stands_mm = wood.length_mm if one.sort == "smooth nail" else wood.thread_mm
    lacking = max(0.0, timber_dowel.least_embedment_mm(one.sort, one.diameter_mm) - stands_mm)
    loads, grain = (lasting_n, people_n, wood.service_class), wood.end_grain
    if wood.gap_mm > 0:
        return timber_gap.verdict(
            mode, *loads, gap_mm=one.arm_mm, diameter_mm=effective_mm(one), lacking_mm=lacking, end_grain=grain
        )
    return timber_shear.verdict(mode, *loads, gap_mm=0.0, lacking_mm=lacking, end_grain=grain)


@lru_cache(maxsize=16_384)
def both_verdict(one: Fastener, pulls_n: tuple[float, float], shears_n: tuple[float, float]) -> Verdict:
    """Whether it holds pull and sideways load at once, each for good and what people add."""
    answer = timber_combined.verdict(
        (*pulls_n, together_n(one)),
        (*shears_n, shear_mode(one).load_n),
        one.wood.service_class,
        one.sort,
        touching=one.wood.gap_mm == 0,
        holds_no_pull=_holds_no_pull(one),
    )
    return ruled(answer, unruled(one))


def _holds_no_pull(one: Fastener) -> str:
    if one.sort == "smooth nail":
        return nail_pull.NO_LASTING_PULL
    return timber_pull.too_short(one.wood.thread_mm, one.diameter_mm) if one.sort == "screw" else ""


@lru_cache(maxsize=4096)
def unruled(one: Fastener, pulled: bool = True, pushed: bool = True) -> tuple[tuple[str, str], ...]:
    """Why no published rule says what it holds of a pull, or of a sideways load: (input, sentence) pairs."""
    acting = (pull_verdict, pulled), (shear_verdict, pushed)
    answers = [held(one, SLIGHT_N, 0.0) for held, acts in acting if acts]
    return tuple((answer.missing[0], answer.sentence) for answer in answers if answer.word is Word.NOT_KNOWN)


def ruled(answer: Verdict, reasons: Sequence[tuple[str, str]]) -> Verdict:
    """A share of what fasteners hold, where rules say what that is; a share of what nobody knows is no figure."""
    told = timber_design.not_better_than_not_known(answer, reasons)
    return told if told is answer else replace(told, figure=None)


def together_n(one: Fastener) -> float:
    """Characteristic pull of one of several that are pulled together, N; a smooth nail's counts for nothing."""
    if one.sort == "smooth nail":
        return 0.0
    share = timber_group.group_number(one.together) / one.together if one.sort == "screw" else 1.0
    return pull_n(one)[0] * share


def lasting_use(one: Fastener, pull: float, shear: float) -> float:
    """How much of the fastener is used by a lasting pull and a lasting sideways load, N; 1 is all of it."""
    case = timber_design.CASES[0]
    shares = [
        timber_design.Use(
            case,
            timber_design.action_n(load, 0.0, case),
            timber_design.resistance_n(held, one.wood.service_class, case.duration),
        ).share
        for load, held in ((pull, together_n(one)), (shear, shear_mode(one).load_n))
    ]
    return timber_combined.use(shares[0], shares[1], one.sort, touching=one.wood.gap_mm == 0)


def effective_mm(one: Fastener) -> float:
    """The diameter it is reckoned with sideways: of a screw that of its core and a tenth, as if threaded all along."""
    if one.sort != "screw":
        return one.diameter_mm
    return timber_dowel.effective_diameter_mm(one.diameter_mm, CORE_SHARE * one.diameter_mm, 0.0)


def _screw_n_mm2(one: Fastener, thread_mm: float) -> tuple[float, str]:
    """Strength of the thread: by the rule where it holds, else that of a plain wood screw."""
    diameter, density = one.diameter_mm, one.wood.density_kg_m3
    if timber_pull.RULE_LOW_MM <= diameter <= timber_pull.RULE_HIGH_MM:
        core = timber_pull.RULE_CORE_LOW * diameter
        return timber_pull.parameter_n_mm2(diameter, core, thread_mm, density), timber_pull.RULE_SOURCE
    return timber_pull.wood_screw_n_mm2(diameter, density)[0], timber_pull.WOOD_SCREW_SOURCE


def _bolt_pull_n(one: Fastener) -> float:
    if one.wood.bearing_n_mm2 is None:
        raise Missing(
            f"How hard {one.wood.name} presses across the grain is not in the table of materials.",
            "Add it as a material of the site's own, with its bearing strength.",
            field="grips",
        )
    under = timber_washer.washer_n(one.wood.bearing_n_mm2, one.head_mm, one.diameter_mm)
    return timber_washer.bolt_pull_n(one.diameter_mm, bolt_class.metal(one.grade), under)


def metal_n_mm2(one: Fastener) -> float:
    """Tensile strength of its metal."""
    return bolt_class.metal(one.grade).tensile_n_mm2 if one.grade else SOFT_N_MM2
