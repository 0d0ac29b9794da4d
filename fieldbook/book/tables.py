"""The tables: what the ledger comes to, one table a kind.

Nothing here is evidence: all of it can be dropped and made again from the ledger, and comes
out the same. Beside the kinds' tables stand `field_value` (who last set which field),
`conflict` (two devices set the same field without having seen each other, or one withdrew what
the other changed; the pair is then about the field `withdrawn`) and `newer` (what the ledger says
that this version does not know; it takes a newer one to read it).
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import Any

from sqlite_utils import Database

from ..errors import shown
from ..model import versions
from ..model.fields import STRUCTURED, Field, Type
from ..model.kinds import KINDS, Kind

WITHDRAWN = "withdrawn"
KEYS = ("id", "device", "at", "kind", "item", "base", "set", "withdraw")
_KEPT = {"revision", "received_at", "hash"}
_COLUMN_TYPES = {Type.NUMBER: "REAL", Type.WHOLE: "INTEGER", Type.YES_NO: "INTEGER"}
_OWN_TABLES = {
    "field_value": """
        CREATE TABLE field_value (
            item TEXT NOT NULL, field TEXT NOT NULL, device TEXT NOT NULL, revision INTEGER NOT NULL,
            PRIMARY KEY (item, field)
        ) STRICT, WITHOUT ROWID""",
    "conflict": """
        CREATE TABLE conflict (
            item TEXT NOT NULL, field TEXT NOT NULL, earlier INTEGER NOT NULL, later INTEGER NOT NULL, settled INTEGER,
            PRIMARY KEY (item, field, earlier, later)
        ) STRICT, WITHOUT ROWID""",
    "newer": """
        CREATE TABLE newer (
            revision INTEGER NOT NULL, item TEXT NOT NULL, kind TEXT NOT NULL, field TEXT NOT NULL, value TEXT NOT NULL
        ) STRICT""",
    "item": "CREATE TABLE item (id TEXT PRIMARY KEY, kind TEXT NOT NULL) STRICT, WITHOUT ROWID",
}


def table_statements() -> dict[str, str]:
    """Table name -> the statement that makes it; made from the kinds."""
    return {kind.name: _kind_table(kind) for kind in KINDS.values()} | _OWN_TABLES


def fingerprint() -> str:
    """Changes when the tables' shape does, or what entries mean, so that a book knows when to make them again."""
    return _fingerprint(versions.fingerprint())


@lru_cache(maxsize=4)  # the statements are made from what is described
def _fingerprint(described: str) -> str:
    made_of = [table_statements(), described]
    return hashlib.sha256(json.dumps(made_of, sort_keys=True).encode()).hexdigest()


def make_tables(db: Database) -> None:
    """Drop and make every table of the projection, empty."""
    for name, statement in table_statements().items():
        db.execute(f'DROP TABLE IF EXISTS "{name}"')
        db.execute(statement)
    for kind in KINDS.values():
        if kind.parent:
            db.execute(f'CREATE INDEX "{kind.name}_{kind.parent}" ON "{kind.name}" ("{kind.parent}")')


def _kind_table(kind: Kind) -> str:
    columns = "".join(f', "{field.name}" {_COLUMN_TYPES.get(field.type, "TEXT")}' for field in kind.fields)
    return (
        f'CREATE TABLE "{kind.name}" (id TEXT PRIMARY KEY, revision INTEGER NOT NULL, '
        f"{WITHDRAWN} INTEGER NOT NULL DEFAULT 0{columns}) STRICT"
    )


def stored(field: Field | None, value: Any) -> Any:
    """A value as its column holds it."""
    return json.dumps(value, ensure_ascii=False) if field and field.type in STRUCTURED and value is not None else value


def read_row(kind: Kind, row: Mapping[str, Any]) -> dict[str, Any]:
    """A table's row with its structured columns unpacked."""
    values = dict(row)
    for field in kind.fields:
        if field.type in STRUCTURED and values[field.name] is not None:
            values[field.name] = json.loads(values[field.name])
    return values


def apply(db: Database, revision: int, entry: Mapping[str, Any]) -> None:
    """Bring one accepted entry into the tables. Entries must come in the order of their revisions.

    That order alone decides what shows; no clock and no id does.
    """
    entry = _in_present_words(db, revision, entry)
    kind = KINDS.get(entry["kind"])
    if kind is None:
        return
    item = entry["item"]
    db.execute("INSERT OR IGNORE INTO item (id, kind) VALUES (?, ?)", [item, kind.name])
    db.execute(f'INSERT OR IGNORE INTO "{kind.name}" (id, revision) VALUES (?, ?)', [item, revision])  # noqa: S608
    for name, value in _changes(entry):
        _settle(db, revision, entry, name)
        _open(db, revision, entry, name)
        db.execute("INSERT OR REPLACE INTO field_value VALUES (?, ?, ?, ?)", [item, name, entry["device"], revision])
        db.execute(
            f'UPDATE "{kind.name}" SET "{name}" = ?, revision = ? WHERE id = ?',  # noqa: S608
            [stored(kind.by_name.get(name), value), revision, item],
        )


def _in_present_words(db: Database, revision: int, entry: Mapping[str, Any]) -> Mapping[str, Any]:
    """The entry as this version understands it; what it does not is noted in `newer`."""
    kind = KINDS.get(entry["kind"])
    unknown = {key: value for key, value in entry.items() if key not in {*KEYS, *_KEPT}}
    if kind is None:
        unknown[""] = entry.get("set")
    elif "set" in entry:
        said = versions.meaning(kind, entry["set"])
        unknown |= said.unknown
        entry = {**entry, "set": said.values}
    for name, value in unknown.items():
        about = [revision, entry["item"], entry["kind"], name, json.dumps(value, ensure_ascii=False)]
        db.execute("INSERT INTO newer VALUES (?, ?, ?, ?, ?)", about)
    return entry


def newer_in_words(db: Database) -> tuple[str, ...]:
    """What the ledger says that this version does not know, each once, in the order it came."""
    rows = db.execute("SELECT kind, field, min(revision) FROM newer GROUP BY kind, field ORDER BY 3").fetchall()
    return tuple(_newer_in_words(kind, field) for kind, field, _ in rows)


def holds_newer(db: Database) -> bool:
    """Whether anything in the ledger is not known to this version."""
    return next(iter(db.query("SELECT 1 FROM newer LIMIT 1")), None) is not None


def left_out(db: Database) -> set[str]:
    """Items that cannot be reckoned with: something they need stands in them as only a newer version knows it."""
    rows = db.execute("SELECT DISTINCT item, kind, field FROM newer").fetchall()
    known = ((item, kind, KINDS[kind].by_any_name.get(field)) for item, kind, field in rows if kind in KINDS)
    needed = [(item, kind, field.name) for item, kind, field in known if field and field.required]
    return {item for item, kind, name in needed if _is_empty(db, item, kind, name)}


def _is_empty(db: Database, item: str, kind: str, name: str) -> bool:
    return db.execute(f'SELECT "{name}" IS NULL FROM "{kind}" WHERE id = ?', [item]).fetchone()[0] == 1  # noqa: S608


def _newer_in_words(kind: str, name: str) -> str:
    if kind not in KINDS:
        return f"entries of the kind “{shown(kind)}”"
    known = KINDS[kind].by_any_name.get(name)
    return f"{KINDS[kind].label}: {f'a value of “{known.label}”' if known else shown(name)}"


def _changes(entry: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    if "withdraw" in entry:
        yield WITHDRAWN, int(entry["withdraw"])
    yield from entry.get("set", {}).items()


def _settle(db: Database, revision: int, entry: Mapping[str, Any], name: str) -> None:
    """A pair waits no longer once who sets its field has seen both; a device knows its own without pulling it.

    A device that has not seen the other's value only puts its new one in place of its own before.
    """
    about = {"revision": revision, "name": name} | {key: entry[key] for key in ("item", "device", "base")}
    waits = "item = :item AND field = :name AND settled IS NULL"
    own = "later = (SELECT revision FROM field_value WHERE item = :item AND field = :name AND device = :device)"
    seen = f"(later <= :base OR (earlier <= :base AND {own}))"
    db.execute(f"UPDATE conflict SET settled = :revision WHERE {waits} AND {seen}", about)  # noqa: S608
    db.execute(f"UPDATE conflict SET later = :revision WHERE {waits} AND {own}", about)  # noqa: S608


def _open(db: Database, revision: int, entry: Mapping[str, Any], name: str) -> None:
    """A pair waits for each change of another device that this one has not seen and that it cannot merge with."""
    unseen = [entry["item"], entry["device"], entry["base"]]
    rivals = "SELECT max(revision) FROM field_value WHERE item = ? AND device <> ? AND revision > ?"
    if entry.get("withdraw"):  # it would hide whatever was changed meanwhile
        pairs = {name: db.execute(rivals, unseen)}
    else:
        pairs = {name: db.execute(f"{rivals} AND field = ?", [*unseen, name])}
        if name != WITHDRAWN and _is_withdrawn(db, entry):  # it would be hidden
            pairs[WITHDRAWN] = db.execute(f"{rivals} AND field = ?", [*unseen, WITHDRAWN])
    for field, found in pairs.items():
        if (earlier := found.fetchone()[0]) is not None:
            db.execute(
                "INSERT INTO conflict (item, field, earlier, later) SELECT ?1, ?2, ?3, ?4 WHERE NOT EXISTS "
                "(SELECT 1 FROM conflict WHERE item = ?1 AND field = ?2 AND earlier = ?3 AND settled IS NULL)",
                [entry["item"], field, earlier, revision],
            )


def _is_withdrawn(db: Database, entry: Mapping[str, Any]) -> bool:
    return db.execute(f'SELECT {WITHDRAWN} FROM "{entry["kind"]}" WHERE id = ?', [entry["item"]]).fetchone()[0] == 1  # noqa: S608
