"""A file that an entry names by its digest: found, looked at, all of it, and only then kept."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import asdict
from pathlib import Path
from typing import Any

from ..checks import logger
from ..errors import FieldbookError, Missing, OutOfRange, UnsuitableText, shown
from . import documents, photographs

MOST_BYTES: Mapping[str, int] = {
    "photograph": photographs.MOST_BYTES,
    "log": 100_000_000,
    "document": documents.MOST_BYTES,
}


def known_of(kind: str, content: bytes, values: Mapping[str, Any]) -> dict[str, Any]:
    """What a file itself says of its item: the fields that are filled in from it, once it could be read.

    kind    "photograph", "log" or "document"
    values  the item's other fields; a logger's file is read by the headings they name
    Raises Missing for an empty file, OutOfRange for one that is too large, UnsuitablePhotograph, UnsuitableDocument,
    and what reading a logger's file raises, about the item's field or about "file".
    """
    if not content:
        raise Missing("The file is empty.", "Copy it again from where it was made.", field="file")
    if len(content) > MOST_BYTES[kind]:
        reason = f"The file has more than {MOST_BYTES[kind] / 1e6:.0f} MB."
        raise OutOfRange(reason, "Give a smaller copy, or a shorter time.", field="file", value=len(content))
    if kind == "photograph":
        return asdict(photographs.examine_bytes(content))
    if kind == "document":
        return asdict(documents.examine_bytes(content))
    log_in(content, values)
    return {"sha256": hashlib.sha256(content).hexdigest(), "size_bytes": len(content)}


def log_in(content: bytes, values: Mapping[str, Any]) -> logger.Log:
    """What a logger's file says by the headings that its item names.

    Raises what reading a logger's file raises, about the item's field or about "file".
    """
    headings = {what: values.get(f"{what}_column") for what in logger.COLUMNS}
    columns = {what: heading for what, heading in headings.items() if heading and isinstance(heading, str)}
    try:
        return logger.read(logger.lines_of(content), columns, values.get("date_order"))
    except FieldbookError as error:
        named = [f"{what}_column" for what in logger.COLUMNS if error.field == f"columns.{what}"]
        error.field = named[0] if named else "file"
        raise


def path_in(folder: Path, named: Any) -> Path:
    """The file of this name in a folder or below it; raises UnsuitableText and Missing."""
    if not isinstance(named, str) or not named.strip() or "\0" in named:
        raise UnsuitableText("“file” is no path.", "Write it from the folder of the lines.", field="file", value=named)
    path = (folder / named).resolve()
    if not path.is_relative_to(folder.resolve()):
        reason = f"{shown(named)} lies outside {folder}."
        raise UnsuitableText(reason, "Put it beside the lines, or in a folder there.", field="file", value=named)
    if not path.is_file():
        raise Missing(f"There is no file {shown(named)} in {folder}.", "Check its name.", field="file", value=named)
    return path


def bytes_of(kind: str, path: Path) -> bytes:
    """A file's bytes, one more than are taken where it is too large; raises Missing when it cannot be read."""
    try:
        with path.open("rb") as file:
            return file.read(MOST_BYTES[kind] + 1)
    except OSError as error:
        reason = f"{path.name} cannot be read: {error.strerror}."
        raise Missing(reason, "Check who may read it.", field="file", value=path.name) from None
