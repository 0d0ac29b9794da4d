"""What is kept from one appraisal to the next is what would be found anew."""

from __future__ import annotations

import gc
import weakref
from random import Random

from hypothesis import HealthCheck, given
from hypothesis import strategies as st

from fieldbook.book.site import Item, Site
from fieldbook.findings.appraisal import appraised
from fieldbook.model.kinds import KINDS
from tests.examples import examples
from tests.findings.generated import TODAY, Making, could_be_entered, every

UNHURRIED = examples(30, in_the_long_run=1000, suppress_health_check=[HealthCheck.too_slow])


def without(site: Site, gone: Item) -> Site:
    """The same site with one item taken out."""
    return Site(site.item, [one for one in every(site) if one.id != gone.id], site.folder, 1, "", site.then)


def with_change(site: Site, chance: Random, making: Making) -> Site:
    """The same site with one field of one item changed, or one item that nothing else needs taken out."""
    items = list(every(site))
    item = chance.choice(items)
    if item.kind in {"zone", "limit", "hold", "reading", "agreement", "decision"} and chance.random() < 0.2:
        return without(site, item)
    field = chance.choice(KINDS[item.kind].fields)
    value = making.filled(item.kind, field) if field.required or chance.random() < 0.8 else None
    if field.to or not could_be_entered(site, item, **{field.name: value}):
        return site
    new = Item(item.kind, item.id, dict(item.values) | {field.name: value})
    return Site(site.item, [*(one for one in items if one.id != item.id), new], site.folder, 1, "", site.then)


@UNHURRIED
@given(st.integers(0, 2**40))
def test_what_is_kept_after_changes_is_what_would_be_found_anew(seed: int) -> None:
    """After each of some changes, asking again only where something was looked at finds the same as asking all."""
    making = Making(seed)
    site, chance = making.site(), Random(seed)  # noqa: S311 - no secret
    kept = appraised(site, TODAY)
    for _ in range(6):
        site = with_change(site, chance, making)
        kept = appraised(site, TODAY, kept)
        anew = appraised(site, TODAY)
        assert kept.of_thing == anew.of_thing
        assert kept.ordered == anew.ordered


def test_rubbish_of_others_stays_where_it_is_soon_looked_for() -> None:
    """What a page leaves behind is gone with the next usual look through what is young, though a site was appraised."""

    class Left:
        """Holds on to itself, as a form and its fields do."""

        def __init__(self) -> None:
            self.own = self

    site = Making(1).site()
    gc.collect()
    gone = weakref.ref(Left())
    appraised(site, TODAY)
    gc.collect(1)
    assert gone() is None
