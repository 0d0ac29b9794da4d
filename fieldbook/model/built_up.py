"""The kind of what is built up of layers, described once under a name: a wall, or what stands in front of one."""

from __future__ import annotations

from .description import Kind, choice, line, link, note, number, rows
from .terms import Term

WALL, FITTING = "wall", "fitting"
LAYERS = (line("material", "material", required=True), number("thickness_mm", "thickness", "mm", 0, 10_000),
          choice("age", "age", "old", "later"))  # fmt: skip
IN_FRONT = (line("layer", "layer", required=True), number("thickness_mm", "thickness", "mm", 0, 10_000, required=True),
            number("tolerance_mm", "tolerance ±", "mm", 0, 1_000))  # fmt: skip

# fmt: off
BUILD_UP = Kind("build_up", "Build-up", "Build-ups",
                "layers described once under a name, taken by every face or fitting that is made so", "site", (
    link("site", "Site", "site", required=True),
    line("name", "Name", required=True, help="as you would call it: limed brick, panel on battens"),
    choice("sort", Term.TYPE, WALL, FITTING, required=True, listed=True),
    rows("layers", "Made of", *LAYERS, of_sorts=(WALL,),
         help="of a wall, from the surface inwards, one a line: material; thickness mm; old or later"),
    rows("build_up", "Layers, from the wall outwards", *IN_FRONT, of_sorts=(FITTING,),
         help="of a fitting, one a line: layer; thickness mm; tolerance mm"),
    note("note", "Note", copied=False),
), pointed_to=False)
# fmt: on
