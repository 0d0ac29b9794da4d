"""Every verdict of a site, worst first, as a list that can be worked down."""

from __future__ import annotations

from flask import Blueprint, render_template

from ..gather import gather
from ..verdicts import appraise, counts
from .books import book
from .repeat import repeated

blueprint = Blueprint("verdicts", __name__)


@blueprint.get("/site/<item:item>/verdicts")
def every(item: str) -> str:
    """All findings, each with its working, its source, and how to do it again by hand."""
    site = gather(book(), item)
    findings = appraise(site)
    repeats = [repeated(site, finding) for finding in findings]
    return render_template(
        "verdicts/every.html",
        one=site.item,
        site=site,
        findings=list(zip(findings, repeats, strict=True)),
        counts=counts(findings),
    )
