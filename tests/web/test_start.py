"""A book served for real: to this machine, to the local network under its own authority, behind a proxy."""

from __future__ import annotations

import http.client
import json
import re
import socket
import ssl
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from fieldbook.book.opening import create_book, open_book
from fieldbook.serving.address import address_of, way_on_the_local_network
from fieldbook.serving.authority import keys_of
from fieldbook.serving.server import prepared
from fieldbook.web import create_app
from fieldbook.web.app.trusting import create_bootstrap_app
from fieldbook.web.local_network import LocalNetwork
from tests.browser.guard import guarded
from tests.serving.test_own_certificate import made

pytestmark = pytest.mark.slow

PATIENCE_S = 120


@contextmanager
def served(folder: Path, *options: str) -> Iterator[list[str]]:
    """A server in a process of its own, and the lines it says until it is ready."""
    command = [sys.executable, "-u", "-m", "fieldbook", "serve", str(folder), "--port", "0", "--no-browser", *options]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as server:
        try:
            assert server.stdout is not None
            said = []
            for line in server.stdout:
                said.append(line.strip())
                if line.startswith("Stop with"):
                    break
            assert said, server.stderr and server.stderr.read()
            yield said
            server.terminate()
            assert server.wait(PATIENCE_S) == 0
        finally:
            server.kill()


@pytest.fixture(autouse=True)
def nothing_stands_still() -> Iterator[None]:
    """Fail a test that waits for what a server never says."""
    with guarded():
        yield


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A new book, closed."""
    create_book(tmp_path / "book").close()
    return tmp_path / "book"


def get(port: int, path: str, host: str = "127.0.0.1", **headers: str) -> tuple[int, bytes]:
    """Status and body of a plain request."""
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=PATIENCE_S)
    try:
        connection.request("GET", path, headers={"Host": f"{host}:{port}"} | headers)
        answer = connection.getresponse()
        return answer.status, answer.read()
    finally:
        connection.close()


def test_phone_that_trusts_the_books_authority_reaches_it_by_name(folder: Path) -> None:
    """The certificate given out on the plain port is what the TLS port's certificate is checked against."""
    with served(folder, "--lan") as said:
        address = next(re.search(r"https://([\w.-]+):(\d+)/phone/", line) for line in said if "/phone/" in line)
        assert address
        name, port = address[1], int(address[2])
        status, certificate = get(port + 1, "/fieldbook.crt", name)
        assert status == 200
        trusting = ssl.create_default_context(cadata=certificate)
        with (
            socket.create_connection(("127.0.0.1", port), PATIENCE_S) as plain,
            trusting.wrap_socket(plain, server_hostname=name) as secure,
        ):
            secure.sendall(f"GET /phone/hello HTTP/1.1\r\nHost: {name}:{port}\r\nConnection: close\r\n\r\n".encode())
            answer = b"".join(iter(lambda: secure.recv(65_536), b""))
        assert json.loads(answer.split(b"\r\n\r\n", 1)[1])["fieldbook"] == 1
        assert get(port + 1, "/phone/hello", name)[0] == 404
        assert any("Fingerprint" in line for line in said)


def test_address_of_a_book_is_the_same_each_time_it_is_served(folder: Path) -> None:
    """What a phone has not sent belongs to the address it was opened under, so that never changes."""
    found = set()
    for _ in range(2):
        with served(folder, "--lan") as said:
            found.add(next(line for line in said if "/phone/" in line))
    assert len(found) == 1


def test_without_lan_only_this_machine_is_served(folder: Path) -> None:
    """The phones' port does not answer unless it is asked for."""
    with open_book(folder) as book:
        port = address_of(book).port
    with served(folder), socket.socket() as asking:
        asking.settimeout(2)
        assert asking.connect_ex(("127.0.0.1", port)) != 0


def test_foreign_host_name_is_refused(folder: Path) -> None:
    """A page elsewhere that has its name point here gets nothing (DNS rebinding)."""
    with served(folder) as said:
        address = re.search(r"http://127\.0\.0\.1:(\d+)/", said[0])
        assert address
        assert get(int(address[1]), "/phone/hello", "rebound.example")[0] == 400


def test_behind_a_proxy_the_desk_opens_under_the_proxys_name(folder: Path) -> None:
    """The proxy's word for scheme and name is taken, and cookies are for TLS only."""
    with served(folder, "--behind-proxy", "fieldbook.example") as said:
        opening, port = re.search(r"https://fieldbook\.example(/open/\S+) .*:(\d+)\.", said[0]).groups()  # type: ignore[union-attr]
        connection = http.client.HTTPConnection("127.0.0.1", int(port), timeout=PATIENCE_S)
        forwarded = {
            "X-Forwarded-Proto": "https",
            "X-Forwarded-Host": "fieldbook.example",
            "X-Forwarded-For": "10.0.0.9",
        }
        connection.request("GET", opening, headers={"Host": "127.0.0.1"} | forwarded)
        answer = connection.getresponse()
        cookie = answer.getheader("Set-Cookie") or ""
        connection.close()
        assert answer.status == 303
        assert cookie.startswith("__Host-")
        assert {"Secure", "HttpOnly", "SameSite=Strict"} <= {part.strip() for part in cookie.split(";")}


def test_lost_keys_are_said_and_made_anew_only_when_asked(folder: Path) -> None:
    """An authority that phones trust is never replaced behind their backs."""
    with served(folder, "--lan") as said:
        before = next(line for line in said if "Fingerprint" in line)
    for file in (folder / "keys").glob("authority*"):
        file.unlink()
    command = [sys.executable, "-m", "fieldbook", "serve", str(folder), "--port", "0", "--no-browser", "--lan"]
    done = subprocess.run(command, capture_output=True, text=True, timeout=PATIENCE_S, check=False)
    assert (done.returncode, done.stderr.count("\n")) == (1, 1)
    assert "--new-authority" in done.stderr
    with served(folder, "--lan", "--new-authority") as said:
        assert next(line for line in said if "Fingerprint" in line) != before


def test_laptop_that_changes_network_answers_there_without_a_restart(folder: Path) -> None:
    """Under its new number phones find the plain page and a certificate that holds for it, with the same authority."""
    before, after = ["192.168.1.7"], ["172.20.10.2"]
    with open_book(folder) as book:
        address = address_of(book)
        keys = keys_of(book, address, before)
    way = way_on_the_local_network(address, before, keys.authority.fingerprint)
    desk, phones = (create_app(folder, way=way, access="open") for _ in range(2))
    trust = create_bootstrap_app(keys.authority, way)
    server = prepared(phones, 0, "127.0.0.1", keys.certificate, keys.key)
    trusting = ssl.create_default_context(cadata=keys.authority.der)

    def reached(name: str) -> bool:
        try:
            with (
                socket.create_connection(server.bind_addr, PATIENCE_S) as plain,
                trusting.wrap_socket(plain, server_hostname=name),
            ):
                return True
        except ssl.SSLCertVerificationError:
            return False

    serving = threading.Thread(target=server.serve)
    serving.start()
    try:
        assert [reached(name) for name in (address.name, *before, *after)] == [True, True, False]
        said: list[str] = []
        LocalNetwork(folder, address, keys, desk, phones, trust, server, said.append).move(after)
        assert [reached(name) for name in (address.name, *before, *after)] == [True, False, True]
    finally:
        server.stop()
        serving.join()
    url = f"http://172.20.10.2:{address.trust_port}/"
    assert url in said[0]
    assert trust.test_client().get("/", base_url=url).status_code == 200
    assert trust.test_client().get("/", base_url="http://192.168.1.7").status_code == 400
    desk.config["WTF_CSRF_ENABLED"] = False
    assert url in desk.test_client().post("/phones/join").text


def test_own_certificate_is_served_under_its_name(folder: Path, tmp_path: Path) -> None:
    """Phones go straight to the app, by a name whose certificate they trust already; half of what it needs is told."""
    certificate, key = made(tmp_path / "own", "book.example")
    own = ("--certificate", str(certificate), "--key", str(key))
    with served(folder, "--lan", *own, "--name", "book.example") as said:
        port = int(re.search(r"https://book\.example:(\d+)/phone/", " ".join(said))[1])  # type: ignore[index]
        trusting = ssl.create_default_context(cafile=certificate)
        with (
            socket.create_connection(("127.0.0.1", port), PATIENCE_S) as plain,
            trusting.wrap_socket(plain, server_hostname="book.example") as secure,
        ):
            secure.sendall(b"GET /phone/hello HTTP/1.1\r\nHost: book.example\r\nConnection: close\r\n\r\n")
            answer = b"".join(iter(lambda: secure.recv(65_536), b""))
        assert json.loads(answer.split(b"\r\n\r\n", 1)[1])["fieldbook"] == 1
        assert "Fingerprint" not in " ".join(said)
    command = [sys.executable, "-m", "fieldbook", "serve", str(folder), "--lan", *own]
    done = subprocess.run(command, capture_output=True, text=True, timeout=PATIENCE_S, check=False)
    assert done.returncode == 2
    assert "--name" in done.stderr
