"""Parts of a record, each rendered by a process of its own, as many at work at once as there are processors.

What one part says of another is known when all are laid out: then each is told its place and writes its pages.
"""

from __future__ import annotations

import hashlib
import json
import os
import queue
import subprocess
import sys
import threading
from collections import deque
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

from ..folders import environment_of_a_child
from . import rendering
from .missing_letters import noted, stand_ins, told
from .parts import cut
from .typesetting import Pages

News = Mapping[str, Any]


class TooLong(Exception):
    """The time for a printing is up."""


class Stopped(Exception):
    """A process ended before its work was done; says why, as far as it told."""


class PartProcess:
    """One part and the process that renders it.

    length  of its HTML, by which the longest is begun first
    """

    def __init__(self, number: int, html: str, pages: Pages, folder: Path, target: Path, standing: Mapping[int, str]):
        self.number, self.length, self.target = number, len(html), target
        self._complaints = folder / f"complaints-{number}.txt"
        page = folder / f"part-{number}.html"
        page.write_text(html, encoding="utf-8")
        self._job = {"html": str(page), "files": pages.files, "standing": standing, "target": str(target)}
        self._job["identifier"] = hashlib.sha256(html.encode()).hexdigest()[:32]
        self._process: subprocess.Popen[str] | None = None
        self.laid, self.furthest = 0, 0
        self.finished = self.ended = False
        self.anchors: Mapping[str, int] = {}
        self.place: News = {}

    def start(self, inbox: Inbox) -> None:
        """Begin to lay it out; what it reports goes into a queue, and None when it ends."""
        with self._complaints.open("w", encoding="utf-8", errors="replace") as complaints:
            self._process = subprocess.Popen(
                [sys.executable, "-m", rendering.__name__],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=complaints,
                encoding="utf-8",
                env=environment_of_a_child(),
            )
        threading.Thread(target=self._read, args=(self._process, inbox), daemon=True).start()
        self.send(self._job)
        if self.ended:  # while it was begun
            self.end()

    def _read(self, process: subprocess.Popen[str], inbox: Inbox) -> None:
        with process.stdout:  # type: ignore[union-attr]
            for line in process.stdout:  # type: ignore[union-attr]
                inbox.put((self, json.loads(line)))
        inbox.put((self, None))

    def take(self, news: News) -> None:
        """Note how far it is."""
        self.furthest = max(self.furthest, news.get("page", 0))
        self.laid, self.anchors = news.get("laid", self.laid), news.get("anchors", self.anchors)

    def write(self) -> None:
        """Let it write its pages: where they stand among all is known."""
        self.send(self.place)

    def finish(self) -> None:
        """Ask nothing more of it."""
        self.finished = True
        with suppress(BrokenPipeError):
            self._process.stdin.close()  # type: ignore[union-attr]

    def send(self, message: News) -> None:
        """Tell it something; one that has ended, or was ended meanwhile, says so itself."""
        with suppress(BrokenPipeError, ValueError):
            json.dump(message, self._process.stdin)  # type: ignore[union-attr, arg-type]
            self._process.stdin.write("\n")  # type: ignore[union-attr]
            self._process.stdin.flush()  # type: ignore[union-attr]

    def end(self) -> None:
        """Stop it, wherever it is, and for good."""
        self.ended = True
        if self._process:
            self._process.kill()
            self._process.wait()
            with suppress(BrokenPipeError):
                self._process.stdin.close()  # type: ignore[union-attr]

    def why(self) -> str:
        """The last thing it complained of."""
        code = self._process.wait() if self._process else 0
        lines = self._complaints.read_text(encoding="utf-8", errors="replace").strip().splitlines()
        return (lines or [f"exit code {code}"])[-1]


Inbox = queue.SimpleQueue[tuple[PartProcess, News | None]]


def rendered(pages: Pages, folder: Path, target: Path, time_limit_s: float) -> Iterator[News]:
    """Write pages as one PDF and yield what is reported; again where letters turned out to have no font.

    Yields `{"page": n}` of pages laid out so far, `{"warning": "…"}`, `{"letters": "…"}`, at the end `{"pages": n}`;
    or `{"failure": …}` as `rendering.py` does. Raises TooLong and Stopped.
    """
    missing: set[int] = set()
    for news in _once(pages, pages.html, folder, target, time_limit_s, {}):
        missing.update(news.get("missing", ()))
        if not (missing and "pages" in news):
            yield news
    if missing:
        standing = stand_ins(missing)
        for news in _once(pages, noted(pages.html, standing), folder, target, time_limit_s, standing):
            if "warning" not in news:
                yield news
        yield {"letters": told(standing)}


def _once(
    pages: Pages, html: str, folder: Path, target: Path, time_limit_s: float, standing: Mapping[int, str]
) -> Iterator[News]:
    cut_up = cut(html)
    targets = [target] if len(cut_up) == 1 else [folder / f"part-{number}.pdf" for number in range(len(cut_up))]
    parts = [
        PartProcess(number, part, pages, folder, own, standing)
        for number, (part, own) in enumerate(zip(cut_up, targets, strict=True))
    ]
    inbox: Inbox = queue.SimpleQueue()
    longest_first = sorted(parts, key=lambda part: -part.length)
    with _ended_after(parts, time_limit_s) as too_long:
        try:
            for part, news in _all_do(longest_first, lambda part: part.start(inbox), "laid", inbox):
                part.take(news)
                yield {"page": sum(each.furthest for each in parts)} if "page" in news else news
            _tell_where(parts)
            yield from (news for _, news in _all_do(longest_first, PartProcess.write, "written", inbox))
            for part in parts[1:]:
                part.finish()
            if len(parts) > 1:
                wanted = {"merge": [str(part.target) for part in parts], "target": str(target)}
                yield from (news for _, news in _all_do(parts[:1], lambda part: part.send(wanted), "merged", inbox))
        except Stopped as stopped:
            raise TooLong if too_long.is_set() else stopped from None
    yield {"pages": sum(part.laid for part in parts)}


def _all_do(
    parts: Sequence[PartProcess], begin: Callable[[PartProcess], None], last: str, inbox: Inbox
) -> Iterator[tuple[PartProcess, News]]:
    """Let each begin, as many at once as there are processors, until all have reported a last thing. Raises Stopped."""
    waiting, left = deque(parts), len(parts)
    for _ in range(min(_processors(), len(waiting))):
        begin(waiting.popleft())
    while left:
        part, news = inbox.get()
        if news is not None:
            yield part, news
            if last in news:
                left -= 1
                if waiting:
                    begin(waiting.popleft())
        elif not part.finished:
            raise Stopped(part.why())


def _tell_where(parts: Sequence[PartProcess]) -> None:
    """Let each part know its place among all, and where everything lies that is referred to."""
    total = sum(part.laid for part in parts)
    anchors: dict[str, int] = {}
    first = 0
    for part in parts:
        anchors |= {name: first + page for name, page in part.anchors.items() if name not in anchors}
        part.place = {"first": first, "total": total, "anchors": anchors}
        first += part.laid


def _processors() -> int:
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


@contextmanager
def _ended_after(parts: Sequence[PartProcess], time_limit_s: float) -> Iterator[threading.Event]:
    """End the processes when their time is up, when they are done, or when whoever waits for them goes away."""
    too_long = threading.Event()

    def stop() -> None:
        too_long.set()
        for part in parts:
            part.end()

    timer = threading.Timer(time_limit_s, stop)
    timer.start()
    try:
        yield too_long
    finally:
        timer.cancel()
        timer.join()
        for part in parts:
            part.end()
