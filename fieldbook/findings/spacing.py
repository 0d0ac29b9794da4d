"""How far a fixing in a board or timber stays from its edges, its ends, and from the next one."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from ..book.site import Item
from ..checks import timber_spacing
from ..checks.verdict import Verdict, Word, not_known
from . import again, geometry
from .asking import LESS, NEITHER, Asked, NotEntered, Question
from .finding import Blank, Outcome
from .grounds import HARDWOOD_KG_M3, OWN_WORK, WOOD, ground_of
from .load_paths import slope_deg
from .strengths import SORT_IN_WOOD
from .verdicts import does_not_apply

NOT_IN_WOOD = "It is not let into wood."
IN_A_FITTING = "What it is let into is a fitting of its own: its maker is responsible for the distances."
END_GRAIN = "It stands in end grain, where no least distance makes up for that. Fix into side grain."
# Further apart no two fixings split a board between them: fifteen diameters of the thickest screw, 24 mm.
FAR_MM = 360.0
# Diameters asked for at most along the grain and across it, Table 8.2.
ALONG, ACROSS = 15, 7
Distances = tuple[tuple[str, float], ...]


def spacing(asked: Asked, fixing: Item) -> Outcome:
    """The distances of a fixing in wood against the least ones, on whichever falls shortest."""
    if fixing.sort in SORT_IN_WOOD and fixing.fabric == OWN_WORK:
        return does_not_apply("spacing", IN_A_FITTING)
    if fixing.sort not in SORT_IN_WOOD or ground_of(asked, fixing) != WOOD:
        return does_not_apply("spacing", NOT_IN_WOOD)
    member = asked.site.get(fixing.member)
    if member is None:
        raise NotEntered(Blank(fixing, "member"), None, "")
    grain = asked.need(member, "grain")
    if grain == "out of the face":
        return Outcome(not_known("spacing", ("grain",), END_GRAIN, timber_spacing.SOURCE, "mm"), member)
    diameter = asked.need(fixing, "diameter_mm")
    density = geometry.known_materials(asked.site).lookup(member.material).figure("characteristic_density_kg_m3").value
    sort = SORT_IN_WOOD[fixing.sort]
    drilled = True if sort == "bolt" else bool(asked.need(fixing, "predrilled"))
    pushed = slope_deg(asked, asked.site[fixing.face]) < 90
    least = _least(sort, diameter, density, drilled, grain, pushed)
    if least is None:
        return Outcome(_undrilled(diameter, density), member)
    measured = _measured(asked, fixing, member, grain)
    wood = {"sort": sort, "diameter_mm": diameter, "density_kg_m3": density}
    by_hand = again.spacing(wood, drilled, _angle_deg(grain), pushed, measured)
    return Outcome(_verdict(tuple(least.items()), measured), member, again=by_hand)


def _angle_deg(grain: str) -> float:
    """Between a load downwards and the grain."""
    return 90.0 if grain == "level" else 0.0


@lru_cache(maxsize=1024)
def _least(
    sort: str, diameter: float, density: float, drilled: bool, grain: str, pushed: bool
) -> Mapping[str, float] | None:
    """Least distances for a load downwards with a pull, mm; None where the wood has to be drilled."""
    wood = "hardwood" if density >= HARDWOOD_KG_M3 else "softwood"
    if not drilled and timber_spacing.needs_drilling(sort, diameter, density, wood):
        return None
    least = timber_spacing.required_mm(sort, diameter, density, _angle_deg(grain), predrilled=drilled)._asdict()
    least = least if pushed else timber_spacing.not_pushed(least)
    return timber_spacing.also_pulled(least, diameter) if sort == "screw" else least


def _measured(asked: Asked, fixing: Item, member: Item, grain: str) -> Distances:
    """How far it is from the ends and edges of its board and from the next fixing there, mm.

    A load goes down: towards the lower edge of a level board, or the lower end of an upright one.
    """
    x, z = geometry.place_of(fixing)
    sides = min(x - member.x_mm, member.x_mm + member.width_mm - x)
    below, above = z - member.z_mm, member.z_mm + member.height_mm - z
    across = "edge" if grain == "level" else "end"
    found = {f"loaded_{across}": below, f"unloaded_{across}": above}
    found["unloaded_end" if grain == "level" else "unloaded_edge"] = sides
    found |= _next(asked, fixing, member, grain)
    return tuple((name, max(0.0, round(mm, 6))) for name, mm in found.items())


def _next(asked: Asked, fixing: Item, member: Item, grain: str) -> dict[str, float]:
    """To the nearest other fixing of the board, along its grain or across it, whichever keeps them further apart."""
    rows = asked.once(("rows", member.id, grain), lambda: _nearest(asked, member, grain))
    return {name: of[fixing.id] for name, of in zip(("along", "across"), rows, strict=True) if fixing.id in of}


def _nearest(asked: Asked, member: Item, grain: str) -> tuple[dict[str, float], dict[str, float]]:
    """For each fixing of a board the distance to the next one, mainly along the grain and mainly across it."""
    places = []
    for fixing in asked.site.let_into(member):
        x, z = geometry.place_of(fixing)
        places.append(((x, z) if grain == "level" else (z, x), fixing.id))
    along: dict[str, float] = {}
    across: dict[str, float] = {}
    places.sort()
    for at, ((u, v), key) in enumerate(places):
        for (other_u, other_v), other in places[at + 1 :]:
            if other_u - u > FAR_MM:
                break
            du, dv = other_u - u, abs(other_v - v)
            # Two that are far enough apart one way need not be so the other way as well.
            into, mm = (along, du) if du / ALONG >= dv / ACROSS else (across, dv)
            for one in (key, other):
                into[one] = min(mm, into.get(one, mm))
    return along, across


@lru_cache(maxsize=4096)
def _verdict(least: Distances, measured: Distances) -> Verdict:
    return timber_spacing.verdict(dict(least), dict(measured))


def _undrilled(diameter: float, density: float) -> Verdict:
    sentence = f"Wood of {density:g} kg/m³ splits round a fixing of {diameter:g} mm that is not drilled for: drill it."
    return Verdict("spacing", Word.OVER, None, None, None, "mm", sentence, timber_spacing.SOURCE)


QUESTIONS = (
    Question(
        "spacing",
        "fixing",
        "Is it far enough from edges, ends and the next one?",
        spacing,
        {
            "member.x_mm": NEITHER,
            "member.z_mm": NEITHER,
            "member.width_mm": LESS,
            "member.height_mm": LESS,
            "member.grain": NEITHER,
            "member.material": NEITHER,
            "material.group": NEITHER,
            "material.characteristic_density_kg_m3": NEITHER,
            "face.slope_deg": NEITHER,
            "face.sort": NEITHER,
            "face.layers": NEITHER,
            "fixing.sort": NEITHER,
            "fixing.member": NEITHER,
            "fixing.grips": NEITHER,
            "fixing.fabric": NEITHER,
            "fixing.hole": NEITHER,
            "fixing.hold": NEITHER,
            "fixing.diameter_mm": NEITHER,
            "fixing.predrilled": LESS,
            "fixing.x_mm": NEITHER,
            "fixing.z_mm": NEITHER,
            "fixing.fitted_x_mm": NEITHER,
            "fixing.fitted_z_mm": NEITHER,
            "fixing.state": NEITHER,
        },
    ),
)
