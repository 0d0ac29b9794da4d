"""The drawing of a face, drawn once for each state of the book: a crowded one takes seconds to letter."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Iterable

from ..gather import Item, Site
from ..record.drafting import Drawn
from ..record.elevation import elevation, words_of_place
from ..verdicts import Finding

MOST = 64
Key = tuple[str, str, tuple[tuple[str, str], ...]]
_kept: OrderedDict[Key, Drawn] = OrderedDict()
_lock = threading.Lock()


def drawing_of(site: Site, face: Item, findings: Iterable[Finding]) -> Drawn:
    """The interactive elevation of a face; drawn anew when an entry or a verdict on it has changed."""
    findings = list(findings)
    words = words_of_place(findings)
    here = [*site.of(face, "fitting"), *site.fixings_on(face)]
    told = tuple((item.id, str(words[item.id])) for item in here if item.id in words)
    key = (site.digest, face.id, told)
    with _lock:
        if key in _kept:
            _kept.move_to_end(key)
            return _kept[key]
    drawn = elevation(site, face, findings, interactive=True)
    with _lock:
        _kept[key] = drawn
        while len(_kept) > MOST:
            _kept.popitem(last=False)
    return drawn
