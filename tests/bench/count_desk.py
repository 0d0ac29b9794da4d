"""The whole job of the invented site entered by hand at the desk: clicks, fields and characters.

Its ledger is typed again into an empty book, item by item, in a real browser; at the end both books must say the
same. What is drawn with a finger, a signature, is left out, and pictures are small ones. At the end it says how many
of the characters are the site's own (see own_content.py), and how many are typed beyond them.

Run by hand, some twenty minutes: python -m tests.bench.count_desk [--forms-alone] [PART …]
"""

from __future__ import annotations

import argparse
import os
import tempfile
import time
from collections.abc import Collection, Iterable, Iterator, Mapping
from itertools import groupby
from pathlib import Path
from typing import Any

from playwright.sync_api import sync_playwright

import demo_site
from demo_site import photographs
from fieldbook.book import ledger
from fieldbook.book.book import Book
from fieldbook.book.opening import create_book, open_book
from fieldbook.model.fields import Type
from fieldbook.model.kinds import KINDS
from tests.bench.at_once import AtOnce
from tests.bench.by_forms import NOT_TYPED, ByForms, Entry
from tests.bench.own_content import own_content, own_pieces
from tests.bench.typist import Count
from tests.browser.conftest import FLAGS, chromium_path, served
from tests.sites import picture

Step = tuple[str, bool, list[Entry]]
CITED = "cited"
PUT_UP = "Put up and taken down"
PARTS: Mapping[str, tuple[str, ...]] = {
    "Survey": ("site", "room", "face", "zone", "limit", "hold", "member"),
    "Plan": ("finish", "material", "build_up", "fitting", "fixing"),
    PUT_UP: (),
    "Agreed": ("agreement", "decision"),
    "Watched": ("reading", "observation", "log"),
    "Care, visits, money": ("task", "visit", "cost"),
    "Photographs": ("photograph",),
}


def steps_of(book: Book) -> list[Step]:
    """What was entered, in order: kind, whether the items are new, and the entries made one after the other."""
    seen: set[str] = set()
    told = []
    for (row,) in book.db.execute("SELECT item FROM ledger ORDER BY revision"):
        told.append(row not in seen)
        seen.add(row)
    entries = zip(ledger.entries(book.db), told, strict=True)
    return [
        (kind, new, [entry for entry, _ in group])
        for (kind, new), group in groupby(entries, key=lambda pair: (pair[0]["kind"], pair[1]))
    ]


def counted(way: ByForms, steps: Iterable[Step], parts: Collection[str]) -> dict[str, Count]:
    """What each of these parts of the job costs; the others go into the book at once."""
    found = {part: Count() for part in parts}
    for (kind_name, new, entries), its_fixings in with_fixings(with_citing(steps)):
        kind = KINDS[entries[0]["kind"]]
        own = next((part for part, kinds in PARTS.items() if kind_name in kinds), "")
        part = own if new else PUT_UP
        if part not in parts:
            for name, found_in in groupby([*entries, *its_fixings], key=lambda entry: entry["kind"]):
                way.at_once(KINDS[name], list(found_in))
            continue
        before, begun = way.typist.count, time.monotonic()
        way.typist.count = Count()
        way.typist.of_field.clear()
        if kind_name == CITED:
            way.cite(entries)
        elif its_fixings:
            way.enter_fittings(entries, its_fixings)
        else:
            (way.enter if new else way.change)(kind, entries)
        found[part] += way.typist.count
        cost, way.typist.count = way.typist.count, before + way.typist.count
        took = time.monotonic() - begun
        number = len(entries) + len(its_fixings)
        print(f"{kind_name:12}{'new' if new else 'changed':9}{number:5}{_told(cost)}   {took:5.0f} s")
        dearest = sorted(way.typist.of_field.items(), key=lambda of: of[1].characters, reverse=True)
        print("   " + ", ".join(f"{name} {of.fields}/{of.characters}" for name, of in dearest if of.fields), flush=True)
    return found


def with_fixings(steps: Iterable[Step]) -> Iterator[tuple[Step, list[Entry]]]:
    """Each step; where new fixings follow new fittings, both are one."""
    left = list(steps)
    while left:
        step = left.pop(0)
        together = step[:2] == ("fitting", True) and left and left[0][:2] == ("fixing", True)
        yield step, left.pop(0)[2] if together else []


def with_citing(steps: Iterable[Step]) -> Iterator[Step]:
    """Each step; of those in a row that only say what rests on documents, all in one."""
    for cites, found in groupby(steps, key=lambda step: not step[1] and all(map(only_cites, step[2]))):
        if cites:
            yield CITED, False, [entry for _, _, entries in found for entry in entries]
        else:
            yield from found


def only_cites(entry: Entry) -> bool:
    """Whether an entry says on which document something rests, and nothing else."""
    return all(KINDS[entry["kind"]].by_name[name].to == "document" for name in entry["set"])


def _entries_of(steps: Iterable[Step], part: str) -> Iterator[Entry]:
    """What one part of the job enters, as `counted` tells the parts."""
    for kind_name, new, entries in steps:
        if part == (next((one for one, kinds in PARTS.items() if kind_name in kinds), "") if new else PUT_UP):
            yield from entries


def _told(cost: Count) -> str:
    return f"{cost.clicks:7,} clicks{cost.fields:8,} fields{cost.characters:9,} characters"


def differences(one: Book, other: Book, ids: Mapping[str, str]) -> Iterator[str]:
    """What the book that was typed says otherwise than the one it was typed from."""

    def here(value: Any) -> Any:
        if isinstance(value, list):
            return sorted(here(each) for each in value) if all(isinstance(each, str) for each in value) else value
        return ids.get(value, value) if isinstance(value, str) else value

    for kind in KINDS.values():
        typed = {item["id"]: item for item in other.items(kind.name)}
        for item in one.items(kind.name):
            for field in kind.asked:
                meant, found = item[field.name], typed[ids[item["id"]]][field.name]
                if field.name not in NOT_TYPED and here(meant) != (
                    sorted(found) if field.type in (Type.LINKS, Type.CHOICES) and found else found
                ):
                    yield f"{kind.name} {item.get(kind.numbered_by)}: {field.name} is {found!r}, not {meant!r}"


def main() -> None:
    """All of it, on this machine."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--forms-alone", action="store_true")
    parser.add_argument("parts", nargs="*", default=list(PARTS), help=f"of: {', '.join(PARTS)}")
    asked = parser.parse_args()
    os.environ["TZ"] = "Europe/London"
    time.tzset()
    with tempfile.TemporaryDirectory(dir="/tmp") as name, sync_playwright() as driver:  # noqa: S108 - sockets want short paths
        folder = Path(name)
        with create_book(folder / "meant") as meant:
            demo_site.make(meant, drawn=lambda: [(shot, picture(64 + at)) for at, shot in enumerate(photographs.SHOTS)])
            steps = steps_of(meant)
        entries = [one for part in asked.parts for one in _entries_of(steps, part)]
        own, pieces = own_content(entries, NOT_TYPED), own_pieces(entries, NOT_TYPED)
        create_book(folder / "typed").close()
        browser = driver.chromium.launch(executable_path=chromium_path(), args=list(FLAGS))
        with served(folder / "typed") as address:
            page = browser.new_page(viewport={"width": 1440, "height": 900})
            page.set_default_timeout(60_000)
            page.goto(address)
            way = (ByForms if asked.forms_alone else AtOnce)(page, folder / "typed")
            found = counted(way, steps, asked.parts)
        with open_book(folder / "meant") as meant, open_book(folder / "typed") as found_book:
            wrong = list(differences(meant, found_book, way.ids))
        assert not wrong, "\n".join(wrong)
        print()
        for part, cost in found.items():
            print(f"{part:26}{_told(cost)}")
        whole = sum(found.values(), Count())
        print(f"{'All':26}{_told(whole)}")
        least = sum(own.values())
        print(
            f"{least:,} of these characters nobody could know, {whole.characters - least:,} are beyond the site's own; "
            f"{pieces:,} texts, figures and choices are its own, which the fields hold"
        )


if __name__ == "__main__":
    main()
