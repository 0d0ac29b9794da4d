"""The command line: it parses, calls one function, and says what came of it.

Exit status: 0 done; 1 the answer is no, or it could not be done; 2 wrong use.
"""

from __future__ import annotations

import argparse
import json
import sys
import webbrowser
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import Any, BinaryIO, NoReturn

from . import __version__
from .errors import FieldbookError, Refused, WrongUse

PORT = 8479
WRONG_USE = {"wrong-use", "not-a-book"}
DEMO = "made as a demo"  # the fact by which such a book is known again
DEMO_FOLDER = Path.home() / ".fieldbook" / "demo"


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        self.exit(2, f"fieldbook: {message}. See: {self.prog} --help\n")


def parser() -> argparse.ArgumentParser:
    """All commands with their arguments."""
    top = _Parser(prog="fieldbook", description="Field notebook and fixing record for removable fittings.")
    top.add_argument("--version", action="version", version=f"fieldbook {__version__}")
    commands = top.add_subparsers(dest="command", required=True, metavar="COMMAND", parser_class=_Parser)

    def command(name: str, does: Any, about: str) -> argparse.ArgumentParser:
        one = commands.add_parser(name, help=about, description=about)
        one.set_defaults(does=does)
        return one

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
    _reading(command)
    room = command("range", _range, "where a fitting may be set, and how much more it may carry, as good as now")
    room.add_argument("book", metavar="BOOK")
    room.add_argument("fitting", metavar="FITTING", help="mark or id of the fitting")
    room.add_argument("--json", action="store_true", help="as a JSON object")
    enter = command("enter", _enter, "enter what a file of JSON lines says: all of it, or nothing")
    enter.add_argument("book", metavar="BOOK")
    enter.add_argument("file", metavar="FILE", help="one JSON object a line; - reads standard input")
    examine = command("examine", _examine, "check the chain, the tables and the photographs of a book")
    examine.add_argument("book", metavar="BOOK")
    examine.add_argument("--against", metavar="DIGEST", help="the one on the title page of a printed record")
    backup = command("backup", _backup, "write a book to one file; it may be in use meanwhile")
    backup.add_argument("book", metavar="BOOK")
    backup.add_argument("file", metavar="FILE", type=Path)
    backup.add_argument("--with-keys", action="store_true", help="with the keys phones trust; lock such a file away")
    backup.add_argument("--as-it-is", action="store_true", help="also where something of the book does not fit")
    restore = command("restore", _restore, "make a book from a backup")
    restore.add_argument("file", metavar="FILE", type=Path)
    restore.add_argument("book", metavar="BOOK", help="folder that does not exist yet")
    calc = command("calc", _calc, "do one calculation by hand: JSON in, JSON out")
    calc.add_argument("name", metavar="NAME", nargs="?", help="left out: lists them")
    calc.add_argument("--keys", action="store_true", help="what it takes, with units and bounds, and an example")
    return top


def _reading(command: Callable[[str, Any, str], argparse.ArgumentParser]) -> None:
    """The commands that read a site of a book and say what it comes to."""
    record = command("record", _record, "make the care-and-removal record of a site")
    record.add_argument("book", metavar="BOOK")
    record.add_argument("site", metavar="SITE", help="name or id of the site")
    record.add_argument("-o", "--output", metavar="FILE.pdf", type=Path, required=True)
    record.add_argument("--costs", action="store_true", help="with the costs")
    check = command("check", _check, "every finding of a site: what stops, what is not known, what is fine")
    check.add_argument("book", metavar="BOOK")
    check.add_argument("site", metavar="SITE", help="name or id of the site")
    check.add_argument("--json", action="store_true", help="all of them, as a JSON list")
    ask = command("ask", _ask, "may I, here? what may be done at a point of a face, act by act")
    ask.add_argument("book", metavar="BOOK")
    ask.add_argument("face", metavar="FACE", help="mark, name or id of the face")
    ask.add_argument("--x", metavar="MM", required=True, help="along the face, from its datum")
    ask.add_argument("--z", metavar="MM", required=True, help="up, from its datum")
    ask.add_argument("--radius", metavar="MM", default="", help="of what touches; left out: nothing is agreed for it")
    ask.add_argument("--depth", metavar="MM", default="", help="of a hole; left out: any")
    ask.add_argument("--json", action="store_true", help="as one JSON object")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status."""
    given = parser().parse_args(arguments)
    try:
        return given.does(given)
    except Refused as refused:
        for finding in refused.findings:
            _say_error(finding)
        return 1
    except FieldbookError as error:
        _say_error(error)
        return 2 if error.code in WRONG_USE or given.command == "calc" else 1
    except BrokenPipeError:
        return 1
    except KeyboardInterrupt:
        return 130


def _say_error(error: FieldbookError) -> None:
    print(f"fieldbook: {error.reason} {error.remedy}", file=sys.stderr)


def _port(text: str) -> int:
    if not text.isdecimal() or int(text) > 65_535:
        raise argparse.ArgumentTypeError(f"“{text}” is no port; give a number from 0 to 65535")
    return int(text)


def _new(given: argparse.Namespace) -> int:
    from .book.book import create_book

    with create_book(given.book) as book:
        print(f"New book in {book.folder}. Serve it: fieldbook serve {book.folder}")
    return 0


def _demo(given: argparse.Namespace) -> int:
    from .book.book import FILE, book_made, open_book
    from .folders import demo_site
    from .web.start import serve_here

    if (given.dir / FILE).exists():
        with open_book(given.dir) as book:
            _refuse_what_is_no_demo(book)
    else:
        print(f"Making the demo book in {given.dir}: the customs shed at Marrow Quay.", flush=True)
        with book_made(given.dir) as book:
            demo_site().make(book, say=lambda words: print(f"  {words}", flush=True))
            with book.noting():
                book.set_fact(DEMO, "yes")
    serve_here(given.dir, given.port, _say, _browser(given), is_open=True)
    return 0


def _refuse_what_is_no_demo(book: Any) -> None:
    """The demo opens for whoever reaches the port; a book with somebody's work in it must not."""
    from .folders import demo_site

    # One of the first version carries no mark; it holds the invented site alone.
    as_before = [site["name"] for site in book.items("site", withdrawn=True)] == [demo_site().NAME]
    if book.fact(DEMO) is None and not as_before:
        remedy = f"Serve it: fieldbook serve {book.folder}. Or name a folder that does not exist yet."
        raise WrongUse(f"The book in {book.folder} is not one that “demo” has made.", remedy, field="dir")


def _serve(given: argparse.Namespace) -> int:
    from .web import start

    folder = Path(given.book)
    own = (given.name, given.certificate, given.key)
    if any(own) and not (given.lan and all(own)):
        remedy = "Give all of --lan, --certificate, --key and --name."
        raise WrongUse("A certificate of one's own needs its key and its name.", remedy, field="certificate")
    if all(own):
        start.serve_by_certificate(folder, given.port, *own, _say, _browser(given))
    elif given.lan:
        start.serve_local_network(folder, given.port, _say, _browser(given), new_authority=given.new_authority)
    elif given.behind_proxy:
        start.serve_behind_proxy(folder, given.port, given.behind_proxy, _say, _browser(given))
    else:
        from .book.read_only import to_be_read

        with to_be_read(folder) as readable:
            if readable != folder:
                print(f"{folder} cannot be written to: it is shown, and nothing can be entered.", flush=True)
            start.serve_here(readable, given.port, _say, _browser(given))
    return 0


def _say(words: str) -> None:
    print(words, flush=True)


def _browser(given: argparse.Namespace) -> Callable[[str], object]:
    return (lambda _: None) if given.no_browser else webbrowser.open


def _record(given: argparse.Namespace) -> int:
    from .record.pdf import make_record

    with _read(given.book) as book:
        site = _site_named(book, given.site)
        edition = make_record(book, site, given.output, costs=given.costs, progress=_bar)
        _say_newer(book)
        numbered = "no edition" if book.is_only_read else f"edition {edition.number}"
    print(f"{given.output}: {numbered}.")
    return 0


def _check(given: argparse.Namespace) -> int:
    from .book.site import gather
    from .checks.verdict import FINE
    from .findings import appraise, counts
    from .findings.open_points import SHOWN, open_points
    from .findings.plain import as_plain

    with _read(given.book) as book:
        site = gather(book, _site_named(book, given.site))
        _say_newer(book)
    findings = appraise(site)
    if given.json:
        print(json.dumps([as_plain(finding) for finding in findings], ensure_ascii=False))
    else:
        print(", ".join(f"{number} {word}" for word, number in counts(findings).items() if number) or "no findings")
        points = open_points(site, findings)
        lists = (("Stop", points.stop), ("Measure on this walk", points.this_walk), ("Later", points.later))
        for heading, listed in lists:
            if listed:
                print(f"\n{heading}:")
                print("\n".join(f"- {point.line}" for point in listed[:SHOWN]))
                if len(listed) > SHOWN:
                    print(f"  and {len(listed) - SHOWN} more: --json lists all.")
    return 0 if all(finding.word in FINE for finding in findings) and not book.newer else 1


def _say_newer(book: Any) -> None:
    """Tell, where it is so, that the book was made by a newer version, and what this one made nothing of."""
    if error := book.newer_error():
        _say_error(error)


def _ask(given: argparse.Namespace) -> int:
    from .book.site import gather, site_of
    from .findings.at_point import answer, asked_in

    with _read(given.book) as book:
        face = _named(book, "face", given.face)
        site = gather(book, site_of(book, face))
    typed = {"x_mm": given.x, "z_mm": given.z, "radius_mm": given.radius, "depth_mm": given.depth}
    said = answer(site, site[face], *asked_in(typed))
    if given.json:
        print(json.dumps(said.as_dict(), ensure_ascii=False))
        return 0
    for act in said.acts:
        print(f"{act.act}: {act.answer}. {act.why}")
    if said.refusal:
        print(f"How far something may stand out is not known: {said.refusal.reason} {said.refusal.remedy}")
    elif said.clear_mm is None:
        print("Nothing recorded limits how far something may stand out here.")
    elif said.clear_mm <= 0:
        print(f"Nothing may stand here: {said.limited_by.name if said.limited_by else 'it'} must stay free.")
    else:
        print(f"Something may stand out at most {said.clear_mm:g} mm here.")
    if said.depth_mm is not None:
        print(f"A hole may go at most {said.depth_mm:g} mm deep.")
    print(f"Mind: {', '.join(caution.title.lower() for caution in said.cautions)}.")
    return 0


def _named(book: Any, kind: str, wanted: str) -> str:
    """The id of a face or fitting by its id, mark or name; raises WrongUse."""
    items = book.items(kind)
    for name in ("id", "mark", "name"):
        found = [one["id"] for one in items if one[name] == wanted]
        if len(found) == 1:
            return found[0]
        if found:
            reason, remedy = f"“{wanted}” is the {name} of several {kind}s.", "Give the id of one of them."
            raise WrongUse(f"{reason} {'; '.join(found)}.", remedy, field=kind, value=wanted)
    marks = "; ".join(one["mark"] or one["name"] for one in items) or "none yet"
    raise WrongUse(f"“{wanted}” is no {kind} of this book.", f"The {kind}s are: {marks}.", field=kind, value=wanted)


def _range(given: argparse.Namespace) -> int:
    from .book.site import gather, site_of
    from .findings.room_to_move import room_to_move

    with _read(given.book) as book:
        named = _named(book, "fitting", given.fitting)
        site = gather(book, site_of(book, named))
    room = room_to_move(site, site[named])
    if given.json:
        print(json.dumps(room._asdict(), ensure_ascii=False))
        return 0
    stretches = "; ".join(f"{low} to {high} mm" for low, high in room.along_mm) or "nowhere"
    print(f"Left edge at x = {stretches}.")
    more = "not known: its loaded mass is not entered" if room.more_kg is None else f"{room.more_kg:g} kg"
    print(f"More it may carry: {more}." + (f" Set by: {room.set_by}." if room.set_by else ""))
    return 0


def _site_named(book: Any, wanted: str) -> str:
    sites = book.items("site")
    found = [site["id"] for site in sites if wanted in {site["id"], site["name"]}]
    if len(found) == 1:
        return found[0]
    names = "; ".join(f"{site['name']} ({site['id']})" for site in sites) or "none yet"
    trouble = "is the name of several sites" if found else "is no site of this book"
    raise WrongUse(f"“{wanted}” {trouble}.", f"The sites are: {names}.", field="site", value=wanted)


def _bar(done: int, total: int, words: str) -> None:
    """A progress bar on a terminal; silence elsewhere."""
    if not sys.stderr.isatty():
        return
    filled = 30 * done // max(total, 1)
    end = "\n" if done >= total else ""
    print(f"\r\x1b[K[{'#' * filled}{'.' * (30 - filled)}] {words}", end=end, file=sys.stderr, flush=True)


def _enter(given: argparse.Namespace) -> int:
    from .book.book import open_book
    from .book.entering import enter
    from .book.entry_lines import read

    with open_book(given.book) as book, _opened(given.file) as file:
        folder = Path() if given.file == "-" else Path(given.file).parent
        entered = enter(book, read(file), folder)
        out_of_place = list(_out_of_place(book, entered.ids.values()))
    for warning in [*entered.warnings, *out_of_place]:
        _say_error(warning)
    print(json.dumps(entered.ids, ensure_ascii=False, indent=1))
    return 0


def _out_of_place(book: Any, items: Iterable[str]) -> Iterator[FieldbookError]:
    """A warning for each thing that stands beyond its face or through another."""
    from .book.site import gather, site_of
    from .findings.place import warnings

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
    from .book.examine import examine_folder

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
    from .book.backup import backup

    with _read(given.book) as book:
        parts = backup(book, given.file, given.with_keys, given.as_it_is)
        _say_newer(book)
    keys = " It holds the keys that phones trust: lock it away." if given.with_keys else ""
    print(f"{given.file}: {parts} parts, {given.file.stat().st_size / 1e6:.1f} MB.{keys}")
    return 0


@contextmanager
def _read(folder: str) -> Iterator[Any]:
    """A book, open to be read: also one on a medium that cannot be written to."""
    from .book.book import open_book
    from .book.read_only import to_be_read

    with to_be_read(folder) as readable, open_book(readable) as book:
        yield book


def _restore(given: argparse.Namespace) -> int:
    from .book.backup import restore

    with restore(given.file, given.book) as book:
        print(f"{book.folder}: restored, {book.revision()} entries.")
    return 0


def _calc(given: argparse.Namespace) -> int:
    from .calculations.catalogue import CALCULATIONS, calculate, calculation_named
    from .calculations.guide import lines_about

    if given.name is None:
        for name, one in sorted(CALCULATIONS.items()):
            print(f"{name:20}{one.sentence}")
        return 0
    calculation = calculation_named(given.name)
    if given.keys:
        print("\n".join(lines_about(calculation)))
        return 0
    try:
        payload = json.loads(sys.stdin.read())
    except (ValueError, RecursionError) as error:
        remedy = "Give one JSON object on standard input."
        raise WrongUse(f"The input is no JSON: {error}.", remedy, field="input") from None
    print(json.dumps(calculate(given.name, payload), ensure_ascii=False))
    return 0
