"""Findings as the record tells them: alike ones once, standing cautions once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from ..book.site import Item, by_mark
from ..book.wording import joined, marks
from ..checks.verdict import Verdict, Word
from ..findings import WORST_FIRST, Finding
from ..model.kinds import KINDS


@dataclass(frozen=True)
class AnswerRow:
    """One row of a table of findings.

    about     marks of the items it speaks for: one, or several that lack the same
    against   mark of what they were held against; "" for nothing
    sentence  the answer in words, without what all of its kind end with, which is `standing`
    alike     how many findings were within of which this is the tightest; 1 for all others
    """

    verdict: Verdict
    about: str
    against: str
    sentence: str
    standing: str = ""
    alike: int = 1


def answers(findings: Iterable[Finding], *, within: bool = True) -> tuple[AnswerRow, ...]:
    """Findings, worst first, as rows; if `within`, also what is agreed, and the tightest of what is within."""
    by_word: dict[Word, list[Finding]] = defaultdict(list)
    for finding in findings:
        by_word[finding.verdict.word].append(finding)
    rows: dict[Word, Iterable[AnswerRow]] = {word: map(_row, by_word[word]) for word in WORST_FIRST}
    rows[Word.NOT_KNOWN] = _together(by_word[Word.NOT_KNOWN])
    rows[Word.WITHIN] = _tightest(by_word[Word.WITHIN]) if within else ()
    rows[Word.AGREED] = rows[Word.AGREED] if within else ()
    rows[Word.DOES_NOT_APPLY] = ()
    return tuple(answer for word in WORST_FIRST for answer in rows[word])


def standing(rows: Iterable[AnswerRow]) -> tuple[str, ...]:
    """What is said under a table of these rows, each once."""
    return tuple(dict.fromkeys(answer.standing for answer in rows if answer.standing))


def _row(finding: Finding, alike: int = 1) -> AnswerRow:
    verdict = finding.verdict
    return AnswerRow(
        verdict, finding.subject.called, _mark(finding.against), verdict.own_sentence, verdict.standing, alike
    )


def _mark(item: Item | None) -> str:
    return item.called if item else ""


def _together(findings: Iterable[Finding]) -> Iterator[AnswerRow]:
    """What is not known because several items lack the same, in one row for all of them."""
    alike: dict[tuple[str, tuple[str, ...], str, str], list[Finding]] = defaultdict(list)
    for finding in findings:
        against = finding.against.id if finding.against else ""
        alike[finding.verdict.check, finding.verdict.missing, against, finding.subject.kind].append(finding)
    for (_, missing, _, kind), group in alike.items():
        if len(group) == 1 or not any(missing):
            yield from map(_row, group)
        else:
            subjects = sorted({finding.subject.id: finding.subject for finding in group}.values(), key=by_mark)
            words = f"Not entered, or not usable as entered: {joined(_label(kind, name) for name in missing)}."
            yield AnswerRow(group[0].verdict, marks([one.called for one in subjects]), _mark(group[0].against), words)


def _label(kind: str, name: str) -> str:
    """What a field is called where it is missing; it may be the fitting's, when a fixing is spoken of."""
    homes: Mapping[str, str] = {
        kind_name: each.by_name[name].label for kind_name, each in KINDS.items() if name in each.by_name
    }
    return (homes.get(kind) or next(iter(homes.values()), name.replace("_", " "))).lower()


def _tightest(findings: Iterable[Finding]) -> Iterator[AnswerRow]:
    """Of those within, the first (least margin) of each item and check speaks for all of them."""
    alike: dict[tuple[str, str], list[Finding]] = defaultdict(list)
    for finding in findings:
        alike[finding.subject.id, finding.verdict.check].append(finding)
    for group in alike.values():
        yield _row(group[0], len(group))
