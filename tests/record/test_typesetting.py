"""The record's pages: every field that was entered stands on them, and nothing on them can do harm."""

from __future__ import annotations

import re
from html import unescape
from itertools import pairwise
from typing import Any

import pytest
import tinycss2
from jinja2 import UndefinedError
from pypdf import PdfReader

from fieldbook.book import photographs, wording
from fieldbook.drawing.drafting import CAPITAL_SHARE
from fieldbook.drawing.signature import signature
from fieldbook.model.choices import PLACES_AS_FITTED
from fieldbook.model.fields import Field, Type
from fieldbook.model.kinds import KINDS
from fieldbook.model.rules import NOT_ABOVE
from fieldbook.record.compile import compile_record
from fieldbook.record.environment import MAY_BREAK, environment, quoted, side_by_side, with_breaks
from fieldbook.record.typesetting import chapters, drawings_of, typeset
from tests.record.furnished import picture

# What a reader of paper needs no figure of: how a file is stored, and the points a drawing or a summary is made from.
NOT_PRINTED = {
    "log": {"time_column", "humidity_column", "temperature_column", "date_column", "date_order", "size_bytes"},
    "photograph": {"sha256", "size_bytes", "media_type", "width_px", "height_px"},
    "document": {"file_type"},
    "room": {"plan"},
    "face": {"surface"},
    "agreement": {"signature"},
    "reading": {"x_mm", "z_mm", "uncertainty", "taken_by", "note", "face"},
    "statement": {"fitter_signature", "signature"},
}
# Fields whose value leaves no choice, given the others.
GIVEN: dict[str, dict[str, Any]] = {
    "limit": {"sort": "flat"},
    "fixing": {"hole": "existing", "fabric": "later work", "trace": "none", "other_fitting": "D1"}
    | {"x_mm": 1901.25, "z_mm": 1202.25, "fitted_x_mm": 1903.25, "fitted_z_mm": 1204.25, "fitted_place": None},
    "agreement": {"outline": [[0, 0], [90, 0], [90, 80]], "signature": [[0, 0, 0], [4, 3, 0], [2, 2, 1], [3, 1, 1]]},
    "face": {"floor": [[0, 0], [900, 3.25]], "surface": [[0, 0, 4], [5, 5, -3]]},
    "zone": {"outline": [[211, 0], [311, 0], [311, 97], [211, 97]]},
    "room": {"plan": [[0, 0], [10, 0], [10, 10]]},
    "log": {"time_column": "Time", "humidity_column": "RH"},
}


@pytest.fixture
def pages(furnished, tmp_path):
    """A way to set the pages of the furnished site as it stands: their HTML, and their words."""

    def set_pages(**wanted):
        html = typeset(compile_record(furnished.book, furnished.site, **wanted), furnished.book, tmp_path).html
        return html, words_of(html)

    return set_pages


def words_of(html: str) -> str:
    """What is left to read of a page: no tags, no style, single spaces."""
    body = html[html.index("<body>") :]
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]*>", " ", body)).replace(MAY_BREAK, ""))


class Filler:
    """Values that occur nowhere else, one for each field, within its bounds."""

    def __init__(self, ids: dict[str, str]):
        self.ids = ids
        self.last = 0

    def value(self, field: Field) -> Any:
        """A value for a field."""
        self.last += 1
        number = 100 + self.last
        match field.type:
            case Type.LINE | Type.NOTE:
                return f"{field.name} {number} words"
            case Type.NUMBER:
                small = field.low + (min(field.high, 1000) - field.low) * (0.2 + self.last / 1000)
                return number + 0.25 if field.low <= number + 0.25 <= field.high else round(small, 5)
            case Type.WHOLE:
                return int(field.low) + self.last % int(min(field.high - field.low, 40) + 1)
            case Type.YES_NO:
                return 1
            case Type.CHOICE:
                return field.choices[-1]
            case Type.CHOICES:
                return list(field.choices[:2])
            case Type.DATE:
                return f"19{10 + self.last % 80}-03-04"
            case Type.MOMENT:
                return f"19{10 + self.last % 80}-03-04T05:06:00+00:00"
            case Type.LINK:
                return self.ids[field.to if field.to != "any" else "fitting"]
            case Type.LINKS:
                return [self.ids[field.to if field.to != "any" else "fitting"]]
            case Type.ROWS:
                return [[self.value(column) for column in field.columns]]
            case Type.DIGEST:
                return "ab" * 32
        raise AssertionError(f"no value for {field.type}")


@pytest.mark.parametrize("kind", KINDS)
def test_every_field_that_is_entered_is_on_the_page(furnished, pages, kind):
    """A field filled in the book is read in the record, one that is added to a kind tomorrow too."""
    book, ids = furnished.book, furnished.ids | {"face": furnished.ids["R1-N"], "room": furnished.ids["R1"]}
    ids |= {"fitting": ids["D2"], "hold": ids["H1"], "finish": ids["P1"], "agreement": ids["A1"]}
    member = {"face": ids["face"], "sort": "stud", "material": "larch", "x_mm": 1, "z_mm": 2, "width_mm": 60}
    ids |= {"fixing": ids["D1.1"]}
    ids["observation"] = book.write("observation", {"room": ids["R1"], "what": "Rust", "at": "2026-03-02T10:00+00:00"})
    ids |= {"member": book.write("member", member | {"mark": "B9", "height_mm": 900})}
    letter = {"site": furnished.site, "reference": "N9", "name": "Letter", "sort": "letter", "sha256": "cd" * 32}
    ids |= {"document": book.write("document", letter)}
    filler = Filler(ids)
    values = {field.name: filler.value(field) for field in KINDS[kind].fields if field.name not in GIVEN.get(kind, {})}
    values |= {
        name: ids.get(value, value) if isinstance(value, str) else value for name, value in GIVEN.get(kind, {}).items()
    }
    if kind == "photograph":
        values |= vars(photographs.keep(book, picture("one more")))
    for low, high in NOT_ABOVE.get(kind, ()):
        if low in values and values[low] > values[high]:
            values[low], values[high] = values[high], values[low]
    item = {"site": furnished.site}.get(kind)
    if kind == "site":
        values = {name: value for name, value in values.items() if name != "currency"} | {"currency": "XTS"}
    book.write(kind, values, item=item)
    _, words = pages(costs=True)
    titles = {ids["fitting"]: "D2", ids["D1"]: "D1", ids["room"]: "R1", ids["face"]: "R1-N"}
    titles |= {ids["fixing"]: "D1.1", ids["observation"]: "Rust", ids["task"]: "Dust the rail"}
    titles |= {ids["hold"]: "H1", ids["finish"]: "P1", ids["agreement"]: "A1", ids["member"]: "B9"}
    titles |= {ids["document"]: "N9"}
    for name, value in values.items():
        field = KINDS[kind].by_name[name]
        if name == KINDS[kind].parent or name in NOT_PRINTED.get(kind, ()):
            continue
        said = wording.said(field, value, titles)
        looked_for = said_on_the_page(kind, name, value) or said
        assert re.sub(r"\s+", " ", looked_for) in words, f"{name}: {looked_for}"


def test_data_sheet_is_cited_by_the_fixings_it_is_about(furnished, pages):
    """A document about one fixing stands with it in the annex, beside what it is about in the list of documents."""
    sheet = {"site": furnished.site, "reference": "N7", "name": "Clamp", "sort": "data sheet", "sha256": "cd" * 32}
    furnished.book.write("document", sheet | {"items": [furnished.ids["D1.1"]]})
    _, words = pages()
    assert "Documents N7 (data sheet)" in words


@pytest.mark.parametrize("place", PLACES_AS_FITTED)
def test_place_without_figures_is_told_from_a_measured_one(furnished, pages, place):
    """As planned and checked, and not measured, stand where the figures of a measured place stand."""
    assert f"{place} –" not in pages()[1]
    bare = {"fitted_x_mm": None, "fitted_z_mm": None}
    furnished.book.write("fixing", bare | {"state": "fitted", "fitted_place": place}, item=furnished.ids["D1.2"])
    assert place in pages()[1]


def said_on_the_page(kind: str, name: str, value: Any) -> str | None:
    """How a field reads where the page puts it in another way than by its words alone."""
    if name.endswith("_mm") and isinstance(value, float):
        return wording.figure(value)
    return {
        ("fixing", "adhesive"): "glued",
        ("fixing", "carries_load"): "carries load",
        ("fitting", "build_up"): value[0][0] if name == "build_up" else None,
        ("log", "sha256"): " ".join(["ab" * 8] * 4),
        **{(where, "looked_for"): looked_by(value) for where in ("room", "face") if name == "looked_for"},
        ("site", "budget"): f"{value:.2f}" if name == "budget" else None,
        ("cost", "amount"): f"{value:.2f}" if name == "amount" else None,
        ("reading", "value"): wording.figure(value) if name == "value" else None,
        ("reading", "at"): wording.day(value) if name == "at" else None,
        ("observation", "at"): wording.day(value) if name == "at" else None,
        ("photograph", "taken_at"): wording.day(value) if name == "taken_at" else None,
        ("finish", "lab_white"): f"white {value}",
        ("agreement", "agreed_revision"): f"as at entry {value}",
        ("limit", "sort"): "flat",
    }.get((kind, name))


def looked_by(value: list[list[str]]) -> str:
    """Who looked, how and when, as the page says it once for all they looked for."""
    ((what, by, how, on),) = value
    return f"{what}, by {by} ({how}, {wording.day(on)})"


def test_text_is_escaped_wherever_it_stands(furnished, pages):
    """No text of the book becomes markup, whichever field holds it."""
    evil = "</style><script>x()</script>{{ 1 + 1 }}"
    for kind in KINDS:
        for item in furnished.book.items(kind):
            notes = {field.name: evil for field in KINDS[kind].fields if field.type is Type.NOTE}
            if notes:
                furnished.book.write(kind, notes, item=item["id"])
    html, words = pages(costs=True)
    assert "<script" not in html
    assert html.count("</style>") == html.count("<style") == 2
    assert words.count(evil) > 20


@pytest.mark.parametrize(
    "words", ['Shed "of the weighers"', "</style><b>it's</b> & more", "back\\slash 7", "two\nlines a"]
)
def test_words_in_a_style_sheet_do_not_end_their_string(words):
    """A name at the head of each page is what it is, whatever signs it has, and no markup."""
    told = quoted(words)
    assert "<" not in told
    assert [token.value for token in tinycss2.parse_component_value_list(f'"{told}"')] == [words]


def test_word_of_extraordinary_length_may_break(pages):
    """Long runs without a space get places to break; words, addresses and markup stay as they are."""
    assert with_breaks("W" * 60).replace(MAY_BREAK, "") == "W" * 60
    assert max(map(len, with_breaks("W" * 600).split(MAY_BREAK))) <= 5
    for left_alone in ("W" * 59, "app:photograph/01a211ab-9ec0-732b-83d6-c78590cc45c8", "two words", 7, None):
        assert with_breaks(left_alone) == left_alone
    assert MAY_BREAK not in pages()[0]


def test_figure_and_its_unit_stand_in_one_line():
    """On paper; a count of things may part from them, and a unit within a word is none."""
    assert (
        with_breaks("60.1 N of 2.5 N m, 0.4 N/mm² at 51 %")
        == "60.1\u00a0N of 2.5\u00a0N\u00a0m, 0.4\u00a0N/mm² at 51\u00a0%"
    )
    for left_alone in ("4 holes", "M6 machine screw", "4 mmx", "6 people"):
        assert with_breaks(left_alone) == left_alone


def test_addresses_are_those_of_own_files_only(furnished, tmp_path):
    """Whatever the pages show is among the files that were put out for it, and each of those is there."""
    made = typeset(compile_record(furnished.book, furnished.site), furnished.book, tmp_path)
    asked_for = set(re.findall(r'(?:src="|url\(")([^"]+)"', made.html))
    assert asked_for <= set(made.files)
    assert all(address.startswith("app:") for address in asked_for)
    for file in made.files.values():
        assert str(tmp_path) in file["path"]


def test_chapters_without_anything_to_say_are_left_out(surveyed, furnished):
    """An empty site has no sheets, finishes, costs or removal; what a reader must find is always there."""
    bare = [chapter.name for chapter in chapters(compile_record(surveyed.book, surveyed.site))]
    assert not {"fittings", "finishes", "removal", "costs", "changes", "photographs"} & set(bare)
    assert {"first_pages", "cautions", "care", "agreements", "signing", "workings", "gaps", "sources"} <= set(bare)
    full = [chapter.name for chapter in chapters(compile_record(furnished.book, furnished.site, costs=True))]
    assert {"glance", "fittings", "finishes", "removal", "costs", "fixings", "rooms"} <= set(full)


def test_what_a_volunteer_needs_is_on_two_pages(on_paper):
    """The first pages after the title say what is open, whom to call and what may be done; the next chapter follows."""
    pages = [page.extract_text() for page in PdfReader(on_paper.file).pages]
    first, second = pages[1], pages[2]
    assert "Loose, wet, bent, knocked or fallen?" in first
    assert "What is open" in first
    assert "whom to ask" in second
    assert "Overview of the rooms" in pages[3]


def test_fitting_is_told_on_two_pages_at_most(on_paper):
    """From its heading to the next one's, no fitting takes more than two pages."""
    pages = [page.extract_text() for page in PdfReader(on_paper.file).pages]
    headings = [f"{sheet.fitting.title} {sheet.fitting.state}" for sheet in on_paper.record.sheets]
    starts = [next(number for number, text in enumerate(pages) if heading in text) for heading in headings]
    end = next(number for number, text in enumerate(pages) if "To match a colour" in text)
    assert len(starts) == len(set(headings)) == 2
    assert all(after - before <= 2 for before, after in pairwise([*starts, end]))


def test_slip_in_a_template_is_an_error(furnished):
    """A name a template gets wrong stops the making instead of leaving a hole."""
    made = environment(compile_record(furnished.book, furnished.site)).from_string("{{ record.rooms[0].room.nmae }}")
    with pytest.raises(UndefinedError):
        made.render(record=compile_record(furnished.book, furnished.site))


def test_signature_keeps_its_strokes_and_fits_its_place():
    """Each stroke is a line of its own, and the drawing no larger than its place, whatever the phone counted in."""
    for unit in (0.001, 1, 300):
        drawn = signature([[0, 0, 0], [8 * unit, 2 * unit, 0], [3 * unit, 1 * unit, 1], [4 * unit, 2 * unit, 1]])
        assert drawn.count("<path") == 2
        width, height = (float(figure) for figure in re.findall(r'(?:width|height)="([\d.]+)mm"', drawn))
        assert (width, height) == pytest.approx((40.8, 10.8), abs=0.02)


def test_no_letters_of_a_drawing_are_lower_than_2_5_mm(on_paper):
    """The height of letters is that of their capitals, as ISO 3098 counts it (from memory)."""
    sizes = {
        float(size)
        for _, drawing in drawings_of(on_paper.record)
        for size in re.findall(r'font-size="([\d.]+)"', drawing)
    }
    assert sizes
    assert min(sizes) * CAPITAL_SHARE >= 2.5 - 0.005


def test_every_room_and_face_stands_once_in_the_survey(on_paper):
    """In order, whether in a column or across the page."""
    rooms = on_paper.record.rooms
    told = [(room.room.id, face and face.face.id) for _, parts in side_by_side(rooms) for room, face in parts]
    assert told == [(room.room.id, face) for room in rooms for face in (None, *(sheet.face.id for sheet in room.faces))]


def test_what_leaves_holes_is_not_told_to_leave_no_trace(furnished, pages):
    """The first page leads to what is left in the building; where nothing is, it says so."""
    assert "All of it is meant to come off one day" in pages()[1]
    touched = compile_record(furnished.book, furnished.site).touched[-1]
    assert ("without trace" in pages()[1]) is not bool(touched.up.new + touched.planned.new)
    rail = furnished.book.item(furnished.ids["D1"])[1]
    hole = {"fitting": rail["id"], "face": rail["face"], "mark": "D1.9", "sort": "wood screw", "state": "planned"}
    place = {"x_mm": rail["x_mm"], "z_mm": rail["z_mm"], "contact_radius_mm": 5, "fabric": "later work"}
    left = {"hole": "new", "trace": "a new hole in later work"}
    furnished.book.write("fixing", hole | place | left)
    assert "without trace" not in pages()[1]
    assert "what is left in the building then" in pages()[1]


@pytest.mark.parametrize(("large", "steps", "beside"), [(False, 6, True), (True, 2, True), (True, 9, False)])
def test_steps_that_fill_a_page_stand_below_the_drawing(surveyed, tmp_path, large, steps, beside):
    """A column beside it that goes on past its page is set on both, and so is what stands below it."""
    told = "\n".join(f"Undo bolt {number}, with the other hand below the shelf." for number in range(steps))
    tall = {"width_mm": 640, "height_mm": 900, "z_mm": 400}
    surveyed.fitting(**tall, state="fitted", removal=told)
    record = compile_record(surveyed.book, surveyed.site)
    html = typeset(record, surveyed.book, tmp_path, large=large).html
    drawing = html.index('alt="D1 on')
    assert (html.index("How it comes off") < drawing) is beside
