"""How long a million logger readings take, against the standard reader splitting the same text into cells.

Run by hand: python -m tests.bench.bench_humidity_band
"""

from __future__ import annotations

import csv
import io
import math
import resource
import time
from datetime import datetime, timedelta

from fieldbook.calculations.catalogue import calculate

READINGS = 1_000_000
EVERY = timedelta(minutes=10)


def record() -> str:
    """Nineteen years of ten-minute readings: a season, a day, and a swing that no window divides."""
    start = datetime(2005, 1, 1)
    lines = ["time;RH;T"]
    for place in range(READINGS):
        now = start + place * EVERY
        season = 10 * math.sin(place / 8368)
        humidity = 52 + season + 4 * math.sin(place / 22.9) + 3 * math.sin(place / 1009)
        lines.append(f"{now};{humidity:.1f};{15 + season / 2:.1f}".replace(".", ","))
    return "\n".join(lines)


def main() -> None:
    text = record()
    start = time.perf_counter()
    cells = sum(len(row) for row in csv.reader(io.StringIO(text), delimiter=";"))
    reader_s = time.perf_counter() - start

    start = time.perf_counter()
    answer = calculate(
        "humidity-band", {"csv": text, "columns": {"time": "time", "humidity": "RH", "temperature": "T"}}
    )
    whole_s = time.perf_counter() - start

    peak_mib = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"{answer['readings']} readings, {cells} cells, {len(text) / 1e6:.0f} MB of text")
    print(f"csv.reader alone {reader_s:.2f} s; humidity-band {whole_s:.2f} s; ratio {whole_s / reader_s:.1f}")
    print(f"peak memory {peak_mib:.0f} MiB, the text included")


if __name__ == "__main__":
    main()
