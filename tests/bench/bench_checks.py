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
from fieldbook.findings import appraise
from tests.sites import Surveyed, survey

FACES, ZONES, LEAVES, FITTINGS, FIXINGS = 10, 100, 10, 50, 1_000


def large_site(surveyed: Surveyed) -> None:
    """Ten faces with ten zones, a leaf, five fittings and a hundred fixings each."""
    book = surveyed.book
    for number in range(FACES):
        size = {"width_mm": 8000, "height_mm": 3500}
        face = book.write("face", {"room": surveyed.room, "mark": f"F{number}", "name": "wall", "sort": "wall"} | size)
        on = Surveyed(book, surveyed.site, surveyed.room, face)
        for place in range(ZONES // FACES):
            corner = 700 * place
            on.zone(mark=f"K{number}.{place}", outline=[[corner, 0], [corner + 300, 0], [corner + 150, 900]])
        on.limit(mark=f"L{number}")
        for place in range(FITTINGS // FACES):
            fitting = on.fitting(mark=f"D{number}.{place}", x_mm=1500 * place, width_mm=1400, height_mm=600)
            for fixing in range(FIXINGS // FITTINGS):
                at = {"x_mm": 1500 * place + 60 * fixing, "z_mm": 1520 + 20 * (fixing % 20)}
                on.fixing(fitting, mark=f"D{number}.{place}.{fixing}", **at)


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
    print(f"all {len(findings)} verdicts, first time   {whole:.3f} s")
    print(f"again, nothing changed         {again:.3f} s  (ratio {again / whole:.2f})")
    print(f"again, one fixing moved        {after_one:.3f} s  (ratio {after_one / whole:.2f})")


if __name__ == "__main__":
    main()
