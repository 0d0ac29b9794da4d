"""The drawings of a site as files: each face and each room's plan, to look at (SVG) and for drawing programs (DXF)."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from ..book.site import Item, Site
from ..drawing.dxf import face_dxf, plan_dxf
from ..drawing.elevation import elevation
from ..drawing.room_plan import room_plan
from ..errors import UnknownItem
from ..findings import Finding
from .file_names import names_for

SVG, DXF = "svg", "dxf"
DRAWN = ("room", "face")


def drawing_of(site: Site, item: Item, findings: Sequence[Finding], form: str) -> str:
    """A face's elevation or a room's plan as the text of a file.

    form  "svg" or "dxf"
    Raises UnknownItem for anything else, and DxfMissing.
    """
    ways: dict[tuple[str, str], Callable[[], str]] = {
        ("face", SVG): lambda: elevation(site, item, findings),
        ("face", DXF): lambda: face_dxf(site, item),
        ("room", SVG): lambda: room_plan(site, item, findings),
        ("room", DXF): lambda: plan_dxf(site, item),
    }
    if (item.kind, form) not in ways:
        raise UnknownItem(
            f"There is no drawing of it as “{form}”.",
            "Choose svg or dxf of a face or a room.",
            field="form",
            value=form,
        )
    return str(ways[item.kind, form]())


def drawings_of(site: Site, findings: Sequence[Finding]) -> Iterator[tuple[str, str]]:
    """Name and text of every drawing of a site."""
    items = [item for kind in DRAWN for item in site.all(kind)]
    names = names_for(((item.id, item.title) for item in items), "drawing")
    for item in items:
        for form in (SVG, DXF):
            yield f"{names[item.id]}.{form}", drawing_of(site, item, findings, form)
