"""What follows from what else is entered, since the rules between fields leave no other value.

A form shows it as soon as it follows, and nobody types it; what somebody typed stays, and is refused if it contradicts.
static/phone/forms/implied.js does the same while a form is filled in.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .possible import MEASURED
from .rules import TRACE_OF_NEW_HOLE

# Kind -> field -> what the others say, and what it then is.
IMPLIED: Mapping[str, Mapping[str, tuple[tuple[Mapping[str, str], Any], ...]]] = {
    "reading": {"unit": tuple(({"quantity": quantity}, unit) for quantity, (unit, _, _) in MEASURED.items())},
    "fixing": {
        "penetration_mm": (({"hole": "none"}, 0.0),),
        "trace": tuple(({"hole": "new", "fabric": fabric}, trace) for fabric, trace in TRACE_OF_NEW_HOLE.items()),
    },
}


def implied(kind: str, values: Mapping[str, Any]) -> dict[str, Any]:
    """Name of an empty field -> the one value it can have.

    >>> implied("reading", {"quantity": "illuminance", "value": 45})
    {'unit': 'lx'}
    """
    return {
        name: value
        for name, cases in IMPLIED.get(kind, {}).items()
        if values.get(name) is None
        for said, value in cases
        if all(values.get(other) == word for other, word in said.items())
    }
