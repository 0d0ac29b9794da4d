"""Names of files: whatever people call things, every system takes them and none leads elsewhere."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.record.file_names import RESERVED, names_for, safe_name
from tests.examples import examples


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("R1-N North wall", "R1-N-North-wall"),
        ("../../etc/passwd", "etc-passwd"),
        ("<b>=cmd|' /C calc'!A0</b>", "b-cmd-C-calc-A0-b"),
        ("CON", "CON-face"),
        ("lpt1", "lpt1-face"),
        ("Außenwand Süd", "Auenwand-Sud"),
        ("北の壁", "face"),
        ("a\nb\r\0", "a-b"),
        ("...", "face"),
    ],
)
def test_name_is_made_of_what_every_system_takes(words: str, name: str) -> None:
    """Paths, markup, formulas, names a system keeps for itself and other scripts all end as plain names."""
    assert safe_name(words, "face") == name


@examples(200)
@given(st.lists(st.text(max_size=60), max_size=6))
def test_names_are_plain_and_differ_also_where_case_does_not_count(called: list[str]) -> None:
    """Any words give names of their own."""
    names = list(names_for(enumerate(called), "face").values())
    assert all(re.fullmatch(r"[A-Za-z0-9-]{1,70}", name) and name.lower() not in RESERVED for name in names)
    assert len({name.lower() for name in names}) == len(called)
