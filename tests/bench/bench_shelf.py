"""Thirty books, a process each: memory of an idle one, work until it opens, and what one's load does to another.

python -m tests.bench.bench_shelf [BOOKS]
"""

from __future__ import annotations

import contextlib
import http.client
import shutil
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from pathlib import Path

from fieldbook.book.book import FILE
from fieldbook.book.opening import create_book
from tests.sites import survey
from tests.web.test_routes import furnished

COMMAND = [sys.executable, "-u", "-m", "fieldbook", "serve"]
NAME = "shed.books.example"


def started(folder: Path) -> tuple[subprocess.Popen[str], int]:
    """A server behind a proxy, and its port."""
    command = [*COMMAND, str(folder), "--behind-proxy", NAME, "--port", "0", "--no-browser"]
    server = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    assert server.stdout
    said = server.stdout.readline()
    return server, int(said.rstrip(".\n").rpartition(":")[2])


def asked(port: int, status: int = 200) -> float:
    """Seconds until a phone's first question is answered, with this status."""
    begun = time.perf_counter()
    with contextlib.closing(http.client.HTTPConnection("127.0.0.1", port, timeout=60)) as connection:
        headers = {"X-Forwarded-Host": NAME, "X-Forwarded-Proto": "https", "X-Forwarded-For": "10.0.0.9"}
        connection.request("GET", "/phone/hello", headers=headers)
        assert connection.getresponse().status == status
    return time.perf_counter() - begun


def memory_mb(process: int) -> float:
    """What a process has of its own, and its share of what it has with others."""
    rollup = Path(f"/proc/{process}/smaps_rollup").read_text(encoding="ascii")
    return next(int(line.split()[1]) for line in rollup.splitlines() if line.startswith("Pss:")) / 1000


def work_s(process: int) -> float:
    """Processor time a process has used, s."""
    fields = Path(f"/proc/{process}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / 100


def main(number: int) -> None:
    """Make the books, serve them, and tell."""
    with tempfile.TemporaryDirectory() as place, contextlib.ExitStack() as stack:
        folders = [Path(place) / f"book-{one}" for one in range(number)]
        with create_book(folders[0]) as book:
            furnished(survey(book))
        for folder in folders[1:]:
            shutil.copytree(folders[0], folder)
        servers = [started(folder) for folder in folders]
        for server, _ in servers:
            stack.callback(server.wait)
            stack.callback(server.terminate)
        for _, port in servers:
            asked(port)
        ids = [server.pid for server, _ in servers]
        print(f"idle: {statistics.median(map(memory_mb, ids)):.0f} MB each, at most {max(map(memory_mb, ids)):.0f}")
        print(f"work until the first answer: {statistics.median(map(work_s, ids)):.2f} s")
        (folders[0] / FILE).write_bytes(b"no book")
        asked(servers[0][1], 503)
        stopping = threading.Event()

        def load() -> None:
            while not stopping.is_set():
                asked(servers[1][1])

        alone = statistics.median(asked(servers[2][1]) for _ in range(20))
        busy = [threading.Thread(target=load) for _ in range(4)]
        for thread in busy:
            thread.start()
        beside = statistics.median(asked(servers[2][1]) for _ in range(20))
        stopping.set()
        for thread in busy:
            thread.join()
        print(
            f"answer of a third book: {alone * 1000:.0f} ms; beside one damaged, one under load: {beside * 1000:.0f} ms"
        )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 30)
