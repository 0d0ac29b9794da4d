"""The documents a finding rests on: the letter behind a yes, a no or a limit, the data sheet behind a stated load.

Only what decided the answer counts: a data sheet of a fixing that was pulled and gave way is none of it.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..book.site import Item, Site
from ..checks import site_pull
from ..checks.material_rows import words_of
from ..checks.verdict import Word
from .finding import Finding
from .fixing_loads import bearers
from .magnets import FRICTION_SOURCE, STATED_SOURCE
from .strengths import ON_HOLDS

RULED = frozenset({"agreement", "decision"})
SET = frozenset({"zone", "limit"})
STATED_OF = {"carrier": ("hold", "member"), "wall": ("face",)}
STATED = frozenset({STATED_SOURCE, FRICTION_SOURCE})
STRENGTHS = frozenset({"pull", "shear", "together"})
MADE_OF = {"pressure": "bears_on", "slip": "lining"} | dict.fromkeys((*STRENGTHS, "spacing"), "grips")
"""Question -> the field of a fixing that names the material whose figures decide it."""


def with_papers(site: Site, finding: Finding) -> Finding:
    """The finding with the documents that what decided it is kept in; itself where there are none."""
    if finding.word is Word.DOES_NOT_APPLY:
        return finding
    kept = (site.get(link) for link in _links(site, finding) if link)
    papers = {one.id: one for one in (*finding.papers, *kept) if one is not None}
    return finding._replace(papers=tuple(papers.values())) if papers else finding


def source_of(finding: Finding) -> str:
    """Where the method of a finding comes from, and which documents what it was given stands in."""
    papers = [f"document {one.reference}, {one.name}" for one in finding.papers]
    return "; ".join(filter(None, (finding.verdict.source.rstrip("."), *papers)))


def _links(site: Site, finding: Finding) -> Iterator[str | None]:
    against = finding.against
    if against is not None and against.kind in RULED:
        yield against.kept_as
    if against is not None and against.kind in SET:
        yield against.said_in
    if finding.missing:
        return
    if against is not None and against.kind in STATED_OF.get(finding.question, ()):
        yield against.load_stated_in
    elif against is not None and finding.question == "floor":
        yield against.floor_limit_in
    elif finding.question == "one-lost":
        yield from (_stated_in(site, fixing) for fixing in bearers(site, finding.subject))
    elif finding.subject.kind == "fixing":
        yield from _of_fixing(site, finding, finding.subject)


def _of_fixing(site: Site, finding: Finding, fixing: Item) -> Iterator[str | None]:
    if finding.question in STRENGTHS and finding.verdict.source in STATED:
        yield _stated_in(site, fixing)
        return
    if finding.question in STRENGTHS and finding.verdict.source == site_pull.SOURCE:
        yield fixing.tested_in
        return
    if finding.question == "pressure" and fixing.stated_load_n is not None:
        yield fixing.stated_in
    named = fixing.values.get(MADE_OF.get(finding.question, ""))
    if named and not (finding.question == "slip" and fixing.friction is not None):
        yield from (own.kept_as for own in site.all("material") if words_of(own.name) == words_of(named))


def _stated_in(site: Site, fixing: Item) -> str | None:
    """The document in which the load of a fixing is stated or shown, or of the fixing point that it uses."""
    hold = site.get(fixing.hold)
    link: str | None = None
    if fixing.stated_load_n is not None:
        link = fixing.stated_in
    elif fixing.tested_n is not None:
        link = fixing.tested_in
    elif hold is not None and fixing.sort in ON_HOLDS:
        link = hold.load_stated_in
    return link
