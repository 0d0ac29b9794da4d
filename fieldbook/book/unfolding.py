"""Unfolding a picture: one at a time, in bounded memory, whatever its format.

A camera's JPEG is unfolded at an eighth of its size, or as large as is wanted: its decoder reads every pixel all the
same. What must be unfolded in full and is large goes to a process of its own, which gives its memory back.
"""

from __future__ import annotations

import subprocess
import sys
import threading
from contextlib import suppress
from io import BytesIO
from typing import IO

from PIL import Image, ImageCms, ImageOps

from ..folders import environment_of_a_child

MOST_BYTES_HERE = 120_000_000
COPY_QUALITY = 85
TIME_LIMIT_S = 120
_ORIENTATION, _LYING = 0x0112, {5, 6, 7, 8}  # of EXIF: turned by a quarter
_BYTES_A_PIXEL = {"PNG": 5, "WEBP": 8, "HEIF": 12}  # what decoder and picture hold together, at most
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

    Raises what its decoder raises.
    """
    with _one:
        if _bytes_to_unfold(image) > MOST_BYTES_HERE:
            return _reduced_apart(content, longest_px)
        return reduced_here(image, longest_px)


def _bytes_to_unfold(image: Image.Image) -> int:
    pixels = image.width * image.height
    if image.format not in {"JPEG", "MPO"}:
        return pixels * _BYTES_A_PIXEL[image.format or ""]
    if not image.info.get("progressive"):
        return pixels // 16
    layers = getattr(image, "layer", [(0, 1, 1, 0)] * 3)  # its decoder keeps every coefficient, 2 bytes each
    largest = max(across * down for _, across, down, _ in layers)
    return 2 * pixels * sum(across * down for _, across, down, _ in layers) // largest


def reduced_here(image: Image.Image, longest_px: int) -> bytes:
    """The same, in this process, at whatever it takes."""
    buffer = BytesIO()
    image.draft("RGB", (longest_px, longest_px))
    image.load()
    image = _mixable(image)
    image.thumbnail((longest_px, longest_px))
    copy = _in_usual_colours(ImageOps.exif_transpose(image))
    if copy.mode == "RGBA":
        copy = Image.alpha_composite(Image.new("RGBA", copy.size, "white"), copy)
    copy = copy.convert("RGB")
    copy.info.clear()  # comments and descriptions would go along
    copy.save(buffer, "JPEG", quality=COPY_QUALITY)
    return buffer.getvalue()


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
    content.seek(0)
    command = [sys.executable, "-m", "fieldbook.book.unfolding_apart", str(longest_px)]
    done = subprocess.run(
        command,
        input=content.read(),
        capture_output=True,
        check=False,
        timeout=TIME_LIMIT_S,
        env=environment_of_a_child(),
    )
    if done.returncode:
        raise OSError(done.stderr.decode(errors="replace")[-200:])
    return done.stdout
