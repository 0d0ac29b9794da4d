"""Strangers who say nothing, or too little, or too slowly, keep nobody from being answered."""

from __future__ import annotations

import contextlib
import http.client
import socket
import ssl
import threading
import time
import tracemalloc
from collections.abc import Callable, Iterator
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest

from fieldbook.serving import door, pace
from fieldbook.serving.head import StrictReader
from fieldbook.serving.server import THREADS, prepared
from tests.serving.test_own_certificate import made

IDLE = 500
# Nobody here is sent away but where a test is of that: who waited for a stranger would wait for ever.
NEVER_S = 24 * 60 * 60.0
PATIENCE_S = 300.0


def app(environ: dict[str, Any], start: Callable[..., Any]) -> list[bytes]:
    """Reads what is sent, and says how much it was."""
    length = len(environ["wsgi.input"].read())
    start("200 OK", [("Content-Type", "text/plain")])
    return [f"{length} {environ['wsgi.url_scheme']}".encode()]


@pytest.fixture(autouse=True)
def nobody_is_sent_away(monkeypatch: pytest.MonkeyPatch) -> None:
    """Silent and slow ones may stay."""
    for module, limits in ((door, ("HANDSHAKE_S", "HEAD_S", "IDLE_S")), (pace, ("GRACE_S",))):
        for limit in limits:
            monkeypatch.setattr(module, limit, NEVER_S)


@contextlib.contextmanager
def serving(app: Callable[..., Any] = app, **options: Any) -> Iterator[int]:
    """A server that runs, and its port."""
    server = prepared(app, 0, **options)
    thread = threading.Thread(target=server.serve)
    thread.start()
    try:
        yield server.bind_addr[1]
    finally:
        server.stop()
        thread.join()


@pytest.fixture
def plain() -> Iterator[int]:
    """The port of a server without TLS."""
    with serving() as port:
        yield port


@pytest.fixture
def secure(tmp_path: Path) -> Iterator[int]:
    """The port of a server with TLS."""
    certificate, key = made(tmp_path, "book.example")
    with serving(certificate=certificate, key=key) as port:
        yield port


@contextlib.contextmanager
def connections(port: int, number: int) -> Iterator[list[socket.socket]]:
    """So many open connections."""
    with contextlib.ExitStack() as stack:
        yield [stack.enter_context(socket.create_connection(("127.0.0.1", port), PATIENCE_S)) for _ in range(number)]


def asked(port: int, tls: bool = False, body: bytes = b"", **headers: str) -> str:
    """What is answered to one request."""
    trusting = ssl._create_unverified_context() if tls else None  # noqa: S323 - the test's own
    connection = (
        http.client.HTTPSConnection("127.0.0.1", port, timeout=PATIENCE_S, context=trusting)
        if trusting
        else http.client.HTTPConnection("127.0.0.1", port, timeout=PATIENCE_S)
    )
    with contextlib.closing(connection):
        connection.request("POST", "/", body, headers)
        return connection.getresponse().read().decode()


def test_silent_connections_keep_no_phone_waiting(secure: int) -> None:
    """Five hundred that say nothing at all under TLS: the next one is answered at once."""
    with connections(secure, IDLE):
        assert asked(secure, tls=True, body=b"1234") == "4 https"


def refusing(environ: dict[str, Any], start: Callable[..., Any]) -> list[bytes]:
    """Reads nothing of what is sent."""
    start("401 Unauthorized", [("Content-Length", "2")])
    return [b"no"]


@pytest.mark.parametrize("megabytes", [8, 100])
def test_body_that_is_refused_is_never_held(megabytes: int) -> None:
    """A short one is read off and answered, and the connection stays; a long one is answered or cut, and not kept."""
    with (
        serving(app=refusing) as port,
        contextlib.closing(socket.create_connection(("127.0.0.1", port), PATIENCE_S)) as one,
    ):
        tracemalloc.start()
        try:
            length = megabytes * 2**20
            one.sendall(f"POST / HTTP/1.1\r\nHost: here\r\nContent-Length: {length}\r\n\r\n".encode())
            with contextlib.suppress(ConnectionError):
                for _ in range(megabytes * 16):
                    one.sendall(bytes(65_536))
            most = tracemalloc.get_traced_memory()[1]
        finally:
            tracemalloc.stop()
        if megabytes == 8:
            one.sendall(b"GET / HTTP/1.1\r\nHost: here\r\nConnection: close\r\n\r\n")
            answers = b"".join(iter(lambda: one.recv(65_536), b""))
            assert answers.count(b"HTTP/1.1 401") == 2
        assert most < 4 * 2**20


def test_half_heads_take_no_worker(plain: int) -> None:
    """More requests half said than there are workers: the next one is answered at once."""
    with connections(plain, 3 * THREADS) as strangers:
        for one in strangers:
            one.sendall(b"GET / HTTP/1.1\r\nHost: here\r\nX: ")
        assert asked(plain) == "0 http"


def test_half_handshakes_take_no_worker(secure: int) -> None:
    """The same, where TLS is begun and not ended."""
    with connections(secure, 3 * THREADS) as strangers:
        for one in strangers:
            one.sendall(b"\x16\x03\x01\x02\x00\x01")
        assert asked(secure, tls=True) == "0 https"


def test_one_address_that_drips_bodies_leaves_workers_for_others() -> None:
    """Bodies that never end, of one address, wait for each other; another's request goes on, as the proxy names it.

    What the stranger says itself about where it is, ahead of the proxy's own line, counts for nothing.
    """
    with serving(behind_proxy=True) as port, connections(port, 3 * THREADS) as strangers:
        for number, one in enumerate(strangers):
            said = f"X-Forwarded-For: 10.0.1.{number}\r\nX-Forwarded-For: 10.0.0.1\r\nContent-Length: 9\r\n\r\n1"
            one.sendall(f"POST / HTTP/1.1\r\nHost: here\r\n{said}".encode())
        assert asked(port, body=b"12", **{"X-Forwarded-For": "10.0.0.2"}) == "2 http"


def test_server_that_stops_gives_no_turn_to_whom_it_has_closed() -> None:
    """Requests at work end while the server closes those in line behind them: no worker gets a closed one."""
    server = prepared(app, 0)
    server.shutdown_timeout = 1e-3
    told: list[Any] = []
    server.error_log = lambda *said, **_: told.append(said)
    thread = threading.Thread(target=server.serve)
    thread.start()
    in_line = server._connections._in_turn.values()
    with connections(server.bind_addr[1], 2 * door.MOST_AT_WORK) as strangers:
        for one in strangers:
            one.sendall(b"POST / HTTP/1.1\r\nHost: here\r\nContent-Length: 9\r\n\r\n1")
        while sum(map(len, list(in_line))) < door.MOST_AT_WORK:
            thread.join(0.01)
        server.stop()
        thread.join()
        assert [one.recv(1) for one in strangers].count(b"") >= door.MOST_AT_WORK
    assert told == []


def test_requests_beyond_an_addresss_share_have_their_turn(plain: int) -> None:
    """All of one address are answered in the end, however many there are at once, and one after the other too."""
    told: list[str] = []
    threads = [threading.Thread(target=lambda: told.append(asked(plain, body=b"123"))) for _ in range(40)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert told == ["3 http"] * 40
    with contextlib.closing(http.client.HTTPConnection("127.0.0.1", plain, timeout=PATIENCE_S)) as connection:
        for number in range(3):
            connection.request("POST", "/", b"x" * number)
            assert connection.getresponse().read() == f"{number} http".encode()


def test_requests_said_in_one_breath_are_all_answered(plain: int) -> None:
    """A second request that came with the first is not forgotten."""
    with socket.create_connection(("127.0.0.1", plain), PATIENCE_S) as asking:
        one = b"POST / HTTP/1.1\r\nHost: here\r\nContent-Length: 2\r\n\r\nab"
        asking.sendall(one + one + one.replace(b"Host", b"Connection: close\r\nHost"))
        assert b"".join(iter(lambda: asking.recv(65_536), b"")).count(b"2 http") == 3


@pytest.mark.parametrize(
    ("said", "status"),
    [
        (b"POST / HTTP/1.1\r\nHost: a\r\nTransfer-Encoding: chunked\r\n\r\nFFFFFFFFFFFFFFFF\r\nx", b"411"),
        (b"POST / HTTP/1.1\r\nHost: a\r\nTransfer-Encoding: chunked\r\n\r\nno number\r\n", b"411"),
        (b"POST / HTTP/1.0\r\nHost: a\r\nTransfer-Encoding: chunked\r\n\r\n1\r\nx\r\n0\r\n\r\n", b"411"),
        (b"GET http://[::1 HTTP/1.1\r\nHost: a\r\n\r\n", b"400"),
    ],
)
def test_body_of_no_said_length_and_address_of_no_sense_are_refused(plain: int, said: bytes, status: bytes) -> None:
    """Neither is read any further: the answer says what is lacking, and the connection closes."""
    with socket.create_connection(("127.0.0.1", plain), PATIENCE_S) as sock:
        sock.sendall(said)
        answer = b"".join(iter(lambda: sock.recv(4096), b""))
    assert answer.startswith(b"HTTP/1.1 " + status)


# What two readers of one connection could take differently.
# RFC 9112, HTTP/1.1, 2022: 2.2, 3.2, 5.1, 5.2, 6.1 and 6.3; RFC 9110, HTTP Semantics, 2022: 5.5 and 8.6.
AMBIGUOUS = {
    "two lengths": b"Host: a\r\nContent-Length: 3\r\nContent-Length: 5",
    "one length twice": b"Host: a\r\nContent-Length: 3\r\nContent-Length: 3",
    "a list of lengths": b"Host: a\r\nContent-Length: 3, 5",
    "less than nothing": b"Host: a\r\nContent-Length: -5",
    "a length with a sign": b"Host: a\r\nContent-Length: +3",
    "a length with a dash between": b"Host: a\r\nContent-Length: 1_0",
    "no length": b"Host: a\r\nContent-Length: ",
    "a length beyond all numbers": b"Host: a\r\nContent-Length: " + b"9" * 5000,
    "length and pieces": b"Host: a\r\nContent-Length: 3\r\nTransfer-Encoding: chunked",
    "pieces and length": b"Host: a\r\nTransfer-Encoding: chunked\r\nContent-Length: 3",
    "pieces twice": b"Host: a\r\nTransfer-Encoding: chunked\r\nTransfer-Encoding: identity",
    "a space before the colon": b"Host: a\r\nContent-Length : 3",
    "a tab before the colon": b"Host: a\r\nTransfer-Encoding\t: chunked",
    "a line that goes on": b"Host: a\r\nContent-Length: 3\r\n 5",
    "a first line that goes on": b" Content-Length: 3\r\nHost: a",
    "no name": b"Host: a\r\n: 3",
    "no colon": b"Host: a\r\nContent-Length",
    "a bare return": b"Host: a\r\nX: 1\rContent-Length: 3",
    "a bare end of line": b"Host: a\r\nX: 1\nContent-Length: 3",
    "a zero byte": b"Host: a\r\nX: 1\x00",
    "two hosts": b"Host: a\r\nHost: b",
    "no host": b"X: 1",
}


@pytest.mark.parametrize("head", AMBIGUOUS.values(), ids=AMBIGUOUS)
def test_head_that_can_be_read_in_two_ways_is_refused(plain: int, head: bytes) -> None:
    """Nothing behind it is answered: the connection closes with 400, whatever a proxy in front made of it."""
    with socket.create_connection(("127.0.0.1", plain), PATIENCE_S) as sock:
        sock.sendall(b"POST / HTTP/1.1\r\n" + head + b"\r\n\r\nabcGET / HTTP/1.1\r\nHost: a\r\n\r\n")
        answer = _to_the_end(sock)
    assert answer.startswith(b"HTTP/1.1 400")
    assert answer.count(b"HTTP/1.1") == 1


def _to_the_end(sock: socket.socket) -> bytes:
    """What is answered until the connection closes, or is cut as what was sent behind the head is not read."""
    answer = b""
    with contextlib.suppress(ConnectionError):
        while chunk := sock.recv(4096):
            answer += chunk
    return answer


def test_fields_that_come_again_are_joined_and_those_with_a_dash_below_are_dropped() -> None:
    """A stranger's own line does not stand in for the one a proxy adds (RFC 9110, 5.3; RFC 3875, 4.1.18)."""
    lines = (
        b"X-Forwarded-For: 10.0.0.1\r\nX_Forwarded_For: 10.0.0.3\r\nx-forwarded-for:10.0.0.2\r\n"
        b"Cookie: a=1\r\nCookie: b=2\r\nContent-Length: 03\r\n\r\n"
    )
    assert StrictReader()(BytesIO(lines)) == {
        b"X-Forwarded-For": b"10.0.0.1, 10.0.0.2",
        b"Cookie": b"a=1; b=2",
        b"Content-Length": b"03",
    }


def test_head_without_end_is_refused_before_it_is_kept(plain: int) -> None:
    """A head that outgrows its bound is answered 431."""
    with socket.create_connection(("127.0.0.1", plain), PATIENCE_S) as asking:
        asking.sendall(b"GET / HTTP/1.1\r\nX: " + b"x" * (door.MOST_HEAD_BYTES + 1))
        assert asking.recv(100).startswith(b"HTTP/1.1 431")


@pytest.mark.parametrize("said", [b"", b"GET / HTTP/1.1\r\n"])
def test_who_takes_too_long_is_closed(monkeypatch: pytest.MonkeyPatch, said: bytes) -> None:
    """A connection that never gets to the end of a head does not stay for ever."""
    for limit in ("IDLE_S", "HEAD_S"):
        monkeypatch.setattr(door, limit, 0.1)
    with serving() as port, socket.create_connection(("127.0.0.1", port), PATIENCE_S) as asking:
        asking.sendall(said)
        assert asking.recv(100) == b""


def test_body_that_drips_is_given_up(monkeypatch: pytest.MonkeyPatch) -> None:
    """A body slower than the slowest pace ends the request, though each of its bytes comes in time."""
    monkeypatch.setattr(pace, "GRACE_S", 0.05)
    with serving() as port, socket.create_connection(("127.0.0.1", port), PATIENCE_S) as asking:
        asking.sendall(b"POST / HTTP/1.1\r\nHost: here\r\nContent-Length: 1000000\r\n\r\n")
        begun = time.monotonic()
        with contextlib.suppress(OSError):
            while time.monotonic() < begun + PATIENCE_S and not _has_answer(asking):
                asking.sendall(b"x")
        assert asking.recv(100).startswith((b"HTTP/1.1 408", b"HTTP/1.1 4"))


def _has_answer(asking: socket.socket) -> bool:
    asking.settimeout(0.02)
    try:
        return bool(asking.recv(1, socket.MSG_PEEK))
    except TimeoutError:
        return False
    finally:
        asking.settimeout(PATIENCE_S)


def test_door_with_too_many_lets_the_next_one_in(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where no more may stand at the door, who has waited longest goes, and the next is answered."""
    monkeypatch.setattr(door, "MOST_OPEN", 20)
    with serving() as port, connections(port, 40):
        assert asked(port) == "0 http"
