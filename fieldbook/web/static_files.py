"""Styles and scripts, at addresses that are others whenever one of them is: a browser asks for each of them once.

A page of the desk needs up to forty scripts, and asked the server about every one of them each time it was shown.
"""

from __future__ import annotations

import hashlib
from functools import cache
from pathlib import Path

FOR_EVER = "private, max-age=31536000, immutable"  # of what an address with a digest in it names, which never changes


@cache  # a server goes on as it began
def url_path(folder: Path) -> str:
    """Where those of a folder are to be had as long as all of them stay as they are now."""
    made = hashlib.sha256()
    for path in sorted(path for path in folder.rglob("*") if path.is_file()):
        made.update(path.relative_to(folder).as_posix().encode() + hashlib.sha256(path.read_bytes()).digest())
    return f"/static/{made.hexdigest()[:16]}"
