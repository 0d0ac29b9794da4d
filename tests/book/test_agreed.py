"""What somebody agreed to is what they had seen, whenever their word reaches the book."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from fieldbook.book.gathering import gather
from fieldbook.book.identity import uuid7
from tests.sites import Surveyed

YES = {"reference": "A1", "answer": "yes", "on": "2031-01-10", "words": "as drawn", "said_by": "harbour trust"}
PHONE = uuid7()


def agreed(surveyed: Surveyed, thing: str, base: int | None, **more: Any) -> Mapping[str, Any]:
    """The state of a thing that a yes counts for, given on a phone that had seen the book up to a revision."""
    values = {"site": surveyed.site, "items": [thing]} | YES | more
    ruling = surveyed.book.write("agreement", values, base=base, device=PHONE)
    return gather(surveyed.book, surveyed.site).then[ruling, thing]


def test_yes_is_to_what_its_giver_had_seen(surveyed: Surveyed) -> None:
    """The desk moves a rail after the keeper signed at the wall and before the phone sends: the old place is agreed."""
    rail = surveyed.fitting(x_mm=2000)
    seen = surveyed.book.revision()
    surveyed.book.write("fitting", {"x_mm": 2400}, item=rail)
    assert agreed(surveyed, rail, seen)["x_mm"] == 2000
    assert agreed(surveyed, rail, None)["x_mm"] == 2400


def test_yes_is_also_to_what_its_own_device_had_entered_before(surveyed: Surveyed) -> None:
    """Moved at the wall and signed there, both sent at once; what the same phone moves later is no part of it."""
    rail = surveyed.fitting(x_mm=2000)
    seen = surveyed.book.revision()
    surveyed.book.write("fitting", {"x_mm": 2100}, item=rail, base=seen, device=PHONE)
    assert agreed(surveyed, rail, seen)["x_mm"] == 2100
    surveyed.book.write("fitting", {"x_mm": 2500}, item=rail, device=PHONE)
    (state,) = gather(surveyed.book, surveyed.site).then.values()
    assert state["x_mm"] == 2100


def test_yes_that_names_a_state_is_to_that_one(surveyed: Surveyed) -> None:
    """A letter about the book as it was at a revision."""
    rail = surveyed.fitting(x_mm=2000)
    named = surveyed.book.revision()
    surveyed.book.write("fitting", {"x_mm": 2400}, item=rail)
    assert agreed(surveyed, rail, None, agreed_revision=named)["x_mm"] == 2000


def test_what_nobody_had_seen_is_not_agreed_to(surveyed: Surveyed) -> None:
    """A yes that names a thing which another device entered meanwhile has no state of it."""
    seen = surveyed.book.revision()
    rail = surveyed.fitting()
    values = {"site": surveyed.site, "items": [rail]} | YES
    ruling = surveyed.book.write("agreement", values, base=seen, device=PHONE)
    assert (ruling, rail) not in gather(surveyed.book, surveyed.site).then
