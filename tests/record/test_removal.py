"""The order in which the fittings of a site come down."""

from __future__ import annotations

import pytest

from fieldbook.book.gathering import gather
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
    assert sum(step.fitting.minutes_to_remove or 0 for step in removal.steps) == 25


def test_tools_are_those_of_the_fixings(three):
    """A step names each tool its fixings need, once."""
    surveyed, (rail, _, _) = three
    for mark, tool in (("1", "spanner"), ("2", "spanner"), ("3", "chisel")):
        surveyed.fixing(rail, mark=f"D1.{mark}", removal_tool=tool)
    assert order(surveyed).steps[-1].tools == ("chisel", "spanner")


def test_ring_is_told_by_name(three):
    """Fittings that each wait for the other are named in turn, and no order is pretended."""
    surveyed, (rail, _, lamp) = three
    surveyed.book.write("fitting", {"covers": [lamp]}, item=rail)
    removal = order(surveyed)
    assert removal.steps == ()
    assert all(f"“{mark} Rail”" in removal.problem for mark in ("D1", "D2", "D3"))


def test_what_is_gone_holds_nothing_up(three):
    """A fitting that was taken down is no step, and what it hung on need not wait for it."""
    surveyed, (_, panel, _) = three
    surveyed.book.write("fitting", {"state": "taken down"}, item=panel)
    assert [(step.stage, step.fitting.called) for step in order(surveyed).steps] == [(1, "D1"), (1, "D3")]


def test_within_a_stage_one_room_is_done_before_the_next(surveyed):
    """Things that stand in nobody's way are taken room by room, whichever was planned first."""
    size = {"sort": "wall", "width_mm": 5000, "height_mm": 3000}
    room = surveyed.book.write("room", {"site": surveyed.site, "mark": "R2", "name": "Store"})
    other = surveyed.book.write("face", {"room": room, "mark": "R2-N", "name": "North wall"} | size)
    for mark, face in (("D1", other), ("D2", surveyed.face), ("D3", other), ("D4", surveyed.face)):
        surveyed.fitting(mark=mark, face=face)
    surveyed.fitting(mark="D5", covers=[gather(surveyed.book, surveyed.site).all("fitting")[0].id])
    told = [(step.stage, step.fitting.called) for step in order(surveyed).steps]
    assert told == [(1, "D2"), (1, "D4"), (1, "D5"), (1, "D3"), (2, "D1")]
