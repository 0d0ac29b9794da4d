"""Reading and writing a connection at no less than a slowest pace, after what the door has read of it already."""

from __future__ import annotations

import io
import socket
import time
from typing import Any

from cheroot.makefile import StreamReader, StreamWriter

GRACE_S = 20.0
SLOWEST_BYTES_S = 2_000  # far below what any network gives that a photograph goes through


class Paced(io.RawIOBase):
    """The bytes of a connection. Raises TimeoutError where they come or go more slowly than the slowest pace.

    ahead  bytes that were read before
    """

    def __init__(self, sock: socket.socket):
        self._sock = sock
        self.ahead = bytearray()
        self.start()

    def start(self) -> None:
        """A request begins."""
        self._since, self._passed = time.monotonic(), 0

    def readable(self) -> bool:
        """It is."""
        return True

    def writable(self) -> bool:
        """It is."""
        return True

    def readinto(self, into: Any) -> int:
        """So many bytes as there are, at least one; 0 at the end."""
        if self.ahead:
            number = min(len(into), len(self.ahead))
            into[:number] = self.ahead[:number]
            del self.ahead[:number]
            return number
        return self._counted(self._sock.recv_into(into))

    def write(self, content: Any) -> int:
        """So many bytes as go now."""
        return self._counted(self._sock.send(content))

    def _counted(self, number: int) -> int:
        self._passed += number
        if time.monotonic() - self._since > GRACE_S + self._passed / SLOWEST_BYTES_S:
            raise TimeoutError("timed out")
        return number


class _Reader(StreamReader):
    def __init__(self, raw: Paced, size: int):
        super(StreamReader, self).__init__(raw, size)
        self.bytes_read = 0


class _Writer(StreamWriter):
    def __init__(self, raw: Paced, size: int):
        super(StreamWriter, self).__init__(raw, size)
        self.bytes_written = 0


def make_file(sock: socket.socket, mode: str, size: int) -> Any:
    """What cheroot reads a connection from (`rb`), or writes it to."""
    return (_Reader if "r" in mode else _Writer)(Paced(sock), size)
