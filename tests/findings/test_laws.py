"""Two laws that hold of any site, and that the questions read what they say they read.

A blank never gives a fine word unless the least favourable ordinary value of that field would too.
Making something worse never gives a better word.
"""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from pathlib import Path
from random import Random
from typing import Any

import pytest
from hypothesis import HealthCheck, currently_in_test_context, given, note, settings
from hypothesis import strategies as st

from fieldbook.book.site import Item, Site
from fieldbook.checks.verdict import FINE, STOP, Word
from fieldbook.findings import Finding
from fieldbook.findings.acts import GLUED_ON
from fieldbook.findings.answering import find
from fieldbook.findings.asking import LESS, MORE, Question
from fieldbook.findings.load_paths import NEAR_FLOOR_MM, height_above_floor_mm
from fieldbook.findings.off_plumb import hangs_alone
from fieldbook.findings.questions import OF_KIND, QUESTIONS
from fieldbook.model.fields import Type
from fieldbook.model.kinds import KINDS
from tests.examples import is_long
from tests.findings.generated import TODAY, Making, changed, could_be_entered, every, print_of

pytestmark = [pytest.mark.slow, pytest.mark.long]  # plays long games

HERE = Path(__file__).parents[2]
SEEDS = st.integers(0, 2**40)
READ = {name for question in QUESTIONS for name in question.reads}
# As many sites as a release is held to in the long run.
SITES = 2000 if is_long() else 100
UNHURRIED = settings(deadline=None, max_examples=SITES, suppress_health_check=[HealthCheck.too_slow])


def made(making: Making) -> Site:
    """The site of a seed; where a law fails of it, what tells whether a repetition has the same site is printed."""
    site = making.site()
    if currently_in_test_context():
        note(f"The site has the print {print_of(site)}: python -m tests.findings.repeat SEED shows it again.")
    return site


def answers(site: Site) -> dict[tuple[str, str], Finding]:
    """Every finding of a site by its question and thing."""
    found = {}
    for kind, questions in OF_KIND.items():
        for subject in [site.item] if kind == "site" else site.all(kind):
            if subject.stands:
                for question in questions:
                    found[question.name, subject.id] = find(question, subject, site, TODAY)
    return found


def told(finding: Finding) -> str:
    """A finding for a failing test."""
    return (
        f"{finding.question} of {finding.subject.kind} {finding.subject.called}: {finding.verdict}, {finding.assumed}"
    )


# What an empty field means where that is certain, in words beside the field: there is no blank to fill in.
MEANS_SOMETHING = {
    *("face.floor", "face.left_mm", "face.bottom_mm"),  # level; at the datum
    *("zone.safe_depth_mm", "limit.x_from_mm", "limit.x_to_mm", "limit.z_from_mm", "limit.z_to_mm"),  # none; all
    *("fixing.fitted_x_mm", "fixing.fitted_z_mm"),  # it lies where it was planned
    *("fitting.phase", "fitting.until_phase"),  # it goes up with the first; it stays
    *("fitting.moves_mm", "fixing.stands_out_mm"),  # it stays where it is; it lies within its fitting
    *("face.surface", "fitting.build_up"),  # several figures, of which what is made up is more than is ordinary
    *("room.hazards", "hold.depth_mm"),  # nothing was found; nobody drills it deeper
    "fitting.base_out_mm",  # at the wall, as the form says
    *("fitting.centre_x_mm", "fitting.centre_z_mm"),  # in the middle of its front view, as the form says
    *("fixing.grips", "fixing.into"),  # what the board, the hold or the layers of the face say
    # Those expected when it was given; of a face, those of the acts, and all of it.
    *("agreement.acts", "agreement.depth_mm", "agreement.holes", "agreement.trace", "agreement.outline"),
    *("fixing.stated_load_n", "fixing.tested_n"),  # nobody stated one; nobody pulled at it
    *("room.light_limit_lx", "room.light_category"),  # the other of them is the limit; without both nothing is said
    "fixing.thread_mm",  # six tenths of its length, as of a common wood screw; a nail has none that matters
    *("agreement.until", "log.date_column"),  # without an end; date and time stand together
    *("agreement.conditions", "agreement.conditions_met"),  # a yes without conditions; one with them asks for it
    "fitting.pull_n",  # where nobody can lean on it, nobody pulls
} | {f"{kind.name}.{field.name}" for kind in KINDS.values() for field in kind.fields if field.to}  # fixed to nothing


def means_something(site: Site, item: Item, name: str) -> bool:
    """Whether it is certain what it means that a field of an item is empty."""
    if f"{item.kind}.{name}" in MEANS_SOMETHING:
        return True
    match name:
        case "slope_deg":
            return item.sort != "other"  # a wall is upright, a ceiling overhead, until measured
        case "above_floor_mm":
            return item.sort == "ceiling" and site[item.room].ceiling_mm is not None  # it is as high as its room
        case "lining":
            return item.sort == GLUED_ON  # it sticks to the surface
        case "off_plumb_deg":
            return hangs_alone(site, item)  # and so plumb below it
        case "length_mm":
            return item.penetration_mm is None  # it is taken to end in the wall, and that is said
        case "packers_mm":
            return item.state == "planned"  # those the wall calls for
        case "support":
            height = height_above_floor_mm(site, item)  # what ends above the floor, or has what to hang on, hangs
            return height is None or height > NEAR_FLOOR_MM or bool(site.goes_through(item))
        case "conditions_met":
            return item.answer == "yes" and not item.conditions  # there are none to be met
        case "humidity_low_pct" | "humidity_high_pct":
            return item.humidity_low_pct is None and item.humidity_high_pct is None  # nobody set limits
    return False


# What a decision says is applied to the answers of all questions alike.
FOR_ALL = "decision."
# A material of the site's own becomes a row of the table as it is; each question names what it takes of it.
WHOLE_ROW = "material."


def fields_of(site: Site, *, blank: bool) -> Iterator[tuple[Item, str]]:
    """Every field some question reads, of every item, that is blank or is not."""
    for item in (site.item, *every(site)):
        for field in KINDS[item.kind].fields:
            empty = item.values[field.name] is None
            if f"{item.kind}.{field.name}" in READ and empty == blank and not means_something(site, item, field.name):
                yield item, field.name


@UNHURRIED
@given(SEEDS)
def test_blank_gives_no_fine_word_that_an_ordinary_value_would_take_away(seed: int) -> None:
    """Whatever is filled into a blank, no finding that was fine without it stops being fine."""
    making = Making(seed)
    site = made(making)
    before = answers(site)
    chance = Random(seed)  # noqa: S311 - no secret
    blanks = list(fields_of(site, blank=True))
    for item, name in chance.sample(blanks, min(4, len(blanks))):
        field = KINDS[item.kind].by_name[name]
        for value in field.tried or (making.ordinary(item.kind, field),):
            if could_be_entered(site, item, **{name: value}):
                after = answers(changed(site, item, **{name: value}))
                for key, was in before.items():
                    if was.word in FINE and was.word is not Word.DOES_NOT_APPLY and key in after:
                        assert after[key].word in FINE, (
                            f"{item.kind}.{name} = {value}: {told(was)} -> {told(after[key])}"
                        )


def badness(word: Word) -> int:
    """How bad a word is: alike for all that are fine but close, and for both that stop."""
    return 0 if word in STOP else {Word.NOT_AGREED: 1, Word.NOT_KNOWN: 1, Word.CLOSE: 2}.get(word, 3)


@UNHURRIED
@given(SEEDS)
def test_making_something_worse_gives_no_better_word(seed: int) -> None:
    """What a question calls worse when there is more of it is made more, and no word of it is better for that."""
    site = made(Making(seed))
    before = answers(site)
    chance = Random(seed)  # noqa: S311 - no secret
    directed = [
        (item, name)
        for item, name in fields_of(site, blank=False)
        if any(_way(question, item, name) for question in QUESTIONS)
    ]
    for item, name in chance.sample(directed, min(4, len(directed))):
        for way in (MORE, LESS):
            value = _moved(item, name, way, chance)
            if value != item.values[name] and could_be_entered(site, item, **{name: value}):
                after = answers(changed(site, item, **{name: value}))
                for question in QUESTIONS:
                    for (asked, thing), was in before.items() if _way(question, item, name) == way else ():
                        if asked == question.name and (asked, thing) in after:
                            now = after[asked, thing]
                            assert badness(now.word) <= badness(was.word), (
                                f"{item.kind}.{name} {item.values[name]} -> {value}: {told(was)} -> {told(now)}"
                            )


def _way(question: Question, item: Item, name: str) -> str | None:
    way = question.reads.get(f"{item.kind}.{name}")
    return way if way in {MORE, LESS} else None


def _moved(item: Item, name: str, way: str, chance: Random) -> Any:
    """More or less of a number; a word further down or up its list, more or fewer words; a later or an earlier day."""
    field, value = KINDS[item.kind].by_name[name], item.values[name]
    match field.type:
        case Type.CHOICE:
            at = field.choices.index(value) + (1 if way == MORE else -1)
            return field.choices[min(max(at, 0), len(field.choices) - 1)]
        case Type.CHOICES:
            others = [word for word in field.choices if word not in value]
            return [*value, *chance.sample(others, min(1, len(others)))] if way == MORE else value[1:] or value
        case Type.YES_NO:
            return 1 if way == MORE else 0
        case Type.DATE:
            days = chance.choice((1, 40, 400)) * (1 if way == MORE else -1)
            return (date.fromisoformat(value) + timedelta(days=days)).isoformat()
    step = max(abs(value) * chance.choice((0.1, 0.5, 2)), 1)
    moved = min(value + step, field.high) if way == MORE else max(value - step, field.low)
    return int(moved) if isinstance(value, int) else moved


class WatchedValues(dict[str, object]):
    """An item's values, which note what is read of them."""

    def __init__(self, kind: str, values: Mapping[str, object], notes: set[str]):
        super().__init__(values)
        self.kind, self.notes = kind, notes

    def __getitem__(self, name: str) -> object:
        self.notes.add(f"{self.kind}.{name}")
        return super().__getitem__(name)

    def get(self, name: str, default: object = None) -> object:  # type: ignore[override]
        self.notes.add(f"{self.kind}.{name}")
        return super().get(name, default)


class Watched(Item):
    """An item whose fields note that they are read, as its values do."""

    def __getattribute__(self, name: str) -> Any:
        if name in KINDS[super().__getattribute__("kind")].by_name:
            return super().__getattribute__("values")[name]
        return super().__getattribute__(name)


NEEDS_NO_NAMING = {"mark", "name", "reference", "what", "caption", "quantity", "purpose", "state", "on", "at"}


def needs_no_naming(read: str) -> bool:
    """Whether a field read says how a thing is called, what it belongs to, or what was decided about it."""
    return read.split(".")[1] in NEEDS_NO_NAMING or is_a_link(read) or read.startswith((FOR_ALL, WHOLE_ROW))


def is_a_link(read: str) -> bool:
    """Whether a field read says what an item belongs to or points to."""
    kind, name = read.split(".")
    return KINDS[kind].by_name[name].to != "" if name in KINDS[kind].by_name else True


@UNHURRIED
@given(SEEDS)
def test_question_reads_no_field_it_does_not_name(seed: int) -> None:
    """What a question reads beyond names and links, it says which way is worse."""
    site = made(Making(seed))
    decisions = {one.id for one in site.all("decision")}  # what they look back to is read for all questions alike
    then = {key: values for key, values in site.then.items() if key[0] not in decisions}
    for question in QUESTIONS:
        notes: set[str] = set()
        seen = Site(_watched(site.item, notes), [_watched(one, notes) for one in every(site)], site.folder, 1, "", then)
        for subject in [seen.item] if question.kind == "site" else seen.all(question.kind):
            if subject.stands:
                notes.clear()
                find(question, subject, seen, TODAY)
                read = {name for name in notes if not needs_no_naming(name)}
                assert read <= question.reads.keys(), f"{question.name} reads {sorted(read - question.reads.keys())}"


def _watched(item: Item, notes: set[str]) -> Item:
    return Watched(item.kind, item.id, WatchedValues(item.kind, item.values, notes))


def test_seed_makes_the_same_site_in_another_process() -> None:
    """Whatever order another process has its sets in, a seed makes the site there that it makes here."""
    seeds = range(40, 52)
    asked = "from tests.findings.generated import Making, print_of\n"
    asked += f"print(*(print_of(Making(seed).site()) for seed in {seeds}))"
    for order in ("1", "2"):
        environment = {**os.environ, "PYTHONHASHSEED": order}
        run = subprocess.run(  # noqa: S603 - ours
            [sys.executable, "-c", asked], env=environment, cwd=HERE, capture_output=True, text=True, check=True
        )
        assert run.stdout.split() == [print_of(Making(seed).site()) for seed in seeds]


def test_every_field_says_which_questions_read_it() -> None:
    """The descriptions of the kinds and the questions say the same of who reads what."""
    said = {
        f"{kind.name}.{field.name}": set(field.read_by)
        for kind in KINDS.values()
        for field in kind.fields
        if field.read_by
    }
    read: dict[str, set[str]] = {}
    for question in QUESTIONS:
        for name in question.reads:
            read.setdefault(name, set()).add(question.name)
    assert said == read
