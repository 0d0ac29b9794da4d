"""What is made for a phase: parts of all fittings out of stock together, holes from one edge, hardware."""

from __future__ import annotations

from fieldbook.book.entering import enter
from fieldbook.book.makes import copy_lines, row
from fieldbook.book.site import gather
from fieldbook.findings.workshop import phases_of, workshop_of
from tests.sites import Surveyed


def furnished(surveyed: Surveyed) -> None:
    """A shelf of four boards of 400 mm from sheets of 900 by 410 mm, copied once; another fitting of no phase."""
    cut = {"parts": [["board", 400, 200, 2, "along"]], "stock_length_mm": 900, "stock_width_mm": 410, "kerf_mm": 3}
    shelf = surveyed.fitting(phase="2", x_mm=100, **cut)
    surveyed.fixing(shelf, size="M6", x_mm=130)
    surveyed.fixing(shelf, mark="D1.2", size="M6", x_mm=1050)
    site = gather(surveyed.book, surveyed.site)
    enter(surveyed.book, copy_lines(site, site[shelf], row(site[shelf], 1, [1200])), surveyed.book.folder)
    surveyed.fitting(mark="D9", name="Sign", z_mm=100)


def test_parts_of_all_fittings_come_out_of_the_stock_together(surveyed: Surveyed) -> None:
    """Four boards of 400 by 200 fit one sheet of 900 by 410, two rows of two, where each fitting alone takes one."""
    furnished(surveyed)
    site = gather(surveyed.book, surveyed.site)
    assert phases_of(site) == ["", "2"]
    (lot,) = workshop_of(site, "2").lots
    ((part, fittings),) = lot.parts
    assert (part.count, [one.mark for one in fittings], lot.spare) == (4, ["D1", "D2"], 0)
    assert lot.layout is not None
    assert lot.layout.needed == 1
    (more,) = workshop_of(site, "2", 10).lots
    assert more.layout is not None
    assert (more.spare, more.layout.needed) == (1, 2)


def test_what_is_made_alike_is_drilled_and_counted_together(surveyed: Surveyed) -> None:
    """Places from the left and the lower edge, once for all copies."""
    furnished(surveyed)
    made = workshop_of(gather(surveyed.book, surveyed.site), "2")
    (batch,) = made.batches
    assert [one.mark for one in batch.fittings] == ["D1", "D2"]
    assert [(hole.along_mm, hole.up_mm) for hole in batch.holes] == [(30, 40), (950, 40)]
    assert made.hardware == (("clamp, M6", 4),)


def test_stock_that_is_not_entered_is_told(surveyed: Surveyed) -> None:
    """The parts are listed all the same."""
    surveyed.fitting(parts=[["rail", 900, None, 1, "along"]])
    (lot,) = workshop_of(gather(surveyed.book, surveyed.site), "").lots
    assert lot.layout is None
    assert lot.refusal is not None
    assert lot.refusal.field == "stock_length_mm"
    assert [part.name for part, _ in lot.parts] == ["rail"]
