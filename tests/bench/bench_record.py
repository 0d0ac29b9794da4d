"""How long a record takes and what memory it needs, against the typesetter alone on the same finished pages.

    python -m tests.bench.bench_record [fixings ...]

Each is measured in a process of its own: the whole of `make_record` (gathering, checks, drawings, photographs,
pages, edition), then WeasyPrint with its own settings on the HTML and files the record was made from; there numbers
of other pages are asked of it, by `target-counter`, as any pages would. By the clock, which means something on an
idle machine only, and in processor time.
"""

from __future__ import annotations

import json
import re
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from fieldbook.book import photographs
from fieldbook.book.book import Book
from fieldbook.book.opening import create_book, open_book
from fieldbook.record.compile import compile_record
from fieldbook.record.pdf import make_record
from fieldbook.record.typesetting import typeset
from tests.record.furnished import picture
from tests.sites import Surveyed, survey

SIZES = (100, 300, 1000)
FIXINGS_EACH, FITTINGS_EACH = 10, 5  # of a fitting, on a face


def furnish(book: Book, fixings: int) -> str:
    """That many fixings: ten to a fitting, five fittings and four zones to a face, a photograph to a fitting."""
    surveyed = survey(book)
    for number in range(fixings // FIXINGS_EACH // FITTINGS_EACH):
        size = {"width_mm": 8000, "height_mm": 3500}
        face = book.write("face", {"room": surveyed.room, "mark": f"F{number}", "name": "wall", "sort": "wall"} | size)
        on = Surveyed(book, surveyed.site, surveyed.room, face)
        for place in range(4):
            corner = 200 + 2000 * place
            on.zone(mark=f"K{number}.{place}", outline=[[corner, 200], [corner + 300, 200], [corner + 150, 900]])
        on.limit(mark=f"L{number}")
        for place in range(FITTINGS_EACH):
            _fitting(on, f"D{number * FITTINGS_EACH + place}", 100 + 1550 * place)
    return surveyed.site


def _fitting(on: Surveyed, mark: str, x_mm: float) -> None:
    fitting = on.fitting(mark=mark, x_mm=x_mm, width_mm=1400, height_mm=600)
    for number in range(FIXINGS_EACH):
        at = {"x_mm": x_mm + 40 + 140 * number, "z_mm": 1550 + 450 * (number % 2)}
        on.fixing(fitting, mark=f"{mark}.{number + 1}", size="M6 × 40", lining="cork 3 mm", removal="Turn.", **at)
    kept = photographs.keep(on.book, picture(mark))
    about = {"site": on.site, "subject": fitting, "purpose": "as fitted", "caption": mark}
    on.book.write("photograph", about | vars(kept))


def whole(folder: Path, site: str) -> None:
    """Make the record."""
    with open_book(folder / "book") as book:
        make_record(book, site, folder / "record.pdf")


def alone(folder: Path, _: str) -> None:
    """Let the typesetter alone print the finished pages."""
    from weasyprint import HTML
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    files = json.loads((folder / "files.json").read_text(encoding="utf-8"))

    class Files(URLFetcher):
        def fetch(self, url, headers=None):
            return URLFetcherResponse(
                url, Path(files[url]["path"]).read_bytes(), {"Content-Type": files[url]["media_type"]}
            )

    HTML(string=(folder / "pages.html").read_text(encoding="utf-8"), url_fetcher=Files()).write_pdf(
        folder / "alone.pdf"
    )


def asking(html: str) -> str:
    """Pages that ask the typesetter for the numbers that are put in afterwards here."""
    asked = re.sub(r'content: "page 0+"', 'content: "page " target-counter(attr(href), page)', html)
    asked = re.sub(r'(leader\("\. "\)) "0+"', r"\1 target-counter(attr(href), page)", asked)
    return re.sub(r'"page 0+ of 0+"', '"page " counter(page) " of " counter(pages)', asked)


def measured(way: str, folder: Path, site: str) -> tuple[float, float, float]:
    """Seconds by the clock, seconds of processor time and peak MB of one of the ways, in a process of its own."""
    command = [sys.executable, "-m", "tests.bench.bench_record", way, str(folder), site]
    begun = time.perf_counter()
    worked_s, peak_kb = subprocess.run(command, check=True, capture_output=True, text=True).stdout.split()
    return time.perf_counter() - begun, float(worked_s), float(peak_kb) / 1024


def main(sizes: tuple[int, ...]) -> None:
    """Print a line for each size."""
    print("fixings   record: clock s, processor s, MB   typesetter alone   ratio: clock, processor   pages")
    for size in sizes:
        with tempfile.TemporaryDirectory() as name:
            folder = Path(name)
            with create_book(folder / "book") as book:
                site = furnish(book, size)
                pages = typeset(compile_record(book, site), book, folder)
            (folder / "pages.html").write_text(asking(pages.html), encoding="utf-8")
            (folder / "files.json").write_text(json.dumps(pages.files), encoding="utf-8")
            ours, alone = measured("whole", folder, site), measured("alone", folder, site)
            count = subprocess.run(["pdfinfo", str(folder / "record.pdf")], capture_output=True, text=True).stdout
            number = next((line.split()[1] for line in count.splitlines() if line.startswith("Pages")), "?")
            figures = "   ".join("{:6.1f} {:6.1f} {:4.0f}".format(*one) for one in (ours, alone))
            print(
                f"{size:7}   {figures}   {ours[0] / alone[0]:5.2f} {ours[1] / alone[1]:5.2f}   {number:>5}", flush=True
            )


if __name__ == "__main__":
    if sys.argv[1:2] in (["whole"], ["alone"]):
        {"whole": whole, "alone": alone}[sys.argv[1]](Path(sys.argv[2]), sys.argv[3])
        used = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
        print(sum(one.ru_utime + one.ru_stime for one in used), max(one.ru_maxrss for one in used))
    else:
        main(tuple(map(int, sys.argv[1:])) or SIZES)
