"""Photographs: known by the SHA-256 of their bytes, which are never altered.

Upright, smaller copies without the camera's notes (place, serial number) are made when first
asked for and can be thrown away. Whatever a decoder raises is an answer about that one photograph.
"""

from __future__ import annotations

import hashlib
import threading
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import IO

from PIL import Image, ImageFile, UnidentifiedImageError

from ..errors import FieldbookError
from . import apart, evidence, unfolding
from .book import Book
from .storage import storage_errors
from .unfolded_bytes import unfolded_bytes

# Pillow's name -> media type. A JPEG with a second picture in it, as phones make them, is called MPO there.
FORMATS = {
    "JPEG": "image/jpeg",
    "MPO": "image/jpeg",
    "PNG": "image/png",
    "WEBP": "image/webp",
    "HEIF": "image/heic",
}
_NAMES = {"MPO": "JPEG", "WEBP": "WebP", "HEIF": "HEIC"}
_HEIC = {b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1"}  # brands of ISO/IEC 23008-12
MOST_BYTES = 50_000_000
MOST_PIXELS = 80_000_000
PHONE_COPY_PX = 800  # the copy phones keep for reading offline
_head = threading.Lock()  # one at a time: a head may be as large as its file, which some formats are read whole for


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
    refuse_size(len(content))
    with opened(BytesIO(content)) as image:
        _refuse_greedy(image)
        kind, size = FORMATS[image.format or ""], unfolding.upright_size(image)
        unfolding.look_at(image, BytesIO(content))
    return Kept(hashlib.sha256(content).hexdigest(), len(content), kind, *size)


def examine_head(file: IO[bytes]) -> None:
    """Look at how a photograph's file begins: what it is, how large it unfolds. Raises UnsuitablePhotograph."""
    with _head, opened(file) as image:
        _refuse_greedy(image)


def _refuse_greedy(image: Image.Image) -> None:
    """One that is already in a book is shown all the same, in a process of its own."""
    if (takes := unfolded_bytes(image)) > unfolding.MOST_BYTES:
        pixels, most = image.width * image.height / 1e6, unfolding.MOST_BYTES / 1e6
        name = _NAMES.get(image.format or "", image.format)
        raise _unsuitable(
            f"A {name} picture like this, of {pixels:.0f} million pixels, takes {takes / 1e6:.0f} MB of memory to open;"
            f" one may take {most:.0f} MB.",
            "Save it as an ordinary JPEG, or make it smaller, and send that.",
        )


def refuse_size(size_bytes: int) -> None:
    """Raise UnsuitablePhotograph for more bytes than are taken."""
    if size_bytes > MOST_BYTES:
        raise _unsuitable(
            f"The file has {size_bytes / 1e6:.0f} MB; at most {MOST_BYTES / 1e6:.0f} MB are taken.",
            "Send a smaller copy.",
        )


@contextmanager
def opened(file: IO[bytes]) -> Iterator[Image.Image]:
    """A picture of which only the head has been read; what a decoder raises, now or later, is said in words."""
    # The typesetter's library, once loaded, lets every reader in the process take half pictures for whole.
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    try:
        with warnings.catch_warnings():
            warnings.filterwarnings("ignore", module="PIL")  # of a camera's notes that make no sense
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(file, formats=_read()) as image:
                if image.width * image.height > MOST_PIXELS:
                    raise Image.DecompressionBombError
                yield image
    except FieldbookError:
        raise
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        raise _unsuitable(
            f"The picture unfolds to more than {MOST_PIXELS / 1e6:.0f} million pixels.", "Send a smaller copy."
        ) from None
    except UnidentifiedImageError:
        raise _unreadable(file) from None
    except Exception as error:  # a decoder raises what it likes, and the photographs behind this one must go on
        raise _unsuitable("The picture is cut short or damaged.", "Copy it from the camera again.") from error


def _unreadable(file: IO[bytes]) -> UnsuitablePhotograph:
    file.seek(0)
    head = file.read(12)
    if "HEIF" not in _read() and head[4:8] == b"ftyp" and head[8:] in _HEIC:
        remedy = "Set the camera to JPEG (“most compatible”), or install pi-heif beside this program."
        return _unsuitable("The file is an HEIC picture, which this machine cannot read.", remedy)
    return _unsuitable(f"The file is no {', '.join(_names())} picture.", "Choose a photograph.")


def _names() -> list[str]:
    return [_NAMES.get(one, one) for one in _read()]


@cache
def _read() -> list[str]:
    """Pillow's names of the formats that are taken."""
    read = ["JPEG", "PNG", "WEBP"]
    try:
        from pi_heif import register_heif_opener  # here, since a server may run long before it is shown a photograph
    except ImportError:  # no build of it for this machine: such pictures are refused in words
        return read
    register_heif_opener()
    return [*read, "HEIF"]


def keep(book: Book, content: bytes) -> Kept:
    """Keep a photograph's bytes under their digest; on disk before this returns. Twice is once.

    Raises UnsuitablePhotograph and the errors of `storage`.
    """
    kept = examine_bytes(content)
    if apart.is_taken_out(book.db, kept.sha256):
        raise _taken_out()
    evidence.keep(book.folder, "photograph", content)
    return kept


def small_copy(book: Book, sha256: str, longest_px: int) -> Path:
    """A JPEG copy, upright, no side longer than longest_px; made once.

    Raises UnsuitablePhotograph when the original is not here or cannot be shown, and the errors of `storage`.
    """
    source, target = _here(book, sha256), _copy_path(book, sha256, longest_px)
    with storage_errors(target):
        if not target.exists():
            target.parent.mkdir(parents=True, exist_ok=True)
            evidence.write_whole(target, _reduced(source, longest_px))
    return target


def reduced(book: Book, sha256: str, longest_px: int) -> bytes:
    """The same, made from the original each time: what is printed does not rest on a copy, for which nobody vouches.

    Raises as `small_copy` does.
    """
    source = _here(book, sha256)
    with storage_errors(source):
        return _reduced(source, longest_px)


def _here(book: Book, sha256: str) -> Path:
    if apart.is_taken_out(book.db, sha256):
        raise _taken_out()
    if not (source := original(book, sha256)).exists():
        raise _unsuitable("This photograph has not arrived yet.", "Let the phone that took it send it.")
    return source


def _reduced(file: Path, longest_px: int) -> bytes:
    with file.open("rb") as content, opened(content) as image:
        return unfolding.reduced(image, content, longest_px)


def look_at(book: Book, sha256: str) -> bool:
    """Look at every pixel of a photograph that has arrived, by making the copy phones keep; whether it can be shown.

    One that cannot be steps aside, so that it counts as not here and is asked for again; its bytes stay.
    Raises the errors of `storage`.
    """
    try:
        small_copy(book, sha256, PHONE_COPY_PX)
    except UnsuitablePhotograph:
        with storage_errors(aside := set_aside(book, sha256)):
            aside.parent.mkdir(exist_ok=True)
            original(book, sha256).replace(aside)
        return False
    return True


def is_looked_at(book: Book, sha256: str) -> bool:
    """Whether a photograph is here and every pixel of it was looked at; one that was taken out is wanted no more."""
    if apart.is_taken_out(book.db, sha256):
        return True
    return original(book, sha256).exists() and _copy_path(book, sha256, PHONE_COPY_PX).exists()


def set_aside(book: Book, sha256: str) -> Path:
    """Where the bytes of a photograph lie that arrived whole and cannot be shown."""
    return evidence.set_aside(book.folder, sha256)


def _copy_path(book: Book, sha256: str, longest_px: int) -> Path:
    return book.folder / "copies" / f"{sha256}-{longest_px}.jpg"


def _taken_out() -> UnsuitablePhotograph:
    return _unsuitable("This photograph was taken out of the book: somebody asked to be forgotten.", "Do without it.")


def _unsuitable(reason: str, remedy: str) -> UnsuitablePhotograph:
    return UnsuitablePhotograph(reason, remedy, field="photograph")
