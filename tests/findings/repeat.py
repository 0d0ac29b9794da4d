"""The laws again over the made-up sites of some seeds: `python -m tests.findings.repeat FROM [TO [STEP]]`.

A failing law prints its seed and the print of its site; this prints both as well, in a process of its own. Another
print of the same seed means that the descriptions of the kinds are not those the law failed with. With a step, several
processes share a long run.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator

from tests.findings import test_laws, test_said_plainly
from tests.findings.generated import Making, print_of

LAWS = [
    law.hypothesis.inner_test
    for module in (test_laws, test_said_plainly)
    for law in vars(module).values()
    if hasattr(law, "hypothesis")
]


def broken(seed: int) -> Iterator[str]:
    """What each law that does not hold of one site says."""
    for law in LAWS:
        try:
            law(seed)
        except Exception as error:
            yield f"{law.__name__} {seed} {print_of(Making(seed).site())}\n  {type(error).__name__}: {error}"


def main(first: int, last: int, step: int = 1) -> int:
    """Try the seeds from the first up to the last; returns how many sites broke a law."""
    begun, failed = time.process_time(), 0
    seeds = range(first, last + 1, step)
    for count, seed in enumerate(seeds, 1):
        said = list(broken(seed))
        failed += bool(said)
        for one in said:
            print(one, flush=True)
        if count == len(seeds) or not count % 50:
            spent = time.process_time() - begun
            print(f"{count} sites up to seed {seed}: {failed} broke a law, {spent:.0f} s of processor time", flush=True)
    return failed


if __name__ == "__main__":
    given = [int(one) for one in sys.argv[1:]]
    raise SystemExit(bool(main(*given) if len(given) > 1 else main(given[0], given[0])))
