"""Unfolding one picture in this process and no other: bytes on standard input, a smaller JPEG on standard output.

python -m fieldbook.book.unfolding_apart LONGEST_PX
"""

from __future__ import annotations

import sys
from io import BytesIO

from . import photographs
from .unfolding import reduced_here

if __name__ == "__main__":
    with photographs.opened(BytesIO(sys.stdin.buffer.read())) as image:
        sys.stdout.buffer.write(reduced_here(image, int(sys.argv[1])))
