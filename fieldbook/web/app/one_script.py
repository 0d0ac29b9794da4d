"""The app's modules as one script: a phone opens one file in a third of the time that two hundred take.

Each module becomes a function that is called once, after those it needs; what it exports are the properties of what
it gives back. The modules hold to what is understood here: names imported and exported at the beginning of a line,
none by default, none that is given another value later, and no two modules that need each other.
"""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterable, Iterator, Mapping
from graphlib import TopologicalSorter

_IMPORT = re.compile(r'^import (?:(\{[^}]*\}|\* as \w+) from )?"([^"]+)";$', re.MULTILINE)
_HANDED_ON = re.compile(r'^export (\{[^}]*\}) from "([^"]+)";$', re.MULTILINE)
_EXPORT = re.compile(r"^export (?=(?:async )?(?:function\*?|const|class) (\w+|\[[\w, ]+\]))", re.MULTILINE)
_NOT_UNDERSTOOD = re.compile(r"^(?:import|export|await)\b.*", re.MULTILINE)
_NAMED = re.compile(r"(\w+)(?: as (\w+))?")
_EACH = 'modules["{name}"] = (() => {{\n{text}\nreturn {{ {exported} }};\n}})();\n'


def joined(first: str, modules: Mapping[str, str]) -> str:
    """One module that does what this one does with all it needs, and exports them as `modules`, by their paths.

    modules  path -> text of each that there is; they name each other from where they lie

    Raises ValueError for what is not understood, KeyError for a module that is not there, and CycleError.
    """
    needed: dict[str, list[str]] = {}
    found = [first]
    while found:
        name = found.pop()
        if name not in needed:
            needed[name] = [*_needed(name, modules[name])]
            found += needed[name]
    order = TopologicalSorter(needed).static_order()
    return "".join(["export const modules = {};\n", *(_as_function(name, modules[name]) for name in order)])


def _needed(name: str, text: str) -> Iterator[str]:
    for pattern in (_IMPORT, _HANDED_ON):
        yield from (_from(name, found[2]) for found in pattern.finditer(text))


def _from(name: str, address: str) -> str:
    return posixpath.normpath(posixpath.join(posixpath.dirname(name), address))


def _as_function(name: str, text: str) -> str:
    exported = [named for found in _HANDED_ON.finditer(text) for _, named in _names(found[1])]
    exported += [named for found in _EXPORT.findall(text) for named, _ in _names(found)]

    def needs(found: re.Match[str]) -> str:
        there = f'modules["{_from(name, found[2])}"]'
        if found[1] is None:
            return ""
        if found[1].startswith("*"):
            return f"const {found[1].removeprefix('* as ')} = {there};"
        return f"const {{ {', '.join(f'{one}: {here}' for one, here in _names(found[1]))} }} = {there};"

    text = _EXPORT.sub("", _HANDED_ON.sub(needs, _IMPORT.sub(needs, text)))
    if left := _NOT_UNDERSTOOD.search(text):
        raise ValueError(f"{name}: {left[0]}")
    return _EACH.format(name=name, text=text.rstrip(), exported=", ".join(exported))


def _names(listed: str) -> Iterable[tuple[str, str]]:
    """Each name of a list, as it is there and as it is here."""
    return [(one, here or one) for one, here in _NAMED.findall(listed)]
