"""What each calculation asks for is described, and what is described is what it takes."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

import pytest

from fieldbook.calculations.asking import Question
from fieldbook.calculations.catalogue import CALCULATIONS, calculate
from fieldbook.calculations.inputs import LEFT_TO_PROGRAMS, QUESTIONS
from fieldbook.errors import FieldbookError, UnknownField
from fieldbook.model.fields import Type, accept
from fieldbook.model.typed import from_text, to_text

NO_KEY = "no such key"


def objects_of(question: Question) -> Iterator[tuple[str, Mapping[str, Any]]]:
    """Each object a calculation reads, by its name, with a payload that has an unknown key there."""
    yield "", {NO_KEY: 1}
    for name in {field.name.partition(".")[0] for field in question.fields if "." in field.name}:
        yield f"{name}.", {**question.example, name: {NO_KEY: 1}}
    for field in question.fields:
        if field.type is Type.ROWS and any(column.type is not Type.NUMBER for column in field.columns):
            yield f"{field.name}.", {**question.example, field.name: [{NO_KEY: 1}]}


def keys_taken(name: str, payload: Mapping[str, Any]) -> set[str]:
    """The keys the refusal of an unknown one lists."""
    with pytest.raises(UnknownField) as refusal:
        calculate(name, payload)
    assert NO_KEY in (refusal.value.field or "")
    return set(re.sub(r"^[^:]*: ", "", refusal.value.remedy).removesuffix(".").split(", "))


def keys_described(question: Question) -> set[str]:
    """Every key of the description, those in objects with the object's name before them."""
    names = {field.name for field in question.fields}
    columns = {f"{field.name}.{column.name}" for field in question.fields for column in field.columns}
    return names | {name.partition(".")[0] for name in names} | columns | set(LEFT_TO_PROGRAMS.get(question.name, {}))


def test_every_calculation_is_described() -> None:
    """The table has a description for each calculation, and none for one that is not there."""
    assert set(QUESTIONS) == set(CALCULATIONS)
    assert set(LEFT_TO_PROGRAMS) <= set(CALCULATIONS)


@pytest.mark.parametrize("name", CALCULATIONS)
def test_every_key_a_calculation_takes_is_described(name: str) -> None:
    """Whoever fills in the form can give all that the command line can, down to the keys inside objects."""
    described = keys_described(QUESTIONS[name])
    for prefix, payload in objects_of(QUESTIONS[name]):
        assert {f"{prefix}{key}" for key in keys_taken(name, payload)} <= described


@pytest.mark.parametrize("name", CALCULATIONS)
def test_no_key_is_described_that_a_calculation_does_not_take(name: str) -> None:
    """Each described key is listed by the refusal of an unknown one."""
    taken = set().union(
        *({f"{prefix}{key}" for key in keys_taken(name, payload)} for prefix, payload in objects_of(QUESTIONS[name]))
    )
    assert {field.name for field in QUESTIONS[name].fields} <= taken


@pytest.mark.parametrize("name", CALCULATIONS)
def test_example_calculates_and_comes_back_from_the_form_the_same(name: str) -> None:
    """What the form shows for the example, read as typed, gives the answer the example gives."""
    question = QUESTIONS[name]
    values = question.values(question.example)
    typed = {field.name: to_text(field, values[field.name]) for field in question.fields}
    meant = {field.name: accept(field, from_text(field, typed[field.name])) for field in question.fields}
    assert calculate(name, question.payload(meant)) == calculate(name, question.example)


@pytest.mark.parametrize("name", CALCULATIONS)
def test_required_fields_are_those_without_which_nothing_can_be_reckoned(name: str) -> None:
    """Leaving any one of them out of the example is refused."""
    question = QUESTIONS[name]
    values = question.values(question.example)
    for field in question.fields:
        if field.required:
            with pytest.raises(FieldbookError):
                calculate(name, question.payload({**values, field.name: None}))


def test_several_rows_where_one_is_wanted_are_refused() -> None:
    """A second line in the place of a point is no place."""
    question = QUESTIONS["keep-off"]
    values = question.values(question.example) | {"point_mm": [[1, 2], [3, 4]]}
    with pytest.raises(FieldbookError) as refusal:
        calculate("keep-off", question.payload(values))
    assert (refusal.value.field or "").startswith("point_mm")
