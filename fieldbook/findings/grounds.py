"""What a fixing is let into: wood, and how much of it holds; an existing hold; another fitting; masonry."""

from __future__ import annotations

from typing import NamedTuple

from ..book.site import Item
from ..checks import face_layers, materials
from ..checks.face_layers import FaceLayer
from ..errors import FieldbookError, Missing
from . import geometry, named
from .asking import Asked, NotEntered
from .finding import Blank

# From here on the wood is reckoned as a hardwood: the least of class D18, EN 338.
HARDWOOD_KG_M3 = 475.0
SERVICE_CLASS = {"dry": 1, "damp": 2, "wet": 3}
# Length of thread of a wood screw over its own, DIN 7998, from memory.
THREAD_SHARE = 0.6
NO_END = 1e4
OWN_WORK = "another fitting"
WOOD, HOLD, FITTING, MASONRY = "wood", "hold", OWN_WORK, "masonry"


class Wood(NamedTuple):
    """The wood that holds a fixing.

    density_kg_m3             characteristic
    bearing_n_mm2             across the grain; None where the table has none
    length, thread, shank_mm  of the fixing in it
    gap_mm                    plaster, boarding, packers between it and the fitting
    through                   whether the fixing comes out behind
    end_grain                 whether it stands along the grain
    """

    name: str
    density_kg_m3: float
    bearing_n_mm2: float | None
    length_mm: float
    thread_mm: float
    shank_mm: float
    gap_mm: float
    through: bool
    end_grain: bool
    service_class: int

    @property
    def kind(self) -> str:
        """Softwood or hardwood."""
        return "hardwood" if self.density_kg_m3 >= HARDWOOD_KG_M3 else "softwood"


def ground_of(asked: Asked, fixing: Item) -> str:
    """What a fixing is let into, by what is entered about it.

    A hole in a face is in wood where any of its layers is, or may be for all that its name says.
    """
    if fixing.member or fixing.grips:
        return WOOD
    if fixing.fabric == OWN_WORK:
        return WOOD if any(named.is_wood(name) for name in names_in_fitting(asked, fixing)) else FITTING
    if fixing.hold:
        return HOLD
    if fixing.hole == "none":
        return MASONRY
    layers = asked.site[fixing.face].layers
    if layers is None:
        asked.need(asked.site[fixing.face], "layers")
    known = geometry.known_materials(asked.site)
    return WOOD if any(_may_be_wood(known, material) for material, *_ in layers) else MASONRY


def names_in_fitting(asked: Asked, fixing: Item) -> list[str]:
    """The names of what a fixing goes into in another fitting: as said of it, else all layers of that fitting."""
    if fixing.into:
        return [fixing.into]
    other = asked.site.get(fixing.other_fitting)
    return [layer for layer, _, _ in asked.need(other, "build_up")] if other is not None else []


def _may_be_wood(known: materials.Known, name: str) -> bool:
    if is_wood(known, name) or named.is_mineral(name) or named.is_metal(name):
        return is_wood(known, name)
    return _group(known, name) != "substrate"


def is_wood(known: materials.Known, name: str) -> bool:
    """Whether a layer is wood: one that the table knows, or by a word for it in its name."""
    return _is_known_wood(known, name) or named.is_wood(name)


def _is_known_wood(known: materials.Known, name: str) -> bool:
    try:
        found = known.lookup(name)
    except FieldbookError:
        return False
    return found.group == "species" or "characteristic_density_kg_m3" in found.figures


def _group(known: materials.Known, name: str) -> str:
    """The group of a material; "" for one that nobody knows."""
    try:
        return known.lookup(name).group
    except FieldbookError:
        return ""


def wood_of(asked: Asked, fixing: Item) -> Wood:
    """The wood that holds a fixing and what of the fixing stands in it.

    Raises Missing where no wood is reached, NotAChoice for a material nobody knows.
    """
    deep = asked.need(fixing, "penetration_mm")
    thread = min(thread_mm(asked, fixing), deep)
    member = asked.site.get(fixing.member)
    name, layers, end_grain = _layers(asked, fixing, member)
    # Past what was measured a fixing is taken to be out in the air: it needs no further layer to hold in.
    behind = (*layers, FaceLayer("air", NO_END, False)) if layers[-1].thickness_mm is not None else layers
    found = face_layers.hold(behind, deep, thread) or _short_of_wood(layers)
    if found is None:
        raise Missing(
            f"{fixing.called} reaches {deep:g} mm deep and gets to no wood there.",
            "Name the board or timber it is let into, or measure the layers and the depth again.",
            field="member",
        )
    known = geometry.known_materials(asked.site)
    layer = found.reach.layer.material
    if name is None and not _is_known_wood(known, layer):  # a board of which the layers do not tell the species
        name = asked.need(fixing, "grips")
    material = known.lookup(name or layer, "grips")
    bearing = material.figures.get("bearing_n_mm2")
    return Wood(
        material.name,
        material.figure("characteristic_density_kg_m3", field="grips").value,
        bearing.value if bearing else None,
        found.reach.length_mm,
        found.reach.thread_mm,
        found.reach.shank_mm,
        found.gap_mm + asked.need(fixing, "packers_mm"),
        found.through,
        end_grain,
        service_class(asked, asked.site[asked.site[fixing.face].room]),
    )


def _short_of_wood(layers: tuple[FaceLayer, ...]) -> face_layers.Hold | None:
    """What holds a fixing that ends before the first wood: nothing of it; None where there is no wood at all."""
    place = next((place for place, layer in enumerate(layers) if layer.is_wood), None)
    if place is None:
        return None
    front = sum(layer.thickness_mm or 0.0 for layer in layers[:place])
    return face_layers.Hold(face_layers.InLayer(layers[place], 0.0, 0.0, 0.0), front, through=False)


def _wood_of_fitting_mm(asked: Asked, fixing: Item) -> float:
    """How thick the wood of the other fitting is: those of its layers that are named as wood, or all of them."""
    other = asked.site.get(fixing.other_fitting)
    if other is None:
        raise NotEntered(Blank(fixing, "other_fitting"), None, "")
    layers = asked.need(other, "build_up")
    wooden = [thickness for layer, thickness, _ in layers if named.is_wood(layer)]
    return sum(wooden or [thickness for _, thickness, _ in layers])


def thread_mm(asked: Asked, fixing: Item) -> float:
    """Length of thread; where it is not entered that of a common wood screw, a nail having none that matters."""
    if fixing.thread_mm is not None:
        return fixing.thread_mm
    if fixing.sort in {"wood screw", "coach screw"}:
        return THREAD_SHARE * asked.need(fixing, "length_mm")
    return asked.need(fixing, "penetration_mm")


def service_class(asked: Asked, room: Item) -> int:
    """The service class of EN 1995-1-1 that the timber of a room stands in."""
    return SERVICE_CLASS[asked.need(room, "damp")]


def _layers(asked: Asked, fixing: Item, member: Item | None) -> tuple[str | None, tuple[FaceLayer, ...], bool]:
    """The wood's name if it is said, what lies one behind the other, and whether the wood shows its end grain."""
    if member is not None:
        front = asked.need(member, "behind_mm")
        wood = FaceLayer(member.material, asked.need(member, "thickness_mm"), True)
        in_front = (FaceLayer("what lies in front of it", front, False),) if front else ()
        return member.material, (*in_front, wood), asked.need(member, "grain") == "out of the face"
    if fixing.fabric == OWN_WORK:
        name = asked.need(fixing, "grips")
        return name, (FaceLayer(name, _wood_of_fitting_mm(asked, fixing), True),), False
    face = asked.site[fixing.face]
    if not face.layers:
        raise NotEntered(
            Blank(face, "layers"), None, "", "How much of it stands in wood depends on what lies in front."
        )
    known = geometry.known_materials(asked.site)
    layers = tuple(FaceLayer(material, thickness, is_wood(known, material)) for material, thickness, _ in face.layers)
    return None, layers, False
