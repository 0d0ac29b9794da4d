"""What is dated ahead settles nothing today: the questions are asked on 1 June 2026."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.book.gathering import gather
from fieldbook.checks.verdict import Word
from fieldbook.findings.at_point import answer
from tests.findings.asked import TODAY, one
from tests.findings.climate import JANUARY, JULY, hours, log_file, read
from tests.findings.hung import HUNG, STATED
from tests.sites import Surveyed

COME, TO_COME = "2026-06-01", "2026-06-02"


def looks(surveyed: Surveyed, on: str) -> None:
    """Everything was looked for in the room on a day."""
    surveyed.looked()
    rows = gather(surveyed.book, surveyed.site)[surveyed.room].looked_for
    surveyed.book.write("room", {"looked_for": [[*row[:3], on] for row in rows]}, item=surveyed.room)


def rail(surveyed: Surveyed, **more: Any) -> str:
    """A hook on stone that carries 20 kg."""
    surveyed.book.write("face", {"layers": [["limestone", 400, "old"]]}, item=surveyed.face)
    hung = surveyed.fitting(**HUNG | {"centre_out_mm": 0})
    return surveyed.fixing(hung, sort="hook", x_mm=1200, z_mm=1150, adhesive=0, **more)


@pytest.mark.parametrize("question", ["before-hole", "keep-off", "clearance"])
def test_look_of_a_day_to_come_is_none_yet(surveyed: Surveyed, question: str) -> None:
    """On its day it counts; the day before, the answer says of what day it is."""
    hole = surveyed.fixing(surveyed.fitting(), hole="new", trace="a new hole in old fabric", stands_out_mm=20)
    surveyed.book.write("face", {"surface": [[0, 0, 0], [3000, 0, 0], [0, 2400, 0]]}, item=surveyed.face)
    surveyed.book.write("fixing", {"adhesive": 0, "diameter_mm": 6, "penetration_mm": 20}, item=hole)
    looks(surveyed, COME)
    assert one(surveyed, question, hole).word is Word.WITHIN
    looks(surveyed, TO_COME)
    found = one(surveyed, question, hole)
    assert found.word is Word.NOT_KNOWN
    assert "dated 2\N{NO-BREAK SPACE}June 2026, a day that has not come" in found.verdict.sentence


def test_look_of_a_day_to_come_leaves_nothing_fine_at_a_point(surveyed: Surveyed) -> None:
    """Later work with nothing against it, and the same with looks dated a day ahead."""
    surveyed.book.write("face", {"layers": [["brick", 103, "later"]]}, item=surveyed.face)
    surveyed.book.write("site", {"asks_about_later_work": 0}, item=surveyed.site)
    for on, found in ((COME, "nothing against it"), (TO_COME, "not known")):
        looks(surveyed, on)
        site = gather(surveyed.book, surveyed.site)
        said = answer(site, site[surveyed.face], 500, 500, 5.0, today=TODAY)
        assert {act.answer for act in said.acts} == {found}


def test_way_out_that_is_to_be_looked_for_is_not_known(surveyed: Surveyed) -> None:
    """Whether somebody has to decide waits for the look."""
    rail(surveyed)
    fitting = gather(surveyed.book, surveyed.site).all("fitting")[0].id
    surveyed.book.write("fitting", {"gives": ["nothing"], "climbable": 0}, item=fitting)
    for on, word in ((COME, Word.DOES_NOT_APPLY), (TO_COME, Word.NOT_KNOWN)):
        looks(surveyed, on)
        assert one(surveyed, "specialist", fitting).word is word


@pytest.mark.parametrize(
    ("name", "values"),
    [
        ("stated_on", {"stated_load_n": 900} | STATED),
        ("tested_on", {"tested_n": 900, "tested_by": "fitter", "tested_held": 1}),
    ],
)
def test_load_stated_or_pulled_on_a_day_to_come_is_no_load_yet(
    surveyed: Surveyed, name: str, values: dict[str, Any]
) -> None:
    """The day is asked for again, with the figure it has to carry."""
    hook = rail(surveyed, **values | {name: COME})
    assert one(surveyed, "shear", hook).word is Word.WITHIN
    surveyed.book.write("fixing", {name: TO_COME}, item=hook)
    found = one(surveyed, "shear", hook)
    assert (found.word, [blank.field for blank in found.missing]) == (Word.NOT_KNOWN, [name])
    assert found.verdict.figure == pytest.approx(196.2)
    assert "a day that has not come" in found.verdict.sentence


def test_hold_of_which_the_yes_is_dated_ahead_is_not_agreed(surveyed: Surveyed) -> None:
    """At the wall and in the finding; without any day the yes counts."""
    hold = {"face": surveyed.face, "mark": "H1", "sort": "hook", "x_mm": 1200, "z_mm": 1540, "may_be_used": "yes"}
    used = surveyed.book.write("hold", hold | {"said_by": "the keeper"})
    hook = surveyed.fixing(surveyed.fitting(), x_mm=1200, z_mm=1540, sort="hook", hold=used, hole="none", adhesive=0)
    surveyed.book.write("face", {"layers": [["limestone", 400, "old"]]}, item=surveyed.face)
    for on, word, found in (
        (None, Word.AGREED, "agreed"),
        (COME, Word.AGREED, "agreed"),
        (TO_COME, Word.NOT_AGREED, "ask the keeper"),
    ):
        surveyed.book.write("hold", {"said_on": on}, item=used)
        assert one(surveyed, "consent", hook).word is word
        site = gather(surveyed.book, surveyed.site)
        acts = answer(site, site[surveyed.face], 1200, 1540, 5.0, today=TODAY).acts
        assert next(act.answer for act in acts if act.act == "contact") == found


def test_yes_of_a_day_to_come_does_not_lift_the_no_of_today(surveyed: Surveyed) -> None:
    """A no counts at once, whatever its day; a yes from its day on."""
    rail_ = surveyed.fitting(touches_face=1, mass_loaded_kg=12)
    said = {"site": surveyed.site, "items": [rail_], "words": "as drawn", "said_by": "the keeper"}
    surveyed.book.write("agreement", said | {"reference": "A1", "answer": "no", "on": "2026-03-01"})
    later = surveyed.book.write("agreement", said | {"reference": "A2", "answer": "yes", "on": TO_COME})
    assert one(surveyed, "consent", rail_).word is Word.REFUSED
    surveyed.book.write("agreement", {"on": COME}, item=later)
    assert one(surveyed, "consent", rail_).word is Word.AGREED


def test_readings_of_a_day_to_come_alone_settle_nothing(surveyed: Surveyed) -> None:
    """20 lx dated tomorrow is no reading yet; beside one that has come, one dated ahead counts against the limit."""
    surveyed.fitting()
    surveyed.book.write("room", {"light_limit_lx": 50}, item=surveyed.room)
    read(surveyed, "illuminance", 20, "lx", f"{TO_COME}T09:00:00+01:00")
    assert one(surveyed, "light", surveyed.room).word is Word.NOT_KNOWN
    read(surveyed, "illuminance", 30, "lx", f"{COME}T23:00:00+01:00")
    found = one(surveyed, "light", surveyed.room)
    assert (found.word, found.verdict.figure) == (Word.WITHIN, 30)
    read(surveyed, "illuminance", 500, "lx", f"{TO_COME}T10:00:00+01:00")
    assert one(surveyed, "light", surveyed.room).word is Word.OVER


def test_half_of_the_year_to_come_is_not_seen_yet(surveyed: Surveyed) -> None:
    """A January read, and a July dated ahead: the range of a year is not known, but what was read counts."""
    surveyed.fitting()
    surveyed.book.write("room", {"humidity_low_pct": 35, "humidity_high_pct": 54}, item=surveyed.room)
    read(surveyed, "relative humidity", 44, "%", JANUARY)
    read(surveyed, "relative humidity", 55, "%", JULY)
    assert one(surveyed, "humidity", surveyed.room).word is Word.NOT_KNOWN
    read(surveyed, "relative humidity", 50, "%", "2025-07-15T12:00:00+00:00")
    found = one(surveyed, "humidity", surveyed.room)
    assert (found.word, found.verdict.figure) == (Word.OVER, 55)


def test_logger_whose_clock_ran_ahead_is_no_record(surveyed: Surveyed) -> None:
    """10,000 hours from May 2025 end before the day asked; from May 2026 they reach far beyond it."""
    surveyed.fitting()
    surveyed.book.write("room", {"humidity_low_pct": 35, "humidity_high_pct": 65}, item=surveyed.room)
    log_file(surveyed, hours("2026-05-01T00:00:00", 10_000))
    assert one(surveyed, "humidity", surveyed.room).word is Word.NOT_KNOWN


def test_patch_that_is_to_be_looked_under_shows_nothing(surveyed: Surveyed) -> None:
    """No trace under a patch, seen tomorrow."""
    surveyed.book.write("face", {"layers": [["limewash", 1, "old"], ["limestone", 400, "old"]]}, item=surveyed.face)
    laid = {"face": surveyed.face, "mark": "T1", "material": "black rubber", "laid_against": "limewash"}
    seen = {"laid_on": "2025-01-02", "looked_on": COME, "found": "no trace"}
    patch = surveyed.book.write("patch", laid | seen)
    clamp = surveyed.fixing(surveyed.fitting(), lining="rubber 3 mm", adhesive=0)
    assert one(surveyed, "touch", clamp).word is Word.CLOSE
    surveyed.book.write("patch", {"looked_on": TO_COME}, item=patch)
    found = one(surveyed, "touch", clamp)
    assert (found.word, [blank.field for blank in found.missing]) == (Word.NOT_KNOWN, ["looked_on"])
