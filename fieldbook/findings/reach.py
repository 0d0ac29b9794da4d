"""How far a fitting stands out of its face: the wall, packers, layers with their tolerances, and what it hangs on.

Where something is not measured or entered, the answer is a range, with what would narrow it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from ..book.site import Item, Site
from ..checks.clearance import Stretch
from ..checks.limits import rounded_up
from ..checks.surface import worst_proud_mm
from ..model.choices import FITTED
from . import geometry
from .finding import Blank
from .upon import rests_on

# What is ordinarily the most, where nobody measured or entered it: common practice, no source.
WALL_MM = 20.0  # an old wall, or the packers that make up for it, before its plane
TOLERANCE_MM = 1.0  # of a layer
LEAST_MM = 0.1  # of something whose layers are not entered
PACKING = ("pack", "shim")  # how the names of layers that stand for packers are told


@dataclass(frozen=True)
class Reach:
    """From where to where the front may stand, mm out of the face's plane.

    low, high  as it is known, and with the worst ordinary value of all that is not
    missing    the entries that would make it one figure
    steps      (label, figure with unit) pairs
    """

    low: float
    high: float
    missing: tuple[Blank, ...]
    steps: tuple[tuple[str, str], ...]

    @property
    def least(self) -> float | None:
        """How far it stands out for certain, mm; None where nothing of it is entered."""
        return None if math.isinf(self.high) else rounded_up(self.low)

    def in_words(self) -> str:
        """The range as a sentence begins with it."""
        if self.least is None:
            return "How far it stands out is not known"
        return f"It stands out {self.least:g} mm, or up to {rounded_up(self.high):g} mm"


def reach_of(site: Site, fitting: Item, above: frozenset[str] = frozenset()) -> Reach:
    """How far a fitting stands out at worst; `above`: what hangs on it, so that a ring of carriers ends."""
    if not fitting.build_up:
        return Reach(LEAST_MM, math.inf, (Blank(fitting, "build_up"),), ())
    layers = sum(thickness + (tolerance or 0) for _, thickness, tolerance in fitting.build_up)
    untold = sum(tolerance is None for _, _, tolerance in fitting.build_up) * TOLERANCE_MM
    carriers = [one for one in carriers_of(site, fitting) if one.id not in above]
    if carriers:
        back = max((reach_of(site, one, above | {fitting.id}) for one in carriers), key=lambda reach: reach.high)
        back = Reach(back.low, back.high, back.missing, (("what it hangs on", f"{back.low:g} mm"),))
    else:
        back = back_of(site, fitting)
    missing = (
        *back.missing,
        *((Blank(fitting, "build_up", f"tolerances of the layers of {fitting.called}"),) if untold else ()),
    )
    steps = ((name, f"{thickness:g} ± {tolerance or 0:g} mm") for name, thickness, tolerance in fitting.build_up)
    return Reach(back.low + layers, back.high + layers + untold, missing, (*back.steps, *steps))


def carriers_of(site: Site, fitting: Item) -> Iterator[Item]:
    """The fittings on its face that a fitting hangs on or is fixed to: not those it stands on or has in its layers."""
    for carrier in hung_on(site, fitting):
        behind = carrier.face == fitting.face and carrier.stands and not _among_layers(carrier, fitting)
        if behind and not rests_on(site, fitting, carrier):
            yield carrier


def hung_on(site: Site, fitting: Item) -> Iterator[Item]:
    """What a fitting hangs on or is fixed to, each once; that it is those is all that is noted of its fixings."""
    links: tuple[str, ...] = site.told_once(("hung on", fitting.id), partial(_links, fitting=fitting.id))
    for carrier in links:
        one = site.get(carrier, "fitting")
        if one is not None:
            yield one


def _links(site: Site, fitting: str) -> tuple[str, ...]:
    one = site[fitting]
    links = [one.hangs_on, *(fixing.other_fitting for fixing in site.of(one, "fixing") if fixing.stands)]
    return tuple(dict.fromkeys(link for link in links if link and link != fitting))


def moves_mm(site: Site, fitting: Item, above: frozenset[str] = frozenset()) -> float:
    """How far a fitting may be set to either side, with what it hangs on as well; blank: it stays where it is.

    above  what hangs on it, so that a ring of carriers ends
    """
    carriers = [one for one in hung_on(site, fitting) if one.stands and one.id not in above]
    carried = max((moves_mm(site, one, above | {fitting.id}) for one in carriers), default=0.0)
    return (fitting.moves_mm or 0.0) + carried


def _among_layers(carrier: Item, fitting: Item) -> bool:
    words = [word for layer, _, _ in fitting.build_up for word in layer.lower().replace(",", " ").split()]
    return carrier.mark.lower() in words


def fixed_to_face(site: Site, fitting: Item) -> list[Item]:
    """The fixings of a fitting that bear on its face itself, not on another fitting."""
    own = (fixing for fixing in site.of(fitting, "fixing") if fixing.face == fitting.face and fixing.stands)
    return [fixing for fixing in own if fixing.fabric != "another fitting"]


def packing_layer(fitting: Item) -> Sequence[float] | None:
    """Thickness and tolerance of the layer that stands for packers; None where there is none."""
    for name, thickness, tolerance in fitting.build_up or []:
        if any(word in name.lower() for word in PACKING):
            return thickness, tolerance or 0
    return None


def back_of(site: Site, fitting: Item) -> Reach:
    """Where the back of a fitting's layers stands: on the wall at its proudest, and on its packers."""
    readings, part = site[fitting.face].surface or [], geometry.fitting_stretch(fitting)
    fixings, layer = fixed_to_face(site, fitting), packing_layer(fitting)
    wall = proud_over(readings, part)
    thickest = max((fixing.packers_mm or 0 for fixing in fixings), default=0)
    # What is fitted already stands on packers that may be any; what is planned gets those the wall calls for.
    unseen = packers_unseen(fixings)
    missing = tuple(Blank(fixing, "packers_mm") for fixing in unseen)
    most = max(thickest, WALL_MM) if unseen else thickest
    beyond, at_most = (max(out - sum(layer or ()), 0) for out in (thickest, most))
    if wall is None:
        steps = (("wall, not measured", f"0 to {WALL_MM:g} mm"), ("packers beyond its layers", f"{beyond:g} mm"))
        return Reach(beyond, at_most + WALL_MM, (Blank(site[fitting.face], "surface"), *missing), steps)
    proud = ("wall, proud at worst", f"{wall:g} mm")
    if layer:  # packers stand among the layers, and count there once
        return Reach(wall + beyond, wall + at_most, missing, (proud,))
    blank = [fixing for fixing in fixings if fixing.packers_mm is None]
    low = max([wall, *_packed(readings, fixings, wall)])
    high = max(low, wall + WALL_MM) if blank else low
    missing = tuple(Blank(fixing, "packers_mm") for fixing in blank)
    return Reach(low, high, missing, (proud, ("packers", f"{thickest:g} mm")))


def packers_unseen(fixings: Sequence[Item]) -> list[Item]:
    """The fixings that are in already and of which nobody entered the packers."""
    return [fixing for fixing in fixings if fixing.packers_mm is None and fixing.state == FITTED]


def _packed(readings: Sequence[Sequence[float]], fixings: Sequence[Item], wall: float | None) -> list[float]:
    """How far each packed fixing brings the back out: the wall there, and its packer."""
    out = []
    for fixing in fixings:
        if fixing.packers_mm is not None:
            x, z = geometry.place_of(fixing)
            here = proud_over(readings, Stretch(x, x, z, z))
            out.append((here if here is not None else wall or 0) + fixing.packers_mm)
    return out


def proud_over(readings: Sequence[Sequence[float]], part: Stretch) -> float | None:
    """How far a part of a face stands out at worst; None where it was not measured there."""
    return worst_proud_mm(readings, (part.x_from, part.x_to), (part.z_from, part.z_to))


def fixing_reach(site: Site, fixing: Item) -> Reach:
    """How far a fixing's head, knob or jaw stands out, the wall counted."""
    if fixing.stands_out_mm is None:
        return Reach(LEAST_MM, math.inf, (Blank(fixing, "stands_out_mm"),), ())
    face, out = site[fixing.face], fixing.stands_out_mm
    wall = proud_over(face.surface or [], geometry.fixing_stretch(fixing))
    if wall is None:
        steps = (("wall, not measured", f"0 to {WALL_MM:g} mm"),)
        return Reach(out, out + WALL_MM, (Blank(face, "surface"),), steps)
    return Reach(out + wall, out + wall, (), (("wall, proud at worst", f"{wall:g} mm"),))
