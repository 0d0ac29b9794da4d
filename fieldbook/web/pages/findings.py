"""What is open on a site, and every finding, as lists that can be worked down."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from flask import Blueprint, render_template, request

from ...book.gathering import gather
from ...book.site import Site
from ...checks.verdict import FINE, STOP, UNKNOWN, Word
from ...findings import Finding, appraise, counts
from ...findings.open_points import SHOWN, Point, open_points
from ...findings.phase_order import phase_of
from ..books import book
from ..shown.mending import Mending, mending_of, place_of
from ..shown.repeat import Again, repeated

blueprint = Blueprint("findings", __name__)

AT_ONCE = 200
GROUPS = (("What stops the work", STOP), ("Not known, or not agreed", UNKNOWN), ("Fine", FINE))

Shown = tuple[Finding, Again | None, Mending | None]


@dataclass(frozen=True)
class FindingsPart:
    """Some of the findings of a site, in their order.

    word      the word they all have; None for any. question the question they all answer; "" for any
    start     place of the first among all of that word and question; `number` how many there are of them
    questions how many there are of each question, of that word
    """

    word: Word | None
    question: str
    start: int
    number: int
    questions: Mapping[str, int]
    findings: list[Shown]

    @property
    def by_group(self) -> list[tuple[str, list[Shown]]]:
        """What stops the work, what is not known and what is fine, each with its own."""
        groups = [(name, [one for one in self.findings if one[0].word in words]) for name, words in GROUPS]
        return [(name, listed) for name, listed in groups if listed]

    @property
    def before(self) -> int | None:
        """Where the part before begins, if there is one."""
        return max(self.start - AT_ONCE, 0) if self.start else None

    @property
    def after(self) -> int | None:
        """Where the next part begins, if there is one."""
        return self.start + AT_ONCE if self.start + AT_ONCE < self.number else None


def part_of(site: Site, findings: list[Finding], asked: Mapping[str, str]) -> FindingsPart:
    """The findings of a word and a question, or all, from one on; what means nothing is passed over."""
    word = next((one for one in Word if one == asked.get("word")), None)
    of_word = [finding for finding in findings if word in (None, finding.word)]
    questions = Counter(finding.question for finding in of_word)
    question = asked.get("question", "")
    if question not in {finding.question for finding in findings}:
        question = ""
    chosen = [finding for finding in of_word if question in ("", finding.question)]
    start = asked.get("from", "")
    first = int(start) if start.isdecimal() and len(start) < 9 else 0
    shown = [(finding, repeated(finding), mending_of(site, finding)) for finding in chosen[first : first + AT_ONCE]]
    return FindingsPart(word, question, first, len(chosen), dict(sorted(questions.items())), shown)


def points_of(site: Site, findings: list[Finding]) -> list[tuple[str, str, list[tuple[Point, Mending]]]]:
    """The three lists of what is open: heading, what an empty one says, each point with where it is entered."""
    points = open_points(site, findings)
    lists = (
        ("Stop", "Nothing stops the work.", points.stop),
        ("Measure on this walk", "Nothing is left to measure.", points.this_walk),
        ("Later", "Nothing else is open.", points.later),
    )
    return [(heading, none, [(point, place_of(site, point)) for point in listed]) for heading, none, listed in lists]


@blueprint.get("/site/<item:item>/findings")
def every(item: str) -> str:
    """What is open, then all findings, each with its working, how to do it again by hand, and where to mend it."""
    site = gather(book(), item)
    findings = appraise(site)
    part = part_of(site, findings, request.args)
    points = points_of(site, findings) if not request.args else None
    return render_template(
        "findings/every.html",
        one=site.item,
        site=site,
        part=part,
        counts=counts(findings),
        points=points,
        SHOWN=SHOWN,
        phase_of=phase_of,
    )
