"""A run of figures where one may stand: as many things as there are figures, alike in all else.

310 620 930 is three; a stroke between them says so where a space could mark thousands: 310 / 620.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from ..errors import FieldbookError, NotANumber
from .fields import Field, Type
from .figures import in_mixed_units, number_in, tied
from .typed import DITTO

MOST = 500
NONE = "-"  # one that has no figure
_STROKE, _BETWEEN = re.compile(r"\s*/\s*"), re.compile(r",\s+|\s+")


def figures_in(field: Field, text: str) -> list[str]:
    """The figures of a run, as they are typed; [] where the text is one figure, or no run.

    A dash stands for none, a ditto mark for the one before. What is a figure with its thousands parted, and one that
    the field takes, is one figure.

    >>> from fieldbook.model.fields import Field, Type
    >>> x = Field("x_mm", "x", Type.NUMBER, unit="mm", high=20_000)
    >>> figures_in(x, "310 620 1205"), figures_in(x, "310 mm, 62 cm"), figures_in(x, "0.31 0.62 m")
    (['310', '620', '1205'], ['310mm', '62cm'], [])
    """
    return [] if _is_one(field, text) else pieces_of(field, text)


def pieces_of(field: Field, text: str) -> list[str]:
    """The figures of a text if it is taken for a run; [] where it can be none."""
    if field.type not in {Type.NUMBER, Type.WHOLE}:
        return []
    words = (_STROKE if "/" in text else _BETWEEN).split(tied(text.strip()))
    numeric = all(word == NONE or word in DITTO or isinstance(number_in(word, field.unit), float) for word in words)
    if len(words) < 2 or not numeric or words[0] in DITTO or in_mixed_units(words, [field.unit] * len(words)):
        return []
    said: list[str] = []
    for word in words:
        said.append(said[-1] if word in DITTO else word)
    return ["" if word == NONE else word for word in said]


def runs_of(texts: Mapping[Field, str]) -> dict[str, list[str]]:
    """Name of a field -> the figures of its run, as many for each; {} where there is none. Raises NotANumber.

    What can be one figure or a run, as 12 500, is a run where another is one.
    """
    found = {field: run for field, text in texts.items() if (run := figures_in(field, text))}
    number = max(map(len, found.values()), default=0)
    if found:
        found |= {field: run for field, text in texts.items() if (run := pieces_of(field, text))}
    for field, run in found.items():
        if len(run) != number or number > MOST:
            raise _uneven(field, texts[field], len(run), number)
    return {field.name: run for field, run in found.items()}


def _uneven(field: Field, text: str, given: int, number: int) -> FieldbookError:
    reason, remedy = f"has {given} figures, where another has {number}.", "Give as many, or one that holds for all."
    if given == number:
        reason, remedy = f"has {given:,} figures.", f"Enter at most {MOST} at once."
    return NotANumber(reason, remedy, field=field.name, value=text, about=field.label)


def _is_one(field: Field, text: str) -> bool:
    figure = number_in(text, field.unit)
    return isinstance(figure, float) and field.low <= figure <= field.high
