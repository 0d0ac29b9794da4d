"""Drawings for drawing programs: true to the millimetre, each thing on its layer, sound to an independent reader."""

from __future__ import annotations

import re
from io import StringIO

import ezdxf
import pytest

from fieldbook.book.book import Book
from fieldbook.book.gathering import gather
from fieldbook.drawing.dxf import LAYERS, face_dxf, harmless, plan_dxf
from fieldbook.findings.geometry import place_of
from fieldbook.model.choices import STATES
from tests.record.furnished import furnish
from tests.sites import Surveyed

MM = 4  # $INSUNITS, DXF Reference


def opened(text: str) -> ezdxf.document.Drawing:
    """A file as another program reads it, found sound."""
    read = ezdxf.read(StringIO(text))
    audit = read.audit()
    assert (audit.errors, audit.fixes) == ([], [])
    assert read.header["$INSUNITS"] == MM
    assert {layer.dxf.name for layer in read.layers} >= LAYERS.keys()
    return read


def test_every_fixing_stands_at_its_place_on_the_layer_of_its_state(empty_book: Book) -> None:
    """Middle, radius of what touches and mark are those of the book, in mm from the datum."""
    site = gather(empty_book, furnish(empty_book).site)
    (face,) = [one for one in site.all("face") if one.mark == "R1-N"]
    space = opened(face_dxf(site, face)).modelspace()
    layers = {state: f"FIXINGS-{state.upper().replace(' ', '-')}" for state in STATES}
    marks = {tuple(text.dxf.insert)[:2]: text.dxf.text for text in space.query("TEXT") if "FIXINGS" in text.dxf.layer}
    circles = {tuple(c.dxf.center)[:2]: (c.dxf.radius, c.dxf.layer) for c in space.query("CIRCLE")}
    fixings = site.fixings_on(face)
    assert {place_of(fixing): fixing.mark for fixing in fixings} == marks
    for fixing in fixings:
        assert circles[place_of(fixing)] == (fixing.contact_radius_mm, layers[fixing.state])
    zone = next(iter(space.query('LWPOLYLINE[layer=="KEEP-OFF-ZONES"]')))
    assert [tuple(point[:2]) for point in zone.get_points()] == [(1000, 1400), (1500, 1400), (1500, 1900), (1000, 1900)]


def test_plan_holds_the_room_and_its_fittings(empty_book: Book) -> None:
    """The room's outline in its own coordinates, and its fittings before their face."""
    site = gather(empty_book, furnish(empty_book).site)
    space = opened(plan_dxf(site, site.all("room")[0])).modelspace()
    room = next(iter(space.query('LWPOLYLINE[layer=="ROOM"]')))
    assert [tuple(point[:2]) for point in room.get_points()] == [(0, 0), (8000, 0), (8000, 5000), (0, 5000)]
    (rail,) = space.query('LWPOLYLINE[layer=="FITTINGS-FITTED"]')
    ys = [point[1] for point in rail.get_points()]
    assert (min(ys), max(ys)) == (5000, pytest.approx(5000 + 32.5))  # cork 3.5 and rail 29 at most; y runs up here


def test_same_face_gives_the_same_bytes(surveyed: Surveyed) -> None:
    """A file tells nothing of when it was written."""
    site = gather(surveyed.book, surveyed.site)
    assert face_dxf(site, site[surveyed.face]) == face_dxf(site, site[surveyed.face])


@pytest.mark.parametrize(
    "name", ["%%c50", "a^Jb", "{\\H9x;big}", "\\U+0041", "=cmd|' /C calc'!A0", "0\n0\nEOF", "北の壁", "é" * 200, "../x"]
)
def test_words_are_no_commands_of_a_drawing_program(name: str) -> None:
    """Control codes, line breaks and paths are words on one line; a drawing with them is sound."""
    words = harmless(name)
    assert not re.search(r"[\x00-\x1f\\]|%%|\^(?! )", words)


def test_hostile_marks_reach_the_drawing_as_words(surveyed: Surveyed) -> None:
    """What a mark may hold by the rules of the book goes in and comes out on one line."""
    surveyed.fitting(mark="%%c<=cmd|'x'!A0", name="Rail")
    site = gather(surveyed.book, surveyed.site)
    read = opened(face_dxf(site, site[surveyed.face]))
    assert [text.dxf.text for text in read.modelspace().query("TEXT")] == ["% %c<=cmd|'x'!A0"]
