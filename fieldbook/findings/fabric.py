"""What of the old building a fixing touches: the layers of its face and the boards at its place, down to its tip."""

from __future__ import annotations

import math
import re
from functools import lru_cache

from ..book.site import Item
from ..checks import materials, metal_pair
from ..checks.clearance import Stretch
from ..errors import FieldbookError
from . import geometry
from .asking import Asked

# Coats of paint or limewash up to this thickness keep nothing apart: common practice, no source.
COAT_MM = 3.0
# Words for wood in the names of layers and boards, besides the species of the table of materials.
# fmt: off
WOODEN = frozenset((
    "wood", "wooden", "timber", "timbers", "board", "boards", "boarding", "boarded", "deal", "batten", "battens",
    "joist", "joists", "stud", "studs", "plank", "planks", "planking", "hardwood", "plywood", "chipboard",
    "hardboard", "mdf", "matchboard", "matchboarding", "panelling", "wainscot", "parquet", "veneer", "mahogany",
    "cypress", "rosewood",
))
# Words for stone, brick, plaster and what is brushed on them, in the names of layers: common practice, no source.
MINERAL = frozenset((
    "stone", "stones", "sandstone", "limestone", "freestone", "gritstone", "granite", "marble", "slate", "flint",
    "flints", "chalk", "tufa", "ashlar", "rubble", "masonry", "brick", "bricks", "brickwork", "block", "blocks",
    "blockwork", "plaster", "plasterboard", "render", "stucco", "scagliola", "mortar", "lime", "gypsum", "cement",
    "concrete", "screed", "tile", "tiles", "terracotta", "ceramic", "cob", "earth", "clay", "adobe", "daub",
    "limewash", "whitewash", "wash", "distemper", "paint", "paints", "emulsion", "varnish", "primer", "glass",
))
# Words for what lies on a wall and bears no bare metal for all that is under it: common practice, no source.
TENDER = frozenset((
    "gilding", "gilt", "gilded", "leaf", "wallpaper", "paper", "papered", "leather", "canvas", "silk", "linen",
    "textile", "fabric", "tapestry", "mural", "fresco",
))
# fmt: on

READS = {"face.layers": "neither", "member.material": "neither", "member.behind_mm": "less"} | dict.fromkeys(
    (
        *("fixing.hole", "fixing.x_mm", "fixing.z_mm", "fixing.fitted_x_mm", "fixing.fitted_z_mm"),
        *("member.x_mm", "member.z_mm", "member.width_mm", "member.height_mm"),
    ),
    "neither",
)


def touched(asked: Asked, fixing: Item) -> tuple[str, ...]:
    """The names of what a fixing touches, from the surface inwards; raises NotEntered where nobody said what is there.

    Where it is not known how deep a hole goes, it is taken to go through everything.
    """
    depth = 0.0
    if fixing.hole != "none":
        depth = math.inf if fixing.penetration_mm is None else fixing.penetration_mm
    x, z = geometry.place_of(fixing)
    return _down_to(asked, asked.site[fixing.face], depth, Stretch(x, x, z, z))


def at_surface(asked: Asked, fixing: Item) -> tuple[str, ...]:
    """The names of what lies at the surface under a fixing; raises as `touched` does."""
    x, z = geometry.place_of(fixing)
    return _down_to(asked, asked.site[fixing.face], 0.0, Stretch(x, x, z, z))


def behind(asked: Asked, fitting: Item) -> tuple[str, ...]:
    """The names of what lies at the surface behind a fitting; raises as `touched` does."""
    return _down_to(asked, asked.site[fitting.face], 0.0, geometry.fitting_stretch(fitting))


def _down_to(asked: Asked, face: Item, depth: float, part: Stretch) -> tuple[str, ...]:
    names, front = [], 0.0
    for name, thickness, _ in asked.need(face, "layers"):
        if front <= depth + COAT_MM:
            names.append(name)
        front += thickness or 0.0  # a layer of no known thickness hides nothing
    for member in asked.site.of(face, "member"):
        across = Stretch(member.x_mm, member.x_mm + member.width_mm, member.z_mm, member.z_mm + member.height_mm)
        if (member.behind_mm or 0.0) <= depth + COAT_MM and across.meets(part):
            names.append(member.material)
    return tuple(dict.fromkeys(names))


@lru_cache(maxsize=1024)
def words(name: str) -> frozenset[str]:
    """The words of a name, without figures and units."""
    return frozenset(re.findall(r"[^\W\d_]+", name.casefold())) - {"mm"}


@lru_cache(maxsize=1024)
def is_metal(name: str) -> bool:
    """Whether a name means a metal of the table."""
    try:
        metal_pair.metal(name)
    except FieldbookError:
        return False
    return True


def is_wood(name: str) -> bool:
    """Whether a name means wood."""
    return bool(words(name) & _wooden())


@lru_cache(maxsize=1)
def _wooden() -> frozenset[str]:
    species = (name.partition(",")[0] for name in materials.names("species"))
    return WOODEN | {word for name in species for word in words(name) if "(" not in name}


def is_mineral(name: str) -> bool:
    """Whether a name means stone, brick, plaster or a coat on them."""
    return bool(words(name) & MINERAL)


def is_tender(name: str) -> bool:
    """Whether a name means paper, cloth, leather, leaf of metal or a picture on a wall, whatever else it names."""
    return bool(words(name) & TENDER)
