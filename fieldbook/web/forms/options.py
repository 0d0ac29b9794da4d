"""The items a link may point to, as a select offers them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ...book.site import Item, Site
from ...drawing.over_photograph import face_shown
from ...model.fields import ANY, Field, Type
from ...model.kinds import KINDS

Choices = dict[str, list[tuple[str, str]]]
"""Heading -> (id, title); as the `choices` of a select in groups."""


class Options:
    """What the links of one form may point to; all from one site.

    photograph  where the form is about a place in it: what lies on the face it shows comes first
    """

    def __init__(self, site: Site | None, photograph: str | None = None):
        self._site = site
        shown = site.get(photograph, "photograph") if site else None
        self._face = face_shown(site, shown) if site and shown else None

    def of(self, field: Field, chosen: str | Iterable[str] | None) -> Choices:
        """The choices of a link: items of its kind, and what it points to already even if that was withdrawn."""
        kinds = [kind.name for kind in KINDS.values() if kind.pointed_to] if field.to == ANY else [field.to]
        groups = {"": [("", "–")]} if field.type is Type.LINK else {}
        if field.to == ANY and self._face:
            groups |= self._groups(kinds, f" on {self._face.called}", on_it=True)
        groups |= self._groups(kinds, "", on_it=False)
        offered = {value for choices in groups.values() for value, _ in choices}
        if absent := [link for link in _listed(chosen) if link not in offered]:
            groups["No longer on this site"] = [(link, link) for link in absent]
        return groups

    def _groups(self, kinds: Iterable[str], where: str, *, on_it: bool) -> Choices:
        found = {kind: [one for one in self._all(kind) if self._is_on_it(one) == on_it] for kind in kinds}
        return {
            f"{KINDS[kind].plural}{where}": [(one.id, titled(self._site, one)) for one in items]
            for kind, items in found.items()
            if items
        }

    def _is_on_it(self, item: Item) -> bool:
        return self._face is not None and (item.id == self._face.id or item.values.get("face") == self._face.id)

    def _all(self, kind: str) -> Sequence[Item]:
        if self._site is None:
            return ()
        return [self._site.item] if kind == "site" else self._site.all(kind)


def titled(site: Site | None, item: Item) -> str:
    """Title, and the place it lies in where that is no more than a mark away."""
    parent = site.parent(item) if site else None
    return f"{item.title} ({parent.called})" if parent and parent.kind != "site" else item.title


def _listed(chosen: str | Iterable[str] | None) -> list[str]:
    return [] if not chosen else [chosen] if isinstance(chosen, str) else list(chosen)
