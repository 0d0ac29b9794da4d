"""Which version of the phone's app this is, told by what makes its files, and without making one."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator
from pathlib import Path

import jinja2
import PIL
import wtforms

from ... import folders

MAKERS = (("jinja2", jinja2.__version__), ("wtforms", wtforms.__version__), ("pillow", PIL.__version__))


def version(address: str) -> str:
    """Another whenever one of the app's files may be: the program is, what makes pages for it, or their address.

    Read from the files as they are now; the app's own take half a second to make, which a phone would wait for.
    """
    made = hashlib.sha256(repr((address, MAKERS)).encode())
    for file in _program():
        made.update(file.name.encode() + hashlib.sha256(file.read_bytes()).digest())
    return made.hexdigest()[:16]


def _program() -> Iterator[Path]:
    """All files of the program, each once and in the same order."""
    for top, ends in ((folders.PACKAGE, (".py", ".csv")), (folders.STATIC, ""), (folders.TEMPLATES, "")):
        for folder, below, names in os.walk(top):
            below.sort()
            yield from (Path(folder, name) for name in sorted(names) if name.endswith(ends))
