"""Where connections wait until there is a request in them: no worker waits for a stranger who says nothing.

One thread accepts, speaks TLS and gathers the head of each request, never waiting for any one of them; a worker
gets a connection when the head is whole. Each address has so many workers at most, and its further requests
wait their turn. What takes too long is closed: a handshake, a head, a body that only drips. In place of cheroot's
own manager of connections, which waits for each handshake before it accepts the next, and gives a worker to each
connection that has not said anything yet.
"""

from __future__ import annotations

import selectors
import socket
import ssl
import threading
import time
from collections import Counter, defaultdict, deque
from contextlib import suppress
from typing import Any

from cheroot.connections import ConnectionManager, prevent_socket_inheritance
from cheroot.server import HTTPConnection

from .pace import make_file
from .refused_body import Request

HANDSHAKE_S, HEAD_S, IDLE_S = 10.0, 10.0, 30.0
MOST_HEAD_BYTES = 32_768
MOST_OPEN = 800
MOST_AT_WORK = 6  # requests of one address; a browser opens no more connections than that
LOOK_EVERY_S = 0.5
READ_BYTES = 16_384
TOO_LARGE = b"HTTP/1.1 431 Request Header Fields Too Large\r\nContent-Length: 0\r\nConnection: close\r\n\r\n"


class Guest(HTTPConnection):
    """A connection, at the door or at work.

    until    when it is closed unless it has got further
    shaken   whether TLS is spoken, where it is to be
    address  whose request it is, as far as counting goes
    """

    RequestHandlerClass = Request

    def __init__(self, server: Any, sock: socket.socket, remote: tuple[Any, ...]):
        super().__init__(server, sock, make_file)
        self.remote_addr, self.remote_port = remote[:2]
        self.ssl_env: dict[str, Any] = {}
        self.shaken = not isinstance(sock, ssl.SSLSocket)
        self.until = time.monotonic() + (IDLE_S if self.shaken else HANDSHAKE_S)
        self.address = ""

    def communicate(self) -> bool:
        """Read the request and answer it, in a worker; whether the connection stays."""
        try:
            return bool(super().communicate())  # type: ignore[no-untyped-call]
        finally:
            self.server._connections.leave(self)

    def close(self) -> None:
        """Close it, whatever has become of it: an error here would end the worker, and the server with it."""
        with suppress(OSError, ValueError):
            super().close()


class Door(ConnectionManager):
    """Accepts for a server, and hands over what is ready; `server.prepare()` comes first.

    behind_proxy  whether the address is the one that the proxy names
    """

    def __init__(self, server: Any, behind_proxy: bool):
        self.server = server
        self._serving = self._stop_requested = False
        self._behind_proxy = behind_proxy
        self._waiting = selectors.DefaultSelector()
        self._heads: dict[Guest, bytearray] = {}
        self._back: deque[Guest] = deque()
        self._at_work: Counter[str] = Counter()
        self._in_turn: dict[str, deque[Guest]] = defaultdict(deque)
        self._counting = threading.Lock()
        self._bell, self._ear = socket.socketpair()
        for end in (self._bell, self._ear, server.socket):
            end.setblocking(False)
        self._waiting.register(server.socket, selectors.EVENT_READ, self._accept)
        self._waiting.register(self._ear, selectors.EVENT_READ, self._take_back)

    # from workers

    def put(self, guest: Guest) -> None:
        """A request is answered, and the connection stays for another."""
        self._back.append(guest)
        self._ring()

    def leave(self, guest: Guest) -> None:
        """A worker is free of this request; the next of its address has its turn."""
        with self._counting:
            self._at_work[guest.address] -= 1
            following = self._in_turn[guest.address].popleft() if self._in_turn[guest.address] else None
            if following:
                self._at_work[guest.address] += 1
            elif not self._at_work[guest.address]:
                del self._at_work[guest.address], self._in_turn[guest.address]
        if following:
            self._to_work(following)

    @property
    def can_add_keepalive_connection(self) -> bool:
        """Whether there is room for connections that stay."""
        return len(self._heads) < MOST_OPEN

    def _ring(self) -> None:
        with suppress(BlockingIOError, OSError):
            self._bell.send(b"!")

    # at the door

    def _run(self, expiration_interval: float) -> None:
        looked = time.monotonic()
        while not self._stop_requested:
            for key, _ in self._waiting.select(min(expiration_interval, LOOK_EVERY_S)):
                if isinstance(key.data, Guest):
                    self._look(key.data)
                else:
                    key.data()
            if (now := time.monotonic()) > looked + LOOK_EVERY_S:
                looked = now
                for guest in [one for one in self._heads if one.until < now]:
                    self._send_away(guest)

    def close(self) -> None:
        """Close what is at the door; whose turn has not come gets none, since workers may still be ending theirs."""
        with self._counting:
            in_turn = [guest for line in self._in_turn.values() for guest in line]
            self._in_turn.clear()
        for guest in [*self._heads, *self._back, *in_turn]:
            self._send_away(guest)
        self._waiting.close()
        self._bell.close()
        self._ear.close()

    def _accept(self) -> None:
        try:
            sock, remote = self.server.socket.accept()
        except OSError:  # it has gone again, or there are too many open files
            self._make_room()
            return
        prevent_socket_inheritance(sock)
        sock.setblocking(False)
        try:
            if self.server.ssl_adapter:
                wrap = self.server.ssl_adapter.context.wrap_socket
                sock = wrap(sock, server_side=True, do_handshake_on_connect=False)
            guest = Guest(self.server, sock, remote)
        except OSError:
            sock.close()
            return
        if len(self._heads) >= MOST_OPEN:
            self._make_room()
        self._let_wait(guest)

    def _make_room(self) -> None:
        """Send away who has waited longest, of the address that has most connections at the door."""
        if self._heads:
            most = Counter(guest.remote_addr for guest in self._heads).most_common(1)[0][0]
            self._send_away(next(guest for guest in self._heads if guest.remote_addr == most))

    def _take_back(self) -> None:
        with suppress(BlockingIOError):
            self._ear.recv(4096)
        while self._back:
            guest = self._back.popleft()
            guest.until = time.monotonic() + IDLE_S
            guest.socket.setblocking(False)
            if guest.rfile.has_data():  # of the next request, read with the one before
                self._admit(guest)
            else:
                self._let_wait(guest)

    def _let_wait(self, guest: Guest) -> None:
        self._heads[guest] = bytearray()
        try:
            self._waiting.register(guest.socket, selectors.EVENT_READ, guest)
        except (OSError, ValueError):  # closed meanwhile
            self._send_away(guest)
        else:
            self._look(guest)

    def _look(self, guest: Guest) -> None:
        """What has come of a connection; never waits."""
        try:
            if not guest.shaken:
                guest.socket.do_handshake()
                guest.shaken = True
                guest.ssl_env = self.server.ssl_adapter.get_environ(guest.socket)
                guest.until = time.monotonic() + IDLE_S
            while chunk := guest.socket.recv(READ_BYTES):
                self._gather(guest, chunk)
                if guest not in self._heads:
                    return
        except (ssl.SSLWantReadError, BlockingIOError):
            self._wait_for(guest, selectors.EVENT_READ)
            return
        except ssl.SSLWantWriteError:
            self._wait_for(guest, selectors.EVENT_WRITE)
            return
        except (OSError, ValueError):  # no TLS, or gone
            pass
        self._send_away(guest)

    def _wait_for(self, guest: Guest, what: int) -> None:
        if self._waiting.get_key(guest.socket).events != what:
            self._waiting.modify(guest.socket, what, guest)

    def _gather(self, guest: Guest, chunk: bytes) -> None:
        head = self._heads[guest]
        if not head:
            guest.until = time.monotonic() + HEAD_S
        searched = max(len(head) - 3, 0)
        head += chunk
        ends = head.find(b"\r\n\r\n", searched)
        if ends < 0 and len(head) > MOST_HEAD_BYTES:
            with suppress(OSError):
                guest.socket.send(TOO_LARGE)
            self._send_away(guest)
        elif ends >= 0:
            self._waiting.unregister(guest.socket)
            del self._heads[guest]
            guest.rfile.raw.ahead = head
            guest.address = self._address_of(guest, bytes(head[:ends]))
            self._admit(guest)

    def _address_of(self, guest: Guest, head: bytes) -> str:
        if self._behind_proxy:
            for line in reversed(head.split(b"\r\n")):  # a proxy that adds a line adds it behind a stranger's own
                name, _, value = line.partition(b":")
                if name.lower() == b"x-forwarded-for":
                    return value.rpartition(b",")[2].strip().decode("latin-1")
        return str(guest.remote_addr)

    def _admit(self, guest: Guest) -> None:
        with self._counting:
            if self._at_work[guest.address] >= MOST_AT_WORK:
                self._in_turn[guest.address].append(guest)
                return
            self._at_work[guest.address] += 1
        self._to_work(guest)

    def _to_work(self, guest: Guest) -> None:
        guest.socket.settimeout(self.server.timeout)
        guest.rfile.raw.start()
        guest.wfile.raw.start()
        self.server.process_conn(guest)

    def _send_away(self, guest: Guest) -> None:
        self._heads.pop(guest, None)
        with suppress(KeyError, ValueError, OSError):
            self._waiting.unregister(guest.socket)
        guest.close()
