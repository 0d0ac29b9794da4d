"""A day's photographs sent by the protocol, and the same bytes put up plainly: time, processor time and memory.

Both go one after the other over one TLS connection of the book's own certificate, from a process of its own; the plain
server writes each and brings it to disk, and nothing else.

Run by hand: python -m tests.bench.bench_uploads
"""

from __future__ import annotations

import hashlib
import http.client
import json
import multiprocessing
import resource
import ssl
import tempfile
import threading
import time
from collections.abc import Callable
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Any

from fieldbook.book.identity import uuid7
from fieldbook.book.opening import create_book, open_book
from fieldbook.phones import codes, devices
from fieldbook.serving import authority
from fieldbook.serving.address import address_of
from fieldbook.serving.server import prepared
from fieldbook.web import create_app
from tests.bench.bench_phone import SIZE, picture, plain_app
from tests.sites import survey

ENTRIES, PHOTOGRAPHS, ROUNDS = 200, 60, 2


def serve(folder: Path, plain: bool, said: Connection) -> None:
    """A server in a process of its own, which tells its port, and when asked its processor time and memory."""
    with open_book(folder) as book:
        keys = authority.keys_of(book, address_of(book), ["127.0.0.1"])
    app = plain_app(folder) if plain else create_app(folder, tls=True, access="open", trusted_hosts=["127.0.0.1"])
    server = prepared(app, 0, certificate=keys.certificate, key=keys.key)
    said.send(server.bind_addr[1])
    threading.Thread(target=server.serve, daemon=True).start()
    while said.recv():
        used = resource.getrusage(resource.RUSAGE_SELF)
        said.send((time.process_time(), used.ru_maxrss / 1024))
    server.stop()


def measured(folder: Path, plain: bool, send: Callable[[http.client.HTTPSConnection], None]) -> tuple[float, ...]:
    """Seconds, the server's processor seconds, and the growth of its largest memory in MB."""
    ours, theirs = multiprocessing.Pipe()
    process = multiprocessing.get_context("spawn").Process(target=serve, args=(folder, plain, theirs))
    process.start()
    trusting = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    trusting.check_hostname, trusting.verify_mode = False, ssl.CERT_NONE
    connection = http.client.HTTPSConnection("127.0.0.1", ours.recv(), context=trusting, timeout=60)
    ours.send(True)
    processor, memory = ours.recv()
    start = time.perf_counter()
    send(connection)
    seconds = time.perf_counter() - start
    ours.send(True)
    after, grown = ours.recv()
    ours.send(False)
    process.join()
    return seconds, after - processor, grown - memory


def asked(connection: http.client.HTTPSConnection, method: str, path: str, body: bytes, headers: dict[str, str]) -> Any:
    """One request, answered with 200."""
    connection.request(method, path, body, headers)
    answer = connection.getresponse()
    content = answer.read()
    assert answer.status == 200, content
    return content


def day(folder: Path, pictures: dict[str, bytes]) -> Callable[[http.client.HTTPSConnection], None]:
    """What sends 200 entries and the photographs as a phone does."""
    with create_book(folder) as book:
        room = survey(book).room
        joined = devices.join(book, codes.new_join_code(book), "phone")
        epoch = book.fact("epoch")
    about = {"device": joined.device, "at": "2026-05-31T14:30:00+01:00", "kind": "room", "item": room, "base": 3}
    entries = [about | {"id": uuid7(), "set": {"use": str(at)}} for at in range(ENTRIES)]
    token = {"Authorization": f"Bearer {joined.token}"}

    def send(connection: http.client.HTTPSConnection) -> None:
        for at in range(0, ENTRIES, 100):
            body = json.dumps({"epoch": epoch, "waiting": ENTRIES, "entries": entries[at : at + 100]}).encode()
            asked(connection, "POST", "/phone/entries", body, token | {"Content-Type": "application/json"})
        body = json.dumps({"digests": list(pictures)}).encode()
        asked(connection, "POST", "/phone/photographs", body, token | {"Content-Type": "application/json"})
        for sha256, content in pictures.items():
            place = {"Content-Range": f"bytes 0-{len(content) - 1}/{len(content)}"}
            kind = {"Content-Type": "application/octet-stream"}
            said = asked(connection, "PUT", f"/phone/photographs/{sha256}", content, token | place | kind)
            assert json.loads(said)["complete"]

    return send


def main() -> None:
    """Both in turn, some rounds."""
    pictures = {hashlib.sha256(content).hexdigest(): content for content in map(picture, range(PHOTOGRAPHS))}
    size = sum(map(len, pictures.values())) / 1e6
    print(
        f"{ENTRIES} entries and {PHOTOGRAPHS} photographs of {SIZE[0] * SIZE[1] / 1e6:g} megapixels, {size:.0f} MB, TLS"
    )

    def plainly(connection: http.client.HTTPSConnection) -> None:
        for at, content in enumerate(pictures.values()):
            asked(connection, "PUT", f"/{at}", content, {})

    for number in range(ROUNDS):
        with tempfile.TemporaryDirectory(dir="/var/tmp") as name:  # noqa: S108 - on a disk, not in memory
            folder = Path(name)
            send = day(folder / "book", pictures)
            sync = measured(folder / "book", False, send)
            with create_book(folder / "plain"):
                pass
            plain = measured(folder / "plain", True, plainly)
        ratios = f"{sync[0] / plain[0]:.2f} times the time, {sync[1] / plain[1]:.2f} times the processor time"
        print(
            f"round {number + 1}: sync {sync[0]:.1f} s, processor {sync[1]:.1f} s, memory +{sync[2]:.0f} MB;", end=" "
        )
        print(f"plain {plain[0]:.1f} s, processor {plain[1]:.1f} s, memory +{plain[2]:.0f} MB: {ratios}")


if __name__ == "__main__":
    main()
