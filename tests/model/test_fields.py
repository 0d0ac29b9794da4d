"""What a field takes and what it refuses."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.errors import FieldbookError, Refused
from fieldbook.model.fields import Field, Type
from fieldbook.model.kinds import KINDS
from fieldbook.model.values import accept, accept_all

NAME = Field("name", "Name", Type.LINE)
NOTE = Field("note", "Note", Type.NOTE)
DEPTH = Field("depth_mm", "Depth", Type.NUMBER, unit="mm", low=0, high=100)
COUNT = Field("count", "Count", Type.WHOLE, low=1, high=9)
STATE = Field("state", "State", Type.CHOICE, choices=("planned", "fitted"))
ACTS = Field("forbids", "Forbidden", Type.CHOICES, choices=("drilling", "load"))
DAY = Field("on", "On", Type.DATE)
WHEN = Field("at", "At", Type.MOMENT)
POINT = (Field("x_mm", "x", Type.NUMBER, required=True), Field("z_mm", "z", Type.NUMBER, required=True))
OUTLINE = Field("outline", "Outline", Type.OUTLINE, columns=POINT)
LAYERS = Field("layers", "Layers", Type.ROWS, columns=(Field("m", "material", required=True), DEPTH))


@pytest.mark.parametrize(
    ("field", "value", "code"),
    [
        (NAME, 7, "unsuitable-text"),
        (NAME, "x" * 201, "unsuitable-text"),
        (NAME, "<b>bold</b>", "unsuitable-text"),
        (NAME, "</script>", "unsuitable-text"),
        (NAME, "a\x07b", "unsuitable-text"),
        (NAME, "two\nlines", "unsuitable-text"),
        (NAME, "evil\u202egnp", "unsuitable-text"),
        (NOTE, "mark\u200f", "unsuitable-text"),
        (NOTE, "x" * 20_001, "unsuitable-text"),
        (NOTE, "nul\x00", "unsuitable-text"),
        (DEPTH, "12", "not-a-number"),
        (DEPTH, True, "not-a-number"),
        (DEPTH, -0.1, "out-of-range"),
        (DEPTH, 100.1, "out-of-range"),
        (DEPTH, float("nan"), "out-of-range"),
        (DEPTH, float("inf"), "out-of-range"),
        (DEPTH, 10**400, "out-of-range"),
        (COUNT, 1.5, "not-a-number"),
        (STATE, "Planned", "not-a-choice"),
        (ACTS, "drilling", "not-a-choice"),
        (ACTS, ["drilling", "singing"], "not-a-choice"),
        (Field("y", "Y", Type.YES_NO), "yes", "not-a-choice"),
        (DAY, "31.05.2026", "unsuitable-text"),
        (DAY, "2026-02-30", "unsuitable-text"),
        (DAY, 5, "unsuitable-text"),
        (WHEN, "tomorrow", "unsuitable-text"),
        (WHEN, "2026-05-31T14:30", "unsuitable-text"),
        (Field("face", "Face", Type.LINK), "R1-N", "not-a-choice"),
        (Field("items", "Items", Type.LINKS), "R1-N", "not-a-choice"),
        (Field("sha256", "Digest", Type.DIGEST), "ABC", "unsuitable-text"),
        (OUTLINE, [[0, 0], [1, 1]], "unsuitable-shape"),
        (OUTLINE, [[0, 0], [10, 10], [10, 0], [0, 10]], "unsuitable-shape"),
        (OUTLINE, [[0, 0], [10, 10], [20, 20]], "unsuitable-shape"),
        (OUTLINE, [[0, 0], [10, "x"], [10, 0]], "not-a-number"),
        (OUTLINE, [[0], [10, 1], [10, 0]], "missing"),
        (OUTLINE, {"x": 1}, "unsuitable-shape"),
        (LAYERS, [["lime plaster", 20, 3]], "unsuitable-shape"),
        (LAYERS, ["lime plaster"], "unsuitable-shape"),
        (LAYERS, [["", 20]], "missing"),
        (LAYERS, [["lime plaster", 200]], "out-of-range"),
    ],
)
def test_accept_unsuitable_value_is_refused_by_field(field: Field, value: object, code: str) -> None:
    """A value the field cannot hold is refused with the field's name, a reason and a remedy."""
    with pytest.raises(FieldbookError) as refusal:
        accept(field, value)
    assert (refusal.value.code, refusal.value.field) == (code, field.name)
    assert refusal.value.reason.endswith(".")
    assert refusal.value.remedy.endswith(".")


@pytest.mark.parametrize(
    ("field", "value", "stored"),
    [
        (NAME, "  Long room ", "Long room"),
        (NAME, "gap < 5 mm & > 2 mm", "gap < 5 mm & > 2 mm"),
        (NAME, "re\u0301seau", "r\u00e9seau"),
        (NOTE, "first\r\nsecond\tcell", "first\nsecond\tcell"),
        (NOTE, "n" * 10_000, "n" * 10_000),
        (DEPTH, 0, 0.0),
        (DEPTH, 100, 100.0),
        (COUNT, 9.0, 9),
        (ACTS, ["load", "drilling", "load"], ["drilling", "load"]),
        (Field("y", "Y", Type.YES_NO), True, 1),
        (DAY, "2026-05-31", "2026-05-31"),
        (WHEN, "1996-12-19T16:39:57-08:00", "1996-12-19T16:39:57-08:00"),
        (OUTLINE, [[0, 0], [10, 0], [10, 10], [0, 0]], [[0, 0], [10, 0], [10, 10]]),
        (OUTLINE, [[0, 0], [10, 0], [10, 10], [0, 0], [0, 0]], [[0, 0], [10, 0], [10, 10]]),
        (NAME, " \t", None),
        (LAYERS, [["lime plaster"]], [["lime plaster", None]]),
        (NAME, "", None),
        (LAYERS, [], None),
    ],
)
def test_accept_suitable_value_is_stored_in_one_form(field: Field, value: object, stored: object) -> None:
    """A suitable value comes out in the one form it is stored in."""
    assert accept(field, value) == stored


def test_accept_empty_required_field_is_missing() -> None:
    """An empty field that must be filled is refused as missing."""
    with pytest.raises(FieldbookError) as refusal:
        accept(Field("name", "Name", required=True), "")
    assert (refusal.value.code, refusal.value.field) == ("missing", "name")


def test_accept_all_reports_every_finding_at_once() -> None:
    """All findings come together, an unknown field among them."""
    with pytest.raises(Refused) as refusal:
        accept_all({"name": NAME, "depth_mm": DEPTH}, {"name": "<i>", "depth_mm": -1, "colour": "red"})
    assert [(found.code, found.field) for found in refusal.value.findings] == [
        ("unsuitable-text", "name"),
        ("out-of-range", "depth_mm"),
        ("unknown-field", "colour"),
    ]


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=12,
)


@given(st.sampled_from([field for kind in KINDS.values() for field in kind.fields]), JSON)
def test_accept_any_json_is_stored_or_refused(field: Field, value: object) -> None:
    """Whatever a device sends is either accepted, and then accepted again unchanged, or refused in our words."""
    try:
        stored = accept(field, value)
    except FieldbookError as error:
        assert error.field == field.name
        json.dumps(error.as_dict())
    else:
        assert stored is None or accept(field, stored) == stored
