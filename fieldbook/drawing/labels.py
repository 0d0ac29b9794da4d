"""What a drawing writes beside each thing on a face. The phone writes the same: tests/cases/labels.json holds both."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from ..book.site import Item
from ..checks.limits import rounded_down
from .dimensions import said


def words_beside(item: Item) -> str:
    """How an item is called on a drawing, with what it forbids or allows."""
    more = _MORE.get(item.kind)
    return f"{item.called} {more(item)}" if more else item.called


def _zone(zone: Item) -> str:
    return f"no {', '.join(zone.forbids)}"


def _limit(limit: Item) -> str:
    return _STATED[limit.sort](limit)


_STATED: Mapping[str, Callable[[Item], str]] = {
    "leaf": lambda limit: limit.leaf or "leaf",
    "headroom": lambda limit: f"headroom {said(limit.headroom_mm)}",
    "route": lambda limit: f"route {said(rounded_down(limit.available_mm - limit.clear_width_mm - limit.margin_mm))}",
    "keep in view": lambda _: "keep in view",
    "flat": lambda limit: f"flat {said(rounded_down(limit.projection_mm - limit.margin_mm))}",
}
_MORE: Mapping[str, Callable[[Item], str]] = {"zone": _zone, "limit": _limit}
