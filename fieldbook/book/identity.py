"""Identifiers: UUIDv7 of RFC 9562, made where a change is made, in the order it is made."""

from __future__ import annotations

import secrets
import threading
import time
from uuid import UUID

from ..errors import UnsuitableText, shown

_lock = threading.Lock()
_last = 0


def uuid7() -> str:
    """A new UUIDv7; each is greater than the one before it in this process.

    The 12 bits after the milliseconds count up within one millisecond (RFC 9562, 6.2, method 3),
    so that a device's own entries sort as they were made.
    """
    global _last
    with _lock:
        _last = max(time.time_ns() * 4096 // 1_000_000, _last + 1)
        tick = _last
    milliseconds, fraction = divmod(tick, 4096)
    number = milliseconds << 80 | 0x7 << 76 | fraction << 64 | 0b10 << 62 | secrets.randbits(62)
    return str(UUID(int=number))


def is_id(name: str) -> bool:
    """Whether a text is a UUID, in any of its forms."""
    try:
        return bool(UUID(name))
    except ValueError:
        return False


def accept_id(field: str, value: object) -> str:
    """A UUID in its usual lower-case form; raises UnsuitableText."""
    try:
        return str(UUID(value))  # type: ignore[arg-type]
    except (TypeError, ValueError, AttributeError):
        raise UnsuitableText(
            f"{field} is “{shown(value)}”, which is not a UUID.",
            "Send the entry as it was made.",
            field=field,
            value=value,
        ) from None
