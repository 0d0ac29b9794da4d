"""Serving a book: to this machine alone, to phones on the local network, or behind a reverse proxy."""

from __future__ import annotations

import signal
import sys
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from pathlib import Path
from types import FrameType

from cheroot import wsgi

from ..book.left_over import clear_left_over
from ..book.opening import open_book
from ..phones.codes import new_opening
from ..phones.looking import Looker
from ..serving.address import address_of, local_addresses, way_behind_a_proxy, way_on_the_local_network
from ..serving.announcing import qr_terminal
from ..serving.following import announced_wherever
from ..serving.server import EVERY_ADDRESS, THIS_MACHINE, prepared
from . import create_app

# What speaks of certificates is imported where it is used: a book behind a proxy has none, and opens the sooner.

Say = Callable[[str], object]
Opened = Callable[[str], object]


def serve_here(folder: Path, port: int, say: Say, opened: Opened, *, is_open: bool = False) -> None:
    """Serve to this machine until interrupted (SIGINT) or told to end (SIGTERM).

    port     0 lets the system choose
    opened   called with the address to open, once it answers
    is_open  whoever reaches the port may use the desk: for a book without secrets
    Raises what opening the book raises, and PortTaken.
    """
    path = "" if is_open else _opening(folder)
    looker = Looker(folder)
    server = prepared(create_app(folder, looker=looker, **({"access": "open"} if is_open else {})), port)
    address = _address("http", THIS_MACHINE, server, path)
    say(f"{address} {'shows the book' if is_open else 'opens the desk once, in the browser you use it with'}.")
    _run(server, [], looker, address, say, opened)


def serve_local_network(folder: Path, port: int, say: Say, opened: Opened, *, new_authority: bool = False) -> None:
    """Serve the desk to this machine, and the phone's app under TLS to the local network, until interrupted.

    new_authority  make a new authority where the old one cannot be used; every phone must then trust it anew
    Raises as `serve_here` does, and AuthorityUnusable.
    """
    from ..serving.authority import keys_of
    from .app.trusting import create_bootstrap_app
    from .local_network import LocalNetwork

    addresses = local_addresses()
    with open_book(folder) as book:
        address = address_of(book)
        keys = keys_of(book, address, addresses, again=new_authority)
    way = way_on_the_local_network(address, addresses, keys.authority.fingerprint)
    looker = Looker(folder)
    desk_app = create_app(folder, way=way)
    phones_app = create_app(folder, way=way, tls=True, trusted_hosts=list(way.hosts), looker=looker)
    trust_app = create_bootstrap_app(keys.authority, way)
    with ExitStack() as stack:
        desk = stack.enter_context(_stopping(prepared(desk_app, port)))
        phones = prepared(phones_app, address.port, EVERY_ADDRESS, keys.certificate, keys.key)
        stack.enter_context(_stopping(phones))
        trust = stack.enter_context(_stopping(prepared(trust_app, address.trust_port, EVERY_ADDRESS)))
        opening = _address("http", THIS_MACHINE, desk, _opening(folder))
        say(f"{opening} opens the desk once, in the browser you use it with.")
        say(f"Phones begin at {way.trust_url} and then use {way.phone_url}")
        say(f"Fingerprint to compare: {way.fingerprint}")
        say(qr_terminal(way.trust_url or way.phone_url) or "")
        network = LocalNetwork(folder, address, keys, desk_app, phones_app, trust_app, phones, say)
        stack.enter_context(announced_wherever(address, addresses, network.move, say))
        _run(desk, [phones, trust], looker, opening, say, opened)


def serve_by_certificate(
    folder: Path, port: int, name: str, certificate: Path, key: Path, say: Say, opened: Opened
) -> None:
    """Serve the desk to this machine, and the phone's app under a certificate phones trust already, until interrupted.

    name  the one phones open, which must lead to this machine
    Raises as `serve_here` does, and CertificateUnusable.
    """
    from ..serving.own_certificate import way_by_certificate

    with open_book(folder) as book:
        address = address_of(book)
    way = way_by_certificate(address, name, certificate, key)
    looker = Looker(folder)
    with ExitStack() as stack:
        desk = stack.enter_context(_stopping(prepared(create_app(folder, way=way), port)))
        app = create_app(folder, way=way, tls=True, trusted_hosts=list(way.hosts), looker=looker)
        phones = prepared(app, address.port, EVERY_ADDRESS, certificate, key)
        stack.enter_context(_stopping(phones))
        opening = _address("http", THIS_MACHINE, desk, _opening(folder))
        say(f"{opening} opens the desk once, in the browser you use it with.")
        say(f"Phones use {way.phone_url}")
        say(qr_terminal(way.phone_url) or "")
        _run(desk, [phones], looker, opening, say, opened)


def serve_behind_proxy(folder: Path, port: int, name: str, say: Say, opened: Opened) -> None:
    """Serve to a reverse proxy on this machine, which has a certificate of its own, until interrupted.

    name  the name the proxy answers to
    Raises as `serve_here` does.
    """
    way = way_behind_a_proxy(name)
    looker = Looker(folder)
    app = create_app(folder, way=way, tls=True, behind_proxy=True, trusted_hosts=list(way.hosts), looker=looker)
    opening = f"https://{name}/{_opening(folder)}"
    server = prepared(app, port, behind_proxy=True)
    say(f"{opening} opens the desk once, through the proxy to {THIS_MACHINE}:{server.bind_addr[1]}.")
    _run(server, [], looker, opening, say, opened)


def _opening(folder: Path) -> str:
    with open_book(folder) as book:
        clear_left_over(folder)
        return f"open/{new_opening(book)}"


def _address(scheme: str, host: str, server: wsgi.Server, path: str) -> str:
    return f"{scheme}://{host}:{server.bind_addr[1]}/{path}"


@contextmanager
def _stopping(server: wsgi.Server) -> Iterator[wsgi.Server]:
    try:
        yield server
    finally:
        server.stop()


def _run(
    first: wsgi.Server, others: Sequence[wsgi.Server], looker: Looker, address: str, say: Say, opened: Opened
) -> None:
    # A job started in the background may have SIGINT ignored, and a service manager asks by SIGTERM.
    signal.signal(signal.SIGTERM, _end)
    with ExitStack() as stack:
        for server in (first, *others):
            stack.enter_context(_stopping(server))
        for server in others:
            threading.Thread(target=server.serve, daemon=True).start()
        looker.start()
        stack.callback(looker.stop)
        say("Stop with Ctrl-C.")
        opened(address)
        first.serve()


def _end(number: int, _: FrameType | None) -> None:
    """Stop all that runs and exit with status 0; told again, end at once."""
    signal.signal(number, signal.SIG_DFL)
    sys.exit(0)
