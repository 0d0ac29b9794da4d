"""The order of taking down, held against every relation it has to respect."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.calculations.catalogue import calculate
from fieldbook.checks import removal
from fieldbook.checks.removal import Thing, steps
from tests.checks.refusals import NO_FIGURES, refused

WALL = [
    {"name": "rail", "tools": ["hex key 4"], "people": 2, "minutes": 20},
    {"name": "panel", "hangs_on": ["rail"], "tools": ["hex key 4", "suction cup"], "people": 2, "minutes": 10},
    {"name": "lamp", "hangs_on": ["rail"], "covers": ["panel"], "people": 1, "minutes": 5},
    {"name": "bench"},
]


@st.composite
def things(draw):
    """Up to 30 things, each hanging on or covering things of a drawn order, so that no cycle can come about."""
    count = draw(st.integers(0, 30))
    order = draw(st.permutations(range(count)))
    items = []
    for place in range(count):
        later = [f"T{other}" for other in range(count) if order[other] > order[place]]
        some = st.lists(st.sampled_from(later), max_size=4, unique=True) if later else st.just([])
        items.append(Thing(f"T{place}", tuple(draw(some)), tuple(draw(some))))
    return items


@given(things())
def test_order_respects_every_relation(items):
    """Whatever hangs on a thing or covers it comes off before it, and everything comes off once."""
    taken = steps(items)
    places = {step.item.name: place for place, step in enumerate(taken)}
    stages = {step.item.name: step.stage for step in taken}
    assert sorted(places) == sorted(item.name for item in items)
    for item in items:
        for held in (*item.hangs_on, *item.covers):
            assert places[item.name] < places[held]
            assert stages[item.name] < stages[held]


@given(things())
def test_stages_are_as_early_as_can_be(items):
    """A thing comes down in the stage after the last of what has to be off before it, which the step names."""
    taken = steps(items)
    stages = {step.item.name: step.stage for step in taken}
    for step in taken:
        before = {item.name for item in items if step.item.name in (*item.hangs_on, *item.covers)}
        assert set(step.after) == before
        assert step.stage == 1 + max((stages[name] for name in before), default=0)
    assert [step.stage for step in taken] == sorted(stages.values())


@given(things())
def test_order_within_a_stage_is_as_given(items):
    """Things in no one's way come down in the order they are listed, the same every time."""
    given_ = {item.name: place for place, item in enumerate(items)}
    taken = steps(items)
    assert taken == sorted(taken, key=lambda step: (step.stage, given_[step.item.name]))


def test_cycle_is_told_by_name():
    """Things that wait for each other are named in turn."""
    items = [Thing("rail", hangs_on=("panel",)), Thing("lamp", covers=("rail",)), Thing("panel", covers=("rail",))]
    with refused("removal-cycle", "items") as caught:
        steps(items)
    assert isinstance(caught.value, removal.RemovalCycle)
    assert set(caught.value.value) == {"rail", "panel"}
    assert "“rail”" in caught.value.reason
    assert "“panel”" in caught.value.reason
    assert "“lamp”" not in caught.value.reason


def test_thing_that_hangs_on_itself_is_a_cycle():
    """A thing cannot be taken off before itself."""
    with refused("removal-cycle", "items") as caught:
        steps([Thing("rail", hangs_on=("rail",))])
    assert caught.value.value == ["rail", "rail"]


@pytest.mark.parametrize("field", ["hangs_on", "covers"])
def test_name_that_is_not_listed_is_refused(field):
    """A relation to something unknown is refused where it stands."""
    with refused("unknown-item", f"items[1].{field}") as caught:
        steps([Thing("rail"), Thing("panel", **{field: ("shelf",)})])
    assert caught.value.value == "shelf"


def test_name_given_twice_is_refused():
    """Two things of one name cannot be told apart."""
    with refused("unsuitable-shape", "items[1].name"):
        steps([Thing("rail"), Thing("rail")])


def test_ten_thousand_things_are_the_most():
    """A chain of 10 000 things is ordered; one more is refused."""
    chain = [Thing("T0"), *(Thing(f"T{place}", hangs_on=(f"T{place - 1}",)) for place in range(1, 10_000))]
    assert [step.stage for step in steps(chain)] == list(range(1, 10_001))
    with refused("out-of-range", "items"):
        steps([*chain, Thing("one more")])


def test_removal_from_the_command_line_gives_steps_with_tools_people_and_minutes():
    """The answer holds the order, and what each step and the whole takes."""
    answer = calculate("removal", {"items": WALL})
    assert answer["order"] == ["lamp", "bench", "panel", "rail"]
    assert answer["steps"][2] == {
        "stage": 2,
        "name": "panel",
        "after": ["lamp"],
        "tools": ["hex key 4", "suction cup"],
        "people": 2,
        "minutes": 10,
    }
    assert answer["steps"][3]["after"] == ["panel", "lamp"]
    assert [step["stage"] for step in answer["steps"]] == [1, 1, 2, 3]
    assert (answer["people"], answer["minutes"]) == (2, 35)
    assert answer["tools"] == ["hex key 4", "suction cup"]
    assert answer["not_known"] == ["bench"]
    assert "caution" in answer


def test_removal_of_nothing_takes_nothing():
    """An empty list is an empty order."""
    answer = calculate("removal", {"items": []})
    assert (answer["order"], answer["people"], answer["minutes"]) == ([], None, 0)


def test_minutes_or_people_alone_are_not_enough():
    """What is only half told is listed as not known."""
    answer = calculate("removal", {"items": [{"name": "a", "people": 1}, {"name": "b", "minutes": 1}]})
    assert answer["not_known"] == ["a", "b"]


def test_removal_with_bad_input_is_refused():
    """Numbers, names and lists are refused by their place."""
    for key, low, high in (("people", 0, 51), ("minutes", -0.1, 10_000.1)):
        for value, code in NO_FIGURES.values():
            if code != "missing":
                with refused(code, f"items[0].{key}"):
                    calculate("removal", {"items": [{"name": "a", key: value}]})
        for value in (low, high):
            with refused("out-of-range", f"items[0].{key}"):
                calculate("removal", {"items": [{"name": "a", key: value}]})
    for people, minutes in ((1, 0), (50, 10_000)):
        answer = calculate("removal", {"items": [{"name": "a", "people": people, "minutes": minutes}]})
        assert (answer["people"], answer["minutes"]) == (people, minutes)
    with refused("missing", "items[0].name"):
        calculate("removal", {"items": [{}]})
    with refused("unsuitable-text", "items[0].hangs_on[0]"):
        calculate("removal", {"items": [{"name": "a", "hangs_on": [3]}]})
    with refused("unsuitable-shape", "items[0].covers"):
        calculate("removal", {"items": [{"name": "a", "covers": "b"}]})
    with refused("missing", "items"):
        calculate("removal", {})
