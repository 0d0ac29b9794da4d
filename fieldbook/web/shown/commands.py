"""The command that does a calculation again, to be copied from a page into a shell."""

from __future__ import annotations

import json
import shlex
from collections.abc import Mapping
from typing import Any

MOST_LETTERS = 20_000  # of JSON that a page still shows


def command_for(name: str, payload: Mapping[str, Any]) -> str:
    """The whole command line, with what is reckoned from on standard input."""
    text = json.dumps(payload, ensure_ascii=False)
    if len(text) > MOST_LETTERS:
        return f"fieldbook calc {name} < INPUT.json"
    return f"echo {shlex.quote(text)} | fieldbook calc {name}"


def command_for_file(name: str, payload: Mapping[str, Any], file_name: str) -> str:
    """The same where one of the keys is a file's text, which is read in rather than shown."""
    rest = {key: value for key, value in payload.items() if key != "csv"}
    script = f"import json, sys; print(json.dumps({rest!r} | {{'csv': sys.stdin.read()}}))"
    return f"python3 -c {shlex.quote(script)} < {shlex.quote(file_name)} | fieldbook calc {name}"
