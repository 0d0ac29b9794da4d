"""A fitting that covers an outer wall: how damp the wall gets behind it."""

from __future__ import annotations

from ..book.site import Item
from ..checks import covered_wall
from ..checks.days import in_words
from ..checks.verdict import STOP, Verdict, Word
from ..errors import FieldbookError, Missing, OutOfRange
from . import at_surface, geometry
from .asking import Asked
from .finding import Outcome, Recalculation
from .named import is_metal, is_wood, words
from .verdicts import badness

# What is narrower lets the wall's warmth round it: common practice, no source.
COVERS_MM = 300.0
# Layers of a build-up that are the gap behind a fitting and not a part of it.
GAP = frozenset(("packer", "packers", "pad", "pads", "gap", "air", "batten", "battens"))
OPEN = "The room’s air moves behind it, and the wall stays as warm there as beside it."
STANDS_FOR = "The cold day read on {on} stands for the coldest month; the air behind it is taken for shut in."

READS = {
    **at_surface.READS,
    **dict.fromkeys(
        ("material.group", "fitting.build_up", "fitting.open_behind", "fitting.width_mm", "fitting.height_mm"),
        "neither",
    ),
}


def covers(asked: Asked, fitting: Item) -> bool:
    """Whether a fitting covers so much of an outer wall that the wall behind it may get colder."""
    face = asked.site[fitting.face]
    return min(fitting.width_mm, fitting.height_mm) >= COVERS_MM and bool(asked.need(face, "outer_wall"))


def of_wall(asked: Asked, fitting: Item) -> Outcome:
    """The worst of the cold days read, with the fitting in front of the wall."""
    face = asked.site[fitting.face]
    if asked.need(fitting, "open_behind"):
        verdict = Verdict("covered-wall", Word.WITHIN, None, None, None, "", OPEN, covered_wall.SOURCE)
        return Outcome(verdict, face)
    cover = resistance(asked, fitting)
    found = [one for day in at_surface.together(asked, face) if (one := _behind(face, day, cover))]
    if not found:
        raise _lacking(asked, face)
    return min(found, key=lambda one: badness(one.verdict))


def _behind(face: Item, day: at_surface.Together, cover: float) -> Outcome | None:
    """What one day's readings say; None where it was not cold enough for them to say anything."""
    if day.outside_c is None:
        return None
    try:
        factor = covered_wall.temperature_factor(day.surface_c, day.inside_c, day.outside_c)
    except OutOfRange:
        return None
    least, most = covered_wall.FACTOR
    verdict = covered_wall.covered_wall_verdict(
        min(max(factor, least), most), cover, day.inside_c, day.humidity_pct, day.outside_c
    )
    if factor < least and verdict.word not in STOP:  # over stays over outside the method's range
        raise _as_cold_as_outside(face, day.at, factor)
    measured = {"surface_c": day.surface_c, "measured_inside_c": day.inside_c, "measured_outside_c": day.outside_c}
    then = {"inside_c": day.inside_c, "humidity_pct": day.humidity_pct, "outside_c": day.outside_c}
    again = Recalculation("covered-wall", measured | {"cover_m2k_w": cover} | then)
    return Outcome(verdict, face, assumed=(STANDS_FOR.format(on=in_words(day.at)),), again=again)


def _as_cold_as_outside(face: Item, at: str, factor: float) -> OutOfRange:
    reason = f"On {in_words(at)} the surface of {face.called} was read as cold as the air outside, which no wall is."
    return OutOfRange(reason, "Read surface, room and outside again, at one time.", field="factor", value=factor)


def _lacking(asked: Asked, face: Item) -> Exception:
    if face.outer_wall is None:
        reason = f"Nobody said whether {face.called} is an outer wall, which what covers it makes colder."
        return Missing(reason, "Enter it on the face.", field="outer_wall")
    words = f"the surface of {face.called} on a cold day, with the air of the room and the temperature outside"
    return asked.lack(asked.site[face.room], "reading", words, quantity="surface temperature")


def resistance(asked: Asked, fitting: Item) -> float:
    """What a fitting and the air shut in behind it keep of the room's warmth from the wall, m²K/W, at the most."""
    solid = [
        covered_wall.cover_resistance(thickness + (tolerance or 0), _group(asked, name), 0)
        for name, thickness, tolerance in asked.need(fitting, "build_up")
        if not words(name) & GAP
    ]
    return sum(solid) + max(covered_wall.AIR_LAYER.values())


def _group(asked: Asked, name: str) -> str:
    """The group of materials a layer is of; what is not known keeps as much warmth back as felt does."""
    try:
        group = geometry.known_materials(asked.site).lookup(name).group
    except FieldbookError:
        group = "species" if is_wood(name) else "metal" if is_metal(name) else "lining"
    return group if group in covered_wall.CONDUCTIVITY else "lining"
