"""One JSON object that a phone sent, by the network or in a file: read, or refused in words."""

from __future__ import annotations

import json
from typing import Any

from ..errors import FieldbookError

DEEPEST = 64  # far below what this program can follow; what no field takes is refused entry by entry


class UnsuitableRequest(FieldbookError):
    """Something sent that is not of the protocol."""

    code = "unsuitable-request"


def read(content: bytes) -> dict[str, Any]:
    """The object in these bytes; raises UnsuitableRequest."""
    try:
        sent = json.loads(content)
    except (ValueError, RecursionError):
        sent = None
    if not isinstance(sent, dict) or _deeper_than(DEEPEST, sent):
        raise UnsuitableRequest("This is no JSON object of a phone's.", "Send it as the protocol says.")
    return sent


def _deeper_than(levels: int, value: Any) -> bool:
    if not isinstance(value, (dict, list)):
        return False
    inner = value.values() if isinstance(value, dict) else value
    return levels == 0 or any(_deeper_than(levels - 1, one) for one in inner)
