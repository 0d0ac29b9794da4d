"""Unfolding a picture: one at a time, in bounded memory, whatever its format.

A camera's JPEG is unfolded at an eighth of its size, or as large as is wanted: its decoder reads every pixel all the
same. Others are unfolded once, and made smaller strip by strip. What is large, or may be larger than it says, goes to
a process of its own, which gives its memory back and gets no more than it is bound to need.
"""

from __future__ import annotations

import math
import os
import shutil
import subprocess
import sys
import tempfile
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from io import BytesIO, UnsupportedOperation
from pathlib import Path
from typing import IO

from PIL import Image, ImageFile, ImageOps

from ..folders import environment_of_a_child
from .storage import storage_errors
from .unfolded_bytes import SMALLER_PIXELS, unfolded_bytes

MOST_BYTES = 210_000_000  # that one picture may take: with it, the server and the process beside it stay below 400 MB
MOST_BYTES_HERE = 120_000_000
COPY_QUALITY = 85
TIME_LIMIT_S = 120
STRIP_PIXELS, MOST_TIMES_SMALLER = 1_000_000, 64  # of a picture that is made smaller strip by strip
_ORIENTATION, _LYING = 0x0112, {5, 6, 7, 8}  # of EXIF: turned by a quarter
_one = threading.Lock()


def upright_size(image: Image.Image) -> tuple[int, int]:
    """Width and height as it is looked at, from its head."""
    width, height = image.size
    return (height, width) if image.getexif().get(_ORIENTATION) in _LYING else (width, height)


def look_at(image: Image.Image, content: IO[bytes]) -> None:
    """Look at every pixel of an opened picture; raises what its decoder raises.

    content  the picture's bytes, for a process of its own
    """
    reduced(image, content, 1)


def reduced(image: Image.Image, content: IO[bytes], longest_px: int) -> bytes:
    """A JPEG of an opened picture, upright, no side longer than longest_px, without what stands beside the pixels.

    Raises what its decoder raises, and the errors of `storage` where no process can be given it.
    """
    with _one:
        if image.format == "HEIF" or unfolded_bytes(image) > MOST_BYTES_HERE:  # one may hold more than its head says
            return _reduced_apart(content, longest_px)
        return reduced_here(image, longest_px)


def reduced_here(image: Image.Image, longest_px: int) -> bytes:
    """The same, in this process, at whatever it takes."""
    buffer = BytesIO()
    longest = max(image.size)
    image.draft("RGB", (max(1, longest_px * image.width // longest), max(1, longest_px * image.height // longest)))
    image = _smaller(image, longest_px)
    image.thumbnail((longest_px, longest_px))
    copy = _in_usual_colours(ImageOps.exif_transpose(image))
    if copy.mode == "RGBA":
        copy = Image.alpha_composite(Image.new("RGBA", copy.size, "white"), copy)
    copy = copy.convert("RGB")
    copy.info.clear()  # comments and descriptions would go along
    copy.save(buffer, "JPEG", quality=COPY_QUALITY)
    return buffer.getvalue()


def _smaller(image: Image.Image, longest_px: int) -> Image.Image:
    """The picture in a mode whose pixels can be mixed, several times smaller: no second one of its size is made."""
    (width, height), cut = _unfolded(image)
    by = max(max(width, height) // (2 * longest_px), math.ceil(math.sqrt(width * height / SMALLER_PIXELS)))
    by = min(max(by, 1), MOST_TIMES_SMALLER)
    rows = max(1, STRIP_PIXELS // (width * by)) * by
    smaller = None
    for top in range(0, height, rows):
        strip = _mixable(cut(top, min(top + rows, height))).reduce(by)
        smaller = smaller or Image.new(strip.mode, (math.ceil(width / by), math.ceil(height / by)))
        smaller.paste(strip, (0, top // by))
    assert smaller
    smaller.info = {"exif": _turned(image), "icc_profile": image.info.get("icc_profile")}
    return smaller


def _turned(image: Image.Image) -> bytes:
    """How the camera was held, as EXIF and without all else that may be wrong with a camera's notes."""
    exif = Image.Exif()
    if (turned := image.getexif().get(_ORIENTATION)) in {*range(1, 9)}:
        exif[_ORIENTATION] = turned
    return exif.tobytes()


def _unfolded(image: Image.Image) -> tuple[tuple[int, int], Callable[[int, int], Image.Image]]:
    """The size of a picture all of whose pixels are in memory, and what cuts the rows from one to another out of it."""
    if image.format != "HEIF":
        image.load()
        return image.size, lambda top, bottom: image.crop((0, top, image.width, bottom))
    from pi_heif import open_heif

    assert isinstance(image, ImageFile.ImageFile) and image.fp
    image.fp.seek(0)
    heif = open_heif(image.fp, convert_hdr_to_8bit=True)
    pixels, stride = heif.data, heif.stride  # as its reader left them: Pillow's own would be a second one
    raw = (heif.mode, stride, 1)

    def cut(top: int, bottom: int) -> Image.Image:
        size = (heif.size[0], bottom - top)
        return Image.frombytes(heif.mode, size, pixels[top * stride : bottom * stride], "raw", *raw)

    return heif.size, cut


def _mixable(image: Image.Image) -> Image.Image:
    """The picture in a mode whose pixels can be averaged and printed; what shows through, as such."""
    if "transparency" in image.info or image.mode in {"PA", "LA", "La", "RGBa"}:
        return image.convert("RGBA")
    if image.mode in {"P", "1"}:  # a palette's numbers cannot be mixed
        return image.convert("RGB")
    if image.mode.startswith("I"):  # 16 bits a channel, which a JPEG does not have
        return image.convert("I").point([level >> 8 for level in range(1 << 16)], "L")
    return image


def _in_usual_colours(image: Image.Image) -> Image.Image:
    """The picture in sRGB, where it says that its numbers mean other colours; a profile that does not fit says nothing.

    Half of all phones write a wider gamut: its numbers taken for sRGB would show every colour paler than it is.
    """
    if profile := image.info.get("icc_profile"):
        from PIL import ImageCms  # a library of its own, which no other picture needs

        with suppress(ImageCms.PyCMSError, OSError):
            return (
                ImageCms.profileToProfile(
                    image,
                    ImageCms.ImageCmsProfile(BytesIO(profile)),
                    ImageCms.createProfile("sRGB"),
                    ImageCms.Intent.RELATIVE_COLORIMETRIC,
                    "RGBA" if image.mode == "RGBA" else "RGB",
                )
                or image
            )
    return image


def _reduced_apart(content: IO[bytes], longest_px: int) -> bytes:
    command = [sys.executable, "-m", "fieldbook.book.unfolding_apart", str(longest_px)]
    # What fails here is no fault of the picture.
    with storage_errors(Path(tempfile.gettempdir())), _in_a_file(content) as file:
        done = subprocess.run(
            command,
            stdin=file,
            capture_output=True,
            check=False,
            timeout=TIME_LIMIT_S,
            env=environment_of_a_child(),
        )
    if done.returncode:
        raise OSError(done.stderr.decode(errors="replace")[-200:])
    return done.stdout


@contextmanager
def _in_a_file(content: IO[bytes]) -> Iterator[IO[bytes]]:
    """The same as a file that another process can read from its beginning; neither holds the bytes."""
    content.seek(0)
    try:
        descriptor = content.fileno()
    except UnsupportedOperation:  # it lies in memory
        with tempfile.TemporaryFile() as file:
            shutil.copyfileobj(content, file)
            file.seek(0)
            yield file
    else:
        os.lseek(descriptor, 0, os.SEEK_SET)
        yield content
