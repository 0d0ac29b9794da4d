"""What is said of the documents of a site: by which entries each is cited, and which findings rest on it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable

from ..book.site import Item, Site, by_mark
from ..book.wording import joined, marks
from ..findings import Finding
from ..model.kinds import KINDS


def citing(site: Site, document: Item) -> list[Item]:
    """What says that it is kept in a document: agreements, specialists' words, stated loads, figures of materials."""
    links = [(kind.name, field.name) for kind in KINDS.values() for field in kind.fields if field.to == document.kind]
    return [one for kind, name in links for one in site.all(kind) if one.values[name] == document.id]


def resting(findings: Iterable[Finding], document: Item) -> str:
    """The findings that rest on a document: of which thing, and the questions."""
    asked: dict[str, list[Item]] = defaultdict(list)
    for finding in findings:
        if document in finding.papers:
            asked[finding.question.replace("-", " ")].append(finding.subject)
    things: dict[str, list[str]] = defaultdict(list)
    for question, subjects in asked.items():
        things[marks([one.called for one in sorted(subjects, key=by_mark)])].append(question)
    return "; ".join(f"{joined(questions)} of {of}" for of, questions in things.items())
