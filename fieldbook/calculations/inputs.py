"""What each calculation asks for: its keys as the fields of a form, and an example that can be reckoned.

A table, so that a form, its refusals and the JSON of `fieldbook calc` say the same.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ..checks import (
    cutting,
    lifting,
    lifting_equation,
    light,
    logger_clock,
    materials,
    movement,
    packers,
    preload,
    trace,
)
from ..checks.withdrawal import CONNECTORS
from ..model.description import choice, line, note, rows
from ..model.fields import Field, Type
from .asking import Question, column, listed, mm, number, whole

X, Y, Z = column("x", "x"), column("y", "y"), column("z", "z")
NEEDED: Mapping[str, Any] = {"required": True}
A_CORNER = "one corner a line: x z"
IN_ORDER = "from the lower left, anticlockwise"

# fmt: off
_ALL = (
    Question("air", (
        number("temperature_c", "Air temperature", "°C", **NEEDED),
        number("humidity_pct", "Relative humidity", "%", **NEEDED),
        number("surface_c", "Surface temperature", "°C", help="of a wall or pane, to see whether it stays dry"),
    ), {"temperature_c": 18, "humidity_pct": 65, "surface_c": 13}),
    Question("clamp", (
        number("preload_n", "Tension of one bolt", "N", help="from “preload”", **NEEDED),
        whole("bolts", "Bolts", **NEEDED),
        whole("faces", "Faces that grip", **NEEDED),
        number("friction", "Friction", help="the low end, between lining and fabric", **NEEDED),
        number("jaw_mm2", "Area under the jaw", "mm²"),
        number("load_n", "Force along the jaw", "N", help="what it has to hold"),
        number("bearing_n_mm2", "Bearing strength of the fabric", "N/mm²"),
    ), {"preload_n": 800, "bolts": 1, "faces": 2, "friction": 0.4, "jaw_mm2": 1200, "load_n": 150,
        "bearing_n_mm2": 2}),
    Question("clearance", (
        rows("leaf.hinge_mm", "Hinge", X, Y, help="x y; y out of the face, negative behind it", **NEEDED),
        number("leaf.from_deg", "Swings from", "°", help="0° lies along +x, 90° points into the room", **NEEDED),
        number("leaf.to_deg", "Swings to", "°", **NEEDED),
        rows("leaf.boxes_mm", "Boxes of leaf and handle", *(column(name, name) for name in ("u0", "u1", "v0", "v1")),
             help="one box a line: u0 u1 v0 v1; u along the leaf from the hinge, v at 90° anticlockwise from u",
             **NEEDED),
        mm("margin_mm", "Margin"),
        listed("x_mm", "Places along the face", "mm", help="x of each, one a line", **NEEDED),
    ), {"leaf": {"hinge_mm": [1000, 12], "from_deg": 0, "to_deg": 160, "boxes_mm": [[0, 800, -50, -10]]},
        "margin_mm": 20, "x_mm": [100, 400, 700]}, frozenset({"leaf.hinge_mm"})),
    Question("colour-difference", tuple(
        rows(name, label, *(column(axis, axis, "") for axis in ("L*", "a*", "b*")), help="L* a* b*", **NEEDED)
        for name, label in (("lab1", "First colour"), ("lab2", "Second colour"))
    ), {"lab1": [62, 4, 18], "lab2": [60.5, 5, 20]}, frozenset({"lab1", "lab2"})),
    Question("fit-panel", (
        mm("gap_mm", "Gap all round", **NEEDED),
        rows("sides_mm", "Sides by tape", *(column(name, name) for name in ("bottom", "right", "top", "left")),
             help="bottom right top left", group="Measured by tape"),
        rows("diagonals_mm", "Diagonals by tape", column("rising", "from lower left"), column("falling", "the other"),
             help="from lower left, then the other", group="Measured by tape"),
        rows("corners_mm", "Corners", X, Z, help=f"{A_CORNER}; four, {IN_ORDER}", group="Or by its corners"),
    ), {"sides_mm": [900, 1403, 896, 1400], "diagonals_mm": [1667, 1661], "gap_mm": 3},
        frozenset({"sides_mm", "diagonals_mm"})),
    Question("fixing-group", (
        rows("fixings_mm", "Fixings", X, Z, help="one fixing a line: x z", **NEEDED),
        rows("load_n", "Load", column("fx", "Fx", "N"), column("fz", "Fz", "N"),
             help="to the right, upwards: a weight of 100 N is 0 -100", **NEEDED),
        rows("at_mm", "Where it acts", X, Z, help="x z of the middle of the mass", **NEEDED),
        mm("standoff_mm", "How far out it acts", help="of the face", **NEEDED),
        number("pull_n", "Pull by people", "N", help="straight out"),
        rows("plate_mm", "What bears on the face",
             *(column(name, name) for name in ("left", "bottom", "right", "top")), help="left bottom right top"),
        listed("areas", "How large each fixing is", "", help="against the others, one a line in the order above"),
        number("allowed_n", "Allowed on one fixing", "N"),
    ), {"fixings_mm": [[0, 0], [600, 0], [0, 900], [600, 900]], "load_n": [0, -180], "at_mm": [300, 450],
        "standoff_mm": 60, "pull_n": 200, "allowed_n": 250},
        frozenset({"load_n", "at_mm", "plate_mm"})),
    Question("humidity-band", (
        note("csv", "The logger’s file as text", help="or choose the file itself", **NEEDED),
        line("columns.time", "Heading of the time", **NEEDED),
        line("columns.humidity", "Heading of the relative humidity", **NEEDED),
        line("columns.date", "Heading of the date", help="only where date and time stand apart"),
        line("columns.temperature", "Heading of the temperature"),
        choice("date_order", "Order of a date", *logger_clock.DATE_ORDERS, help="only where the file leaves it open"),
        number("temperature_c", "Usual temperature", "°C", help="for days the logger has none"),
    ), {"csv": "when;RH %\n2025-01-01 00:00;61,5\n2025-01-01 01:00;62\n2025-01-01 02:00;60,5",
        "columns": {"time": "when", "humidity": "RH %"}, "temperature_c": 12}),
    Question("keep-off", (
        Field("zone_mm", "Zone", Type.OUTLINE, unit="mm", columns=(X, Z),
              help=f"{A_CORNER}, or: rectangle x z width height, or: circle x z radius", **NEEDED),
        mm("margin_mm", "Margin"),
        rows("point_mm", "Middle of what touches", X, Z, help="x z", **NEEDED),
        mm("radius_mm", "Its radius", help="to its far corner"),
    ), {"zone_mm": [[500, 1500], [1100, 1500], [1100, 1900], [500, 1900]], "margin_mm": 50,
        "point_mm": [1180, 1600], "radius_mm": 20}, frozenset({"point_mm"})),
    Question("level", (
        rows("readings", "Readings", Field("setup", "set-up", Type.WHOLE, required=True),
             line("point", "point", required=True), column("reading_mm", "reading"),
             help="one a line: number of the set-up; point; reading mm. More reading is a lower floor", **NEEDED),
        mm("line_mm", "Level line", help="how far above the floor at the first point"),
        number("distance_m", "Distance out", "m", help="half the round, to judge how it closes"),
        number("tolerance_mm_per_m", "Instrument ±", "mm/m"),
    ), {"readings": [{"setup": 1, "point": "A", "reading_mm": 1320}, {"setup": 1, "point": "B", "reading_mm": 1355},
        {"setup": 2, "point": "B", "reading_mm": 1290}, {"setup": 2, "point": "A", "reading_mm": 1256}],
        "line_mm": 1400, "distance_m": 5, "tolerance_mm_per_m": 0.3}),
    Question("lifting", (
        number("mass_kg", "Mass", "kg", **NEEDED),
        choice("zone", "Where the hands are", *lifting.ZONES, help="or give their heights"),
        rows("hands_mm", "Hands above the floor", column("from", "at the start"), column("to", "at the end"),
             help="at the start, at the end"),
        choice("reach", "Reach", *lifting.REACHES, help="close to the body, or at arm’s length", **NEEDED),
        choice("lifters", "Figures for", *lifting.LIFTERS, help="women where it is not known who lifts", **NEEDED),
        number("lifts_per_minute", "Lifts a minute", help="empty: now and then"),
        number("twist_deg", "Twist of the trunk", "°"),
        whole("team", "People who lift"),
        number("equation.horizontal_cm", "Hands from the ankles", "cm", group="By the lifting equation as well"),
        number("equation.vertical_cm", "Hands above the floor at the start", "cm",
               group="By the lifting equation as well"),
        number("equation.distance_cm", "Travel up or down", "cm", group="By the lifting equation as well"),
        number("equation.asymmetry_deg", "Turned from straight ahead", "°", group="By the lifting equation as well"),
        number("equation.frequency_multiplier", "Frequency multiplier", help="from its table; 1 for a single lift",
               group="By the lifting equation as well"),
        choice("equation.coupling", "Grip", *lifting_equation.COUPLINGS, group="By the lifting equation as well"),
    ), {"mass_kg": 18, "hands_mm": [700, 1500], "reach": "close", "lifters": "women", "team": 2},
        frozenset({"hands_mm"})),
    Question("light", (
        number("lux", "Illuminance", "lx", **NEEDED),
        number("hours_per_year", "Hours of light in a year", "h", **NEEDED),
        choice("category", "Sensitivity to light", *light.CATEGORIES, help="by the categories of CIE 157", **NEEDED),
        whole("blue_wool", "Blue wool grade", help="of the finish, 1 to 8"),
        Field("uv_filtered", "Ultraviolet filtered out", Type.YES_NO, help="only with a blue wool grade"),
    ), {"lux": 90, "hours_per_year": 2400, "category": "medium", "blue_wool": 4, "uv_filtered": True}),
    Question("moisture", (
        number("temperature_c", "Air temperature", "°C", **NEEDED),
        number("humidity_pct", "Relative humidity", "%"),
        number("moisture_content_pct", "Moisture content", "%", help="in place of the humidity, to go the other way"),
    ), {"temperature_c": 12, "humidity_pct": 70}),
    Question("movement", (
        line("species", "Species", group="Wood"),
        choice("direction", "Across the grain", *movement.DIRECTIONS, help="flat-sawn or quarter-sawn", group="Wood"),
        mm("width_mm", "Width", group="Wood"),
        line("sheet", "Sheet goods", group="Or a sheet"),
        line("material", "Metal, plastic or glass", group="Or what does not take up water"),
        mm("length_mm", "Length", help="of a sheet, metal, plastic or glass", group="Or what does not take up water"),
        number("from_pct", "Moisture content from", "%", help="of wood or a sheet", group="Between what"),
        number("to_pct", "to", "%", group="Between what"),
        number("from_c", "Temperature from", "°C", help="of metal, plastic or glass", group="Between what"),
        number("to_c", "to", "°C", group="Between what"),
        mm("allowance_mm", "Gap or slot allows", group="Between what"),
        rows("own_rows", "Materials of your own", line("material", "material", required=True),
             choice("group", "group", *materials.GROUPS, required=True),
             *(number(name, name, unit) for name, (unit, _, _) in materials.PROPERTIES.items()),
             line("source", "source", required=True), group="A material that is not in the table",
             help=f"one a line: material; group; {'; '.join(materials.PROPERTIES)}; source"),
    ), {"species": "white oak", "direction": "tangential", "width_mm": 300, "from_pct": 8, "to_pct": 13,
        "allowance_mm": 4}),
    Question("packers", (
        rows("points_mm", "Fixings", X, Z, column("proud", "proud"),
             help="one fixing a line: x z proud; proud is how far the wall stands out there", **NEEDED),
        choice("plane", "The work is to be", *packers.PLANES, help="plumb: upright; free: it may lean", **NEEDED),
        listed("stock_mm", "Thicknesses in the box", "mm"),
        mm("least_mm", "Thinnest packer wanted"),
    ), {"points_mm": [[0, 0, 4.5], [300, 0, 1], [600, 0, 0]], "plane": "plumb", "stock_mm": [0.5, 1, 2]}),
    Question("preload", (
        number("torque_nm", "Tightening torque", "N m", **NEEDED),
        mm("diameter_mm", "Diameter", **NEEDED),
        number("nut_factor", "Nut factor", help="torque = factor × tension × diameter; 0.2 dry steel", **NEEDED),
        choice("grade", "Property class", *preload.GRADES, help="ISO 898-1"),
    ), {"torque_nm": 5, "diameter_mm": 8, "nut_factor": 0.2, "grade": "4.6"}),
    Question("projection", (
        rows("layers", "Layers", line("name", "layer", required=True), column("thickness_mm", "thickness"),
             column("tolerance_mm", "tolerance ±"),
             help="from the face outwards, one a line: layer; thickness mm; tolerance mm", **NEEDED),
        listed("packers_mm", "Packers behind it", "mm", help="one a line; the thickest counts"),
        mm("clear_mm", "Clear depth there"),
    ), {"layers": [{"name": "rail", "thickness_mm": 22, "tolerance_mm": 0.5},
        {"name": "panel", "thickness_mm": 12, "tolerance_mm": 0.4}], "packers_mm": [3, 5], "clear_mm": 60}),
    Question("removal", (
        rows("items", "Things to take down", line("name", "name", required=True), line("hangs_on", "hangs on"),
             line("covers", "covers"), line("tools", "tools"), Field("people", "people", Type.WHOLE),
             number("minutes", "minutes", "min"),
             help="one a line: name; hangs on; covers; tools; people; minutes. Several in a cell: with commas"),
    ), {"items": [{"name": "rail", "tools": ["spanner 10 mm"], "people": 2, "minutes": 30},
        {"name": "panel", "hangs_on": ["rail"], "people": 1, "minutes": 10}]}),
    Question("trace", (
        rows("fixings", "Fixings", line("name", "name", required=True),
             choice("trace", "trace", *trace.TRACES, required=True), line("fabric", "fabric", required=True),
             line("consent", "consent"), help="one a line: name; trace; fabric; reference of the consent"),
    ), {"fixings": [{"name": "D1.1", "trace": "a mark that cleans off", "fabric": "old fabric", "consent": "A1"},
        {"name": "D1.2", "trace": "none", "fabric": "later work"}]}),
    Question("withdrawal", (
        choice("connector", "Connector", *CONNECTORS, **NEEDED),
        number("specific_gravity", "Specific gravity of the wood", help="as 0.48; see the materials", **NEEDED),
        mm("diameter_mm", "Diameter", **NEEDED),
        mm("penetration_mm", "Penetration", help="of the thread, or of the nail", **NEEDED),
        number("tension_n", "Pull on it", "N"),
    ), {"connector": "wood screw", "specific_gravity": 0.4, "diameter_mm": 4.5, "penetration_mm": 21,
        "tension_n": 60}),
    Question("yield", (
        rows("parts", "Parts to cut", line("name", "part", required=True), column("length_mm", "length"),
             mm("width_mm", "width"), Field("count", "count", Type.WHOLE),
             choice("grain", "grain", *cutting.GRAINS),
             help="one a line: part; length mm; width mm (empty for lengths); count; along, across or any", **NEEDED),
        mm("stock.length_mm", "Stock length", **NEEDED),
        mm("stock.width_mm", "Stock width", help="empty for lengths"),
        mm("stock.kerf_mm", "Kerf", **NEEDED),
        mm("stock.trim_mm", "Edges to trim off"),
    ), {"parts": [{"name": "shelf", "length_mm": 900, "width_mm": 300, "count": 4, "grain": "along"},
        {"name": "upright", "length_mm": 1800, "width_mm": 300, "count": 2, "grain": "along"}],
        "stock": {"length_mm": 2440, "width_mm": 1220, "kerf_mm": 3}}),
)
# fmt: on

QUESTIONS: Mapping[str, Question] = {question.name: question for question in _ALL}

# Keys that a person has no need of, with what serves instead.
LEFT_TO_PROGRAMS: Mapping[str, Mapping[str, str]] = {
    "humidity-band": {"rows": "csv holds the same as text"},
    "movement": {"own_rows.also_called": "one name will do", "own_rows.status": "they are marked as your own"},
}
