"""Every verdict of a site, worst first, as a list that can be worked down."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from flask import Blueprint, render_template, request

from ..checks.verdict import Word
from ..gather import Site, gather
from ..verdicts import Finding, appraise, counts
from .books import book
from .repeat import Again, repeated

blueprint = Blueprint("verdicts", __name__)


AT_ONCE = 200


@dataclass(frozen=True)
class Part:
    """Some of the findings of a site, worst first.

    word   the word they all have; None for any
    start  place of the first among all of that word; `number` how many there are of it
    """

    word: Word | None
    start: int
    number: int
    findings: list[tuple[Finding, Again | None]]

    @property
    def by_word(self) -> list[tuple[Word, list[tuple[Finding, Again | None]]]]:
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


def part_of(site: Site, findings: list[Finding], word: str, start: str) -> Part:
    """The findings of a word, or all, from one on; a word or a number that means nothing is passed over."""
    wanted = next((one for one in Word if one == word), None)
    chosen = [finding for finding in findings if wanted in (None, finding.verdict.word)]
    first = int(start) if start.isdecimal() and len(start) < 9 else 0
    shown = chosen[first : first + AT_ONCE]
    return Part(wanted, first, len(chosen), [(finding, repeated(site, finding)) for finding in shown])


@blueprint.get("/site/<item:item>/verdicts")
def every(item: str) -> str:
    """All findings, each with its working, its source, and how to do it again by hand."""
    site = gather(book(), item)
    findings = appraise(site)
    part = part_of(site, findings, request.args.get("word", ""), request.args.get("from", ""))
    return render_template("verdicts/every.html", one=site.item, site=site, part=part, counts=counts(findings))
