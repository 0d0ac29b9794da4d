"""The phases of a site: what each brings, what it does to what stood before, and what that makes worse."""

from __future__ import annotations

from datetime import date

from flask import Blueprint, render_template

from ...book.gathering import gather
from ...findings.phase_order import FIRST, phases
from ...findings.phases import meets, worsened
from ..books import book

blueprint = Blueprint("phases", __name__)


@blueprint.get("/site/<item:item>/phases")
def every(item: str) -> str:
    """Phase by phase."""
    site, today = gather(book(), item), date.today()
    told = [
        (
            _called(phase),
            [one for one in site.all("fitting") if (one.phase or FIRST) == phase],
            [one for one in site.all("fitting") if phase and one.until_phase == phase],
            list(meets(site, phase)),
            worsened(site, phase, today),
        )
        for phase in phases(site)
    ]
    return render_template("phases/every.html", one=site.item, site=site, phases=told)


def _called(phase: str) -> str:
    return f"Phase {phase}" if phase[:1].isdigit() else phase or "No phase entered"
