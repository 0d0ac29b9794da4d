"""The order in which the fittings of a site come down."""

from __future__ import annotations

import pytest

from fieldbook.gather import gather
from fieldbook.record.removal import removal_of


@pytest.fixture
def three(surveyed):
    """A rail, a panel that hangs on it, and a lamp over the panel."""
    rail = surveyed.fitting(mark="D1", minutes_to_remove=20)
    panel = surveyed.fitting(mark="D2", hangs_on=rail)
    lamp = surveyed.fitting(mark="D3", covers=[panel], minutes_to_remove=5)
    return surveyed, (rail, panel, lamp)


def order(surveyed):
    """The removal of the site."""
    return removal_of(gather(surveyed.book, surveyed.site))


def test_what_hangs_or_covers_comes_off_first(three):
    """The lamp, then the panel, then the rail; each says what must be off before it."""
    removal = order(three[0])
    told = [(step.stage, step.fitting.called, [one.called for one in step.after]) for step in removal.steps]
    assert told == [(1, "D3", []), (2, "D2", ["D3"]), (3, "D1", ["D2"])]
    assert removal.minutes == 25


def test_tools_are_those_of_the_fixings_still_there(three):
    """A step names each tool once, and none of fixings that are gone."""
    surveyed, (rail, _, _) = three
    for mark, tool, state in (("1", "spanner", "fitted"), ("2", "spanner", "fitted"), ("3", "chisel", "taken down")):
        surveyed.fixing(rail, mark=f"D1.{mark}", removal_tool=tool, state=state)
    assert order(surveyed).steps[-1].tools == ("spanner",)


def test_ring_is_told_by_name(three):
    """Fittings that each wait for the other are named in turn, and no order is pretended."""
    surveyed, (rail, _, lamp) = three
    surveyed.book.write("fitting", {"covers": [lamp]}, item=rail)
    removal = order(surveyed)
    assert removal.steps == ()
    names = [fitting.called for fitting in removal.ring]
    first = names.index("D3")
    assert names[first:] + names[:first] == ["D3", "D2", "D1"]


def test_what_is_gone_holds_nothing_up(three):
    """A fitting that was taken down is no step, and what it hung on need not wait for it."""
    surveyed, (_, panel, _) = three
    surveyed.book.write("fitting", {"state": "taken down"}, item=panel)
    assert [(step.stage, step.fitting.called) for step in order(surveyed).steps] == [(1, "D1"), (1, "D3")]
