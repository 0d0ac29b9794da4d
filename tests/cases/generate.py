"""Makes the cases that the desk and the phone must answer alike: python -m tests.cases.generate

The same seed gives the same file.
"""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from pathlib import Path

from .by_hand import Case, doors, handles, packers_by_hand, proud_by_hand, refusals, routes_and_bands, worked_by_hand
from .edges import at_the_edges
from .reckoned import GENERATED

HERE = Path(__file__).parent
SEED = 8479


def every_case() -> Iterator[Case]:
    """All of them, those worked by hand first."""
    for part in (
        worked_by_hand(),
        doors(),
        handles(),
        routes_and_bands(),
        packers_by_hand(),
        proud_by_hand(),
        at_the_edges(),
        refusals(),
    ):
        yield from (case | {"generated": False} for case in part)
    rng = random.Random(SEED)  # noqa: S311
    for make, count, tolerance, source in GENERATED:
        for _, case in zip(range(count), make(rng), strict=False):
            yield case | {"generated": True, "tolerance": tolerance, "source": source}


def main() -> None:
    """Write the file, one case a line, so that a change can be read."""
    head = {"source": "made by tests/cases/generate.py; each case names its own source"}
    lines = ",\n".join(json.dumps(case, ensure_ascii=False) for case in every_case())
    text = f'{{{json.dumps(head)[1:-1]},\n"cases": [\n{lines}\n]}}\n'
    (HERE / "at_the_wall.json").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
