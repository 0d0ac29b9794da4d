"""Unfolding one picture in this process and no other: a file on standard input, a smaller JPEG on standard output.

python -m fieldbook.book.unfolding_apart LONGEST_PX
"""

from __future__ import annotations

import sys
from contextlib import suppress

from . import photographs
from .unfolded_bytes import unfolded_bytes
from .unfolding import reduced_here

BESIDE_BYTES = 160_000_000  # what a process has without any picture, with room


def get_no_more_than(picture_bytes: int) -> None:
    """From now on this process gets no more memory than such a picture takes, where the system can be told so."""
    with suppress(ImportError, ValueError, OSError):
        import resource

        most = picture_bytes + BESIDE_BYTES
        resource.setrlimit(resource.RLIMIT_DATA, (most, most))


if __name__ == "__main__":
    with photographs.opened(sys.stdin.buffer) as image:
        get_no_more_than(unfolded_bytes(image))
        sys.stdout.buffer.write(reduced_here(image, int(sys.argv[1])))
