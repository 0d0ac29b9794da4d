"""Room R4, the bonded store: rubble and old brick, an iron gate, cold and damp."""

from __future__ import annotations

from .booking import Values, fixings, floor, grid, rectangle

ROOM: Values = {
    "mark": "R4", "name": "Bonded store", "use": "display of casks and gauging tools; shown by the keeper only",
    "plan": [[0, 4180], [6050, 4180], [6056, -4], [0, 0]], "ceiling_mm": 2640,
    "floor": "Stone flags on sand, falling to a drain.",
    "ceiling": "Boards on oak beams, low: 2,310 mm under the beams.",
    "conditions": "Never heated. Cold and damp all year; surfaces sweat in spring.",
    "hazards": ["overhead work", "dust", "hidden services"],
    "protected_how": "Flags bare: mats under ladders and poles.",
    "hazards_words": "Beams at 2,310 mm. The gate is heavy and swings shut by itself.", "light_limit_lx": 300,
    "humidity_low_pct": 60, "humidity_high_pct": 98,
}  # fmt: skip

FACES: tuple[Values, ...] = (
    {"room": "R4", "mark": "R4-N", "name": "North wall, bare stone", "sort": "wall", "width_mm": 6050,
     "height_mm": 2675, "left_mm": 0, "bottom_mm": -35, "layers": [["rubble stone in lime mortar", 680, "old"]],
     "datum": "Lead plug in the third joint above the flag, 1,220 mm from the corner: x = 1,220, z = 626.",
     "start_x_mm": 0, "start_y_mm": 4180, "bearing_deg": 0,
     "floor": floor((0, 1500, 3000, 4500, 6050), (-2, -12, -24, -35, -28)),
     "surface": grid(
         (300, 1200, 2100, 3000, 4300, 5700),
         (200, 800, 1400, 2200),
         (
             (8, 5, 3, 0, 2, 6),
             (2, -1, -3, -6, 4, 1),
             (-4, -8, -9, -12, 11, -5),
             (-14, -18, -21, -19, -8, -15),
         ),
     )},
    {"room": "R4", "mark": "R4-E", "name": "East wall with the gate", "sort": "wall", "width_mm": 4180,
     "height_mm": 2670, "left_mm": 0, "bottom_mm": -30,
     "layers": [["old brick in lime mortar", 340, "old"], ["rubble stone", 300, "old"]],
     "datum": "Upper pintle of the gate, its middle: x = 2,520, z = 1,930.", "start_x_mm": 6050, "start_y_mm": 4180,
     "bearing_deg": -89.92, "floor": floor((0, 1400, 2800, 4180), (-28, -25, -20, -12))},
    {"room": "R4", "mark": "R4-R", "name": "Reveal of the store window, left side", "sort": "reveal",
     "width_mm": 560, "height_mm": 1100, "left_mm": 0, "bottom_mm": 900,
     "layers": [["limewash", 1, "old"], ["dressed stone", 180, "old"]],
     "datum": "Inner arris of the reveal at the sill: x = 0, z = 900.", "start_x_mm": 4400, "start_y_mm": 4180,
     "bearing_deg": 90},
)  # fmt: skip

ZONES: tuple[Values, ...] = (
    {"face": "R4-N", "mark": "K22", "name": "Salts and damp along the floor",
     "outline": rectangle(0, -35, 6050, 445), "forbids": ["drilling", "contact", "adhesive", "load"],
     "margin_mm": 100, "reason": "Damp rises to 400 mm; the mortar is soft to the finger.",
     "evidence": "Damp meter, four lines, 13 March 2025.", "said_by": "conservation adviser",
     "said_on": "2025-03-13"},
    {"face": "R4-N", "mark": "K23", "name": "Loose stones",
     "outline": [[3880, 1240], [4520, 1180], [4760, 1650], [4610, 2150], [3990, 2120]],
     "forbids": ["drilling", "contact", "load"], "margin_mm": 150,
     "reason": "Bulge of 11 mm; two stones move by hand.", "evidence": "Straight edge and hand, 13 March 2025.",
     "said_by": "structural engineer", "said_on": "2025-03-20"},
    {"face": "R4-E", "mark": "K24", "name": "Pintle stones of the gate", "outline": rectangle(2440, 280, 230, 1840),
     "forbids": ["drilling", "load"], "margin_mm": 80, "reason": "The gate hangs on these; the lead is loose.",
     "evidence": "Seen; the gate drops 6 mm as it opens.", "said_by": "structural engineer", "said_on": "2025-03-20"},
    {"face": "R4-R", "mark": "K25", "name": "Cut cask marks", "outline": rectangle(90, 1120, 360, 420),
     "forbids": ["drilling", "contact", "adhesive", "load"], "margin_mm": 60,
     "reason": "Marks of the gaugers, cut into the stone.", "evidence": "Seen and drawn, 13 March 2025.",
     "said_by": "keeper", "said_on": "2025-03-13"},
)  # fmt: skip

LIMITS: tuple[Values, ...] = (
    {"face": "R4-E", "mark": "L10", "name": "Iron gate", "sort": "leaf", "leaf": "gate", "margin_mm": 30,
     "z_from_mm": 20, "z_to_mm": 2080, "hinge_x_mm": 2520, "hinge_y_mm": 30, "swing_from_deg": 180,
     "swing_to_deg": 25, "boxes": [[0, 980, -16, 16], [900, 960, -55, 55]],
     "reason": "Opened for every group; its lock box strikes first.",
     "evidence": "Measured at its chain, 13 March 2025.", "said_by": "keeper"},
)  # fmt: skip

HOLDS: tuple[Values, ...] = (
    {"face": "R4-N", "mark": "H14", "sort": "hole", "x_mm": 1500, "z_mm": 1420, "diameter_mm": 18, "depth_mm": 110,
     "may_be_used": "yes", "load_limit_n": 300, "condition": "Old peg hole in a joint, sound.",
     "said_by": "conservation adviser"},
    {"face": "R4-N", "mark": "H15", "sort": "hole", "x_mm": 2334, "z_mm": 1499, "diameter_mm": 18, "depth_mm": 95,
     "may_be_used": "yes", "load_limit_n": 300, "condition": "Old peg hole in a joint, sound.",
     "said_by": "conservation adviser"},
    {"face": "R4-E", "mark": "H16", "sort": "flange", "x_mm": 3420, "z_mm": 1980, "diameter_mm": 90,
     "may_be_used": "not known", "condition": "Iron plate of a tie; what it holds is not known.",
     "said_by": "fitter"},
)  # fmt: skip

FITTINGS: tuple[Values, ...] = (
    {"face": "R4-N", "mark": "D13", "name": "Shelf for gauging tools",
     "purpose": "Trial for the winter, to see whether iron keeps in this air.", "state": "taken down",
     "phase": "trial, 2025", "x_mm": 1480, "z_mm": 1080, "width_mm": 920, "height_mm": 450,
     "build_up": [["cork", 5, 1], ["oak back", 22, 0.5], ["shelf", 160, 1]], "touches_face": 0, "mass_empty_kg": 7.4,
     "mass_loaded_kg": 12.6, "centre_out_mm": 96, "pull_n": 150, "climbable": 0, "people_to_remove": 1,
     "minutes_to_remove": 30, "removal": "Tools off, lower bolts, wedges, upper pegs.", "finishes": ["P2"],
     "fitted_on": "2025-05-07", "taken_down_on": "2026-02-10",
     "note": "Taken down: the tools rusted within the year."},
    {"face": "R4-E", "mark": "D14", "name": "Panel on duties", "purpose": "What was charged on what.",
     "state": "planned", "phase": "2, summer 2026", "x_mm": 2760, "z_mm": 1100, "width_mm": 700, "height_mm": 760,
     "touches_face": 0, "mass_empty_kg": 6.1, "mass_loaded_kg": 6.1, "centre_out_mm": 30, "lift_reach": "close",
     "pull_n": 150,
     "climbable": 0, "people_to_remove": 1, "minutes_to_remove": 15, "finishes": ["P3"],
     "note": "Build-up waits for the keeper’s choice between plywood and slate."},
)  # fmt: skip

_TAKEN_DOWN: Values = {
    "state": "taken down", "fitted_on": "2025-05-07", "fitted_by": "fitter", "taken_down_on": "2026-02-10",
}  # fmt: skip
_PEG: Values = {
    "sort": "bolt", "size": "M10 × 120", "diameter_mm": 10, "length_mm": 120, "material": "stainless steel A4",
    "contact_radius_mm": 20, "hole": "existing", "penetration_mm": 85, "fabric": "old fabric",
    "into": "old peg hole in the lime joint, with an oak plug", "adhesive": 0, "carries_load": 1,
    "lining": "cork 5 mm", "packers_mm": 5, "torque_nm": 4, "locking": "second nut",
    "removal_tool": "spanner, 17 mm", "removal": "Unscrew, draw the plug.", "make_good": "Left open, as found.",
    "trace": "an old hole used again",
} | _TAKEN_DOWN  # fmt: skip
_JOINT_BOLT: Values = _PEG | {
    "sort": "coach screw", "size": "M8 × 80", "diameter_mm": 8, "length_mm": 80, "hole": "new", "penetration_mm": 55,
    "into": "lime joint, with an oak plug of 12 mm", "torque_nm": 3, "locking": None,
    "removal_tool": "spanner, 13 mm", "make_good": "Point the joint 15 mm deep in lime putty and sand.",
    "note": "Pointed on 10 February 2026.", "trace": "a new hole in old fabric",
}  # fmt: skip
_WEDGE: Values = _PEG | {
    "sort": "wedge", "size": "60 × 40", "diameter_mm": None, "length_mm": None, "material": "oak",
    "contact_radius_mm": 36, "hole": "none", "penetration_mm": 0, "into": "between shelf back and stone",
    "carries_load": 0, "torque_nm": None, "removal_tool": "mallet", "removal": "Tap out sideways.",
    "make_good": "Brushed.", "trace": "none",
}  # fmt: skip
_PANEL_HOOK: Values = {
    "sort": "clamp", "state": "planned", "size": "jaw 40 × 40, M6", "diameter_mm": 6, "length_mm": 60,
    "material": "zinc-plated steel", "contact_radius_mm": 28, "hole": "none", "penetration_mm": 0,
    "fabric": "old fabric", "into": "raked bed joint of old brick", "adhesive": 0, "carries_load": 1,
    "lining": "polyethylene foam 5 mm", "torque_nm": 0.6, "looked_at_on": "2027-04-01", "grade": "4.6",
    "nut_factor": 0.2, "bolts": 1,
    "friction_faces": 1, "friction": 0.4, "jaw_mm2": 1600, "bears_on": "Old brick of the store",
    "locking": "second nut", "removal_tool": "spanner, 10 mm", "removal": "Slacken, turn the jaw, draw it out.",
    "trace": "none",
}  # fmt: skip

FIXINGS: tuple[Values, ...] = (
    *fixings(
        "D13",
        "R4-N",
        _PEG,
        (1, 1500, 1420, 1500, 1420, {"hold": "H14"}),
        (2, 2334, 1499, 2334, 1499, {"hold": "H15"}),
        (3, 1602, 1136, 1605, 1134, _JOINT_BOLT),
        (4, 2282, 1164, 2280, 1166, _JOINT_BOLT),
        (5, 1520, 1120, 1521, 1120, _WEDGE),
        (6, 2360, 1120, 2359, 1122, _WEDGE),
    ),
    *fixings(
        "D14",
        "R4-E",
        _PANEL_HOOK,
        (1, 2830, 1800),
        (2, 3110, 1800),
        (3, 3390, 1800),
        (4, 2830, 1150),
        (5, 3110, 1150),
        (6, 3390, 1150),
    ),
)
