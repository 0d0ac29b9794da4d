"""One form for every kind: what it takes, and what it refuses beside which input."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.book.gathering import gather
from fieldbook.book.photographs import Kept
from fieldbook.errors import Refused
from fieldbook.model.fields import Field, Type
from fieldbook.model.kinds import KINDS
from fieldbook.model.typed import from_text, to_text
from fieldbook.model.values import accept
from fieldbook.web.forms.of_kind import EntryForm, entry_form, fields_of
from fieldbook.web.forms.words_before import words_before, words_of_cells, words_of_columns
from tests.sites import Surveyed
from tests.web.conftest import Desk, shown

LONG = "A note as long as they come. " * 345  # just over 10,000 characters
# What a person types for one good item of each kind; {names} stand for the ids of what is there.
TYPED: dict[str, dict[str, Any]] = {
    "room": {
        "site": "{site}",
        "mark": "R2",
        "name": "Weighing hall",
        "plan": "0 0\n4000 0\n4000 3000",
        "hazards": ["dust"],
    },
    "face": {
        "room": "{room}",
        "name": "East wall",
        "sort": "wall",
        "width_mm": "3 200,5",
        "height_mm": "2800",
        "layers": "lime plaster; 25; old",
    },
    "zone": {
        "face": "{face}",
        "name": "Lettering",
        "outline": "rectangle 100 900 400 200",
        "forbids": ["drilling", "load"],
        "margin_mm": "50",
        "reason": LONG,
    },
    "limit": {
        "face": "{face}",
        "name": "Door",
        "sort": "leaf",
        "margin_mm": "20",
        "hinge_x_mm": "1000",
        "hinge_y_mm": "-12,5",
        "swing_from_deg": "0",
        "swing_to_deg": "160",
        "boxes": "0 800 -50 -10",
    },
    "hold": {
        "face": "{face}",
        "sort": "hook",
        "x_mm": "600",
        "z_mm": "2100",
        "may_be_used": "not known",
    },
    "member": {
        "face": "{face}",
        "sort": "stud",
        "material": "larch",
        "x_mm": "410",
        "z_mm": "0",
        "width_mm": "63",
        "height_mm": "2400",
        "behind_mm": "19,5",
    },
    "patch": {
        "face": "{face}",
        "material": "cork",
        "laid_against": "lime plaster",
        "laid_on": "2026-02-11",
        "found": "no trace",
    },
    "decision": {
        "site": "{site}",
        "reference": "E1",
        "items": ["{fitting}"],
        "question": "specialist",
        "role": "structural engineer",
        "answer": "yes",
        "words": "The beam bears it",
        "document": "letter of 3 April 2026",
        "on": "2026-04-03",
    },
    "reading": {
        "room": "{room}",
        "quantity": "illuminance",
        "value": "48",
        "unit": "lx",
        "at": "2026-05-03 10:00",
    },
    "observation": {
        "room": "{room}",
        "what": "Flaking along the sill",
        "at": "2026-05-03T10:00+01:00",
        "condition_class": "2",
    },
    "fitting": {
        "face": "{face}",
        "mark": "D9",
        "name": "Shelf",
        "state": "planned",
        "x_mm": "0",
        "z_mm": "1200",
        "width_mm": "900",
        "height_mm": "40",
        "build_up": "board; 22; 1\nlining; 3",
        "touches_face": "yes",
    },
    "fixing": {
        "fitting": "{fitting}",
        "face": "{face}",
        "mark": "D1.7",
        "sort": "clamp",
        "state": "planned",
        "x_mm": "1100",
        "z_mm": "1540",
        "contact_radius_mm": "12",
        "hole": "none",
        "fabric": "old fabric",
        "trace": "none",
    },
    "finish": {
        "site": "{site}",
        "name": "Harbour grey",
        "sort": "limewash",
        "pigments": "PBk 11; 60\nPW 18; 40",
        "lab_a": "−1,5",
    },
    "agreement": {
        "site": "{site}",
        "reference": "A1",
        "answer": "yes",
        "words": "As drawn",
        "said_by": "keeper",
        "on": "2026-05-01",
        "items": ["{face}", "{fitting}"],
    },
    "task": {
        "site": "{site}",
        "what": "Dust the rail",
        "every_months": "6",
        "fitting": "{fitting}",
    },
    "visit": {
        "site": "{site}",
        "purpose": "survey",
        "on": "2026-05-01",
    },
    "work": {
        "site": "{site}",
        "what": "Tighten the second nut",
        "sort": "tightening",
        "on": "2027-02-28",
        "outcome": "not done",
        "reason": "no spanner of that size",
        "torque_before_nm": "1,5",
    },
    "colour": {
        "finish": "{finish}",
        "on": "2028-02-29",
        "lab_l": "41.5",
        "lab_a": "-17,25",
        "lab_b": "9",
        "lab_white": "D50",
    },
    "statement": {
        "site": "{site}",
        "reference": "L1",
        "items": ["{fitting}"],
        "on": "2031-03-31",
        "fitter": "joiner",
        "keeper": "caretaker",
    },
    "pointer": {
        "photograph": "{photograph}",
        "number": "3",
        "across_px": "812,5",
        "down_px": "400",
    },
    "build_up": {
        "site": "{site}",
        "name": "Cob, limed",
        "sort": "wall",
        "layers": "limewash; 1,5; old\ncob; 540; old",
    },
    "cost": {
        "site": "{site}",
        "what": "Ash",
        "sort": "material",
        "amount": "230.50",
        "currency": "EUR",
        "state": "paid",
    },
    "material": {
        "site": "{site}",
        "name": "Oak from the yard",
        "group": "species",
        "specific_gravity": "0,62",
        "source": "kiln test",
    },
    "site": {
        "name": "بيت الميناء",
        "budget": "4000",
        "currency": "EUR",
    },
}
# Kind, input, what is typed into it, and the code of the refusal that stands beside it.
REFUSED = [
    ("site", "name", "", "missing"),
    ("site", "name", "<script>alert(1)</script>", "unsuitable-text"),
    ("site", "name", "turned \u202earound", "unsuitable-text"),
    ("site", "name", "bell\x07", "unsuitable-text"),
    ("site", "name", "x" * 201, "unsuitable-text"),
    ("site", "budget", "plenty", "not-a-number"),
    ("room", "plan", "0 0\n1 eins", "not-a-number"),
    ("room", "ceiling_mm", "1e400", "not-a-number"),
    ("room", "hazards", ["boredom"], "not-a-choice"),
    ("room", "humidity_low_pct", "101", "out-of-range"),
    ("face", "width_mm", "0", "out-of-range"),
    ("face", "width_mm", "NaN", "not-a-number"),
    ("face", "height_mm", "-Infinity", "not-a-number"),
    ("face", "sort", "window", "not-a-choice"),
    ("face", "layers", "plaster; thick; old", "not-a-number"),
    ("face", "surface", "0 0 0 0", "unsuitable-shape"),
    ("zone", "outline", "0 0\n100 100\n100 0\n0 100", "unsuitable-shape"),
    ("zone", "outline", "0 0\n100 100", "unsuitable-shape"),
    ("zone", "outline", "hexagon 1 2 3", "unsuitable-shape"),
    ("zone", "outline", "rectangle 0 0 0 100", "unsuitable-shape"),
    ("zone", "forbids", [], "missing"),
    ("zone", "margin_mm", "5001", "out-of-range"),
    ("zone", "reason", "y" * 20_001, "unsuitable-text"),
    ("zone", "said_on", "yesterday", "unsuitable-text"),
    ("limit", "boxes", "", "missing"),
    ("limit", "boxes", "800 0 -50 -10", "unsuitable-shape"),
    ("limit", "swing_to_deg", "0", "out-of-range"),
    ("limit", "swing_from_deg", "361", "out-of-range"),
    ("hold", "x_mm", "5001", "outside-the-face"),
    ("hold", "z_mm", "-1", "outside-the-face"),
    ("reading", "at", "soon", "unsuitable-text"),
    ("reading", "value", "1.000.00", "not-a-number"),
    ("observation", "condition_class", "4", "not-a-choice"),
    ("fitting", "build_up", "; 20", "missing"),
    ("fitting", "people_to_remove", "1.5", "not-a-number"),
    ("fitting", "touches_face", "maybe", "not-a-choice"),
    ("fitting", "mass_empty_kg", "99999", "out-of-range"),
    ("fixing", "x_mm", "9000", "outside-the-face"),
    ("fixing", "penetration_mm", "20", "out-of-range"),
    ("fixing", "face", "0" * 8 + "-0000-7000-8000-" + "0" * 12, "not-a-choice"),
    ("fixing", "fitting", "not an id", "not-a-choice"),
    ("fixing", "trace", "a scar", "not-a-choice"),
    ("finish", "lab_l", "101", "out-of-range"),
    ("finish", "pigments", "PBk 11; 160", "out-of-range"),
    ("agreement", "items", ["0" * 8 + "-0000-7000-8000-" + "0" * 12], "not-a-choice"),
    ("agreement", "on", "", "missing"),
    ("member", "width_mm", "0", "out-of-range"),
    ("patch", "laid_on", "", "missing"),
    ("decision", "document", "", "missing"),
    ("task", "every_months", "0", "out-of-range"),
    ("visit", "on", "31 May", "unsuitable-text"),
    ("work", "reason", "", "missing"),
    ("colour", "on", "2027-02-29", "unsuitable-text"),
    ("statement", "keeper", "", "missing"),
    ("material", "group", "stone", "not-a-choice"),
    ("material", "friction", "1e-9", "out-of-range"),
    ("pointer", "number", "0", "out-of-range"),
    ("build_up", "sort", "roof", "not-a-choice"),
    ("cost", "amount", "", "missing"),
]


@pytest.fixture
def furnished(surveyed: Surveyed) -> dict[str, str]:
    """The ids of what is there, by their names in TYPED."""
    finish = surveyed.book.write("finish", {"site": surveyed.site, "name": "Rail green", "sort": "oil paint"})
    around = {"site": surveyed.site, "room": surveyed.room, "face": surveyed.face}
    of = {"site": surveyed.site, "subject": surveyed.face, "purpose": "as found", "sha256": "ab" * 32}
    photograph = surveyed.book.write("photograph", of)
    return around | {"fitting": surveyed.fitting(), "finish": finish, "photograph": photograph}


def typed(kind: str, ids: dict[str, str]) -> dict[str, Any]:
    """What a person types for a good item, with the ids filled in."""
    fill = lambda text: text.format(**ids) if text.startswith("{") else text  # noqa: E731
    return {
        name: [fill(one) for one in value] if isinstance(value, list) else fill(value)
        for name, value in TYPED[kind].items()
    }


def meant(field: Field, sent: Any) -> Any:
    """What is stored for what was typed or ticked."""
    return accept(field, sent if isinstance(sent, list) else from_text(field, sent))


CHOSEN = {Type.LINK, Type.LINKS, Type.CHOICE, Type.CHOICES, Type.YES_NO}  # a select cannot show what it does not offer


def as_lines(sent: Any) -> Any:
    """What was sent, as a text area gives it back."""
    return sent.strip("\r\n") if isinstance(sent, str) else sent


def page_for(kind: str, ids: dict[str, str]) -> str:
    """The address of the form for a new item."""
    return "/site/new" if kind == "site" else f"/site/{ids['site']}/new/{kind}"


def test_every_kind_is_tried() -> None:
    """A kind added later has to be added here; photographs have a page of their own."""
    assert TYPED.keys() == {name for name, kind in KINDS.items() if not kind.with_a_file}
    assert {kind for kind, *_ in REFUSED} == TYPED.keys()


@pytest.mark.parametrize("kind", TYPED)
def test_form_takes_what_a_person_types_and_shows_it_again(desk: Desk, furnished: dict[str, str], kind: str) -> None:
    """What was entered is in the book, and the form to change it shows the same."""
    entered = typed(kind, furnished)
    item = desk.entered(page_for(kind, furnished), entered)
    again = shown(desk.get(f"/item/{item}/change").text)
    for field in fields_of(KINDS[kind]):
        if (
            field.type in {Type.LINE, Type.NOTE, Type.CHOICE, Type.CHOICES, Type.LINK, Type.LINKS}
            and field.name in entered
        ):
            assert again[field.name] in (entered[field.name], str(entered[field.name]).strip())
        elif field.name in entered:
            assert accept(field, from_text(field, again[field.name])) == accept(
                field, from_text(field, entered[field.name])
            )


@pytest.mark.parametrize(("kind", "name", "value", "code"), REFUSED)
def test_refusal_stands_beside_its_input_and_all_that_was_typed_stays(
    surveyed: Surveyed, desk: Desk, furnished: dict[str, str], kind: str, name: str, value: Any, code: str
) -> None:
    """422, the message tied to the input, nothing recorded, every entry as it was typed."""
    sent = typed(kind, furnished) | {name: value}
    before = surveyed.book.revision()
    answer = desk.post(page_for(kind, furnished), sent)
    assert (answer.status_code, surveyed.book.revision()) == (422, before)
    assert f'id="{name}-error"' in answer.text
    assert (
        f'aria-describedby="{name}-help {name}-error"' in answer.text
        or f'aria-describedby="{name}-error"' in answer.text
    )
    assert f'<a href="#{name}">' in answer.text
    again = shown(answer.text)
    for field in fields_of(KINDS[kind]):
        if field.name in sent and not (field.name == name and field.type in CHOSEN):
            assert again.get(field.name, []) == as_lines(sent[field.name])
    assert codes_beside(desk, surveyed, kind, sent) == {name: code}


def codes_beside(desk: Desk, surveyed: Surveyed, kind: str, sent: dict[str, Any]) -> dict[str, str]:
    """The codes of the findings beside each input, as the form itself holds them."""
    site = None if kind == "site" else gather(surveyed.book, surveyed.site)
    with desk.app.test_request_context(method="POST", data=sent):
        form = entry_form(KINDS[kind], site, {}, 0)
        try:
            surveyed.book.write(kind, {key: one for key, one in form.accepted().items() if one is not None})
        except Refused as refused:
            form.add_errors(refused.findings)
        assert not form.unplaced
        return {one.name: one.errors[0].code for one in form if one.errors}
    raise AssertionError


def test_all_findings_come_at_once(desk: Desk, furnished: dict[str, str]) -> None:
    """Three slips are told together."""
    sent = typed("zone", furnished) | {"name": "", "margin_mm": "wide", "outline": "1 2"}
    answer = desk.post(page_for("zone", furnished), sent)
    for name in ("name", "margin_mm", "outline"):
        assert f'id="{name}-error"' in answer.text


def test_input_that_was_emptied_stays_empty(surveyed: Surveyed, desk: Desk) -> None:
    """A refused form does not fill itself again with what the book holds."""
    zone = surveyed.zone(evidence="a scan")
    answer = desk.changed(zone, evidence="", name="")
    assert answer.status_code == 422
    assert (shown(answer.text)["evidence"], shown(answer.text)["name"]) == ("", "")


def test_emptied_input_empties_the_field(surveyed: Surveyed, desk: Desk) -> None:
    """What was taken out of a form is taken out of the item."""
    zone = surveyed.zone(evidence="a scan")
    desk.changed(zone, evidence="")
    assert surveyed.book.item(zone)[1]["evidence"] is None


@pytest.mark.parametrize("kind", KINDS)
def test_names_of_fields_do_not_hide_the_form(kind: str) -> None:
    """No field is called like something the form itself needs."""
    assert not {field.name for field in KINDS[kind].fields} & set(dir(EntryForm))


def test_what_a_file_tells_is_not_asked(surveyed: Surveyed) -> None:
    """Digest, size and format of a photograph are read from it."""
    assert not {field.name for field in fields_of(KINDS["photograph"])} & set(Kept.__dataclass_fields__)


@pytest.mark.parametrize("text", ["rectangle 0 0 10 20", "circle 50 50 25", "0 0\n10 0\n10 10.5"])
def test_outline_is_shown_as_corners_that_mean_the_same(surveyed: Surveyed, desk: Desk, text: str) -> None:
    """However an outline was typed, changing nothing changes nothing."""
    ids = {"site": surveyed.site, "face": surveyed.face}
    zone = desk.entered(page_for("zone", ids), typed("zone", ids) | {"outline": text})
    before = surveyed.book.item(zone)[1]["outline"]
    assert shown(desk.get(f"/item/{zone}/change").text)["outline"] == to_text(KINDS["zone"].by_name["outline"], before)
    revision = surveyed.book.revision()
    desk.changed(zone)
    assert surveyed.book.revision() == revision


@pytest.mark.parametrize("page", ["/face/{0.face}/door", "/site/{0.site}/new/zone", "/item/{0.face}/change"])
def test_json_is_not_taken_for_what_was_typed(surveyed: Surveyed, desk: Desk, page: str) -> None:
    """Numbers and lists do not stand where text is meant; the form comes back."""
    body = {"name": 1e308, "mark": ["x"], "outline": {}, "base": None, "csrf_token": desk.token("/phones")}
    answer = desk.checked(desk.client.post(page.format(surveyed), json=body))
    assert answer.status_code == 422


def test_that_nothing_lies_under_a_head_is_offered_to_be_said(surveyed: Surveyed) -> None:
    """A lining is asked for of every fixing: “none” stands among what is offered before anybody has entered one."""
    site = gather(surveyed.book, surveyed.site)
    offered = words_before(site, KINDS["fixing"], KINDS["fixing"].fields)["lining"]
    assert offered[0] == "none"
    surveyed.fixing(surveyed.fitting(), lining="cork 3 mm")
    site = gather(surveyed.book, surveyed.site)
    assert words_before(site, KINDS["fixing"], KINDS["fixing"].fields)["lining"][:2] == ["cork 3 mm", "none"]


def test_cells_of_a_small_table_are_offered_what_stood_in_their_column(surveyed: Surveyed, desk: Desk) -> None:
    """Words known beforehand, words typed before, the names of materials; no figures."""
    surveyed.book.write("face", {"layers": [["riven lath", 9.0, "old"]]}, surveyed.face)
    site, face = gather(surveyed.book, surveyed.site), KINDS["face"]
    material, thickness, age = words_of_columns(site, face, face.by_name["layers"])
    assert material[0] == "riven lath"
    assert "Ash, European" in material
    assert thickness == []
    assert {"old", "later"} <= set(age)
    page = desk.client.get(f"/site/{surveyed.site}/new/face").text
    assert '<datalist id="layers-0-before"><option value="riven lath">' in page
    assert "layers-1-before" not in page


def test_layers_used_before_are_offered_as_one_line(surveyed: Surveyed) -> None:
    """Where all of it comes apart again as it was: one row alone, or a name that ends in a figure, does not."""
    layers = KINDS["face"].by_name["layers"]

    def offered(*rows: list[object]) -> list[str]:
        surveyed.book.write("face", {"layers": list(rows)}, surveyed.face)
        return [
            line
            for line in words_of_columns(gather(surveyed.book, surveyed.site), KINDS["face"], layers)[0]
            if "/" in line
        ]

    assert offered(["lime wash", 0.5, None], ["riven lath", 9.0, "old"]) == ["lime wash 0.5 / riven lath 9 old"]
    assert offered(["riven lath", 9.0, "old"]) == []
    assert offered(["lime wash", None, "old"], ["riven lath", 9.0, "old"]) == []
    assert offered(["lime wash", 1.0, "old"], ["brick, 1921", 9.0, "old"]) == []


def test_cells_of_several_things_are_offered_choices_marks_and_what_was_typed(surveyed: Surveyed) -> None:
    """A mark is each thing's own, and is offered of what the cell points to alone."""
    surveyed.zone(
        mark="K1", forbids=["drilling", "heat"], said_on="2026-02-11", reason="flaking distemper\nin two coats"
    )
    site, zone = gather(surveyed.book, surveyed.site), KINDS["zone"]
    names = ("mark", "face", "forbids", "said_on", "reason", "margin_mm")
    mark, face, forbids, said_on, reason, margin = words_of_cells(site, zone, [zone.by_name[name] for name in names])
    assert (mark, face, reason, margin) == ([], ["R1-N"], [], [])
    assert (said_on[0], len(said_on)) == ("2026-02-11", 2)  # and today
    assert forbids[:3] == ["drilling, heat", "drilling", "contact"]
