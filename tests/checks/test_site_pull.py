"""Pulls on the spot and stated loads, held against published rules of sampling and worked figures."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks import site_pull, stated_hold
from fieldbook.checks.site_pull import PullPlan
from fieldbook.checks.verdict import Word
from tests.checks.refusals import check_limits, refused

WORDS = list(Word)
HELD = {"pulled_n": 600.0, "held": True, "on": "2026-05-04", "by": "fitter"}
SAID = {"by": "keeper", "source": "drawing of 1988", "on": "2026-03-02"}


# BS 8539:2012, Annex B.3 (second hand): 2.5 % and at least 3 at 1.5 times, 5 % at 1.25 times; worked apart.
@pytest.mark.parametrize(
    ("count", "share_pct", "failed", "expected"),
    [
        (80, 2.5, 0, PullPlan(3, 600.0)),
        (200, 2.5, 0, PullPlan(5, 600.0)),
        (200, 5.0, 0, PullPlan(10, 500.0)),
        (80, 2.5, 1, PullPlan(6, 600.0)),
        (200, 2.5, 1, PullPlan(10, 600.0)),
        (200, 2.5, 2, PullPlan(200, 600.0)),
        (2, 2.5, 0, PullPlan(2, 600.0)),
    ],
)
def test_sample_and_load_are_those_of_the_published_rule(count, share_pct, failed, expected):
    """So many are pulled, so hard; more after one failure, all of them after two."""
    assert site_pull.plan(count, 400, share_pct, failed) == expected


# Five failures at 2.1, 2.6, 1.8, 3.0, 2.5 kN: worked apart; k 3.40 for five tests (ETAG 001, from memory).
def test_failures_agree_with_worked_figures():
    """Mean 2.40, least 1.80, a quarter 0.60, spread 0.4637 and 5 % value 0.82 kN."""
    found = site_pull.failures([2100, 2600, 1800, 3000, 2500])
    assert (found.mean_n, found.least_n, found.quarter_n) == pytest.approx((2400, 1800, 600))
    assert found.spread_n == pytest.approx(463.7, abs=0.05)
    assert found.low_n == pytest.approx(2400 - 3.40 * 463.68, abs=0.5)
    assert found.low_n == pytest.approx(820, abs=5)  # printed as 0.82 kN


def test_fewer_than_five_failures_say_nothing():
    """Four tests are refused, more than ten are read as cautiously as ten."""
    with refused("out-of-range", "loads_n"):
        site_pull.failures([2000, 2100, 2200, 2300])
    many = site_pull.failures([2000, 2400] * 10)
    assert many.low_n == pytest.approx(many.mean_n - 2.568 * many.spread_n)
    assert site_pull.failures([10, 10, 10, 10, 4000]).low_n == 0


@pytest.mark.parametrize(
    ("loads", "changes", "word"),
    [
        ((200, 0), {}, Word.WITHIN),
        ((300, 90), {}, Word.CLOSE),
        ((300, 101), {}, Word.NOT_KNOWN),
        ((200, 0), {"held": False}, Word.OVER),
        ((0, 0), {"held": False}, Word.OVER),
        ((200, 0), {"on": ""}, Word.NOT_KNOWN),
        ((200, 0), {"by": " "}, Word.NOT_KNOWN),
    ],
)
def test_pull_shows_this_fixing_on_that_day(loads, changes, word):
    """A pull of 600 N shows 400 N, on that day, by that person; not pulled hard enough shows nothing."""
    found = site_pull.verdict(*loads, gives_slowly=False, **{**HELD, **changes})
    assert found.word is word
    if word is Word.WITHIN:
        assert found.limit == 400
        assert "4\u00a0May 2026" in found.sentence


def test_pull_on_wood_does_not_settle_what_hangs_for_good():
    """In wood and glue a pull settles what people add, not what stays."""
    lasting = site_pull.verdict(100, 0, gives_slowly=True, **HELD)
    assert (lasting.word, lasting.missing) == (Word.NOT_KNOWN, ("permanent_n",))
    assert site_pull.verdict(0, 100, gives_slowly=True, **HELD).word is Word.WITHIN


@given(st.floats(0, 500), st.floats(0, 500), st.floats(0, 900), st.booleans(), st.booleans(), st.floats(0, 300))
def test_weaker_evidence_never_gets_a_better_word(permanent, people, pulled, held, slowly, more):
    """More load, a smaller pull, one that gave way and slow material never improve the word."""

    def rank(permanent: float, people: float, pulled: float, held: bool, slowly: bool) -> int:
        given_ = {**HELD, "pulled_n": pulled, "held": held}
        return WORDS.index(site_pull.verdict(permanent, people, gives_slowly=slowly, **given_).word)

    base = rank(permanent, people, pulled, held, slowly)
    assert rank(permanent + more, people, pulled, held, slowly) <= base
    assert rank(permanent, people + more, pulled, held, slowly) <= base
    assert rank(permanent, people, max(0, pulled - more), held, slowly) <= base
    assert rank(permanent, people, pulled, False, slowly) <= base
    assert rank(permanent, people, pulled, held, True) <= base


def test_stated_load_counts_with_its_author_source_and_day():
    """A stated working load is held against loads as they are; without who, what from or when it is not known."""
    found = stated_hold.stated(200, 100, 500, **SAID)
    assert (found.word, found.figure, found.limit) == (Word.WITHIN, 300, 500)
    assert "keeper" in found.sentence
    assert stated_hold.stated(400, 101, 500, **SAID).word is Word.OVER
    for missing in SAID:
        bare = stated_hold.stated(200, 100, 500, **{**SAID, missing: ""})
        assert (bare.word, bare.missing) == (Word.NOT_KNOWN, (missing,))
    assert stated_hold.stated(200, 100, None, **SAID).missing == ("stated_n",)


@pytest.mark.parametrize("kind", ["magnet", "hook and loop", "adhesive pad", "glue", "plug", "hook", "strap"])
def test_devices_without_a_published_figure_are_not_known(kind):
    """What no code has a figure for is not known, with the reason."""
    found = stated_hold.untested(kind, 10, 0)
    assert (found.word, found.missing) == (Word.NOT_KNOWN, ("stated_n",))
    assert stated_hold.device(kind).why in found.sentence


@pytest.mark.parametrize("kind", ["wedge", "prop", "weight"])
def test_what_takes_pressure_alone_carries_no_pull(kind):
    """A wedge, prop or weight is over under any pull, even one it once held, and within under none."""
    assert stated_hold.untested(kind, 1, 0).word is Word.OVER
    assert stated_hold.untested(kind, 0, 0).word is Word.WITHIN
    assert stated_hold.tested(kind, 1, 0, in_wood=False, **HELD).word is Word.OVER


@pytest.mark.parametrize(
    ("kind", "in_wood", "word"),
    [
        ("magnet", False, Word.WITHIN),
        ("plug", False, Word.WITHIN),
        ("hook", True, Word.NOT_KNOWN),
        ("adhesive pad", False, Word.NOT_KNOWN),
        ("hook and loop", False, Word.NOT_KNOWN),
    ],
)
def test_tested_device_is_known_unless_it_lets_go_slowly(kind, in_wood, word):
    """A pull settles a magnet or a plug in masonry that day, not what wood or glue holds for good."""
    assert stated_hold.tested(kind, 100, 0, in_wood=in_wood, **HELD).word is word


# A plug maker's page (second hand): 2 and 4 depths in masonry, 1 and 2 in concrete.
def test_plugs_keep_twice_as_far_in_masonry_as_in_concrete():
    """A plug 50 deep stays 100 from an edge and 200 from the next in masonry, half that in concrete."""
    assert stated_hold.plug_distances_mm(50, in_concrete=False) == {"edge": 100, "spacing": 200}
    assert stated_hold.plug_distances_mm(50, in_concrete=True) == {"edge": 50, "spacing": 100}


def test_loads_and_words_outside_the_range_are_refused():
    """Loads beyond a building's, another share and another device are refused by name."""
    check_limits(site_pull.plan, {"count": 80, "action_n": 400.0, "share_pct": 2.5, "failed": 0}, "action_n", 0, 1e6)
    with refused("not-a-choice", "share_pct"):
        site_pull.plan(80, 400, 3, 0)
    with refused("not-a-choice", "kind"):
        stated_hold.untested("spell", 1, 0)
    check_limits(stated_hold.stated, {"permanent_n": 1.0, "people_n": 1.0, "stated_n": 5.0, **SAID}, "stated_n", 0, 1e6)
