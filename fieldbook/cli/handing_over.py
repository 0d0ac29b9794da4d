"""Commands about what is handed over: the folder, whether it is whole, and a book made of it again."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path
from typing import Any

from .telling import bar, opened_to_read, say_newer, site_named


def add(command: Callable[[str, Any, str], argparse.ArgumentParser]) -> None:
    """Add the commands of this module."""
    handover = command("handover", _handover, "write the folder of a site: record, data, drawings, photographs, ledger")
    handover.add_argument("book", metavar="BOOK")
    handover.add_argument("site", metavar="SITE", help="name or id of the site")
    handover.add_argument("-o", "--output", metavar="DIR", type=Path, required=True, help="that does not exist yet")
    handover.add_argument("--for-others", action="store_true", help="without ledger, money and places of photographs")
    verify = command("verify", _verify, "check a folder that was handed over: is it as it was?")
    verify.add_argument("folder", metavar="DIR", type=Path, help="the folder, or a ZIP of it")
    opened = command("open", _open, "make a book of a folder that was handed over")
    opened.add_argument("folder", metavar="DIR", type=Path, help="the folder, or a ZIP of it")
    opened.add_argument("-o", "--output", metavar="BOOK", type=Path, required=True, help="that does not exist yet")


def _handover(given: argparse.Namespace) -> int:
    from ..record.handover import handover

    with opened_to_read(given.book) as book:
        site = site_named(book, given.site)
        edition = handover(book, site, given.output, for_others=given.for_others, progress=bar)
        say_newer(book)
    kind = "a copy for others of " if given.for_others else ""
    print(f"{given.output}: {kind}edition {edition.number}. Check it any time: fieldbook verify {given.output}")
    return 0


def _verify(given: argparse.Namespace) -> int:
    from ..record.reopening import verify
    from ..record.zipped import as_folder

    with as_folder(given.folder) as folder:
        flaws = verify(folder)
    for flaw in flaws:
        print(f"- {flaw.path} {flaw.words}")
    print(f"{given.folder} is {'as it was handed over' if not flaws else 'not as it was handed over'}.")
    return 1 if flaws else 0


def _open(given: argparse.Namespace) -> int:
    from ..record.reopening import open_folder
    from ..record.zipped import as_folder

    with as_folder(given.folder) as folder, open_folder(folder, given.output) as book:
        print(f"{given.output}: {book.revision()} entries. Serve it: fieldbook serve {given.output}")
    return 0
