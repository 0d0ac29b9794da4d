"""Serving an app to this machine, or to the local network under TLS of its own (cheroot)."""

from __future__ import annotations

import errno
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Any

from cheroot import wsgi
from cheroot.ssl.builtin import BuiltinSSLAdapter

from ..errors import FieldbookError
from .door import MOST_OPEN, Door

THIS_MACHINE = "127.0.0.1"
EVERY_ADDRESS = "0.0.0.0"  # noqa: S104 - asked for by name, and only hosts of our own are answered
THREADS = 24


class PortTaken(FieldbookError):
    """Another program listens on the port, or it may not be used."""

    code = "port-taken"


def prepared(
    app: Callable[..., Any],
    port: int,
    host: str = THIS_MACHINE,
    certificate: Path | None = None,
    key: Path | None = None,
    behind_proxy: bool = False,
) -> wsgi.Server:
    """A server that listens already; start it with `serve()` on it, stop it with `stop()`.

    port          0 lets the system choose; the port in use is `bind_addr[1]` then
    behind_proxy  whether a proxy names the addresses that requests come from
    Raises PortTaken.
    """
    server = wsgi.Server((host, port), app, numthreads=THREADS, server_name="fieldbook", shutdown_timeout=2)
    server.request_queue_size = MOST_OPEN
    _let_open(4 * MOST_OPEN)
    if certificate and key:
        server.ssl_adapter = BuiltinSSLAdapter(str(certificate), str(key))
    try:
        server.prepare()
    except OSError as error:
        words = "may not be used by you" if error.errno == errno.EACCES else "is in use by another program"
        raise PortTaken(f"Port {port} {words}.", "Name another: --port N.", field="port", value=port) from None
    server._connections.close()  # type: ignore[attr-defined] # cheroot's own, in whose place the door stands
    server._connections = Door(server, behind_proxy)  # type: ignore[attr-defined]
    return server


def _let_open(files: int) -> None:
    """Ask the system for so many open files, as far as it lets us: a connection is one."""
    with suppress(ImportError, ValueError, OSError):
        import resource

        soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
        wanted = files if hard == resource.RLIM_INFINITY else min(files, hard)
        if soft != resource.RLIM_INFINITY and soft < wanted:
            resource.setrlimit(resource.RLIMIT_NOFILE, (wanted, hard))
