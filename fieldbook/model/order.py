"""The order people put numbered things in: D2 before D10, whatever the case, accents and leading zeros.

static/phone/book/order.js does the same; tests/cases/order.json holds the two together.
"""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache
from string import digits
from typing import Any

Key = tuple[Any, ...]

_PARTS = re.compile(r"[0-9]+|[^\W0-9_]+")


@lru_cache(maxsize=65_536)
def counting(mark: str | None) -> Key:
    """What to sort marks by, as people number things.

    Numbers go by their value and before letters; case, accents and what stands between (D4.2, D4-2) do not count;
    D4 comes before D4.2 and D4.2 before D4a. Marks that are alike in all this go by their characters; no mark comes
    last.
    """
    mark = mark or ""
    bare = "".join(sign for sign in unicodedata.normalize("NFKD", mark) if unicodedata.category(sign)[0] != "M")
    parts = _PARTS.findall(bare.lower())
    return not mark, tuple((0, int(part), "") if part[0] in digits else (1, 0, part) for part in parts), mark


def taken_for(mark: str | None) -> Key:
    """What people take a mark for: D2, d2, D-2 and D02 read alike, and nobody at a wall tells them apart."""
    _, parts, mark = counting(mark)
    return parts or (mark,)
