"""The kinds of what it is made of and finished with, and what that costs."""

from __future__ import annotations

from .description import Kind, choice, kept, line, link, note, number, rows
from .fields import ALWAYS, Field, Type
from .terms import Term

# fmt: off
FINISH = Kind("finish", "Finish", "Finishes", "a coating, with what is needed to match and touch it up again", "site", (
    link("site", "Site", "site", required=True),
    line("mark", "Mark", help="short: P2", copied=False),
    line("name", "Name", required=True),
    choice("sort", Term.TYPE, "oil paint", "alkyd paint", "acrylic paint", "limewash", "distemper", "shellac", "wax",
        "oil",
           "varnish", "blackening", "powder coat", "other", required=True, listed=True),
    rows("pigments", "Pigments", line("colour_index", "Colour Index name", required=True),
         number("share_pct", "share", "%", 0, 100), help="one a line: Colour Index name; share %, as in PBk 11; 60"),
    line("binder", "Binder", listed=True, wanted=ALWAYS),
    choice("sheen", "Sheen", "dead matt", "matt", "eggshell", "satin", "gloss", listed=True),
    Field("coats", "Coats", Type.WHOLE, low=1, high=50),
    number("covers_m2_l", "One litre covers", "m²/l", 0.1, 100, help="one coat, the least its data sheet states"),
    line("batch", "Batch", copied=False),
    line("lightfastness", "Lightfastness", wanted=ALWAYS, read_by=("fading",)),
    choice("lightfastness_scale", "Lightfastness scale", "ISO Blue Wool 1 to 8", "ASTM D4303 I to V",
           read_by=("fading",)),
    line("comes_off_with", "Comes off with", wanted=ALWAYS),
    note("touch_up", "How to touch up", wanted=ALWAYS),
    number("lab_l", "L*", "", 0, 100, group="Colour (CIELAB)", wanted=ALWAYS, lack="colour"),
    number("lab_a", "a*", "", -200, 200, group="Colour (CIELAB)"),
    number("lab_b", "b*", "", -200, 200, group="Colour (CIELAB)"),
    choice("lab_white", "Reference white", "D50", "D65", group="Colour (CIELAB)",
           wanted=ALWAYS, lack="reference white"),
    choice("colour_from", "How the colour was found", "measured with an instrument", "matched by eye to a chart",
        "from a photograph",
           "from the supplier", group="Colour (CIELAB)", wanted=ALWAYS),
    note("where_used", "Where it was used"),
    Field("applied_on", "Applied on", Type.DATE, copied=False),
))

MATERIAL = Kind("material", "Material of the site's own", "Materials of the site's own",
                "a material with figures the site has from its own source", "site", (
    link("site", "Site", "site", required=True),
    line("name", "Name", required=True),
    choice("group", "Group", "species", "sheet", "metal", "plastic", "glass", "lining", "pair", "substrate",
           required=True, listed=True,
         read_by=("pull", "shear", "together", "spacing", "carrier", "one-lost", "movement", "touch")),
    number("radial_per_pct", "Radial movement", "1/%", 0.0001, 0.01, help="fraction of the width for 1 % moisture",
         read_by=("movement",)),
    number("tangential_per_pct", "Tangential movement", "1/%", 0.0001, 0.01, read_by=("movement",)),
    number("in_plane_per_pct", "Movement in the plane", "1/%", 0.00001, 0.01, help="of sheet goods",
         read_by=("movement",)),
    number("specific_gravity", "Specific gravity", "", 0.05, 1.5),
    number("density_kg_m3", "Density", "kg/m³", 10, 25_000),
    number("characteristic_density_kg_m3", "Characteristic density", "kg/m³", 100, 1_500,
           help="of wood: what 5 % of the pieces lie below, as in EN 338 for its class",
         read_by=("pull", "shear", "together", "spacing", "carrier", "one-lost")),
    number("thermal_per_c", "Thermal expansion", "1/°C", 1e-7, 1e-3, read_by=("movement",)),
    number("friction", "Friction", "", 0.01, 2, read_by=("slip", "pull", "shear", "together", "carrier", "one-lost")),
    number("bearing_n_mm2", "Bearing strength", "N/mm²", 0.01, 1_000, help="of wood: across the grain",
         read_by=("pull", "shear", "together", "pressure", "carrier", "one-lost")),
    line("source", "Source", required=True, help="test, data sheet or adviser, with its date", listed=True),
    kept("kept_as", "Document kept as"),
))

COST = Kind("cost", "Cost", "Costs", "money spent or expected, against the site's budget", "site", (
    link("site", "Site", "site", required=True),
    link("fitting", "Fitting", "fitting"),
    line("what", "What for", required=True),
    choice("sort", Term.TYPE, "material", "hire", "labour", "travel", "fee", "other", required=True, listed=True),
    number("amount", "Amount", "", -1e8, 1e8, required=True, listed=True, copied=False),
    line("currency", "Currency", required=True, help="three letters of ISO 4217", listed=True),
    choice("state", "State", "expected", "paid", required=True, listed=True, copied=False),
    Field("on", "On", Type.DATE, listed=True, copied=False),
    line("receipt", "Receipt", copied=False),
), pointed_to=False)
# fmt: on
