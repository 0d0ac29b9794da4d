"""The command line: it parses, calls one function, and says what came of it.

Exit status: 0 done; 1 the answer is no, or it could not be done; 2 wrong use.
"""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path
from typing import Any, NoReturn

from .. import __version__
from ..errors import FieldbookError, Refused
from . import books, calculations, forgetting, handing_over, sheets, shelf, sites
from .telling import in_words, say_error

WRONG_USE = {"wrong-use", "not-a-book"}


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

    for part in (books, forgetting, sites, handing_over, sheets, shelf, calculations):
        part.add(command)
    return top


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status."""
    given = parser().parse_args(arguments)
    try:
        return given.does(given)
    except Refused as refused:
        for finding in refused.findings:
            say_error(finding)
        return 1
    except FieldbookError as error:
        say_error(error)
        return 2 if error.code in WRONG_USE or given.command == "calc" else 1
    except BrokenPipeError:
        return 1
    except KeyboardInterrupt:
        return 130
    except Exception as error:  # a damaged book makes its readers raise what they like, and no trace reaches a screen
        say_error(in_words(error, Path(getattr(given, "book", "."))))
        return 1
