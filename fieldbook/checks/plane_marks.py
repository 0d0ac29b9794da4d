"""Marks of a face in a photograph: which of them fix a plane, and which are refused."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations
from typing import NamedTuple

from ..errors import Missing, OutOfRange, UnsuitableShape
from .limits import finite, within

LEAST, MOST = 4, 40
OFF_MM = (0.0, 1_000.0)
# How far a mark must lie from the line of two others to count as off it, as a share of the whole: practice, no source.
OFF_LINE = 0.03
Point = tuple[float, float]


class PlaneMark(NamedTuple):
    """One mark: in the picture, px; on the face, mm; and the standard error of its figures on the face, mm."""

    across_px: float
    down_px: float
    x_mm: float
    z_mm: float
    off_mm: float = 0.0


def refuse_unsuitable(marks: Sequence[PlaneMark], mark_px: float) -> None:
    """Refuse marks that fix no plane.

    marks    the marks, at least 4, at most 40
    mark_px  standard error of a mark in the picture, px

    Source: a plane is fixed by four points of which no three lie on a line, Hartley and Zisserman, Multiple View
    Geometry (2nd ed. 2004), section 4.1.1; a camera in front of a plane keeps which way round points lie.
    Raises Missing for fewer than four, OutOfRange, NotANumber, and UnsuitableShape for the same point twice, marks on a
    line, in crossing order, or the wrong way round.
    """
    if len(marks) < LEAST:
        reason = f"There are {len(marks)} marks; a face is found from four at least."
        raise Missing(reason, "Mark more points whose places on the face are known.", field="marks")
    if len(marks) > MOST:
        reason = f"There are {len(marks)} marks; at most {MOST} are taken."
        raise OutOfRange(
            reason, "Keep those that are known best and lie farthest apart.", field="marks", value=len(marks)
        )
    for mark in marks:
        for name, value in zip(PlaneMark._fields[:4], mark[:4], strict=True):
            finite(name, value, name.rpartition("_")[2])
        within("off_mm", mark.off_mm, *OFF_MM, "mm")
    picture, face = [mark[:2] for mark in marks], [mark[2:4] for mark in marks]
    _refuse_twice(picture, max(1.0, 2 * mark_px), "in the photograph", "px")
    _refuse_twice(face, 1.0, "on the face", "mm")
    nearest = {"in the photograph": 3 * mark_px, "on the face": 0.0}
    tolerances = []
    for points, where in ((picture, "in the photograph"), (face, "on the face")):
        tolerances.append(max(OFF_LINE * _extent(points), nearest[where]))
        _refuse_line(points, tolerances[-1], where)
    _refuse_order(picture, face, tolerances)


def _refuse_twice(points: Sequence[Point], least: float, where: str, unit: str) -> None:
    for one, other in combinations(range(len(points)), 2):
        apart = math.dist(points[one], points[other])
        if apart < least:
            raise UnsuitableShape(
                f"Marks {one + 1} and {other + 1} are the same point {where}: {apart:.1f} {unit} apart.",
                "Take one of them out, or correct it.",
                field="marks",
                value=apart,
            )


def _extent(points: Sequence[Point]) -> float:
    return max(math.dist(one, other) for one, other in combinations(points, 2))


def _refuse_line(points: Sequence[Point], tolerance: float, where: str) -> None:
    """All marks, or all but one, near one line leave the face free to turn about it."""
    for one, other in combinations(points, 2):
        off = [third for third in points if _height(one, other, third) > tolerance]
        if len(off) < 2:
            raise UnsuitableShape(
                f"{'All marks' if not off else 'All marks but one'} lie nearly on one line {where}.",
                "Mark points that spread over the face both ways: the corners of something wide and high.",
                field="marks",
            )


def _height(one: Point, other: Point, third: Point) -> float:
    """How far a point lies off the line of two."""
    return abs(_turn(one, other, third)) / math.dist(one, other)


def _turn(one: Point, other: Point, third: Point) -> float:
    """Twice the area of a triangle; its sign tells which way round it goes."""
    return (other[0] - one[0]) * (third[1] - one[1]) - (third[0] - one[0]) * (other[1] - one[1])


def _refuse_order(picture: Sequence[Point], face: Sequence[Point], tolerances: Sequence[float]) -> None:
    ways = set()
    for chosen in combinations(range(len(picture)), 3):
        seen, known = ([points[place] for place in chosen] for points in (picture, face))
        if _flat(seen, tolerances[0]) or _flat(known, tolerances[1]):
            continue
        ways.add((_turn(*seen) > 0) == (_turn(*known) > 0))  # z runs up, and the picture's y down
    if ways == {True}:
        raise UnsuitableShape(
            "The marks go the other way round in the photograph than on the face.",
            "Look whether left and right were exchanged, or the photograph is mirrored.",
            field="marks",
        )
    if True in ways:
        raise UnsuitableShape(
            "The marks are given in crossing order: they do not go round alike in the photograph and on the face.",
            "Look whether two of them were given each other’s places.",
            field="marks",
        )


def _flat(corners: Sequence[Point], tolerance: float) -> bool:
    one, other, third = corners
    return min(_height(one, other, third), _height(one, third, other), _height(other, third, one)) <= tolerance
