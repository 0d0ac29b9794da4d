"""What is asked before somebody signs how a building was left."""

from __future__ import annotations

from fieldbook.book.gathering import gather
from fieldbook.model.kinds import KINDS
from fieldbook.web.forms.of_statement import asked_first
from tests.sites import Surveyed


def test_statement_asks_for_words_where_nobody_said_what_was_found(surveyed: Surveyed) -> None:
    """Beside the words, naming the fixings; nothing is asked once it is said, or where all is entered."""
    rail = surveyed.fitting(state="taken down")
    fixing = surveyed.fixing(rail, mark="D1.1", state="taken down", taken_down_on="2029-05-31")
    site = gather(surveyed.book, surveyed.site)
    (asked,) = asked_first(KINDS["statement"], site, {"items": [rail]})
    assert (asked.field, asked.reason) == ("words", "What was found at D1.1 is not entered.")
    assert asked_first(KINDS["statement"], site, {"items": [rail], "words": "Behind the shelf."}) == []
    surveyed.book.write("fixing", {"trace_found": "none"}, item=fixing)
    assert asked_first(KINDS["statement"], gather(surveyed.book, surveyed.site), {"items": [rail]}) == []
