"""Each calculation is described once, and what is described is what it takes and answers."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import fields as attributes_of
from typing import Any

import pytest

from fieldbook.calculations.catalogue import CALCULATIONS, calculate
from fieldbook.calculations.description import ANYTHING, Calculation
from fieldbook.calculations.guide import lines_about
from fieldbook.checks.verdict import Verdict
from fieldbook.errors import FieldbookError
from fieldbook.model.fields import Field, Type
from fieldbook.model.typed import from_text, to_text
from fieldbook.model.values import accept
from tests.checks.refusals import refused


def placed(payload: Mapping[str, Any], name: str, value: Any) -> dict[str, Any]:
    """A payload with one key changed, which may lie in an object."""
    first, _, rest = name.partition(".")
    inside = payload.get(first) or {}
    return {**payload, first: placed(inside, rest, value) if rest else value}


def numbers_of(calculation: Calculation) -> Iterator[Field]:
    """The keys that are one number with bounds and stand in the example."""
    values = calculation.values(calculation.example)
    for field in calculation.fields:
        if field.type in {Type.NUMBER, Type.WHOLE} and values[field.name] is not None:
            yield field


@pytest.mark.parametrize("name", CALCULATIONS)
def test_every_answer_has_one_shape(name: str) -> None:
    """Verdict, working and source stand in every answer, and all of it is as JSON gives it back."""
    answer = calculate(name, CALCULATIONS[name].example)
    assert json.loads(json.dumps(answer)) == answer
    assert answer["verdict"] is None or set(answer["verdict"]) == {one.name for one in attributes_of(Verdict)}
    assert answer["working"]
    assert all(label and figure for label, figure in answer["working"])
    assert answer["source"]
    assert all(isinstance(source, str) and source for source in answer["source"])


@pytest.mark.parametrize("name", CALCULATIONS)
def test_working_begins_with_what_was_given(name: str) -> None:
    """Every key of the example is told in the words of its field."""
    calculation = CALCULATIONS[name]
    labels = [label for label, _ in calculate(name, calculation.example)["working"]]
    given = [one.label for one in calculation.fields if calculation.values(calculation.example)[one.name] is not None]
    assert labels[: len(given)] == given


@pytest.mark.parametrize("name", CALCULATIONS)
def test_every_number_is_refused_beyond_its_bounds_by_its_key(name: str) -> None:
    """The bounds of a field are those of the calculation: told in the guide, kept on the command line."""
    calculation = CALCULATIONS[name]
    for field in numbers_of(calculation):
        for value in (field.low - 1, field.high + 1):
            if abs(value) <= ANYTHING:
                with refused("out-of-range", field.name):
                    calculate(name, placed(calculation.example, field.name, value))
        for value, code in ((float("nan"), "out-of-range"), ("12", "not-a-number"), (True, "not-a-number")):
            with refused(code, field.name):
                calculate(name, placed(calculation.example, field.name, value))


@pytest.mark.parametrize("name", CALCULATIONS)
def test_keys_and_columns_that_are_not_described_are_refused(name: str) -> None:
    """An unknown key is named with the object it lies in, and so are those there are."""
    calculation = CALCULATIONS[name]
    objects = {field.name.partition(".")[0] for field in calculation.fields if "." in field.name}
    for inside in ("", *(f"{one}." for one in sorted(objects))):
        with refused("unknown-field", f"{inside}no such key") as refusal:
            calculate(name, placed(calculation.example, f"{inside}no such key", 1))
        keys = {field.name.removeprefix(inside) for field in calculation.fields if field.name.startswith(inside)}
        assert all(key.partition(".")[0] in refusal.value.remedy for key in keys)
    for field in calculation.fields:
        words = field.type is Type.ROWS and any(column.type is not Type.NUMBER for column in field.columns)
        if words and field.name not in calculation.unread:
            with refused("unknown-field", f"{field.name}[0].no such key"):
                calculate(name, {**calculation.example, field.name: [{"no such key": 1}]})


@pytest.mark.parametrize("name", CALCULATIONS)
def test_example_calculates_and_comes_back_from_the_form_the_same(name: str) -> None:
    """What the form shows for the example, read as typed, gives the answer the example gives."""
    calculation = CALCULATIONS[name]
    values = calculation.values(calculation.example)
    typed = {field.name: to_text(field, values[field.name]) for field in calculation.fields}
    meant = {field.name: accept(field, from_text(field, typed[field.name])) for field in calculation.fields}
    assert calculate(name, calculation.payload(meant)) == calculate(name, calculation.example)


@pytest.mark.parametrize("name", CALCULATIONS)
def test_required_fields_are_those_without_which_nothing_can_be_reckoned(name: str) -> None:
    """Leaving any one of them out of the example is refused."""
    calculation = CALCULATIONS[name]
    values = calculation.values(calculation.example)
    for field in calculation.fields:
        if field.required:
            with pytest.raises(FieldbookError):
                calculate(name, calculation.payload({**values, field.name: None}))


def test_headings_say_what_is_calculated_and_are_told_apart() -> None:
    """The name of a command is too short for somebody who looks for a calculation."""
    headings = [one.heading for one in CALCULATIONS.values()]
    assert len(headings) == len(set(headings))
    assert all(len(one.split()) > 2 for one in headings)


@pytest.mark.parametrize("name", CALCULATIONS)
def test_guide_tells_every_key_and_an_example_that_can_be_copied(name: str) -> None:
    """Whoever reads it can write the payload."""
    calculation = CALCULATIONS[name]
    told = list(lines_about(calculation))
    assert told[0] == calculation.sentence
    for field in calculation.fields:
        assert any(line.startswith(f"{field.name}: ") for line in told)
    assert calculate(name, json.loads(told[-1].removeprefix("Example: "))) == calculate(name, calculation.example)


def test_several_rows_where_one_is_wanted_are_refused() -> None:
    """A second line in the place of a point is no place."""
    calculation = CALCULATIONS["keep-off"]
    values = calculation.values(calculation.example) | {"point_mm": [[1, 2], [3, 4]]}
    with pytest.raises(FieldbookError) as refusal:
        calculate("keep-off", calculation.payload(values))
    assert (refusal.value.field or "").startswith("point_mm")


@pytest.mark.parametrize("payload", [None, [], "text", 3])
def test_payload_that_is_no_object_is_refused_with_the_keys(payload: Any) -> None:
    """The whole of it is wrong, so no key is named."""
    with refused("unsuitable-shape", None) as refusal:
        calculate("air", payload)
    assert "humidity_pct" in refusal.value.remedy


def test_fraction_given_for_percent_is_told() -> None:
    """The commonest slip is named with its remedy."""
    with refused("out-of-range", "humidity_pct") as refusal:
        calculate("air", {"temperature_c": 20, "humidity_pct": 0.65})
    assert "65, not 0.65" in refusal.value.remedy
