"""Tables as CSV: whatever is in a cell comes out as it went in, and nothing of it is a formula."""

from __future__ import annotations

import csv
from io import StringIO

from hypothesis import example, given
from hypothesis import strategies as st

from fieldbook.model.fields import Type
from fieldbook.model.kinds import KINDS
from fieldbook.record.csv_tables import csv_of, dictionary
from tests.examples import examples

WORDS = st.text(st.characters(exclude_categories=("Cs",)), max_size=40)


@examples(100)
@given(st.lists(WORDS, min_size=1, max_size=4))
@example(["=1+1", "@SUM(A1)", "-2+3", "+1", "'=1", "\t=1"])
@example(['a"b', "a,b", "a\r\nb", "a\nb", ""])
def test_cells_come_out_as_they_went_in_and_none_is_a_formula(cells: list[str]) -> None:
    """An apostrophe in front, where there is one, is all that was added (RFC 4180 otherwise)."""
    text = csv_of([cells])
    assert text.endswith("\r\n")
    (row,) = csv.reader(StringIO(text, newline=""), strict=True)
    assert not any(cell.startswith(("=", "+", "-", "@", "\t", "\r")) for cell in row)
    assert [cell[1:] if cell.startswith("'") else cell for cell in row] == cells


def test_number_below_nothing_stays_a_number() -> None:
    """A minus before a figure is no formula."""
    assert csv_of([[-12.5, -3]]) == "-12.5,-3\r\n"


def test_dictionary_has_every_field_with_its_unit_once() -> None:
    """What a column means is found by table and column."""
    heads, *rows = dictionary()
    named = [(row[0], row[1]) for row in rows]
    assert heads[:2] == ["table", "column"]
    assert len(set(named)) == len(named)
    units = {(row[0], row[1]): row[3] for row in rows}
    for kind in KINDS.values():
        for field in kind.fields:
            assert units[kind.name, field.name] == field.unit
            assert (field.type not in {Type.LINK, Type.LINKS}) or (kind.name, f"{field.name}_in_words") in units
