"""The app's modules joined into one script do what they do apart."""

from __future__ import annotations

import json
import subprocess
from graphlib import CycleError
from pathlib import Path

import pytest

from fieldbook import folders
from fieldbook.web.app.one_script import joined

MODULES = {
    "phone/app.js": """/** The first. */

import "./aside.js";
import { LEAST, doubled as twice } from "../checks/sums.js";
import {
  NORTH,
  Wall,
} from "./walls.js";
import * as walls from "./walls.js";

const all = walls;
export const said = [LEAST, twice(LEAST), NORTH, new Wall("W").mark, all.EAST, [...all.counted(2)], all.most(1, 2)];
export async function later() {
  return said.length;
}
""",
    "phone/aside.js": "globalThis.ran = (globalThis.ran ?? 0) + 1;\n",
    "phone/walls.js": """import { LEAST } from "../checks/sums.js";
export { largest as most } from "../checks/sums.js";

export const [NORTH, EAST] = ["north", "east"];
export class Wall {
  constructor(mark) {
    this.mark = `${mark}${LEAST}`;
  }
}
export function* counted(to) {
  for (let at = 0; at < to; at += 1) yield at;
}
""",
    "checks/sums.js": """export const LEAST = 3;
export function doubled(figure) {
  return figure * 2;
}
export const largest = Math.max;
""",
    "phone/never.js": "throw new Error('nobody needs it');\n",
}
TELL = """
const { modules } = await import(process.argv[1]);
const first = modules["phone/app.js"];
console.log(JSON.stringify([first.said, await first.later(), globalThis.ran, Object.keys(modules)]));
"""


def told_by_node(script: str, folder: Path) -> object:
    """What the modules say once they are joined."""
    file = folder / "joined.mjs"
    file.write_text(script, encoding="utf-8")
    command = ["node", "--input-type=module", "--eval", TELL, str(file)]
    return json.loads(subprocess.run(command, check=True, capture_output=True, text=True).stdout)


def test_modules_find_what_they_import_and_run_once(tmp_path: Path) -> None:
    """Named and renamed, over several lines, all of a module, handed on, a class, a generator, for its effect alone."""
    said, later, ran, names = told_by_node(joined("phone/app.js", MODULES), tmp_path)  # type: ignore[misc]
    assert said == [3, 6, "north", "W3", "east", [0, 1], 2]
    assert (later, ran) == (7, 1)
    assert names[-1] == "phone/app.js"
    assert set(names) == set(MODULES) - {"phone/never.js"}


@pytest.mark.parametrize(
    "line",
    [
        "export default 1;",
        "export let count = 0;",
        "export const { left } = {};",
        "import first from './b.js';",
        "await 1;",
        'export * from "./b.js";',
    ],
)
def test_what_is_not_understood_is_refused(line: str) -> None:
    """Rather than left out of the app."""
    with pytest.raises(ValueError, match="a.js"):
        joined("a.js", {"a.js": f"{line}\n", "b.js": ""})


def test_modules_that_need_each_other_are_refused() -> None:
    """One of them would find nothing where the other is to be."""
    ring = {"a.js": 'import { b } from "./b.js";\nexport const a = 1;\n', "b.js": 'import { a } from "./a.js";\n'}
    with pytest.raises(CycleError):
        joined("a.js", ring)


def test_module_that_is_not_there_is_told_by_its_path() -> None:
    """As a name that was mistyped."""
    with pytest.raises(KeyError, match="checks/gone.js"):
        joined("phone/a.js", {"phone/a.js": 'import { b } from "../checks/gone.js";\n'})


def test_the_apps_own_modules_give_what_they_export_apart(tmp_path: Path) -> None:
    """Under the same names."""
    paths = [path for part in ("checks", "phone") for path in (folders.STATIC / part).rglob("*.js")]
    texts = {path.relative_to(folders.STATIC).as_posix(): path.read_text(encoding="utf-8") for path in paths}
    book = "phone/book/answering.js"
    (tmp_path / "joined.mjs").write_text(joined(book, texts), encoding="utf-8")
    compare = """
const [joined, folder] = process.argv.slice(1);
const { modules } = await import(joined);
const other = [];
for (const [name, its] of Object.entries(modules)) {
  const apart = await import(`${folder}/${name}`);
  if (`${Object.keys(apart).sort()}` !== `${Object.keys(its).sort()}`) other.push(name);
}
console.log(JSON.stringify(other));
"""
    command = ["node", "--input-type=module", "--eval", compare, str(tmp_path / "joined.mjs"), str(folders.STATIC)]
    assert json.loads(subprocess.run(command, check=True, capture_output=True, text=True).stdout) == []
