"""A face laid flat, under its elevation: whoever knows the wall finds it in the drawing."""

from __future__ import annotations

import re

from ..book.site import Item, Site
from . import drafting as d
from .elevation import drawn_part
from .rectified import plane_or_none

_HEAD = re.compile(r"</title>")


def photographs_under(site: Site, face: Item) -> list[Item]:
    """The photographs that measure on a face, and so can lie under its drawing; the latest first."""
    those = (one for one in site.all("photograph") if one.plane_face == face.id and plane_or_none(one))
    return sorted(those, key=lambda one: (one.taken_at or "", one.id), reverse=True)


def box_under(drawing: str, face: Item) -> tuple[float, float, float, float]:
    """Where the drawn part of a face lies in its elevation: left, top, width and height, in mm of paper."""
    scale, left, top = (
        float(re.search(rf'data-{name}="([^"]+)"', drawing)[1])  # type: ignore[index]
        for name in ("scale", "left-mm", "top-mm")
    )
    part = drawn_part(face)
    size = (part.x_to - part.x_from) / scale, (part.z_to - part.z_from) / scale
    return (part.x_from - left) / scale, (top - part.z_to) / scale, *size


def underlaid(drawing: str, face: Item, address: str) -> d.Drawn:
    """An elevation with the picture at an address under its lines; it shows the whole of the drawn part of the face."""
    x, y, width, height = box_under(drawing, face)
    picture = d.element("image", href=address, x=x, y=y, width=width, height=height, preserveAspectRatio="none")
    return d.Drawn(_HEAD.sub(lambda end: end[0] + picture, drawing, count=1))
