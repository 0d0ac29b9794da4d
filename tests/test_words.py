"""Words that are said to nobody: what is not forbidden is not thereby agreed to; and words nobody says at work."""

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


# Words of this house's earlier screens that nobody says at work, and what is said instead.
RATHER = {
    r"reckon\w*": "calculate, or work out",
    r"mend(ed)?": "correct",
    r"at a glance": "overview",
    r"existing holds?": "existing hole or fixing point",
    r"of what touches": "contact radius",
    r"penetration": "depth into the wall",
    r"shut out": "remove this phone",
    r"what waits": "not sent yet",
    r"tak(e|en) (it )?back": "import",
    r"lag screws?": "coach screw",
    r"traces": "marks left",
}
QUAINT = re.compile(rf"\b({'|'.join(RATHER)})\b", re.IGNORECASE)
SENTENCE = re.compile(r"\s")  # what has none is a name or a key, which stays as it is


@pytest.mark.parametrize("path", sorted(ROOT.glob("fieldbook/**/*.py")), ids=lambda path: path.name)
def test_sentences_of_a_module_are_in_words_of_the_trade(path: Path) -> None:
    """What a tradesperson or a volunteer would not say has a plain word instead; a former word may be told as such."""
    said = [text for text in said_in(path) if SENTENCE.search(text) and text != "lag screw"]
    assert [text for text in said if QUAINT.search(text)] == []


@pytest.mark.parametrize("path", sorted(ROOT.glob("templates/**/*.html")), ids=lambda path: path.name)
def test_pages_are_in_words_of_the_trade(path: Path) -> None:
    """Tags and what a template computes are no words."""
    text = re.sub(
        r"\{%.*?%\}|\{\{.*?\}\}|<[^>]*>", " ", COMMENT.sub("", path.read_text(encoding="utf-8")), flags=re.DOTALL
    )
    assert QUAINT.search(text) is None


@pytest.mark.parametrize("path", sorted(ROOT.glob("fieldbook/**/*.py")), ids=lambda path: path.name)
def test_no_sentence_of_a_module_says_that_something_is_allowed(path: Path) -> None:
    """Old fabric is agreed, not agreed or not known; a limit is a limit."""
    assert [text for text in said_in(path) if NEVER_SAID.search(text)] == []


@pytest.mark.parametrize("path", sorted(SHOWN), ids=lambda path: path.name)
def test_no_page_says_that_something_is_allowed(path: Path) -> None:
    """Neither at the desk nor on the phone."""
    assert NEVER_SAID.search(COMMENT.sub("", path.read_text(encoding="utf-8"))) is None
