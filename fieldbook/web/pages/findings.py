"""Every verdict of a site, worst first, as a list that can be worked down."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import groupby

from flask import Blueprint, render_template, request

from ...book.site import Site, gather
from ...checks.verdict import Word
from ...findings import Finding, appraise, counts
from ..books import book
from ..shown.mending import Mending, mending_of
from ..shown.repeat import Again, repeated

blueprint = Blueprint("verdicts", __name__)

AT_ONCE = 200


Shown = tuple[Finding, Again | None, Mending | None]


@dataclass(frozen=True)
class Part:
    """Some of the findings of a site, worst first.

    word   the word they all have; None for any. check the check they are all of; "" for any
    start  place of the first among all of that word and check; `number` how many there are of them
    checks how many there are of each check, of that word
    """

    word: Word | None
    check: str
    start: int
    number: int
    checks: Mapping[str, int]
    findings: list[Shown]

    @property
    def by_word(self) -> list[tuple[Word, list[Shown]]]:
        """They come worst first already: each word with its own."""
        return [(word, list(group)) for word, group in groupby(self.findings, lambda pair: pair[0].verdict.word)]

    @property
    def before(self) -> int | None:
        """Where the part before begins, if there is one."""
        return max(self.start - AT_ONCE, 0) if self.start else None

    @property
    def after(self) -> int | None:
        """Where the next part begins, if there is one."""
        return self.start + AT_ONCE if self.start + AT_ONCE < self.number else None


def part_of(site: Site, findings: list[Finding], asked: Mapping[str, str]) -> Part:
    """The findings of a word and a check, or all, from one on; what is asked for and means nothing is passed over."""
    word = next((one for one in Word if one == asked.get("word")), None)
    of_word = [finding for finding in findings if word in (None, finding.verdict.word)]
    checks = Counter(finding.verdict.check for finding in of_word)
    check = asked.get("check", "") if asked.get("check") in {finding.verdict.check for finding in findings} else ""
    chosen = [finding for finding in of_word if check in ("", finding.verdict.check)]
    start = asked.get("from", "")
    first = int(start) if start.isdecimal() and len(start) < 9 else 0
    shown = [
        (finding, repeated(site, finding), mending_of(site, finding)) for finding in chosen[first : first + AT_ONCE]
    ]
    return Part(word, check, first, len(chosen), dict(sorted(checks.items())), shown)


@blueprint.get("/site/<item:item>/verdicts")
def every(item: str) -> str:
    """All findings, each with its working, its source, how to do it again by hand, and where to mend it."""
    site = gather(book(), item)
    findings = appraise(site)
    part = part_of(site, findings, request.args)
    return render_template("verdicts/every.html", one=site.item, site=site, part=part, counts=counts(findings))
