"""Each name means one thing across the house."""

from __future__ import annotations

import ast
import re
from collections import defaultdict

from tests.test_imports import ROOT, modules_below

ENDINGS = ("s", "es", "ing", "y")
PAGES = "fieldbook.web.pages."  # called like their addresses
STATE = re.compile(r"""[!=]==?\s*["']taken down["']|["']taken down["']\s*[!=]==?""")


def test_each_class_name_means_one_thing() -> None:
    """No two modules define a public class of the same name."""
    homes = defaultdict(list)
    for name, path in modules_below(ROOT).items():
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                homes[node.name].append(name)
    assert {name: found for name, found in homes.items() if len(found) > 1} == {}


def test_no_two_modules_of_one_part_differ_by_an_ending() -> None:
    """Whoever looks for a module is not left to guess between singular and plural."""
    parts = defaultdict(set)
    for name in modules_below(ROOT):
        if not name.startswith(PAGES):
            part, _, stem = name.rpartition(".")
            parts[part].add(stem)
    twins = [
        f"{part}.{one} and {one}{ending}"
        for part, stems in parts.items()
        for one in stems
        for ending in ENDINGS
        if f"{one}{ending}" in stems
    ]
    assert twins == []


def test_what_was_taken_down_is_told_in_one_place_on_each_side() -> None:
    """Nobody compares a state with the word but the one who says whether a thing still counts."""
    folders = {"fieldbook": "*.py", "static": "*.js", "templates": "*.html"}
    files = [path for folder, ending in folders.items() for path in sorted((ROOT / folder).rglob(ending))]
    found = [path.relative_to(ROOT) for path in files if STATE.search(path.read_text(encoding="utf-8"))]
    assert found == [], f"ask `stands` of fieldbook/book/site.py or static/phone/book/site.js: {found}"


def test_literals_compared_with_a_state_are_found() -> None:
    """The look for them finds both ways of writing it, in both languages."""
    for line in ('if item.state == "taken down":', "values.state !== 'taken down'", '"taken down" == state'):
        assert STATE.search(line)
    assert not STATE.search('down = {"taken down": 3}["taken down"]')
