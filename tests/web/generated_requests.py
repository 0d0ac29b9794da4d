"""Requests made by chance over every route, at the desk and of phones: each is answered, none with a failure.

    python -m tests.web.generated_requests [REQUESTS] [SEED]

The longer run: prints after each round how many there were, what was said, and the memory of this process; ends with an
error when the memory is not flat. A round begins with a fresh copy of the book, and is made by seed and number alone.
"""

from __future__ import annotations

import random
import re
import shutil
import sys
import tempfile
import time
from collections import Counter
from io import BytesIO
from pathlib import Path
from typing import Any

from flask import Flask
from werkzeug.routing import Rule

from fieldbook.book.book import Book
from fieldbook.book.evidence import SHELVES
from fieldbook.book.identity import uuid7
from fieldbook.book.opening import create_book, open_book
from fieldbook.calculations.catalogue import CALCULATIONS
from fieldbook.model.kinds import KINDS
from fieldbook.phones import codes, devices
from fieldbook.web import create_app
from tests.sites import picture, survey
from tests.web.conftest import NOBODY, Desk
from tests.web.test_routes import furnished

REQUESTS, OF_A_ROUND = 1_000_000, 5_000
SECONDS_OF_WORK = 4.0  # of the processor, for one request: what takes longer would stop the others
MOST_GROWTH_MB = 50.0  # from the end of the first rounds on, by when all is loaded
SETTLED_AFTER = 3
# Starts a program that prints, for seconds: asked for so much more seldom than others.
PRINTING, PRINTED_ONCE_IN = ("/labels", "/before-work", "/as-left", "/setting-out"), 400
# Makes a record in a thread; shuts out the phone that asks.
NEVER_POSTED = ("/record", "/shut-out")
# fmt: off
EXTREMES = (
    "", " ", "0", "-1", "1e308", "-1e308", "nan", "99999999999999999999", "1/3", "١٢", "\x00", "☃" * 300, "a" * 9000,
    "yes", "2026-05-31", "9999-12-31T23:59:59+14:00", "0 0 0; 1 1 1", "[[0,0,0]]", "{}", "null", "../..",
)
QUERY = (
    "site", "face", "room", "item", "items", "fitting", "subject", "kind", "x", "z", "x_mm", "z_mm", "radius_mm",
    "depth_mm", "mark", "group", "named", "costs", "since", "most", "known", "digest", "epoch", "field", "from", "to",
)
# fmt: on
# The kind an address is about, by how it begins or ends; most requests name one of these, the others anything.
ABOUT = {
    "/site/": "site",
    "/room/": "room",
    "/face/": "face",
    "/documents/": "document",
    "/measure": "photograph",
    "/colour": "photograph",
    "/flat.jpg": "photograph",
    "/copies": "fitting",
    "/move": "fitting",
    ".<form>": "fitting",
}  # fmt: skip
AS_IT_IS_MEANT = 0.85


class Chance:
    """Requests by chance, about what is in a book or is not."""

    def __init__(self, app: Flask, book: Book, device: str, seed: str):
        self.random = random.Random(seed)
        self.rules = [rule for rule in app.url_map.iter_rules() if rule.endpoint != "static"]
        self.shares = [1 / PRINTED_ONCE_IN if rule.rule.endswith(PRINTING) else 1.0 for rule in self.rules]
        self.of_kind = {kind: [row["id"] for row in book.items(kind)] for kind in KINDS}
        self.items = [item for items in self.of_kind.values() for item in items] + [NOBODY]
        self.digests = [row["sha256"] for kind in SHELVES for row in book.items(kind)]
        self.epoch, self.device = book.fact("epoch"), device

    def value(self, deep: int = 2) -> Any:
        """An item, an extreme, a number, or some of these."""
        made = self.random.random()
        if deep and made < 0.15:
            return [self.value(deep - 1) for _ in range(self.random.randrange(4))]
        if deep and made < 0.2:
            return {self.random.choice(QUERY): self.value(deep - 1) for _ in range(2)}
        if made < 0.55:
            return self.random.choice(self.items)
        if made < 0.7:
            return self.random.choice([0, -1, 10**15, 1e308, True, None, self.random.uniform(-1e6, 1e6)])
        return self.random.choice(EXTREMES)

    def text(self) -> str:
        """The same, as a form or an address has it."""
        made = self.value(0)
        return made if isinstance(made, str) else str(made)

    def address(self, rule: Rule) -> str:
        """An address of a route, as a rule about something that is there."""
        meant = self.random.random() < AS_IT_IS_MEANT
        return re.sub(r"<(?:[^:>]*:)?(\w+)>", lambda found: self._part(found[1], rule.rule, meant), rule.rule)

    def _part(self, name: str, rule: str, meant: bool) -> str:
        known = {
            "sha256": self.digests,
            "width_px": ["320", "800"],
            "pixels": ["320", "800"],
            "number": ["1"],
            "name": ["192", "mask"] if "icon" in rule else list(CALCULATIONS),
            "form": ["svg", "dxf"],
            "device": [self.device],
            "kind": list(KINDS),
        }
        if meant and name in known:
            return self.random.choice(known[name])
        about = [kind for sign, kind in ABOUT.items() if rule.startswith(sign) or rule.endswith(sign)]
        if meant and about and name in {"item", "site"}:
            return self.random.choice(self.of_kind[about[0]] or self.items)
        return self.random.choice([*self.items, "0" * 64, "1", "room"])

    def sent(self, kind: str) -> dict[str, Any]:
        """A body: a form of a kind's fields, JSON as a phone's, bytes, or a file."""
        fields = [field.name for field in KINDS[kind].fields]
        some = self.random.sample(fields, self.random.randrange(min(len(fields), 8)) + 1)
        sort = self.random.choice(["form", "form", "entries", "json", "file", "bytes"])
        if sort == "form":
            return {
                "data": {
                    name: [self.text() for _ in range(self.random.choice([1, 1, 1, 3]))] for name in [*some, "base"]
                }
            }
        if sort == "entries":
            entry = {"id": uuid7(), "device": self.device, "at": "2026-05-31T14:30:00+01:00", "kind": kind, "base": 0}
            entry |= {"item": self.random.choice([*self.items, uuid7()]), "set": {name: self.value() for name in some}}
            return {"json": {"epoch": self.epoch, "entries": [entry], "waiting": self.value(0)}}
        if sort == "json":
            names = ("code", "name", "device", "hashes", "digests", "epoch", "known", "shared", "entries", "returned")
            return {"json": {name: self.value() for name in self.random.sample(names, 4)}}
        if sort == "file":
            content = self.random.choice(
                [picture(), picture(form="PNG")[:50], b'{"fieldbook": 1}\n{"end": 1}\n', b"when,rh\n1,2\n"]
            )
            named = {self.random.choice(["files", "file", "file_file"]): (BytesIO(content), "../x.jpg")}
            return {"data": named | {name: self.text() for name in some}, "content_type": "multipart/form-data"}
        return {"data": self.random.randbytes(40), "content_type": self.random.choice(["application/json", "text/csv"])}

    def request(self) -> tuple[Rule, str, str, dict[str, Any]]:
        """Route, method, address, and what goes with them."""
        (rule,) = self.random.choices(self.rules, self.shares)
        method = self.random.choice(sorted((rule.methods or {"GET"}) - {"OPTIONS", "HEAD"}))
        names = [self.random.choice(QUERY) for _ in range(self.random.randrange(4))]
        query = {name: [self.text() for _ in range(self.random.choice([1, 1, 2]))] for name in names}
        body = self.sent(self.random.choice(list(KINDS))) if method != "GET" else {}
        return rule, method, self.address(rule), {"query_string": query, **body}


class Failed(AssertionError):
    """A request that was not answered as it must be, with all that it takes to send it again."""


class Asking:
    """A furnished book, a fresh copy of it for each round, and what was answered so far."""

    def __init__(self, folder: Path):
        self.folder = folder
        with create_book(folder / "book") as book:
            furnished(survey(book))
            self.phone = devices.join(book, codes.new_join_code(book), "phone")
        self.said: Counter[int] = Counter()
        self.of_route: Counter[str] = Counter()

    def round(self, seed: str, requests: int = OF_A_ROUND) -> None:
        """So many requests; raises Failed at the first that fails or takes too long."""
        copy = self.folder / "copy"
        shutil.copytree(self.folder / "book", copy)
        try:
            with open_book(copy) as book:  # kept open: each request opens the book, and the last to close it clears up
                app = create_app(copy, access="open")
                chance, desk = Chance(app, book, self.phone.device, seed), Desk(app)
                token = desk.token("/phones")
                for number in range(requests):
                    self._ask(desk, token, chance, f"{seed}, request {number}")
        finally:
            shutil.rmtree(copy)

    def _ask(self, desk: Desk, token: str, chance: Chance, which: str) -> None:
        rule, method, address, more = chance.request()
        if method == "POST" and address.endswith(NEVER_POSTED):
            return
        headers = {"Authorization": f"Bearer {self.phone.token}", "X-CSRFToken": token}
        if isinstance(more.get("data"), dict):
            more["data"]["csrf_token"] = token
        begun = time.process_time()
        with desk.client.open(address, method=method, headers=headers, buffered=True, **more) as answer:
            status = answer.status_code
        if address.endswith("/withdraw"):  # else all about it would be told to be gone from now on
            back = address.replace("/withdraw", "/bring-back")
            desk.client.post(back, headers=headers, data={"csrf_token": token}).close()
        worked = time.process_time() - begun
        self.said[status] += 1
        self.of_route[f"{method} {rule.rule}"] += 1
        if status >= 500 and status not in {503, 507}:
            raise Failed(f"{status} at {which}: {method} {address} {more}")
        if worked > SECONDS_OF_WORK:
            raise Failed(f"{worked:.1f} s of work at {which}: {method} {address} {more}")


def memory_mb() -> float:
    """What this process has in memory now."""
    return int(Path("/proc/self/status").read_text().partition("VmRSS:")[2].split()[0]) / 1000


def main(requests: int, seed: str) -> None:
    """Round after round, until there were so many."""
    with tempfile.TemporaryDirectory() as place:
        asking, number, settled = Asking(Path(place)), 0, 0.0
        while asking.said.total() < requests:
            number += 1
            asking.round(f"{seed} {number}")
            if number <= SETTLED_AFTER:
                settled = memory_mb()
            said = dict(sorted(asking.said.items()))
            seldom, times = asking.of_route.most_common()[-1]
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
