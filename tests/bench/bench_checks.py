"""How long all findings of a large site take: from cold, after one change, and as the site grows.

    python -m tests.bench.bench_checks [FIXINGS ...]

Processor time, in milliseconds. Other work on the machine makes it longer all the same: what a fixed piece of Python
takes beside it is printed as well, so that two runs can be compared.
"""

from __future__ import annotations

import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path
from statistics import median
from typing import Any

from fieldbook.book.gathering import gather
from fieldbook.book.opening import create_book
from fieldbook.book.site import Item, Site
from fieldbook.findings import counts
from fieldbook.findings.appraisal import Appraisal, appraised
from fieldbook.model.choices import LOOKED_FOR
from tests.sites import Surveyed, survey

FACES, ZONES, LEAVES, FITTINGS, FIXINGS = 10, 100, 10, 50, 1_000
GROWTH = (1_000, 2_000, 5_000, 10_000)
CHANGES = 5  # of each kind
TODAY = date(2031, 3, 14)


# Work as a careful person enters it, so that what is timed is mostly decided.
RAIL = {"width_mm": 1400, "height_mm": 600, "mass_empty_kg": 11, "mass_loaded_kg": 17, "centre_out_mm": 34}
RAIL |= {"mass_is": "weighed", "pull_n": 120, "climbable": 0, "touches_face": 0, "moves": 0, "closed": 0}
RAIL |= {"people_to_remove": 2, "lift_reach": "close", "glass": "none", "fire_class": "D", "support": "its fixings"}
CLAMP = {"adhesive": 0, "carries_load": 1, "torque_nm": 3, "diameter_mm": 6, "nut_factor": 0.2, "grade": "8.8"}
CLAMP |= {"bolts": 1, "friction_faces": 2, "friction": 0.3, "jaw_mm2": 900, "bears_on": "brick", "lining": "cork"}
CLAMP |= {"material": "stainless steel A4", "packers_mm": 0, "locking": "two nuts"}
READ = {"quantity": "relative humidity", "value": 51, "unit": "%", "at": "2031-02-04T09:00:00+00:00"}
AGREED = {"reference": "A1", "answer": "yes", "on": "2031-02-05", "said_by": "caretaker", "words": "as drawn"}
LOOKED = [[what, "caretaker", "on the spot", "2031-02-03"] for what in LOOKED_FOR]


def large_site(surveyed: Surveyed, times: int = 1) -> None:
    """Ten faces with ten zones, a leaf, five fittings and a hundred fixings each; all of it so many times over."""
    book = surveyed.book
    book.write("site", {"asks_about_later_work": 0, "stands_years": 12}, item=surveyed.site)
    book.write("room", {"damp": "dry", "fire_limit": "E"}, item=surveyed.room)
    for number in range(FACES * times):
        size = {"width_mm": 8000, "height_mm": 3500}
        about = {"looked_for": LOOKED, "outer_wall": 0, "layers": [["brick", 230, "later"]], "surface": [[0, 0, 0]]}
        named = {"room": surveyed.room, "mark": f"F{number}", "name": "wall", "sort": "wall"}
        face = book.write("face", named | size | about)
        on = Surveyed(book, surveyed.site, surveyed.room, face)
        for place in range(ZONES // FACES):
            corner = 700 * place
            on.zone(mark=f"K{number}.{place}", outline=[[corner, 0], [corner + 300, 0], [corner + 150, 900]])
        on.limit(mark=f"L{number}")
        for place in range(FITTINGS // FACES):
            fitting = on.fitting(mark=f"D{number}.{place}", x_mm=1500 * place, **RAIL)
            for fixing in range(FIXINGS // FITTINGS):
                at = {"x_mm": 1500 * place + 60 * fixing, "z_mm": 1520 + 20 * (fixing % 20)}
                on.fixing(fitting, mark=f"D{number}.{place}.{fixing}", **CLAMP | at)
    book.write("reading", {"room": surveyed.room, **READ})
    book.write("agreement", {"site": surveyed.site, "items": [face], **AGREED})


def timed(work: Callable[[], Any]) -> tuple[float, Any]:
    """Milliseconds of processor time, and the result, of one piece of work."""
    start = time.process_time()
    result = work()
    return 1000 * (time.process_time() - start), result


def fixed_work() -> None:
    """What other figures can be compared by."""
    total = 0
    for number in range(1_000_000):
        total += number * number % 7


def gathered(times: int) -> Site:
    """A site so many times as large."""
    with tempfile.TemporaryDirectory() as folder, create_book(Path(folder) / "book") as book:
        surveyed = survey(book)
        large_site(surveyed, times)
        return gather(book, surveyed.site)


def changes(site: Site) -> Iterator[tuple[str, Item]]:
    """Items of several kinds as they are after one change, spread over the site."""
    ways: dict[str, tuple[str, Callable[[Item], dict[str, Any]]]] = {
        "a fixing moved": ("fixing", lambda one: {"x_mm": one.x_mm + 3}),
        "a mass": ("fitting", lambda one: {"mass_loaded_kg": one.mass_loaded_kg + 1}),
        "a reading": ("reading", lambda one: {"value": one.value + 1}),
        "an agreement": ("agreement", lambda _: {"items": [site.all("fixing")[3].id]}),
        "a zone": ("zone", lambda one: {"margin_mm": one.margin_mm + 1}),
    }
    for name, (kind, way) in ways.items():
        known = site.all(kind)
        for place in range(CHANGES):
            one = known[place * len(known) // CHANGES]
            yield name, Item(kind, one.id, dict(one.values) | way(one))


def after_one(site: Site, kept: Appraisal) -> None:
    """Print what all findings take after one change, of several kinds."""
    took: dict[str, list[float]] = {}
    for name, new in changes(site):
        others = [one for one in site.everything().values() if one.id not in {new.id, site.item.id}]
        changed = Site(site.item, [*others, new], site.folder, site.revision + 1, "", site.then)
        start = time.process_time()
        appraised(changed, TODAY, kept)
        took.setdefault(name, []).append(1000 * (time.process_time() - start))
    each = ", ".join(f"{name} {median(times):.1f}" for name, times in took.items())
    print(f"  after one change {median(ms for times in took.values() for ms in times):8.1f} ms ({each})")


def main(sizes: tuple[int, ...]) -> None:
    """Time sites of these many fixings, each with a tenth as many zones."""
    first = None
    for size in sizes:
        site = gathered(size // FIXINGS)
        beside, _ = timed(fixed_work)
        start = time.process_time()
        kept = appraised(site, TODAY)
        cold = 1000 * (time.process_time() - start)
        first = first or cold / size
        print(f"{size} fixings, {len(kept.ordered)} findings (a fixed piece of work takes {beside:.1f} ms)")
        print(f"  from cold        {cold:8.1f} ms, {cold / size / first:.2f} times the first for each fixing")
        words = counts(finding for _, finding in kept.ordered)
        print("  " + ", ".join(f"{number} {word}" for word, number in words.items() if number))
        after_one(site, kept)


if __name__ == "__main__":
    main(tuple(int(size) for size in sys.argv[1:]) or GROWTH)
