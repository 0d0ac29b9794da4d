"""The workshop sheets of a phase."""

from __future__ import annotations

from tests.sites import Surveyed
from tests.web.conftest import Desk


def test_sheets_tell_what_is_cut_drilled_and_bought(surveyed: Surveyed, desk: Desk) -> None:
    """Of the phase that is asked for alone; a share for mistakes that is no number is told."""
    cut = {"parts": [["stave", 710, 95, 3, "along"]], "stock_length_mm": 2300, "stock_width_mm": 210, "kerf_mm": 3}
    fitting = surveyed.fitting(phase="2, autumn", **cut)
    surveyed.fixing(fitting, size="M5 × 45")
    surveyed.fitting(mark="D8", name="Sign", phase="3")
    page = f"/site/{surveyed.site}/workshop"
    told = desk.get(page).text
    for words in ("stave", "Cutting plan", "M5 × 45", "2, autumn"):
        assert words in told
    assert "Sign" not in told
    assert "Sign" in desk.get(f"{page}?phase=3").text
    assert desk.get(f"{page}?spare=some").status_code == 422
