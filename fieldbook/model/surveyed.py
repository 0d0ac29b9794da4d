"""The kinds of what is there: the building, what may be done in it, and what was measured and seen."""

from __future__ import annotations

from .choices import CLASSES, FIRE_CLASSES, FORBIDDEN, HAZARDS, LOOKED_FOR
from .description import Kind, choice, length, line, link, note, number, place, rows
from .fields import Field, Type

CORNER = (place("x_mm", "x", required=True), place("z_mm", "z", required=True))
BOX = tuple(place(f"{axis}_mm", axis, required=True) for axis in ("u0", "u1", "v0", "v1"))
RECTANGLE_HELP = "one corner a line (x z), or: rectangle x z width height, or: circle x z radius"

LOOKED = rows(
    "looked_for",
    "Looked for",
    choice("what", "what", *LOOKED_FOR, required=True),
    line("by", "by", required=True),
    line("how", "how", required=True),
    Field("on", "on", Type.DATE, required=True),
    group="Looked for",
    help="one a line: what; by whom; how; when. What nobody looked for is not taken for absent",
)

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
    Field("asks_about_later_work", "Keeper is asked about later work too", Type.YES_NO, group="Consent"),
    number("stands_years", "Years the display is to stand", "years", 0, 200, group="Consent"),
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
    number("uv_limit_uw_lm", "Ultraviolet limit", "µW/lm", 0, 10_000, group="Limits"),
    choice("damp", "Damp of the timber", "dry", "damp", "wet", group="Limits",
           help="service class 1, 2 or 3 of EN 1995-1-1"),
    number("floor_limit_kn_m2", "Load the floor may carry", "kN/m²", 0, 1_000, group="Limits",
           help="as stated by an engineer or by the drawings"),
    choice("fire_limit", "Reaction to fire not below", *FIRE_CLASSES, group="Limits", help="class of EN 13501-1"),
    LOOKED,
))

FACE = Kind("face", "Face", "Faces", "one surface one can stand in front of, with its own axes", "room", (
    link("room", "Room", "room", required=True),
    line("mark", "Mark", help="short: R1-N"),
    line("name", "Name", required=True),
    choice("sort", "Sort", "wall", "reveal", "column side", "ceiling", "soffit", "other", required=True),
    number("slope_deg", "Leans over by", "°", -90, 90, ordinary=(90,),
           help="0 upright, 90 overhead; only for a face of another sort or one that leans"),
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
    Field("outer_wall", "Outer wall", Type.YES_NO, group="Survey"),
    LOOKED,
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
    choice("sort", "Sort", "leaf", "route", "headroom", "flat", "keep in view", required=True,
           help="keep in view: signs, call points, detectors, extinguishers, switches that may not be hidden"),
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
    line("load_said_by", "Who stated the load", help="role, and what it rests on"),
    note("condition", "Condition"),
    line("said_by", "Who said so", help="role"),
    Field("said_on", "When", Type.DATE),
))

MEMBER = Kind("member", "Board or timber", "Boards and timbers",
              "a board, stud, joist or rail of a face that fixings may be let into", "face", (
    link("face", "Face", "face", required=True),
    line("mark", "Mark", help="short: B2"),
    choice("sort", "Sort", "board", "stud", "joist", "beam", "rail", "other", required=True),
    line("material", "Material", required=True, help="species or class, as in the materials"),
    place("x_mm", "x of its left edge", required=True),
    place("z_mm", "z of its lower edge", required=True),
    length("width_mm", "Width", required=True, low=1),
    length("height_mm", "Height", required=True, low=1),
    length("thickness_mm", "Thickness", 2_000, low=1),
    length("behind_mm", "Lies behind", 2_000, help="plaster or boarding in front of it; 0 when it is the surface"),
    choice("grain", "Grain runs", "level", "upright", "out of the face"),
    choice("age", "Age", "old", "later"),
    number("load_limit_n", "Load agreed", "N", 0, 1e6, help="for all that uses it together"),
    line("load_said_by", "Who stated the load", help="role, and what it rests on"),
    note("note", "Note"),
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

PATCH = Kind("patch", "Test patch", "Test patches", "a lining or finish laid on the fabric to see what it leaves",
    "face", (
    link("face", "Face", "face", required=True),
    line("mark", "Mark", help="short: T1"),
    line("material", "Lining or finish", required=True),
    line("laid_against", "Laid against", required=True, help="the surface, as in the layers of the face"),
    place("x_mm", "x"),
    place("z_mm", "z"),
    Field("laid_on", "Laid on", Type.DATE, required=True),
    Field("looked_on", "Looked at on", Type.DATE),
    choice("found", "Found", "no trace", "a mark that cleans off", "a mark that stays"),
    line("seen_by", "Seen by", help="role"),
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
# fmt: on
