"""A site at a glance."""

from __future__ import annotations

from fieldbook.book.site import gather
from fieldbook.findings import appraise
from fieldbook.web.shown.glance import glance_at
from tests.sites import Surveyed
from tests.web.conftest import Desk


def test_glance_counts_work_money_and_verdicts(surveyed: Surveyed) -> None:
    """States, budget against costs in its currency, other currencies apart."""
    book, site = surveyed.book, surveyed.site
    book.write("site", {"budget": 100, "currency": "EUR"}, site)
    for amount, currency, state in ((30, "EUR", "paid"), (80.5, "EUR", "expected"), (7, "SEK", "paid")):
        cost = {"site": site, "what": "x", "sort": "material", "amount": amount, "currency": currency, "state": state}
        book.write("cost", cost)
    surveyed.zone()
    surveyed.fixing(surveyed.fitting(x_mm=0, z_mm=0), x_mm=110, z_mm=50)
    gathered = gather(book, site)
    glance = glance_at(gathered, appraise(gathered))
    assert glance.states["fixing"] == {"planned": 1, "fitted": 0, "taken down": 0}
    euro, krona = glance.money
    assert (euro.currency, euro.paid, euro.expected, euro.left) == ("EUR", 30, 80.5, -10.5)
    assert (krona.currency, krona.left) == ("SEK", None)
    assert glance.words["over"] == 1
    assert glance.worst[0].subject.called == "D1.1"
    ((_, faces),) = glance.rooms
    assert [(face.id, word) for face, word in faces] == [(surveyed.face, "over")]


def test_new_site_begins_empty_and_says_so(desk: Desk) -> None:
    """The first page after the first form is of use."""
    site = desk.entered("/site/new", {"name": "Weigh house"})
    page = desk.get(f"/site/{site}").text
    assert "No rooms yet" in page
    assert "Missing from the record" in page
