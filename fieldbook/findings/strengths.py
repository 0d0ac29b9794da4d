"""What a fixing holds: reckoned for wood and for bolts, stated by whoever may state it, or shown by a pull.

Within one fixing one safety format holds. Clamps are held by friction, which is a question of its own.
"""

from __future__ import annotations

import math
from collections import Counter
from functools import lru_cache
from typing import NamedTuple

from ..book.site import Item
from ..book.wording import day
from ..checks import bolt, bolt_class, site_pull, stated_hold
from ..checks.timber_design import CASES, action_n
from ..checks.verdict import Verdict, at_most
from ..errors import Missing
from . import again, in_wood
from .acts import is_glued
from .asking import Asked, NotEntered
from .finding import Blank, Recalculation
from .fixing_loads import NEGLIGIBLE_N, Share, bearers
from .grounds import FITTING, HOLD, MASONRY, OWN_WORK, WOOD, ground_of, names_in_fitting, wood_of
from .magnets import STATED_SOURCE, Magnet, friction_of
from .named import is_metal

SORT_IN_WOOD = {
    "wood screw": "screw",
    "coach screw": "screw",
    "nail": "smooth nail",
    "bolt": "bolt",
    "machine screw": "bolt",
}
BY_SHAPE = {"bolt", "machine screw"}
DEVICE = {"hook": "hook", "strap": "strap", "magnet": "magnet", "adhesive pad": "adhesive pad"}
ON_HOLDS = {"hook", "strap"}
INSERT = "What a threaded insert in wood holds its maker states."
BY_ITS_METAL = "A bolt is held to its own metal only where what it goes into is metal too; wood gives before it does."


class InWood(NamedTuple):
    """A fastener in wood."""

    one: in_wood.Fastener

    def pull(self, share: Share) -> Verdict:
        return in_wood.pull_verdict(self.one, _whole(share.pull_n), _whole(share.people_pull_n))

    def shear(self, share: Share) -> Verdict:
        return in_wood.shear_verdict(self.one, _whole(share.shear_n), _whole(share.people_shear_n))

    def both(self, share: Share) -> Verdict:
        pulls = _whole(share.pull_n), _whole(share.people_pull_n)
        return in_wood.both_verdict(self.one, pulls, (_whole(share.shear_n), _whole(share.people_shear_n)))

    def use(self, pull_n: float, shear_n: float) -> float:
        return in_wood.lasting_use(self.one, pull_n, shear_n)

    def again(self, question: str, share: Share) -> Recalculation | None:
        if question == "pull":
            return again.pull_in_wood(self.one, _whole(share.pull_n), _whole(share.people_pull_n))
        if question == "shear":
            return again.shear_in_wood(self.one, _whole(share.shear_n), _whole(share.people_shear_n))
        if in_wood.unruled(self.one):
            return None
        pulls = _whole(share.pull_n), _whole(share.people_pull_n)
        return again.both_in_wood(self.one, pulls, (_whole(share.shear_n), _whole(share.people_shear_n)))

    @property
    def assumed(self) -> tuple[str, ...]:
        return in_wood.ASSUMED if self.one.sort == "screw" else ()


class InSteel(NamedTuple):
    """A bolt or machine screw that holds by its own metal."""

    diameter_mm: float
    grade: str

    def pull(self, share: Share) -> Verdict:
        return _steel(self, "pull", "The pull on the bolt", share.pull_n, share.people_pull_n)

    def shear(self, share: Share) -> Verdict:
        return _steel(self, "shear", "The shear on the bolt", share.shear_n, share.people_shear_n)

    def both(self, share: Share) -> Verdict:
        shears, pulls = (share.shear_n, share.people_shear_n), (share.pull_n, share.people_pull_n)
        return bolt.verdict_on_both(shears, pulls, self.shear_holds_n, self.pull_holds_n)

    def use(self, pull_n: float, shear_n: float) -> float:
        pull, shear = (action_n(load, 0.0, CASES[0]) for load in (pull_n, shear_n))
        return bolt.use(shear / self.shear_holds_n, pull / self.pull_holds_n)

    def again(self, _: str, share: Share) -> Recalculation | None:
        shears, pulls = (share.shear_n, share.people_shear_n), (share.pull_n, share.people_pull_n)
        return again.bolt(self.grade, self.diameter_mm, shears, pulls)

    @property
    def shear_holds_n(self) -> float:
        return bolt.shear_n(self.diameter_mm, bolt_class.metal(self.grade))

    @property
    def pull_holds_n(self) -> float:
        return bolt.tension_n(self.diameter_mm, bolt_class.metal(self.grade), countersunk=True)

    @property
    def assumed(self) -> tuple[str, ...]:
        return ("Its head is taken as countersunk and its thread as lying in the shear plane.",)


class Stated(NamedTuple):
    """A load that somebody stated, or that a pull showed: in any direction, pull and shear together.

    said  where it comes from, in words
    """

    limit_n: float
    said: str
    source: str
    assumed: tuple[str, ...] = ()

    def pull(self, share: Share) -> Verdict:
        return self._held("pull", "The pull", share.whole_pull_n)

    def shear(self, share: Share) -> Verdict:
        return self._held("shear", "The shear", share.whole_shear_n)

    def both(self, share: Share) -> Verdict:
        return self._held("pull with shear", "Pull and shear together", share.force_n)

    def use(self, pull_n: float, shear_n: float) -> float:
        load = math.hypot(pull_n, shear_n)
        return load / self.limit_n if self.limit_n > 0 else math.inf if load else 0.0

    def again(self, _: str, __: Share) -> Recalculation | None:
        return None  # no more than a subtraction

    def _held(self, check: str, what: str, figure: float) -> Verdict:
        return at_most(check, what, figure, self.limit_n, "N", self.source, after=self.said)


Strength = InWood | InSteel | Stated | Magnet


def strength_of(asked: Asked, fixing: Item, share: Share) -> Strength:
    """What a fixing holds.

    Raises NotEntered where it takes an entry, with what it has to carry; what the rules do not cover.
    """
    return asked.once(("strength", fixing.id, share[1:]), lambda: _strength(asked, fixing, share))


def _strength(asked: Asked, fixing: Item, share: Share) -> Strength:
    stated = fixing.stated_load_n is not None
    gave = fixing.tested_held == 0 or (stated and fixing.tested_n is not None and not asked.need(fixing, "tested_held"))
    if fixing.tested_n is not None and gave:  # whatever is stated of it
        on = f" on {day(fixing.tested_on)}" if fixing.tested_on else ""
        return Stated(0.0, f"It gave way or moved at {fixing.tested_n:g} N{on}.", site_pull.SOURCE)
    if stated:
        return _stated(asked, fixing, share)
    ground = ground_of(asked, fixing)
    if fixing.tested_n is not None and (shown := _tested(asked, fixing, share, ground)):
        return shown
    if ground == WOOD and fixing.sort in SORT_IN_WOOD:
        return _in_wood(asked, fixing, share)
    if fixing.sort in BY_SHAPE and ground in {FITTING, HOLD}:
        if ground == FITTING and not any(is_metal(name) for name in names_in_fitting(asked, fixing)):
            raise NotEntered(Blank(fixing, "into"), share.force_n, "N", BY_ITS_METAL)
        return InSteel(asked.need(fixing, "diameter_mm"), asked.need(fixing, "grade", share.force_n, "N"))
    hold = asked.site.get(fixing.hold)
    if hold is not None and fixing.sort in ON_HOLDS and hold.load_limit_n is not None:
        asked.need(hold, "load_said_by", share.force_n, "N")
        taken = f"The {fixing.sort} itself is taken to be no weaker than {hold.called}."
        return Stated(hold.load_limit_n, f"Agreed for {hold.called}.", STATED_SOURCE, (taken,))
    raise NotEntered(Blank(fixing, "stated_load_n"), share.force_n, "N", _why(fixing, ground))


def _in_wood(asked: Asked, fixing: Item, share: Share) -> Strength:
    insert = NotEntered(Blank(fixing, "stated_load_n"), share.force_n, "N", INSERT)
    if fixing.sort == "machine screw" and fixing.fabric == OWN_WORK and not fixing.grips:
        raise insert
    sort, wood = SORT_IN_WOOD[fixing.sort], wood_of(asked, fixing)
    if sort == "bolt" and not wood.through:
        raise insert
    diameter = asked.need(fixing, "diameter_mm")
    fitting = asked.site[fixing.fitting]
    alike = asked.once(("alike", fitting.id), lambda: Counter(one.sort for one in bearers(asked.site, fitting)))
    return InWood(
        in_wood.Fastener(
            sort,
            diameter,
            wood,
            wood.gap_mm + _half_front_mm(asked, fixing) if wood.gap_mm else 0.0,
            True if sort == "bolt" else bool(asked.need(fixing, "predrilled")),
            asked.need(fixing, "head_mm") if sort == "bolt" else fixing.head_mm or 0.0,
            asked.need(fixing, "grade") if sort == "bolt" else "",
            max(1, alike[fixing.sort]),
        )
    )


def _half_front_mm(asked: Asked, fixing: Item) -> float:
    """Half of what stands in the part in front, over which the load is spread."""
    if fixing.sort == "nail":
        return 0.0
    length = asked.need(fixing, "length_mm")
    return max(0.0, length - fixing.penetration_mm - asked.need(fixing, "packers_mm")) / 2


def _stated(asked: Asked, fixing: Item, share: Share) -> Stated | Magnet:
    by, source = (asked.need(fixing, name, share.force_n, "N") for name in ("stated_by", "stated_source"))
    on = asked.need_done(fixing, "stated_on", share.force_n, "N")
    if by == "other":
        raise Missing(
            f"The load of {fixing.called} is stated by somebody who may not state it.",
            "Its maker, a structural engineer or the keeper may state a load.",
            field="stated_by",
        )
    said = f"Stated by the {by} on {day(on)} ({source})."
    if fixing.sort == "magnet" and by == "maker" and share.whole_shear_n > NEGLIGIBLE_N:
        return Magnet(fixing.stated_load_n, friction_of(asked, fixing, share.whole_shear_n), said)
    return Stated(fixing.stated_load_n, said, STATED_SOURCE)


def _tested(asked: Asked, fixing: Item, share: Share, ground: str) -> Stated | None:
    """What a pull on the spot shows; None where it does not settle what hangs for good."""
    shown = shown_on_the_day(asked, fixing, share)
    if not shown.limit_n:
        return shown
    device = DEVICE.get(fixing.sort)
    slowly = ground == WOOD or bool(device and stated_hold.device(device).gives_slowly)
    slowly = slowly or is_glued(asked, fixing)
    return None if slowly and (share.pull_n or share.shear_n) else shown


def shown_on_the_day(asked: Asked, fixing: Item, share: Share) -> Stated:
    """What a pull on the spot, which is entered, shows of that day."""
    by = asked.need(fixing, "tested_by", share.force_n, "N")
    on = asked.need_done(fixing, "tested_on", share.force_n, "N")
    if not asked.need(fixing, "tested_held"):
        return Stated(0.0, f"It gave way or moved at {fixing.tested_n:g} N on {day(on)}.", site_pull.SOURCE)
    said = f"Pulled with {fixing.tested_n:g} N on {day(on)} ({by}). {site_pull.ON_THE_DAY}"
    return Stated(fixing.tested_n / site_pull.PLANS[2.5], said, site_pull.SOURCE)


def _why(fixing: Item, ground: str) -> str:
    kind = "glue" if fixing.adhesive else DEVICE.get(fixing.sort) or ("plug" if ground == MASONRY else None)
    remedy = "Have a load stated, or choose a fixing that can be calculated."
    return f"{stated_hold.device(kind).why if kind else 'No rule is published for it.'} {remedy}"


def _whole(newtons: float) -> float:
    """To a hundredth, so that what is alike is reckoned once; upwards, to the safe side."""
    return math.ceil(newtons * 100 - 1e-6) / 100


@lru_cache(maxsize=16_384)
def _steel(of: InSteel, check: str, what: str, lasting_n: float, people_n: float) -> Verdict:
    metal = bolt_class.metal(of.grade)
    holds_n = of.pull_holds_n if check == "pull" else of.shear_holds_n
    working = (("class", f"{metal.name} ({metal.status})"), ("thread", f"M{of.diameter_mm:g}"))
    return bolt.verdict(check, what, lasting_n, people_n, holds_n, working)
