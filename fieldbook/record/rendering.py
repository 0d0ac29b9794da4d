"""Rendering one part of a record as a PDF: a program of its own, so that its memory and its faults end with it.

Started by `part_processes.py`. Takes JSON on standard input and reports on standard output, a line each:

1. the job: `{"html": path, "files": as for `fetcher`, "standing": {number: words}, "target": path, "identifier": hex}`;
   pages are laid out and reported, `{"page": 12}`, and in the end `{"laid": pages, "anchors": {name: page from 0}}`;
2. where it stands: `{"first": pages before it, "total": pages of all, "anchors": of all}`; numbers of pages are put in
   and the PDF is written, `{"written": true, "missing": numbers of letters without a font}`;
3. of the first of several, what to make one file of: `{"merge": [paths], "target": path}`, then `{"merged": true}`.

Reports besides: `{"warning": "…"}`, `{"failure": "pango-missing", "words": "…"}`.
It reads the files the job names and nothing else, whatever the pages ask for.
"""

from __future__ import annotations

import gc
import json
import logging
import sys
from collections.abc import Callable, Iterator, Mapping
from functools import partial
from pathlib import Path
from types import MappingProxyType
from typing import Any

from .missing_letters import StandIns
from .page_numbers import numbered, pages_of, tell_links

VARIANT = "pdf/a-3a"
SCHEME, SVG = "app:", "image/svg+xml"
# Of WeasyPrint 70, as it logs them.
PAGE_SET = "Step 5 - Creating layout - Page %d"
NO_LETTER = ".notdef glyph rendered"
PANGO_MISSING, NOT_WRITTEN = "pango-missing", "not-written"

Report = Callable[[Mapping[str, Any]], None]


class ProgressHandler(logging.Handler):
    """Passes on what the typesetter logs: the page it is at, and its warnings; keeps the letters it had no font for."""

    def __init__(self, report: Report):
        super().__init__(logging.INFO)
        self.report = report
        self.missing: set[int] = set()

    def emit(self, record: logging.LogRecord) -> None:
        """Report one line of the log; of its steps those that are a page, which have its number as their argument."""
        if str(record.msg).startswith(NO_LETTER) and isinstance(record.args, tuple):
            self.missing.add(ord(str(record.args[0])))
        elif record.levelno >= logging.WARNING:
            self.report({"warning": record.getMessage()})
        elif record.msg == PAGE_SET and isinstance(record.args, tuple):
            self.report({"page": record.args[0]})


def fetcher(files: Mapping[str, Mapping[str, str]], standing: StandIns = MappingProxyType({})) -> Any:
    """What the typesetter reads files by: addresses the job names, and no others.

    files     address -> {"path", "media_type"}
    standing  what is set in drawings for letters without a font
    """
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    class OwnFiles(URLFetcher):
        """Only this record's own files; no network, no disk, no address within a picture."""

        def fetch(self, url: str, headers: Mapping[str, str] | None = None) -> URLFetcherResponse:  # noqa: ARG002
            """The file an address stands for; raises ValueError for every other address."""
            if url not in files:
                raise ValueError(f"{url[:200]} is none of this record's own files")
            file = files[url]
            content = Path(file["path"]).read_bytes()
            if standing and file["media_type"] == SVG:
                content = content.decode("utf-8").translate(standing).encode("utf-8")
            return URLFetcherResponse(url, content, {"Content-Type": file["media_type"]})

    return OwnFiles(allowed_protocols=(SCHEME.rstrip(":"),), allow_redirects=False, timeout=1)


def render(job: Mapping[str, Any], replies: Iterator[Mapping[str, Any]], report: Report) -> None:
    """Lay out one part, write it, and make one file of several where that is asked for."""
    from weasyprint import HTML

    handler = ProgressHandler(report)
    for name in ("weasyprint", "weasyprint.progress"):
        logger = logging.getLogger(name)
        logger.setLevel(logging.INFO)
        logger.propagate = False
        logger.addHandler(handler)
    standing = {int(number): words for number, words in job["standing"].items()}
    html = Path(job["html"]).read_text(encoding="utf-8")
    document = HTML(string=html, url_fetcher=fetcher(job["files"], standing)).render(pdf_variant=VARIANT)
    report({"laid": len(document.pages), "anchors": pages_of(document)})
    at = next(replies)
    document = numbered(document, at["first"], at["total"], at["anchors"])
    with Path(job["target"]).open("wb") as target:
        document.write_pdf(
            target,
            finisher=partial(tell_links, at["anchors"]),
            pdf_variant=VARIANT,
            pdf_identifier=bytes.fromhex(job["identifier"]),
        )
    report({"written": True, "missing": sorted(handler.missing)})
    for wanted in replies:
        from .merging import merge

        merge([Path(part) for part in wanted["merge"]], Path(wanted["target"]))
        report({"merged": True})


def main() -> int:
    """Do the job on standard input; 0 when all that was asked for is written."""
    gc.disable()  # it looked for rings among millions of boxes, an eighth of the time, and found next to nothing
    output = sys.stdout

    def report(news: Mapping[str, Any]) -> None:
        print(json.dumps(news), file=output, flush=True)

    sys.stdout = sys.stderr  # nothing else may write between the lines
    lines = map(json.loads, sys.stdin)
    job = next(lines)
    try:
        import weasyprint  # noqa: F401
    except (OSError, ImportError) as error:
        report({"failure": PANGO_MISSING, "words": str(error)})
        return 1
    try:
        render(job, lines, report)
    except OSError as error:
        report({"failure": NOT_WRITTEN, "words": error.strerror or str(error), "errno": error.errno})
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
