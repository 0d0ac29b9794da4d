"""The server in a process of its own. It starts in a moment: one that has loaded everything is forked for it."""

from __future__ import annotations

import multiprocessing
import sys
import tempfile
from collections.abc import Callable
from functools import partial
from multiprocessing import forkserver
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Any

FORKED = multiprocessing.get_context("forkserver")
FORKED.set_forkserver_preload(
    ["fieldbook.cli", "fieldbook.serving.server", "fieldbook.web.start", "tests.browser.serving", "tests.browser.warm"]
)
PATIENCE_S = 240


def make_ready() -> None:
    """Start what is forked, outside of any test: it keeps a file of its own."""
    forkserver.ensure_running()


# What serves a book: it is given the folder and options, says on standard output where, and ends when told to.
Serve = Callable[..., object]


class Server:
    """A server that runs until it is stopped.

    said  its first line
    """

    def __init__(self, serve: Serve, *arguments: str):
        told, say = FORKED.Pipe(duplex=False)
        self.process = FORKED.Process(target=_run, args=(say, tempfile.gettempdir(), serve, arguments))
        self.process.start()
        say.close()
        self.told = told
        if not told.poll(PATIENCE_S):
            self.stop()
            raise AssertionError("the server did not say where it is")
        self.said = str(told.recv())

    def stop(self) -> None:
        """Tell it to end, and see that it did."""
        self.process.terminate()
        self.process.join(PATIENCE_S)
        assert self.process.exitcode is not None, "the server did not stop"
        self.process.close()
        self.told.close()


class _FirstLine:
    """Standard output of which the first line is sent to whoever started this."""

    def __init__(self, say: Connection):
        self.say: Connection | None = say
        self.text = ""

    def write(self, text: str) -> int:
        """Take text, and send it once it is a line."""
        self.text += text
        if self.say and "\n" in self.text:
            self.say.send(self.text.splitlines()[0])
            self.say = None
        return len(text)

    def flush(self) -> None:
        """Nothing is held back."""


def _run(say: Connection, temporary: str, serve: Serve, arguments: tuple[str, ...]) -> None:
    tempfile.tempdir = temporary
    sys.stdout = _FirstLine(say)  # type: ignore[assignment]
    sys.exit(serve(*arguments))  # type: ignore[arg-type]


def by_command(*arguments: str) -> int:
    """As a person does."""
    from fieldbook.cli import main

    return main(["serve", *arguments])


def with_files_from(static: Path) -> Serve:
    """With a copy of the app's files, which may then be changed."""
    return partial(_with_files, static)


def _with_files(static: Path, *arguments: str) -> int:
    from fieldbook import folders

    folders.STATIC = static
    return by_command(*arguments)


def under_another_name(folder: str, _: str, port: str, *more: str) -> None:
    """At another.example, by a book that says its own address is another."""
    from fieldbook.serving.address import Way
    from fieldbook.serving.server import prepared
    from fieldbook.web import create_app

    hosts = ["127.0.0.1", "another.example"]
    app = create_app(folder, trusted_hosts=hosts, way=Way("https://book.example:20000/phone/"))
    server = prepared(app, int(port))
    print("http", flush=True)
    server.serve()


def that_refuses_once(path: str) -> Serve:
    """As any book, but what is asked for first under an address does not come."""
    return partial(_refusing, path, "")


def that_refuses_until(there: Path, path: str) -> Serve:
    """As any book, but what is asked for under an address does not come before a file is there."""
    return partial(_refusing, path, str(there))


def _refusing(path: str, there: str, folder: str, _: str, port: str, *more: str) -> None:
    from fieldbook.serving.server import prepared
    from fieldbook.web import create_app

    app, refused = create_app(folder), {path}

    def answer(environ: dict[str, Any], begin: Callable[..., Any]) -> Any:
        if environ["PATH_INFO"] not in refused or (there and Path(there).exists()):
            return app(environ, begin)
        if not there:
            refused.clear()
        begin("503 Service Unavailable", [("Content-Length", "0")])
        return [b""]

    server = prepared(answer, int(port))
    print("http", flush=True)
    server.serve()
