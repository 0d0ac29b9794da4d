"""Sheets beside the record, such as labels: pages of HTML from `templates/handover/`, printed as the record is."""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from ..book import wording
from ..checks.verdict import Word
from ..folders import TEMPLATES
from .environment import with_breaks
from .pdf import Printed, write_sheets
from .typesetting import JPEG, LETTERS_PT, SVG, Pages

FOLDERS = (TEMPLATES / "handover", TEMPLATES / "record")  # the record's style lies in the second


def print_sheets(
    template: str,
    drawings: Mapping[str, str],
    file: Path,
    photographs: Mapping[str, bytes] | None = None,
    **values: Any,
) -> Printed:
    """Set one template and write it as PDF.

    drawings     address (`app:…`) -> SVG of each drawing it shows
    photographs  address -> JPEG of each photograph it shows
    values       what the template speaks of
    Raises PangoMissing, RecordNotWritten, RecordNotMade.
    """
    with tempfile.TemporaryDirectory(prefix="fieldbook-drawings-") as folder:
        files = {}
        pictures = {address: (drawing.encode(), SVG) for address, drawing in drawings.items()}
        pictures |= {address: (content, JPEG) for address, content in (photographs or {}).items()}
        for number, (address, (content, media_type)) in enumerate(pictures.items()):
            path = Path(folder) / str(number)
            path.write_bytes(content)
            files[address] = {"path": str(path), "media_type": media_type}
        html = _environment().get_template(template).render(**(PLAIN | values))
        return write_sheets(Pages(html, files), file)


PLAIN = {"few": False, "large": False}  # what the record's style asks of a document, and single sheets never are


def _environment() -> Environment:
    made = Environment(
        loader=FileSystemLoader(FOLDERS),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=with_breaks,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals.update(Word=Word, letters_pt=LETTERS_PT)
    made.filters.update(day=wording.day, figure=wording.figure, joined=wording.joined)
    return made
