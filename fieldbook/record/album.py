"""The photographs of a site: which sheet of the record each stands on, and its number."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping

from ..book.site import Item, Site

_STANDS_WITH = {"fixing": "fitting", "zone": "face", "limit": "face", "hold": "face"}
_SHEETS = {"site", "room", "face", "fitting", "finish"}


def album(site: Site, *, receipts: bool) -> dict[str, tuple[Item, ...]]:
    """The photographs by the sheet they stand on, each once; of a fitting one, its others among the further ones."""
    homes: dict[str, list[Item]] = defaultdict(list)
    for photograph in sorted(site.all("photograph"), key=lambda one: (one.taken_at or "", one.id)):
        if receipts or not is_receipt(site, photograph):
            homes[_home(site, photograph)].append(photograph)
    for fitting in site.all("fitting"):
        kept = sorted(homes.pop(fitting.id, []), key=lambda one: one.purpose != "as fitted")
        homes[fitting.id] = kept[:1]
        homes[""] += kept[1:]
    return {home: tuple(kept) for home, kept in homes.items() if kept}


def is_receipt(site: Site, photograph: Item) -> bool:
    subject = site.get(photograph.subject)
    return photograph.purpose == "receipt" or bool(subject and subject.kind == "cost")


def _home(site: Site, photograph: Item) -> str:
    subject = site.get(photograph.subject)
    if subject is None:
        return ""
    if subject.kind in _STANDS_WITH:
        return subject.values[_STANDS_WITH[subject.kind]]
    if subject.kind in {"reading", "observation"}:
        return subject.face or subject.room
    return subject.id if subject.kind in _SHEETS else ""


def pointers(site: Site) -> dict[str, tuple[Item, ...]]:
    """The numbered marks on each photograph, in order."""
    return {
        photograph.id: tuple(sorted(marks, key=lambda one: (one.number, one.id)))
        for photograph in site.all("photograph")
        if (marks := site.of(photograph, "pointer"))
    }


def numbered(site: Site, photographs: Mapping[str, tuple[Item, ...]]) -> dict[str, int]:
    """Photographs numbered in the order the record shows them."""
    sheets = [item.id for kind in ("fitting", "finish") for item in site.all(kind)]
    rooms = [home for room in site.all("room") for home in [room.id, *(face.id for face in site.of(room, "face"))]]
    homes = [site.item.id, *sheets, *rooms, ""]
    shown = [photograph.id for home in homes for photograph in photographs.get(home, ())]
    return {photograph: number for number, photograph in enumerate(shown, 1)}
