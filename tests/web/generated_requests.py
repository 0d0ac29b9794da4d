"""Requests made by chance over every route, at the desk and of phones: each is answered, none with a failure."""

from __future__ import annotations

import random
import re
import time
from collections import Counter
from io import BytesIO
from typing import Any

import pytest
from flask import Flask
from werkzeug.routing import Rule

from fieldbook.book.evidence import SHELVES
from fieldbook.book.identity import uuid7
from fieldbook.calculations.catalogue import CALCULATIONS
from fieldbook.model.kinds import KINDS
from fieldbook.phones import codes, devices
from fieldbook.web import create_app
from tests.examples import is_long
from tests.sites import Surveyed, picture
from tests.web.conftest import NOBODY, Desk
from tests.web.test_routes import furnished

pytestmark = [
    pytest.mark.slow,
    # Werkzeug leaves the part of an upload that was cut short to the garbage collector.
    pytest.mark.filterwarnings("ignore:.*SpooledTemporaryFile:pytest.PytestUnraisableExceptionWarning"),
]

REQUESTS, IN_THE_LONG_RUN = 60, 500_000  # of each of the batches
SECONDS_OF_WORK = 4.0  # of the processor, for one request: what takes longer would stop the others
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

    def __init__(self, app: Flask, surveyed: Surveyed, seed: str):
        self.random = random.Random(seed)
        self.rules = [rule for rule in app.url_map.iter_rules() if rule.endpoint != "static"]
        self.of_kind = {kind: [row["id"] for row in surveyed.book.items(kind)] for kind in KINDS}
        self.items = [item for items in self.of_kind.values() for item in items] + [NOBODY]
        self.digests = [row["sha256"] for kind in SHELVES for row in surveyed.book.items(kind)]
        self.epoch, self.device = surveyed.book.fact("epoch"), NOBODY

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

    def request(self) -> tuple[str, str, dict[str, Any]]:
        """Method, address, and what goes with them."""
        rule = self.random.choice(self.rules)
        method = self.random.choice(sorted((rule.methods or {"GET"}) - {"OPTIONS", "HEAD"}))
        names = [self.random.choice(QUERY) for _ in range(self.random.randrange(4))]
        query = {name: [self.text() for _ in range(self.random.choice([1, 1, 2]))] for name in names}
        body = self.sent(self.random.choice(list(KINDS))) if method != "GET" else {}
        return method, self.address(rule), {"query_string": query, **body}


@pytest.mark.parametrize("batch", range(2))
def test_requests_by_chance_are_answered(surveyed: Surveyed, batch: int) -> None:
    """Items of every kind in every place, lists for single values, extremes: words or a page, and soon."""
    app = create_app(furnished(surveyed).book.folder, access="open")
    joined = devices.join(surveyed.book, codes.new_join_code(surveyed.book), "phone")
    chance = Chance(app, surveyed, f"batch {batch}")
    chance.device = joined.device
    desk = Desk(app)
    client, token = desk.client, desk.token("/phones")
    headers = {"Authorization": f"Bearer {joined.token}", "X-CSRFToken": token}
    said: Counter[int] = Counter()
    for _ in range(IN_THE_LONG_RUN if is_long() else REQUESTS):
        method, address, more = chance.request()
        if address.endswith(("/record", "/shut-out")) and method == "POST":
            continue  # makes a record in a thread; shuts out the phone that asks
        if isinstance(more.get("data"), dict):
            more["data"]["csrf_token"] = token
        begun = time.process_time()
        answer = client.open(address, method=method, headers=headers, buffered=True, **more)
        answer.close()
        if address.endswith("/withdraw"):  # else all about it would be told to be gone from now on
            client.post(address.replace("/withdraw", "/bring-back"), headers=headers, data={"csrf_token": token})
        said[answer.status_code] += 1
        assert answer.status_code < 500 or answer.status_code in {503, 507}, (method, address, more)
        assert time.process_time() - begun < SECONDS_OF_WORK, (method, address, more)
    assert said[404] < said.total() / 2, "most requests are about nothing"
