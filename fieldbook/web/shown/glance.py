"""The overview of a site: counts, money, what is over, due and missing."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from ...book.site import Item, Site
from ...checks.days import in_words
from ...checks.verdict import PLAINLY_FINE, Word
from ...findings import WORST_FIRST, Finding, counts, worst_words
from ...findings.due import OVERDUE, SOON, due_on, state
from ...model.choices import STATES
from ...record.gaps import Gap, gaps_of


@dataclass(frozen=True)
class AgainstBudget:
    """What was spent and is expected in one currency, against the budget if that is in it."""

    currency: str
    paid: float
    expected: float
    budget: float | None

    @property
    def left(self) -> float | None:
        """What the budget has left once all is paid; negative when it will not do."""
        return None if self.budget is None else self.budget - self.paid - self.expected

    def after(self, price: float) -> float | None:
        """What the budget has left once all is paid that was, and this price as well; nothing else that is expected."""
        return None if self.budget is None else self.budget - self.paid - price


@dataclass(frozen=True)
class Glance:
    """What an overview tells.

    states         kind -> state -> how many
    rooms          each with its faces and the worst word about each
    overdue, soon  how many things are due by today, and in the next months
    visit          when somebody is to come next, in words; "" where no day is entered
    """

    states: Mapping[str, Mapping[str, int]]
    words: Mapping[Word, int]
    worst: Sequence[Finding]
    gaps: Sequence[Gap]
    money: Sequence[AgainstBudget]
    rooms: Sequence[tuple[Item, Sequence[tuple[Item, Word | None]]]]
    overdue: int
    soon: int
    visit: str


def glance_at(site: Site, findings: Sequence[Finding], today: date, most: int = 8) -> Glance:
    """The overview, with at most so many of the findings that call for something."""
    words, due = worst_words(findings), due_on(site, today)
    states = [state(one, today) for one in due]
    return Glance(
        {kind: _by_state(site.all(kind)) for kind in ("fitting", "fixing")},
        counts(findings),
        [finding for finding in findings if finding.verdict.word not in PLAINLY_FINE][:most],
        gaps_of(site),
        money_of(site),
        [(room, faces_of(site, room, words)) for room in site.all("room")],
        states.count(OVERDUE),
        states.count(SOON),
        visit_in_words(min((one.on for one in due if one.sort == "visit" and one.on), default=None), today),
    )


def visit_in_words(on: date | None, today: date) -> str:
    """The day of the next visit; one that nobody has entered as made is overdue and is said to be."""
    if on is None:
        return ""
    if on < today:
        return f"overdue: was due on {in_words(on)}"
    return f"{in_words(on)}, today" if on == today else in_words(on)


def _by_state(items: Sequence[Item]) -> dict[str, int]:
    return {state: sum(item.state == state for item in items) for state in STATES}


def faces_of(site: Site, room: Item, words: Mapping[str, Word]) -> list[tuple[Item, Word | None]]:
    """The faces of a room, each with the worst word about anything on it; None where nothing was judged."""
    return [(face, _word_on(site, face, words)) for face in site.of(room, "face")]


def _word_on(site: Site, face: Item, words: Mapping[str, Word]) -> Word | None:
    things = [*site.of(face, "fitting"), *site.fixings_on(face)]
    return min((words[thing.id] for thing in things if thing.id in words), key=WORST_FIRST.index, default=None)


def money_of(site: Site) -> list[AgainstBudget]:
    """Costs by currency, the site's own first."""
    sums: dict[str, dict[str, float]] = defaultdict(lambda: defaultdict(float))
    for cost in site.all("cost"):
        sums[cost.currency][cost.state] += cost.amount
    own, budget = site.item.currency, site.item.budget
    if own and budget is not None:
        sums[own]  # a budget shows even when nothing is spent
    return [
        AgainstBudget(currency, sums[currency]["paid"], sums[currency]["expected"], budget if currency == own else None)
        for currency in sorted(sums, key=lambda currency: (currency != own, currency))
    ]
