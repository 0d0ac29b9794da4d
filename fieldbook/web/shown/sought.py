"""What on a site is called, or says, what somebody looks for: every word of it, in any field and in any case."""

from __future__ import annotations

from collections.abc import Iterator

from ...book.site import Item, Site
from ...model.fields import Type
from ...model.kinds import KINDS

WORDS = {Type.LINE, Type.NOTE, Type.CHOICE}


def sought(site: Site, text: str) -> list[Item]:
    """The items that hold every word of a text; those called so come first. Nothing for a blank."""
    parts = text.casefold().split()
    if not parts:
        return []
    found = [item for item in _everything(site) if all(part in _words_of(item) for part in parts)]
    return sorted(found, key=lambda item: _rank(item.called.casefold(), parts))


def _everything(site: Site) -> Iterator[Item]:
    yield site.item
    for kind in KINDS.values():
        if kind.parent:
            yield from site.all(kind.name)


def _words_of(item: Item) -> str:
    fields = (one.name for one in KINDS[item.kind].fields if one.type in WORDS)
    return " ".join(str(item.values[name]) for name in fields if item.values.get(name)).casefold()


def _rank(called: str, parts: list[str]) -> int:
    if called == " ".join(parts):
        return 0
    return 1 if called.startswith(parts[0]) else 2
