"""A phone in a few lines of Python, by the same rules as the one in JavaScript.

What `Phone` holds is what lies in the phone's store; each method that changes it stands for one
transaction. It speaks through `ask`, which gives an answer's status and JSON, or None when none came.
"""

from __future__ import annotations

import base64
import hashlib
import json
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

Entry = dict[str, Any]
Reply = tuple[int, Any] | None
Ask = Callable[..., Reply]
ACKNOWLEDGED = {"accepted", "repeated"}


@dataclass
class Phone:
    """A phone that has joined.

    outbox  place in the order made -> entry without acknowledgement; `kept` those with one
    shelf   place -> refused entry; `reasons` place -> the findings it came back with
    pulled  every entry of the book up to the cursor, in order
    waited  ids answered `waiting` since the outbox was last gone through; lost with a restart
    """

    device: str
    token: str
    book: str
    epoch: str
    ask: Ask
    outbox: dict[int, Entry] = field(default_factory=dict)
    kept: dict[int, Entry] = field(default_factory=dict)
    shelf: dict[int, Entry] = field(default_factory=dict)
    reasons: dict[int, list[Entry]] = field(default_factory=dict)
    pulled: list[Entry] = field(default_factory=list)
    photographs: dict[str, bytes] = field(default_factory=dict)
    complete: set[str] = field(default_factory=set)
    places: int = 0
    waited: set[str] = field(default_factory=set)

    @property
    def cursor(self) -> int:
        """The latest revision it has applied."""
        return len(self.pulled)

    def record(self, change: Entry) -> Entry:
        """Put a change into the outbox."""
        entry = {"device": self.device, "base": self.cursor} | change
        self.outbox[self.places] = entry
        self.places += 1
        return entry

    def mend(self, place: int, change: Entry) -> Entry:
        """Put a new entry in the place of a refused one."""
        entry = self.shelf.pop(place) | {"base": self.cursor} | change
        self.outbox[place] = entry
        return entry

    def send(self, most: int) -> None:
        """Steps 3 and what follows from the answers."""
        batch = self._next(most)
        if not batch:
            self.waited.clear()
            return
        sent = {"epoch": self.epoch, "waiting": len(self.outbox), "entries": batch}
        reply = self.ask(self, "POST", "entries", json=sent)
        if self._is_answer(reply, "answers"):
            self._take(reply[1]["answers"])

    def _next(self, most: int) -> list[Entry]:
        """The first of the outbox, in order; none behind one about the same item that waits."""
        batch, behind = [], set()
        for _, entry in sorted(self.outbox.items()):
            if entry["id"] in self.waited or entry["item"] in behind:
                behind.add(entry["item"])
            elif len(batch) < most:
                batch.append(entry)
        return batch

    def _is_answer(self, reply: Reply, key: str) -> bool:
        """Whether this is an answer of the book in the phone's epoch; anything else leaves all as it is."""
        if reply is None or not isinstance(reply[1], dict):
            return False
        status, said = reply
        if status == 409 and said.get("error") == "epoch-changed":
            self._meet_new_epoch()
        if status != 200 or key not in said:
            return False
        if said.get("epoch") != self.epoch:
            self._meet_new_epoch()
            return False
        return True

    def _meet_new_epoch(self) -> None:
        reply = self.ask(self, "GET", f"hello?epoch={self.epoch}")
        if reply and reply[0] == 200 and isinstance(reply[1], dict) and reply[1].get("book") == self.book:
            self.begin_again(reply[1]["epoch"], reply[1]["shared"])

    def begin_again(self, epoch: str, shared: int) -> None:
        """S10: all that is still here goes again, with bases that hold in the new epoch."""
        if epoch == self.epoch:
            return
        self.outbox |= self.kept
        self.kept = {}
        for store in (self.outbox, self.shelf):
            for place, entry in store.items():
                store[place] = entry | {"base": min(entry["base"], shared)}
        self.epoch, self.pulled, self.complete = epoch, [], set()
        self.waited.clear()

    def _take(self, answers: list[Entry]) -> None:
        places = {entry["id"]: place for place, entry in self.outbox.items()}
        for answer in answers:
            place = places.get(answer["id"])
            if place is None or place not in self.outbox:
                continue
            if answer["status"] in ACKNOWLEDGED:
                self.kept[place] = self.outbox.pop(place)
            elif answer["status"] == "refused":
                self.shelf[place], self.reasons[place] = self.outbox.pop(place), answer["findings"]
            else:
                self.waited.add(answer["id"])

    def pull(self, most: int) -> None:
        """Step 4; an entry of its own among those pulled is acknowledged by that."""
        reply = self.ask(self, "GET", f"entries?since={self.cursor}&most={most}")
        if self._is_answer(reply, "entries"):
            self._apply(reply[1]["entries"])

    def _apply(self, entries: list[Entry]) -> None:
        for entry in entries:
            if entry["revision"] <= self.cursor:
                continue  # an answer that came twice
            assert entry["revision"] == self.cursor + 1, "S8: a gap"
            self.pulled.append(entry)
        self._take([{"id": entry["id"], "status": "repeated"} for entry in entries])

    def photograph(self, content: bytes) -> str:
        """Take a photograph into the store."""
        sha256 = hashlib.sha256(content).hexdigest()
        self.photographs[sha256] = content
        return sha256

    def send_piece(self, sha256: str, size: int) -> None:
        """Step 5, one piece: from the last byte received."""
        reply = self.ask(self, "GET", f"photographs/{sha256}")
        if reply is None or reply[0] != 200 or not isinstance(reply[1], dict):
            return
        content, first = self.photographs[sha256], reply[1]["received"]
        if not reply[1]["complete"]:
            first = first if first < len(content) else 0
            reply = self.ask(
                self, "PUT", f"photographs/{sha256}", piece=(first, content[first : first + size], len(content))
            )
        if reply and reply[0] == 200 and isinstance(reply[1], dict) and reply[1].get("complete") is True:
            self.complete.add(sha256)

    def write_file(self) -> bytes:
        """All that waits, as a carried file."""
        about = {"fieldbook": 1, "book": self.book, "epoch": self.epoch, "device": self.device, "way": "back"}
        lines: list[Entry] = [about, *({"entry": entry} for _, entry in sorted(self.outbox.items()))]
        for sha256 in sorted(set(self.photographs) - self.complete):
            text = base64.b64encode(self.photographs[sha256]).decode()
            lines.append({"photograph": sha256, "media_type": "image/jpeg", "base64": text})
        return "".join(json.dumps(line) + "\n" for line in [*lines, {"end": len(lines)}]).encode()

    def read_file(self, content: bytes) -> None:
        """Take in a file made for it: as pulled and answered by the network."""
        top, *lines = map(json.loads, content.splitlines())
        assert lines[-1] == {"end": len(lines)}
        if top["epoch"] != self.epoch:
            if self.epoch not in top["shared"]:
                return  # an older file than the phone knows
            self.begin_again(top["epoch"], top["shared"][self.epoch])
        self._apply([line["entry"] for line in lines if "entry" in line])
        self._take([line["answer"] for line in lines if "answer" in line])
        self.complete |= {line["copy"] for line in lines if "copy" in line} & set(self.photographs)

    def state(self) -> dict[str, Entry]:
        """What the phone shows of the entries it pulled: item -> its values, as the order of revisions leaves them."""
        return state_of(self.pulled)


def state_of(entries: list[Entry]) -> dict[str, Entry]:
    """Item -> values and whether it is withdrawn, by applying entries in order."""
    items: dict[str, Entry] = {}
    for entry in entries:
        values = items.setdefault(entry["item"], {"kind": entry["kind"], "withdrawn": 0})
        values.update(entry.get("set", {}))
        if "withdraw" in entry:
            values["withdrawn"] = int(entry["withdraw"])
    return items
