"""The items a link may point to, as a select offers them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ...book.site import Item, Site
from ...model.fields import ANY, Field, Type
from ...model.kinds import KINDS

Choices = dict[str, list[tuple[str, str]]]
"""Heading -> (id, title); as the `choices` of a select in groups."""


class Options:
    """What the links of one form may point to; all from one site."""

    def __init__(self, site: Site | None):
        self._site = site

    def of(self, field: Field, chosen: str | Iterable[str] | None) -> Choices:
        """The choices of a link: items of its kind, and what it points to already even if that was withdrawn."""
        kinds = [kind.name for kind in KINDS.values() if kind.pointed_to] if field.to == ANY else [field.to]
        groups = {"": [("", "–")]} if field.type is Type.LINK else {}
        for kind in kinds:
            if items := self._all(kind):
                groups[KINDS[kind].plural] = [(item.id, self._words(item)) for item in items]
        offered = {value for choices in groups.values() for value, _ in choices}
        if absent := [link for link in _listed(chosen) if link not in offered]:
            groups["No longer on this site"] = [(link, link) for link in absent]
        return groups

    def _all(self, kind: str) -> Sequence[Item]:
        if self._site is None:
            return ()
        return [self._site.item] if kind == "site" else self._site.all(kind)

    def _words(self, item: Item) -> str:
        """Title, and the place it lies in where that is no more than a mark away."""
        parent = self._site.parent(item) if self._site else None
        return f"{item.title} ({parent.called})" if parent and parent.kind != "site" else item.title


def _listed(chosen: str | Iterable[str] | None) -> list[str]:
    return [] if not chosen else [chosen] if isinstance(chosen, str) else list(chosen)
