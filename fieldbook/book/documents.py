"""Letters, notes and data sheets as they came: a PDF or a scan, known by its digest, looked at and never run.

Of a PDF only its outer shape is looked at, in bounded time: where it begins and ends, and that its end leads to its
table of contents. Whether its pages are worth reading, only a reader can say.
"""

from __future__ import annotations

import hashlib
import re
from dataclasses import dataclass
from pathlib import Path

from ..errors import FieldbookError, Missing
from . import evidence, photographs

PDF = "application/pdf"
ENDINGS = {PDF: "pdf", "image/jpeg": "jpg", "image/png": "png", "image/webp": "webp", "image/heic": "heic"}
MOST_BYTES = photographs.MOST_BYTES
EDGE_BYTES = 1_024  # header and end are looked for in so many bytes: ISO 32000-1, annex H, from memory
TABLE_BYTES = 2_000_000
_HEADER = re.compile(rb"%PDF-[12]\.\d")
_END = re.compile(rb"startxref\s+(\d{1,10})\s+%%EOF")
_TABLE = re.compile(rb"\s*(xref\b|\d{1,10}\s+\d{1,5}\s+obj\b)")


class UnsuitableDocument(FieldbookError):
    """A file that is neither a whole PDF nor a picture, or one that only a password opens."""

    code = "unsuitable-document"


@dataclass(frozen=True)
class KeptDocument:
    """What is known of a document once its bytes are kept; the fields of its kind."""

    sha256: str
    size_bytes: int
    file_type: str


def examine_bytes(content: bytes) -> KeptDocument:
    """Look at a document's bytes; a picture's all, of a PDF where it begins, ends, and has its table of contents.

    Raises UnsuitableDocument, and UnsuitablePhotograph for a picture that cannot be shown.
    """
    if _HEADER.search(content, 0, EDGE_BYTES):
        photographs.refuse_size(len(content))
        _look_at_pdf(content)
        return KeptDocument(hashlib.sha256(content).hexdigest(), len(content), PDF)
    try:
        picture = photographs.examine_bytes(content)
    except photographs.UnsuitablePhotograph as error:
        reason = f"The file is no PDF; and as a scan: {error.reason}"
        raise _unsuitable(reason, "Save it as a PDF, or scan it as JPEG or PNG.") from None
    return KeptDocument(picture.sha256, picture.size_bytes, picture.media_type)


def _look_at_pdf(content: bytes) -> None:
    """Refuse a PDF that is cut short or closed. Structure: ISO 32000-1, 7.5, from memory."""
    begins = _HEADER.search(content, 0, EDGE_BYTES)
    ends = list(_END.finditer(content, max(0, len(content) - EDGE_BYTES)))
    if begins is None or not ends:
        raise _unsuitable("The PDF has no end: it is cut short.", "Copy it again from where it was made.")
    end = ends[-1]  # one written for the web has another, of its first page
    for first in {int(end[1]), int(end[1]) + begins.start()}:  # counted from the header, by some programs
        if first < end.start() and _TABLE.match(content, first):
            if b"/Encrypt" in content[max(first, end.start() - TABLE_BYTES) : end.start()]:
                raise _unsuitable("The PDF is protected by a password.", "Save it as a PDF without protection.")
            return
    raise _unsuitable("The end of the PDF leads nowhere: it is damaged.", "Copy it again from where it was made.")


def _unsuitable(reason: str, remedy: str) -> UnsuitableDocument:
    return UnsuitableDocument(reason, remedy, field="file")


def path_of(folder: Path, sha256: str) -> Path:
    """Where the bytes of a document lie in a book's folder; raises Missing where they do not."""
    path = evidence.path_of(folder, "document", sha256)
    if not path.is_file():
        raise Missing(
            "The file of this document is not here.", "Bring it back from a backup.", field="file", value=sha256
        )
    return path
