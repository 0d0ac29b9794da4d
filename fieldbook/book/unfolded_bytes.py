"""How much memory a picture takes while it is unfolded, told by its head: at most, and in bytes.

Measured from outside, with pictures of 79 megapixels; a test holds what stands here to what a process takes.
"""

from __future__ import annotations

import os
from typing import IO

from PIL import Image

# Of a format whose decoder holds more than the picture: bytes a pixel while it decodes, and when it has.
_HELD = {"WEBP": (16.5, 13.0), "HEIF": (7.0, 4.0)}
_FILES_HELD = 2  # and how often the file itself
_MORE_HEIF = 2.0  # with what shows through, or more than 8 bits a channel
_BYTES_A_PIXEL = {"1": 1, "L": 1, "P": 1, "I;16": 2}  # of Pillow's modes; others 4
SMALLER_PIXELS = 6_000_000  # of the smaller picture that is gathered from strips
_SMALLER_BYTES = 8  # a pixel of it, with the copy whose pixels are mixed


def unfolded_bytes(image: Image.Image) -> int:
    """What unfolding an opened picture takes, with its file where its decoder holds that."""
    pixels = image.width * image.height
    smaller = min(pixels, SMALLER_PIXELS) * _SMALLER_BYTES
    if image.format in {"JPEG", "MPO"}:
        return _coefficients(image) + pixels // 16 + smaller
    if image.format in _HELD:
        more = _MORE_HEIF if image.format == "HEIF" and _is_more_than_usual(image) else 1.0
        decoding, decoded = _HELD[image.format]
        held = max(pixels * decoding * more, pixels * decoded * more + smaller)
        return int(held) + _FILES_HELD * _file_bytes(getattr(image, "fp", None))
    return pixels * _BYTES_A_PIXEL.get(image.mode, 4) + smaller


def _file_bytes(file: IO[bytes] | None) -> int:
    if file is None:
        return 0
    at = file.tell()
    try:
        return file.seek(0, os.SEEK_END)
    finally:
        file.seek(at)


def _is_more_than_usual(image: Image.Image) -> bool:
    return image.mode != "RGB" or image.info.get("bit_depth", 8) > 8


def _coefficients(image: Image.Image) -> int:
    """What a JPEG's decoder keeps of all of it: nothing, unless its colours or its fineness come one after another."""
    layers = getattr(image, "layer", [(0, 1, 1, 0)] * 3)
    file = getattr(image, "fp", None)
    if not image.info.get("progressive") and (file is None or _first_scan(file) == len(layers)):
        return 0
    largest = max(across * down for _, across, down, _ in layers)
    return 2 * image.width * image.height * sum(across * down for _, across, down, _ in layers) // largest


def _first_scan(file: IO[bytes]) -> int:
    """How many colours come together in the first scan of a JPEG (ISO/IEC 10918-1, B.2.3); 0 where that is not said."""
    at = file.tell()
    try:
        file.seek(2)
        while (head := file.read(4))[:1] == b"\xff" and len(head) == 4:
            if head[1] == 0xFF:  # a byte that only fills
                file.seek(-3, 1)
            elif head[1] == 0xDA:
                return int.from_bytes(file.read(1))
            else:
                file.seek(int.from_bytes(head[2:]) - 2, 1)
        return 0
    finally:
        file.seek(at)
