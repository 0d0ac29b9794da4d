"""Cases in which the phone has to do as the desk does: what fields take, rules and checks find, and entries come to.

The desk's own code gives the answers, so these tell nothing about whether it is right (tests/test_fields.py,
test_rules.py and test_ledger.py do); they hold the two languages together. They are made anew each time, so that
they cannot fall behind: `python -m tests.cases.mirrored` prints them for tests/js.
"""

from __future__ import annotations

import json
import random
import sqlite3
import uuid
from collections.abc import Iterator, Mapping
from datetime import date
from pathlib import Path
from typing import Any

from sqlite_utils import Database

from fieldbook.book import tables
from fieldbook.book.site import Item, Site
from fieldbook.checks.verdict import Verdict
from fieldbook.errors import FieldbookError
from fieldbook.findings.answering import find
from fieldbook.findings.at_point import answer
from fieldbook.findings.questions import QUESTIONS
from fieldbook.model import rules, versions
from fieldbook.model.choices import FORBIDDEN, LOOKED_FOR, STATES
from fieldbook.model.description import Kind, choice, line, link, number, rows
from fieldbook.model.fields import Field, Type
from fieldbook.model.kinds import KINDS
from fieldbook.model.typed import from_text
from fieldbook.model.values import accept
from fieldbook.web.app.kinds_for_phones import field_as_plain, kind_as_plain, registry

SITE, ROOM, FACE, FITTING, HOLD, OTHER, HUNG = (str(uuid.UUID(int=number)) for number in (1, 2, 3, 4, 5, 9, 6))
GONE = str(uuid.UUID(int=7))  # of an item that was withdrawn
Case = dict[str, Any]
SEED, SEQUENCES, SCENES = 8479, 300, 120
ON_TOP = 0.5  # of those that hang on another, so many begin near its top, where they stand on it
TODAY = date(2026, 6, 1)
OVER = {"start_x_mm": 0.0, "start_y_mm": 4000.0, "bearing_deg": 0.0}
AT_THE_WALL = ("place", "mark", "keep-off", "clearance", "projection", "before-hole", "consent")

TEXTS = (
    "Dado rail",
    "  trimmed  ",
    "",
    "   ",
    "a" * 201,
    "line\nbreak",
    "tab\tin it",
    "zero\u200bwidth",
    "e\u0301",
    "<b>",
    "4 < 5",
    7,
)
FIGURES = (0, 5, -3, 12.5, 1e10, "twelve", True, None, [], "")
SQUARE = [[0, 0], [100, 0], [100, 50], [0, 50]]
TYPED_FIGURES = ("12", "1 250", "12,5", "-3", "−3", "1.250,5", "1e3", "twelve", "inf", " 7 ", "1_0", ".5", "")
TYPED_ROWS = (
    "0 0\n100 0\n100 50",
    "0, 0\n100, 0",
    "0;0;1",
    "rectangle 0 0 100 50",
    "circle 50 50 20",
    "triangle 1 2 3",
    "a; 1; 2",
    "",
)


def values_for(field: Field) -> tuple[Any, ...]:
    """Good and bad values for a field."""
    by_type: Mapping[Type, tuple[Any, ...]] = {
        Type.LINE: TEXTS,
        Type.NOTE: (*TEXTS, "a" * 20_001),
        Type.NUMBER: (*FIGURES, field.low, field.high),
        Type.WHOLE: (*FIGURES, field.low, field.high),
        Type.YES_NO: (0, 1, True, False, 2, "yes", None),
        Type.CHOICE: (*field.choices, "something else", "", 3, None),
        Type.CHOICES: (list(field.choices), list(field.choices[::-1]), ["x"], "x", [], None),
        Type.DATE: ("2026-05-31", "2024-02-29", "2026-02-29", "2026-13-01", "yesterday", 5, None),
        Type.MOMENT: (
            "2026-05-31T14:30+01:00", "2026-05-31T14:30:05Z", "2026-05-31 14:30:05.25+01:00", "2026-05-31T14:30",
            "2026-05-31T25:30+01:00", "2026-05-31", "now", 5, None,
        ),
        Type.LINK: (OTHER, OTHER.upper(), f"{{{OTHER}}}", OTHER.replace("-", ""), "the north wall", 5, None),
        Type.LINKS: ([OTHER], [OTHER, OTHER.upper()], [], ["x"], OTHER, None),
        Type.OUTLINE: (
            SQUARE, [*SQUARE, SQUARE[0]], SQUARE[:2], [[0, 0], [100, 100], [100, 0], [0, 100]],
            [[0, 0], [5, 5], [9, 9]], [[0, 0], [0.1, 0], [0, 0.1]], [[0, "a"], [1, 1], [2, 0]], "x", [], None,
        ),
        Type.DIGEST: ("ab" * 32, "AB" * 32, "ab", 5, None),
        Type.ROWS: (rows_for(field), [[]], [["x"] * 9], "x", [5], [], None),
    }  # fmt: skip
    return by_type[field.type]


def rows_for(field: Field) -> list[list[Any]]:
    """Two rows of something each column takes."""
    good = {Type.NUMBER: 1, Type.WHOLE: 1, Type.LINE: "a", Type.YES_NO: 1}
    row = [column.choices[0] if column.choices else good.get(column.type, OTHER) for column in field.columns]
    return [row, row]


def texts_for(field: Field) -> tuple[str, ...]:
    """Texts as they may be typed into a field's input."""
    if field.type in {Type.NUMBER, Type.WHOLE}:
        return TYPED_FIGURES
    if field.type in {Type.ROWS, Type.OUTLINE}:
        return TYPED_ROWS
    if field.type is Type.YES_NO:
        return ("yes", "No", "perhaps", "")
    return ("2026-05-31", "some words", "")


def accepted(field: Field, value: Any) -> Case:
    """What is stored, or the code of the refusal."""
    try:
        return {"stored": accept(field, value)}
    except FieldbookError as error:
        return {"refused": [error.code, error.field]}


def field_cases() -> Iterator[Case]:
    """Every field of every kind with its values, and what is typed with what it means; alike fields only once."""
    seen: dict[str, None] = {}
    for kind in KINDS.values():
        for field in kind.fields:
            plain = field_as_plain(field)
            shape = repr({key: value for key, value in plain.items() if key not in {"name", "label", "help", "group"}})
            values = [[value, accepted(field, value)] for value in values_for(field)] if shape not in seen else []
            texts = [[text, meant(field, text)] for text in texts_for(field)] if shape not in seen else []
            seen[shape] = None
            yield {"kind": kind.name, "field": plain, "values": values, "texts": texts}


def meant(field: Field, text: str) -> Case:
    """What a text means once accepted, or the code of the refusal."""
    try:
        value = from_text(field, text)
    except FieldbookError as error:
        return {"refused": [error.code, error.field]}
    return accepted(field, value)


THINGS: Mapping[str, tuple[str, dict[str, Any]]] = {
    SITE: ("site", {"name": "Customs shed"}),
    ROOM: ("room", {"site": SITE, "name": "Long room"}),
    FACE: ("face", {"room": ROOM, "name": "North wall", "sort": "wall", "width_mm": 5000.0, "height_mm": 3000.0}),
    FITTING: (
        "fitting",
        {"face": FACE, "mark": "D1", "name": "Rail", "state": "planned", "x_mm": 0.0, "z_mm": 0.0}
        | {"width_mm": 600.0, "height_mm": 200.0},
    ),
    HUNG: ("fitting", {"face": FACE, "mark": "D2", "name": "Panel", "state": "planned", "hangs_on": FITTING}),
    HOLD: ("hold", {"face": OTHER, "mark": "H1", "sort": "hole", "x_mm": 1.0, "z_mm": 1.0, "may_be_used": "yes"}),
}
LIMIT = {"face": FACE, "name": "Door", "sort": "leaf", "margin_mm": 0.0}
LEAF = {
    "hinge_x_mm": 0.0,
    "hinge_y_mm": 12.0,
    "swing_from_deg": 0.0,
    "swing_to_deg": 160.0,
    "boxes": [[0.0, 800.0, -50.0, -10.0]],
}
SOME_ACTS = (["drilling"], ["drilling", "adhesive"], ["contact", "load"], ["contact", "load", "light"])
FIXING = {
    "fitting": FITTING, "face": FACE, "mark": "D1.1", "sort": "clamp", "state": "planned", "x_mm": 100.0, "z_mm": 100.0,
    "contact_radius_mm": 12.0, "hole": "none", "fabric": "old fabric", "trace": "none",
}  # fmt: skip
ITEMS: tuple[tuple[str, dict[str, Any]], ...] = (
    ("room", {"site": SITE, "name": "R"}),
    ("room", {"site": FACE, "name": "R"}),
    ("room", {"site": str(uuid.UUID(int=77)), "name": "R"}),
    ("room", {"site": OTHER, "name": "R"}),
    ("room", {"name": "R"}),
    ("room", {"site": SITE, "name": "R", "humidity_low_pct": 60.0, "humidity_high_pct": 40.0}),
    ("limit", LIMIT),
    ("limit", LIMIT | LEAF),
    ("limit", LIMIT | LEAF | {"swing_to_deg": 0.0}),
    ("limit", LIMIT | LEAF | {"boxes": [[1.0, 1.0, 0.0, 5.0]]}),
    ("limit", LIMIT | {"sort": "route", "available_mm": 900.0, "clear_width_mm": 1200.0}),
    ("limit", LIMIT | {"sort": "headroom", "headroom_mm": 2000.0}),
    ("limit", LIMIT | {"sort": "flat", "projection_mm": 80.0, "x_from_mm": 50.0, "x_to_mm": 20.0}),
    ("limit", LIMIT | LEAF | {"x_from_mm": -500.0}),
    ("limit", LIMIT | LEAF | {"x_from_mm": -760.0, "x_to_mm": 800.0}),
    ("limit", LIMIT | LEAF | {"x_to_mm": 700.0}),
    (
        "limit",
        LIMIT | LEAF | {"swing_to_deg": 180.0, "boxes": [[0.0, 800.0, -50.0, -10.0], [700.0, 740.0, -10.0, 45.0]]},
    ),
    ("limit", LIMIT | LEAF | {"hinge_y_mm": -40.0, "swing_to_deg": 180.0}),
    ("limit", LIMIT | {"sort": "keep in view", "x_from_mm": 5.0}),
    ("room", {"site": SITE, "name": "R", "plan": [[0, 0]]}),
    ("room", {"site": SITE, "name": "R", "plan": [[0, 0], [100, 100], [100, 0], [0, 100]]}),
    ("room", {"site": SITE, "name": "R", "plan": [[0, 0], [100, 0], [100, 80]]}),
    (
        "reading",
        {"room": ROOM, "quantity": "level", "value": 1.0, "unit": "mm", "at": "2026-05-31T14:30Z", "x_mm": 5.0},
    ),
    *(
        ("reading", {"room": ROOM, "at": "2026-05-31T14:30Z", "quantity": quantity, "value": value, "unit": unit})
        for quantity, value, unit in (
            ("ultraviolet", -20.0, "µW/lm"),
            ("air temperature", 64.0, "%"),
            ("relative humidity", 101.0, "%"),
            ("relative humidity", 100.0, "%"),
        )
    ),
    ("fitting", THINGS[FITTING][1] | {"gives": ["heat", "nothing"]}),
    ("fitting", THINGS[FITTING][1] | {"x_mm": -50.0}),
    ("fixing", FIXING),
    ("fixing", FIXING | {"fitted_x_mm": 103.0}),
    ("fixing", FIXING | {"fitted_x_mm": 103.0, "fitted_z_mm": 104.0, "fitted_place": "not measured"}),
    ("fixing", FIXING | {"fitted_place": "as planned, checked with a tape"}),
    ("fixing", FIXING | {"x_mm": 612.0}),
    ("fixing", FIXING | {"x_mm": 613.0}),
    ("fixing", FIXING | {"x_mm": 610.9, "contact_radius_mm": 10.9}),
    ("fixing", FIXING | {"x_mm": 600.3, "contact_radius_mm": 0.3}),
    ("fixing", FIXING | {"x_mm": 600.4, "contact_radius_mm": 0.3}),
    ("fixing", FIXING | {"z_mm": 260.0, "sort": "strap"}),
    ("fixing", FIXING | {"hold": HOLD}),
    ("fixing", FIXING | {"other_fitting": FITTING}),
    ("fixing", FIXING | {"other_fitting": HUNG}),
    ("fixing", FIXING | {"fitting": HUNG, "other_fitting": FITTING}),
    ("fixing", FIXING | {"x_mm": 5000.5}),
    ("fixing", FIXING | {"fitted_z_mm": -1.0}),
    ("fixing", FIXING | {"penetration_mm": 5.0}),
    ("fixing", FIXING | {"hole": "new", "penetration_mm": 50.0, "length_mm": 40.0}),
    ("fixing", FIXING | {"hole": "new", "trace": "a new hole in later work"}),
    ("fixing", FIXING | {"fitted_on": "2026-05-02", "taken_down_on": "2026-05-01"}),
    ("hold", {"face": FACE, "sort": "hole", "x_mm": -5.0, "z_mm": 10.0, "may_be_used": "yes"}),
)


def rule_cases() -> Iterator[Case]:
    """Items as they would stand, with the code and field of each finding."""
    for kind, values in ITEMS:
        found = rules.findings(KINDS[kind], OTHER, values, THINGS.get)
        yield {"kind": kind, "values": values, "findings": [[error.code, error.field] for error in found]}


def old_rule_cases() -> Iterator[Case]:
    """Changes of items that broke a rule already: only what a change breaks is told."""
    fixing = FIXING | {"hole": "none", "penetration_mm": 20.0}
    changes: tuple[tuple[str, Case, Case], ...] = (
        ("fixing", fixing, {"mark": "D1.9"}),
        ("fixing", fixing, {"penetration_mm": 30.0}),
        ("fixing", fixing | {"x_mm": -500.0}, {"z_mm": -1.0}),
        ("fixing", {name: value for name, value in FIXING.items() if name != "trace"}, {"mark": "D1.9"}),
        ("room", {"site": SITE, "humidity_low_pct": 60.0, "humidity_high_pct": 40.0}, {"use": "store"}),
    )
    for kind, before, change in changes:
        found = rules.findings(KINDS[kind], OTHER, before | change, THINGS.get, before)
        told = [[error.code, error.field] for error in found]
        yield {"kind": kind, "before": before, "values": before | change, "findings": told}


AGED = Kind("sample", "Sample", "Samples", "one field for each thing that can happen to one", "", (
    line("name", "Name", required=True, renamed_from=("title", "called")),
    line("batch", "Batch", retired="0.2.0", required=True),
    choice("sort", "Sort", "linen", "cotton", renamed_choices=(("flax", "linen"),), retired_choices=("jute",)),
    Field("uses", "Uses", Type.CHOICES, choices=("lining", "packing"), renamed_choices=(("pad", "packing"),),
          retired_choices=("rope",)),
    rows("layers", "Layers", line("name", "name", required=True), choice("age", "age", "old", "later",
         renamed_choices=(("new", "later"),)), number("thick_mm", "thick", "mm", 0, 100)),
    number("width_mm", "Width", "mm", 0, 100),
    Field("count", "Count", Type.WHOLE),
    Field("washed", "Washed", Type.YES_NO),
    link("room", "Room", "room"),
))  # fmt: skip
ENTERED: tuple[Case, ...] = (
    {"title": "felt", "batch": "7", "sort": "flax"},
    {"called": "felt", "sort": "jute", "uses": ["rope", "pad"]},
    {"name": None, "sort": "hemp", "uses": ["lining", "sails"]},
    {"layers": [["lime", "new"], ["lath"], []]},
    {"layers": [["lime", "older", 20.0], ["lath", "old", 3.0, "split"]]},
    {"layers": "none", "width_mm": "wide", "count": 2.5, "washed": "yes", "room": ["a"], "uses": "rope"},
    {"width_mm": 20.0, "count": 3, "washed": 1, "room": OTHER, "uses": None, "smell": "tar"},
)


def version_cases() -> Iterator[Case]:
    """What entries of other versions mean in this one, and what of them is not known."""
    for entered in ENTERED:
        said = versions.meaning(AGED, entered)
        yield {"set": entered, "values": said.values, "unknown": said.unknown}


def former_word_cases() -> Iterator[Case]:
    """What entries of earlier versions mean that hold a word which a choice of today no longer has."""
    for kind in KINDS.values():
        for field in kind.fields:
            for before, _ in field.renamed_choices:
                entered = {field.name: [before] if field.type is Type.CHOICES else before}
                yield {"kind": kind.name, "set": entered, "values": versions.meaning(kind, entered).values}


FIELDS = {"room": ("name", "mark", "ceiling_mm"), "zone": ("mark", "margin_mm", "forbids")}
VALUES = {"name": ("a", "b"), "mark": ("K1", "K2", None), "ceiling_mm": (2500.0, 2600.0), "margin_mm": (5.0, 20.0)}


def sequence_case(rng: random.Random) -> Case:
    """Entries of three devices about a few items, in the order of their revisions, and what they come to."""
    items = [(str(uuid.UUID(int=rng.getrandbits(120))), rng.choice(tuple(FIELDS))) for _ in range(rng.randint(1, 3))]
    entries: list[Case] = []
    for revision in range(1, rng.randint(4, 30)):
        item, kind = rng.choice(items)
        entry: Case = {"device": rng.choice(("desk", "one", "two")), "kind": kind, "item": item}
        entry["base"] = rng.choice((revision - 1, rng.randint(0, revision - 1)))
        if rng.random() < 0.15:
            entry["withdraw"] = rng.random() < 0.6
        else:
            names = rng.sample(FIELDS[kind], rng.randint(1, 2))
            entry["set"] = {name: rng.choice(VALUES.get(name, (["contact"], ["drilling", "load"]))) for name in names}
        entries.append(entry | {"revision": revision})
    return {"entries": entries, "state": state_of(entries)}


def state_of(entries: list[Case]) -> Case:
    """The tables after all entries, as plain values: items by id, and the pairs that wait or waited."""
    connection = sqlite3.connect(":memory:")
    try:
        db = Database(connection)
        tables.make_tables(db)
        for entry in entries:
            tables.apply(db, entry["revision"], entry)
        items = {}
        for row in list(db.query("SELECT id, kind FROM item ORDER BY id")):
            table = next(iter(db.query(f'SELECT * FROM "{row["kind"]}" WHERE id = ?', [row["id"]])))  # noqa: S608
            values = tables.read_row(KINDS[row["kind"]], table)
            head = {name: values.pop(name) for name in ("revision", "withdrawn")}
            values.pop("id")
            items[row["id"]] = head | {
                "kind": row["kind"],
                "values": {n: v for n, v in values.items() if v is not None},
            }
        pairs = [dict(pair) for pair in db.query("SELECT * FROM conflict ORDER BY item, field, earlier, later")]
        return {"items": items, "conflicts": pairs}
    finally:
        connection.close()


def scene(rng: random.Random) -> Case:
    """A face with random zones, limits, fittings and fixings; every finding about it, and answers at some points."""
    meets = rng.choice((None, None, "reveal", "ceiling"))  # what is there for certain, and where it stands
    in_plan = {"sort": "wall", "slope_deg": None} | OVER if meets else {}
    items = [thing("room", room(rng), ROOM), thing("face", THINGS[FACE][1] | surveyed(rng) | in_plan, FACE)]
    items += [thing("zone", zone(rng, number)) for number in range(rng.randint(0, 4))]
    items += [thing("limit", limit(rng, number)) for number in range(rng.randint(0, 3))]
    there = behind(rng)
    items += [*beside(rng, meets), *there]
    holds = [thing("hold", hold(rng, number)) for number in range(rng.randint(0, 2))]
    fittings: list[Item] = []
    while len(fittings) < 1 or (len(fittings) < 3 and rng.random() < 0.6):
        fittings.append(thing("fitting", fitting(rng, len(fittings), fittings)))
    items += [*holds, *fittings]
    members = [thing("member", member(rng, number)) for number in range(rng.randint(0, 2))]
    parts = [*holds, *members]
    fixings = [thing("fixing", fixing(rng, number, fittings, parts)) for number in range(rng.randint(0, 8))]
    things = [*fittings, *fixings]
    rulings = [thing("agreement", agreement(rng, number, things, parts)) for number in range(rng.randint(0, 5))]
    far = [one.id for one in there if one.kind == "face"]
    over_there = [agreement(rng, number, things, parts) | {"items": far} for number in range(6, 8) if far]
    rulings += [thing("agreement", one | {"depth_mm": rng.choice((None, 100.0))}) for one in over_there]
    items += [*members, *rulings, *fixings]
    then = agreed_to(rng, rulings, [*fittings, *fixings])
    beyond = rng.random() < 0.1
    about = {"name": "Customs shed", "asks_about_later_work": rng.choice((None, 0, 1))}
    site = Site(thing("site", about, SITE), items, Path(), 1, "", then, beyond=beyond)
    asked = [question for question in QUESTIONS if question.name in AT_THE_WALL]
    found = [
        find(question, one, site, TODAY)
        for question in asked
        for one in site.all(question.kind)
        if one.stands and one.face == FACE
    ]
    points = [
        (rng.randrange(5001), rng.randrange(3001), rng.choice((0, 5, 30)), rng.choice((None, 15.0, 45.0)))
        for _ in range(6)
    ]
    points += [(one.x_mm, one.z_mm, 4, None) for one in holds]
    points += [(rng.randrange(4930, 5001), rng.randrange(3001), rng.choice((0, 20)), 15.0) for _ in range(4)]
    points += [(rng.randrange(5001), rng.randrange(2930, 3001), rng.choice((0, 20)), 15.0) for _ in range(2)]
    points += [(rng.randrange(1850, 2000), rng.randrange(3001), 5, rng.choice((40.0, 160.0))) for _ in range(3)]
    return {
        "beyond": beyond,
        "items": [{"kind": one.kind, "id": one.id, "values": known(one.values)} for one in (site.item, *items)],
        "then": {" ".join(pair): values for pair, values in then.items()},
        "findings": sorted([said(one.subject, one.against, one.verdict) for one in found], key=str),
        "answers": [[*point, answer(site, site[FACE], *point, TODAY).as_dict()] for point in points],
    }


def said(subject: Item, against: Item | None, verdict: Verdict) -> list[Any]:
    """One finding as plain values."""
    words = [str(verdict.word), verdict.sentence, list(verdict.missing), [list(pair) for pair in verdict.working]]
    return [subject.id, against and against.id, verdict.figure, verdict.limit, verdict.margin, *words]


def thing(kind: str, values: dict[str, Any], item: str | None = None) -> Item:
    """An item with all its fields, None where nothing is entered."""
    return Item(kind, item or str(uuid.uuid4()), dict.fromkeys(KINDS[kind].by_name) | values)


def known(values: Mapping[str, Any]) -> dict[str, Any]:
    """The fields that are filled in."""
    return {name: value for name, value in values.items() if value is not None}


def zone(rng: random.Random, number: int) -> dict[str, Any]:
    x, z = rng.randrange(0, 4500, 10), rng.randrange(0, 2500, 10)
    notched = [[x, z], [x + 400, z], [x + 400, z + 100], [x + 150, z + 100], [x + 150, z + 500], [x, z + 500]]
    forbids = rng.sample(FORBIDDEN, rng.randint(1, 3))
    depth = rng.choice((None, None, 30.0))
    if rng.random() < 0.4:  # at the foot of the wall, or going on over the floor
        z = rng.choice((-500, -250, 0, 20))
        notched = [[x, z], [x + 400, z], [x + 400, z + 300], [x, z + 300]]
    about = {"mark": f"K{number}", "name": "Zone", "forbids": forbids, "safe_depth_mm": depth, "reason": "old"}
    return {"face": FACE, "outline": notched, "margin_mm": float(rng.choice((0, 20, 50)))} | about


def room(rng: random.Random) -> dict[str, Any]:
    looks = [[what, "the surveyor", "with a torch", _looked_on(rng)] for what in LOOKED_FOR if rng.random() < 0.9]
    hazards = rng.choice((None, None, None, ["asbestos"], ["dust"], ["old lead paint"], ["hidden services"]))
    return {
        "site": SITE,
        "name": "R",
        "hazards": hazards,
        "looked_for": looks or None,
        "ceiling_mm": rng.choice((None, 2400.0, 3400.0)),
    }


def _looked_on(rng: random.Random) -> str:
    """A day before the findings, seldom one after them, which has not come."""
    return "2026-07-01" if rng.random() < 0.08 else "2026-05-04"


def surveyed(rng: random.Random) -> dict[str, Any]:
    """What was measured of a face, or was not."""
    grid = [[x, z, rng.randrange(-8, 12)] for x in (0, 2500, 5000) for z in (0, 1500, 3000)]
    line = [[x, 1500, rng.randrange(0, 9)] for x in range(0, 5001, 1000)]
    sort = rng.choice(("wall", "wall", "wall", "other", "ceiling", "soffit"))
    later, old = (
        [["limewash", 1, "later"], ["brick", 30, "later"]],
        [["limewash", None, "later"], ["stone", 500, "old"]],
    )
    of_no_age = [["limewash", 1, "later"], ["brick", 30, None]]
    hazardous = [
        [
            rng.choice(
                (
                    *("asbestos board, not drilled", "Asbestzementplatte", "old lead paint"),
                    *("asbestos-free board", "fibrociment sans amiante", "red brick, lead sheet"),
                )
            ),
            9,
            "later",
        ],
        *old,
    ]
    made = rng.choice((None, later, old, [["stone", 500, None]], of_no_age, hazardous))
    return {
        "layers": made,
        "surface": rng.choice((None, grid, grid, line, [grid[0], grid[2], grid[6]])),
        "sort": sort,
        "slope_deg": rng.choice((None, None, 0.5, 30.0)),
        "above_floor_mm": rng.choice((None, 2600.0)),
        **rng.choice(({}, {"start_x_mm": 0.0, "start_y_mm": 4000.0, "bearing_deg": 0.0})),
    }


def beside(rng: random.Random, meets: str | None) -> list[Item]:
    """The wall on the right of the face, with a door, a sign or a way near the corner; or none.

    meets  "reveal": one that runs back from an arris of it; "ceiling": the one over it
    """
    if meets is None and rng.random() < 0.5:
        return []
    other = {"room": ROOM, "mark": "R1-E", "name": "East wall", "sort": rng.choice(("wall", "wall", "ceiling"))}
    size = {"width_mm": 4000.0, "height_mm": 3000.0, "floor": rng.choice((None, [[0.0, -40.0]]))}
    plan = rng.choice((
        {}, {"start_x_mm": 5000.0, "start_y_mm": 4000.0, "bearing_deg": -90.0},
        {"start_x_mm": 5000.0, "start_y_mm": 2400.0, "bearing_deg": 178.0},
    ))  # fmt: skip
    if meets == "reveal":
        other, plan = other | {"sort": "reveal"}, {"start_x_mm": 2000.0, "start_y_mm": 4000.0, "bearing_deg": 90.0}
    elif meets == "ceiling":
        above = {
            "above_floor_mm": rng.choice((None, 3000.0, 3040.0)),
            "slope_deg": rng.choice((None, None, 88.0, 40.0)),
        }
        other, plan = other | {"sort": "ceiling"} | above, OVER
    wall = thing("face", other | size | plan)
    door = limit(rng, 9) | LEAF | {"sort": "leaf", "leaf": "door", "hinge_x_mm": rng.choice((60.0, 900.0, 2000.0))}
    sign = {"sort": "keep in view", "x_from_mm": rng.choice((60.0, 400.0)), "x_to_mm": 900.0, "z_from_mm": 300.0}
    way = {"sort": "route", "available_mm": 1500.0, "clear_width_mm": rng.choice((700.0, 1300.0))}
    flat = {"sort": rng.choice(("flat", "headroom")), "headroom_mm": 1900.0, "projection_mm": 60.0}
    limits = (door, limit(rng, 10) | sign, limit(rng, 11) | way, limit(rng, 12) | flat)
    come = [one | {"face": wall.id} for one in limits]
    tops = (None, 2000.0)
    zones = [zone(rng, 20 + number) | {"face": wall.id} for number in range(rng.randrange(3))]
    for one in zones:  # which ends before the corner, at it, or goes beyond it
        left, bottom = rng.choice((-90.0, 0.0, 15.0, 300.0)), float(rng.randrange(1500))
        one["outline"] = [[left, bottom], [left + 80, bottom], [left + 80, bottom + 1200], [left, bottom + 1200]]
        if meets == "ceiling":  # out from the wall under it
            one["outline"] = [[bottom, left], [4000, left], [4000, left + 80]]
        elif meets:
            one["forbids"] = ["drilling", "contact"]
    return [
        wall,
        *(thing("zone", one) for one in zones),
        *(thing("fitting", fitting(rng, 9, []) | {"face": wall.id}) for _ in range(rng.randrange(2))),
        *(thing("limit", one | {"z_to_mm": rng.choice(tops)}) for one in rng.sample(come, rng.randrange(1, 5))),
    ]


def behind(rng: random.Random) -> list[Item]:
    """The room on the other side of the face, with its zones and what was looked for there; or none."""
    if rng.random() < 0.5:  # noqa: PLR2004
        return []
    there = thing("room", room(rng) | {"mark": "R2"})
    plan = {"behind": FACE, "behind_x_mm": rng.choice((None, 5000.0)), "behind_z_mm": rng.choice((None, 120.0))}
    size = {"width_mm": 5000.0, "height_mm": 3000.0, "wall_mm": rng.choice((None, None, 35.0, 150.0, 600.0))}
    old = [["lime plaster", 20, rng.choice(("old", None))]]
    made = {"layers": rng.choice((None, old, [["board", 9, "later"]]))}
    wall = thing("face", {"room": there.id, "mark": "R2-S", "name": "Partition", "sort": "wall"} | plan | size | made)
    zones = [
        zone(rng, 30 + number) | {"face": wall.id, "mark": f"K{30 + number}"} for number in range(rng.randrange(4))
    ]
    rail = thing("fitting", fitting(rng, 8, []) | {"face": wall.id})
    holes = [
        fixing(rng, 40 + number, [rail], []) | {"face": wall.id, "hole": "new"} for number in range(rng.randrange(4))
    ]
    return [there, wall, rail, *(thing("zone", one) for one in zones), *(thing("fixing", one) for one in holes)]


def member(rng: random.Random, number: int) -> dict[str, Any]:
    place = {"x_mm": float(rng.randrange(4000)), "z_mm": 0.0, "width_mm": 1500.0, "height_mm": 3000.0}
    more = {"thickness_mm": rng.choice((None, 20.0)), "behind_mm": rng.choice((None, 0.0, 25.0))}
    return (
        {"face": FACE, "mark": f"B{number}", "sort": "board", "age": rng.choice((None, "old", "later"))} | place | more
    )


def agreed_to(rng: random.Random, rulings: list[Item], things: list[Item]) -> dict[tuple[str, str], dict[str, Any]]:
    """How things stood when they were agreed to: mostly as now, here and there otherwise, or not there yet."""
    then: dict[tuple[str, str], dict[str, Any]] = {}
    for ruling, one in ((ruling, one) for ruling in rulings for one in things if rng.random() < 0.9):
        other = rng.choice(({}, {}, {"x_mm": one.x_mm - 12}, {"face": ROOM}, {"adhesive": 0}, {"hole": "none"}))
        size = rng.choice(({}, {"width_mm": 700.0})) if one.kind == "fitting" else {"penetration_mm": 20.0}
        size = (
            size | rng.choice(({}, {"mass_loaded_kg": 10.0}, {"carries_kg": 20.0})) if one.kind == "fitting" else size
        )
        does = ({}, {}, {}, {"touches_face": 0}, {"gives": ["nothing"]}, {"sort": "hook"}, {"lining": "felt"})
        touched = rng.choice((*does, {"contact_radius_mm": 2.0}))
        then[ruling.id, one.id] = known(one.values) | other | size | touched
    return then


def agreement(rng: random.Random, number: int, things: list[Item], parts: list[Item]) -> dict[str, Any]:
    x, z = rng.randrange(0, 3000), rng.randrange(0, 1500)
    area = [[x, z], [x + 2000, z], [x + 2000, z + 1500], [x, z + 1500]]
    notched = [*area[:3], [x + 1200, z + 1500], [x + 1000, z + 200], [x + 800, z + 1500], area[3]]
    small = [[x, z], [x + 90, z], [x + 40, z + 60]]
    some = [one.id for one in rng.sample(things, min(3, len(things)))]
    part = [one.id for one in parts] or [SITE]
    about = {
        "items": rng.choice(([FACE], [FACE], [FACE, ROOM], [ROOM], [SITE], part, some, some, some)),
        "outline": rng.choice((None, None, area, notched, small)),
    }
    said_ = {
        "answer": rng.choice(("yes", "yes", "yes", "yes, with conditions", "no")),
        "words": "as drawn",
        "said_by": "the keeper",
    }
    more = {
        "acts": rng.choice((None, None, [*SOME_ACTS[1], *SOME_ACTS[2]], *SOME_ACTS)),
        "depth_mm": rng.choice((None, 30.0)),
        "trace": rng.choice((None, None, "none", "a new hole in later work")),
        "play_mm": rng.choice((None, 20.0)),
        "holes": rng.choice((None, 1, 2)),
        "conditions": rng.choice((None, "by hand.")),
        "conditions_met": rng.choice((None, "yes", "yes", "yes", "not yet", "no")),
        "until": rng.choice((None, None, "2026-01-01", "2027-01-01")),
        "on": rng.choice(("2025-03-01", "2025-04-01", "2025-05-01", "2027-02-01")),
    }
    return {"site": SITE, "reference": f"A{number}"} | about | said_ | more


def hold(rng: random.Random, number: int) -> dict[str, Any]:
    place = {
        "x_mm": float(rng.randrange(5000)),
        "z_mm": float(rng.randrange(3000)),
        "depth_mm": rng.choice((None, 25.0)),
    }
    about = {"sort": rng.choice(("hole", "hook", "moulding")), "may_be_used": rng.choice(("yes", "no", "not known"))}
    about |= {"said_by": rng.choice((None, "the keeper")), "said_on": rng.choice((None, "2025-05-01", "2026-06-02"))}
    return {"face": FACE, "mark": f"H{number}"} | place | about


def limit(rng: random.Random, number: int) -> dict[str, Any]:
    sort = rng.choice(("leaf", "route", "headroom", "flat", "keep in view"))
    view = {"x_from_mm": 1000.0, "x_to_mm": 1800.0, "z_from_mm": 900.0, "z_to_mm": 1600.0}
    more: dict[str, dict[str, Any]] = {
        "leaf": LEAF
        | {"hinge_x_mm": float(rng.randrange(5000)), "leaf": "door", "x_from_mm": rng.choice((None, 4000.0))},
        "route": {"available_mm": 1350.0, "clear_width_mm": 1200.0},
        "headroom": {"headroom_mm": 2000.0, "projection_mm": 60.0},
        "flat": {"projection_mm": rng.choice((40.0, 80.25)), "z_from_mm": 700.0, "z_to_mm": 1500.0},
        "keep in view": view,
    }
    about = {"mark": rng.choice((None, f"L{number}")), "name": f"Limit {number}", "sort": sort}
    return {"face": FACE, "margin_mm": float(rng.choice((0, 15)))} | about | more[sort]


def fitting(rng: random.Random, number: int, others: list[Item]) -> dict[str, Any]:
    thick = rng.choice(
        (
            [["rail", 22.0, 1.0]],
            [["back", 12.0, None], ["case", 120.0, 2.0]],
            [["Packers", rng.choice((3, 8)), 2], ["D0", 9, 0]],
        )
    )
    place = {
        "x_mm": float(rng.randrange(-100, 4200)),
        "z_mm": float(rng.choice((0, rng.randrange(2500), rng.randrange(2500)))),
        "width_mm": 900.0,
        "height_mm": rng.choice((300.0, 900.0)),
        "moves_mm": rng.choice((None, None, 150.0)),
    }
    about = {"mark": f"D{number}", "name": "Case", "state": rng.choice(("planned", "fitted", "taken down"))}
    does = {
        "gives": rng.choice((None, ["nothing"], ["light"], ["heat", "light"])),
        "touches_face": rng.choice((None, 0, 1)),
        "hangs_on": rng.choice([None, None, None, GONE, *(one.id for one in others)]),
        "covers": rng.choice([None, None, *([one.id] for one in others)]),
        "mass_loaded_kg": rng.choice((None, 10.0, 12.5, 12.5)),
        "support": rng.choice((None, None, "its fixings", "the floor")),
        "base_mm": rng.choice((None, 300.0)),
        "base_out_mm": rng.choice((None, 60.0)),
        "base_width_mm": rng.choice((None, 500.0)),
        "phase": rng.choice((None, "1", "2")),
        "until_phase": rng.choice((None, None, "2")),
    }
    carrier = next((one for one in others if one.id == does["hangs_on"]), None)
    if carrier is not None and rng.random() < ON_TOP:
        place["z_mm"] = carrier.z_mm + carrier.height_mm + rng.choice((-20.0, 0.0, 15.0, 25.0))
        place["x_mm"] = carrier.x_mm + rng.choice((-900.0, 0.0, 300.0))
    return {"face": FACE, "build_up": rng.choice((None, thick, thick))} | about | place | does


def fixing(rng: random.Random, number: int, fittings: list[Item], parts: list[Item]) -> dict[str, Any]:
    held = rng.choice(fittings)
    hole = rng.choice(("none", "existing", "new"))
    near = rng.random() < 0.7
    x = held.x_mm + rng.randrange(900) if near else rng.choice((rng.randrange(5000), 4900 + rng.randrange(100)))
    z = held.z_mm + rng.randrange(300) if near else rng.randrange(3000)
    place = {"x_mm": float(x), "z_mm": float(z), "mark": f"D.{number}"}
    fitted = {"fitted_x_mm": place["x_mm"] + 3, "fitted_z_mm": place["z_mm"] - 4} if rng.random() < 0.4 else {}
    if rng.random() < 0.1:
        fitted = {"fitted_x_mm": place["x_mm"]}
    makes = {
        "hole": hole,
        "diameter_mm": rng.choice((None, 6.0, 40.0)),
        "penetration_mm": rng.choice((None, 20.0, 40.0, 40.0, 90.0, 160.0)),
        "length_mm": rng.choice((None, None, 60.0, 200.0)),
    }
    does = {
        "sort": rng.choice(("clamp", "clamp", "wood screw", "strap", "adhesive pad", "bolt", "bolt")),
        "fabric": rng.choice(("old fabric", "old fabric", "later work", "another fitting")),
        "other_fitting": rng.choice([None, None, *(one.id for one in fittings if one.id != held.id)]),
        "hold": rng.choice([None, GONE, *(one.id for one in parts if one.kind == "hold")]),
        "member": rng.choice([None, None, None, GONE, *(one.id for one in parts if one.kind == "member")]),
        "packers_mm": rng.choice((None, 0.0, 6.0, 11.0)),
        "trace": rng.choice(("none", "none", "an old hole used again", "a new hole in old fabric")),
        "consent": rng.choice((None, None, "as said on the stairs")),
        "adhesive": rng.choice((None, 0, 0, 1)),
        "stands_out_mm": rng.choice((None, 70.0)),
    }
    return FIXING | {"fitting": held.id, "state": rng.choice(STATES)} | place | fitted | makes | does


def main() -> None:
    """Print all of them as one JSON object."""
    rng = random.Random(SEED)  # noqa: S311
    cases = {
        "registry": registry(),
        "fields": list(field_cases()),
        "things": THINGS,
        "items": list(rule_cases()),
        "changes": list(old_rule_cases()),
        "aged": kind_as_plain(AGED),
        "versions": list(version_cases()),
        "former": list(former_word_cases()),
        "scenes": [scene(rng) for _ in range(SCENES)],
        "sequences": [sequence_case(rng) for _ in range(SEQUENCES)],
    }
    print(json.dumps(cases))


if __name__ == "__main__":
    main()
