"""What is said of any site is said to people: no figure that says nothing, and no name that only a check knows."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from hypothesis import given

from fieldbook.findings import Finding
from tests.findings.generated import Making
from tests.findings.test_laws import SEEDS, UNHURRIED, answers, made, told

pytestmark = [pytest.mark.slow, pytest.mark.long]  # plays long games

NO_FIGURE = re.compile(r"\b(inf|nan|None)\b|\de[+-]\d|\d{5,} %")
NAME_OF_A_CHECK = re.compile(r"\b[a-z]+_[a-z0-9_]+")


def sentences(finding: Finding) -> Iterator[str]:
    """All that a finding says in sentences."""
    yield from (finding.verdict.sentence, *finding.assumed, *finding.left_out)


@UNHURRIED
@given(SEEDS)
def test_no_sentence_has_a_figure_or_a_name_that_says_nothing(seed: int) -> None:
    """Nothing is without end, a hundredfold of all there is, written in powers of ten, or called as in a program."""
    for finding in answers(made(Making(seed))).values():
        for sentence in sentences(finding):
            assert not NO_FIGURE.search(sentence), told(finding)
            assert not NAME_OF_A_CHECK.search(sentence), told(finding)
