"""What many items say alike, told once: in the annex, where everything stands and nothing need stand twice."""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from ..book.site import Item
from ..book.wording import Titles, day, facts, figure, joined, marks, place
from ..checks.verdict import Word
from ..model.kinds import KINDS
from .answers import AnswerRow, cited

_FIRST = re.compile(r"^.*?(?<=[a-z²³%)\d])\.\s+(?=[A-Z])")


Facts = Sequence[tuple[str, str]]


@dataclass(frozen=True)
class Alike:
    """Items that say the same but for their marks and places.

    named   their marks, and what leads
    places  where each is, in the order of the marks; "" for what has none
    facts   label and words of all else that not all of the list say, once
    """

    named: str
    places: str
    facts: Facts


def alike(items: Sequence[Item], leading: str | None, titles: Titles) -> tuple[Facts, tuple[Alike, ...]]:
    """Items of one kind: what all of them say, and the rest, those that say the same together.

    leading  a field told in bold behind the marks
    """
    told: dict[str, Facts] = {}
    for item in items:
        kind = KINDS[item.kind]
        elsewhere = {kind.parent, "mark", "x_mm", "z_mm", leading}
        told[item.id] = facts(item, [name for name in kind.by_name if name not in elsewhere], titles)
    common = usual(list(told.values()), share=1) if len(items) > 1 else []
    groups: dict[tuple[Any, ...], list[Item]] = defaultdict(list)
    for item in items:
        own = tuple(pair for pair in told[item.id] if pair not in common)
        groups[item.values.get(leading or "") or "", own].append(item)
    return common, tuple(
        Alike(
            " ".join(filter(None, [marks([one.called for one in group]), led])),
            "; ".join(filter(None, (place(*map(one.values.get, ("x_mm", "z_mm"))) for one in group))),
            own,
        )
        for (led, own), group in groups.items()
    )


def looked(item: Item) -> tuple[tuple[str, str], ...]:
    """What was looked for in a room or on a face, once for all that the same people looked for in the same way."""
    groups: dict[tuple[str, str, str], list[str]] = defaultdict(list)
    for what, by, how, on in item.looked_for or ():
        groups[by, how, on].append(what)
    return tuple(
        ("Looked for", f"{joined(what)}, by {by} ({how}, {day(on)})") for (by, how, on), what in groups.items()
    )


def beyond_figures(answer: AnswerRow, said: Sequence[str]) -> str:
    """What a finding says beyond its figure, limit and margin, which stand beside it, and what was said above."""
    verdict = answer.verdict
    sentence = answer.sentence
    for words in said:
        sentence = sentence.replace(words, "").strip()
    if verdict.limit is None or verdict.margin is None or verdict.margin < 0:
        return sentence
    first = _FIRST.match(sentence)
    return sentence[first.end() :] if first else ""


@dataclass(frozen=True)
class Told:
    """Findings that say the same, as one paragraph.

    checks   what was asked
    about    of what, against what; where there are several, each with its figure, limit and margin
    says     one alone: all it says; several: what they say beyond these
    papers   the documents they rest on
    """

    word: Word
    checks: str
    about: tuple[str, ...]
    says: str
    papers: tuple[Item, ...] = ()


def told(rows: Iterable[AnswerRow]) -> tuple[Told, ...]:
    """Rows of one thing: once what several questions answer alike, and what one question answers of several parts."""
    by_words: dict[tuple[Any, ...], list[AnswerRow]] = defaultdict(list)
    for row in rows:
        one = row.verdict
        by_words[one.word, row.about, row.against, one.figure, one.limit, one.unit, row.sentence, cited(row)].append(
            row
        )
    by_question: dict[tuple[Word, str, str, tuple[str, ...]], list[AnswerRow]] = defaultdict(list)
    for group in by_words.values():
        checks = ", ".join(dict.fromkeys(row.verdict.check.replace("-", " ") for row in group))
        first = group[0]
        by_question[first.verdict.word, checks, beyond_figures(first, ()), cited(first)].append(first)
    return tuple(
        Told(word, checks, tuple(map(_with_figures, group)), says, group[0].papers)
        if len(group) > 1
        else Told(word, checks, (_held(group[0]),), group[0].sentence, group[0].papers)
        for (word, checks, says, _), group in by_question.items()
    )


def _held(row: AnswerRow) -> str:
    against = f" against {row.against}" if row.against and row.against != row.about else ""
    tightest = f" (tightest of {row.alike}: {row.tightest})" if row.tightest else ""
    return f"{row.about}{against}{tightest}"


def _with_figures(row: AnswerRow) -> str:
    one = row.verdict
    named = (("", one.figure), ("limit ", one.limit), ("margin ", one.margin))
    shown = [f"{name}{figure(value, one.unit)}" for name, value in named if value is not None]
    return f"{_held(row)}: {', '.join(shown)}" if one.limit is not None else _held(row)  # else the words have it


def usual(all_facts: Sequence[Facts], share: float = 0.5) -> Facts:
    """What at least such a share of several items say, all for 1: told once, and of each what it says else."""
    said = Counter(pair for facts in all_facts for pair in facts)
    return [pair for pair, times in said.items() if times > 1 and times >= share * len(all_facts)]


def unusual(facts: Facts, common: Facts) -> Facts:
    """What one says beyond what is usual; of what is usual and it does not say, that it is not entered."""
    labels = {label for label, _ in facts}
    silent = [(label, "not entered") for label, _ in common if label not in labels]
    return [*(pair for pair in facts if pair not in common), *silent]


def when(fixing: Item) -> str:
    """When and by whom a fixing went in, and when it came out."""
    down = f"taken down {day(fixing.taken_down_on)}" if fixing.taken_down_on else ""
    return ", ".join(filter(None, (day(fixing.fitted_on), fixing.fitted_by, down)))


def most_said(items: Sequence[Item], words: Callable[[Item], str]) -> str:
    """What most of these say; "" where there are none."""
    said = Counter(map(words, items)).most_common(1)
    return said[0][0] if said else ""
