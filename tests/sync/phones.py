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
    pulled  every entry of the book up to the cursor, in order; `hashes` beside them
    known   the latest revision the laptop ever told of in this epoch, and its hash
    others  id -> entry of another device that a book put back has lost, to be given back; `given_back` those that
            were taken and not pulled yet, `not_taken` the reasons for those that were refused
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
    hashes: list[str] = field(default_factory=list)
    known: tuple[int, str] | None = None
    others: dict[str, Entry] = field(default_factory=dict)
    given_back: dict[str, Entry] = field(default_factory=dict)
    not_taken: dict[str, list[Entry]] = field(default_factory=dict)
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
        sent = {"epoch": self.epoch, "waiting": len(self.outbox), "entries": batch} | self._knows()
        sent["returned"] = [entry["id"] for entry in batch if entry["id"] in self.others]
        reply = self.ask(self, "POST", "entries", json=sent)
        if self._is_answer(reply, "answers"):
            self._take(reply[1]["answers"])
            self._learn(reply[1])

    def _next(self, most: int) -> list[Entry]:
        """The first of the outbox, in order; none behind one about the same item that waits."""
        batch, behind = [], set()
        back = [entry for entry in self.others.values() if entry["id"] not in self.not_taken]
        for entry in [*back, *(entry for _, entry in sorted(self.outbox.items()))]:
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

    def _knows(self) -> Entry:
        return {"known": {"revision": self.known[0], "digest": self.known[1]}} if self.known else {}

    def _learn(self, said: Entry) -> None:
        if self.known is None or said["revision"] >= self.known[0]:
            self.known = (said["revision"], said["digest"])

    def _query(self) -> str:
        return f"&known={self.known[0]}&digest={self.known[1]}" if self.known else ""

    def _meet_new_epoch(self) -> None:
        """Step 6: find out how far the book is the one this phone knew, and follow it from there."""
        said = self._said(self.ask(self, "GET", f"hello?epoch={self.epoch}{self._query()}"))
        if said is None or said.get("book") != self.book or (said["epoch"] == self.epoch and said["agrees"]):
            return
        shared = self._said(self.ask(self, "POST", "shared", json={"hashes": self._hashes()}))
        if shared is None:
            return
        epoch = said["epoch"]
        if epoch == self.epoch:
            about = {"epoch": epoch, "shared": shared["shared"]} | self._knows()
            parted = self._said(self.ask(self, "POST", "epoch", json=about))
            if parted is None:
                return
            epoch = parted["epoch"]
        self.begin_again(epoch, shared["shared"]["revision"])

    def _said(self, reply: Reply) -> Entry | None:
        return reply[1] if reply and reply[0] == 200 and isinstance(reply[1], dict) else None

    def _hashes(self) -> list[Entry]:
        known = [{"revision": 0, "digest": "0" * 64}]
        return known + [{"revision": at, "digest": one} for at, one in enumerate(self.hashes, 1)][-499:]

    def begin_again(self, epoch: str, shared: int) -> None:
        """S10: all that is still here and not shared goes again, whoever made it, with bases that hold now."""
        if epoch == self.epoch:
            return
        lost = [entry for entry in self.pulled[shared:] if entry["device"] != self.device]
        back = self.others | self.given_back | {entry["id"]: entry for entry in lost}
        for entry_id, entry in back.items():
            plain = {name: value for name, value in entry.items() if name != "revision"}
            self.others[entry_id] = plain | {"base": min(plain["base"], shared)}
        self.given_back = {}
        self.outbox |= self.kept
        self.kept = {}
        for store in (self.outbox, self.shelf):
            for place, entry in store.items():
                store[place] = entry | {"base": min(entry["base"], shared)}
        self.epoch, self.pulled, self.hashes = epoch, self.pulled[:shared], self.hashes[:shared]
        self.known, self.complete = (shared, self.hashes[-1]) if shared else None, set()
        self.waited.clear()

    def _take(self, answers: list[Entry]) -> None:
        places = {entry["id"]: place for place, entry in self.outbox.items()}
        for answer in answers:
            if answer["id"] in self.others:
                self._take_of_another(answer)
                continue
            place = places.get(answer["id"])
            if place is None or place not in self.outbox:
                continue
            if answer["status"] in ACKNOWLEDGED:
                self.kept[place] = self.outbox.pop(place)
            elif answer["status"] == "refused":
                self.shelf[place], self.reasons[place] = self.outbox.pop(place), answer["findings"]
            else:
                self.waited.add(answer["id"])

    def _take_of_another(self, answer: Entry) -> None:
        if answer["status"] in ACKNOWLEDGED:
            self.given_back[answer["id"]] = self.others.pop(answer["id"])
            self.not_taken.pop(answer["id"], None)
        elif answer["status"] == "refused":
            self.not_taken[answer["id"]] = answer["findings"]
        else:
            self.waited.add(answer["id"])

    def pull(self, most: int) -> None:
        """Step 4; an entry of its own among those pulled is acknowledged by that."""
        reply = self.ask(self, "GET", f"entries?since={self.cursor}&most={most}{self._query()}")
        if self._is_answer(reply, "entries"):
            self._apply(reply[1]["entries"], reply[1]["hashes"])
            self._learn(reply[1])

    def _apply(self, entries: list[Entry], hashes: list[str]) -> None:
        for entry, digest in zip(entries, hashes, strict=True):
            if entry["revision"] <= self.cursor:
                continue  # an answer that came twice
            assert entry["revision"] == self.cursor + 1, "S8: a gap"
            self.pulled.append(entry)
            self.hashes.append(digest)
            self.given_back.pop(entry["id"], None)
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
        about |= self._knows() | {"hashes": self._hashes(), "after": self._after()}
        lines: list[Entry] = [about, *({"entry": entry, "returned": True} for entry in self.others.values())]
        lines += [{"entry": entry} for _, entry in sorted(self.outbox.items())]
        for sha256 in sorted(set(self.photographs) - self.complete):
            text = base64.b64encode(self.photographs[sha256]).decode()
            lines.append({"photograph": sha256, "media_type": "image/jpeg", "base64": text})
        return "".join(json.dumps(line) + "\n" for line in [*lines, {"end": len(lines)}]).encode()

    def _after(self) -> dict[str, str]:
        """Of each entry that waits, which of those acknowledged it follows about the same item."""
        after = {}
        for place, entry in self.outbox.items():
            before = [at for at, kept in self.kept.items() if at < place and kept["item"] == entry["item"]]
            if before:
                after[entry["id"]] = self.kept[max(before)]["id"]
        return after

    def read_file(self, content: bytes) -> None:
        """Take in a file made for it: as pulled and answered by the network."""
        top, *lines = map(json.loads, content.splitlines())
        assert lines[-1] == {"end": len(lines)}
        held = [(line["entry"], line["hash"]) for line in lines if "entry" in line]
        hashes = [digest for _, digest in held]
        if top["epoch"] != self.epoch:
            if self.epoch not in top["shared"]:
                return  # an older file than the phone knows
            same = [one == other for one, other in zip(self.hashes, hashes, strict=False)]
            self.begin_again(top["epoch"], same.index(False) if False in same else len(same))
        elif self.known and self.known[0] and hashes[self.known[0] - 1 : self.known[0]] != [self.known[1]]:
            return  # older than the phone knows, or written by a book that was put back: its own file goes there first
        self._apply([entry for entry, _ in held], hashes)
        if hashes:
            self._learn({"revision": len(hashes), "digest": hashes[-1]})
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
