"""The list of all verdicts of a site, and doing one again by hand."""

from __future__ import annotations

import json
import re

import pytest

from fieldbook.checks.calculations import calculate
from fieldbook.gather import gather
from fieldbook.verdicts import appraise
from fieldbook.web.repeat import repeated
from tests.sites import Surveyed
from tests.web.conftest import Desk


def crowded(surveyed: Surveyed) -> None:
    """A site with a verdict of each word."""
    surveyed.zone()
    surveyed.zone(mark="K2", forbids=["drilling"], outline=[[2000, 0], [2100, 0], [2100, 100], [2000, 100]])
    surveyed.limit()
    fitting = surveyed.fitting(x_mm=0)
    surveyed.fixing(fitting, x_mm=110, z_mm=50)
    surveyed.fixing(fitting, mark="D1.2", x_mm=134, z_mm=50)
    surveyed.fixing(
        fitting, mark="D1.3", x_mm=1980, z_mm=50, hole="new", trace="a new hole in old fabric", penetration_mm=30
    )
    surveyed.fixing(
        fitting, mark="D1.4", x_mm=1800, z_mm=50, hole="new", diameter_mm=6, trace="a new hole in old fabric"
    )


def test_list_runs_from_worst_to_best_with_working_and_source(surveyed: Surveyed, desk: Desk) -> None:
    """Over, not known, close, within; every one says where its method comes from."""
    crowded(surveyed)
    page = desk.get(f"/site/{surveyed.site}/verdicts").text
    words = re.findall(r'<li class="finding ([\w-]+)"', page)
    order = ["over", "not-known", "close", "within"]
    assert words == sorted(words, key=order.index)
    assert set(words) == set(order)
    assert page.count("Source: ") == len(words)


@pytest.mark.parametrize("check", ["keep-off", "clearance"])
def test_verdict_done_again_by_hand_gives_the_same_figure(surveyed: Surveyed, check: str) -> None:
    """What the page says to type leads to the figure it shows."""
    crowded(surveyed)
    site = gather(surveyed.book, surveyed.site)
    done = 0
    for finding in appraise(site):
        if finding.verdict.check == check and (again := repeated(site, finding)):
            name, payload = again
            result = calculate(name, json.loads(payload))
            if check == "keep-off":
                assert result["distance_mm"] == pytest.approx(finding.verdict.figure, abs=0.1)  # shown to 0.1 mm
            else:
                clear = [depth for depth in result["clear_mm"] if depth is not None]
                assert min(clear) >= finding.verdict.limit  # single places never leave less than the whole stretch
            done += 1
    assert done
