"""Asking one question of a small site, for tests."""

from __future__ import annotations

from datetime import date

from fieldbook.book.gathering import gather
from fieldbook.findings import Finding
from fieldbook.findings.answering import find
from fieldbook.findings.questions import OF_KIND
from tests.sites import Surveyed

TODAY = date(2026, 6, 1)


def one(surveyed: Surveyed, question: str, item: str) -> Finding:
    """The finding of one question about one thing."""
    site = gather(surveyed.book, surveyed.site)
    (asked,) = [each for each in OF_KIND[site[item].kind] if each.name == question]
    return find(asked, site[item], site, TODAY)
