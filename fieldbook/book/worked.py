"""What was worked out of a site, kept for as long as what it rests on stays the same."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from contextlib import suppress
from functools import partial
from typing import Any, NamedTuple


class Worked(NamedTuple):
    """What was worked out, or why it could not be, and what was asked for it.

    again  works the same out of another state, where that is cheap and often comes to the same
    """

    value: Any
    refusal: Exception | None
    notes: frozenset[Any]
    again: Callable[[Any], Any] | None = None


class WorkedOnce:
    """Something that findings ask, which keeps what was worked out of the answers.

    own     what all that is worked out rests on: the id of the site itself
    notes   where it is a set, what is asked is noted in it: ids, keys, and the keys of what was worked out.
            Whatever is kept of an answer holds until one of these changes
    worked  what was worked out once, by its key; what rests on other work comes after it
    """

    def __init__(self, own: Hashable):
        self.own = own
        self.notes: set[Any] | None = None
        self.worked: dict[Hashable, Worked] = {}

    def once(self, key: tuple[Any, ...], work: Callable[[], Any]) -> Any:
        """What `work` gives or raises, done once; findings need the same of things that share a face or a carrier.

        key   the ids it begins from, and a word for what is worked out. What else it rests on is asked
        """
        known = self.worked.get(key)
        if known is None:
            known = self.worked[key] = self._work(key, work)
        if self.notes is not None:
            self.notes.add(key)
        if known.refusal is not None:
            raise _anew(known.refusal)
        return known.value

    def told_once(self, key: tuple[Any, ...], tell: Callable[[Any], Any]) -> Any:
        """The same for what little of much else is looked at: who asked it is told anew only if it becomes another.

        tell  is given this, or a later state of it; what it gives or raises can be compared
        """
        work = partial(tell, self)
        if key not in self.worked:
            self.worked[key] = self._work(key, work)._replace(again=tell)
        return self.once(key, work)

    def _work(self, key: tuple[Any, ...], work: Callable[[], Any]) -> Worked:
        around, self.notes = self.notes, {self.own, *key}
        value, refusal = None, None
        try:
            value = work()
        except Exception as error:  # a refusal is kept as an answer is
            refusal = _anew(error)
        finally:
            notes, self.notes = self.notes, around
        return Worked(value, refusal, frozenset(notes))

    def take_over(self, before: WorkedOnce, changed: Iterable[Any]) -> set[Any]:
        """Keep what was worked out of another state, but for what rests on something that changed.

        changed  ids and keys of the items that are not the same in both
        Returns the keys of what was not kept, with what changed.
        """
        stale = set(changed)
        for key, worked in before.worked.copy().items():  # others may be at work on it
            if stale.isdisjoint(worked.notes):
                self.worked.setdefault(key, worked)
            elif worked.again is None or self._told_again(key, worked.again) != _told(worked):
                stale.add(key)
        return stale

    def _told_again(self, key: Any, tell: Callable[[Any], Any]) -> Any:
        with suppress(Exception):
            self.told_once(key, tell)
        return _told(self.worked[key])


def _told(worked: Worked) -> Any:
    """What was told, as it can be compared."""
    refusal = worked.refusal
    return worked.value if refusal is None else (type(refusal), refusal.args, refusal.__dict__)


def _anew(refusal: Exception) -> Exception:
    """The same refusal without where it was raised: what is kept for long must not hold what was at work then."""
    other = type(refusal).__new__(type(refusal), *refusal.args)
    other.__dict__.update(refusal.__dict__)
    return other
