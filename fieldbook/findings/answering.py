"""Answering one question about one thing, and what a field that is not entered does to the answer.

Where a field is not entered, its ordinary values are tried, each of them: if the answer is the same with
all, the entry is not asked for; if it would change, the answer is *not known* and names what is missing.
So a blank gives a fine word only where the least favourable ordinary value would give one as well.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from ..book.site import Item, Site
from ..checks.limits import rounded_up, third_figure
from ..checks.verdict import FINE, STOP, Verdict, Word, not_known_because
from ..errors import FieldbookError, Missing
from ..model.fields import Type
from ..model.kinds import KINDS
from . import beyond
from .asking import MORE, NOTHING_TAKEN, Asked, NotEntered, Question, label_in_words, label_of
from .decisions import applied, decisions_on
from .finding import WORST_FIRST, Blank, Finding, Outcome
from .papers import with_papers

MOST_TRIES = 64  # beyond that too much is missing for an answer
MOST_AT_BEST = 8
# What a check is given that is no entry of the thing itself.
READ = {
    "humidity_pct": "The relative humidity of its room",
    "temperature_c": "The temperature of its room",
    "from_c": "The lowest temperature of its room",
    "to_c": "The highest temperature of its room",
}
FIGURES = frozenset({Type.NUMBER, Type.WHOLE})


def find(question: Question, subject: Item, site: Site, today: date) -> Finding:
    """The one finding of a question about a thing, as a decision has it where somebody entitled made one."""
    return next(find_all((question,), subject, site, today))


def find_all(questions: Iterable[Question], subject: Item, site: Site, today: date) -> Iterator[Finding]:
    """The same of some questions about one thing."""
    asked, decided = Asked(site, today, NOTHING_TAKEN), decisions_on(site, subject, today)
    kept = bool(site.all("document"))
    for question in questions:
        found = _found(question, subject, asked)
        found = applied(site, found, decided) if decided else found
        yield beyond.capped(site, with_papers(site, found) if kept else found)


def _found(question: Question, subject: Item, asked: Asked) -> Finding:
    try:
        return _finding(question, subject, question.answer(asked, subject))
    except NotEntered as lack:
        first = lack
    except FieldbookError as error:
        return _refused(question, subject, error)
    return _tried(question, subject, asked.site, asked.today, first)


@dataclass(frozen=True, slots=True)
class _Try:
    """One answer, with what was taken for it; `lacking` where a field has no ordinary value to try."""

    taken: Mapping[tuple[str, str], Any]
    outcome: Outcome | None
    lacking: NotEntered | None = None

    @property
    def word(self) -> Word:
        return self.outcome.verdict.word if self.outcome else Word.NOT_KNOWN

    @property
    def badness(self) -> tuple[int, float]:
        return WORST_FIRST.index(self.word), self.outcome.verdict.left if self.outcome else math.inf


def _tries(
    question: Question,
    subject: Item,
    site: Site,
    today: date,
    taken: dict[tuple[str, str], Any],
    blanks: dict[tuple[str, str], Blank],
) -> Iterator[_Try]:
    """Answers with every ordinary value of what is missing, as they come to be needed."""
    try:
        yield _Try(taken, question.answer(Asked(site, today, taken), subject))
    except NotEntered as lack:
        key = (lack.blank.item.id, lack.blank.field)
        blanks[key] = lack.blank
        values = _values_of(lack.blank) if key not in taken else ()
        if not values:
            over = _over_at_best(question, subject, Asked(site, today, taken), lack, blanks)
            yield over or _Try({**taken, key: None}, None, lack)
        for value in values:
            yield from _tries(question, subject, site, today, {**taken, key: value}, blanks)
    except FieldbookError as error:
        yield _Try(taken, Outcome(not_known_because(question.name, _told_of(subject, error), "")))


def _values_of(blank: Blank) -> tuple[Any, ...]:
    """What may ordinarily stand where nothing is entered; empty where that is not known."""
    field = KINDS[blank.item.kind].by_name.get(blank.field)
    return blank.tried or (field.tried if field else ())


def _tried(question: Question, subject: Item, site: Site, today: date, first: NotEntered) -> Finding:
    blanks: dict[tuple[str, str], Blank] = {}
    if not _values_of(first.blank):
        over = _over_at_best(question, subject, Asked(site, today, NOTHING_TAKEN), first, blanks)
        return (
            _settled(question, subject, over, blanks)
            if over
            else _not_entered(question, subject, (first.blank,), None, first)
        )
    tries: list[_Try] = []
    for one in _tries(question, subject, site, today, {}, blanks):
        tries.append(one)
        if (one.lacking and len(one.taken) == 1) or len(tries) >= MOST_TRIES:
            break
    ranked = sorted(tries, key=lambda one: one.badness)
    unsettled = any(one.lacking for one in tries) or len(tries) >= MOST_TRIES
    if not unsettled and all(one.word in FINE for one in tries):
        return _settled(question, subject, ranked[0], blanks)
    asked_again = all(one.word is Word.NOT_AGREED for one in tries)
    if not unsettled and (asked_again or all(one.word in STOP for one in tries)):
        return _settled(question, subject, ranked[-1], blanks)  # which tells of no more than is so in any case
    if not unsettled and all(one.word is ranked[0].word for one in tries):
        return _settled(question, subject, ranked[0], blanks)
    missing = _that_matter(tries, blanks) or tuple(blanks.values()) or (first.blank,)
    lack = next((one.lacking for one in tries if one.lacking), None)
    worst = next((one.outcome for one in ranked if one.outcome and lack is None), None)
    return _not_entered(question, subject, missing, worst, lack)


def _over_at_best(
    question: Question, subject: Item, asked: Asked, lack: NotEntered, blanks: dict[tuple[str, str], Blank]
) -> _Try | None:
    """Over stays over: where more of what is missing is worse, and the least there can be of it is too much already."""
    taken, found = dict(asked.taken), dict(blanks)
    for _ in range(MOST_AT_BEST):
        item, name = lack.blank.item, lack.blank.field
        field = KINDS[item.kind].by_name.get(name)
        more_is_worse = question.reads.get(f"{item.kind}.{name}") == MORE
        if field is None or not more_is_worse or field.type not in FIGURES or (item.id, name) in taken:
            return None
        taken[item.id, name], found[item.id, name] = field.low, lack.blank
        try:
            one = _Try(taken, question.answer(Asked(asked.site, asked.today, dict(taken)), subject))
        except NotEntered as more:
            lack = more
        except FieldbookError:
            return None
        else:
            if one.word not in STOP:
                return None
            blanks |= found
            return one
    return None


def _settled(question: Question, subject: Item, one: _Try, blanks: Mapping[tuple[str, str], Blank]) -> Finding:
    """The answer that holds whatever the missing entries are."""
    if one.outcome is None:
        raise AssertionError("an answer that holds has an outcome")
    taken = tuple(_taken(blanks[key], value, one.word in STOP) for key, value in one.taken.items())
    return _finding(question, subject, one.outcome._replace(assumed=(*one.outcome.assumed, *taken)))


def _that_matter(tries: Sequence[_Try], blanks: Mapping[tuple[str, str], Blank]) -> tuple[Blank, ...]:
    """The missing entries on which the answer turns: two tries that differ in nothing else come to another word.

    What no single change tells apart is all of it asked for.
    """
    matter = {_asked_first(one, tries): True for one in tries if one.lacking}
    for place, one in enumerate(tries):
        for other in tries[place + 1 :]:
            keys = one.taken.keys() & other.taken.keys()
            differing = [key for key in keys if one.taken[key] != other.taken[key]]
            if len(differing) == 1 and (one.word in FINE) != (other.word in FINE):
                matter[differing[0]] = True
    return tuple(blanks[key] for key in matter)


def _asked_first(lacking: _Try, tries: Sequence[_Try]) -> tuple[str, str]:
    """What to ask for where an entry lacks: what was tried before it, if with another value of that nothing lacks.

    Nobody is asked how hard people pull before it is known whether they can.
    """
    *before, last = lacking.taken
    for place, key in enumerate(before):
        for other in tries:
            alike = all(other.taken.get(earlier) == lacking.taken[earlier] for earlier in before[:place])
            alike = alike and all(
                other.taken.get(one, lacking.taken[one]) == lacking.taken[one] for one in before[place + 1 :]
            )
            if alike and not other.lacking and other.taken.get(key) not in (None, lacking.taken[key]):
                return key
    return last


def _taken(blank: Blank, value: Any, stops: bool) -> str:
    """What was taken for an entry: where the answer is fine the worst of it, where it stops the best."""
    field = KINDS[blank.item.kind].by_name[blank.field]
    told = f"{value:g}" if isinstance(value, float) else value
    said = ("no", "yes")[value] if value in (0, 1) and not field.unit else f"{told} {field.unit}".strip()
    holds = "it is so even with" if stops else "the answer is no worse with"
    return f"{label_of(blank)} is not entered; {holds} {said}."


def _not_entered(
    question: Question, subject: Item, missing: Sequence[Blank], worst: Outcome | None, lack: NotEntered | None
) -> Finding:
    names = "; ".join(label_of(blank) for blank in missing)
    sentence = f"Not entered: {names}."
    figure, unit = (lack.figure, lack.unit) if lack and lack.figure is not None else (None, "")
    if figure is None and worst is not None:
        figure, unit = worst.verdict.figure, worst.verdict.unit
    if figure is not None:
        sentence += f" The figure is {rounded_up(figure, third_figure(figure)):.10g} {unit}."
    if lack and lack.why and lack.blank in missing:
        sentence += f" {lack.why}"
    source = worst.verdict.source if worst else ""
    fields = tuple(blank.field for blank in missing)
    verdict = Verdict(question.name, Word.NOT_KNOWN, figure, None, None, unit, sentence, source, fields)
    return Finding(question.name, subject, worst.against if worst else None, verdict, tuple(missing))


def _refused(question: Question, subject: Item, error: FieldbookError) -> Finding:
    """What a method does not cover is not known, for the reason it gives."""
    verdict = not_known_because(question.name, _told_of(subject, error), "")
    known = error.field in KINDS[subject.kind].by_name
    missing = (Blank(subject, str(error.field)),) if isinstance(error, Missing) and known else ()
    return Finding(question.name, subject, None, verdict, missing)


def _told_of(subject: Item, error: FieldbookError) -> FieldbookError:
    """A refusal with what it is about as people call it: a check has names of its own for what it is given."""
    if not error.about:
        return error
    if error.about in KINDS[subject.kind].by_name:
        name = label_of(Blank(subject, error.about))
    elif error.about in KINDS["fixing"].by_name:
        name = f"“{label_in_words('fixing', error.about)}” of one of its fixings"
    else:
        name = READ.get(error.about, error.about)
    return error.named(name, error.field)


def _finding(question: Question, subject: Item, outcome: Outcome) -> Finding:
    verdict, against, assumed, left_out, again, missing, papers = outcome
    return Finding(question.name, subject, against, verdict, missing, assumed, left_out, again, papers)
