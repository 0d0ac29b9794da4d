"""What follows from the rest of an item is what the rules between its fields leave, and nothing else."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import pytest

from fieldbook.model.implied import IMPLIED, implied
from fieldbook.model.kinds import KINDS
from fieldbook.model.rules import findings

LONG = {"length_mm": 60.0}  # so that a depth is wrong for no other reason
AMONG = {"unit": KINDS["reading"].by_name["unit"].choices, "trace": KINDS["fixing"].by_name["trace"].choices}
CASES = [
    (kind, name, said, value)
    for kind, fields in IMPLIED.items()
    for name, cases in fields.items()
    for said, value in cases
]


def wrong(kind: str, name: str, values: Mapping[str, Any]) -> Iterator[str]:
    """What is wrong with one field of an item."""
    for one in findings(KINDS[kind], "item", {"value": 1.0, **LONG, **values}, lambda _: None):
        if one.field == name:
            yield one.reason


@pytest.mark.parametrize(("kind", "name", "said", "value"), CASES)
def test_no_other_value_would_be_taken(kind: str, name: str, said: Mapping[str, str], value: Any) -> None:
    """What follows is right, and each other word or figure is refused."""
    assert implied(kind, said) == {name: value}
    assert not list(wrong(kind, name, {**said, name: value}))
    others = [word for word in AMONG.get(name, (4.0, 27.0)) if word != value]
    assert others
    assert all(any(wrong(kind, name, {**said, name: other})) for other in others)


def test_what_somebody_said_stays() -> None:
    """Nothing is put in its place, even where it contradicts."""
    assert implied("reading", {"quantity": "mass", "unit": "N"}) == {}
    assert implied("fixing", {"hole": "existing", "fabric": "old fabric"}) == {}
