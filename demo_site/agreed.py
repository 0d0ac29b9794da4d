"""What was agreed, and what belongs to the whole site: finishes, agreements, care, visits, money."""

from __future__ import annotations

from .booking import Values

SITE: Values = {
    "name": "The customs shed at Marrow Quay", "address": "Marrow Quay, inner harbour",
    "protection": "Protected as a historic building; register number MQ-14",
    "keeper": "Keeper of the shed, harbour trust; ask at the trust’s office on the quay",
    "adviser": "Conservation adviser to the trust",
    "fitter": "Fitter of the display, with one second pair of hands",
    "description": "Two floors of rubble stone, built as a weighing and customs shed; the ground floor was "
    "divided in brick in the twentieth century. The display is to stand for ten years and come away without "
    "trace.",
    "access": "Keys and alarm at the trust’s office. Assembly point: the bollard opposite the quay doors. In an "
    "emergency call the local number, then the keeper.", "budget": 9800, "currency": "GBP", "stands_years": 10,
    "asks_about_later_work": 0,
    "call": "Keeper of the shed, 0000 114 207; nights and weekends the quay watch, 0000 114 200",
    "tools_at": "Grey box under the stair, R3: keys 4 and 5, spanners 8 to 13, socket 13; its own key beside the alarm",
    "isolators": "Main switch and stopcock behind the left quay door. Anyone may turn them off; the keeper turns "
    "them on.",
    "work_hours": "Mondays and Tuesdays, 9 to 17, while the shed is shut; nothing loud before 10.",
    "stops_work": "A cruise ship at the quay: the doors must open then. Wind above force 7.",
    "owner": "Harbour trust", "removal_paid_by": "Harbour trust, from the sum set aside in 2025",
    "copies_held_by": "Keeper, conservation adviser, fitter",
    "stock": [["oak board, 18 thick", 1060, 130, 1, "offcut"], ["birch plywood, 12 thick", 1180, 805, 1, "offcut"],
              ["bolt, M8 × 110, stainless steel A4", None, None, 1, "whole"]],
    "prices": [["oak board, 18 thick", 2400, 130, 31.4], ["oak board, 18 thick", 1900, 130, 24.9],
               ["birch plywood, 12 thick", 1525, 1525, 57.5],
               ["bolt, M8 × 110, stainless steel A4", None, None, 2.35]],
}  # fmt: skip

FINISHES: tuple[Values, ...] = (
    {"mark": "P1", "name": "Ash, oiled", "sort": "oil",
     "binder": "linseed oil, boiled, thinned by half with turpentine for the first coat", "sheen": "matt",
     "coats": 3, "batch": "1, April 2025", "lightfastness": "6", "lightfastness_scale": "ISO Blue Wool 1 to 8",
     "comes_off_with": "white spirit while fresh; later by scraping",
     "touch_up": "One thin coat with a cloth; wipe dry after ten minutes. Lay oily cloths out flat to dry: in a "
     "heap they catch fire by themselves.", "lab_l": 71.4, "lab_a": 7.2, "lab_b": 24.8, "lab_white": "D65",
     "colour_from": "measured with an instrument", "where_used": "All ash: D1, D2, D3, D4, D8, D12",
     "applied_on": "2025-04-22"},
    {"mark": "P2", "name": "Oak, waxed dark", "sort": "wax", "pigments": [["NBr 8", 4]],
     "binder": "beeswax in turpentine, over a water stain", "sheen": "eggshell", "coats": 2,
     "batch": "2, April 2025", "lightfastness": "5", "lightfastness_scale": "ISO Blue Wool 1 to 8",
     "comes_off_with": "turpentine", "touch_up": "Wax with a soft brush, wait an hour, polish.", "lab_l": 34.6,
     "lab_a": 9.8, "lab_b": 16.1, "lab_white": "D65", "colour_from": "measured with an instrument",
     "where_used": "D6, D9, D11, D13", "applied_on": "2025-04-23"},
    {"mark": "P3", "name": "Panel ground, chalk white", "sort": "acrylic paint",
     "pigments": [["PW 6", 62], ["PW 18", 30], ["PY 42", 6], ["PBk 11", 2]], "binder": "acrylic dispersion",
     "sheen": "dead matt", "coats": 3, "batch": "C-25-04", "lightfastness": "8",
     "lightfastness_scale": "ISO Blue Wool 1 to 8",
     "comes_off_with": "warm water while fresh; acetone later, never near print",
     "touch_up": "Dab, never brush out; feather the edge with a damp sponge.", "lab_l": 91.8, "lab_a": 0.4,
     "lab_b": 6.9, "lab_white": "D65", "colour_from": "measured with an instrument",
     "where_used": "Faces of D2, D3, D11, D14", "applied_on": "2025-04-24"},
    {"mark": "P4", "name": "Partition distemper, buff", "sort": "distemper",
     "pigments": [["PW 18", 88], ["PY 42", 8], ["PBr 7", 4]], "binder": "skin glue", "sheen": "dead matt",
     "coats": 2, "batch": "mixed on the spot, May 2025", "lightfastness": "7",
     "lightfastness_scale": "ISO Blue Wool 1 to 8", "comes_off_with": "cold water and a sponge",
     "touch_up": "Warm it to thin cream; it dries three tones lighter. Try it on a card first.", "lab_l": 82.3,
     "lab_a": 1.9, "lab_b": 17.4, "lab_white": "D65", "colour_from": "matched by eye to a chart",
     "where_used": "Making good on R3-E; D10", "applied_on": "2025-05-07"},
    {"mark": "P5", "name": "Steel, blackened and waxed", "sort": "blackening",
     "binder": "cold blackening, then microcrystalline wax", "sheen": "satin", "coats": 2, "batch": "3, April 2025",
     "lightfastness": "8", "lightfastness_scale": "ISO Blue Wool 1 to 8",
     "comes_off_with": "wax: white spirit; blackening: fine abrasive only",
     "touch_up": "Wipe with white spirit, wax thinly, polish.", "lab_l": 22.7, "lab_a": 0.3, "lab_b": -0.8,
     "lab_white": "D65", "colour_from": "measured with an instrument", "where_used": "Clamps of D1; D4, D5, D7",
     "applied_on": "2025-04-25"},
    {"mark": "P6", "name": "Dado green, for knocks only", "sort": "oil paint",
     "pigments": [["PG 17", 34], ["PBk 11", 22], ["PY 43", 18], ["PW 4", 26]], "binder": "linseed oil",
     "sheen": "eggshell", "coats": 1, "batch": "D-1, March 2025", "lightfastness": "8",
     "lightfastness_scale": "ISO Blue Wool 1 to 8", "comes_off_with": "white spirit within a day",
     "touch_up": "Only what was knocked since 2025, and only with the adviser’s word.", "lab_l": 44.9, "lab_a": -6.3,
     "lab_b": 8.2, "lab_white": "D65", "colour_from": "measured with an instrument",
     "where_used": "Kept in the store’s cupboard; not used so far"},
)  # fmt: skip

MATERIALS: tuple[Values, ...] = (
    {"name": "Old dado deal", "group": "substrate", "specific_gravity": 0.42, "bearing_n_mm2": 1.8,
     "characteristic_density_kg_m3": 290,
     "source": "Structural engineer’s note of 20 March 2025, after a board taken down and looked at"},
    {"name": "Cast iron of column 2", "group": "substrate", "bearing_n_mm2": 40,
     "source": "Structural engineer’s note of 20 March 2025"},
    {"name": "Brick in cement mortar", "group": "substrate", "bearing_n_mm2": 5,
     "source": "Structural engineer’s note of 20 March 2025"},
    {"name": "Old brick of the store", "group": "substrate", "bearing_n_mm2": 1.6,
     "source": "Structural engineer’s note of 20 March 2025"},
)  # fmt: skip

AGREEMENTS: tuple[Values, ...] = (
    {"reference": "A1", "items": ["D1", "D2", "D5", "D7", "D8", "D9"], "answer": "yes",
     "words": "These may go up as drawn: clamped, leant or in the old holes, with linings at every jaw.",
     "said_by": "keeper", "on": "2025-04-09",
     "signature": [[4, 30, 0], [14, 8, 0], [22, 31, 0], [30, 12, 0], [38, 30, 0], [46, 22, 1], [54, 17, 1],
      [61, 25, 1], [72, 19, 1], [96, 21, 1]]},
    {"reference": "A2", "items": ["D4", "D11"], "answer": "yes, with conditions",
     "words": "New holes of 8 mm in the later brick of R1-S and R3-E.",
     "conditions": "Not deeper than the bell wire and the bond timber allow. Dust taken away at the tool. Sixteen "
     "holes in all, in brick, not in joints.", "conditions_met": "yes", "holes": 16,
     "depth_mm": 40, "said_by": "conservation adviser", "on": "2025-04-09"},
    {"reference": "A3", "items": ["D10"], "answer": "yes, with conditions",
     "words": "Pads that part in their paper layer may be stuck to the distemper of R3-E.",
     "conditions": "Tried first behind D11, for a week.", "conditions_met": "yes",
     "said_by": "conservation adviser", "on": "2025-04-09"},
    {"reference": "A4", "items": ["D13"], "answer": "yes, with conditions",
     "words": "Two new holes in the lime joints of R4-N, for the trial shelf.",
     "conditions": "In joints only, at most 60 mm deep; pointed in lime when the shelf comes down, in two years.",
     "conditions_met": "yes", "holes": 2, "depth_mm": 60,
     "said_by": "conservation adviser", "on": "2025-04-09"},
    {"reference": "A5", "items": ["D6"], "answer": "no",
     "words": "Not where it is drawn: the left quay door must hook back as before. Draw it again.",
     "said_by": "keeper", "on": "2026-03-18"},
    {"reference": "A6", "items": ["D3", "D12"], "answer": "yes", "words": "Phase 2 may go up as drawn.",
     "said_by": "keeper", "on": "2026-03-18"},
)  # fmt: skip

DECISIONS: tuple[Values, ...] = (
    {"reference": "E1", "items": ["D1", "D4", "D5", "D8"], "question": "specialist", "role": "structural engineer",
     "answer": "yes", "words": "As drawn, for the loads entered; nobody stands on them.",
     "document": "Note MQ-14/7", "on": "2025-04-07", "until": "2035-05-06"},
    {"reference": "E2", "items": ["D7"], "question": "specialist", "role": "electrician", "answer": "yes",
     "words": "Lead and lamp of 4 W tested; test again each year.", "document": "Test sheet MQ-14/8",
     "on": "2025-05-08", "until": "2035-05-08"},
    {"reference": "E3", "items": ["D4", "D10", "D11", "D12"], "question": "specialist", "role": "fire officer",
     "answer": "yes", "words": "The width left is enough; the sign over the door stays in view.",
     "document": "Letter MQ-14/6", "on": "2025-04-02", "until": "2035-05-06"},
    {"reference": "E4", "items": ["D12"], "question": "load", "role": "structural engineer", "answer": "yes",
     "words": "Two poles sprung with 200 N each hold it between flags and joist.",
     "document": "Note MQ-14/9", "on": "2026-03-16", "until": "2035-05-06"},
)  # fmt: skip

TASKS: tuple[Values, ...] = (
    {"what": "Walk round with the record", "every_months": 3, "first_on": "2025-08-01", "who": "keeper",
     "minutes": 40, "tools": "torch", "how": "Each fitting: is it where the drawing says, does anything move or rub?"},
    {"what": "Linings of the clamps", "fitting": "D1", "every_months": 12, "first_on": "2026-04-01", "who": "keeper",
     "minutes": 20, "tools": "torch", "how": "Foam whole and dry at all four jaws; nuts no more than hand-tight.",
     "caution": "Do not stand on the frame."},
    {"what": "Straps of the column sign", "fitting": "D5", "every_months": 12, "first_on": "2026-04-01",
     "who": "keeper", "minutes": 10, "tools": "torch", "how": "No rust on the paint below, foam not squeezed out."},
    {"what": "Clean the case", "fitting": "D4", "every_months": 6, "first_on": "2025-11-01", "who": "keeper",
     "minutes": 30, "tools": "damp cloth, key 4", "how": "Outside only; the inside with the adviser.",
     "caution": "Two people when the front is open."},
    {"what": "Electrical test", "fitting": "D7", "every_months": 12, "first_on": "2026-05-01",
     "who": "licensed electrician", "minutes": 20, "how": "Test under the local wiring rules; label it.",
     "caution": "Licensed electrician only."},
    {"what": "Dust the rack and try its screws", "fitting": "D8", "every_months": 6, "first_on": "2025-11-01",
     "who": "volunteer", "minutes": 25, "tools": "soft brush", "how": "Press each corner; report what gives."},
    {"what": "Look at the pads of the chart", "fitting": "D9", "every_months": 6, "first_on": "2025-11-01",
     "who": "keeper", "minutes": 10, "tools": "torch, mirror", "how": "The right middle pad is near loose plaster: "
     "look for new cracks and dust on the mantelshelf.", "caution": "Do not lean on the mantelshelf."},
    {"what": "Read the loggers", "room": "R4", "every_months": 1, "first_on": "2025-04-01", "who": "volunteer",
     "minutes": 30, "tools": "reader", "how": "Hall, office, store; write the figures in the book the same day."},
    {"what": "Touch up panels and frames", "every_months": 24, "first_on": "2027-04-01", "who": "fitter",
     "minutes": 180, "tools": "finishes P1, P3, P5", "how": "By the touch-up card; date and batch to the book."},
    {"what": "Read the tell-tales on the crack", "room": "R1", "every_months": 3, "first_on": "2025-06-20",
     "who": "structural engineer", "minutes": 20, "how": "Three tell-tales at K2; more than 0.5 mm in a quarter: "
     "take the load off the wall and call."},
)  # fmt: skip

VISITS: tuple[Values, ...] = (
    {"purpose": "survey", "on": "2025-03-11", "by": "fitter and conservation adviser",
     "found": "Hall surveyed; inscription and ship drawing in raking light.", "done": "Datums set, photographs taken.",
     "next_on": "2025-03-12"},
    {"purpose": "survey", "on": "2025-03-12", "by": "fitter and keeper",
     "found": "Office and passage surveyed. Gas pipe behind the dado: not proved dead.", "done": "Plaster tapped, "
     "outlines chalked.", "next_on": "2025-03-13"},
    {"purpose": "survey", "on": "2025-03-13", "by": "fitter and keeper",
     "found": "Store surveyed: damp, a bulge in the north wall.", "done": "Loggers set out.", "next_on": "2025-05-06"},
    {"purpose": "fitting", "on": "2025-05-06", "by": "fitter and second pair of hands",
     "done": "Hall: D1, D2, D4, D5 up and measured.", "next_on": "2025-05-07"},
    {"purpose": "fitting", "on": "2025-05-07", "by": "fitter and second pair of hands",
     "found": "D9: right middle pad set 8 mm further right.", "done": "Office, passage and store: D7 to D11 and D13.",
     "next_on": "2025-10-14"},
    {"purpose": "inspection", "on": "2025-10-14", "by": "fitter and keeper",
     "found": "Tools on D13 rusted. A hair crack beside D9. All else as left.", "done": "Photographs.",
     "next_on": "2026-02-10"},
    {"purpose": "taking down", "on": "2026-02-10", "by": "fitter", "done": "D13 taken down, two joints pointed.",
     "found": "Wall as before but for the two pointed joints.", "next_on": "2026-06-02"},
)  # fmt: skip

COSTS: tuple[Values, ...] = tuple(
    dict(zip(("fitting", "what", "sort", "amount", "state", "on", "receipt"), row, strict=True)) | {"currency": "GBP"}
    for row in (
        ("D1", "Ash, planed, 0.09 m³", "material", 486.0, "paid", "2025-04-14", "1"),
        ("D1", "Clamps, blackened", "material", 212.4, "paid", "2025-04-16", "2"),
        ("D2", "Plywood and printing", "material", 318.0, "paid", "2025-04-22", "3"),
        ("D4", "Case and laminated glass", "material", 1140.0, "paid", "2025-04-25", "4"),
        ("D5", "Plate and straps, cut", "material", 164.5, "paid", "2025-04-22", "5"),
        ("D7", "Lamp and lead", "material", 96.0, "paid", "2025-04-28", "6"),
        ("D7", "Connection and test", "fee", 140.0, "paid", "2025-05-08", "7"),
        ("D8", "Rack, plywood and ash", "material", 372.0, "paid", "2025-04-24", "8"),
        ("D9", "Copy of the chart, frame", "material", 405.0, "paid", "2025-04-29", "9"),
        ("D11", "Plywood and printing", "material", 436.0, "paid", "2025-04-22", "10"),
        ("D13", "Oak shelf", "material", 148.0, "paid", "2025-04-24", "11"),
        (None, "Tower, two days", "hire", 180.0, "paid", "2025-05-07", "12"),
        (None, "Fitting, two people, two days", "labour", 1280.0, "paid", "2025-05-12", "13"),
        (None, "Van and ferry", "travel", 214.6, "paid", "2025-05-12", "14"),
        ("D13", "Taking down and pointing", "labour", 190.0, "paid", "2026-02-12", "15"),
        ("D3", "Plywood and printing", "material", 290.0, "expected", None, None),
        ("D6", "Oak board", "material", 260.0, "expected", None, None),
        ("D12", "Poles, rail, glazing", "material", 345.0, "expected", None, None),
        ("D14", "Panel, material to be chosen", "material", 240.0, "expected", None, None),
        (None, "Fitting phase 2, two people, one day", "labour", 660.0, "expected", None, None),
    )
)
