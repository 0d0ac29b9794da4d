"""The record's glossary explains every word a finding can come to."""

from __future__ import annotations

from fieldbook.checks.verdict import Word
from fieldbook.record.glossary import glossary


def test_glossary_explains_each_word_of_a_finding() -> None:
    """Whoever meets one of the eight words finds what it means, and that it is said of a finding."""
    explained = dict(glossary())
    assert all(explained[word.capitalize()].startswith("of a finding: ") for word in Word)
    assert all(word in explained["Finding"] for word in Word)
    assert "Verdict" not in explained


def test_glossary_is_in_the_order_of_the_alphabet() -> None:
    """A word is looked up as in a dictionary."""
    words = [word.lower() for word, _ in glossary()]
    assert words == sorted(words)
