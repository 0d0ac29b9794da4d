"""The command about many books."""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable
from dataclasses import asdict
from datetime import date
from pathlib import Path
from typing import Any

from ..errors import WrongUse


def add(command: Callable[[str, Any, str], argparse.ArgumentParser]) -> None:
    """Add the command of this module."""
    shelf = command("shelf", _shelf, "what is due, open and in conflict in every book of a folder")
    shelf.add_argument("folder", metavar="FOLDER", type=Path)
    shelf.add_argument("-o", "--output", metavar="FILE.html", type=Path, help="as a page, for a proxy to show")
    shelf.add_argument("--at", metavar="ADDRESS", default="", help="of a book's desk, with {book} for its name")


def _shelf(given: argparse.Namespace) -> int:
    from ..book.evidence import write_whole
    from ..book.storage import storage_errors
    from ..record.shelf import on_the_shelf, page

    if not given.folder.is_dir():
        remedy = "Name the folder that the books lie in."
        raise WrongUse(f"{given.folder} is no folder.", remedy, field="folder", value=given.folder)
    today = date.today()
    books = on_the_shelf(given.folder, today)
    if given.output:
        with storage_errors(given.output):
            write_whole(given.output, page(books, given.at, today).encode())
            given.output.chmod(0o644)  # the proxy reads it
    else:
        print(json.dumps([asdict(book) for book in books], ensure_ascii=False, indent=1))
    return 1 if any(book.trouble for book in books) else 0
