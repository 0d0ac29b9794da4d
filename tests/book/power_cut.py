"""Power cuts: a book on a file system of its own, whose image is taken as it lies, with nothing flushed for the taking.

What the kernel still holds in memory is not in the image, as when the plug is pulled. Each image is mounted again,
which plays its journal, and the book on it must be sound and hold all that was acknowledged before.
Wants root and loop devices.

    python -m tests.book.power_cut [CUTS]
"""

from __future__ import annotations

import contextlib
import os
import random
import shutil
import signal
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path

from fieldbook.book.backup import backup, restore
from fieldbook.book.examine import examine_folder
from fieldbook.book.opening import create_book, open_book
from fieldbook.book.photographs import keep, original
from tests.sites import picture, survey

IMAGE_MB, CUTS, BACKUP_EVERY, PHOTOGRAPH_EVERY = 48, 30, 25, 5


def run(*command: str | Path) -> None:
    """A program of the system that must succeed."""
    subprocess.run([*map(str, command)], check=True, capture_output=True)


@contextlib.contextmanager
def mounted(image: Path, place: Path) -> Iterator[Path]:
    """An image on a loop device; its file system brings nothing to disk by itself, no renamed file either."""
    place.mkdir()
    run("mount", "-o", "loop,commit=300,noauto_da_alloc", image, place)
    try:
        yield place
    finally:
        run("umount", place)
        place.rmdir()


def work(folder: Path, told: int) -> None:
    """Enter, photograph and back up without end; each is told when it is acknowledged."""
    with create_book(folder / "book") as book:
        known = survey(book)
        os.write(told, b"made\n")
        number = 0
        while True:
            number += 1
            (folder / "unsynced").write_text(str(number))  # what nobody brings to disk: it shows that the cut is one
            if number % BACKUP_EVERY == 0:
                backup(book, folder / "saved")
                os.write(told, b"saved\n")
            elif number % PHOTOGRAPH_EVERY == 0:
                kept = keep(book, picture() + number.to_bytes(4, "big"))
                about = {"site": known.site, "subject": known.face, "purpose": "as found"}
                book.write("photograph", about | asdict(kept))
                os.write(told, f"photograph {kept.sha256}\n".encode())
            else:
                room = book.write("room", {"site": known.site, "mark": f"A{number}", "name": "Store"})
                os.write(told, f"room {room}\n".encode())


def cut(folder: Path, acknowledgements: int) -> tuple[list[str], Path]:
    """Let somebody work until so much was acknowledged, or a moment longer, and take the image; all that was told."""
    image, taken = folder / "image", folder / "taken"
    with image.open("wb") as file:
        file.truncate(IMAGE_MB << 20)
    run("mkfs.ext4", "-q", "-F", image)
    with mounted(image, folder / "at-work") as place:
        read, told = os.pipe()
        if not (child := os.fork()):
            work(place, told)
        os.close(told)
        with os.fdopen(read, "rb") as lines:
            said = [lines.readline() for _ in range(acknowledgements)]
            os.kill(child, signal.SIGSTOP)
            os.waitpid(child, os.WUNTRACED)
            shutil.copy(image, taken)  # nothing was flushed for it
            os.kill(child, signal.SIGKILL)
            os.waitpid(child, 0)
            said += lines.readlines()
    return [line.decode().strip() for line in said], taken


def wrong_after(folder: Path, told: list[str], taken: Path) -> Iterator[str]:
    """What is not as it was acknowledged in the image that was taken."""
    with mounted(taken, folder / "again") as place:
        found = examine_folder(place / "book")
        yield from (damage.words for damage in found.damages)
        with open_book(place / "book") as book:
            rooms = {row["id"] for row in book.items("room")}
            for what, _, which in (line.partition(" ") for line in told):
                if what == "room" and which not in rooms:
                    yield f"the room {which} was acknowledged"
                if what == "photograph" and not original(book, which).is_file():
                    yield f"the photograph {which} was acknowledged"
        if "saved" in told:
            restore(place / "saved", folder / "restored").close()
            shutil.rmtree(folder / "restored")


def is_lost(folder: Path, told: list[str], taken: Path) -> bool:
    """Whether what was written and not brought to disk is gone, or older than what was acknowledged after it."""
    with mounted(taken, folder / "lost") as place, contextlib.suppress(FileNotFoundError):
        return int((place / "unsynced").read_text() or 0) < len(told) - 1
    return True


def main(cuts: int) -> None:
    """So many cuts, each after another number of acknowledgements."""
    chance, held, lost = random.Random(1), 0, 0
    for number in range(cuts):
        with tempfile.TemporaryDirectory(dir="/var/tmp") as place:  # noqa: S108 - a disk, not memory
            told, taken = cut(Path(place), chance.randint(1, 80))
            if wrong := list(wrong_after(Path(place), told, taken)):
                raise SystemExit(f"cut {number + 1}, after {len(told)}: " + "; ".join(wrong))
            held += len(told)
            lost += is_lost(Path(place), told, taken)
    print(f"{cuts} power cuts: {held} acknowledgements, every one held")
    print(f"what nobody had brought to disk was lost in {lost}")
    assert lost, "nothing was ever lost: these are no power cuts"


if __name__ == "__main__":
    main(int(sys.argv[1]) if sys.argv[1:] else CUTS)
