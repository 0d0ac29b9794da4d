"""The drawing of a face, drawn once for each state of the book: a crowded one takes seconds to letter."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Iterable

from ...book.site import Item, Site
from ...drawing.drafting import Drawn
from ...drawing.elevation import elevation, words_of_place
from ...findings import Finding

MOST = 64
WIDE_MM = 240.0  # of paper, for a drawing as wide as the page: a wall of 9 m is drawn at 1:50 then
Key = tuple[str, str, float, tuple[tuple[str, str], ...]]
_kept: OrderedDict[Key, Drawn] = OrderedDict()
_lock = threading.Lock()


def drawing_of(site: Site, face: Item, findings: Iterable[Finding], *, paper_width_mm: float = WIDE_MM) -> Drawn:
    """The interactive elevation of a face; drawn anew when an entry or a finding on it has changed."""
    findings = list(findings)
    words = words_of_place(findings)
    here = [*site.of(face, "fitting"), *site.fixings_on(face)]
    told = tuple((item.id, str(words[item.id])) for item in here if item.id in words)
    key = (site.digest, face.id, paper_width_mm, told)
    with _lock:
        if key in _kept:
            _kept.move_to_end(key)
            return _kept[key]
    drawn = elevation(site, face, findings, paper_width_mm=paper_width_mm, interactive=True)
    with _lock:
        _kept[key] = drawn
        while len(_kept) > MOST:
            _kept.popitem(last=False)
    return drawn
