"""Photographs: known by the SHA-256 of their bytes, which are never altered.

Upright, smaller copies without the camera's notes (place, serial number) are made when first
asked for and can be thrown away.
"""

from __future__ import annotations

import hashlib
import warnings
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

from PIL import Image, ImageFile, ImageOps, UnidentifiedImageError

from ..errors import FieldbookError
from . import evidence
from .book import Book
from .storage import storage_errors

FORMATS = {"JPEG": "image/jpeg", "PNG": "image/png", "WEBP": "image/webp"}
MOST_BYTES = 50_000_000
MOST_PIXELS = 80_000_000
COPY_QUALITY = 85


class UnsuitablePhotograph(FieldbookError):
    """A file that is no photograph, is cut short, or is too large to be opened safely."""

    code = "unsuitable-photograph"


@dataclass(frozen=True)
class Kept:
    """What is known of a photograph once its bytes are kept; the fields of its kind."""

    sha256: str
    size_bytes: int
    media_type: str
    width_px: int
    height_px: int


def original(book: Book, sha256: str) -> Path:
    """Where the bytes of a photograph lie, whether or not they are there yet."""
    return evidence.path_of(book.folder, "photograph", sha256)


def examine_bytes(content: bytes) -> Kept:
    """Look at a photograph's bytes, every pixel of them.

    Raises UnsuitablePhotograph.
    """
    if len(content) > MOST_BYTES:
        raise _unsuitable(
            f"The file has {len(content) / 1e6:.0f} MB; at most {MOST_BYTES / 1e6:.0f} MB are taken.",
            "Send a smaller copy.",
        )
    # The typesetter's library, once loaded, lets every reader in the process take half pictures for whole.
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(BytesIO(content), formats=list(FORMATS)) as image:
                if image.width * image.height > MOST_PIXELS:
                    raise Image.DecompressionBombError
                image.load()
                upright = ImageOps.exif_transpose(image)
                kind, size = FORMATS[image.format or ""], upright.size
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        raise _unsuitable(
            f"The picture unfolds to more than {MOST_PIXELS / 1e6:.0f} million pixels.", "Send a smaller copy."
        ) from None
    except UnidentifiedImageError:
        raise _unsuitable("The file is no JPEG, PNG or WebP picture.", "Choose a photograph.") from None
    except (OSError, SyntaxError, ValueError, EOFError) as error:
        raise _unsuitable("The picture is cut short or damaged.", "Copy it from the camera again.") from error
    return Kept(hashlib.sha256(content).hexdigest(), len(content), kind, *size)


def keep(book: Book, content: bytes) -> Kept:
    """Keep a photograph's bytes under their digest; on disk before this returns. Twice is once.

    Raises UnsuitablePhotograph and the errors of `storage`.
    """
    kept = examine_bytes(content)
    evidence.keep(book.folder, "photograph", content)
    return kept


def small_copy(book: Book, sha256: str, longest_px: int) -> Path:
    """A JPEG copy, upright, no side longer than longest_px; made once.

    Raises UnsuitablePhotograph when the original is not here.
    """
    source = original(book, sha256)
    target = book.folder / "copies" / f"{sha256}-{longest_px}.jpg"
    if not source.exists():
        raise _unsuitable("This photograph has not arrived yet.", "Let the phone that took it send it.")
    with storage_errors(target):
        if not target.exists():
            target.parent.mkdir(parents=True, exist_ok=True)
            with Image.open(source, formats=list(FORMATS)) as image:
                image.draft("RGB", (longest_px, longest_px))
                copy = ImageOps.exif_transpose(image).convert("RGB")
            copy.thumbnail((longest_px, longest_px))
            buffer = BytesIO()
            copy.save(buffer, "JPEG", quality=COPY_QUALITY)
            evidence.write_whole(target, buffer.getvalue())
    return target


def _unsuitable(reason: str, remedy: str) -> UnsuitablePhotograph:
    return UnsuitablePhotograph(reason, remedy, field="photograph")
