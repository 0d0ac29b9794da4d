"""How long the checks of a large site take: whole, and after one input has changed.

    python -m tests.bench.bench_checks

Prints seconds and, which is what matters, the ratio between the two.
"""

from __future__ import annotations

import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from fieldbook.book.book import create_book
from fieldbook.book.site import gather
from fieldbook.findings import appraise, counts
from fieldbook.model.choices import LOOKED_FOR
from tests.sites import Surveyed, survey

FACES, ZONES, LEAVES, FITTINGS, FIXINGS = 10, 100, 10, 50, 1_000


# Work as a careful person enters it, so that what is timed is mostly decided.
RAIL = {"width_mm": 1400, "height_mm": 600, "mass_empty_kg": 11, "mass_loaded_kg": 17, "centre_out_mm": 34}
RAIL |= {"mass_is": "weighed", "pull_n": 120, "climbable": 0, "touches_face": 0, "moves": 0, "closed": 0}
RAIL |= {"people_to_remove": 2, "lift_reach": "close", "glass": "none", "fire_class": "D", "support": "its fixings"}
CLAMP = {"adhesive": 0, "carries_load": 1, "torque_nm": 3, "diameter_mm": 6, "nut_factor": 0.2, "grade": "8.8"}
CLAMP |= {"bolts": 1, "friction_faces": 2, "friction": 0.3, "jaw_mm2": 900, "bears_on": "brick", "lining": "cork"}
CLAMP |= {"material": "stainless steel A4", "packers_mm": 0, "locking": "two nuts"}
LOOKED = [[what, "caretaker", "on the spot", "2031-02-03"] for what in LOOKED_FOR]


def large_site(surveyed: Surveyed) -> None:
    """Ten faces with ten zones, a leaf, five fittings and a hundred fixings each."""
    book = surveyed.book
    book.write("site", {"asks_about_later_work": 0, "stands_years": 12}, item=surveyed.site)
    book.write("room", {"damp": "dry", "fire_limit": "E"}, item=surveyed.room)
    for number in range(FACES):
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


def timed(work: Callable[[], Any]) -> tuple[float, Any]:
    """Seconds and result of one piece of work."""
    start = time.perf_counter()
    result = work()
    return time.perf_counter() - start, result


def main() -> None:
    """Time a site of 1,000 fixings, 100 zones and 10 leaves."""
    with tempfile.TemporaryDirectory() as folder, create_book(Path(folder) / "book") as book:
        surveyed = survey(book)
        large_site(surveyed)
        gathering, site = timed(lambda: gather(book, surveyed.site))
        whole, findings = timed(lambda: appraise(site))
        again, _ = timed(lambda: appraise(site))
        moved = site.all("fixing")[0].id
        book.write("fixing", {"x_mm": 61}, item=moved)
        changed = gather(book, surveyed.site)
        after_one, _ = timed(lambda: appraise(changed))
    print(f"gathering {len(site.all('fixing'))} fixings      {gathering:.3f} s")
    print(f"all {len(findings)} findings, first time   {whole:.3f} s")
    print(", ".join(f"{number} {word}" for word, number in counts(findings).items() if number))
    print(f"again, nothing changed         {again:.3f} s  (ratio {again / whole:.2f})")
    print(f"again, one fixing moved        {after_one:.3f} s  (ratio {after_one / whole:.2f})")


if __name__ == "__main__":
    main()
