"""The description of the kinds itself."""

from __future__ import annotations

import re

import pytest

from fieldbook.book.next_mark import EXAMPLE
from fieldbook.errors import UnknownKind
from fieldbook.model.fields import ANY, Type
from fieldbook.model.kinds import KINDS, Kind, kind_named

UNIT_SUFFIXES = {"mm": "_mm", "kg": "_kg", "N": "_n", "N m": "_nm", "°": "_deg", "%": "_pct", "lx": "_lx", "px": "_px"}
WANTED = ["site", "room", "face", "zone", "limit", "hold", "member", "reading", "log", "observation", "patch"]
WANTED += ["fitting", "fixing", "finish", "colour", "agreement", "decision", "document", "task", "visit", "work"]
WANTED += ["statement", "photograph", "pointer", "cost", "material", "build_up"]


def test_kinds_are_those_of_the_trade() -> None:
    """There are the kinds the trade works with, each under its own name and after what it belongs to."""
    assert list(KINDS) == WANTED


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.name)
def test_kind_fields_are_named_once_and_carry_their_unit(kind: Kind) -> None:
    """Field names are unique, spelled in snake case, and end in their unit."""
    names = [field.name for field in kind.fields]
    assert len(names) == len(set(names))
    for field in kind.fields:
        assert re.fullmatch(r"[a-z][a-z0-9_]*", field.name)
        assert (
            not field.unit
            or field.unit not in UNIT_SUFFIXES
            or field.type is Type.OUTLINE
            or (field.name.endswith(UNIT_SUFFIXES[field.unit]))
        )


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.name)
def test_kind_belongs_to_a_kind_described_before_it(kind: Kind) -> None:
    """A kind's parent is a required link to a kind further up, so that gathering meets parents first."""
    if kind.name == "site":
        assert not kind.parent
        return
    parent = kind.by_name[kind.parent]
    assert (parent.type, parent.required) == (Type.LINK, True)
    assert list(KINDS).index(parent.to) < list(KINDS).index(kind.name)


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.name)
def test_kind_links_and_choices_are_complete(kind: Kind) -> None:
    """Every link says to what, every choice has choices, every table has columns."""
    for field in kind.fields:
        if field.type in {Type.LINK, Type.LINKS}:
            assert field.to == ANY or field.to in KINDS
        if field.type in {Type.CHOICE, Type.CHOICES}:
            assert len(field.choices) == len(set(field.choices)) > 1
        if field.type in {Type.ROWS, Type.OUTLINE}:
            assert field.columns


def test_kind_named_unknown_is_refused() -> None:
    """A name that is no kind's is refused, with the value."""
    with pytest.raises(UnknownKind) as refusal:
        kind_named("gadget")
    assert (refusal.value.field, refusal.value.value) == ("kind", "gadget")


def test_title_takes_mark_and_name() -> None:
    """A heading shows mark and name; an item without either shows its kind."""
    assert KINDS["fitting"].title({"mark": "D4", "name": "Picture rail"}) == "D4 Picture rail"
    assert KINDS["fitting"].title({"mark": "D4", "name": "Rail", "purpose": "carries the panels"}) == "D4 Rail"
    assert KINDS["visit"].title({"purpose": "survey", "on": "2026-03-02"}) == "survey"
    assert KINDS["hold"].title({}) == "Existing hole or fixing point"


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.name)
def test_names_and_words_are_never_used_again(kind: Kind) -> None:
    """A former name is nobody's present one, a former word leads to one that is still known, once."""
    former = [name for field in kind.fields for name in field.renamed_from]
    assert len(former) == len(set(former))
    assert not set(former) & kind.by_name.keys()
    for field in (*kind.fields, *(column for one in kind.fields for column in one.columns)):
        before = [word for word, _ in field.renamed_choices]
        assert len(before) == len(set(before))
        assert not set(before) & set(field.words)
        assert {word for _, word in field.renamed_choices} <= set(field.words)
        assert len(field.words) == len(set(field.words))


def test_marks_of_each_kind_begin_with_letters_of_their_own() -> None:
    """Else the first of one kind would be offered a mark that another has."""
    named = [found[1] for kind in KINDS.values() for field in kind.asked if (found := EXAMPLE.fullmatch(field.help))]
    assert named
    assert len(set(named)) == len(named)
