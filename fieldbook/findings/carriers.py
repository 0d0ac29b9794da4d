"""Whether what a fixing is fixed to carries it: a board or timber, an existing hold, another fitting, masonry.

The load agreed for one of these is for all that uses it together; forces are added as if they pulled one way.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache, partial
from typing import Any

from ..book.site import Item
from ..checks import hole_side
from ..checks.cautions import LEFT_OUT_OF_LOADS
from ..checks.verdict import Verdict, at_most
from . import again, both_sides, geometry
from .asking import LESS, MORE, NEITHER, Asked, NotEntered, Question
from .both_sides import on_both_sides
from .finding import WORST_FIRST, Blank, Outcome
from .fixing_loads import NEGLIGIBLE_N, Share, at_once_n, bearers, carries, holds
from .grips import pressed_n
from .grounds import MASONRY, OWN_WORK, ground_of
from .lies_in import lies_in, lying_in
from .load_paths import carried
from .off_plumb import HANGS, as_plumb, first_blank, hardest, pulled
from .pulls import CARRIES_NOTHING, LOADED, PRESSES
from .surface_pull import ON_SURFACE, on_surface
from .verdicts import badness, does_not_apply

NOTHING_ON_IT = "Nothing hangs on it."
HELD_BY = "What a clamp, hook or strap grips is an existing hole or fixing point, with the load agreed for it."
SOURCE = "Forces added as if they pulled one way, against the load agreed"
ONE_WAY = "All that uses it pulls one way."
_side = lru_cache(maxsize=4096)(hole_side.verdict)
SEEN_TWICE = {"stud", "joist", "beam", "rail"}  # common practice, no source: a board shows one side
ALONE = "this face alone"
MAY_BE_SAME = "On other faces {} may be the same timber; with what hangs there it carries {:.1f} N."
MANY = 2  # from so many fixings on, not all are at their worst at once


def carrier(asked: Asked, fixing: Item) -> Outcome:
    """All that uses what a fixing is fixed to, against what that may carry."""
    if not holds(fixing):
        return _pressed(asked, fixing)
    share = carries(asked, fixing)
    if share is None:
        return does_not_apply("carrier", CARRIES_NOTHING)
    if (other := asked.site.get(fixing.other_fitting)) is not None and other.stands:
        return _on_fitting(asked, other)
    if carrying := lies_in(asked.site, fixing):
        return _worst_of(asked, carrying)
    if fixing.sort in ON_SURFACE:
        return on_surface(asked, fixing, share)
    if fixing.fabric == OWN_WORK:
        raise NotEntered(Blank(fixing, "other_fitting"), share.force_n, "N")
    if ground_of(asked, fixing) == MASONRY and fixing.hole != "none":
        return _in_masonry(asked, fixing, max(one.whole_shear_n for one in pulled(asked, on_both_sides(asked, share))))
    name = "hold" if fixing.hole == "none" else "member"
    raise NotEntered(Blank(fixing, name), share.force_n, "N", HELD_BY if name == "hold" else "")


def _pressed(asked: Asked, fixing: Item) -> Outcome:
    """What a prop, wedge or weight presses on: the board or timber at its place too, whether or not that is named."""
    carrying = lies_in(asked.site, fixing)
    return _worst_of(asked, carrying) if carrying else does_not_apply("carrier", PRESSES)


def _worst_of(asked: Asked, carrying: Sequence[Item]) -> Outcome:
    outcomes = [asked.once(("agreed", one.id), partial(_agreed, asked, one)) for one in carrying]
    return min(outcomes, key=lambda outcome: badness(outcome.verdict))


def on_it_n(asked: Asked, carrying: Item) -> tuple[tuple[str, float], ...]:
    """What each fixing puts on a board, timber or existing hold, with its mark, N."""
    return asked.once(("on", carrying.id), lambda: _on_it_n(asked, carrying))


def _on_it_n(asked: Asked, carrying: Item) -> tuple[tuple[str, float], ...]:
    by_fitting: dict[str, list[Share]] = {}
    pressing, there = [], lying_in(asked.site, carrying)
    blank = first_blank(asked.site, there)
    for fixing in there:
        if not holds(fixing):
            pressing.append((fixing.called, pressed_n(asked, fixing)))
        elif asked.site[fixing.fitting].stands and (share := carries(asked, fixing)) is not None:
            share = on_both_sides(asked, share) if carrying.kind == "hold" else share
            by_fitting.setdefault(fixing.fitting, []).append(hardest(asked, share, blank))
    hung = [one for key, those in by_fitting.items() for one in _of_one(asked, asked.site[key], those)]
    return (*hung, *pressing)


def _of_one(asked: Asked, fitting: Item, those: list[Share]) -> list[tuple[str, float]]:
    """What one fitting puts on it: each fixing at its worst, or all of them at once where all are on it."""
    each = [(share.fixing.called, share.force_n) for share in those]
    own = [fixing for fixing in bearers(asked.site, fitting) if holds(fixing)]
    hangs = any(share.fixing.sort in HANGS for share in those)  # a wire that leans pulls at each as it does
    if hangs or len(those) < MANY or len(those) < len(own):
        return each
    whole = at_once_n(asked, fitting)
    return [(f"{fitting.called}, all at once", whole)] if whole < sum(force for _, force in each) else each


def _agreed(asked: Asked, carrying: Item) -> Outcome:
    parts = asked.site.all_of(carrying)
    on_it = tuple(one for part in parts for one in on_it_n(asked, part))
    whole = sum(force for _, force in on_it)
    agreed = [part for part in parts if part.load_limit_n is not None]
    least = min(agreed, key=lambda part: part.load_limit_n) if agreed else carrying
    if least.load_said_by is None:  # what is over by a load that somebody stated stays over
        passed = (part for part in agreed if part.load_said_by is not None and part.load_limit_n < whole)
        least = min(passed, key=lambda part: part.load_limit_n, default=least)
    limit = asked.need(least, "load_limit_n", whole, "N")
    said = asked.need(least, "load_said_by", whole, "N")
    what = "existing hole or fixing point" if carrying.kind == "hold" else carrying.sort
    others = ", ".join(part.called for part in parts if part.id != carrying.id)
    called = f"{carrying.called}, also entered as {others}," if others else carrying.called
    verdict = _sum(f"the {what} {called}", on_it, limit, said)
    alone = len(parts) == 1 and carrying.kind == "member" and carrying.seen_from != ALONE
    if alone and carrying.sort in SEEN_TWICE:
        _ask_of_the_other_side(asked, carrying, verdict)
    by_hand = again.carrier((force for _, force in on_it), limit)
    return Outcome(verdict, carrying, (ONE_WAY,), again=by_hand)


def _ask_of_the_other_side(asked: Asked, timber: Item, alone: Verdict) -> None:
    """Raise NotEntered where those on other faces may be the same timber, and what hangs on them changes the word.

    One timber shows once on a face: of each other face the one that carries most counts.
    """
    assert alone.figure is not None and alone.limit is not None
    most: dict[str, tuple[float, Item]] = {}
    for other in asked.site.all("member"):
        if other.face == timber.face or other.sort != timber.sort or other.seen_from == ALONE:
            continue
        there = sum(force for _, force in on_it_n(asked, other))
        if there > most.get(other.face, (0.0, other))[0]:
            most[other.face] = (there, other)
    figure = alone.figure + sum(there for there, _ in most.values())
    if WORST_FIRST.index(at_most("carrier", "", figure, alone.limit, "N", SOURCE).word) < WORST_FIRST.index(alone.word):
        name = "same_as" if timber.seen_from else "seen_from"
        names = ", ".join(other.called for _, other in most.values())
        raise NotEntered(Blank(timber, name), alone.figure, "N", MAY_BE_SAME.format(names, figure))


def carrying(asked: Asked, fitting: Item) -> Outcome:
    """What hangs on a fitting, by fixings or laid and hooked on without any, against what it is made to carry."""
    return _on_fitting(asked, fitting) if asked.site.hung_on(fitting) else does_not_apply("carries", NOTHING_ON_IT)


def _on_fitting(asked: Asked, other: Item) -> Outcome:
    """What hangs on a fitting against what it is made to carry."""
    hung = [(part, asked.need(part, "mass_loaded_kg")) for part in carried(asked.site, other)[1:]]
    whole = sum(mass for _, mass in hung)
    limit = asked.need(other, "carries_kg", whole, "kg")
    verdict = at_most(
        "carrier",
        f"What hangs on {other.called}",
        whole,
        limit,
        "kg",
        SOURCE,
        after=LEFT_OUT_OF_LOADS,
        working=tuple((part.called, f"{mass:g} kg") for part, mass in hung),
    )
    return Outcome(verdict, other)


def _in_masonry(asked: Asked, fixing: Item, shear_n: float) -> Outcome:
    """The pressure of a fixing on the side of its hole; what pulls it out is held against its own strength."""
    if shear_n <= NEGLIGIBLE_N:
        return does_not_apply(
            "carrier", "Nothing presses on the side of its hole; its pull is held against its own strength."
        )
    face = asked.site[fixing.face]
    layers = asked.need(face, "layers", shear_n, "N")
    deep, diameter = (asked.need(fixing, name, shear_n, "N") for name in ("penetration_mm", "diameter_mm"))
    bearing, length = _masonry(asked, layers, deep)
    by_hand = again.hole_side(shear_n, diameter, length, bearing)
    return Outcome(_side(shear_n, diameter, length, bearing), None, (hole_side.SPREAD,), again=by_hand)


def _masonry(asked: Asked, layers: Sequence[Sequence[Any]], deep_mm: float) -> tuple[float, float]:
    """Bearing strength of the layer a fixing ends in, N/mm², and how much of the fixing stands in it, mm."""
    front, (ends_in, thickness, _) = 0.0, layers[0]
    for material, own, _ in layers[1:]:
        if thickness is None or front + thickness >= deep_mm:
            break
        front += thickness
        ends_in, thickness = material, own
    ends_at = deep_mm if thickness is None else min(deep_mm, front + thickness)  # behind the wall nothing bears
    found = geometry.known_materials(asked.site).lookup(ends_in, "layers").figure("bearing_n_mm2", field="layers")
    return found.value, ends_at - front


def _sum(what: str, on_it: tuple[tuple[str, float], ...], limit: float, said: str) -> Verdict:
    return at_most(
        "carrier",
        f"The force on {what} from all that uses it",
        sum(force for _, force in on_it),
        limit,
        "N",
        SOURCE,
        after=f"Stated by: {said}. {LEFT_OUT_OF_LOADS}",
        working=tuple((called, f"{force:.1f} N") for called, force in on_it),
    )


QUESTIONS = (
    Question(
        "carrier",
        "fixing",
        "Does what it is fixed to carry it?",
        as_plumb(carrier),
        LOADED
        | both_sides.READS
        | {
            "hold.load_limit_n": LESS,
            "hold.load_said_by": NEITHER,
            "member.sort": NEITHER,
            "member.load_limit_n": LESS,
            "member.load_said_by": NEITHER,
            **dict.fromkeys(
                (
                    *("member.x_mm", "member.z_mm", "member.width_mm", "member.height_mm"),
                    *("fixing.x_mm", "fixing.z_mm", "fixing.fitted_x_mm", "fixing.fitted_z_mm", "fixing.stated_load_n"),
                ),
                NEITHER,
            ),
            **dict.fromkeys(
                ("hold.x_mm", "hold.z_mm", "hold.diameter_mm", "hold.depth_mm", "member.behind_mm"), NEITHER
            ),
            "member.seen_from": NEITHER,
            "member.same_as": NEITHER,
            "fitting.carries_kg": LESS,
            "material.group": NEITHER,
            "material.characteristic_density_kg_m3": NEITHER,
            "material.bearing_n_mm2": LESS,
            "face.layers": NEITHER,
            "fixing.stated_by": NEITHER,
            "fixing.off_plumb_deg": MORE,
            "fixing.friction": LESS,
            "material.friction": LESS,
            "fixing.lining": NEITHER,
            "fixing.tested_n": LESS,
            "fixing.tested_on": NEITHER,
            "fixing.tested_by": NEITHER,
            "fixing.tested_held": LESS,
            "fixing.hold": NEITHER,
            "fixing.member": NEITHER,
            "fixing.hole": NEITHER,
            "fixing.fabric": NEITHER,
            "fixing.grips": NEITHER,
            "fixing.penetration_mm": LESS,
        },
    ),
    Question(
        "carries",
        "fitting",
        "Does it carry all that hangs on it?",
        carrying,
        {
            "fitting.mass_loaded_kg": MORE,
            "fitting.carries_kg": LESS,
            "fitting.hangs_on": NEITHER,
            "fitting.state": NEITHER,
            "fixing.other_fitting": NEITHER,
            "fixing.state": NEITHER,
        },
    ),
)
