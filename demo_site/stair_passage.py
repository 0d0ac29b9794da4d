"""Room R3, the stair passage: a narrow way out between old plaster and a later brick partition."""

from __future__ import annotations

from .booking import Values, fixings, floor, grid, rectangle

ROOM: Values = {
    "mark": "R3", "name": "Stair passage", "use": "way between hall, office and store; way out",
    "plan": [[0, 4860], [1738, 4855], [1742, 3], [0, 0]], "ceiling_mm": 2760,
    "floor": "Stone flags, level within 14 mm.", "ceiling": "Boards, painted.",
    "conditions": "Not heated; draughts from the stair.", "hazards": ["escape route", "hidden services"],
    "protected_how": "Treads taped with card; the handrail wrapped. The way out is swept each evening.",
    "hazards_words": "This is a way out: nothing may narrow it below what is agreed, nor hide the sign over the "
    "door.", "light_limit_lx": 200, "humidity_low_pct": 40, "humidity_high_pct": 92,
}  # fmt: skip

FACES: tuple[Values, ...] = (
    {"room": "R3", "mark": "R3-W", "name": "Old wall", "sort": "wall", "width_mm": 4860, "height_mm": 2772,
     "left_mm": 0, "bottom_mm": -12,
     "layers": [["limewash", 1, "old"], ["lime plaster", 25, "old"], ["rubble stone", 600, "old"]],
     "datum": "Mason’s mark on the quoin at the south end, its lowest point: x = 0, z = 1,150.", "start_x_mm": 0,
     "start_y_mm": 0, "bearing_deg": 90, "floor": floor((0, 1600, 3200, 4860), (-12, -7, -1, 2)),
     "surface": grid(
         (200, 1300, 2700, 3200, 3700, 4700),
         (150, 900, 1700, 2500, 2740),
         (
             (0, 3, 6, 7, 5, 2),
             (-3, 2, 9, 11, 8, 1),
             (-8, -2, 5, 8, 4, -4),
             (-16, -11, -4, -2, -6, -13),
             (-19, -13, -6, -4, -8, -16),
         ),
     )},
    {"room": "R3", "mark": "R3-E", "name": "Brick partition of the passage", "sort": "wall", "width_mm": 4852,
     "height_mm": 2772, "left_mm": 0, "bottom_mm": -12,
     "layers": [["distemper", 1, "later"], ["Brick in cement mortar", 103, "later"]],
     "datum": "Chipped corner of the brick beside the stair door, 900 mm above the flag: x = 0, z = 900.",
     "start_x_mm": 1738, "start_y_mm": 4855, "bearing_deg": -90.05,
     "floor": floor((0, 1600, 3200, 4852), (2, -2, -8, -12)),
     "surface": grid(
         (200, 1000, 1700, 2400, 4600),
         (200, 900, 1900, 2600),
         (
             (0, 1, 1, 0, 2),
             (1, 2, 3, 2, 1),
             (0, 2, 4, 3, 0),
             (-1, 0, 2, 1, -2),
         ),
     )},
)  # fmt: skip

ZONES: tuple[Values, ...] = (
    {"face": "R3-W", "mark": "K19", "name": "Ladder of paint layers", "outline": rectangle(2080, 1380, 330, 340),
     "forbids": ["drilling", "contact", "adhesive"], "margin_mm": 100,
     "reason": "Steps scraped to show eleven coats; the only proof of the first colour.",
     "evidence": "Made and dated by the adviser in 2022.", "said_by": "conservation adviser",
     "said_on": "2025-03-12"},
    {"face": "R3-W", "mark": "K20", "name": "Chase of the water pipe", "outline": rectangle(3980, -12, 90, 2772),
     "forbids": ["drilling", "load"], "margin_mm": 100, "safe_depth_mm": 110,
     "reason": "Copper pipe under plaster, in use.", "evidence": "Detector; it comes out above the ceiling.",
     "said_by": "keeper", "said_on": "2025-03-12"},
    {"face": "R3-E", "mark": "K21", "name": "Bond timber in the partition",
     "outline": rectangle(600, 1795, 2000, 80), "forbids": ["drilling"], "margin_mm": 8, "safe_depth_mm": 45,
     "reason": "A timber 50 mm deep in the brickwork holds the frame of the stair door; it is not to be bored.",
     "evidence": "Seen from the door’s end, 12 March 2025; depth probed at three joints.",
     "said_by": "structural engineer", "said_on": "2025-03-20"},
)  # fmt: skip

LIMITS: tuple[Values, ...] = (
    {"face": "R3-W", "mark": "L7", "name": "Way out through the passage", "sort": "route", "margin_mm": 20,
     "available_mm": 1685, "clear_width_mm": 1500, "reason": "Way out for the hall and the office.",
     "evidence": "Measured to the face of D11 on the other side; width from the fire officer’s letter.",
     "said_by": "fire safety officer"},
    {"face": "R3-W", "mark": "L8", "name": "Headroom on the old wall", "sort": "headroom", "margin_mm": 0,
     "headroom_mm": 2030, "projection_mm": 100, "reason": "Nothing sharp at head height on a way out.",
     "evidence": "Access adviser’s letter of 2 April 2025; the local code decides.", "said_by": "access adviser"},
    {"face": "R3-E", "mark": "L9", "name": "Shoulder band on the partition", "sort": "flat", "margin_mm": 5,
     "z_from_mm": 685, "z_to_mm": 2030, "projection_mm": 65, "reason": "Bags and shoulders brush along here.",
     "evidence": "Agreed on the spot, 12 March 2025.", "said_by": "keeper"},
)  # fmt: skip

HOLDS: tuple[Values, ...] = (
    {"face": "R3-W", "mark": "H13", "sort": "bolt", "x_mm": 1240, "z_mm": 980, "diameter_mm": 16, "depth_mm": 40,
     "may_be_used": "not known", "condition": "Stump of a handrail bracket; nobody has tried it.",
     "said_by": "fitter"},
)  # fmt: skip

FITTINGS: tuple[Values, ...] = (
    {"face": "R3-E", "mark": "D10", "name": "Lead channel",
     "purpose": "Covers the lead from the socket to the passage light.", "state": "fitted",
     "phase": "1, spring 2025", "x_mm": 1650, "z_mm": 300, "width_mm": 60, "height_mm": 1700,
     "build_up": [["pads and packers", 3, 1], ["ash channel", 12, 0.3]], "touches_face": 0, "mass_empty_kg": 0.8,
     "mass_loaded_kg": 1.1, "lift_reach": "close", "centre_out_mm": 8, "pull_n": 0, "climbable": 0,
     "people_to_remove": 1, "minutes_to_remove": 20,
     "removal": "After D11. Have the circuit off. Warm each pad with a hair dryer held off, roll it away from the "
     "wall.", "finishes": ["P4"], "fitted_on": "2025-05-07"},
    {"face": "R3-E", "mark": "D11", "name": "Plan of the quay", "purpose": "Large plan, to be read in passing.",
     "state": "fitted", "phase": "1, spring 2025", "x_mm": 1000, "z_mm": 830, "width_mm": 1400, "height_mm": 1020,
     "build_up": [["packers", 4, 1], ["ash battens", 20, 1], ["birch plywood", 12, 0.4], ["frame moulding", 16, 0.5]],
     "touches_face": 0, "mass_empty_kg": 15.7, "mass_loaded_kg": 15.7, "lift_reach": "close", "centre_out_mm": 30,
     "pull_n": 150, "climbable": 0, "covers": ["D10"], "people_to_remove": 2, "minutes_to_remove": 25,
     "removal": "Undo the lower row, then the upper row with the panel held. Draw the plugs and fill.",
     "care": "Damp cloth on the varnish; no solvent.", "finishes": ["P3", "P2"], "fitted_on": "2025-05-07"},
    {"face": "R3-W", "mark": "D12", "name": "Sprung notice rail",
     "purpose": "Changing notices, between two sprung poles.", "state": "planned", "phase": "2, summer 2026",
     "x_mm": 2700, "z_mm": 0, "width_mm": 1000, "height_mm": 2752,
     "build_up": [["wool felt", 3, 0.5], ["spruce pole", 40, 0.3], ["rail", 20, 0.5],
      ["notices under glazing", 12, 0.5]], "touches_face": 0, "mass_empty_kg": 8.9, "mass_loaded_kg": 9.6,
     "lift_reach": "close", "centre_out_mm": 52, "pull_n": 250, "climbable": 0, "people_to_remove": 2,
     "minutes_to_remove": 20,
     "removal": "Lift the rail off; press each pole up against its spring and swing the foot out.",
     "finishes": ["P1"]},
)  # fmt: skip

PATCHES: tuple[Values, ...] = (
    {"face": "R3-E", "mark": "T1", "material": "acrylic foam, with a paper layer that parts",
     "laid_against": "distemper", "x_mm": 4700, "z_mm": 300, "laid_on": "2025-03-13", "looked_on": "2026-03-16",
     "found": "a mark that cleans off", "seen_by": "fitter"},
)  # fmt: skip

_FITTED: Values = {
    "state": "fitted", "fitted_on": "2025-05-07", "fitted_by": "fitter",
}  # fmt: skip
_PAD: Values = {
    "stated_load_n": 25, "stated_by": "maker", "stated_source": "data sheet of the pad",
    "stated_on": "2025-04-01", "sort": "adhesive pad", "size": "pad 30 × 30", "contact_radius_mm": 22,
    "material": "acrylic foam, with a paper layer that parts", "hole": "none", "penetration_mm": 0,
    "fabric": "later work", "into": "distemper on brick", "adhesive": 1, "carries_load": 1, "packers_mm": 2,
    "removal_tool": "hair dryer, palette knife of bone", "removal": "Warm, roll away; never pull outwards.",
    "make_good": "Damp sponge, then distemper P4.", "trace": "a mark that cleans off",
} | _FITTED  # fmt: skip
_BRICK_SCREW: Values = {
    "stated_load_n": 600, "stated_by": "maker", "stated_source": "data sheet of the plug, in brick",
    "stated_on": "2025-04-01", "sort": "machine screw", "size": "M6 × 60", "diameter_mm": 8, "length_mm": 60,
    "material": "stainless steel A2, in an expanding brass plug of 8 mm", "contact_radius_mm": 10, "hole": "new",
    "penetration_mm": 35, "fabric": "later work", "into": "brick, 103 mm", "adhesive": 0, "carries_load": 1,
    "packers_mm": 3, "removal_tool": "hexagon key, 5 mm", "removal": "Unscrew, draw the plug with its own screw.",
    "make_good": "Fill with brick dust in lime putty, then distemper P4.", "trace": "a new hole in later work",
} | _FITTED  # fmt: skip
_POLE: Values = {
    "jaw_mm2": 2827, "bears_on": "Lime plaster", "sort": "prop", "state": "planned", "size": "pad of 60",
    "contact_radius_mm": 30,
    "material": "spruce, with a steel spring inside", "hole": "none", "penetration_mm": 0, "fabric": "old fabric",
    "adhesive": 0, "carries_load": 0, "lining": "wool felt 3 mm", "packers_mm": 0, "locking": "spring, 200 N",
    "removal_tool": "by hand", "removal": "Press up, swing out.", "make_good": "Brush.", "trace": "none",
}  # fmt: skip

FIXINGS: tuple[Values, ...] = (
    *fixings(
        "D10",
        "R3-E",
        _PAD,
        (1, 1680, 340, 1681, 341),
        (2, 1680, 570, 1680, 572),
        (3, 1680, 800, 1679, 800),
        (4, 1680, 1030, 1682, 1029),
        (5, 1680, 1260, 1680, 1262),
        (6, 1680, 1490, 1681, 1490),
        (7, 1680, 1720, 1678, 1719),
        (8, 1680, 1960, 1680, 1958),
    ),
    *fixings(
        "D11",
        "R3-E",
        _BRICK_SCREW,
        (1, 1040, 1835, 1042, 1834),
        (2, 1480, 1835, 1479, 1836),
        (
            3,
            1920,
            1835,
            1923,
            1833,
            {"penetration_mm": None, "note": "Depth not written down on the day; draw it and measure."},
        ),
        (4, 2360, 1835, 2358, 1835),
        (5, 1040, 940, 1041, 942),
        (6, 1480, 940, 1482, 940),
        (7, 1920, 940, 1919, 938),
        (8, 2360, 940, 2361, 941),
    ),
    *fixings(
        "D12",
        "R3-W",
        _POLE,
        (1, 2740, 30, {"into": "flags"}),
        (2, 3660, 30, {"into": "flags"}),
        (3, 2740, 2720, {"into": "ceiling boards, under a joist"}),
        (4, 3660, 2720, {"into": "ceiling boards, under a joist"}),
        (5, 2740, 1250, {"into": "lime plaster", "size": "pad of 40", "contact_radius_mm": 20}),
        (6, 3660, 1250, {"into": "lime plaster", "size": "pad of 40", "contact_radius_mm": 20}),
    ),
)
