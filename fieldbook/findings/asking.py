"""A question, and a site as it sees it: with what is taken for the fields that are not entered."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Any

from ..book.site import Item, Site
from ..model.kinds import KINDS
from .ahead import come, not_come
from .finding import Blank, Outcome

MORE, LESS, NEITHER = "more", "less", "neither"
"""Which way of a field is the worse for an answer: more of it, less of it, or that cannot be said."""


@dataclass(frozen=True, slots=True)
class Question:
    """One question about every thing of one kind.

    name    as the lists and `fieldbook check` call it
    kind    the kind of thing it is asked of
    asks    the question in words, for people
    answer  from what is asked and the thing to the outcome
    reads   "kind.field" -> which way is the worse: MORE, LESS or NEITHER
    """

    name: str
    kind: str
    asks: str
    answer: Callable[[Asked, Item], Outcome]
    reads: Mapping[str, str]


class NotEntered(Exception):
    """A question needs a field that is not entered, and nothing was taken for it.

    figure, unit  what could be reckoned all the same: a figure is given even where its limit is not known
    why           a sentence on why nothing else settles it; "" where the field says enough
    """

    def __init__(self, blank: Blank, figure: float | None, unit: str, why: str = ""):
        super().__init__(blank.field)
        self.blank, self.figure, self.unit, self.why = blank, figure, unit, why


NOTHING_TAKEN: Mapping[tuple[str, str], Any] = {}


class Asked:
    """A site as one question sees it: with what is taken for the fields that are not entered.

    today  the day it is asked on, for what ends
    """

    __slots__ = ("site", "taken", "today")

    def __init__(self, site: Site, today: date, taken: Mapping[tuple[str, str], Any]):
        self.site, self.today, self.taken = site, today, taken

    def need(
        self, item: Item, name: str, figure: float | None = None, unit: str = "", tried: tuple[Any, ...] = ()
    ) -> Any:
        """What is entered in a field, or taken for it; raises NotEntered, which the asking turns into an answer.

        figure, unit  what is already reckoned and only lacks this
        tried         what it may be, where the thing itself bounds it
        """
        value = item.values.get(name)
        if value is not None:
            return value
        if self.taken and (item.id, name) in self.taken:
            return self.taken[item.id, name]
        raise NotEntered(Blank(item, name, tried=tried), figure, unit)

    def need_done(self, item: Item, name: str, figure: float | None = None, unit: str = "") -> str:
        """The day on which something was done; raises NotEntered where that is not entered or has not come."""
        day: str = self.need(item, name, figure, unit)
        if not come(day, self.today):
            raise NotEntered(Blank(item, name), figure, unit, not_come(day))
        return day

    def lack(self, item: Item, kind: str, words: str, **given: str) -> NotEntered:
        """To be raised where something that belongs to an item is not there: a reading of a room.

        kind   what would be entered
        words  that thing in words: a reading of the illuminance in R1
        given  what is known of it already: its quantity
        """
        return NotEntered(Blank(item, kind, words, tuple(given.items())), None, "")

    def once(self, key: tuple[Any, ...], work: Callable[[], Any]) -> Any:
        """What `work` gives or raises, done once for a site.

        What was worked out with nothing taken needed no missing entry, so it holds whatever is taken; what
        lacked one is worked out for each set of what is taken.
        """
        return self.site.once(self._keyed(key), work)

    def told_once(self, key: tuple[Any, ...], tell: Callable[[Asked], Any]) -> Any:
        """The same of what little comes of many readings: who asked it is asked again only if it becomes another.

        tell  is given this, or the same with a later state of the site
        """
        today, taken = self.today, self.taken
        return self.site.told_once(self._keyed(key), lambda now: tell(Asked(now, today, taken)))

    def _keyed(self, key: tuple[Any, ...]) -> tuple[Any, ...]:
        key = (*key, self.today)
        if self.taken:
            known = self.site.worked.get(key)
            if known is None or isinstance(known.refusal, NotEntered):
                return (*key, frozenset(self.taken.items()))
        return key


def label_of(blank: Blank) -> str:
    """A missing entry in words: the loaded mass of C2."""
    if blank.words:
        return blank.words
    return f"“{label_in_words(blank.item.kind, blank.field)}” of {blank.item.called}"


@lru_cache
def label_in_words(kind: str, name: str) -> str:
    label = KINDS[kind].by_name[name].label
    return label if label[1:2].isupper() else label[:1].lower() + label[1:]
