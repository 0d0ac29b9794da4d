"""The tree is the design: which part may know which, and how large a piece may grow.

To give a new module its place, add its name to LAYERS; nothing else here needs to change.
"""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterator, Mapping
from functools import cache
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

pytestmark = pytest.mark.xdist_group("tree")  # every module is read, once

ROOT = Path(__file__).resolve().parent.parent

# Each line may import from the lines above it. A part imports nothing of its own line; the modules
# of one part import each other, but never in a ring.
LAYERS = (
    ("errors", "folders"),
    ("model", "checks", "set_up"),
    ("book", "calculations", "bootstrap"),
    ("phones", "serving", "findings"),
    ("drawing",),
    ("record",),
    ("demo_site",),
    ("web",),
    ("cli",),
    ("__main__",),
)

# Of these parts, all that they may import beyond the standard library and their own modules.
ONLY = {
    "errors": set(),
    "model": {"errors", "shapely"},
    "checks": {"errors", "shapely"},
    "set_up": {"errors"},
    "bootstrap": {"errors", "set_up"},
}

MODULE_LINES, FUNCTION_LINES = 500, 50
SCRIPT_LINES, SERVICE_WORKER_LINES = 200, 150

SCRIPT_IMPORT = re.compile(
    r"""^\s*(?:import|export)\s[^;"'()]*?\bfrom\s*["']([^"']+)["']|"""
    r"""^\s*import\s*["']([^"']+)["']|\bimport\(\s*["']([^"']+)["']\s*\)""",
    re.MULTILINE,
)
SCRIPT_COMMENT = re.compile(r"/\*.*?\*/|^\s*//.*?$", re.DOTALL | re.MULTILINE)


def modules_below(root: Path) -> dict[str, Path]:
    """Dotted name -> file, for the house's own Python modules."""
    paths = [path for top in ("fieldbook", "demo_site") for path in sorted((root / top).rglob("*.py"))]
    return {".".join(path.relative_to(root).with_suffix("").parts).removesuffix(".__init__"): path for path in paths}


@cache
def nodes_of(text: str) -> tuple[ast.AST, ...]:
    """All there is in a module of this text."""
    return tuple(ast.walk(ast.parse(text)))


def imports_of(name: str, modules: Mapping[str, Path]) -> set[str]:
    """What a module imports, anywhere in it: a house module's dotted name, or another's top-level name."""
    found = set()
    tops = {known.split(".")[0] for known in modules}
    for node in nodes_of(modules[name].read_text(encoding="utf-8")):
        if isinstance(node, ast.Import):
            targets = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            start = _package(name, modules, node.level) + (node.module or "")
            targets = [f"{start.rstrip('.')}.{alias.name}" for alias in node.names]
        else:
            continue
        found |= {_module(target, modules, tops) for target in targets}
    return found - {name}


def _package(name: str, modules: Mapping[str, Path], level: int) -> str:
    """What the dots of a relative import stand for, with a dot after it; nothing for an absolute one."""
    if level == 0:
        return ""
    steps = level - (modules[name].name == "__init__.py")
    parts = name.split(".")
    return ".".join(parts[: len(parts) - steps]) + "."


def _module(target: str, modules: Mapping[str, Path], tops: set[str]) -> str:
    """The module a dotted target lies in."""
    if target.split(".")[0] not in tops:
        return target.split(".")[0]
    while target not in modules and "." in target:
        target = target.rpartition(".")[0]
    return target


def part_of(name: str) -> str:
    """The part of the house, as LAYERS names it: fieldbook.checks.keep_off is of checks."""
    top, *rest = name.split(".")
    return rest[0] if top == "fieldbook" and rest else top


def wrong_directions(modules: Mapping[str, Path]) -> Iterator[str]:
    """Each import that LAYERS or ONLY does not allow, in words."""
    level = {part: number for number, line in enumerate(LAYERS) for part in line}
    for name in modules:
        part = part_of(name)
        if part != "fieldbook" and part not in level:
            yield f"{name} has no place in LAYERS"
            continue
        for imported in imports_of(name, modules):
            other = part_of(imported) if imported in modules else imported
            if other == part or other in sys.stdlib_module_names or (other == "fieldbook" and part != "fieldbook"):
                continue
            if part in ONLY and other not in ONLY[part]:
                yield f"{name} imports {imported}; {part} may import only {sorted(ONLY[part]) or 'what Python brings'}"
            elif other in level and not level.get(part, -1) > level[other]:
                yield f"{name} imports {imported}, which lies in the same line of LAYERS or below it"


def ring_in(graph: Mapping[str, set[str]]) -> list[str]:
    """The names along one ring of imports, or nothing."""
    try:
        list(TopologicalSorter(graph).static_order())
    except CycleError as error:
        return error.args[1]
    return []


def import_graph(modules: Mapping[str, Path]) -> dict[str, set[str]]:
    """House module -> house modules it imports."""
    return {name: imports_of(name, modules) & modules.keys() for name in modules}


def oversized(modules: Mapping[str, Path]) -> Iterator[str]:
    """Each module and function that is longer than the house allows, in words."""
    for name, path in modules.items():
        text = path.read_text(encoding="utf-8")
        if len(text.splitlines()) > MODULE_LINES:
            yield f"{name} has {len(text.splitlines())} lines, more than {MODULE_LINES}"
        for node in nodes_of(text):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) and _lines_of(node) > FUNCTION_LINES:
                yield f"{name}.{node.name} has {_lines_of(node)} lines, more than {FUNCTION_LINES}"


def _lines_of(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Lines of a function without its docstring."""
    first = function.body[0]
    documented = ast.get_docstring(function) is not None
    docstring = first.end_lineno - first.lineno + 1 if documented else 0
    return function.end_lineno - function.lineno + 1 - docstring


def script_graph(static: Path, *, types: bool = False) -> dict[Path, set[Path]]:
    """Script -> the files it imports, whether they exist or not; a bare or absolute name stays below no folder.

    With `types` also those that its comments import types from.
    """
    graph = {}
    for path in sorted(static.rglob("*.js")):
        text = path.read_text(encoding="utf-8")
        text = text if types else SCRIPT_COMMENT.sub("", text)
        names = ["".join(groups) for groups in SCRIPT_IMPORT.findall(text)]
        graph[path] = {(path.parent / name).resolve() if name.startswith(".") else Path(name) for name in names}
    return graph


def oversized_scripts(static: Path) -> Iterator[str]:
    """Each script that is longer than the house allows, in words."""
    for path in sorted(static.rglob("*.js")):
        lines = len(path.read_text(encoding="utf-8").splitlines())
        most = SERVICE_WORKER_LINES if path.name == "sw.js" else SCRIPT_LINES
        if lines > most:
            yield f"{path.relative_to(static)} has {lines} lines, more than {most}"


def tree(root: Path, files: Mapping[str, str]) -> Path:
    """Write a small tree of files."""
    for name, text in files.items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return root


def test_imports_of_the_house_run_one_way():
    """No module knows a part that it must not know."""
    findings = list(wrong_directions(modules_below(ROOT)))
    assert not findings, "\n".join(findings)


def test_imports_of_the_house_form_no_ring():
    """No module needs itself by way of others."""
    assert ring_in(import_graph(modules_below(ROOT))) == []


def test_pieces_of_the_house_stay_small():
    """No module or function has outgrown what can be read in one sitting."""
    findings = list(oversized(modules_below(ROOT)))
    assert not findings, "\n".join(findings)


def asks_the_day(text: str) -> list[int]:
    """Lines that ask which day it is, or have things asked without telling the day."""
    calls = [node for node in nodes_of(text) if isinstance(node, ast.Call)]
    names = [(node, getattr(node.func, "attr", getattr(node.func, "id", ""))) for node in calls]
    silent = [node for node, name in names if name == "appraise" and len(node.args) + len(node.keywords) < 2]
    return sorted(node.lineno for node in [*silent, *(node for node, name in names if name == "today")])


def test_what_is_drawn_and_handed_over_asks_no_calendar():
    """An edition speaks of its own day, however much later it is made again; so the day is told, never asked for."""
    modules = {name: path for name, path in modules_below(ROOT).items() if part_of(name) in {"drawing", "record"}}
    found = {name: asks_the_day(path.read_text(encoding="utf-8")) for name, path in modules.items()}
    assert {name: lines for name, lines in found.items() if lines} == {}
    assert asks_the_day("a = date.today()\nb = appraise(site)\nc = appraise(site, day)") == [1, 2]


def test_imports_of_scripts_resolve():
    """Every import in a script names a script that is there, by a relative path."""
    graph = script_graph(ROOT / "static")
    assert [(str(path), str(name)) for path, names in graph.items() for name in names if name not in graph] == []


def test_imports_of_scripts_form_no_ring():
    """No script needs itself by way of others, nor by way of the types it names."""
    graph = script_graph(ROOT / "static", types=True)
    assert ring_in({path: names - {path} for path, names in graph.items()}) == []


def test_scripts_stay_small():
    """No script has outgrown what can be read in one sitting."""
    findings = list(oversized_scripts(ROOT / "static"))
    assert not findings, "\n".join(findings)


@pytest.mark.parametrize(
    ("module", "text", "imported"),
    [
        ("fieldbook/checks/keep_off.py", "from .. import book", "fieldbook.book"),
        ("fieldbook/checks/keep_off.py", "import numpy", "numpy"),
        ("fieldbook/checks/keep_off.py", "def late():\n    from ..book import Book", "fieldbook.book"),
        ("fieldbook/model/kinds.py", "from fieldbook.book import Book", "fieldbook.book"),
        ("fieldbook/record/__init__.py", "from .. import web", "fieldbook.web"),
        ("fieldbook/record/pages.py", "from ..web.desk import page", "fieldbook.web.desk"),
        ("fieldbook/drawing/elevation.py", "from ..record import pdf", "fieldbook.record"),
        ("fieldbook/__init__.py", "from .errors import FieldbookError", "fieldbook.errors"),
        ("demo_site/__init__.py", "from fieldbook import web", "fieldbook.web"),
    ],
)
def test_import_against_the_direction_is_reported(tmp_path, module, text, imported):
    """An import of a part further down, or of a foreign one where none may be, is named."""
    house = {"fieldbook/__init__.py": "", "fieldbook/errors.py": "", "fieldbook/book.py": "from .errors import Refused"}
    house |= {
        "fieldbook/record/__init__.py": "",
        "fieldbook/web/__init__.py": "",
        "fieldbook/web/desk.py": "from ..book import Book\nimport flask",
    }
    assert list(wrong_directions(modules_below(tree(tmp_path, house)))) == []
    (finding,) = wrong_directions(modules_below(tree(tmp_path, {module: text})))
    assert f"imports {imported}" in finding


def test_module_without_a_place_is_reported(tmp_path):
    """A module that LAYERS does not name cannot slip in."""
    (finding,) = wrong_directions(modules_below(tree(tmp_path, {"fieldbook/lumber.py": ""})))
    assert "fieldbook.lumber" in finding


def test_ring_inside_a_package_is_reported(tmp_path):
    """Two modules of one package that import each other are named."""
    files = {
        "fieldbook/web/__init__.py": "from . import desk",
        "fieldbook/web/desk.py": "from .phone import a",
        "fieldbook/web/phone.py": "from . import desk",
    }
    assert {"fieldbook.web.desk", "fieldbook.web.phone"} <= set(
        ring_in(import_graph(modules_below(tree(tmp_path, files))))
    )


def test_long_module_and_long_function_are_reported(tmp_path):
    """One line too many is enough, and a docstring's lines do not count."""
    body = "    pass\n" * (FUNCTION_LINES - 1)
    allowed = f'def short():\n    """One.\n\n    Two.\n    """\n{body}'
    assert list(oversized(modules_below(tree(tmp_path, {"fieldbook/model/kinds.py": allowed})))) == []
    files = {
        "fieldbook/model/kinds.py": f"def long():\n{body}    pass\n",
        "fieldbook/book/book.py": "\n" * (MODULE_LINES + 1),
    }
    book, kinds = oversized(modules_below(tree(tmp_path, files)))
    assert "fieldbook.book.book has 501" in book
    assert "fieldbook.model.kinds.long has 51" in kinds


@pytest.mark.parametrize(
    "text",
    [
        'import { a } from "./missing.js";',
        'import {\n  a,\n  b,\n} from "./missing.js";',
        "export { a } from './missing.js';",
        'import "./missing.js";',
        'const late = await import("./missing.js");',
        'import a from "bare";',
        'import a from "/static/page.js";',
    ],
)
def test_script_import_that_leads_nowhere_is_reported(tmp_path, text):
    """Every form of import is seen, and only a relative path to a script that is there resolves."""
    graph = script_graph(tree(tmp_path, {"page.js": text}))
    (imported,) = graph[tmp_path / "page.js"]
    assert imported not in graph


def test_script_import_in_a_comment_is_no_import(tmp_path):
    """What a comment or a text says is not read as an import."""
    text = """
        // import a from "./a.js"
        /* import "./b.js" */
        /**
         * @param {import("./c.js").C} c
         */
        const from = "import";
        say("import d from './d.js'");
    """
    graph = script_graph(tree(tmp_path, {"page.js": text}))
    assert graph == {tmp_path / "page.js": set()}


def test_ring_of_scripts_is_reported(tmp_path):
    """Two scripts that import each other are named."""
    files = {"a.js": 'import { b } from "./deep/b.js";', "deep/b.js": 'import { a } from "../a.js";'}
    assert {path.name for path in ring_in(script_graph(tree(tmp_path, files)))} == {"a.js", "b.js"}


def test_long_scripts_are_reported(tmp_path):
    """A script has its limit, and the service worker a lower one."""
    files = {"page.js": "\n" * SCRIPT_LINES, "sw.js": "\n" * (SERVICE_WORKER_LINES + 1)}
    assert list(oversized_scripts(tree(tmp_path, files))) == ["sw.js has 151 lines, more than 150"]
