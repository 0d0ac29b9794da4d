"""Words that are said to nobody: what is not forbidden is not thereby agreed to; and words nobody says at work."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
NEVER_SAID = re.compile(r"\ballowed\b", re.IGNORECASE)
MODULES = sorted(ROOT.glob("fieldbook/**/*.py"))
PAGES, SCRIPTS = sorted(ROOT.glob("templates/**/*.html")), sorted(ROOT.glob("static/**/*.js"))
TAG = re.compile(r"\{%.*?%\}|\{\{.*?\}\}|<[^>]*>", re.DOTALL)
COMMENT = re.compile(r"/\*.*?\*/|^\s*//.*?$|\{#.*?#\}", re.DOTALL | re.MULTILINE)


def shown_in(path: Path) -> str:
    """A page or a script without its comments."""
    return COMMENT.sub("", path.read_text(encoding="utf-8"))


@cache
def said_in(path: Path) -> list[str]:
    """The texts of a module that somebody may read: all strings but docstrings and names of fields and keys."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    docstrings = {
        id(node.body[0].value)
        for node in ast.walk(tree)
        if isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef))
        and node.body
        and isinstance(node.body[0], ast.Expr)
    }
    return [
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docstrings
    ]


# Words that no code uses as a name either, so that scripts can be read whole.
OLD = {
    r"foretold": "expected",
    r"amid": "in the middle of",
    r"anew": "again",
    r"shall": "must",
    r"lest": "so that not",
    r"whither|hither(to)?|thence|hence": "where, here, until now, so",
    r"stood before": "was there before",
    r"parted by": "separated by",
    r"sees? to": "deal with",
    r"comes? (of itself|round)": "is worked out, or is regular",
}
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
    r"lack(s|ing)?": "missing, or needs",
    r"vouch(es|ed)?": "prove, or show",
    r"stuff": "material",
    **OLD,
}
QUAINT = re.compile(rf"\b({'|'.join(RATHER)})\b", re.IGNORECASE)
OLD_WORD = re.compile(rf"\b({'|'.join(OLD)})\b", re.IGNORECASE)
FORMER = {"lag screw", "a damage that was not foretold"}  # former words, told as such
SENTENCE = re.compile(r"\s")  # what has none is a name or a key, which stays as it is


def sentences() -> Iterator[tuple[str, str]]:
    """Module and text of each string that is more than a name or a key."""
    for path in MODULES:
        yield from ((path.name, text) for text in said_in(path) if SENTENCE.search(text))


def test_sentences_of_the_modules_are_in_words_of_the_trade() -> None:
    """What a tradesperson or a volunteer would not say has a plain word instead."""
    assert [(module, text) for module, text in sentences() if QUAINT.search(text) and text not in FORMER] == []


def test_pages_are_in_words_of_the_trade() -> None:
    """Tags and what a template computes are no words."""
    pages = {str(path): re.sub(TAG, " ", shown_in(path)) for path in PAGES}
    assert pages
    assert {name: found[0] for name, text in pages.items() if (found := QUAINT.search(text))} == {}


def test_scripts_are_in_words_of_the_trade() -> None:
    """What the phone and the desk's scripts say."""
    said = {str(path): shown_in(path) for path in SCRIPTS}
    assert {name: found[0] for name, text in said.items() if (found := OLD_WORD.search(text))} == {}


def test_no_sentence_of_a_module_says_that_something_is_allowed() -> None:
    """Old fabric is agreed, not agreed or not known; a limit is a limit."""
    assert [(path.name, text) for path in MODULES for text in said_in(path) if NEVER_SAID.search(text)] == []


def test_no_page_says_that_something_is_allowed() -> None:
    """Neither at the desk nor on the phone."""
    assert [path.name for path in [*PAGES, *SCRIPTS] if NEVER_SAID.search(shown_in(path))] == []
