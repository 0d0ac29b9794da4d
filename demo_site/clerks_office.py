"""Room R2, the clerks' office: lime plaster over a boarded dado, a casement window, a chimney breast."""

from __future__ import annotations

from .booking import Values, fixings, floor, grid, rectangle

ROOM: Values = {
    "mark": "R2", "name": "Clerks’ office", "use": "reading room of the display",
    "plan": [[-6, 4402], [5210, 4388], [5196, 8], [0, 0]], "ceiling_mm": 2920,
    "floor": "Deal planks on joists; they give when walked on near the chimney breast.",
    "ceiling": "Lath and lime plaster, sound.",
    "conditions": "One electric radiator under the window keeps frost out; the air is dry in cold spells.",
    "hazards": ["old lead paint", "hidden services", "electricity"],
    "protected_how": "Dado and mantelshelf under foam board; nothing leans on either.",
    "hazards_words": "A gas pipe, not proved dead, runs behind the foot of the west dado.", "light_limit_lx": 150,
    "light_category": "low", "light_hours": 1600, "uv_filtered": 1, "humidity_low_pct": 35, "humidity_high_pct": 75,
}  # fmt: skip

FACES: tuple[Values, ...] = (
    {"room": "R2", "mark": "R2-N", "name": "Window wall", "sort": "wall", "width_mm": 5216, "height_mm": 2935,
     "left_mm": 0, "bottom_mm": -15,
     "layers": [["distemper", 1, "old"], ["lime plaster on the stone", 22, "old"], ["rubble stone", 560, "old"]],
     "datum": "Brass tack in the underside of the window board, at its left end: x = 1,900, z = 950.",
     "start_x_mm": -6, "start_y_mm": 4402, "bearing_deg": -0.15,
     "floor": floor((0, 1300, 2600, 3900, 5216), (2, -4, -9, -6, 4)),
     "surface": grid(
         (200, 900, 1600, 3600, 4300, 5000),
         (300, 1000, 1700, 2400),
         (
             (0, 2, 3, 4, 2, -1),
             (-2, 1, 4, 6, 9, 3),
             (-3, 2, 5, 7, 13, 5),
             (-6, -1, 2, 3, 6, 0),
         ),
     )},
    {"room": "R2", "mark": "R2-W", "name": "West wall with the dado", "sort": "wall", "width_mm": 4402,
     "height_mm": 2930, "left_mm": 0, "bottom_mm": -10,
     "layers": [["boards, painted", 30, "old"], ["battens and air", 30, "old"], ["rubble stone", 560, "old"]],
     "datum": "Head of the lowest nail in the third board from the left corner: x = 412, z = 205.", "start_x_mm": 0,
     "start_y_mm": 0, "bearing_deg": 90.08, "floor": floor((0, 1500, 3000, 4402), (-8, -3, 1, 3)),
     "surface": grid(
         (300, 1200, 2100, 3000, 4300),
         (300, 750, 1200, 1800, 2500),
         (
             (0, 1, 2, 1, 0),
             (0, 2, 4, 3, 1),
             (-1, 2, 5, 3, 0),
             (-14, -12, -9, -11, -15),
             (-20, -17, -13, -15, -19),
         ),
     ),
     "note": "Boarded dado to 1,250 mm; its face is the reference plane. The plaster above lies back from it."},
    {"room": "R2", "mark": "R2-S", "name": "Chimney breast", "sort": "wall", "width_mm": 1810, "height_mm": 2928,
     "left_mm": 0, "bottom_mm": -8,
     "layers": [["distemper", 1, "old"], ["lime plaster", 20, "old"], ["old brick", 225, "old"]],
     "datum": "Left arris of the breast at the upper edge of the mantelshelf: x = 0, z = 1,240.", "start_x_mm": 3505,
     "start_y_mm": 385, "bearing_deg": 180.1, "floor": floor((0, 905, 1810), (-8, -2, -5)),
     "surface": grid(
         (100, 500, 905, 1300, 1700),
         (1350, 1800, 2300, 2800),
         (
             (0, 1, 2, 3, 6),
             (-2, 0, 3, 7, 14),
             (-4, -1, 2, 6, 11),
             (-7, -4, -1, 2, 4),
         ),
     )},
)  # fmt: skip

ZONES: tuple[Values, ...] = (
    {"face": "R2-N", "mark": "K12", "name": "Stencilled border", "outline": rectangle(0, 2560, 5216, 140),
     "forbids": ["drilling", "contact", "adhesive", "heat", "light"], "margin_mm": 300,
     "reason": "Stencilled in glue-bound colour, which fades and powders.",
     "evidence": "Seen; colours compared behind the cupboard, where no light came.",
     "said_by": "conservation adviser", "said_on": "2025-03-12"},
    {"face": "R2-N", "mark": "K13", "name": "Hollow plaster beside the window",
     "outline": [[3990, 1330], [4290, 1210], [4590, 1330], [4660, 1620], [4460, 1850], [4120, 1830], [3950, 1600]],
     "forbids": ["drilling", "contact", "load"], "margin_mm": 50,
     "reason": "The plaster has parted from the stone and stands 13 mm proud.",
     "evidence": "Tapped all round, 12 March 2025; outline chalked and measured.", "said_by": "conservation adviser",
     "said_on": "2025-03-12"},
    {"face": "R2-W", "mark": "K14", "name": "Clerks’ pencilled sums", "outline": rectangle(620, 690, 760, 430),
     "forbids": ["drilling", "contact", "adhesive"], "margin_mm": 80,
     "reason": "Sums and a tide table in pencil on the paint of the dado.",
     "evidence": "Seen; photographed in raking light.", "said_by": "keeper", "said_on": "2025-03-12"},
    {"face": "R2-W", "mark": "K15", "name": "Gas pipe behind the dado", "outline": rectangle(0, 110, 4402, 80),
     "forbids": ["drilling", "load"], "margin_mm": 60,
     "reason": "Lead pipe of the old gas lighting, 5 mm behind the boards; not proved dead.",
     "evidence": "Seen through a missing knot, 12 March 2025; traced with a detector.", "said_by": "keeper",
     "said_on": "2025-03-12"},
    {"face": "R2-S", "mark": "K16", "name": "Flue", "outline": rectangle(620, 980, 570, 1940),
     "forbids": ["drilling", "heat"], "margin_mm": 80,
     "reason": "One thickness of brick to the flue; mortar is burnt out.",
     "evidence": "Looked up from the hearth; sounded.", "said_by": "structural engineer", "said_on": "2025-03-20"},
    {"face": "R2-S", "mark": "K17", "name": "Hollow plaster on the right of the breast",
     "outline": [[1400, 1480], [1660, 1440], [1760, 1700], [1690, 1960], [1400, 1900]],
     "forbids": ["drilling", "contact", "load"], "margin_mm": 40,
     "reason": "Loose from the brick; it may come off in one piece.",
     "evidence": "Tapped, 12 March 2025; stands 14 mm proud.", "said_by": "conservation adviser",
     "said_on": "2025-03-12"},
    {"face": "R2-S", "mark": "K18", "name": "Marbled mantelshelf", "outline": rectangle(150, 1180, 1510, 60),
     "forbids": ["drilling", "adhesive", "heat"], "margin_mm": 10, "reason": "Old marbling in oil on slate.",
     "evidence": "Seen.", "said_by": "conservation adviser", "said_on": "2025-03-12"},
)  # fmt: skip

LIMITS: tuple[Values, ...] = (
    {"face": "R2-N", "mark": "L5", "name": "Right casement", "sort": "leaf", "leaf": "casement", "margin_mm": 15,
     "z_from_mm": 980, "z_to_mm": 2440, "hinge_x_mm": 3262, "hinge_y_mm": -140, "swing_from_deg": 180,
     "swing_to_deg": 60, "boxes": [[0, 640, 0, 45], [560, 630, -60, 0]], "reason": "Opened to air the room.",
     "evidence": "Measured at the stay’s last hole, 12 March 2025.", "said_by": "keeper"},
    {"face": "R2-W", "mark": "L6", "name": "Door to the stair passage", "sort": "leaf", "leaf": "door",
     "margin_mm": 25, "z_from_mm": 10, "z_to_mm": 2010, "hinge_x_mm": 3320, "hinge_y_mm": 12, "swing_from_deg": 0,
     "swing_to_deg": 130, "boxes": [[0, 812, -50, -8], [725, 790, -8, 55]],
     "reason": "Stays open in opening hours, against a floor stop.",
     "evidence": "Measured with the door at its stop, 12 March 2025.", "said_by": "keeper"},
)  # fmt: skip

_H17, _H18 = ("H17", 1966, 402), ("H18", 3036, 399)
HOLDS: tuple[Values, ...] = (
    *(
        {
            "face": "R2-W",
            "mark": mark,
            "sort": "hole",
            "x_mm": x,
            "z_mm": z,
            "diameter_mm": 4,
            "depth_mm": 30,
            "may_be_used": "yes",
            "load_limit_n": 400,
            "load_said_by": "structural engineer, note of 20 March 2025",
            "condition": "Screw hole of a shelf taken out before 1990; thread holds.",
            "said_by": "conservation adviser",
        }
        for mark, x, z in (("H7", 1962, 1096), ("H8", 2344, 1098), ("H9", 2690, 1094), ("H10", 3040, 1097), _H17, _H18)
    ),
    {"face": "R2-S", "mark": "H11", "sort": "hook", "x_mm": 470, "z_mm": 2060, "diameter_mm": 6, "depth_mm": 60,
     "may_be_used": "yes", "load_limit_n": 120, "load_said_by": "structural engineer, from the pull of 240 N",
     "condition": "Wrought picture hook, firm; pulled to 240 N for a minute without moving.",
     "said_by": "conservation adviser"},
    {"face": "R2-S", "mark": "H12", "sort": "hook", "x_mm": 1330, "z_mm": 2064, "diameter_mm": 6, "depth_mm": 60,
     "may_be_used": "yes", "load_limit_n": 120, "load_said_by": "structural engineer, from the pull of 240 N",
     "condition": "As H11.", "said_by": "conservation adviser"},
    {"face": "R2-N", "mark": "H20", "sort": "frame", "x_mm": 3722, "z_mm": 1828, "may_be_used": "yes",
     "load_limit_n": 400, "load_said_by": "structural engineer, note of 20 March 2025",
     "condition": "Old lamp board, screwed to the stone; firm.", "said_by": "conservation adviser"},
)  # fmt: skip

MEMBERS: tuple[Values, ...] = tuple(
    {"face": "R2-W", "mark": mark, "sort": "board", "material": "Old dado deal", "x_mm": x, "z_mm": -10,
     "width_mm": 150, "height_mm": 1260, "thickness_mm": 30, "behind_mm": 0, "grain": "upright", "age": "old",
     "load_limit_n": 600, "load_said_by": "structural engineer, note of 20 March 2025"}
    for mark, x in (("B1", 1888), ("B2", 2270), ("B3", 2615), ("B4", 2964))
)  # fmt: skip

FITTINGS: tuple[Values, ...] = (
    {"face": "R2-N", "mark": "D7", "name": "Reading lamp", "purpose": "Lights the table, not the wall.",
     "state": "fitted", "phase": "1, spring 2025", "x_mm": 3652, "z_mm": 1700, "width_mm": 140, "height_mm": 260,
     "build_up": [["old lamp board", 28, 1], ["oak pad", 18, 0.5], ["arm and shade, folded out", 300, 4]],
     "touches_face": 0, "mass_empty_kg": 1.9, "mass_loaded_kg": 1.9, "centre_out_mm": 160, "lift_reach": "close",
     "pull_n": 60, "climbable": 0, "people_to_remove": 1, "minutes_to_remove": 15,
     "removal": "Pull the plug, coil the lead, undo the four clamps on the old lamp board.",
     "care": "Lamp of 4 W only. Electrical test by a licensed electrician each year.", "finishes": ["P5"],
     "fitted_on": "2025-05-07"},
    {"face": "R2-W", "mark": "D8", "name": "Letter rack",
     "purpose": "Pigeon-holes with copies of letters to take out and read.", "state": "fitted",
     "phase": "1, spring 2025", "x_mm": 1900, "z_mm": 340, "width_mm": 1200, "height_mm": 790,
     "build_up": [["felt strips", 3, 0.5], ["back board", 9, 0.3], ["rack", 210, 1]], "touches_face": 1,
     "mass_empty_kg": 9.6, "mass_loaded_kg": 12.8, "centre_out_mm": 104, "lift_reach": "close",
     "moving_part": "Plywood, birch", "moving_mm": 1200, "movement_allowed_mm": 4, "pull_n": 70, "climbable": 1,
     "people_to_remove": 2, "minutes_to_remove": 30,
     "removal": "Empty it. Undo the lower screws, then the upper ones with the rack held; lower it to the floor.",
     "care": "Dust it; tell the fitter when a screw turns without biting.", "finishes": ["P1"],
     "fitted_on": "2025-05-07"},
    {"face": "R2-S", "mark": "D9", "name": "Chart in its frame", "purpose": "Copy of the harbour chart.",
     "state": "fitted", "phase": "1, spring 2025", "x_mm": 380, "z_mm": 1330, "width_mm": 1000, "height_mm": 780,
     "build_up": [["cork pads on brass ears", 8, 1], ["back board", 4, 0.2], ["frame and glazing", 24, 0.5]],
     "touches_face": 0, "mass_empty_kg": 8.2, "mass_loaded_kg": 8.2, "centre_out_mm": 22, "lift_reach": "close",
     "moving_part": "Acrylic sheet", "moving_mm": 920, "movement_allowed_mm": 4, "pull_n": 0, "climbable": 0,
     "people_to_remove": 2, "minutes_to_remove": 15,
     "removal": "One person at each side: lift 20 mm off the two hooks and lower. Do not lean on the mantelshelf.",
     "finishes": ["P2"], "fitted_on": "2025-05-07"},
)  # fmt: skip

_FITTED: Values = {
    "state": "fitted", "fitted_on": "2025-05-07", "fitted_by": "fitter",
}  # fmt: skip
_RACK_SCREW: Values = {
    "thread_mm": 29, "head_mm": 8.6, "predrilled": 1, "sort": "wood screw", "size": "4.5 × 45", "diameter_mm": 4.5,
    "length_mm": 45, "material": "stainless steel A2",
    "contact_radius_mm": 8, "hole": "existing", "penetration_mm": 29, "fabric": "old fabric",
    "into": "dado board, 30 mm", "grips": "Old dado deal", "adhesive": 0, "carries_load": 1, "packers_mm": 3,
    "removal_tool": "slot screwdriver, 6 mm", "removal": "Unscrew by hand.",
    "make_good": "Leave the old hole open, as found.", "trace": "an old hole used again", "lining": "none",
} | _FITTED  # fmt: skip
_RACK_PAD: Values = _RACK_SCREW | {
    "sort": "prop", "size": "60 × 40", "diameter_mm": None, "length_mm": None, "material": "wool felt on plywood",
    "contact_radius_mm": 36, "hole": "none", "penetration_mm": 0, "carries_load": 0, "grips": None,
    "thread_mm": None, "head_mm": None, "predrilled": None, "jaw_mm2": 2400, "bears_on": "Old dado deal",
    "lining": "wool felt 3 mm", "removal_tool": "none", "removal": "Comes away with the rack.",
    "make_good": "Brush off felt hairs.", "trace": "none",
}  # fmt: skip
_HOOK: Values = {
    "sort": "hook", "size": "hook of 6", "diameter_mm": 6, "length_mm": 110, "material": "wrought iron, old",
    "contact_radius_mm": 12, "hole": "existing", "penetration_mm": 60, "fabric": "old fabric", "into": "old brick",
    "adhesive": 0, "carries_load": 1, "lining": "leather on the hook", "locking": "leather wedge over the eye",
    "removal_tool": "by hand", "removal": "Lift the frame 20 mm.", "make_good": "Leave the hook.",
    "trace": "an old hole used again",
} | _FITTED  # fmt: skip
_CORK: Values = _HOOK | {
    "jaw_mm2": 1257, "bears_on": "Lime plaster", "sort": "prop", "size": "pad of 40", "diameter_mm": None,
    "length_mm": None, "material": "cork 8 mm",
    "contact_radius_mm": 20, "hole": "none", "penetration_mm": 0, "into": "lime plaster", "carries_load": 0,
    "lining": "cork 8 mm", "packers_mm": 8, "locking": None, "removal": "Comes away with the frame.",
    "make_good": "Brush with a soft brush.", "trace": "a mark that cleans off",
}  # fmt: skip
_LAMP_CLAMP: Values = {
    "sort": "clamp", "size": "jaw 40 × 40, M5", "diameter_mm": 5, "length_mm": 60, "material": "steel, blackened",
    "contact_radius_mm": 28, "hole": "none", "penetration_mm": 0, "fabric": "old fabric", "packers_mm": 0,
    "into": "edge of the old lamp board, 28 mm", "adhesive": 0, "carries_load": 1, "lining": "leather 2 mm",
    "hold": "H20", "torque_nm": 0.5, "looked_at_on": "2027-04-01", "grade": "4.6", "nut_factor": 0.2, "bolts": 1,
    "friction_faces": 2, "friction": 0.2,
    "jaw_mm2": 1600, "bears_on": "Old dado deal", "locking": "second nut", "removal_tool": "spanner, 8 mm",
    "removal": "Slacken both nuts, draw the jaw off.", "make_good": "Wipe.", "trace": "a mark that cleans off",
} | _FITTED  # fmt: skip

FIXINGS: tuple[Values, ...] = (
    *fixings(
        "D7",
        "R2-N",
        _LAMP_CLAMP,
        (1, 3676, 1730, 3677, 1731),
        (2, 3768, 1730, 3768, 1730),
        (3, 3676, 1926, 3675, 1927, {"packers_mm": 1}),
        (4, 3768, 1926, 3770, 1925, {"packers_mm": 1}),
    ),
    *fixings(
        "D8",
        "R2-W",
        _RACK_SCREW,
        (1, 1962, 1096, 1962, 1096, {"hold": "H7", "member": "B1"}),
        (2, 2344, 1098, 2344, 1098, {"hold": "H8", "member": "B2"}),
        (3, 2690, 1094, 2690, 1094, {"hold": "H9", "member": "B3"}),
        (4, 3040, 1097, 3040, 1097, {"hold": "H10", "member": "B4"}),
        (5, 1966, 402, 1966, 402, {"hold": "H17", "member": "B1"}),
        (6, 2350, 390, 2349, 390, _RACK_PAD),
        (7, 2690, 390, 2691, 388, _RACK_PAD),
        (8, 3036, 399, 3036, 399, {"hold": "H18", "member": "B4"}),
    ),
    *fixings(
        "D9",
        "R2-S",
        _HOOK,
        (1, 470, 2060, 470, 2060, {"hold": "H11"}),
        (2, 1330, 2064, 1330, 2064, {"hold": "H12"}),
        (3, 420, 1370, 421, 1372, _CORK),
        (4, 1330, 1370, 1328, 1371, _CORK),
        (5, 420, 1720, 422, 1722, _CORK),
        (6, 1334, 1720, 1342, 1718, _CORK | {"note": "Set 8 mm to the right, where the plaster was flat enough."}),
    ),
)
