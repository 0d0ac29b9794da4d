"""Commands that read a site of a book and say what it comes to."""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

from .telling import bar, named, opened_to_read, say_newer, site_named


def add(command: Callable[[str, Any, str], argparse.ArgumentParser]) -> None:
    """Add the commands of this module."""
    record = command("record", _record, "make the care-and-removal record of a site")
    record.add_argument("book", metavar="BOOK")
    record.add_argument("site", metavar="SITE", help="name or id of the site")
    record.add_argument("-o", "--output", metavar="FILE.pdf", type=Path, required=True)
    record.add_argument("--costs", action="store_true", help="with the costs")
    record.add_argument("--large", action="store_true", help="in large print")
    check = command("check", _check, "every finding of a site: what stops, what is not known, what is fine")
    check.add_argument("book", metavar="BOOK")
    check.add_argument("site", metavar="SITE", help="name or id of the site")
    check.add_argument("--json", action="store_true", help="all of them, as a JSON list")
    ask = command("ask", _ask, "may I, here? what may be done at a point of a face, act by act")
    ask.add_argument("book", metavar="BOOK")
    ask.add_argument("face", metavar="FACE", help="mark, name or id of the face")
    ask.add_argument("--x", metavar="MM", required=True, help="along the face, from its datum")
    ask.add_argument("--z", metavar="MM", required=True, help="up, from its datum")
    ask.add_argument("--radius", metavar="MM", default="", help="of the contact; left out: nothing is agreed for it")
    ask.add_argument("--depth", metavar="MM", default="", help="of a hole; left out: any")
    ask.add_argument("--json", action="store_true", help="as one JSON object")
    room = command("range", _range, "where a fitting may be set, and how much more it may carry, as good as now")
    room.add_argument("book", metavar="BOOK")
    room.add_argument("fitting", metavar="FITTING", help="mark or id of the fitting")
    room.add_argument("--json", action="store_true", help="as a JSON object")


def _record(given: argparse.Namespace) -> int:
    from ..record.editions import becomes_edition
    from ..record.pdf import make_record

    with opened_to_read(given.book) as book:
        site = site_named(book, given.site)
        edition = make_record(book, site, given.output, costs=given.costs, large=given.large, progress=bar)
        say_newer(book)
        numbered = f"edition {edition.number}" if becomes_edition(book, edition) else "no edition"
    print(f"{given.output}: {numbered}.")
    return 0


def _check(given: argparse.Namespace) -> int:
    from ..book.gathering import gather
    from ..checks.verdict import FINE
    from ..findings import appraise, counts
    from ..findings.open_points import SHOWN, open_points
    from ..findings.plain import as_plain

    with opened_to_read(given.book) as book:
        site = gather(book, site_named(book, given.site))
        say_newer(book)
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


def _ask(given: argparse.Namespace) -> int:
    from ..book.gathering import gather, site_of
    from ..findings.at_point import answer, asked_in

    with opened_to_read(given.book) as book:
        face = named(book, "face", given.face)
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


def _range(given: argparse.Namespace) -> int:
    from ..book.gathering import gather, site_of
    from ..findings.room_to_move import room_to_move

    with opened_to_read(given.book) as book:
        fitting = named(book, "fitting", given.fitting)
        site = gather(book, site_of(book, fitting))
    room = room_to_move(site, site[fitting], date.today())
    if given.json:
        print(json.dumps(room._asdict(), ensure_ascii=False))
        return 0
    stretches = "; ".join(f"{low} to {high} mm" for low, high in room.along_mm) or "nowhere"
    print(f"Left edge at x = {stretches}.")
    more = "not known: its loaded mass is not entered" if room.more_kg is None else f"{room.more_kg:g} kg"
    print(f"More it may carry: {more}." + (f" Set by: {room.set_by}." if room.set_by else ""))
    return 0
