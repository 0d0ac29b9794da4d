"""Commands that print sheets for the work itself: what the keeper signs before it, and what is set out by."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

from .telling import named, opened_to_read, say_newer, site_named


def add(command: Callable[[str, Any, str], argparse.ArgumentParser]) -> None:
    """Add the commands of this module."""
    before = command("before-work", _before_work, "two pages for the keeper: what will be done, what stops it, to sign")
    before.add_argument("book", metavar="BOOK")
    before.add_argument("site", metavar="SITE", help="name or id of the site")
    before.add_argument("-o", "--output", metavar="FILE.pdf", type=Path, required=True)
    sheet = command("set-out", _set_out, "the setting-out sheet of a face: what goes where, in which order")
    sheet.add_argument("book", metavar="BOOK")
    sheet.add_argument("face", metavar="FACE", help="mark, name or id of the face")
    sheet.add_argument("-o", "--output", metavar="FILE.pdf", type=Path, required=True)
    sheet.add_argument("--paper", choices=("A4", "A3"), default="A4", help="default: A4")
    sheet.add_argument("--packers", metavar="MM", type=_thicknesses, default=(), help="in the box: 1,2,5; default: any")


def _thicknesses(text: str) -> tuple[float, ...]:
    try:
        return tuple(float(part) for part in text.split(",") if part.strip())
    except ValueError:
        message = f"“{text}” are no thicknesses; give them as 1,2,5"
        raise argparse.ArgumentTypeError(message) from None


def _before_work(given: argparse.Namespace) -> int:
    from ..book.gathering import gather
    from ..findings import appraise
    from ..record.before_work import write_before_work

    with opened_to_read(given.book) as book:
        site, today = gather(book, site_named(book, given.site)), date.today()
        printed = write_before_work(site, appraise(site, today), given.output, today)
        say_newer(book)
    print(" ".join(filter(None, [f"{given.output}: {printed.pages} pages.", printed.letters])))
    return 0


def _set_out(given: argparse.Namespace) -> int:
    from ..book.gathering import gather, site_of
    from ..findings import appraise
    from ..record.setting_out_sheet import write_setting_out_sheet

    with opened_to_read(given.book) as book:
        face = named(book, "face", given.face)
        site = gather(book, site_of(book, face))
        about = {"paper": given.paper, "stock_mm": given.packers}
        printed = write_setting_out_sheet(book, site, site[face], appraise(site), given.output, **about)
        say_newer(book)
    print(" ".join(filter(None, [f"{given.output}: {printed.pages} pages.", printed.letters])))
    return 0
