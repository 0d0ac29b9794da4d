"""Requests made by chance over every route, at the desk and of phones: each is answered, none with a failure.

    python -m tests.web.generated_requests [REQUESTS] [SEED]

The longer run: tells after each round what was answered and the memory of this process; ends with an error when a
request failed or when the memory is not flat. A round begins with a fresh copy of the book; the routes whose pages take
longer are asked more seldom, so that each has its share of the work. With `TMPDIR` in memory nothing waits for a disk.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
import time
from collections import Counter
from dataclasses import asdict
from pathlib import Path
from typing import Any

from demo_site import letters
from fieldbook.book import evidence
from fieldbook.book.attached import known_of
from fieldbook.book.opening import create_book, open_book
from fieldbook.book.photographs import keep
from fieldbook.phones import codes, devices
from fieldbook.web import create_app
from tests.sites import Surveyed, picture, survey
from tests.web.chance import Chance
from tests.web.conftest import Desk
from tests.web.pages.test_conflicts import quarrel
from tests.web.pages.test_measuring import marks
from tests.web.pressing import Press, press
from tests.web.test_routes import furnished

REQUESTS, OF_A_ROUND = 1_000_000, 5_000
SECONDS_OF_WORK = 4.0  # of the processor, for one request: what takes longer would stop the others
MOST_GROWTH_MB = 50.0  # from the end of the first rounds on, by when all is loaded
SETTLED_AFTER = 3
USUAL_MS, MOST_SELDOM = 1.0, 100.0  # a page that takes so many times longer is asked so many times more seldom
PRESSED = 0.3  # of pages with a form, and of what would be sent to one
# Starts a program that prints, for seconds.
PRINTING, PRINTED_ONCE_IN = ("/labels", "/before-work", "/as-left", "/setting-out"), 200
# Makes a record in a thread; shuts out the phone that asks.
NEVER_POSTED = ("/record", "/shut-out")
PRESSED_ONCE_IN = 50  # of the buttons that print


class Failed(AssertionError):
    """A request that was not answered as it must be, with all that it takes to send it again."""


class Asking:
    """A furnished book, a fresh copy of it for each round, and what was answered so far.

    said      status -> times
    of_route  method and route -> status -> times
    took_s    route -> seconds of the processor, `asked` how often
    """

    def __init__(self, folder: Path):
        self.folder, self.copy = folder, folder / "copy"
        with create_book(folder / "book") as book:
            _with_more(furnished(survey(book)))
            self.phone = devices.join(book, codes.new_join_code(book), "phone")
        self.said: Counter[int] = Counter()
        self.of_route: dict[str, Counter[int]] = {}
        self.took_s: Counter[str] = Counter()
        self.asked: Counter[str] = Counter()
        self._begin_anew()
        self.app = create_app(self.copy, access="open")
        self.desk = Desk(self.app)

    def round(self, seed: str, requests: int = OF_A_ROUND) -> None:
        """So many requests; raises Failed at the first that fails or takes too long."""
        self._begin_anew()
        with open_book(self.copy) as book:  # kept open: each request opens the book, and the last to close it clears up
            chance = Chance(self.app, book, self.phone.device, seed, self._shares())
            token = self.desk.token("/phones")
            enough = self.said.total() + requests
            while self.said.total() < enough:
                self._ask(chance, token, f"{seed}, request {requests - enough + self.said.total()}")

    def _begin_anew(self) -> None:
        shutil.rmtree(self.copy, ignore_errors=True)
        shutil.copytree(self.folder / "book", self.copy)

    def _shares(self) -> dict[str, float]:
        shares = {}
        for rule in self.app.url_map.iter_rules():
            mean_ms = 1000 * self.took_s[rule.rule] / (self.asked[rule.rule] or 1)
            seldom = PRINTED_ONCE_IN if rule.rule.endswith(PRINTING) else min(mean_ms / USUAL_MS, MOST_SELDOM)
            shares[rule.rule] = 1 / max(seldom, 1)
        return shares

    def _ask(self, chance: Chance, token: str, which: str) -> None:
        rule, method, address, more = chance.request()
        pressed = chance.random.random() < PRESSED
        if pressed and "GET" in (rule.methods or ()):
            page = self._send(rule.rule, "GET", address, {"query_string": chance.led()}, token, which)
            form = press(page, address, chance.typed, chance.random) if page else None
            if form is None or not self._may_be_pressed(form, chance):
                return
            path, method, address, more = form.address.partition("?")[0], form.method, form.address, form.sent()
            rule = self.app.url_map.bind("localhost").match(path, method=method, return_rule=True)[0]
        if method == "POST" and rule.rule.endswith(NEVER_POSTED):
            return
        self._send(rule.rule, method, address, more, token, which)
        if address.endswith("/withdraw"):  # else all about it would be told to be gone from now on
            back = address.replace("/withdraw", "/bring-back")
            self._send(rule.rule.replace("/withdraw", "/bring-back"), "POST", back, {"data": {}}, token, which)

    @staticmethod
    def _may_be_pressed(form: Press, chance: Chance) -> bool:
        return not form.address.endswith(PRINTING) or chance.random.random() < 1 / PRESSED_ONCE_IN

    def _send(self, rule: str, method: str, address: str, more: dict[str, Any], token: str, which: str) -> str:
        if isinstance(more.get("data"), dict):
            more["data"]["csrf_token"] = token
        headers = {"Authorization": f"Bearer {self.phone.token}", "X-CSRFToken": token, **more.pop("headers", {})}
        begun = time.process_time()
        with self.desk.client.open(address, method=method, headers=headers, buffered=True, **more) as answer:
            status, page = answer.status_code, answer.text if answer.mimetype == "text/html" else ""
        worked = time.process_time() - begun
        self.said[status] += 1
        self.asked[rule] += 1
        self.took_s[rule] += worked
        self.of_route.setdefault(f"{method} {rule}", Counter())[status] += 1
        if status >= 500:
            raise Failed(f"{status} at {which}: {method} {address} {more}")
        if worked > SECONDS_OF_WORK:
            raise Failed(f"{worked:.1f} s of work at {which}: {method} {address} {more}")
        return page

    def never_fine(self) -> list[str]:
        """Routes and methods that were never answered as somebody wants it."""
        return [route for route, said in self.of_route.items() if not any(status < 400 for status in said)]


def _with_more(surveyed: Surveyed) -> None:
    """What some pages are about: a conflict, a document, and a photograph that measures."""
    quarrel(surveyed)
    book, on_site = surveyed.book, {"site": surveyed.site}
    content = letters.pdf(("As drawn.",))
    evidence.keep(book.folder, "document", content)
    named = {"reference": "L1", "name": "Note on the rail", "sort": "engineer’s note"}
    book.write("document", on_site | named | known_of("document", content, named))
    shows = {"subject": surveyed.face, "purpose": "as found", "plane_face": surveyed.face, "plane_marks": marks()}
    book.write("photograph", on_site | shows | asdict(keep(book, picture(1600, 1200))))


def memory_mb() -> float:
    """What this process has in memory now."""
    return int(Path("/proc/self/status").read_text().partition("VmRSS:")[2].split()[0]) / 1000


def main(requests: int, seed: str) -> None:
    """Round after round, until there were so many."""
    with tempfile.TemporaryDirectory() as place:
        asking = Asking(Path(place))
        try:
            _round_after_round(asking, requests, seed)
        finally:  # a run that is ended before its time tells as well
            for route, times in sorted(asking.of_route.items()):
                print(f"{route}: {dict(sorted(times.items()))}")
            print(f"never answered but with a refusal: {', '.join(asking.never_fine()) or 'none'}")


def _round_after_round(asking: Asking, requests: int, seed: str) -> None:
    number, settled = 0, 0.0
    while asking.said.total() < requests:
        number += 1
        asking.round(f"{seed} {number}", min(OF_A_ROUND, requests - asking.said.total()))
        if number <= SETTLED_AFTER:
            settled = memory_mb()
        said = dict(sorted(asking.said.items()))
        seldom, times = min(asking.asked.items(), key=lambda one: one[1])
        print(
            f"{asking.said.total():,} requests: {said}; {len(asking.of_route)} routes and methods, "
            f"the least {times} times ({seldom}); {time.process_time():.0f} s of work; "
            f"{memory_mb():.0f} MB, {settled:.0f} MB at first",
            flush=True,
        )
        if memory_mb() > settled + MOST_GROWTH_MB:
            raise SystemExit("the memory is not flat")


if __name__ == "__main__":
    main(int(sys.argv[1]) if sys.argv[1:] else REQUESTS, sys.argv[2] if sys.argv[2:] else "a")
