"""What many items say alike, told once: in the annex, where everything stands and nothing need stand twice."""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from ..book.site import Item
from ..book.wording import Titles, day, facts, joined, marks, place
from ..model.kinds import KINDS
from .answers import AnswerRow

_FIRST = re.compile(r"^.*?(?<=[a-z²³%)\d])\.\s+(?=[A-Z])")


@dataclass(frozen=True)
class Alike:
    """Items that say the same but for their marks and places.

    places  where each is, in the order of the marks
    facts   label and words of all else, once
    """

    marks: str
    places: str
    facts: tuple[tuple[str, str], ...]


def alike(items: Iterable[Item], titles: Titles) -> tuple[Alike, ...]:
    """Items of one kind that have a mark and a place, those that say the same together."""
    groups: dict[tuple[tuple[str, str], ...], list[Item]] = defaultdict(list)
    for item in items:
        kind = KINDS[item.kind]
        names = [name for name in kind.by_name if name not in {kind.parent, "mark", "x_mm", "z_mm"}]
        groups[tuple(facts(item, names, titles))].append(item)
    return tuple(
        Alike(
            marks([one.called for one in group]),
            "; ".join(place(one.x_mm, one.z_mm) for one in group),
            said,
        )
        for said, group in groups.items()
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


def when(fixing: Item) -> str:
    """When and by whom a fixing went in, and when it came out."""
    down = f"taken down {day(fixing.taken_down_on)}" if fixing.taken_down_on else ""
    return ", ".join(filter(None, (day(fixing.fitted_on), fixing.fitted_by, down)))


def most_said(items: Sequence[Item], words: Callable[[Item], str]) -> str:
    """What most of these say; "" where there are none."""
    said = Counter(map(words, items)).most_common(1)
    return said[0][0] if said else ""
