"""The warning beside a mark that something else on the site carries already; it may be saved all the same."""

from __future__ import annotations

from ..model.kinds import KINDS
from .site import Item, Site
from .wording import joined


def same_mark_warning(site: Site, kind: str, mark: str | None, item: str = "") -> str:
    """A sentence that names the others of this mark; "" where there are none.

    item  id of the item that is changed; "" for a new one
    """
    others = [one for one in site.marked(kind, (mark or "").strip()) if one.id != item]
    if not others:
        return ""
    names = joined(_named(site, one) for one in others)
    return f"Taken already by {names}. In drawings and sentences nobody can tell them apart."


def _named(site: Site, item: Item) -> str:
    parent = site.parent(item)
    within = f" ({parent.called})" if parent and parent.kind != "site" else ""
    return f"{KINDS[item.kind].label.lower()} {item.title}{within}"
