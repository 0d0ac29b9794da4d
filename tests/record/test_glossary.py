"""The record's glossary explains every word a finding can come to."""

from __future__ import annotations

from fieldbook.checks.verdict import Word
from fieldbook.model.kinds import KINDS
from fieldbook.record.glossary import WORDS, glossary, meaning_of, met_in


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


def test_field_is_explained_by_its_label_its_choices_or_what_it_links_to() -> None:
    """The margin of a zone is what is kept free, not only what is left between figure and limit."""
    explained = {
        f"{kind}.{name}": meaning_of(KINDS[kind].by_name[name])
        for kind, name in (
            ("zone", "margin_mm"), ("limit", "margin_mm"), ("fixing", "packers_mm"), ("fixing", "fitted_x_mm"),
            ("fixing", "fabric"), ("fixing", "hold"), ("fixing", "size"),
        )
    }  # fmt: skip
    assert explained["zone.margin_mm"] == explained["limit.margin_mm"] == ("Margin", WORDS["Margin"])
    assert WORDS["Margin"].startswith("of a keep-off zone or a clearance limit: what is kept free")
    words = {name: meant and meant[0] for name, meant in explained.items()}
    assert words["fixing.packers_mm"] == "Packer"
    assert words["fixing.fitted_x_mm"] == "As fitted"
    assert words["fixing.fabric"] == "Old fabric"
    assert explained["fixing.hold"] == (KINDS["hold"].label, KINDS["hold"].meaning)
    assert words["fixing.size"] is None


def test_kind_that_is_not_there_is_not_explained() -> None:
    """Nobody looks up what they do not meet; what drawings and findings speak of is explained in any case."""
    explained = dict(glossary({"site", "cost"}))
    assert {"Cost", "Keep-off zone", "Fixing", "Agreement"} <= explained.keys()
    assert not {"Visit", "Logger file", "Colour measured again"} & explained.keys()


def test_only_words_that_are_met_are_explained() -> None:
    """Those in a text, in any number and case, and those in the meanings of these."""
    words = [
        ("Leaf", "swings"),
        ("Margin", "beside a keep-off zone"),
        ("Keep-off zone", "a part"),
        ("Packer", "a shim"),
    ]
    assert [word for word, _ in met_in("MARGINS in words; packersmith", words)] == ["Keep-off zone", "Margin"]
