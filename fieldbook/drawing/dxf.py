"""A face, or a room's plan, for drawing programs: DXF in true millimetres, each sort of thing on a layer of its own.

On a face, x and y of the drawing are x and z from its datum; in a plan they are the plan's own. Letters are marks
alone, with nothing in them that such a program takes for a command.

Source: AutoCAD DXF Reference, Autodesk, 2009 (AC1024), as ezdxf writes it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from io import StringIO
from typing import Any

from shapely import LineString, Polygon
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

from ..book.site import Item, Site
from ..errors import FieldbookError
from ..findings import geometry
from ..model.choices import FITTED, PLANNED, TAKEN_DOWN
from .elevation import drawn_part
from .face_items import limits_on
from .room_plan import is_placed, plan_point
from .section import swept
from .sheet import Sheet

LETTERS_MM = 40.0
MOST_LETTERS = 160
BELOW_MM, LINE_MM = 400.0, 90.0  # from what is drawn down to the words about the sheet, and between their lines
BLACK, RED, BLUE, GREY = 7, 1, 5, 8  # of the colours by number
LAYERS = {
    "FACE": (BLACK, "CONTINUOUS"),
    "FLOOR": (BLACK, "CONTINUOUS"),
    "DATUM": (BLACK, "CONTINUOUS"),
    "KEEP-OFF-ZONES": (RED, "CONTINUOUS"),
    "KEEP-OFF-MARGINS": (RED, "DASHED"),
    "CLEARANCE-LIMITS": (RED, "DASHDOT"),
    "BOARDS-AND-TIMBERS": (GREY, "CONTINUOUS"),
    "EXISTING-HOLDS": (GREY, "CONTINUOUS"),
    "FITTINGS-PLANNED": (BLUE, "CONTINUOUS"),
    "FITTINGS-FITTED": (BLACK, "CONTINUOUS"),
    "FITTINGS-TAKEN-DOWN": (GREY, "DASHED"),
    "FIXINGS-PLANNED": (BLUE, "CONTINUOUS"),
    "FIXINGS-FITTED": (BLACK, "CONTINUOUS"),
    "FIXINGS-TAKEN-DOWN": (GREY, "DASHED"),
    "ROOM": (BLACK, "CONTINUOUS"),
    "SHEET": (BLACK, "CONTINUOUS"),
}
OF_STATE = {PLANNED: "PLANNED", FITTED: "FITTED", TAKEN_DOWN: "TAKEN-DOWN"}
LEAST_DEEP_MM = 20.0  # a fitting without a build-up, in a plan

Points = Iterable[tuple[float, float]]


class DxfMissing(FieldbookError):
    """The library that writes DXF is not on this machine."""

    code = "dxf-missing"


def face_dxf(site: Site, face: Item, about: str = "") -> str:
    """A face as the text of a DXF file; raises DxfMissing.

    about  number, state and day of the sheet
    """
    made = _Dxf()
    part = drawn_part(face)
    made.words((part.x_from, part.z_from), face.title, about)
    made.line("FACE", _corners(geometry.face_stretch(face)), closed=True)
    if face.floor:
        made.line("FLOOR", geometry.floor_of(face))
    made.line("DATUM", [(-30, 0), (30, 0)])
    made.line("DATUM", [(0, -30), (0, 30)])
    for zone in site.of(face, "zone"):
        outline = Polygon(zone.outline)
        made.shape("KEEP-OFF-ZONES", outline, zone.called)
        if zone.margin_mm:
            made.shape("KEEP-OFF-MARGINS", outline.buffer(zone.margin_mm, quad_segs=8))
    made.limits(site, face)
    for member in site.of(face, "member"):
        made.line("BOARDS-AND-TIMBERS", _corners(geometry.fitting_stretch(member)), member.called, closed=True)
    for hold in site.of(face, "hold"):
        made.circle("EXISTING-HOLDS", (hold.x_mm, hold.z_mm), (hold.diameter_mm or 10) / 2, hold.called)
    for fitting in site.of(face, "fitting"):
        layer = f"FITTINGS-{OF_STATE[fitting.state]}"
        made.line(layer, geometry.fitting_outline(fitting), fitting.called, closed=True)
    for fixing in site.fixings_on(face):
        layer = f"FIXINGS-{OF_STATE[fixing.state]}"
        made.circle(layer, geometry.place_of(fixing), fixing.contact_radius_mm, fixing.called)
    return made.text()


def plan_dxf(site: Site, room: Item, about: str = "") -> str:
    """A room's plan as the text of a DXF file; raises DxfMissing.

    about  number, state and day of the sheet
    """
    made = _Dxf()
    corners = room.plan or [[0, 0]]
    made.words((min(x for x, _ in corners), min(y for _, y in corners)), room.title, about)
    if room.plan:
        made.line("ROOM", [(x, y) for x, y in room.plan], room.called, closed=True)
    for face in filter(is_placed, site.of(room, "face")):
        whole = geometry.face_stretch(face)
        ends = [plan_point(face, x, 0) for x in (whole.x_from, whole.x_to)]
        made.line("FACE", ends, face.called)
        for fitting in site.of(face, "fitting"):
            deep = max(geometry.projection_of(fitting) or 0, LEAST_DEEP_MM)
            left, right = fitting.x_mm, fitting.x_mm + fitting.width_mm
            corners = [plan_point(face, *corner) for corner in ((left, 0), (right, 0), (right, deep), (left, deep))]
            made.line(f"FITTINGS-{OF_STATE[fitting.state]}", corners, fitting.called, closed=True)
        made.leaves(site, face)
    return made.text()


def _corners(part: Any) -> list[tuple[float, float]]:
    return [(part.x_from, part.z_from), (part.x_to, part.z_from), (part.x_to, part.z_to), (part.x_from, part.z_to)]


def harmless(words: str) -> str:
    """Words on one line, without what a drawing program takes for a control code."""
    words = "".join(letter if letter.isprintable() else " " for letter in words)
    return words.replace("%%", "% %").replace("^", "^ ").replace("\\", "/")[:MOST_LETTERS]


class _Dxf:
    """A drawing on its way, with all its layers; coordinates in mm."""

    def __init__(self) -> None:
        try:
            import ezdxf
            from ezdxf import units
        except ImportError:
            remedy = "Bring it: pip install ezdxf, in the environment Fieldbook runs in."
            raise DxfMissing("Drawings as DXF need the library ezdxf, which is not here.", remedy) from None
        ezdxf.options.write_fixed_meta_data_for_testing = True  # the same face gives the same bytes
        self.document = ezdxf.new("R2010", setup=["linetypes"])
        self.document.units = units.MM
        for name, (colour, dashes) in LAYERS.items():
            self.document.layers.add(name, color=colour, linetype=dashes)
        self.space = self.document.modelspace()

    def words(self, corner: tuple[float, float], title: str, about: str) -> None:
        """What the sheet is, below the lower left corner of what is drawn, where somebody has said so."""
        for number, words in enumerate((title, about) if about else ()):
            self._letters("SHEET", words, (corner[0], corner[1] - BELOW_MM - number * LINE_MM))

    def line(self, layer: str, points: Points, words: str = "", *, closed: bool = False) -> None:
        """Straight lines through points."""
        corners = list(points)
        if len(corners) > 1:
            self.space.add_lwpolyline(corners, close=closed, dxfattribs={"layer": layer})
            self._letters(layer, words, corners[0])

    def circle(self, layer: str, middle: tuple[float, float], radius: float, words: str) -> None:
        """A circle, its middle as a point, and letters that begin there."""
        self.space.add_point(middle, dxfattribs={"layer": layer})
        if radius > 0:
            self.space.add_circle(middle, radius, dxfattribs={"layer": layer})
        self._letters(layer, words, middle)

    def shape(self, layer: str, shape: BaseGeometry, words: str = "") -> None:
        """The edges of areas, or lines."""
        for part in getattr(shape, "geoms", [shape]):
            if isinstance(part, Polygon):
                for ring in (part.exterior, *part.interiors):
                    self.line(layer, ring.coords[:-1], words, closed=True)
                    words = ""  # told once
            elif isinstance(part, LineString):
                self.line(layer, part.coords, words)
                words = ""

    def limits(self, site: Site, face: Item) -> None:
        """What must stay free, by its edges, as the elevation has them."""
        part = drawn_part(face)
        sheet = Sheet(1, (0.0, 0.0), part, (0, 0, 0, 0), interactive=False)
        for limit, edge, _ in limits_on(sheet, site, face):
            on_face = affine_transform(edge, [1, 0, 0, -1, part.x_from, part.z_to])
            self.shape("CLEARANCE-LIMITS", on_face, limit.called)

    def leaves(self, site: Site, face: Item) -> None:
        """What the leaves of a face sweep, in its room's plan."""
        angle = math.radians(face.bearing_deg)
        turn = [math.cos(angle), math.sin(angle), math.sin(angle), -math.cos(angle), face.start_x_mm, face.start_y_mm]
        for limit in site.of(face, "limit"):
            try:
                leaf = geometry.limit_value(limit, face).leaf
            except FieldbookError:
                continue  # the elevation says why
            if leaf:
                self.shape("CLEARANCE-LIMITS", affine_transform(swept(leaf), turn), limit.called)

    def _letters(self, layer: str, words: str, at: tuple[float, float]) -> None:
        if words:
            attributes = {"layer": layer, "insert": at, "height": LETTERS_MM}
            self.space.add_text(harmless(words), dxfattribs=attributes)

    def text(self) -> str:
        """The file."""
        file = StringIO()
        self.document.write(file)
        return file.getvalue()
