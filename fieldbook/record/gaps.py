"""What a careful reader would look for in the record and not find: said plainly, rather than left out."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from ..book.site import Item, Site
from ..book.wording import marks
from ..model.choices import AS_PLANNED, FITTED
from ..model.fields import ALWAYS, ONCE_FITTED
from ..model.kinds import KINDS


@dataclass(frozen=True)
class Gap:
    """What is missing, and of which items: these of one kind, in words."""

    kind: str
    items: str
    missing: tuple[str, ...]


def gaps_of(site: Site) -> tuple[Gap, ...]:
    """Everything missing from the record of a site, by kind; items that lack the same are told together."""
    by_lack: dict[tuple[str, str, tuple[str, ...]], list[str]] = defaultdict(list)
    for kind in KINDS:
        for item in [site.item] if kind == "site" else site.all(kind):
            if lack := tuple(_lacking(site, item)):
                group = item.fitting if kind == "fixing" else ""
                by_lack[kind, group, lack].append(item.called)
    return tuple(
        Gap(kind, marks(items) if kind == "fixing" else ", ".join(items), lack)
        for (kind, _, lack), items in by_lack.items()
    )


def _lacking(site: Site, item: Item) -> Iterator[str]:
    if not item.stands:
        return
    due = {ALWAYS, ONCE_FITTED} if item.values.get("state") == FITTED else {ALWAYS}
    empty = [field for field in KINDS[item.kind].asked if item.values[field.name] in (None, [])]
    lacking = [field for field in empty if field.wanted in due or field.required]  # needed since it was made
    if item.kind == "fixing" and item.fitted_place == AS_PLANNED:
        lacking = [field for field in lacking if field.name not in {"fitted_x_mm", "fitted_z_mm"}]
    yield from dict.fromkeys(field.lack or field.label.lower() for field in lacking)
    yield from _lacking_beside(site, item)


def _lacking_beside(site: Site, item: Item) -> Iterator[str]:
    """What no single field shows."""
    if site.same_mark(item):
        yield f"a {KINDS[item.kind].numbered_by} of its own"
    purposes = {photograph.purpose for photograph in site.photographs_of(item)}
    if item.kind == "face" and "datum" not in purposes:
        yield "photograph of its datum"
    if item.kind == "fitting" and item.state == FITTED and "as fitted" not in purposes:
        yield "photograph as fitted"
    if item.kind == "fitting" and not site.of(item, "fixing"):
        yield "fixings"
    if item.kind == "fixing" and item.hole != "none" and item.penetration_mm is None:
        yield "depth into the wall"
