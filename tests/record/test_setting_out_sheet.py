"""The setting-out sheet: figures from the datum and above the floor, in the order things go up, true to scale."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pikepdf
import pytest

from fieldbook.book.gathering import gather
from fieldbook.book.site import Site
from fieldbook.cli import main
from fieldbook.errors import NotAChoice
from fieldbook.findings import appraise
from fieldbook.record.setting_out_sheet import SetOutFitting, level_marks, set_out, write_setting_out_sheet
from tests.sites import Surveyed

PT_PER_MM = 72 / 25.4
ENDS_OF_A_PATH = {"S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "n"}  # ISO 32000, table 59
FLOOR = [[0, -20], [5000, 30]]
LEANING = [[x, z, 100 - z / 30] for x in (0, 2500, 5000) for z in (0, 3000)]  # back by 1 in 30


@pytest.fixture
def planned(surveyed: Surveyed) -> Surveyed:
    """A rail of three clamps on a measured face, and a panel that hangs on it."""
    book = surveyed.book
    book.write("face", {"floor": FLOOR, "surface": LEANING, "datum": "Brass pin by the door."}, item=surveyed.face)
    rail = surveyed.fitting(mark="D2")
    surveyed.fixing(rail, mark="D2.1", z_mm=1510, torque_nm=2.5, removal_tool="spanner 10 mm")
    surveyed.fixing(rail, mark="D2.2", x_mm=1900, z_mm=1570)
    surveyed.fixing(rail, mark="D2.3", z_mm=1570)
    surveyed.fitting(mark="D1", name="Panel", z_mm=700, height_mm=780, hangs_on=rail)
    return surveyed


def read(surveyed: Surveyed, *stock_mm: float) -> tuple[Site, tuple[SetOutFitting, ...]]:
    """What is set out on its face."""
    site = gather(surveyed.book, surveyed.site)
    return site, set_out(site, site[surveyed.face], appraise(site), stock_mm)


def test_what_carries_comes_before_what_hangs_on_it(planned: Surveyed) -> None:
    """The order of taking down, from its end."""
    _, told = read(planned)
    assert [(one.number, one.fitting.mark, [other.mark for other in one.after]) for one in told] == [
        (1, "D2", []),
        (2, "D1", ["D2"]),
    ]


def test_heights_are_told_above_the_sloping_floor(planned: Surveyed) -> None:
    """z 1510 less the floor at x 1100, by hand: -20 + 50 × 1100 / 5000 = -9; at x 1900 it is -1."""
    _, (rail, _) = read(planned)
    assert [one.above_floor_mm for one in rail.fixings] == pytest.approx([1519, 1579, 1571])
    site, _ = read(planned)
    assert level_marks(site[planned.face]) == [(0, -20, 1020), (5000, 30, 970)]


def test_packers_are_told_by_number_from_the_box(planned: Surveyed) -> None:
    """60 mm higher, where the face lies 2 mm farther back, goes one of 2 mm; without a box, 2 mm of any."""
    _, (rail, _) = read(planned, 2, 5)
    told = {one.fixing.mark: one.packers.replace("\u00a0", " ") for one in rail.fixings}
    assert told == {"D2.1": "0 mm", "D2.3": "1 × 2", "D2.2": "0 mm"}
    _, (rail, _) = read(planned)
    assert [one.packers.replace("\u00a0", " ") for one in rail.fixings] == ["0 mm", "2 mm", "0 mm"]


def test_floor_and_surface_that_were_not_measured_are_not_made_up(surveyed: Surveyed) -> None:
    """Neither a height above the floor nor a packer is told."""
    surveyed.fixing(surveyed.fitting())
    _, (rail,) = read(surveyed)
    assert [(one.above_floor_mm, one.packers) for one in rail.fixings] == [(None, "")]


@pytest.mark.slow
@pytest.mark.parametrize(("paper", "size_mm"), [("A4", (297, 210)), ("A3", (420, 297))])
def test_printed_sheet_says_it_all_and_is_true_to_its_scale(
    planned: Surveyed, tmp_path: Path, paper: str, size_mm: tuple[int, int]
) -> None:
    """Figures, tools and torque stand on it; a face of 5000 mm is as long as its scale says, on paper held sideways."""
    file, given = tmp_path / "sheet.pdf", ["--paper", paper, "--packers", "2,5"]
    assert main(["set-out", str(planned.book.folder), planned.face, *given, "-o", str(file)]) == 0
    text = subprocess.run(["pdftotext", "-layout", file, "-"], check=True, capture_output=True, text=True).stdout
    for words in ("Brass pin by the door.", "D2.1", "1100", "1510", "1519", "spanner 10 mm", "2.5 N m", "not agreed"):
        assert words in text.replace("\u00a0", " ")
    scale = int(re.search(r"Elevation, scale 1:(\d+)", text)[1])  # type: ignore[index]
    with pikepdf.open(file) as pdf:
        page = pdf.pages[0]
        width, height = (float(page.mediabox[place]) / PT_PER_MM for place in (2, 3))
        assert (round(width), round(height)) == size_mm
        sizes = [(width / PT_PER_MM, height / PT_PER_MM) for width, height in outlines(page)]
    assert any(size == pytest.approx((5000 / scale, 3000 / scale), abs=0.05) for size in sizes)


def outlines(page: pikepdf.Page) -> list[tuple[float, float]]:
    """Width and height (pt) of each path drawn on a page, after all its matrices."""
    found: list[tuple[float, float]] = []

    def walk(owner: pikepdf.Object, matrix: pikepdf.Matrix) -> None:
        stack, points, start = [matrix], [], (0.0, 0.0)
        for instruction in pikepdf.parse_content_stream(owner):
            name, operands = str(instruction.operator), instruction.operands
            if name == "q":
                stack.append(stack[-1])
            elif name == "Q":
                stack.pop()
            elif name == "cm":
                stack[-1] = pikepdf.Matrix(*map(float, operands)) @ stack[-1]
            elif name in {"m", "l"}:
                at = stack[-1].transform((float(operands[0]), float(operands[1])))
                points += [start, at] if name == "l" else []  # a move alone draws nothing
                start = at
            elif name in ENDS_OF_A_PATH and points:
                across, up = zip(*points, strict=True)
                found.append((max(across) - min(across), max(up) - min(up)))
                points = []
            elif name == "Do":
                inner = owner.Resources.XObject[operands[0]]
                if inner.Subtype == "/Form":
                    own = pikepdf.Matrix(inner.Matrix) if "/Matrix" in inner else pikepdf.Matrix()
                    walk(inner, own @ stack[-1])

    walk(page, pikepdf.Matrix())
    return found


def test_other_paper_is_refused_with_the_papers_there_are(surveyed: Surveyed, tmp_path: Path) -> None:
    """Before anything is drawn."""
    site = gather(surveyed.book, surveyed.site)
    with pytest.raises(NotAChoice):
        write_setting_out_sheet(surveyed.book, site, site[surveyed.face], [], tmp_path / "a.pdf", paper="A2")
