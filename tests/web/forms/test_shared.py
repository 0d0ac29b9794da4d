"""What new forms show and offer, at the desk; tests/js runs the same cases on the phone."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from werkzeug.datastructures import MultiDict

from fieldbook.book.same_mark import same_mark_warning
from fieldbook.model.fields import Type
from fieldbook.model.kinds import KINDS
from fieldbook.web.forms.options import Options
from fieldbook.web.forms.presets import presets
from fieldbook.web.forms.words_before import words_before
from tests.cases.shared import cases, shared_site


@pytest.mark.parametrize("case", cases("presets"), ids=lambda case: case["what"])
def test_new_form_shows_what_it_does_on_the_phone(case: dict[str, Any]) -> None:
    """Usual values, what the address gives and what another item's copy takes over."""
    kind = KINDS[case["kind"]]
    found = presets(kind, shared_site(), MultiDict(case["address"]))
    words = {Type.DATE: "today", Type.MOMENT: "now"}
    timed = {name: words.get(kind.by_name[name].type, value) for name, value in found.items() if value is not None}
    assert timed == case["expect"]
    assert all(found[name][:4] >= str(date.today().year - 1) for name in found if timed.get(name) in words.values())


@pytest.mark.parametrize("case", cases("words_before"), ids=lambda case: case["what"])
def test_words_are_offered_again_as_on_the_phone(case: dict[str, Any]) -> None:
    """Those of its own kind first; who somebody is from every kind."""
    kind = KINDS[case["kind"]]
    assert words_before(shared_site(), kind, [kind.by_name[case["field"]]])[case["field"]] == case["expect"]


def test_what_belongs_to_a_place_a_moment_or_a_person_is_copied_by_no_kind() -> None:
    """Marks, states, days, files and what somebody agreed or signed are never taken over."""
    own = {"mark", "reference", "state", "sha256", "signature", "answer", "agreement", "consent", "fitted_on"}
    copied = {(kind.name, field.name) for kind in KINDS.values() for field in kind.fields if field.copied}
    assert [pair for pair in copied if pair[1] in own] == []


@pytest.mark.parametrize("case", cases("options"), ids=lambda case: case["what"])
def test_link_offers_what_it_does_on_the_phone(case: dict[str, Any]) -> None:
    """Items under the plural of their kind, in order, and what is pointed to already."""
    field = KINDS[case["kind"]].by_name[case["field"]]
    groups = Options(shared_site(), case.get("photograph")).of(field, case["chosen"])
    found = {heading: [list(pair) for pair in pairs] for heading, pairs in groups.items() if heading}
    assert list(found) == list(case["expect"])
    assert found == case["expect"]


def test_link_to_anything_offers_no_photograph_and_no_cost() -> None:
    """What nobody points to is not offered."""
    groups = Options(shared_site()).of(KINDS["agreement"].by_name["items"], [])
    offered = {name for name, kind in KINDS.items() if kind.plural in groups}
    assert offered == {kind for kind in KINDS if shared_site().all(kind) and kind not in ("photograph", "cost")} | {
        "site"
    }


@pytest.mark.parametrize("case", cases("same_mark"), ids=lambda case: case["what"])
def test_mark_is_told_of_as_on_the_phone(case: dict[str, Any]) -> None:
    """Whoever carries it already is named, whatever its kind."""
    assert same_mark_warning(shared_site(), case["kind"], case["mark"], case["item"]) == case["warning"]
