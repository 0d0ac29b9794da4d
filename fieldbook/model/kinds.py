"""Every kind of entry, described once.

The only place that says which fields a fixing has. Columns, forms, validation, CSV headers,
the record's tables and the glossary are all made from it: a new field is one line here.
It is a table rather than code, which is why it is longer than other modules.
"""

from __future__ import annotations

from collections.abc import Mapping

from ..errors import UnknownKind, shown
from .description import Kind, choice, length, line, link, note, number, place, rows
from .fields import ANY, Field, Type

FORBIDDEN = ("drilling", "contact", "adhesive", "load", "heat", "light")
PLANNED, FITTED, TAKEN_DOWN = STATES = ("planned", "fitted", "taken down")
TRACES = (
    "none",
    "a mark that cleans off",
    "an old hole used again",
    "a new hole in later work",
    "a new hole in old fabric",
)
FABRICS = ("old fabric", "later work", "another fitting")
HAZARDS = (
    "loads",
    "overhead work",
    "hidden services",
    "escape route",
    "lifting",
    "dust",
    "old lead paint",
    "asbestos",
    "electricity",
)
CLASSES = ("0", "1", "2", "3")  # the classes of EN 16096

CORNER = (place("x_mm", "x", required=True), place("z_mm", "z", required=True))
BOX = tuple(place(f"{axis}_mm", axis, required=True) for axis in ("u0", "u1", "v0", "v1"))
RECTANGLE_HELP = "one corner a line (x z), or: rectangle x z width height, or: circle x z radius"

# fmt: off
SITE = Kind("site", "Site", "Sites", "a building or part of it", "", (
    line("name", "Name", required=True),
    line("address", "Where it is"),
    line("protection", "Protection", help="what protects the building, and the number it goes by"),
    line("keeper", "Keeper", help="the role that looks after it and whom to ask"),
    line("adviser", "Conservation adviser", help="role and office"),
    line("fitter", "Fitter", help="role of whoever makes and fits"),
    note("description", "Description"),
    note("access", "Access and emergencies", help="keys, alarms, assembly point, whom to call"),
    number("budget", "Budget", "", 0, 1e9, group="Money"),
    line("currency", "Currency", help="three letters of ISO 4217", group="Money"),
))

ROOM = Kind("room", "Room", "Rooms", "a space in a building", "site", (
    link("site", "Site", "site", required=True),
    line("mark", "Mark", help="short: R1"),
    line("name", "Name", required=True),
    line("use", "Use"),
    rows("plan", "Plan outline", place("x_mm", "x", required=True), place("y_mm", "y", required=True),
         help="one corner a line, in the room's plan axes"),
    length("ceiling_mm", "Ceiling height", 30_000),
    note("floor", "Floor"),
    note("ceiling", "Ceiling"),
    note("conditions", "Conditions", help="heating, damp, draughts, what changes with the season"),
    Field("hazards", "Hazards", Type.CHOICES, choices=HAZARDS, group="Safety"),
    note("hazards_words", "Hazards in words", group="Safety"),
    number("light_limit_lx", "Light limit", "lx", 0, 10_000, group="Limits"),
    number("humidity_low_pct", "Humidity not below", "%", 0, 100, group="Limits"),
    number("humidity_high_pct", "Humidity not above", "%", 0, 100, group="Limits"),
    choice("light_category", "Sensitivity to light", "none", "low", "medium", "high", group="Light",
           help="of what hangs here, by the categories of CIE 157"),
    number("light_hours", "Hours of light in a year", "h", 0, 8_784, group="Light"),
    Field("uv_filtered", "Ultraviolet filtered out", Type.YES_NO, group="Light"),
))

FACE = Kind("face", "Face", "Faces", "one surface one can stand in front of, with its own axes", "room", (
    link("room", "Room", "room", required=True),
    line("mark", "Mark", help="short: R1-N"),
    line("name", "Name", required=True),
    choice("sort", "Sort", "wall", "reveal", "column side", "ceiling", "other", required=True),
    length("width_mm", "Width", required=True, low=1),
    length("height_mm", "Height", required=True, low=1),
    place("left_mm", "x of its left edge", help="0 when the datum is at the left edge"),
    place("bottom_mm", "z of its lower edge", help="0 when the datum is at the lower edge"),
    rows("layers", "Made of", line("material", "material", required=True),
         number("thickness_mm", "thickness", "mm", 0, 10_000), choice("age", "age", "old", "later"),
         help="from the surface inwards, one a line: material; thickness mm; old or later"),
    note("datum", "Datum", group="Datum", help="words to find the mark that x = 0, z = 0 is measured from"),
    place("start_x_mm", "Plan x of x = 0", group="Place in the room's plan"),
    place("start_y_mm", "Plan y of x = 0", group="Place in the room's plan"),
    number("bearing_deg", "Direction of x in the plan", "°", -360, 360, group="Place in the room's plan",
           help="anticlockwise from the plan's x axis"),
    rows("floor", "Floor profile", *CORNER, group="Survey", help="one point a line: x z of the floor"),
    rows("surface", "Surface readings", *CORNER, place("proud_mm", "proud", required=True), group="Survey",
         help="one point a line: x z proud; proud is how far it stands out of the reference plane, back is negative"),
    note("note", "Note"),
))

ZONE = Kind("zone", "Keep-off zone", "Keep-off zones", "a part of a face where something is forbidden", "face", (
    link("face", "Face", "face", required=True),
    line("mark", "Mark", help="short: K3"),
    line("name", "Name", required=True),
    Field("outline", "Outline", Type.OUTLINE, unit="mm", columns=CORNER, required=True, help=RECTANGLE_HELP),
    Field("forbids", "Forbidden here", Type.CHOICES, choices=FORBIDDEN, required=True),
    length("margin_mm", "Margin", 5_000, required=True, help="kept free all round the outline"),
    length("safe_depth_mm", "Depth that may be penetrated", 2_000,
           help="only where the zone is about depth: how far in it is safe; empty means not at all"),
    note("reason", "Reason", required=True),
    note("evidence", "Evidence", help="what shows it: scan, drawing, opening up, memory"),
    line("said_by", "Who said so", help="role"),
    Field("said_on", "When", Type.DATE),
))

LIMIT = Kind("limit", "Clearance limit", "Clearance limits", "what must stay free in front of a face", "face", (
    link("face", "Face", "face", required=True),
    line("mark", "Mark", help="short: L2"),
    line("name", "Name", required=True),
    choice("sort", "Sort", "leaf", "route", "headroom", "flat", required=True),
    length("margin_mm", "Margin", 5_000, required=True),
    place("x_from_mm", "From x", group="Band", help="empty: from the left edge"),
    place("x_to_mm", "To x", group="Band", help="empty: to the right edge"),
    place("z_from_mm", "From z", group="Band", help="empty: from the floor"),
    place("z_to_mm", "To z", group="Band", help="empty: to the top"),
    choice("leaf", "Leaf", "door", "shutter", "casement", "gate", group="Leaf"),
    place("hinge_x_mm", "Hinge x", group="Leaf"),
    place("hinge_y_mm", "Hinge y", group="Leaf", help="out of the face; negative behind it"),
    number("swing_from_deg", "Swings from", "°", -360, 360, group="Leaf",
        help="0° lies along +x, 90° points into the room"),
    number("swing_to_deg", "Swings to", "°", -360, 360, group="Leaf"),
    rows("boxes", "Boxes of leaf and handle", *BOX, group="Leaf",
         help="one box a line: u0 u1 v0 v1; u along the leaf from the hinge, v at 90° anticlockwise from u"),
    length("available_mm", "Free width today", group="Route", help="from the face to what stands opposite"),
    length("clear_width_mm", "Width to keep clear", group="Route"),
    length("headroom_mm", "Headroom above the floor", 20_000, group="Headroom"),
    length("projection_mm", "Projection allowed", group="Headroom or flat limit",
           help="how far something may stand out inside the band"),
    note("reason", "Reason"),
    note("evidence", "Evidence"),
    line("said_by", "Who said so", help="role"),
))

HOLD = Kind("hold", "Existing hold", "Existing holds",
            "a hole, hook, frame, flange or moulding already there that may be used again", "face", (
    link("face", "Face", "face", required=True),
    line("mark", "Mark", help="short: H4"),
    choice("sort", "Sort", "hole", "hook", "bolt", "frame", "flange", "moulding", "other", required=True),
    place("x_mm", "x", required=True),
    place("z_mm", "z", required=True),
    length("diameter_mm", "Diameter", 1_000),
    length("depth_mm", "Depth", 2_000),
    choice("may_be_used", "May be used", "yes", "no", "not known", required=True),
    number("load_limit_n", "Load agreed", "N", 0, 1e6, help="for all that uses it together"),
    note("condition", "Condition"),
    line("said_by", "Who said so", help="role"),
))

READING = Kind("reading", "Reading", "Readings", "one measured quantity at a place and time, with its instrument",
    "room", (
    link("room", "Room", "room", required=True),
    link("face", "Face", "face"),
    choice("quantity", "Quantity", "air temperature", "relative humidity", "surface temperature",
        "wood moisture content",
           "damp meter units", "illuminance", "ultraviolet", "level", "distance", "mass", "torque", "pull",
               required=True,
           help="pins in plaster, stone or paint compare only: enter them as damp meter units"),
    number("value", "Value", "", -1e6, 1e6, required=True),
    choice("unit", "Unit", "°C", "%", "% moisture content", "meter units", "lx", "µW/lm", "mm", "kg", "N m", "N",
        required=True),
    Field("at", "When", Type.MOMENT, required=True),
    place("x_mm", "x"),
    place("z_mm", "z"),
    line("instrument", "Instrument"),
    number("uncertainty", "Uncertainty", "±", 0, 1e6),
    line("taken_by", "Taken by", help="role"),
    note("note", "Note"),
))

OBSERVATION = Kind("observation", "Observation", "Observations", "the state of something, classed as in EN 16096",
    "room", (
    link("room", "Room", "room", required=True),
    link("face", "Face", "face"),
    link("fitting", "Fitting", "fitting"),
    line("what", "What was seen", required=True),
    Field("at", "When", Type.MOMENT, required=True),
    choice("condition_class", "Condition class", *CLASSES, help="0 no symptoms, 1 minor, 2 moderate, 3 major"),
    choice("urgency_class", "Urgency class", *CLASSES, help="0 long term, 1 medium, 2 short, 3 at once"),
    choice("recommendation_class", "Recommendation class", *CLASSES,
           help="0 nothing to do, 1 care, 2 moderate repair or a closer look, 3 major work after diagnosis"),
    place("x_mm", "x"),
    place("z_mm", "z"),
    note("words", "In words"),
    line("seen_by", "Seen by", help="role"),
))

FITTING = Kind("fitting", "Fitting", "Fittings", "a thing put up", "face", (
    link("face", "Face", "face", required=True),
    line("mark", "Mark", required=True, help="short: D4"),
    line("name", "Name", required=True),
    line("purpose", "Purpose"),
    choice("state", "State", *STATES, required=True),
    line("phase", "Phase"),
    place("x_mm", "x of its left edge", required=True, group="Place and size"),
    place("z_mm", "z of its lower edge", required=True, group="Place and size"),
    length("width_mm", "Width", required=True, group="Place and size"),
    length("height_mm", "Height", required=True, group="Place and size"),
    rows("build_up", "Projection, layer by layer", line("layer", "layer", required=True),
         number("thickness_mm", "thickness", "mm", 0, 10_000, required=True),
         number("tolerance_mm", "tolerance ±", "mm", 0, 1_000), group="Place and size",
         help="from the face outwards, one a line: layer; thickness mm; tolerance mm"),
    Field("touches_face", "Bears on the face itself", Type.YES_NO, group="Place and size",
          help="yes when more than its fixings touches the fabric"),
    number("mass_empty_kg", "Mass empty", "kg", 0, 10_000, group="Load"),
    number("mass_loaded_kg", "Mass loaded", "kg", 0, 10_000, group="Load"),
    length("centre_out_mm", "Centre of mass out of the face", 10_000, group="Load"),
    place("centre_x_mm", "Centre of mass x", group="Load", help="empty: the middle of its width"),
    place("centre_z_mm", "Centre of mass z", group="Load", help="empty: the middle of its height"),
    choice("lift_reach", "Lifted", "close", "far", group="Load", help="close to the body, or at arm's length"),
    line("moving_part", "Material that moves", group="Movement", help="species, sheet, metal or plastic by its name"),
    choice("grain", "Across the grain", "tangential", "radial", group="Movement", help="flat-sawn or quarter-sawn"),
    length("moving_mm", "Dimension that moves", 20_000, group="Movement"),
    length("movement_allowed_mm", "Gap or slot allows", 1_000, group="Movement", help="in all, before it is held"),
    rows("parts", "Parts to cut", line("name", "part", required=True), length("length_mm", "length", required=True),
         length("width_mm", "width"), Field("count", "count", Type.WHOLE, low=1, high=10_000, required=True),
         choice("grain", "grain", "along", "either way"), group="Cutting",
         help="one a line: part; length mm; width mm (empty for lengths); count; along or either way"),
    length("stock_length_mm", "Stock length", 20_000, group="Cutting"),
    length("stock_width_mm", "Stock width", 20_000, group="Cutting", help="empty for lengths"),
    length("kerf_mm", "Kerf", 20, group="Cutting"),
    number("pull_n", "Pull by people", "N", 0, 100_000, group="Load",
        help="someone leaning or pulling; 0 when out of reach"),
    Field("climbable", "People can lean or climb on it", Type.YES_NO, group="Load"),
    Field("gives", "Gives off", Type.CHOICES, choices=("heat", "light")),
    link("hangs_on", "Hangs on", "fitting", group="Taking down"),
    Field("covers", "Covers", Type.LINKS, to="fitting", group="Taking down",
        help="fittings that cannot be reached until this is off"),
    Field("people_to_remove", "People to take it down", Type.WHOLE, low=1, high=50, group="Taking down"),
    number("minutes_to_remove", "Time to take it down", "min", 0, 10_000, group="Taking down"),
    note("removal", "How to take it down", group="Taking down"),
    note("care", "Care"),
    Field("finishes", "Finishes", Type.LINKS, to="finish"),
    Field("fitted_on", "Fitted on", Type.DATE, group="State"),
    Field("taken_down_on", "Taken down on", Type.DATE, group="State"),
    note("note", "Note"),
))

FIXING = Kind("fixing", "Fixing", "Fixings",
              "one connection between a fitting and the fabric, or between two fittings", "fitting", (
    link("fitting", "Fitting", "fitting", required=True),
    link("face", "Face", "face", required=True),
    line("mark", "Mark", required=True, help="short: D4.2"),
    choice("sort", "Sort", "wood screw", "lag screw", "machine screw", "bolt", "nail", "clamp", "hook", "strap", "prop",
           "magnet", "weight", "wedge", "adhesive pad", required=True),
    choice("state", "State", *STATES, required=True),
    place("x_mm", "Planned x", required=True, group="Place"),
    place("z_mm", "Planned z", required=True, group="Place"),
    place("fitted_x_mm", "As-fitted x", group="Place"),
    place("fitted_z_mm", "As-fitted z", group="Place"),
    length("stands_out_mm", "Stands out of the face", 5_000, group="Place",
           help="head, knob or jaw; empty when it lies within its fitting"),
    line("size", "Size", group="Make", help="as on the packet: M6 × 40"),
    length("diameter_mm", "Diameter", 200, group="Make"),
    length("length_mm", "Length", 5_000, group="Make"),
    line("material", "Material", group="Make", help="such as stainless steel A4"),
    length("contact_radius_mm", "Radius of what touches", 2_000, required=True, group="Contact",
           help="plate, washer or jaw, from its middle to its far corner"),
    choice("hole", "Hole", "none", "existing", "new", required=True, group="Contact"),
    link("hold", "Existing hold used", "hold", group="Contact"),
    length("penetration_mm", "Penetration", 2_000, group="Contact", help="from the surface of the fabric; 0 for none"),
    choice("fabric", "Into", *FABRICS, required=True, group="Contact"),
    line("into", "Into what", group="Contact", help="as in: dado board, 22 mm"),
    link("other_fitting", "Other fitting", "fitting", group="Contact", help="where it joins two fittings"),
    Field("adhesive", "Glued", Type.YES_NO, group="Contact"),
    Field("carries_load", "Carries load", Type.YES_NO, group="Contact"),
    line("lining", "Lining", group="Contact", help="what lies between jaw and fabric"),
    length("packers_mm", "Packers", 500, group="Contact"),
    number("torque_nm", "Tightening torque", "N m", 0, 1_000, group="Make"),
    choice("grade", "Property class", "4.6", "8.8", group="Strength", help="of a bolt, ISO 898-1"),
    number("nut_factor", "Nut factor", "", 0.05, 0.6, group="Strength", help="torque = factor × tension × diameter"),
    Field("bolts", "Bolts", Type.WHOLE, low=1, high=50, group="Strength", help="that draw one clamp together"),
    Field("friction_faces", "Faces that grip", Type.WHOLE, low=1, high=4, group="Strength"),
    number("friction", "Friction", "", 0.01, 2, group="Strength", help="the low end, between lining and fabric"),
    number("jaw_mm2", "Area under the jaw", "mm²", 1, 1e6, group="Strength"),
    line("grips", "Wood it holds in", group="Strength", help="species, as in the materials"),
    line("bears_on", "What the jaw presses on", group="Strength", help="substrate, as in the materials"),
    line("locking", "Kept from working loose by", group="Make"),
    line("removal_tool", "Tool to remove", group="Taking down"),
    note("removal", "How to remove", group="Taking down"),
    note("make_good", "How to make good", group="Taking down"),
    choice("trace", "Trace it leaves", *TRACES, required=True, group="Taking down"),
    link("agreement", "Agreement", "agreement", group="Consent"),
    line("consent", "Consent reference", group="Consent"),
    Field("fitted_on", "Fitted on", Type.DATE, group="State"),
    line("fitted_by", "Fitted by", help="role", group="State"),
    Field("taken_down_on", "Taken down on", Type.DATE, group="State"),
    note("note", "Note"),
))

FINISH = Kind("finish", "Finish", "Finishes", "a coating, with what is needed to match and touch it up again", "site", (
    link("site", "Site", "site", required=True),
    line("mark", "Mark", help="short: P2"),
    line("name", "Name", required=True),
    choice("sort", "Sort", "oil paint", "alkyd paint", "acrylic paint", "limewash", "distemper", "shellac", "wax",
        "oil",
           "varnish", "blackening", "powder coat", "other", required=True),
    rows("pigments", "Pigments", line("colour_index", "Colour Index name", required=True),
         number("share_pct", "share", "%", 0, 100), help="one a line: Colour Index name; share %, as in PBk 11; 60"),
    line("binder", "Binder"),
    choice("sheen", "Sheen", "dead matt", "matt", "eggshell", "satin", "gloss"),
    Field("coats", "Coats", Type.WHOLE, low=1, high=50),
    line("batch", "Batch"),
    line("lightfastness", "Lightfastness"),
    choice("lightfastness_scale", "Scale of it", "ISO Blue Wool 1 to 8", "ASTM D4303 I to V"),
    line("comes_off_with", "Comes off with"),
    note("touch_up", "How to touch up"),
    number("lab_l", "L*", "", 0, 100, group="Colour (CIELAB)"),
    number("lab_a", "a*", "", -200, 200, group="Colour (CIELAB)"),
    number("lab_b", "b*", "", -200, 200, group="Colour (CIELAB)"),
    choice("lab_white", "Reference white", "D50", "D65", group="Colour (CIELAB)"),
    choice("colour_from", "How it was got", "measured with an instrument", "matched by eye to a chart",
        "from a photograph",
           "from the supplier", group="Colour (CIELAB)"),
    note("where_used", "Where it was used"),
    Field("applied_on", "Applied on", Type.DATE),
))

AGREEMENT = Kind("agreement", "Agreement", "Agreements",
    "a keeper's yes or no to named items in the state they were in", "site", (
    link("site", "Site", "site", required=True),
    line("reference", "Reference", required=True, help="short: A2"),
    Field("items", "About", Type.LINKS, to=ANY),
    choice("answer", "Answer", "yes", "yes, with conditions", "no", required=True),
    note("words", "What was agreed", required=True),
    note("conditions", "Conditions"),
    line("said_by", "Given by", required=True, help="role"),
    Field("on", "Given on", Type.DATE, required=True),
    Field("agreed_revision", "State of the book agreed to", Type.WHOLE, low=0,
        help="revision number; empty: as it stands now"),
    rows("signature", "Signature", place("x", "x", required=True), place("y", "y", required=True),
         Field("stroke", "stroke", Type.WHOLE, low=0, required=True), help="drawn with a finger on the phone"),
))

TASK = Kind("task", "Maintenance task", "Maintenance tasks", "care that comes round", "site", (
    link("site", "Site", "site", required=True),
    line("what", "What to do", required=True),
    link("room", "Room", "room"),
    link("fitting", "Fitting", "fitting"),
    Field("every_months", "Every", Type.WHOLE, unit="months", low=1, high=600),
    Field("first_on", "First on", Type.DATE),
    line("who", "Who", help="role"),
    number("minutes", "Time", "min", 0, 10_000),
    line("tools", "Tools and materials"),
    note("how", "How"),
    note("caution", "Caution"),
))

VISIT = Kind("visit", "Visit", "Visits", "a day on site", "site", (
    link("site", "Site", "site", required=True),
    choice("purpose", "Purpose", "survey", "fitting", "inspection", "touch-up", "taking down", required=True),
    Field("on", "On", Type.DATE, required=True),
    line("by", "By", help="role"),
    note("found", "What was found"),
    note("done", "What was done"),
    Field("next_on", "Next visit", Type.DATE),
))

PHOTOGRAPH = Kind("photograph", "Photograph", "Photographs", "a photograph, known by its digest", "site", (
    link("site", "Site", "site", required=True),
    link("subject", "Of", ANY, required=True),
    choice("purpose", "Purpose", "datum", "as found", "at work", "as fitted", "after removal", "evidence", "receipt",
        required=True),
    line("caption", "Caption"),
    Field("taken_at", "Taken", Type.MOMENT),
    line("taken_by", "Taken by", help="role"),
    place("x_mm", "x"),
    place("z_mm", "z"),
    Field("sha256", "Digest (SHA-256)", Type.DIGEST, required=True),
    Field("size_bytes", "Size", Type.WHOLE, unit="bytes", low=1, high=1e9),
    choice("media_type", "File type", "image/jpeg", "image/png", "image/webp"),
    Field("width_px", "Width", Type.WHOLE, unit="px", low=1, high=100_000),
    Field("height_px", "Height", Type.WHOLE, unit="px", low=1, high=100_000),
))

LOG = Kind("log", "Logger file", "Logger files", "what a logger in a room wrote, kept as it came", "room", (
    link("room", "Room", "room", required=True),
    line("name", "Name", required=True, help="which logger, and where it stands"),
    line("time_column", "Heading of the time", required=True),
    line("humidity_column", "Heading of the relative humidity", required=True),
    line("temperature_column", "Heading of the temperature"),
    line("date_column", "Heading of the date", help="only where date and time stand apart"),
    choice("date_order", "Order of a date", "day first", "month first", help="only where the file leaves it open"),
    line("instrument", "Instrument"),
    Field("sha256", "Digest (SHA-256)", Type.DIGEST, required=True),
    Field("size_bytes", "Size", Type.WHOLE, unit="bytes", low=1, high=1e9),
))

MATERIAL = Kind("material", "Material of the site's own", "Materials of the site's own",
                "a material with figures the site has from its own source", "site", (
    link("site", "Site", "site", required=True),
    line("name", "Name", required=True),
    choice("group", "Group", "species", "sheet", "metal", "plastic", "glass", "lining", "pair", "substrate",
           required=True),
    number("radial_per_pct", "Radial movement", "1/%", 0.0001, 0.01, help="fraction of the width for 1 % moisture"),
    number("tangential_per_pct", "Tangential movement", "1/%", 0.0001, 0.01),
    number("in_plane_per_pct", "Movement in the plane", "1/%", 0.00001, 0.01, help="of sheet goods"),
    number("specific_gravity", "Specific gravity", "", 0.05, 1.5),
    number("density_kg_m3", "Density", "kg/m³", 10, 25_000),
    number("characteristic_density_kg_m3", "Characteristic density", "kg/m³", 100, 1_500,
           help="of wood: what 5 % of the pieces lie below, as in EN 338 for its class"),
    number("thermal_per_c", "Thermal expansion", "1/°C", 1e-7, 1e-3),
    number("friction", "Friction", "", 0.01, 2),
    number("bearing_n_mm2", "Bearing strength", "N/mm²", 0.01, 1_000, help="of wood: across the grain"),
    line("source", "Source", required=True, help="test, data sheet or adviser, with its date"),
))

COST = Kind("cost", "Cost", "Costs", "money spent or expected, against the site's budget", "site", (
    link("site", "Site", "site", required=True),
    link("fitting", "Fitting", "fitting"),
    line("what", "What for", required=True),
    choice("sort", "Sort", "material", "hire", "labour", "travel", "fee", "other", required=True),
    number("amount", "Amount", "", -1e8, 1e8, required=True),
    line("currency", "Currency", required=True, help="three letters of ISO 4217"),
    choice("state", "State", "expected", "paid", required=True),
    Field("on", "On", Type.DATE),
    line("receipt", "Receipt"),
))
# fmt: on

KINDS: Mapping[str, Kind] = {
    kind.name: kind
    for kind in (
        SITE,
        ROOM,
        FACE,
        ZONE,
        LIMIT,
        HOLD,
        READING,
        LOG,
        OBSERVATION,
        FITTING,
        FIXING,
        FINISH,
        AGREEMENT,
        TASK,
        VISIT,
        PHOTOGRAPH,
        COST,
        MATERIAL,
    )
}


def kind_named(name: str) -> Kind:
    """The kind of this name; raises UnknownKind."""
    try:
        return KINDS[name]
    except (KeyError, TypeError):
        raise UnknownKind(
            f"“{shown(name)}” is no kind of entry.", f"The kinds are: {', '.join(KINDS)}.", field="kind", value=name
        ) from None
