"""What is asked by chance: a route, something in the book or not, and what a person, a phone or a stranger may send."""

from __future__ import annotations

import hashlib
import random
import re
from collections.abc import Mapping
from io import BytesIO
from typing import Any

from flask import Flask
from werkzeug.routing import Rule

from fieldbook.book.book import Book
from fieldbook.book.evidence import SHELVES
from fieldbook.book.identity import uuid7
from fieldbook.book.ledger import NO_HASH
from fieldbook.calculations.catalogue import CALCULATIONS
from fieldbook.model.kinds import KINDS
from fieldbook.phones import codes
from fieldbook.web.forms.of_calculation import in_the_address
from fieldbook.web.forms.of_kind import as_typed, fields_of
from tests.sites import picture
from tests.web.conftest import NOBODY

Request = tuple[Rule, str, str, dict[str, Any]]
# fmt: off
EXTREMES = (
    "", " ", "0", "-1", "1e308", "-1e308", "nan", "99999999999999999999", "1/3", "١٢", "\x00", "☃" * 300, "a" * 9000,
    "yes", "2026-05-31", "9999-12-31T23:59:59+14:00", "0 0 0; 1 1 1", "[[0,0,0]]", "{}", "null", "../..", "\ud800",
    "<script>alert(1)</script>", "' OR 1=1 --", "{{ 7 * 7 }}", "\u202egnirts", "a\r\nX-More: 1",
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
    ".<form>": "face",
}  # fmt: skip
AS_IT_IS_MEANT = 0.85  # of addresses; of a form or an entry, half are as a person's or a phone's own
FILES = (picture(), picture(form="PNG")[:50], b'{"fieldbook": 1}\n{"end": 1}\n', b"when,rh\n1,2\n")
PICTURE = hashlib.sha256(FILES[0]).hexdigest()


class Chance:
    """Requests by chance, about what is in a book or is not; the same for the same seed and shares.

    shares  how often each route is asked, of all of them; a route that is not named, once
    """

    def __init__(self, app: Flask, book: Book, device: str, seed: str, shares: Mapping[str, float]):
        self.random = random.Random(seed)
        self.rules = [rule for rule in app.url_map.iter_rules() if rule.endpoint != "static"]
        self.shares = [shares.get(rule.rule, 1.0) for rule in self.rules]
        self.rows = {kind: list(book.items(kind)) for kind in KINDS}
        self.of_kind = {kind: [row["id"] for row in rows] for kind, rows in self.rows.items()}
        self.items = [item for items in self.of_kind.values() for item in items] + [NOBODY]
        self.digests = [row["sha256"] for kind in SHELVES for row in self.rows[kind]]
        self.book, self.revision, self.device = book, book.revision(), device
        self.typed = self._typed_elsewhere()

    def _typed_elsewhere(self) -> dict[str, list[str]]:
        """By the names of fields, and as a table for each thing: what the forms of all things hold."""
        found: dict[str, list[str]] = {}
        for kind, rows in self.rows.items():
            for row in rows:
                held = as_typed(fields_of(KINDS[kind]), {name: of for name, of in row.items() if of is not None})
                cells = {name: of for name, of in held.items() if isinstance(of, str) and of and "\n" not in of}
                found.setdefault("text", []).append("\t".join(cells) + "\n" + "\t".join(cells.values()))
                for name, of in held.items():
                    found.setdefault(name, []).extend(of if isinstance(of, list) else [of] if of else [])
        return {name: typed for name, typed in found.items() if typed}

    def led(self) -> dict[str, list[str]]:
        """What is said in the address of a form by a link that leads there: nothing, or things that are in the book."""
        kind = self.random.choice(["face", "room", "fitting", "fixing", "finish", "hold"])
        ticked = self.random.choice([kind for kind, rows in self.rows.items() if rows])
        said = {kind: self.of_kind[kind][:1], "items": self.of_kind[ticked], "kind": [ticked]}
        return self.random.choice([{}, {kind: said[kind]}, said])

    def request(self) -> Request:
        """Route, method, address, and what goes with them."""
        (rule,) = self.random.choices(self.rules, self.shares)
        method = self.random.choice(sorted((rule.methods or {"GET"}) - {"OPTIONS", "HEAD"}))
        kind, row = self._about(rule.rule)
        names = [self.random.choice(QUERY) for _ in range(self.random.randrange(4))]
        query = {name: [self.text() for _ in range(self.random.choice([1, 1, 2]))] for name in names}
        if rule.rule.startswith("/calculations/") and self.random.random() < 0.5:
            calculation = CALCULATIONS[self.random.choice(list(CALCULATIONS))]
            example = in_the_address(calculation, calculation.example)
            return (
                rule,
                method,
                f"/calculations/{calculation.name}",
                {"data" if method == "POST" else "query_string": example},
            )
        as_a_phone = rule.rule.startswith("/phone/") and self.random.random() < 0.7
        body = {} if method == "GET" else self.told_by_a_phone(kind, row) if as_a_phone else self.sent(kind, row)
        if method == "PUT" and as_a_phone:
            body = self.piece()
        return rule, method, self.address(rule, kind, row), {"query_string": query, **body}

    def _about(self, rule: str) -> tuple[str, Mapping[str, Any]]:
        """A kind, and one of it that is in the book: as the address means it, where it means one."""
        named = [kind for sign, kind in ABOUT.items() if rule.startswith(sign) or rule.endswith(sign)]
        kind = named[0] if named and "<kind>" not in rule else self.random.choice(list(KINDS))
        return kind, self.random.choice(self.rows[kind] or [{"id": NOBODY}])

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
        return str(made).encode(errors="replace").decode()

    def address(self, rule: Rule, kind: str, row: Mapping[str, Any]) -> str:
        """An address of a route, as a rule about what is there."""
        meant = self.random.random() < AS_IT_IS_MEANT
        parts = self._meant(rule.rule, kind, row) if meant else {}
        return re.sub(r"<(?:[^:>]*:)?(\w+)>", lambda found: parts.get(found[1]) or self._anything(), rule.rule)

    def _anything(self) -> str:
        return self.random.choice([*self.items, "0" * 64, "1", "room", "%2e%2e%2f", "%00", "☃"])

    def _meant(self, rule: str, kind: str, row: Mapping[str, Any]) -> dict[str, str]:
        choose = self.random.choice
        return {
            "item": choose(self.of_kind["site"]) if rule.startswith("/site/") else row["id"],
            "site": choose(self.of_kind["site"]),
            "sha256": choose([*self.digests, PICTURE]),
            "width_px": choose(["320", "800"]),
            "pixels": choose(["320", "800"]),
            "number": "1",
            "name": choose(["192", "mask"] if "icon" in rule else list(CALCULATIONS)),
            "form": choose(["svg", "dxf"]),
            "device": self.device,
            "kind": kind,
        }

    def sent(self, kind: str, row: Mapping[str, Any]) -> dict[str, Any]:
        """A body: a form of a kind's fields, JSON as a phone's, bytes, or a file."""
        fields = [field.name for field in KINDS[kind].fields]
        some = self.random.sample(fields, self.random.randrange(min(len(fields), 8)) + 1)
        if self.random.random() < 0.5:  # a change of something that is there, or another like it
            some = self.random.sample(some, self.random.randrange(2))
            like = {name: row.get(name) for name in fields if row.get(name) is not None}
        else:
            like = {}
        sort = self.random.choice(["form", "form", "entries", "json", "file", "bytes"])
        if sort == "form":
            typed = as_typed(fields_of(KINDS[kind]), like) if like else {}
            return {"data": typed | {"base": self.random.choice([str(self.revision), self.text()])} | self._typed(some)}
        if sort == "entries":
            item = row["id"] if like and self.random.random() < 0.5 else self.random.choice([*self.items, uuid7()])
            entry = self._entry(kind, item, like | {name: self.value() for name in some})
            return {"json": {"epoch": self.book.fact("epoch"), "entries": [entry], "waiting": self.value(0)}}
        if sort == "json":
            names = ("code", "name", "device", "hashes", "digests", "epoch", "known", "shared", "entries", "returned")
            return {"json": {name: self.value() for name in self.random.sample(names, 4)}}
        if sort == "file":
            named = {
                self.random.choice(["files", "file", "file_file"]): (BytesIO(self.random.choice(FILES)), "../x.jpg")
            }
            return {"data": named | self._typed(some), "content_type": "multipart/form-data"}
        return {"data": self.random.randbytes(40), "content_type": self.random.choice(["application/json", "text/csv"])}

    def told_by_a_phone(self, kind: str, row: Mapping[str, Any]) -> dict[str, Any]:
        """A body of JSON with all that any question of a phone's takes, most of it as it should be."""
        known = {"revision": self.random.choice([0, self.revision]), "digest": self.random.choice([NO_HASH, "f" * 64])}
        like = {field.name: row.get(field.name) for field in KINDS[kind].fields if row.get(field.name) is not None}
        entry = self._entry(kind, self.random.choice([row["id"], uuid7()]), like)
        told = {"epoch": self.book.fact("epoch"), "entries": [entry], "digests": [*self.digests, PICTURE]}
        told |= {"hashes": [known], "shared": known, "name": self.text(), "device": self.device}
        told |= {"code": codes.new_join_code(self.book), "name": self.random.choice([self.text(), "phone"])}
        return {"json": told | {self.random.choice(list(told)): self.value() for _ in range(self.random.randrange(2))}}

    def piece(self) -> dict[str, Any]:
        """A photograph in one piece, or a part that fits nowhere."""
        content, first = FILES[0], self.random.choice([0, 0, 1, 10**9])
        span = f"bytes {first}-{first + len(content) - 1}/{first + len(content)}"
        return {"data": content, "content_type": "application/octet-stream", "headers": {"Content-Range": span}}

    def _entry(self, kind: str, item: str, values: Mapping[str, Any]) -> dict[str, Any]:
        entry = {"id": uuid7(), "device": self.device, "at": "2026-05-31T14:30:00+01:00", "kind": kind, "base": 0}
        return entry | {"item": item, "set": values}

    def _typed(self, names: list[str]) -> dict[str, list[str]]:
        return {name: [self.text() for _ in range(self.random.choice([1, 1, 1, 3]))] for name in names}
