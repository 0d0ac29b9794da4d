"""How long it takes to find what four fixings carry.

    python -m tests.bench.bench_fixing_forces

Prints the best time of many, in microseconds: on one kind of ground, and at the worse of soft and hard.
"""

from __future__ import annotations

import time

from fieldbook.checks.face_load import Force, Resultant, resultant, weight
from fieldbook.checks.fixing_forces import Contact, Fixing, carried

FOUR = [Fixing(102, 251), Fixing(698, 249), Fixing(99, 48), Fixing(703, 52)]
BACK = Contact([(0, 0), (800, 0), (800, 300), (0, 300)])
OWN = weight(20, (410, 150, 120))
CASES = {
    "on a wall": (resultant([OWN]), BACK),
    "on a wall, pulled at a corner": (resultant([OWN, Force(0, 0, 400, 800, 300, 0)]), BACK),
    "on packers": (resultant([OWN]), Contact()),
    "overhead": (resultant([weight(20, (410, 150, 120), 90)]), BACK),
}


def best_us(load: Resultant, contact: Contact, softness_mm2: float | None) -> float:
    """Microseconds that one reckoning takes when nothing disturbs it."""
    times = []
    for _ in range(200):
        start = time.perf_counter()
        carried(FOUR, load, contact, softness_mm2)
        times.append(time.perf_counter() - start)
    return 1e6 * min(times)


def main() -> None:
    """Time four fixings in each case."""
    for name, (load, contact) in CASES.items():
        one, worse = best_us(load, contact, 10_000), best_us(load, contact, None)
        print(f"{name:32} {one:6.0f} µs   worse of soft and hard {worse:6.0f} µs")


if __name__ == "__main__":
    main()
