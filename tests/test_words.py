"""Words that are said to nobody: what is not forbidden is not thereby agreed to."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
NEVER_SAID = re.compile(r"\ballowed\b", re.IGNORECASE)
SHOWN = [*ROOT.glob("templates/**/*.html"), *ROOT.glob("static/**/*.js")]
COMMENT = re.compile(r"/\*.*?\*/|^\s*//.*?$|\{#.*?#\}", re.DOTALL | re.MULTILINE)


def said_in(path: Path) -> Iterator[str]:
    """The texts of a module that somebody may read: all strings but docstrings and names of fields and keys."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    docstrings = {
        id(node.body[0].value)
        for node in ast.walk(tree)
        if isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef))
        and node.body
        and isinstance(node.body[0], ast.Expr)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docstrings:
            yield node.value


@pytest.mark.parametrize("path", sorted(ROOT.glob("fieldbook/**/*.py")), ids=lambda path: path.name)
def test_no_sentence_of_a_module_says_that_something_is_allowed(path: Path) -> None:
    """Old fabric is agreed, not agreed or not known; a limit is a limit."""
    assert [text for text in said_in(path) if NEVER_SAID.search(text)] == []


@pytest.mark.parametrize("path", sorted(SHOWN), ids=lambda path: path.name)
def test_no_page_says_that_something_is_allowed(path: Path) -> None:
    """Neither at the desk nor on the phone."""
    assert NEVER_SAID.search(COMMENT.sub("", path.read_text(encoding="utf-8"))) is None
