"""Drawings on paper: they print without a complaint, at their true size, with their letters as text."""

from __future__ import annotations

import logging
from datetime import UTC, datetime, timedelta
from io import BytesIO

import pytest
from pypdf import PdfReader
from weasyprint import HTML

from fieldbook.checks.cautions import CAUTIONS
from fieldbook.checks.verdict import Word
from fieldbook.drawing.bow import bow
from fieldbook.drawing.climate_plot import Bound, Series, climate_plot
from fieldbook.drawing.detail import detail
from fieldbook.drawing.elevation import elevation
from fieldbook.drawing.key import key
from fieldbook.drawing.load_path import Carrier, Level, load_path
from fieldbook.drawing.room_plan import room_plan
from fieldbook.drawing.signs import hazard, sign
from fieldbook.findings import appraise
from tests.drawing.drawn import Wall

pytestmark = pytest.mark.slow

POINTS_PER_MM = 72 / 25.4
PAGE = "<style>@page { size: 210mm 297mm; margin: 10mm } svg { display: block } figure { margin: 0 }</style>"


@pytest.fixture
def wall() -> Wall:
    """A wall with something of everything."""
    wall = Wall()
    wall.change(wall.room, plan=[[0, 0], [4000, 0], [4000, 3000], [0, 3000]])
    surface = [[0, 300, 0], [2000, 300, -6], [4000, 300, 4]]
    wall.change(wall.face, start_x_mm=0, start_y_mm=3000, bearing_deg=0, surface=surface, floor=[[0, -20], [4000, 10]])
    for forbidden in ("drilling", "heat"):
        wall.zone(mark=f"K-{forbidden}", forbids=[forbidden])
    wall.limit()
    wall.hold()
    fitting = wall.fitting()
    for index, hole in enumerate(("none", "existing", "new")):
        wall.fixing(fitting, mark=f"D1.{index + 1}", x_mm=2100 + 300 * index, hole=hole, packers_mm=5)
    return wall


def everything(wall: Wall) -> list[str]:
    """One of each drawing."""
    findings = appraise(wall.site)
    start = datetime(2026, 1, 1, tzinfo=UTC)
    series = [Series("logger", [(start + timedelta(hours=hour), 50.0 + hour % 7) for hour in range(500)])]
    part = Carrier("D1.1 clamp", "90 N of 410 N", Word.WITHIN)
    return [
        elevation(wall.site, wall.face, findings),
        room_plan(wall.site, wall.room, findings),
        detail(wall.site, wall.site.all("fitting")[0], findings),
        bow(wall.site, wall.face),
        climate_plot("Humidity", "%", series, [Bound(65, above=True)]),
        load_path("Load path", [Level("Rail", [part], "181 N"), Level("Dado")]),
        key(),
        *[sign(word) for word in Word],
        *[hazard(caution) for caution in CAUTIONS],
    ]


def printed(drawings: list[str], **options: object) -> PdfReader:
    """The drawings as a PDF, read back."""
    body = "".join(f"<figure>{drawing}</figure>" for drawing in drawings)
    page = f'<!doctype html><html lang="en"><head><title>Drawings</title>{PAGE}</head><body>{body}</body></html>'
    return PdfReader(BytesIO(HTML(string=page).write_pdf(**options)))


def test_every_drawing_prints_without_a_complaint(wall: Wall, caplog: pytest.LogCaptureFixture) -> None:
    """What the renderer cannot draw it warns about; here it warns about nothing, tags included."""
    with caplog.at_level(logging.WARNING):
        printed(everything(wall), pdf_tags=True)
    assert [record.getMessage() for record in caplog.records] == []


def test_letters_of_a_drawing_are_text_in_print(wall: Wall) -> None:
    """A mark can be searched for."""
    text = (
        "".join(page.extract_text() for page in printed(everything(wall)[:1]).pages).replace(" ", "").replace("\n", "")
    )
    assert all(mark in text for mark in ("D1.1", "D1.2", "D1.3", "H1", "L1door", "scale1:50"))


def test_print_is_true_to_scale(wall: Wall) -> None:
    """The dimension line of the wall, 4,000 mm at 1:50, is 80 mm long on the page."""
    lengths: list[float] = []
    last: list[float] = []

    def visit(operator: bytes, operands: list[float], matrix: list[float], _: list[float]) -> None:
        if operator == b"m":
            last[:] = [float(operands[0]) * matrix[0], float(operands[1])]
        elif operator == b"l" and last and float(operands[1]) == last[1]:
            lengths.append(abs(float(operands[0]) * matrix[0] - last[0]) / POINTS_PER_MM)

    page = printed(everything(wall)[:1]).pages[0]
    page.extract_text(visitor_operand_before=visit)
    assert any(length == pytest.approx(80, abs=0.02) for length in lengths)
