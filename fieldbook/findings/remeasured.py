"""What one new measure of a wall changes: which made parts still fit, which packers change, what is still agreed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from ..book.site import Item, Site
from ..checks.verdict import FINE, Word
from .answering import find
from .finding import WORST_FIRST, Finding
from .projection import worked_out
from .questions import OF_KIND

FITS = ("projection", "clearance")
CHANGED_MM = 0.1  # less than a packer can be told apart by


@dataclass(frozen=True)
class Repacked:
    """A fixing whose packer changes: what the wall called for before (None: it could not be said), and now."""

    fixing: Item
    before_mm: float | None
    after_mm: float


@dataclass(frozen=True)
class Remeasured:
    """One fitting with a new measure of its wall.

    before, after  the worst finding of how far it stands out and what stays clear
    packers        those that change
    agreed         marks of what is agreed with the measure as it was without it
    asked_again    marks of what was agreed and is not any more
    """

    fitting: Item
    before: Finding
    after: Finding
    packers: tuple[Repacked, ...]
    agreed: tuple[str, ...]
    asked_again: tuple[str, ...]

    @property
    def fits(self) -> bool:
        """Whether it fits with the new measure."""
        return self.after.word in FINE


def remeasured(site: Site, face: Item, measure: Sequence[float], today: date) -> list[Remeasured]:
    """Every standing fitting of a face, as it is and as it would be with one more surface reading.

    measure  x, z and how far the face stands out there, mm; it takes the place of a reading at the same place
    """
    now = with_measure(site, face, measure)
    return [_compared(site, now, one, today) for one in site.of(face, "fitting") if one.stands]


def with_measure(site: Site, face: Item, measure: Sequence[float]) -> Site:
    """The site with one more surface reading of a face."""
    kept = [row for row in face.surface or [] if tuple(row[:2]) != tuple(measure[:2])]
    new = Item("face", face.id, dict(face.values) | {"surface": [*kept, list(measure)]})
    items = [new if one.id == face.id else one for one in site.everything().values() if one.id != site.item.id]
    return Site(site.item, items, site.folder, site.revision, site.digest, site.then)


def _compared(site: Site, now: Site, fitting: Item, today: date) -> Remeasured:
    own = [fitting, *(fixing for fixing in site.of(fitting, "fixing") if fixing.stands)]
    was = {one.called for one in own if _word(site, one, "consent", today) is Word.AGREED}
    still = {one.called for one in own if _word(now, now[one.id], "consent", today) is Word.AGREED}
    return Remeasured(
        fitting,
        _worst(_found(site, fitting, FITS, today)),
        _worst(_found(now, now[fitting.id], FITS, today)),
        tuple(_repacked(site, now, fitting)),
        tuple(one.called for one in own if one.called in still),
        tuple(one.called for one in own if one.called in was - still),
    )


def _repacked(site: Site, now: Site, fitting: Item) -> Iterator[Repacked]:
    before, after = worked_out(site, fitting), worked_out(now, now[fitting.id])
    known = {row.fixing.id: row.packer_mm for row in before.packed} if before else {}
    for row in after.packed if after else ():
        then = known.get(row.fixing.id)
        if then is None or abs(then - row.packer_mm) >= CHANGED_MM:
            yield Repacked(row.fixing, then, row.packer_mm)


def _found(site: Site, thing: Item, names: Iterable[str], today: date) -> list[Finding]:
    return [find(question, thing, site, today) for question in OF_KIND[thing.kind] if question.name in names]


def _worst(found: Sequence[Finding]) -> Finding:
    return min(found, key=lambda one: WORST_FIRST.index(one.word))


def _word(site: Site, thing: Item, name: str, today: date) -> Word | None:
    return next((one.word for one in _found(site, thing, [name], today)), None)
