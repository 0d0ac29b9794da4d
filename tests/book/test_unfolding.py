"""A picture is unfolded in the memory that its head lets one expect, and one that takes more is refused by its head."""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from fieldbook.book import photographs, unfolding
from fieldbook.book.book import Book
from fieldbook.book.evidence import keep as keep_file
from fieldbook.book.photographs import (
    UnsuitablePhotograph,
    examine_bytes,
    examine_head,
    look_at,
    opened,
    original,
    small_copy,
)
from fieldbook.book.storage import StorageFailed
from fieldbook.book.unfolded_bytes import unfolded_bytes
from fieldbook.book.unfolding import reduced, reduced_here
from tests.sites import picture, saved

ROOT = Path(__file__).resolve().parents[2]
SIDE_PX, ROOM_BYTES = 3_000, 12_000_000  # what else a process happens to take
UNFOLD = """
import resource, sys
from fieldbook.book.photographs import opened
from fieldbook.book.unfolded_bytes import unfolded_bytes
from fieldbook.book.unfolding import reduced, reduced_here
most = lambda: resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024
before = most()
with opened(open(sys.argv[1], "rb")) as image:
    expected = unfolded_bytes(image)
    reduced_here(image, int(sys.argv[2]))
print(most() - before, expected)
"""


@pytest.mark.slow
@pytest.mark.skipif(sys.platform != "linux", reason="told in other units elsewhere")
@pytest.mark.parametrize("longest_px", [1, 1600])
@pytest.mark.parametrize(
    ("mode", "form", "more"),
    [
        ("RGB", "PNG", {}),
        ("RGBA", "PNG", {}),
        ("P", "PNG", {}),
        ("I;16", "PNG", {}),
        ("RGBA", "WEBP", {}),
        ("RGB", "JPEG", {}),
        ("RGB", "JPEG", {"progressive": True, "subsampling": 0}),
        ("CMYK", "JPEG", {"progressive": True}),
    ],
)
def test_picture_takes_no_more_memory_than_its_head_says(
    tmp_path: Path, mode: str, form: str, more: dict[str, bool], longest_px: int
) -> None:
    """The most that a process of its own ever has, beside what it had before."""
    (file := tmp_path / "picture").write_bytes(saved(Image.new(mode, (SIDE_PX, SIDE_PX)), form, **more))
    command = [sys.executable, "-c", UNFOLD, str(file), str(longest_px)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True, timeout=600)
    took, expected = map(int, done.stdout.split())
    assert took < expected + ROOM_BYTES


def one_colour_after_another() -> bytes:
    """A JPEG whose first scan has one of its three colours, as far as its head goes."""
    together = b"\xff\xda\x00\x0c\x03\x01\x00\x02\x11\x03\x11\x00\x3f\x00"
    assert together in (content := picture(1000, 1000))
    return content.replace(together, b"\xff\xda\x00\x08\x01\x01\x00\x00\x3f\x00")


def test_jpeg_whose_colours_come_one_after_another_is_known_to_be_kept_whole() -> None:
    """Its decoder waits for the last colour with all of the first in memory, as with one that grows finer."""
    with Image.open(BytesIO(picture(1000, 1000))) as usual:
        assert unfolded_bytes(usual) < 9_000_000
    with Image.open(BytesIO(one_colour_after_another())) as apart:
        assert unfolded_bytes(apart) > 2 * 1_000_000 * 1.5 + 8_000_000


def test_long_narrow_jpeg_is_unfolded_at_an_eighth() -> None:
    """Its short side does not keep it from being unfolded as small as its long side lets it."""
    with Image.open(BytesIO(picture(20_000, 200))) as image:
        reduced_here(image, 800)
        assert image.size == (2_500, 25)


def test_picture_that_takes_too_much_memory_is_refused_in_words(
    empty_book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    """By its head, with how much it would take and what to send; one that the book has already is shown."""
    content = picture(500, 400, "PNG")
    monkeypatch.setattr(unfolding, "MOST_BYTES", 1_000_000)
    for look in (examine_bytes, lambda content: examine_head(BytesIO(content))):
        with pytest.raises(
            UnsuitablePhotograph, match="A PNG picture like this, of 0 million pixels, takes 2 MB"
        ) as refusal:
            look(content)
        assert "ordinary JPEG" in refusal.value.remedy
    assert small_copy(empty_book, keep_file(empty_book.folder, "photograph", content), 320).exists()


@pytest.mark.slow
def test_process_that_unfolds_gets_no_more_than_the_picture_takes() -> None:
    """A picture that holds more than its head says ends that process, and takes no memory from others."""
    greedy = "from fieldbook.book.unfolding_apart import get_no_more_than as limit; limit(0); bytearray(400_000_000)"
    done = subprocess.run([sys.executable, "-c", greedy], cwd=ROOT, capture_output=True, text=True, check=False)
    assert "MemoryError" in done.stderr


def test_no_room_for_a_process_of_its_own_is_no_fault_of_the_picture(
    empty_book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It is not called damaged, nor set aside: it is looked at again later."""
    monkeypatch.setattr(unfolding, "MOST_BYTES_HERE", 0)
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "nowhere"))
    with pytest.raises(StorageFailed):
        examine_bytes(picture())
    sha256 = keep_file(empty_book.folder, "photograph", picture())
    monkeypatch.setattr(sys, "executable", str(tmp_path / "nothing"))
    with pytest.raises(StorageFailed):
        look_at(empty_book, sha256)
    assert original(empty_book, sha256).exists()


@pytest.mark.slow
def test_picture_is_the_same_from_a_file_or_from_memory(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A process of its own reads it from the beginning, wherever its head was read from."""
    (file := tmp_path / "picture").write_bytes(content := picture(300, 200))
    with opened(BytesIO(content)) as image:
        here = reduced(image, BytesIO(content), 100)
    monkeypatch.setattr(unfolding, "MOST_BYTES_HERE", 0)
    for source in (BytesIO(content), file.open("rb")):
        with source, opened(source) as image:
            assert reduced(image, source, 100) == here


@pytest.mark.parametrize("mode", ["RGB", "RGBA", "LA", "P", "1", "I;16"])
def test_picture_made_smaller_strip_by_strip_is_the_same_picture(monkeypatch: pytest.MonkeyPatch, mode: str) -> None:
    """No strip is missing, and none stands elsewhere."""
    image = Image.linear_gradient("L").resize((900, 1_200)).convert("I" if mode == "I;16" else mode)
    content = saved(image.point(lambda level: level * 257).convert("I;16") if mode == "I;16" else image)

    def made() -> Image.Image:
        with opened(BytesIO(content)) as one:
            return Image.open(BytesIO(reduced_here(one, 100)))

    whole = made()
    monkeypatch.setattr(unfolding, "STRIP_PIXELS", 20_000)
    strips = made()
    assert strips.size == whole.size == (75, 100)
    assert strips.tobytes() == whole.tobytes()


def test_names_are_those_of_the_formats() -> None:
    """Every format that is taken has a name to be told by."""
    assert {photographs._NAMES.get(form, form) for form in photographs.FORMATS} == {"JPEG", "PNG", "WebP", "HEIC"}


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP"])
def test_what_the_phone_takes_before_it_is_stored_the_laptop_unfolds(form: str) -> None:
    """As many pixels as the app's own limit says, of the mode that takes most."""
    script = (ROOT / "static" / "phone" / "camera.js").read_text(encoding="utf-8")
    limits = {name: int(most.replace("_", "")) for name, most in re.findall(r'"image/(\w+)": ([\d_]+)', script)}
    mode = "RGB" if form == "JPEG" else "RGBA"
    with Image.open(BytesIO(saved(Image.new(mode, (40, 40)), form))) as image:
        image._size = (limits[form.lower()] // 1000, 1000)
        assert unfolded_bytes(image) <= unfolding.MOST_BYTES
    assert limits["jpeg"] == photographs.MOST_PIXELS
