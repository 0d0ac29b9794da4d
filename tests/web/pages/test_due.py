"""What is due, at the desk: overdue first, and the form that enters what was done."""

from __future__ import annotations

import re
from datetime import date, timedelta
from html import unescape

from tests.sites import Surveyed
from tests.web.conftest import Desk


def test_what_was_done_is_entered_from_the_list_and_leaves_it(surveyed: Surveyed, desk: Desk) -> None:
    """The form knows the task; saved, the task is due at its next round, and a refusal asks for the reason."""
    book, site = surveyed.book, surveyed.site
    today = date.today()
    late = (today - timedelta(days=40)).isoformat()
    book.write("task", {"site": site, "what": "Dust the rail", "every_months": 12, "first_on": late, "who": "keeper"})
    page = desk.get(f"/site/{site}/due").text
    assert page.index("Overdue") < page.index("Dust the rail")
    address = unescape(re.search(r'<a href="([^"]*new/work[^"]*)">Done, or why not', page)[1])
    form = desk.get(address).text
    assert 'value="Dust the rail"' in form
    desk.entered(address, {"outcome": "done", "on": today.isoformat()})
    page = desk.get(f"/site/{site}/due").text
    assert "Overdue" not in page
    assert page.index("Later") < page.rindex("Dust the rail")


def test_what_a_wrong_clock_dated_is_named_and_hides_nothing(surveyed: Surveyed, desk: Desk) -> None:
    """Work of next year leaves the task overdue, and stands on the page as dated ahead."""
    book, site = surveyed.book, surveyed.site
    task = book.write("task", {"site": site, "what": "Dust the rail", "first_on": "2020-02-29"})
    ahead = (date.today() + timedelta(days=300)).isoformat()
    work = {"site": site, "what": "Dusted", "sort": "care", "task": task, "on": ahead, "outcome": "done"}
    book.write("work", work)
    page = desk.get(f"/site/{site}/due").text
    assert page.index("Dated after today") < page.index("Dusted") < page.index("Overdue")
