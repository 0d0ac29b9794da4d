"""What is likely of things on a made-up site, so that most could stand somewhere and most questions can be decided."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from typing import Any

from fieldbook.model.choices import LOOKED_FOR

TODAY = date(2031, 3, 14)


def day(days: int) -> str:
    """A day before or after the day of the tests."""
    return (TODAY + timedelta(days=days)).isoformat()


LATER, EARLIER = (day(300), day(60), day(-5)), (day(-700), day(-90))
LOOKED = [[what, "the surveyor", "with a torch and a detector", day(-90)] for what in LOOKED_FOR]
YES = (1, 1, 1, 0)
NO = (0, 0, 0, 0, 1)

LIKELY: Mapping[str, tuple[Any, ...]] = {
    "site.asks_about_later_work": NO,
    "room.hazards": (None, ["dust"], ["loads", "dust"], ["lifting"], ["escape route"], ["electricity"], ["asbestos"]),
    "room.damp": ("dry", "dry", "dry", "damp", "wet"),
    "room.fire_limit": ("B", "C", "D", "E"),
    "room.light_category": ("low", "medium", "none", "high"),
    "room.looked_for": (LOOKED, LOOKED, LOOKED, None, LOOKED[:1], LOOKED[1:]),
    "face.sort": ("wall", "wall", "wall", "wall", "reveal", "column side", "ceiling", "soffit", "other"),
    "face.slope_deg": (None, None, None, 0, 0, 4, -3, 30, 90),
    "face.floor": (None, [[0, 0], [3000, 12]], [[0, 0], [1500, 20], [3000, -5]]),
    "face.surface": (None, None, [[0, 0, 0], [3000, 0, 4], [0, 2500, -3], [3000, 2500, 2], [1500, 1200, 6]]),
    "face.looked_for": (None, LOOKED, LOOKED[:2]),
    "face.outer_wall": (0, 0, 1),
    "face.layers": (
        [["lime plaster", 20, "old"], ["rubble masonry", 500, "old"]],
        [["limestone", 400, "old"]],
        [["oak", 60, "old"]],
        [["oak", 22, "old"], ["lime plaster", 15, "old"], ["brick wall in lime mortar", None, "old"]],
        [["gypsum plaster", 12, "later"], ["softwood, sound, class C24", 90, "later"]],
        [["brick wall in lime mortar", 110, "later"]],
        [["wrought iron", 12, "old"]],
    ),
    "zone.safe_depth_mm": (None, None, 15.0, 60.0),
    "zone.reason": ("painted scheme below", "a cable behind"),
    "hold.may_be_used": ("yes", "yes", "yes", "no", "not known"),
    "hold.said_on": EARLIER,  # a word dated ahead is no ordinary one
    "hold.sort": ("hole", "hook", "bolt", "flange", "frame"),
    "member.material": ("oak", "C24", "larch"),
    "member.sort": ("board", "stud", "joist"),
    "member.grain": ("level", "level", "upright", "out of the face"),
    "patch.material": ("felt", "cork", "hide glue"),
    "patch.laid_against": ("lime plaster", "oak"),
    "patch.laid_on": (day(-700), day(-400)),
    "patch.looked_on": (day(-20), day(-3)),
    "patch.found": ("no trace", "no trace", "a mark that cleans off", "a mark that stays"),
    "fitting.build_up": (
        [["rail, oak", 22, 1]],
        [["packers", 10, 5], ["oak", 40, 1]],
        [["felt", 3, 1], ["panel", 18, None]],
        [["gap", 20, 5], ["steel", 6, 1], ["glass", 8, 0.5]],
    ),
    "fitting.state": ("planned", "planned", "fitted", "fitted", "fitted", "taken down"),
    "fitting.support": ("its fixings", "its fixings", "its fixings", "the floor", "the floor and its fixings"),
    "fitting.touches_face": (1, 1, 0),
    "fitting.climbable": (0, 0, 0, 1),
    "fitting.pull_n": (None, None, 0, 60.0, 250.0),
    "fitting.mass_is": ("weighed", "weighed", "calculated", "at most"),
    "fitting.moves_mm": (None, None, 80.0),
    "fitting.moves": NO,
    "fitting.moving_part": (None, None, "oak", "plywood, birch", "steel"),
    "fitting.gives": (["nothing"], ["nothing"], ["nothing"], ["light"], ["heat", "light"]),
    "fitting.glass": ("none", "none", "laminated", "toughened", "other glass"),
    "fitting.closed": (0, 0, 0, 1),
    "fitting.made_of": ("birch plywood, shellac", "powder-coated steel"),
    "fitting.covers": (None, None, None),
    "fitting.centre_x_mm": (None,),
    "fitting.centre_z_mm": (None,),
    "fitting.fire_class": ("A1", "B", "C", "D"),
    "fixing.state": ("planned", "planned", "fitted", "fitted", "fitted", "taken down"),
    "fixing.carries_load": (1, 1, 1, 1, 1, 1, 1, 0),
    "fixing.sort": (
        *(
            "wood screw",
            "wood screw",
            "wood screw",
            "wood screw",
            "coach screw",
            "nail",
            "bolt",
            "bolt",
            "machine screw",
        ),
        *("clamp", "clamp", "hook", "hook", "hook", "strap", "magnet", "adhesive pad", "prop", "wedge", "weight"),
    ),
    "fixing.diameter_mm": (4.0, 5.0, 6.0, 8.0, 10.0, 12.0),
    "fixing.adhesive": (0, 0, 0, 0, 0, 0, 1),
    "fixing.fabric": ("old fabric", "old fabric", "later work"),
    "fixing.material": ("steel", "stainless steel A4", "brass", "bronze"),
    "fixing.lining": ("none", "felt", "cork", "leather", "rubber"),
    "fixing.off_plumb_deg": (None, 0, 0, 20.0, 45.0),
    "fixing.grips": (None, None, "oak", "bog oak"),
    "fixing.bears_on": ("brick wall in lime mortar", "limestone", "hardwood, sound, class D30", "putty"),
    "fixing.into": (None, None, "dado board, 22 mm", "cast-iron column"),
    "fixing.predrilled": YES,
    "fixing.grade": ("4.6", "8.8", "A2-70", "10.9"),
    "fixing.nut_factor": (0.2, 0.18, 0.3),
    "fixing.stated_by": ("maker", "structural engineer", "keeper", "other"),
    "fixing.stated_on": EARLIER,
    "fixing.tested_on": EARLIER,
    "fixing.tested_held": YES,
    "fixing.locking": ("a second nut", "a nylon insert", "a split pin", "something"),
    "fixing.looked_at_on": LATER,
    "fixing.stands_out_mm": (None, None, 25.0),
    "fixing.packers_mm": (0, 0, 3.0, 10.0),
    "finish.lightfastness": ("7", "8", "4", "I", "something"),
    "reading.uncertainty": (0, 0.5, 1.0),  # up to what is taken for a thermometer of which nobody says it
    "log.uncertainty_pct": (0, 1.5, 3.0, 5.0),  # up to what is taken for a hygrometer of which nobody says it
    "agreement.answer": ("yes", "yes", "yes, with conditions", "no"),
    "agreement.conditions": (None, "felt under every jaw"),
    "agreement.conditions_met": ("yes", "yes", "not yet"),
    "agreement.on": EARLIER,
    "agreement.until": (None, *LATER),
    "agreement.depth_mm": (None, 60.0, 90.0),
    "agreement.holes": (None, 4, 12),
    "agreement.trace": (None, "a new hole in old fabric", "none"),
    "agreement.outline": (None, None, [[0, 0], [3000, 0], [3000, 2500], [0, 2500]]),
    "decision.answer": ("yes", "yes", "no"),
    "decision.on": EARLIER,
    "decision.until": (None, *LATER),
    "decision.question": ("specialist", "specialist", "pull", "carrier", "load", "touch"),
    "material.name": ("putty", "bog oak"),
}
"""kind.field -> what it is likely to be; None: empty on purpose."""

USUAL: Mapping[str, tuple[float, float]] = {
    "ceiling_mm": (2500, 4200),
    "above_floor_mm": (2200, 4200),
    "light_limit_lx": (50, 300),
    "humidity_low_pct": (25, 45),
    "humidity_high_pct": (55, 80),
    "light_hours": (300, 3000),
    "uv_limit_uw_lm": (10, 80),
    "floor_limit_kn_m2": (1, 6),
    "stands_years": (1, 30),
    "base_mm": (200, 900),
    "base_out_mm": (0, 100),
    "base_width_mm": (550, 1100),  # half of the widest, or more
    "floor_falls_mm_m": (0, 30),
    "floor_friction": (0.2, 0.6),
    "carries_kg": (5, 150),
    "mass_empty_kg": (0.5, 20),
    "mass_loaded_kg": (1, 30),
    "centre_out_mm": (0, 120),
    "pull_n": (0, 400),
    "moving_mm": (100, 1500),
    "movement_allowed_mm": (0, 15),
    "diameter_mm": (3, 12),
    "length_mm": (20, 120),
    "thread_mm": (10, 90),
    "head_mm": (8, 24),
    "penetration_mm": (0, 80),
    "depth_mm": (20, 90),
    "contact_radius_mm": (2, 40),
    "torque_nm": (0.5, 15),
    "bolts": (1, 4),
    "friction": (0.1, 0.6),
    "margin_mm": (0, 60),
    "thickness_mm": (5, 90),
    "tolerance_mm": (0, 4),
    "load_limit_n": (50, 3000),
    "stated_load_n": (50, 3000),
    "tested_n": (200, 3000),
    "jaw_mm2": (200, 4000),
    "slope_deg": (0, 90),
    "behind_mm": (0, 40),
    "people_to_remove": (1, 4),
    "every_months": (1, 24),
    "play_mm": (0, 30),
    "bearing_n_mm2": (0.5, 20),
}
"""Name of a number -> what is usual of it, from low to high."""

WORDS = {
    "fitting.layer": ("oak", "felt", "packers", "steel"),
    "face.material": ("lime plaster", "oak", "limestone"),
    "patch.material": ("felt", "cork"),
}
"""kind.column -> names that mean something to the materials or to the questions."""

IN_WOOD: Mapping[str, tuple[Any, ...]] = {
    "hole": ("new", "new", "existing"),
    "penetration_mm": (50.0, 70.0),
    "length_mm": (80.0, 100.0),
    "thread_mm": (50.0, 60.0, None),
    "diameter_mm": (5.0, 6.0, 8.0),
    "stated_load_n": (None,),
    "tested_n": (None,),
    "grips": (None,),
    "adhesive": (0,),
}
NO_HOLE: Mapping[str, tuple[Any, ...]] = {"hole": ("none",), "penetration_mm": (0, None), "trace": ("none",)}
STATED: Mapping[str, tuple[Any, ...]] = {"stated_load_n": (400.0, 1500.0, 6000.0), "stated_by": ("maker",)}
KITS: Mapping[str, Mapping[str, tuple[Any, ...]]] = {
    "wood screw": IN_WOOD,
    "coach screw": IN_WOOD,
    "nail": IN_WOOD,
    "bolt": {"hole": ("existing", "new"), "tested_n": (None,), "torque_nm": (None, 2.0, 8.0)},
    "machine screw": {"hole": ("existing", "new"), "torque_nm": (None, 2.0)},
    "clamp": NO_HOLE | {"adhesive": (0,), "friction_faces": (2,), "jaw_mm2": (2500.0, 900.0)},
    "hook": STATED | {"hole": ("existing", "none"), "adhesive": (0,)},
    "strap": STATED | NO_HOLE,
    "prop": NO_HOLE | {"jaw_mm2": (2500.0, 900.0)},
    "wedge": NO_HOLE | {"stated_load_n": (120.0, 900.0)},
    "weight": NO_HOLE,
    "magnet": NO_HOLE,
    "adhesive pad": NO_HOLE | {"adhesive": (1,), "material": ("hide glue",)},
}
"""What belongs to each sort of fixing."""
TRACE_OF = {
    ("new", "old fabric"): "a new hole in old fabric",
    ("new", "later work"): "a new hole in later work",
    ("existing", "old fabric"): "an old hole used again",
    ("existing", "later work"): "an old hole used again",
}
"""The trace of a hole in a fabric that would be expected."""

STANDS: Mapping[str, tuple[Any, ...]] = {
    "z_mm": (0.0,),
    "support": ("the floor", "the floor", "the floor and its fixings", None),
    "base_mm": (300.0, 600.0, 900.0),
    "base_out_mm": (0.0, None),
    "base_width_mm": (None, 200.0, 900.0),
    "stands_on": (None, "all of its base", "three feet"),
    "pull_n": (None, 0, 20.0, 60.0),
    "climbable": (0, 0, 1),
    "mass_is": ("weighed", "calculated"),
}
"""What is likely of a fitting that stands on the floor."""

HEAVY: Mapping[str, tuple[Any, ...]] = {
    "mass_loaded_kg": (14.0, 26.0, 38.0),
    "support": ("its fixings",),
    "touches_face": (1,),
    "climbable": (0, 0, 0, 1),
    "pull_n": (None, 60.0),
    "centre_out_mm": (30.0, 90.0),
}
"""What is likely of a fitting that somebody reckons with: hung by what a maker states a load for."""

MEASURED: tuple[tuple[str, str, float, float], ...] = (
    ("relative humidity", "%", 40, 65),
    ("air temperature", "°C", 12, 24),
    ("outside temperature", "°C", -4, 20),
    ("surface temperature", "°C", 8, 20),
    ("wood moisture content", "% moisture content", 9, 18),
    ("illuminance", "lx", 20, 200),
    ("ultraviolet", "µW/lm", 5, 60),
)
"""Quantity, unit, and from where to where it lies in a room."""
