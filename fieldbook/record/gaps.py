"""What a careful reader would look for in the record and not find: said plainly, rather than left out."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from ..book.site import Item, Site
from ..book.wording import marks
from ..model.kinds import KINDS

# What a record wants filled, beyond what an entry must have to be accepted.
WANTED: Mapping[str, Sequence[str]] = {
    "site": ("address", "protection", "keeper", "adviser", "fitter", "access"),
    "room": ("plan", "ceiling_mm", "conditions"),
    "face": ("layers", "datum"),
    "zone": ("evidence", "said_by"),
    "limit": ("said_by",),
    "fitting": ("build_up", "mass_empty_kg", "people_to_remove", "removal", "care"),
    "fixing": ("size", "material", "removal_tool", "removal", "make_good"),
    "finish": ("binder", "lightfastness", "comes_off_with", "touch_up", "lab_l", "lab_white", "colour_from"),
    "task": ("every_months", "who", "how"),
}
WANTED_ONCE_FITTED: Mapping[str, Sequence[str]] = {
    "fitting": ("fitted_on",),
    "fixing": ("fitted_on", "fitted_by", "fitted_x_mm"),
}
CALLED = {
    "lab_l": "colour",
    "lab_white": "reference white",
    "fitted_x_mm": "place as fitted",
    "layers": "what it is made of",
    "build_up": "projection",
}


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
    state = item.values.get("state")
    names = [*WANTED.get(item.kind, ()), *(WANTED_ONCE_FITTED.get(item.kind, ()) if state == "fitted" else ())]
    for name in names:
        if item.values.get(name) in (None, [], ""):
            yield CALLED.get(name) or KINDS[item.kind].by_name[name].label.lower()
    yield from _lacking_beside(site, item)


def _lacking_beside(site: Site, item: Item) -> Iterator[str]:
    """What no single field shows."""
    purposes = {photograph.purpose for photograph in site.photographs_of(item)}
    if item.kind == "face" and "datum" not in purposes:
        yield "photograph of its datum"
    if item.kind == "fitting" and item.state == "fitted" and "as fitted" not in purposes:
        yield "photograph as fitted"
    if item.kind == "fitting" and not site.of(item, "fixing"):
        yield "fixings"
    if item.kind == "fixing" and item.hole != "none" and item.penetration_mm is None:
        yield "penetration"
