"""What a magnet holds of which somebody stated the pull, and the friction between what lies on each other."""

from __future__ import annotations

import math
from typing import NamedTuple

from ..book.site import Item
from ..checks.verdict import Verdict, at_most
from ..errors import FieldbookError
from . import geometry
from .asking import Asked
from .finding import Recalculation
from .fixing_loads import Share

STATED_SOURCE = "The load as stated, without partial factors of our own"
FRICTION_SOURCE = f"{STATED_SOURCE}; dry friction"
MOST_USED = 1000.0  # times what it holds, from which on no figure says more


class Magnet(NamedTuple):
    """A magnet of which somebody stated the straight pull: sideways it holds by friction, with what is left of that."""

    limit_n: float
    friction: float
    said: str
    assumed: tuple[str, ...] = (
        "What is stated of a magnet is a straight pull off what it is on; sideways it holds friction times what is "
        "left of that.",
    )

    def pull(self, share: Share) -> Verdict:
        return at_most("pull", "The pull", share.whole_pull_n, self.limit_n, "N", STATED_SOURCE, after=self.said)

    def shear(self, share: Share) -> Verdict:
        working = (("stated for a straight pull", f"{self.limit_n:g} N"), ("friction", f"{self.friction:g}"))
        what, holds = "The shear on the magnet", self.limit_n * self.friction
        return at_most(
            "shear", what, share.whole_shear_n, holds, "N", FRICTION_SOURCE, after=self.said, working=working
        )

    def both(self, share: Share) -> Verdict:
        used = 100 * min(MOST_USED, self.use(share.whole_pull_n, share.whole_shear_n))
        what = "What pull and shear together use of the magnet"
        return at_most("together", what, used, 100, "%", FRICTION_SOURCE, after=self.said)

    def use(self, pull_n: float, shear_n: float) -> float:
        sideways = self.limit_n * self.friction
        return (pull_n / self.limit_n + shear_n / sideways) if sideways > 0 else math.inf if pull_n + shear_n else 0.0

    def again(self, _: str, __: Share) -> Recalculation | None:
        return None  # no more than a product and a subtraction


def friction_of(asked: Asked, fixing: Item, figure: float | None = None) -> float:
    """The friction under a fixing: as entered, else what the table has for its lining by its name.

    figure  what is already calculated and only lacks this, N
    """
    if fixing.friction is None and fixing.lining:
        try:
            return geometry.known_materials(asked.site).lookup(fixing.lining).figure("friction").value
        except FieldbookError:
            pass
    return asked.need(fixing, "friction", figure, "N" if figure is not None else "")
