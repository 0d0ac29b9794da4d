"""Findings as the record tells them: alike ones once, standing cautions once."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from ..book.site import Item, by_mark
from ..book.wording import joined, marks
from ..checks.verdict import PLAINLY_FINE, Verdict, Word
from ..findings import WORST_FIRST, Finding
from ..model.kinds import KINDS

ITS_FACE = "its face"
Cited = tuple[str, ...]


@dataclass(frozen=True)
class AnswerRow:
    """One row of a table of findings.

    about     marks of the items it speaks for: one, or several that lack the same
    against   mark of what they were held against; "" for nothing
    sentence  the answer in words, without what all of its kind end with, which is `standing`
    alike     how many findings it speaks for; `tightest` which of them it is, where they differ
    papers    the documents they rest on
    """

    verdict: Verdict
    about: str
    against: str
    sentence: str
    standing: str = ""
    alike: int = 1
    tightest: str = ""
    question: str = ""
    papers: tuple[Item, ...] = ()


def answers(findings: Iterable[Finding], *, within: bool = True) -> tuple[AnswerRow, ...]:
    """Findings, worst first, as rows; if `within`, also what is agreed, and the tightest of what is within.

    What several things of one fitting answer in the same words is one row.
    """
    by_word: dict[Word, list[Finding]] = defaultdict(list)
    for finding in findings:
        by_word[finding.verdict.word].append(finding)
    rows: dict[Word, Iterable[AnswerRow]] = {word: _same_words(by_word[word]) for word in WORST_FIRST}
    rows[Word.NOT_KNOWN] = _together(by_word[Word.NOT_KNOWN])
    rows[Word.WITHIN] = _tightest(by_word[Word.WITHIN]) if within else ()
    rows[Word.AGREED] = rows[Word.AGREED] if within else ()
    rows[Word.DOES_NOT_APPLY] = ()
    return tuple(answer for word in WORST_FIRST for answer in rows[word])


def in_common(finding: Finding) -> bool:
    """Whether a finding is plainly fine and has no figure: what many things answer in the same words."""
    return finding.verdict.word in PLAINLY_FINE and finding.verdict.figure is None


def answers_in_common(findings: Iterable[Finding], faces: Collection[str] = ()) -> tuple[AnswerRow, ...]:
    """What is plainly fine without a figure, once for all things of a site that answer it in the same words.

    faces  what the faces are called: things on several that say the same of theirs answer in the same words
    """
    alike: dict[tuple[str, str, Cited], list[Finding]] = defaultdict(list)
    for finding in findings:
        if in_common(finding) and finding.word is not Word.DOES_NOT_APPLY:
            words = _of_its_face(finding.verdict.own_sentence, faces)
            alike[finding.verdict.check, words, cited(finding)].append(finding)
    return tuple(_for_all(group, words) for (_, words, _), group in sorted(alike.items()))


def _of_its_face(sentence: str, faces: Collection[str]) -> str:
    named = "|".join(re.escape(name) for name in sorted(faces, key=len, reverse=True))
    return re.sub(rf"(?<![\w.-])(?:{named})(?![\w-])", ITS_FACE, sentence) if named else sentence


def _for_all(group: Sequence[Finding], words: str) -> AnswerRow:
    row = replace(_row(group), against="")
    same = len({one.verdict.own_sentence for one in group}) == 1
    return row if same else replace(row, sentence=words)


def standing(rows: Iterable[AnswerRow]) -> tuple[str, ...]:
    """What is said under a table of these rows, each once."""
    return tuple(dict.fromkeys(answer.standing for answer in rows if answer.standing))


def _row(findings: Sequence[Finding]) -> AnswerRow:
    """One row for findings that answer alike; the first of them is the tightest."""
    verdict = findings[0].verdict
    subjects = sorted({one.subject.id: one.subject for one in findings}.values(), key=by_mark)
    tightest = findings[0].subject.called if len(subjects) > 1 and verdict.figure is not None else ""
    about, question = marks([one.called for one in subjects]), findings[0].question
    against, said = _mark(findings[0].against), (verdict.own_sentence, verdict.standing)
    return AnswerRow(verdict, about, against, *said, len(findings), tightest, question, findings[0].papers)


def cited(row: Finding | AnswerRow) -> Cited:
    """The ids of the documents it rests on: what rests on others is never told together with it."""
    return tuple(paper.id for paper in row.papers)


def _same_words(findings: Iterable[Finding]) -> Iterator[AnswerRow]:
    """What is told of several things of one fitting in the very same words, once."""
    alike: dict[tuple[object, ...], list[Finding]] = defaultdict(list)
    for finding in findings:
        against, words = finding.against.id if finding.against else "", finding.verdict.own_sentence
        alike[finding.verdict.check, _home(finding), against, words, cited(finding)].append(finding)
    return map(_row, alike.values())


def _home(finding: Finding) -> str:
    """The fitting of a fixing, and every other thing itself."""
    return finding.subject.fitting if finding.subject.kind == "fixing" else finding.subject.id


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
            yield from _same_words(group)
        else:
            subjects = sorted({finding.subject.id: finding.subject for finding in group}.values(), key=by_mark)
            words = f"Not entered, or not usable as entered: {joined(_label(kind, name) for name in missing)}."
            about = marks([one.called for one in subjects])
            against, number, question = _mark(group[0].against), len(group), group[0].question
            yield AnswerRow(group[0].verdict, about, against, words, alike=number, question=question)


def _label(kind: str, name: str) -> str:
    """What a field is called where it is missing; it may be the fitting's, when a fixing is spoken of."""
    homes: Mapping[str, str] = {
        kind_name: each.by_name[name].label for kind_name, each in KINDS.items() if name in each.by_name
    }
    return (homes.get(kind) or next(iter(homes.values()), name.replace("_", " "))).lower()


def _tightest(findings: Iterable[Finding]) -> Iterator[AnswerRow]:
    """Of those within, the first (least margin) of each check speaks for all things of one fitting."""
    alike: dict[tuple[str, str, Cited], list[Finding]] = defaultdict(list)
    for finding in findings:
        alike[_home(finding), finding.verdict.check, cited(finding)].append(finding)
    return map(_row, alike.values())
