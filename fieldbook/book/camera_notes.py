"""What a camera noted beside the pixels of a photograph."""

from __future__ import annotations

import re
from datetime import datetime
from io import BytesIO

from ..errors import FieldbookError
from .photographs import opened

# Exif 2.32 (CIPA DC-008-2019), table of tags of the Exif IFD.
_EXIF, _TAKEN, _OFFSET = 0x8769, 0x9003, 0x9011
_FORM = "%Y:%m:%d %H:%M:%S"


def taken_at(content: bytes) -> str | None:
    """When a picture was taken, by RFC 3339; None where its file does not say, or nothing that can be.

    A camera that notes no offset is taken to go by this machine's clock, as what is typed is.
    """
    try:
        with opened(BytesIO(content)) as image:
            notes = image.getexif().get_ifd(_EXIF)
        taken = datetime.strptime(_words(notes.get(_TAKEN)), _FORM)  # noqa: DTZ007 - its offset stands apart
        offset = _words(notes.get(_OFFSET))
        if re.fullmatch(r"[+-]\d\d:\d\d", offset):
            return f"{taken.isoformat()}{offset}"
        return taken.astimezone().isoformat()
    except (FieldbookError, ValueError, OverflowError, OSError):
        return None


def _words(noted: object) -> str:
    return noted.strip("\0 ") if isinstance(noted, str) else ""
