"""What is put up in the weighing hall: a hanging frame with its panels, a case, a sign, a tally board."""

from __future__ import annotations

from .booking import Values, fixings

FITTINGS: tuple[Values, ...] = (
    {"face": "R1-N", "mark": "D1", "name": "Hanging frame",
     "purpose": "Carries the panels of the north wall without a hole in the stone.", "state": "fitted",
     "phase": "1, spring 2025", "x_mm": 6010, "z_mm": -10, "width_mm": 2680, "height_mm": 2090,
     "build_up": [["wool felt pad", 4, 1], ["cork packers", 12, 4], ["ash upright", 45, 0.5]], "touches_face": 0,
     "mass_empty_kg": 34.5, "mass_loaded_kg": 51.5, "centre_out_mm": 40, "pull_n": 250, "climbable": 0,
     "people_to_remove": 2, "minutes_to_remove": 40,
     "removal": "Take D2 and D3 off first. Slacken the four clamps on the capping, one person holding the frame; "
     "tip the head out, lift off its feet and lay it down.",
     "care": "Look at the clamps' linings each spring; a dry cloth only.", "finishes": ["P1"],
     "fitted_on": "2025-05-06",
     "note": "Stands on the floor and leans on four lined clamps and two pads; it hangs from nothing."},
    {"face": "R1-N", "mark": "D2", "name": "Panel, the weighing of goods",
     "purpose": "Text and drawing of the great beam.", "state": "fitted", "phase": "1, spring 2025", "x_mm": 6110,
     "z_mm": 1230, "width_mm": 1150, "height_mm": 780,
     "build_up": [["pads and packers behind D1", 16, 5], ["ash upright of D1", 45, 0.5], ["hanging strip", 9, 0.3],
      ["birch plywood", 12, 0.4], ["frame moulding", 10, 0.5]], "touches_face": 0, "mass_empty_kg": 9.4,
     "mass_loaded_kg": 9.4, "centre_out_mm": 78, "pull_n": 100, "climbable": 0, "hangs_on": "D1",
     "people_to_remove": 2, "minutes_to_remove": 10,
     "removal": "Undo the three lower screws, then the upper ones with the panel held; lift straight off.",
     "finishes": ["P1", "P3"], "fitted_on": "2025-05-06"},
    {"face": "R1-N", "mark": "D3", "name": "Panel, the landing of goods", "purpose": "Text and map of the quay.",
     "state": "planned", "phase": "2, summer 2026", "x_mm": 7440, "z_mm": 1230, "width_mm": 900, "height_mm": 780,
     "build_up": [["pads and packers behind D1", 16, 5], ["ash upright of D1", 45, 0.5], ["hanging strip", 9, 0.3],
      ["birch plywood", 12, 0.4]], "touches_face": 0, "mass_empty_kg": 7.6, "mass_loaded_kg": 7.6,
     "centre_out_mm": 76, "pull_n": 100, "climbable": 0, "hangs_on": "D1", "people_to_remove": 2,
     "minutes_to_remove": 10, "finishes": ["P1", "P3"]},
    {"face": "R1-S", "mark": "D4", "name": "Case for seals and weights", "purpose": "Small objects behind glass.",
     "state": "fitted", "phase": "1, spring 2025", "x_mm": 3300, "z_mm": 1050, "width_mm": 820, "height_mm": 620,
     "build_up": [["packers", 8, 3], ["plywood back", 12, 0.3], ["case with its glass", 150, 1]], "touches_face": 0,
     "mass_empty_kg": 15.8, "mass_loaded_kg": 19.2, "centre_out_mm": 92, "pull_n": 250, "climbable": 1,
     "people_to_remove": 2, "minutes_to_remove": 35,
     "removal": "The keeper empties it. Open the front, undo the lower row, then the upper row with the case held. "
     "Draw the plugs and fill with brick-dust mortar.",
     "care": "Glass with a damp cloth; the lock with graphite once a year.", "finishes": ["P1", "P5"],
     "fitted_on": "2025-05-06"},
    {"face": "R1-C", "mark": "D5", "name": "Sign for the great beam",
     "purpose": "Names the beam and what it could weigh.", "state": "fitted", "phase": "1, spring 2025", "x_mm": -75,
     "z_mm": 1560, "width_mm": 150, "height_mm": 420,
     "build_up": [["leather lining", 3, 0.5], ["steel strap", 4, 0.1], ["steel plate", 3, 0.1]], "touches_face": 0,
     "mass_empty_kg": 2.1, "mass_loaded_kg": 2.1, "centre_out_mm": 8, "pull_n": 60, "climbable": 0,
     "people_to_remove": 1, "minutes_to_remove": 15,
     "removal": "Hold the sign, undo the four bolts behind the column, open the straps.", "finishes": ["P5"],
     "fitted_on": "2025-05-06"},
    {"face": "R1-E", "mark": "D6", "name": "Tally board", "purpose": "Copy of a weigher’s board, to write on.",
     "state": "planned", "phase": "2, summer 2026", "x_mm": 2180, "z_mm": 1300, "width_mm": 620, "height_mm": 900,
     "build_up": [["packers", 10, 4], ["oak batten", 25, 0.5], ["oak board", 30, 1]], "touches_face": 0,
     "mass_empty_kg": 14.6, "mass_loaded_kg": 14.6, "centre_out_mm": 48, "pull_n": 250, "climbable": 0,
     "people_to_remove": 2, "minutes_to_remove": 20, "finishes": ["P2"],
     "note": "Meets the sweep of the left quay door: either thinner by 10 mm or moved 40 mm to the left."},
)  # fmt: skip

_SCREW_TO_FRAME: Values = {
    "sort": "machine screw", "size": "M6 × 30", "diameter_mm": 6, "length_mm": 30, "material": "stainless steel A2",
    "contact_radius_mm": 9, "hole": "existing", "penetration_mm": 18, "fabric": "another fitting",
    "into": "threaded insert in the ash of D1", "other_fitting": "D1", "adhesive": 0, "carries_load": 1,
    "torque_nm": 4, "locking": "spring washer", "removal_tool": "hexagon key, 4 mm", "removal": "Unscrew.",
    "trace": "none",
}  # fmt: skip
_FITTED: Values = {
    "state": "fitted", "fitted_on": "2025-05-06", "fitted_by": "fitter",
}  # fmt: skip
_CLAMP: Values = {
    "sort": "clamp", "size": "jaw 60 × 60, M8", "diameter_mm": 8, "length_mm": 90,
    "material": "mild steel, blackened", "contact_radius_mm": 45, "hole": "none", "hold": "H5", "penetration_mm": 0,
    "fabric": "old fabric", "into": "dado capping, 30 mm", "adhesive": 0, "carries_load": 0,
    "lining": "wool felt 4 mm over cork 3 mm", "packers_mm": 0, "torque_nm": 1.5,
    "locking": "wing nut with a second nut", "removal_tool": "by hand",
    "removal": "Slacken, open the jaw, draw it off downwards.", "make_good": "Brush the capping.",
    "trace": "a mark that cleans off", "agreement": "A1",
} | _FITTED  # fmt: skip
_FOOT: Values = _CLAMP | {
    "sort": "wedge", "size": "100 × 60", "diameter_mm": None, "length_mm": None, "material": "ash",
    "contact_radius_mm": 58, "hold": None, "into": "in front of the skirting, on the flags", "carries_load": 0,
    "lining": "wool felt 4 mm", "torque_nm": None, "locking": "the frame’s own weight",
    "removal": "Draw the wedge when the frame is off.", "trace": "none",
}  # fmt: skip
_PAD: Values = _FOOT | {
    "sort": "prop", "size": "70 × 70", "contact_radius_mm": 50, "into": "limewashed rubble", "packers_mm": 20,
    "locking": "pressed by the frame’s lean", "removal": "Comes away with the frame.",
    "make_good": "Brush off felt hairs.", "trace": "a mark that cleans off",
}  # fmt: skip
_BRICK_SCREW: Values = {
    "sort": "wood screw", "size": "5.0 × 60", "diameter_mm": 8, "length_mm": 60,
    "material": "stainless steel A2, in a plug of 8 mm", "contact_radius_mm": 10, "hole": "new",
    "penetration_mm": 32, "fabric": "later work", "into": "brick, 103 mm", "adhesive": 0, "carries_load": 1,
    "packers_mm": 8, "removal_tool": "cross-head screwdriver",
    "removal": "Unscrew, draw the plug with a long screw.",
    "make_good": "Fill with brick dust in lime putty, 10 mm below the face first.",
    "trace": "a new hole in later work", "agreement": "A2",
} | _FITTED  # fmt: skip
_TALLY_BOLT: Values = {
    "sort": "bolt", "state": "planned", "size": "M8 × 110", "diameter_mm": 8, "length_mm": 110,
    "material": "stainless steel A4", "contact_radius_mm": 20, "hole": "existing", "penetration_mm": 72,
    "fabric": "old fabric", "into": "old hole in the lime joint, with a turned oak plug", "adhesive": 0,
    "carries_load": 1, "lining": "cork 3 mm under the washer", "packers_mm": 10, "torque_nm": 3,
    "locking": "nylon-ringed nut", "removal_tool": "socket, 13 mm", "removal": "Unscrew, draw the oak plug.",
    "make_good": "Leave the old hole open, as found.", "trace": "an old hole used again",
}  # fmt: skip

_TALLY_PROP: Values = _PAD | {
    "state": "planned", "size": "60 × 60", "contact_radius_mm": 43, "packers_mm": 10,
    "locking": "pressed by the board", "removal": "Comes away with the board.", "agreement": None,
    "fitted_on": None, "fitted_by": None,
}  # fmt: skip

FIXINGS: tuple[Values, ...] = (
    *fixings(
        "D1",
        "R1-N",
        _CLAMP,
        (1, 6045, 1165, 6047, 1165),
        (2, 6913, 1165, 6911, 1166),
        (3, 7782, 1165, 7785, 1164),
        (4, 8650, 1165, 8652, 1165),
        (5, 6045, 5, 6046, 5, _FOOT),
        (6, 8650, 5, 8650, 6, _FOOT),
        (7, 6045, 2020, 6049, 2018, _PAD),
        (8, 8640, 2020, 8637, 2022, _PAD),
    ),
    *fixings(
        "D2",
        "R1-N",
        _SCREW_TO_FRAME | _FITTED | {"agreement": "A1"},
        (1, 6160, 1960, 6161, 1960),
        (2, 6685, 1960, 6685, 1962),
        (3, 7210, 1960, 7208, 1961),
        (4, 6160, 1280, 6160, 1281),
        (5, 6685, 1280, 6686, 1279),
        (6, 7210, 1280, 7209, 1280),
    ),
    *fixings(
        "D3",
        "R1-N",
        _SCREW_TO_FRAME | {"state": "planned"},
        (1, 7490, 1960),
        (2, 7890, 1960),
        (3, 8290, 1960),
        (4, 7490, 1280),
        (5, 7890, 1280),
        (6, 8290, 1280),
    ),
    *fixings(
        "D4",
        "R1-S",
        _BRICK_SCREW,
        (1, 3360, 1600, 3362, 1599),
        (2, 3600, 1600, 3599, 1601),
        (3, 3840, 1600, 3843, 1598, {"size": "5.0 × 70", "length_mm": 70, "penetration_mm": 38}),
        (4, 4060, 1600, 4058, 1602),
        (5, 3360, 1110, 3361, 1112),
        (6, 3600, 1110, 3603, 1109),
        (7, 3840, 1110, 3838, 1110),
        (8, 4060, 1110, 4062, 1111),
    ),
    *fixings(
        "D5",
        "R1-C",
        _CLAMP
        | {
            "size": "strap 40 × 4, M6",
            "diameter_mm": 6,
            "length_mm": 25,
            "contact_radius_mm": 30,
            "hold": None,
            "into": "cast iron, 24 mm",
            "carries_load": 1,
            "lining": "leather 3 mm",
            "torque_nm": 4,
            "locking": "nylon-ringed nut",
            "removal_tool": "spanner, 10 mm",
            "removal": "Undo the bolt behind the column, open the strap.",
            "make_good": "Wipe the paint; leave it as it is.",
        },
        (1, -45, 1610, -44, 1611),
        (2, 45, 1610, 45, 1610),
        (3, -45, 1930, -46, 1932),
        (4, 45, 1930, 45, 1931),
    ),
    *fixings(
        "D6",
        "R1-E",
        _TALLY_BOLT,
        (1, 2240, 1472, {"hold": "H1"}),
        (2, 2738, 1474, {"hold": "H2"}),
        (3, 2244, 2066, {"hold": "H3"}),
        (4, 2741, 2062, {"hold": "H4"}),
        (5, 2240, 1750, _TALLY_PROP),
        (6, 2740, 1750, _TALLY_PROP),
    ),
)
