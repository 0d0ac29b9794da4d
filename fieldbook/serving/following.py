"""Following a laptop from network to network while its book is served."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from .address import Address, local_addresses
from .announcing import announced

LOOK_EVERY_S = 5.0


@contextmanager
def announced_wherever(
    address: Address,
    addresses: list[str],
    moved: Callable[[list[str]], object],
    say: Callable[[str], object],
    here: Callable[[], list[str]] = local_addresses,
    look_every_s: float = LOOK_EVERY_S,
) -> Iterator[None]:
    """Announce the book's name while the block runs, in whichever networks this machine then is.

    addresses  this machine's at first
    moved      told of its addresses whenever they are others than before
    say        told what stands in the way of announcing, in words
    here       gives its addresses now
    """
    over = threading.Event()

    def follow(known: list[str]) -> None:
        while not over.is_set():
            with announced(address, known) as trouble:
                if trouble:
                    say(f"{trouble} Phones can use its numbers: {', '.join(known) or 'none here'}.")
                while (now := here()) == known and not over.wait(look_every_s):
                    pass
            if now != known:
                moved(now)
            known = now

    following = threading.Thread(target=follow, args=(addresses,), daemon=True)
    following.start()
    try:
        yield
    finally:
        over.set()
        following.join()
