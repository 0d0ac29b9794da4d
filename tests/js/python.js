/** The Python that prints what the desk says: the one that runs the tests, or the checkout's own, or the machine's. */

import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../../", import.meta.url));
const own = `${root}.venv/bin/python`;
const python = process.env.PYTHON_OF_TESTS ?? (existsSync(own) ? own : "python3");

/** What a Python program of the checkout prints, read as JSON. @param {string[]} words */
export function printedBy(...words) {
  return JSON.parse(execFileSync(python, words, { cwd: root, maxBuffer: 1 << 28, encoding: "utf-8" }));
}
