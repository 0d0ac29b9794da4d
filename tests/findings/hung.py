"""Fittings for the tests of loads: 20 kg that nobody leans on, 400 mm wide, hung 60 mm in front of a wall."""

from __future__ import annotations

from typing import Any

from fieldbook.book.gathering import gather
from fieldbook.findings import Finding, appraise
from tests.sites import Surveyed

HUNG: dict[str, Any] = {
    "x_mm": 1000,
    "z_mm": 1000,
    "width_mm": 400,
    "height_mm": 300,
    "mass_loaded_kg": 20,
    "centre_out_mm": 60,
    "climbable": 0,
    "touches_face": 1,
}
SCREW: dict[str, Any] = {
    "sort": "wood screw",
    "hole": "new",
    "trace": "a new hole in old fabric",
    "diameter_mm": 6,
    "length_mm": 110,
    "thread_mm": 60,
    "penetration_mm": 80,
    "packers_mm": 0,
    "predrilled": 1,
}
CLAMP: dict[str, Any] = {
    "torque_nm": 5,
    "diameter_mm": 8,
    "nut_factor": 0.2,
    "grade": "8.8",
    "bolts": 1,
    "friction_faces": 2,
    "friction": 0.4,
    "jaw_mm2": 2500,
    "bears_on": "test block",
}
STATED = {"stated_by": "maker", "stated_source": "data sheet 4", "stated_on": "2026-02-03"}
BLOCK = {"name": "test block", "group": "substrate", "bearing_n_mm2": 6.0, "source": "crushed on the bench"}


def found(surveyed: Surveyed, question: str, called: str = "") -> list[Finding]:
    """The answers to one question, of one thing where its mark is given, in the order of their marks."""
    findings = [one for one in appraise(gather(surveyed.book, surveyed.site)) if one.question == question]
    named = [one for one in findings if called in {"", one.subject.called}]
    return sorted(named, key=lambda one: one.subject.called)


def joist(surveyed: Surveyed, face: str, **more: Any) -> str:
    """A joist of class C24 behind 25 mm of plaster, with 900 N agreed for it."""
    values = {"face": face, "mark": "J1", "sort": "joist", "material": "C24", "x_mm": 0, "z_mm": 900}
    size = {"width_mm": 5000, "height_mm": 100, "thickness_mm": 200, "behind_mm": 25, "grain": "level"}
    said = {"load_limit_n": 900, "load_said_by": "structural engineer, letter of May"}
    return surveyed.book.write("member", values | size | said | more)


def ceiling(surveyed: Surveyed) -> str:
    """The ceiling of the room, which is dry."""
    surveyed.book.write("room", {"damp": "dry"}, item=surveyed.room)
    size = {"width_mm": 5000, "height_mm": 4000}
    return surveyed.book.write(
        "face", {"room": surveyed.room, "name": "Ceiling", "mark": "R1-T", "sort": "ceiling"} | size
    )
