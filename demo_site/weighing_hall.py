"""Room R1, the weighing hall: rubble walls over a boarded dado, cast-iron columns, a later brick partition."""

from __future__ import annotations

from .booking import Values, floor, grid, rectangle

ROOM: Values = {
    "mark": "R1", "name": "Weighing hall", "use": "entrance to the display; the great beam hangs here",
    "plan": [[12, 6410], [9190, 6395], [9205, -10], [0, 0]], "ceiling_mm": 4080,
    "floor": "Stone flags, worn along the way from the quay doors to the beam; falls about 20 mm to the north "
    "wall.", "ceiling": "Deal boards on pitch-pine beams. Nothing may be hung from them.",
    "conditions": "Not heated. The quay doors stand open on fair days; salt air, and damp in the north wall in "
    "winter.", "hazards": ["overhead work", "lifting", "dust", "old lead paint"],
    "protected_how": "Oak boards: dust sheet and hardboard from the door to R1-S. Scale pit: its cover stays on.",
    "hazards_words": "The great beam hangs from its own iron. Nobody works below it while it is being moved. The "
    "dado and the columns are taken to carry lead paint.", "light_limit_lx": 200, "light_category": "low",
    "light_hours": 1600, "uv_filtered": 0, "humidity_low_pct": 45, "humidity_high_pct": 92,
}  # fmt: skip

FACES: tuple[Values, ...] = (
    {"room": "R1", "mark": "R1-N", "name": "North wall, to the water", "sort": "wall", "width_mm": 9178,
     "height_mm": 4110, "left_mm": 0, "bottom_mm": -30,
     "layers": [["limewash", 1, "old"], ["rubble stone in lime mortar", 620, "old"]],
     "datum": "Bronze stud in the joint of the north-west corner, 1,000 mm above the flag with the mason’s cross. "
     "z = 0 is 1,000 mm below the stud, x = 0 the corner.", "start_x_mm": 12, "start_y_mm": 6410,
     "bearing_deg": -0.1, "floor": floor((0, 1500, 3000, 4500, 6000, 7500, 9178), (-4, -9, -16, -22, -18, -8, 6)),
     "surface": grid(
         (300, 1900, 3500, 5700, 6900, 8100, 9000),
         (300, 1100, 1700, 2400, 3200, 3900),
         (
             (6, 3, 1, 0, 2, 5, 9),
             (4, 1, -1, -2, 0, 3, 6),
             (-2, -6, -9, -11, -7, -3, 1),
             (-5, -10, -14, -17, -12, -6, -2),
             (-9, -13, -18, -20, -15, -9, -4),
             (-12, -16, -19, -21, -17, -12, -8),
         ),
     ),
     "note": "Boarded dado to 1,180 mm, boards 22 mm, old; its face is the reference plane. Above it the stone "
     "leans back and bows."},
    {"room": "R1", "mark": "R1-E", "name": "East wall with the quay doors", "sort": "wall", "width_mm": 6405,
     "height_mm": 4100, "left_mm": 0, "bottom_mm": -20,
     "layers": [["limewash", 1, "old"], ["rubble stone in lime mortar", 640, "old"]],
     "datum": "Pencil cross on the iron of the left pintle, 1,400 mm above the sill of the quay doors; the cross "
     "is at x = 3,050, z = 1,400.", "start_x_mm": 9190, "start_y_mm": 6395, "bearing_deg": -89.87,
     "floor": floor((0, 1600, 3050, 4950, 6405), (6, 2, 0, 1, 8)),
     "surface": grid(
         (400, 1300, 2200, 2700, 5400, 6100),
         (400, 1300, 2200, 3200),
         (
             (2, 4, 3, 1, 5, 7),
             (-3, 0, 2, 0, 1, 4),
             (-9, -5, -2, -3, -4, -1),
             (-16, -12, -8, -7, -9, -6),
         ),
     )},
    {"room": "R1", "mark": "R1-S", "name": "Brick partition to the office", "sort": "wall", "width_mm": 9205,
     "height_mm": 4105, "left_mm": 0, "bottom_mm": -25, "layers": [["Brick in cement mortar", 103, "later"]],
     "datum": "Scratched cross in the bed joint over the ninth course at the east end; x = 0 is the corner, z = 0 "
     "is 675 mm below the cross.", "start_x_mm": 9205, "start_y_mm": -10, "bearing_deg": 179.94,
     "floor": floor((0, 2300, 4600, 6900, 9205), (8, 3, -6, -11, -4)),
     "note": "Half-brick thick, put in when the hall was divided; stands on the flags without a foundation."},
    {"room": "R1", "mark": "R1-C", "name": "Column 2, side to the south", "sort": "column side", "width_mm": 160,
     "height_mm": 3960, "left_mm": -80, "bottom_mm": 0,
     "layers": [["old paint, many coats", 1, "old"], ["cast iron", 24, "old"]],
     "datum": "The middle of the column’s side, at the top of its plinth.", "start_x_mm": 4600, "start_y_mm": 3090,
     "bearing_deg": 0, "floor": floor((-80, 80), (-150, -150)),
     "note": "220 mm square with chamfered corners; the flat between them is 160 mm."},
)  # fmt: skip

ZONES: tuple[Values, ...] = (
    {"face": "R1-N", "mark": "K1", "name": "Painted inscription", "outline": rectangle(860, 2210, 2480, 780),
     "forbids": ["drilling", "contact", "adhesive", "heat", "light"], "margin_mm": 150,
     "reason": "Lettering in distemper on limewash; the paint powders when touched.",
     "evidence": "Raking light and a photograph of 11 March 2025.", "said_by": "conservation adviser",
     "said_on": "2025-03-11"},
    {"face": "R1-N", "mark": "K2", "name": "Crack from the window head",
     "outline": [[5230, 2930], [5420, 2860], [6330, 3990], [6010, 4070]], "forbids": ["drilling", "load"],
     "margin_mm": 100, "reason": "Live crack, 1 to 4 mm; it is being watched with tell-tales.",
     "evidence": "Tell-tales set in 2023 and read each quarter.", "said_by": "structural engineer",
     "said_on": "2025-03-20"},
    {"face": "R1-N", "mark": "K3", "name": "Conduit to the quay lamp", "outline": rectangle(8800, 1180, 100, 2900),
     "forbids": ["drilling", "contact", "load"], "margin_mm": 100,
     "reason": "Live cable in a steel conduit on the face.",
     "evidence": "In plain sight; the circuit is on the distribution board’s card.", "said_by": "keeper",
     "said_on": "2025-03-11"},
    {"face": "R1-N", "mark": "K4", "name": "Salts above the dado", "outline": rectangle(300, 1200, 1650, 620),
     "forbids": ["drilling", "contact", "adhesive"], "margin_mm": 100,
     "reason": "Salts lift the limewash; anything laid against it traps damp.",
     "evidence": "Seen; damp meter over its whole width, 11 March 2025.", "said_by": "conservation adviser",
     "said_on": "2025-03-11"},
    {"face": "R1-N", "mark": "K5", "name": "Dado boards with cut tally marks",
     "outline": rectangle(6480, 300, 220, 600), "forbids": ["drilling", "contact", "adhesive"], "margin_mm": 60,
     "reason": "The weighers' tallies, cut with a knife.", "evidence": "Seen and rubbed in 2019.",
     "said_by": "keeper", "said_on": "2025-03-11"},
    {"face": "R1-E", "mark": "K6", "name": "Iron cramps over the left pintle",
     "outline": rectangle(2560, 2330, 490, 300), "forbids": ["drilling", "load"], "margin_mm": 60,
     "reason": "Cramps hold the pintle stone; the stone is split.", "evidence": "Detector, and rust at the joints.",
     "said_by": "structural engineer", "said_on": "2025-03-20"},
    {"face": "R1-E", "mark": "K7", "name": "Scratched drawing of a ship",
     "outline": [[700, 1280], [1520, 1300], [1500, 1900], [1080, 1960], [690, 1840]],
     "forbids": ["drilling", "contact", "adhesive", "load", "heat", "light"], "margin_mm": 200,
     "reason": "A two-masted vessel cut into the limewash; the only one in the building.",
     "evidence": "Raking light, 11 March 2025.", "said_by": "conservation adviser", "said_on": "2025-03-11"},
    {"face": "R1-S", "mark": "K8", "name": "Bell wire in the partition", "outline": rectangle(2600, 1560, 1900, 70),
     "forbids": ["drilling"], "margin_mm": 10, "safe_depth_mm": 50,
     "reason": "The old bell wire was built in, 55 to 60 mm deep; it is to stay whole.",
     "evidence": "Opened up beside the hatch, 12 March 2025.", "said_by": "keeper", "said_on": "2025-03-12"},
    {"face": "R1-S", "mark": "K9", "name": "Loose top courses", "outline": rectangle(0, 3650, 9205, 430),
     "forbids": ["drilling", "load"], "margin_mm": 100,
     "reason": "The last courses were wedged under the boards and move by hand.",
     "evidence": "Tried by hand from a tower, 12 March 2025.", "said_by": "fitter", "said_on": "2025-03-12"},
    {"face": "R1-C", "mark": "K10", "name": "Cast figures", "outline": rectangle(-80, 1180, 160, 110),
     "forbids": ["contact", "adhesive"], "margin_mm": 80,
     "reason": "The column’s number, cast on; the arris of the figures is sharp still.", "evidence": "Seen.",
     "said_by": "conservation adviser", "said_on": "2025-03-11"},
    {"face": "R1-C", "mark": "K11", "name": "Flaking paint", "outline": rectangle(-80, 250, 160, 450),
     "forbids": ["contact", "adhesive", "drilling"], "margin_mm": 50,
     "reason": "All old coats, taken to hold lead; loose to the iron.", "evidence": "Seen; not tested.",
     "said_by": "conservation adviser", "said_on": "2025-03-11"},
)  # fmt: skip

LIMITS: tuple[Values, ...] = (
    {"face": "R1-E", "mark": "L1", "name": "Left quay door", "sort": "leaf", "leaf": "door", "margin_mm": 20,
     "z_from_mm": 10, "z_to_mm": 2480, "hinge_x_mm": 3050, "hinge_y_mm": 15, "swing_from_deg": 0,
     "swing_to_deg": 165, "boxes": [[0, 945, -62, -8], [800, 870, -8, 52]],
     "reason": "Opened for every delivery and hooked back.",
     "evidence": "Measured with the door hooked back, 11 March 2025.", "said_by": "keeper"},
    {"face": "R1-N", "mark": "L2", "name": "Right shutter of the water window", "sort": "leaf", "leaf": "shutter",
     "margin_mm": 15, "z_from_mm": 1350, "z_to_mm": 2950, "hinge_x_mm": 5300, "hinge_y_mm": 14,
     "swing_from_deg": 180, "swing_to_deg": 8, "boxes": [[0, 690, 6, 38], [600, 660, -34, 6]],
     "reason": "Closed every evening.", "evidence": "Measured, 11 March 2025.", "said_by": "keeper"},
    {"face": "R1-N", "mark": "L3", "name": "Way along the north wall", "sort": "flat", "margin_mm": 0,
     "x_from_mm": 5300, "z_from_mm": 685, "z_to_mm": 2030, "projection_mm": 100,
     "reason": "A visitor with a long cane does not find what stands out higher than the cane sweeps.",
     "evidence": "Figures as in the access adviser’s letter of 2 April 2025; the local code decides.",
     "said_by": "access adviser"},
    {"face": "R1-S", "mark": "L4", "name": "Way between the partition and the beam’s rail", "sort": "route",
     "margin_mm": 50, "x_from_mm": 2000, "x_to_mm": 6200, "available_mm": 2028, "clear_width_mm": 1800,
     "reason": "Way out from the office side; two chairs pass each other here.",
     "evidence": "Measured at the narrowest place, 12 March 2025.", "said_by": "keeper"},
)  # fmt: skip

HOLDS: tuple[Values, ...] = (
    *(
        {
            "face": "R1-E",
            "mark": mark,
            "sort": "hole",
            "x_mm": x,
            "z_mm": z,
            "diameter_mm": 14,
            "depth_mm": depth,
            "may_be_used": "yes",
            "load_limit_n": 400,
            "load_said_by": "structural engineer, pulled on the spot, 20 March 2025",
            "condition": "Sound; blown out and measured. From an earlier tally board.",
            "said_by": "conservation adviser",
        }
        for mark, x, z, depth in (
            ("H1", 2240, 1472, 92),
            ("H2", 2738, 1474, 88),
            ("H3", 2244, 2066, 95),
            ("H4", 2741, 2062, 90),
        )
    ),
    {"face": "R1-N", "mark": "H5", "sort": "moulding", "x_mm": 6045, "z_mm": 1165, "may_be_used": "yes",
     "load_limit_n": 1200, "load_said_by": "structural engineer, note of 20 March 2025",
     "condition": "Dado capping, tight to the boards; may be clamped with a lining.",
     "said_by": "conservation adviser"},
    {"face": "R1-N", "mark": "H6", "sort": "hook", "x_mm": 3620, "z_mm": 3120, "diameter_mm": 18,
     "may_be_used": "no", "condition": "Wrought-iron lamp hook, rusted thin at the root.",
     "said_by": "conservation adviser"},
    {"face": "R1-C", "mark": "H19", "sort": "other", "x_mm": 0, "z_mm": 1770, "may_be_used": "yes",
     "load_limit_n": 1000, "load_said_by": "structural engineer, note of 20 March 2025",
     "condition": "The column itself, for straps with a lining.", "said_by": "conservation adviser"},
)  # fmt: skip
