"""No test stands still: `evaluate` and much else in Playwright waits without a limit of its own."""

from __future__ import annotations

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType

# Longer than what a test waits for by itself, several times over; and what is closed after it has so long again.
LIMIT_S, AGAIN_S = 900.0, 120.0


@contextmanager
def guarded(seconds: float = LIMIT_S, again: float = AGAIN_S) -> Iterator[None]:
    """Interrupt what is waited for when its time is over, and what is waited for afterwards too; in the main thread.

    Raises AssertionError where it stands.
    """

    def end(_: int, __: FrameType | None) -> None:
        raise AssertionError(f"it stands still: nothing has come for {seconds:g} s of what is waited for here")

    before = signal.signal(signal.SIGALRM, end)
    signal.setitimer(signal.ITIMER_REAL, seconds, again)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)
