"""Findings as the annex tells them: question by question, so that what many workings share stands once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from ..book import wording
from ..checks.limits import rounded_up, third_figure
from ..checks.verdict import Word
from ..findings import WORST_FIRST
from .answers import AnswerRow, Cited, cited, standing
from .folding import beyond_figures

Working = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class WorkedRow:
    """One row of findings.

    says      what it says beyond its figures
    working   label and figure of all that is neither `WorkedQuestion.common` nor the figure, limit or margin itself
    as_for    name of the question above that worked the same out of the same things; "" for none
    """

    answer: AnswerRow
    says: str
    working: Working
    as_for: str = ""

    @property
    def measured(self) -> str:
        """Figure, limit and margin in one unit: 38 / 40 / −2 mm."""
        one = self.answer.verdict
        if one.figure is None:
            return ""
        value = rounded_up(one.figure, third_figure(one.figure)) if one.word is Word.NOT_KNOWN else one.figure
        told = [each for each in (value, one.limit, one.margin) if each is not None]
        return " / ".join([*map(wording.figure, told[:-1]), wording.figure(told[-1], one.unit)])


@dataclass(frozen=True)
class WorkedQuestion:
    """All findings of one question by one method, worst first.

    common  what all their workings share
    labels  of what differs, where it is the same of all rows; () where each row names its own
    groups  rows of one word that say the same beyond their figures, and rest on the same documents
    """

    name: str
    source: str
    common: Working
    labels: tuple[str, ...]
    groups: tuple[tuple[WorkedRow, ...], ...]

    @property
    def rows(self) -> tuple[WorkedRow, ...]:
        """All rows, worst first."""
        return tuple(row for group in self.groups for row in group)


@dataclass(frozen=True)
class Lacking:
    """What several questions cannot answer about the same things for want of the same.

    questions  name and source of each
    """

    answer: AnswerRow
    questions: tuple[tuple[str, str], ...]


def lacking(answers: Iterable[AnswerRow]) -> tuple[Lacking, ...]:
    """What is not known because something is not entered, once for all questions that ask for it."""
    alike: dict[tuple[str, str, str], dict[tuple[str, str], AnswerRow]] = defaultdict(dict)
    for row in filter(_is_lacking, answers):
        asked = row.verdict.check.replace("-", " "), row.verdict.source
        alike[row.about, row.against, row.sentence][asked] = row
    return tuple(Lacking(next(iter(rows.values())), tuple(sorted(rows))) for rows in alike.values())


def _is_lacking(row: AnswerRow) -> bool:
    one = row.verdict
    return one.word is Word.NOT_KNOWN and bool(one.missing) and one.figure is None and not one.working


def worked(answers: Sequence[AnswerRow]) -> tuple[WorkedQuestion, ...]:
    """Findings by question and method, in the order of the alphabet; rows that differ in their marks alone are one.

    What is not known for want of something entered stands in `lacking`.
    """
    by_method: dict[tuple[str, str], list[AnswerRow]] = defaultdict(list)
    for answer in answers:
        if _is_lacking(answer):
            continue
        by_method[answer.verdict.check, answer.verdict.source].append(answer)
    said, seen = standing(answers), dict[tuple[str, Working], str]()
    told = []
    for (check, source), group in sorted(by_method.items()):
        rows = sorted(_merged(group), key=lambda row: WORST_FIRST.index(row.verdict.word))
        common = _common([row.verdict.working for row in rows])
        name = check.replace("-", " ")
        left = [_row(row, said, common, name, seen) for row in rows]
        told.append(WorkedQuestion(name, source, common, _labels(left), _alike(left)))
    return tuple(told)


def _labels(rows: Iterable[WorkedRow]) -> tuple[str, ...]:
    """What the figures of each row's working are called, where all rows have the same."""
    different = {tuple(label for label, _ in row.working) for row in rows if row.working}
    return different.pop() if len(different) == 1 else ()


def _alike(rows: Iterable[WorkedRow]) -> tuple[tuple[WorkedRow, ...], ...]:
    groups: dict[tuple[Word, str, Cited], list[WorkedRow]] = defaultdict(list)
    for row in rows:
        groups[row.answer.verdict.word, row.says, cited(row.answer)].append(row)
    return tuple(map(tuple, groups.values()))


def _row(
    answer: AnswerRow, said: Sequence[str], common: Working, name: str, seen: dict[tuple[str, Working], str]
) -> WorkedRow:
    working = answer.verdict.working
    first = seen.setdefault((answer.about, working), name) if working else name
    beside = _beside(answer)
    left = tuple(pair for pair in working if pair not in common and pair[1] not in beside) if first == name else ()
    return WorkedRow(answer, beyond_figures(answer, said), left, "" if first == name else first)


def _beside(answer: AnswerRow) -> set[str]:
    """Figure, limit and margin as a working writes them: they stand beside the word already."""
    verdict = answer.verdict
    told = [wording.figure(one, verdict.unit) for one in (verdict.figure, verdict.limit, verdict.margin)]
    return {words.replace("\u00a0", " ").replace("−", "-") for words in told if words}


def _common(workings: Sequence[Working]) -> Working:
    return tuple(pair for pair in workings[0] if len(workings) > 1 and all(pair in one for one in workings))


def _merged(answers: Iterable[AnswerRow]) -> list[AnswerRow]:
    """What several things answer with the very same figures, once; the first of them goes on being the tightest."""
    alike: dict[tuple[object, ...], list[AnswerRow]] = defaultdict(list)
    for answer in answers:
        verdict = answer.verdict
        figures = (verdict.word, verdict.figure, verdict.limit, verdict.margin, verdict.unit, verdict.working)
        alike[*figures, answer.sentence, answer.against, cited(answer)].append(answer)
    return [_together(group) for group in alike.values()]


def _together(group: Sequence[AnswerRow]) -> AnswerRow:
    about = ", ".join(dict.fromkeys(row.about for row in group))
    return replace(group[0], about=about, alike=sum(row.alike for row in group))
