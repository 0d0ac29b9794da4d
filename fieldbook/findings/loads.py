"""The load path of a fitting, from its weight to the fabric, and what each link of it may carry.

What hangs on a fitting is carried by its fixings as well. A fixing's share comes from the group
it belongs to; whether it holds depends on what it is: a connector in wood, a clamp, an existing hold.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from ..book.site import Item, Site
from ..checks import clamp, fixing_group, materials, preload, withdrawal
from ..checks.cautions import LEFT_OUT_OF_LOADS
from ..checks.verdict import Verdict, at_most, not_known, not_known_because
from ..errors import FieldbookError, Missing
from . import geometry

Found = Iterator[tuple[Item, Item | None, Verdict]]
GRAVITY_M_S2 = 9.81  # standard gravity 9.80665 (ISO 80000-3), rounded up
IN_WOOD = {"nail", "wood screw", "lag screw"}
TIGHTENED = {"bolt", "machine screw"}


@dataclass(frozen=True)
class Weight:
    """What weighs on the fixings of a fitting: its own mass and that of all that hangs on it.

    mass_kg  in all; at_mm (x, z) and out_mm: where it acts, the middle of the masses
    pull_n   pull by people, straight out
    """

    mass_kg: float
    at_mm: tuple[float, float]
    out_mm: float
    pull_n: float

    @property
    def force_n(self) -> float:
        """The weight as a force, downwards."""
        return self.mass_kg * GRAVITY_M_S2


@dataclass(frozen=True)
class Share:
    """What one fixing carries, N."""

    fixing: Item
    shear_n: float
    tension_n: float


def weight(site: Site, fitting: Item) -> Weight:
    """What weighs on a fitting's fixings.

    Raises Missing, with the field, where a mass or a lever arm is not entered.
    """
    parts = [own_weight(part) for part in carried(site, fitting)]
    mass = sum(part.mass_kg for part in parts)
    share = [part.mass_kg / mass if mass else 1 / len(parts) for part in parts]
    x, z, out = (
        sum(part * value for part, value in zip(share, values, strict=True))
        for values in zip(*((*part.at_mm, part.out_mm) for part in parts), strict=True)
    )
    return Weight(mass, (x, z), out, sum(part.pull_n for part in parts))


def carried(site: Site, fitting: Item) -> Iterator[Item]:
    """A fitting and all that hangs on it, on what hangs on it too."""
    return _carried(site, fitting, ())


def _carried(site: Site, fitting: Item, above: tuple[str, ...]) -> Iterator[Item]:
    yield fitting
    for other in site.all("fitting"):
        if other.hangs_on == fitting.id and other.stands and other.id not in (*above, fitting.id):
            yield from _carried(site, other, (*above, fitting.id))


def own_weight(fitting: Item) -> Weight:
    """What a fitting weighs by itself; raises Missing, with the field."""
    mass = fitting.mass_loaded_kg if fitting.mass_loaded_kg is not None else fitting.mass_empty_kg
    for field, value in (("mass_loaded_kg", mass), ("centre_out_mm", fitting.centre_out_mm)):
        if value is None:
            words = {"mass_loaded_kg": "mass", "centre_out_mm": "distance of its centre of mass from the face"}[field]
            raise Missing(f"The {words} of {fitting.called} is not entered.", "Weigh or reckon it.", field=field)
    x = fitting.centre_x_mm if fitting.centre_x_mm is not None else fitting.x_mm + fitting.width_mm / 2
    z = fitting.centre_z_mm if fitting.centre_z_mm is not None else fitting.z_mm + fitting.height_mm / 2
    return Weight(mass, (x, z), fitting.centre_out_mm, fitting.pull_n or 0)


def bearers(site: Site, fitting: Item) -> list[Item]:
    """The fixings that carry a fitting's load: those said to, or all of its own on its face when none is."""
    own = [fixing for fixing in site.of(fitting, "fixing") if fixing.stands and fixing.face == fitting.face]
    return [fixing for fixing in own if fixing.carries_load] or own


def shares(site: Site, fitting: Item) -> list[Share]:
    """What each fixing of a fitting carries.

    Raises what `weight` and the check of the group raise; Missing where it has no fixings.
    """
    fixings = bearers(site, fitting)
    if not fixings:
        raise Missing(f"{fitting.called} has no fixings yet.", "Enter them.", field="fixings")
    load = weight(site, fitting)
    part = geometry.fitting_stretch(fitting)
    places = tuple(geometry.place_of(fixing) for fixing in fixings)
    xs, zs = zip(*places, strict=True)
    plate = (min(part.x_from, *xs), min(part.z_from, *zs), max(part.x_to, *xs), max(part.z_to, *zs))
    carried = _group(places, load, plate)
    return [Share(fixing, *each) for fixing, each in zip(fixings, carried, strict=True)]


@lru_cache(maxsize=4096)
def _group(
    places: tuple[tuple[float, float], ...], load: Weight, plate: tuple[float, float, float, float]
) -> tuple[tuple[float, float], ...]:
    force = (0.0, -load.force_n)
    shear = fixing_group.shear_parts_n(places, force, load.at_mm)
    tension = fixing_group.tension_n(places, force, load.at_mm, load.out_mm, load.pull_n, fixing_group.Plate(*plate))
    return tuple(((x * x + z * z) ** 0.5, pull) for (x, z), pull in zip(shear, tension, strict=True))


def load_path(site: Site) -> Found:
    """Each fitting that bears on the fabric, and each fixing that carries some of it."""
    carried: list[tuple[Item, Share]] = []
    in_doubt: set[str] = set()  # holds on which something hangs whose load is not known
    for fitting in site.all("fitting"):
        if not fitting.stands or not site.of(fitting, "fixing"):
            continue
        try:
            carried += [(fitting, share) for share in shares(site, fitting)]
        except FieldbookError as error:
            in_doubt |= {fixing.hold for fixing in bearers(site, fitting) if fixing.hold}
            yield fitting, None, not_known_because("fixing-group", error, fixing_group.SOURCE, "N")
    on_hold: dict[str, list[Share]] = defaultdict(list)
    for _, share in carried:
        on_hold[share.fixing.hold].append(share)
    for fitting, share in carried:
        if (hold := site.get(share.fixing.hold)) is not None:
            yield share.fixing, fitting, _hold_verdict(hold, on_hold[hold.id], hold.id in in_doubt)
        for verdict in _of_fixing(site, share):
            yield share.fixing, fitting, verdict


def _of_fixing(site: Site, share: Share) -> Iterator[Verdict]:
    fixing = share.fixing
    if fixing.sort in IN_WOOD:
        yield _withdrawal(site, share)
    if fixing.sort == "clamp" or (fixing.sort in TIGHTENED and fixing.torque_nm is not None):
        yield from _tightened(site, share)


def _hold_verdict(hold: Item, on_it: Sequence[Share], in_doubt: bool) -> Verdict:
    """The load agreed for a hold is for all that uses it together; the forces are added as if they pulled one way."""
    if hold.load_limit_n is None:
        sentence = f"No load is agreed for the existing hold {hold.called}."
        return not_known("fixing-group", ("load_limit_n",), sentence, fixing_group.SOURCE, "N")
    if in_doubt:
        sentence = f"The load of something else on the existing hold {hold.called} is not known."
        return not_known("fixing-group", ("fixings",), sentence, fixing_group.SOURCE, "N")
    forces = [(share.fixing.called, (share.shear_n**2 + share.tension_n**2) ** 0.5) for share in on_it]
    return at_most(
        "fixing-group",
        f"The force on the existing hold {hold.called} from all that uses it",
        sum(force for _, force in forces),
        hold.load_limit_n,
        "N",
        fixing_group.SOURCE,
        standing=LEFT_OUT_OF_LOADS,
        working=tuple((called, f"{force:.1f} N") for called, force in forces),
    )


def _withdrawal(site: Site, share: Share) -> Verdict:
    fixing = share.fixing
    try:
        needed = {name: _entered(fixing, name) for name in ("grips", "diameter_mm", "penetration_mm")}
        gravity = _material(site, needed["grips"], "grips").figure("specific_gravity", field="grips")
        return withdrawal.verdict(
            fixing.sort, gravity.value, needed["diameter_mm"], needed["penetration_mm"], share.tension_n
        )
    except FieldbookError as error:
        return not_known_because("withdrawal", error, withdrawal.SOURCE, "N")


def _tightened(site: Site, share: Share) -> Iterator[Verdict]:
    fixing = share.fixing
    try:
        torque, diameter, factor = (_entered(fixing, name) for name in ("torque_nm", "diameter_mm", "nut_factor"))
        tension = preload.preload_n(torque, diameter, factor)
    except FieldbookError as error:
        yield not_known_because("preload", error, preload.SOURCE, "N")
        return
    yield _proof(fixing, torque, diameter, factor)
    if fixing.sort == "clamp":
        yield _slip(fixing, tension, share)
        yield _pressure(site, fixing, tension)


def _proof(fixing: Item, torque: float, diameter: float, factor: float) -> Verdict:
    try:
        return preload.verdict(torque, diameter, factor, _entered(fixing, "grade"))
    except FieldbookError as error:
        return not_known_because("preload", error, preload.SOURCE, "N")


def _slip(fixing: Item, tension: float, share: Share) -> Verdict:
    try:
        bolts, faces, friction = (_entered(fixing, name) for name in ("bolts", "friction_faces", "friction"))
        along = (share.shear_n**2 + share.tension_n**2) ** 0.5
        return clamp.slip_verdict(tension, bolts, faces, friction, along)
    except FieldbookError as error:
        return not_known_because("clamp", error, clamp.SOURCE, "N")


def _pressure(site: Site, fixing: Item, tension: float) -> Verdict:
    try:
        bears = _material(site, _entered(fixing, "bears_on"), "bears_on").figure("bearing_n_mm2", field="bears_on")
        return clamp.pressure_verdict(tension, _entered(fixing, "bolts"), _entered(fixing, "jaw_mm2"), bears.value)
    except FieldbookError as error:
        return not_known_because("clamp", error, clamp.SOURCE, "N/mm²")


def _entered(item: Item, name: str) -> Any:
    value = item.values[name]
    if value is None:
        words = name.rsplit("_", 1)[0] if name.endswith(("_mm", "_nm", "_mm2")) else name
        raise Missing(f"The {words.replace('_', ' ')} of {item.called} is not entered.", "Enter it.", field=name)
    return value


def _material(site: Site, name: str, field: str) -> materials.Material:
    return materials.lookup(name, geometry.own_materials(site), field)
