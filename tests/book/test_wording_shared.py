"""Values in words, at the desk; tests/js runs the same cases on the phone."""

from __future__ import annotations

import pytest

from fieldbook.book import wording
from tests.cases.shared import cases

CASES = cases("wording")
SAID = {
    "days": wording.day,
    "moments": wording.moment,
    "counts": wording.count,
    "figures": wording.figure,
    "lists": wording.joined,
    "spans": wording.span,
    "sentences": wording.kept_together,
}


@pytest.mark.parametrize("what", SAID)
def test_values_are_said_as_on_the_phone(what: str) -> None:
    """Days, moments, counts, figures, lists, spans and sentences read the same on desk, phone and paper."""
    assert [SAID[what](*given) for *given, _ in CASES[what]] == [words for *_, words in CASES[what]]


def test_every_sort_of_words_has_cases() -> None:
    """No sort goes without."""
    assert set(CASES) == set(SAID)
