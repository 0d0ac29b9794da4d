"""A served book in a crowd: memory under large pictures and posts, and a phone's question beside idle connections.

Twenty-four pictures come at once: a third JPEG of 79 megapixels, a third PNG of 79, which are refused by their head,
and a third PNG as large as one may be, which a process of its own unfolds; then posts of 400 MB from nobody the book
knows. Memory is read from outside: the server's own peak, and the most that it and the processes it starts had
together, where what they share counts once.

python -m tests.bench.bench_crowd
"""

from __future__ import annotations

import contextlib
import hashlib
import http.client
import json
import socket
import statistics
import subprocess
import tempfile
import threading
import time
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

from PIL import Image

from fieldbook.book.opening import create_book
from fieldbook.phones import codes, devices
from tests.bench.bench_shelf import NAME, asked, memory_mb, started
from tests.sites import survey

# 79 megapixels; as many as are taken of three bytes each
PICTURES_OF = (("JPEG", 8_890, 200), ("PNG", 8_890, 422), ("PNG", 6_360, 200))
PICTURES, POSTS, POST_BYTES, IDLE, QUESTIONS = 24, 4, 400_000_000, 500, 40
BOUND_MB, BOUND_S = 400, 0.1
LOOKED_AT_S = 600


def pictures() -> dict[str, tuple[bytes, int]]:
    """So many different files and how each is to be answered, by their digests."""
    files = {}
    for form, side_px, status in PICTURES_OF:
        buffer = BytesIO()
        Image.new("RGB", (side_px, side_px), (120, 110, 90)).save(buffer, form)
        for number in range(PICTURES // len(PICTURES_OF)):
            content = buffer.getvalue() + number.to_bytes(4, "big")
            files[hashlib.sha256(content).hexdigest()] = content, status
    return files


def status_mb(process: int, name: str) -> float:
    """A figure of a process's memory, as the system tells it; 0 once it is gone."""
    with contextlib.suppress(OSError, IndexError):
        return int(Path(f"/proc/{process}/status").read_text().partition(f"{name}:")[2].split()[0]) / 1000
    return 0.0


def with_children(process: int) -> float:
    """What a process and those it started have now, MB."""
    with contextlib.suppress(OSError):
        started_by = Path(f"/proc/{process}/task/{process}/children").read_text().split()
        tasks = Path(f"/proc/{process}/task").glob("*/children")
        started_by += [one for task in tasks for one in task.read_text().split()]
        return memory_mb(process) + sum(map(_memory_of_one_that_may_end, map(int, set(started_by))))
    return 0.0


def _memory_of_one_that_may_end(process: int) -> float:
    with contextlib.suppress(OSError, StopIteration):
        return memory_mb(process)
    return 0.0


@contextlib.contextmanager
def watched(process: int) -> Iterator[list[float]]:
    """The most that a process and its children had together while this lasted, in a list of one."""
    most, over = [0.0], threading.Event()

    def watch() -> None:
        while not over.wait(0.02):
            most[0] = max(most[0], with_children(process))

    watching = threading.Thread(target=watch)
    watching.start()
    try:
        yield most
    finally:
        over.set()
        watching.join()


def request(port: int, method: str, path: str, body: bytes, headers: dict[str, str], address: str) -> tuple[int, bytes]:
    """One request by way of the proxy; 0 where the connection is closed before all was sent."""
    proxied = {"X-Forwarded-Host": NAME, "X-Forwarded-Proto": "https", "X-Forwarded-For": address}
    with contextlib.closing(http.client.HTTPConnection("127.0.0.1", port, timeout=LOOKED_AT_S)) as connection:
        try:
            connection.request(method, path, body, proxied | headers)
            answer = connection.getresponse()
            return answer.status, answer.read()
        except (ConnectionError, http.client.HTTPException):
            return 0, b""


def at_once(calls: list) -> list:  # type: ignore[type-arg]
    """What all of these say, called side by side."""
    said: list = [None] * len(calls)  # type: ignore[type-arg]

    def call(place: int) -> None:
        said[place] = calls[place]()

    threads = [threading.Thread(target=call, args=(place,)) for place in range(len(calls))]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return said


def send_pictures(port: int, token: dict[str, str]) -> None:
    """All of them at once, each from an address of its own, and wait until every pixel was looked at."""
    sent = pictures()

    def put(number: int, sha256: str, content: bytes) -> tuple[int, bytes]:
        place = {"Content-Range": f"bytes 0-{len(content) - 1}/{len(content)}"}
        kind = {"Content-Type": "application/octet-stream"}
        return request(port, "PUT", f"/phone/photographs/{sha256}", content, token | place | kind, f"10.0.1.{number}")

    calls = [lambda at=at, one=one: put(at, one, sent[one][0]) for at, one in enumerate(sent)]
    answers = [status for status, _ in at_once(calls)]
    assert answers == [status for _, status in sent.values()], answers
    asking = json.dumps({"digests": [one for one, (_, status) in sent.items() if status == 200]}).encode()
    end = time.monotonic() + LOOKED_AT_S
    while True:
        kind = {"Content-Type": "application/json"}
        _, said = request(port, "POST", "/phone/photographs", asking, token | kind, "10.0.2.1")
        if all(one["looked_at"] for one in json.loads(said)["photographs"]):
            return
        assert time.monotonic() < end, "not looked at in time"
        time.sleep(1)


def send_posts(port: int) -> list[int]:
    """Posts of strangers, as large as they like; what each was answered."""
    body, kind = bytes(POST_BYTES), {"Content-Type": "application/json"}
    paths = ["/phone/entries", "/phone/join"] * (POSTS // 2)
    calls = [
        lambda at=at, path=path: request(port, "POST", path, body, kind, f"10.0.3.{at}")
        for at, path in enumerate(paths)
    ]
    return [status for status, _ in at_once(calls)]


def beside_idle(port: int) -> list[float]:
    """Seconds of each of a phone's questions while so many connections say nothing."""
    with contextlib.ExitStack() as stack:
        for _ in range(IDLE):
            stack.enter_context(socket.create_connection(("127.0.0.1", port), 20))
        return [asked(port) for _ in range(QUESTIONS)]


def main() -> None:
    """Serve a book, and tell what it took."""
    with tempfile.TemporaryDirectory(dir="/var/tmp") as place, contextlib.ExitStack() as stack:  # noqa: S108 - a disk
        with create_book(Path(place) / "book") as book:
            survey(book)
            joined = devices.join(book, codes.new_join_code(book), "phone")
        server: subprocess.Popen[str]
        server, port = started(Path(place) / "book")
        stack.callback(server.wait)
        stack.callback(server.terminate)
        asked(port)
        print(f"at rest: {status_mb(server.pid, 'VmRSS'):.0f} MB")
        idle = beside_idle(port)
        slowest, middle = max(idle) * 1000, statistics.median(idle) * 1000
        print(f"a question beside {IDLE} idle connections: {middle:.0f} ms, at most {slowest:.0f} ms")
        with watched(server.pid) as most:
            send_pictures(port, {"Authorization": f"Bearer {joined.token}"})
        own = status_mb(server.pid, "VmHWM")
        print(f"{PICTURES} pictures at once: {own:.0f} MB, with its children {most[0]:.0f} MB")
        with watched(server.pid) as most:
            answers = send_posts(port)
        own = status_mb(server.pid, "VmHWM")
        print(f"{POSTS} posts of 400 MB, answered {answers}: {own:.0f} MB, with its children {most[0]:.0f} MB")
        print(f"bounds: {BOUND_MB} MB, {BOUND_S * 1000:.0f} ms at the median")


if __name__ == "__main__":
    main()
