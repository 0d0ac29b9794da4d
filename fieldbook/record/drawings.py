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


def drawing_of(site: Site, item: Item, findings: Sequence[Finding], form: str, about: str) -> str:
    """A face's elevation or a room's plan as the text of a file.

    form   "svg" or "dxf"
    about  number, state and day of the sheet, which stand on it
    Raises UnknownItem for anything else, and DxfMissing.
    """
    ways: dict[tuple[str, str], Callable[[], str]] = {
        ("face", SVG): lambda: elevation(site, item, findings, about=about),
        ("face", DXF): lambda: face_dxf(site, item, about),
        ("room", SVG): lambda: room_plan(site, item, findings, about=about),
        ("room", DXF): lambda: plan_dxf(site, item, about),
    }
    if (item.kind, form) not in ways:
        raise UnknownItem(
            f"There is no drawing of it as “{form}”.",
            "Choose svg or dxf of a face or a room.",
            field="form",
            value=form,
        )
    return str(ways[item.kind, form]())


def drawings_of(site: Site, findings: Sequence[Finding], head: str) -> Iterator[tuple[str, str]]:
    """Name and text of every drawing of a site; `head` says of which state, and stands on each beside its number."""
    items = [item for kind in DRAWN for item in site.all(kind)]
    names = names_for(((item.id, item.title) for item in items), "drawing")
    for number, item in enumerate(items, 1):
        about = f"{site.item.name}, sheet {number} of {len(items)}, {head}."
        for form in (SVG, DXF):
            yield f"{names[item.id]}.{form}", drawing_of(site, item, findings, form, about)
