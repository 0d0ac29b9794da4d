"""Commands about a whole book: made, served, filled, examined, kept."""

from __future__ import annotations

import argparse
import gc
import json
import sys
import webbrowser
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import Any, BinaryIO

from ..errors import FieldbookError, WrongUse
from .telling import opened_to_read, say, say_error, say_newer

PORT = 8479
DEMO = "made as a demo"  # the fact by which such a book is known again
DEMO_FOLDER = Path.home() / ".fieldbook" / "demo"


def add(command: Callable[[str, Any, str], argparse.ArgumentParser]) -> None:
    """Add the commands of this module."""
    new = command("new", _new, "make a new, empty book")
    new.add_argument("book", metavar="BOOK", help="folder that does not exist yet")
    demo = command("demo", _demo, "make the demo book and serve it")
    demo.add_argument("--dir", type=Path, default=DEMO_FOLDER, help=f"default: {DEMO_FOLDER}")
    serve = command("serve", _serve, "serve a book to this machine, and to phones if asked")
    serve.add_argument("book", metavar="BOOK")
    further = serve.add_mutually_exclusive_group()
    further.add_argument("--lan", action="store_true", help="also to phones on the local network, under TLS")
    serve.add_argument("--new-authority", action="store_true", help="with --lan: when phones cannot trust the old one")
    serve.add_argument("--certificate", metavar="FILE", type=Path, help="with --lan: one that phones trust already")
    serve.add_argument("--key", metavar="FILE", type=Path, help="its key")
    serve.add_argument("--name", metavar="NAME", help="the name it holds for, under which phones find this machine")
    further.add_argument("--behind-proxy", metavar="NAME", help="to a reverse proxy here that answers to NAME")
    for one in (demo, serve):
        one.add_argument("--port", type=_port, default=PORT, help=f"default: {PORT}")
        one.add_argument("--no-browser", action="store_true", help="do not open a browser")
    enter = command("enter", _enter, "enter what a file of JSON lines says: all of it, or nothing")
    enter.add_argument("book", metavar="BOOK")
    enter.add_argument("file", metavar="FILE", help="one JSON object a line; - reads standard input")
    examine = command("examine", _examine, "check the chain, the tables and the photographs of a book")
    examine.add_argument("book", metavar="BOOK")
    examine.add_argument("--against", metavar="CHECKSUM", help="the one on the title page of a printed record")
    backup = command("backup", _backup, "write a book to one file; it may be in use meanwhile")
    backup.add_argument("book", metavar="BOOK")
    backup.add_argument("file", metavar="FILE", type=Path)
    backup.add_argument("--with-keys", action="store_true", help="with the keys phones trust; lock such a file away")
    backup.add_argument("--as-it-is", action="store_true", help="also where something of the book does not fit")
    restore = command("restore", _restore, "make a book from a backup")
    restore.add_argument("file", metavar="FILE", type=Path)
    restore.add_argument("book", metavar="BOOK", help="folder that does not exist yet")


def _port(text: str) -> int:
    if not text.isdecimal() or int(text) > 65_535:
        raise argparse.ArgumentTypeError(f"“{text}” is no port; give a number from 0 to 65535")
    return int(text)


def _new(given: argparse.Namespace) -> int:
    from ..book.opening import create_book

    with create_book(given.book) as book:
        print(f"New book in {book.folder}. Serve it: fieldbook serve {book.folder}")
    return 0


def _demo(given: argparse.Namespace) -> int:
    from ..book.book import FILE
    from ..book.opening import book_made, open_book
    from ..folders import demo_site
    from ..web.start import serve_here

    if (given.dir / FILE).exists():
        with open_book(given.dir) as book:
            _refuse_what_is_no_demo(book)
    else:
        print(f"Making the demo book in {given.dir}: the customs shed at Marrow Quay.", flush=True)
        with book_made(given.dir) as book:
            demo_site().make(book, say=lambda words: print(f"  {words}", flush=True))
            with book.noting():
                book.set_fact(DEMO, "yes")
    serve_here(given.dir, given.port, say, _browser(given), is_open=True)
    return 0


def _serve(given: argparse.Namespace) -> int:
    gc.disable()  # what is imported stays: looked through for what can go, it would take a tenth longer
    from ..web import start

    gc.freeze()
    gc.enable()
    folder = Path(given.book)
    own = (given.name, given.certificate, given.key)
    if any(own) and not (given.lan and all(own)):
        remedy = "Give all of --lan, --certificate, --key and --name."
        raise WrongUse("A certificate of one's own needs its key and its name.", remedy, field="certificate")
    if all(own):
        start.serve_by_certificate(folder, given.port, *own, say, _browser(given))
    elif given.lan:
        start.serve_local_network(folder, given.port, say, _browser(given), new_authority=given.new_authority)
    elif given.behind_proxy:
        start.serve_behind_proxy(folder, given.port, given.behind_proxy, say, _browser(given))
    else:
        from ..book.read_only import to_be_read

        with to_be_read(folder) as readable:
            if readable != folder:
                print(f"{folder} cannot be written to: it is shown, and nothing can be entered.", flush=True)
            start.serve_here(readable, given.port, say, _browser(given))
    return 0


def _browser(given: argparse.Namespace) -> Callable[[str], object]:
    return (lambda _: None) if given.no_browser else webbrowser.open


def _enter(given: argparse.Namespace) -> int:
    from ..book.entering import enter
    from ..book.entry_lines import read
    from ..book.opening import open_book

    with open_book(given.book) as book, _opened(given.file) as file:
        folder = Path() if given.file == "-" else Path(given.file).parent
        entered = enter(book, read(file), folder)
        out_of_place = list(_out_of_place(book, entered.ids.values()))
    for warning in [*entered.warnings, *out_of_place]:
        say_error(warning)
    print(json.dumps(entered.ids, ensure_ascii=False, indent=1))
    return 0


def _out_of_place(book: Any, items: Iterable[str]) -> Iterator[FieldbookError]:
    """A warning for each thing that stands beyond its face or through another."""
    from ..book.gathering import gather, site_of
    from ..findings.place import warnings

    by_site: dict[str, list[str]] = {}
    for item in items:
        by_site.setdefault(site_of(book, item), []).append(item)
    for site, of_it in by_site.items():
        for one, sentence in warnings(gather(book, site), of_it, date.today()):
            yield FieldbookError(f"{one.called}: {sentence}", "Correct its place if that was not meant.")


@contextmanager
def _opened(name: str) -> Iterator[BinaryIO]:
    """A file to be read, or standard input for “-”; raises WrongUse."""
    if name == "-":
        yield sys.stdin.buffer
        return
    try:
        file = Path(name).open("rb")  # noqa: SIM115
    except OSError as error:
        raise WrongUse(
            f"{name} cannot be read: {error.strerror}.", "Check its name.", field="file", value=name
        ) from None
    with file:
        yield file


def _examine(given: argparse.Namespace) -> int:
    from ..book.examine import examine_folder

    seen = examine_folder(Path(given.book), given.against)
    for line in seen.left_over:
        print(f"Also there: {line}.")
    if seen.newer:
        words = "This book was made by a newer Fieldbook; what this one does not know was not looked at"
        print(f"fieldbook: {words}: {'; '.join(seen.newer)}.", file=sys.stderr)
    if not seen.damages:
        agree = "chain, tables and photographs" if seen.compared else "chain and photographs"
        print(f"{given.book} is sound: {seen.entries} entries, {agree} agree.")
        return 0
    print(f"{len(seen.damages)} finding{'s' if len(seen.damages) > 1 else ''} in {given.book}:")
    for damage in seen.damages:
        print(f"- {damage.part}: {damage.words}")
    return 1


def _backup(given: argparse.Namespace) -> int:
    from ..book.backup import backup

    with opened_to_read(given.book) as book:
        parts = backup(book, given.file, given.with_keys, given.as_it_is)
        say_newer(book)
    keys = " It holds the keys that phones trust: lock it away." if given.with_keys else ""
    print(f"{given.file}: {parts} parts, {given.file.stat().st_size / 1e6:.1f} MB.{keys}")
    return 0


def _restore(given: argparse.Namespace) -> int:
    from ..book.backup import restore

    with restore(given.file, given.book) as book:
        print(f"{book.folder}: restored, {book.revision()} entries.")
    return 0


def _refuse_what_is_no_demo(book: Any) -> None:
    """The demo opens for whoever reaches the port; a book with somebody's work in it must not."""
    from ..folders import demo_site

    # One of the first version carries no mark; it holds the invented site alone.
    as_before = [site["name"] for site in book.items("site", withdrawn=True)] == [demo_site().NAME]
    if book.fact(DEMO) is None and not as_before:
        remedy = f"Serve it: fieldbook serve {book.folder}. Or name a folder that does not exist yet."
        raise WrongUse(f"The book in {book.folder} is not one that “demo” has made.", remedy, field="dir")
