"""What a new item can begin like: one of each sort there is, the latest first."""

from __future__ import annotations

from collections.abc import Iterator

from ...book.site import Item, Site
from ...model.fields import Type
from ...model.kinds import Kind
from ...model.typed import to_text
from .options import titled

MOST = 60


def likes(kind: Kind, site: Site | None) -> list[tuple[str, str]]:
    """Id and words of those that another may be begun like; of several that hand on the same, the latest alone."""
    if site is None or kind.with_a_file or kind.name == "site":
        return []
    found: dict[tuple[str, ...], Item] = {}
    for one in sorted(site.all(kind.name), key=lambda item: item.id, reverse=True):
        handed_on = tuple(_handed_on(kind, one))
        if any(handed_on):
            found.setdefault(handed_on, one)
    return [(one.id, _words(site, one)) for one in list(found.values())[:MOST]]


def _handed_on(kind: Kind, one: Item) -> Iterator[str]:
    """What another takes over, but for where it belongs."""
    for field in kind.asked:
        if field.copied and field.type not in {Type.LINK, Type.LINKS}:
            yield to_text(field, one.values.get(field.name))


def _words(site: Site, one: Item) -> str:
    told = [titled(site, one), *(one.values.get(name) for name in ("sort", "size"))]
    return ", ".join(str(word) for word in told if word)
