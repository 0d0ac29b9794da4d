"""A laptop that goes from network to network while it serves."""

from __future__ import annotations

import sys
import threading

import pytest

from fieldbook.serving.address import Address
from fieldbook.serving.following import announced_wherever


def test_each_change_of_network_is_told_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Into a hotspot, out of every network, and back: three moves, also where the name cannot be announced."""
    monkeypatch.setitem(sys.modules, "zeroconf", None)  # as when it is not installed
    found = [["192.168.1.7"], ["192.168.1.7"], ["172.20.10.2"], ["172.20.10.2"], [], ["192.168.1.7"]]
    moves: list[list[str]] = []
    back = threading.Event()

    def here() -> list[str]:
        return found.pop(0) if len(found) > 1 else found[0]

    def moved(addresses: list[str]) -> None:
        moves.append(addresses)
        if len(moves) == 3:
            back.set()

    said: list[str] = []
    address = Address("fieldbook-0a1b2c.local", 23456)
    with announced_wherever(address, ["192.168.1.7"], moved, said.append, here, look_every_s=0.01):
        assert back.wait(60)
    assert moves == [["172.20.10.2"], [], ["192.168.1.7"]]
    assert any("172.20.10.2" in words for words in said)
