"""A site tried with something changed is the site that would be gathered after that change."""

from __future__ import annotations

import pytest

from fieldbook.book.cells import cells_of
from fieldbook.book.site import Item, Site
from tests.findings.generated import Making, every


@pytest.mark.parametrize("seed", range(12))
def test_site_with_a_change_finds_each_thing_where_it_is_now(seed: int) -> None:
    """What stands in a cell, belongs to a face or has a mark is told of a moved thing as of one gathered anew."""
    site = Making(seed).site()
    for one in (*site.all("fitting"), *site.all("fixing")):
        moved = Item(one.kind, one.id, dict(one.values) | {"x_mm": one.x_mm + 700.0})
        tried = site.with_changed(moved)
        others = [each for each in every(site) if each.id != one.id]
        anew = Site(site.item, [*others, moved], site.folder, site.revision, site.digest, site.then)
        cells = {*cells_of(one.kind, one.values), *cells_of(one.kind, moved.values)}
        for cell in cells:
            assert list(tried.standing_in(one.kind, [cell])) == list(anew.standing_in(one.kind, [cell]))
        assert tried.of(tried[one.face], one.kind) == anew.of(anew[one.face], one.kind)
        assert tried.same_mark(moved) == anew.same_mark(moved)
