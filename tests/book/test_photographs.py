"""Photographs: bytes kept as they are, bad files refused, copies upright and without notes."""

from __future__ import annotations

import base64
import hashlib
import struct
import subprocess
import sys
import zlib
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from PIL import Image, ImageFile
from PIL.PngImagePlugin import PngInfo

from fieldbook.book import evidence, photographs
from fieldbook.book.book import Book
from fieldbook.book.photographs import UnsuitablePhotograph, keep, original, small_copy
from tests.sites import exchanged, picture, two_in_one


def bomb() -> bytes:
    """A PNG of a few kilobytes that unfolds to 400 million pixels (PNG specification, chunks IHDR and IDAT)."""

    def chunk(name: bytes, content: bytes) -> bytes:
        return len(content).to_bytes(4, "big") + name + content + zlib.crc32(name + content).to_bytes(4, "big")

    header = (20_000).to_bytes(4, "big") * 2 + bytes([1, 0, 0, 0, 0])
    rows = zlib.compress(b"\0" * 100_000, 9)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", rows) + chunk(b"IEND", b"")


def test_keep_photograph_stores_the_very_bytes_under_their_digest(empty_book: Book) -> None:
    """The bytes are kept as they came, under their SHA-256."""
    content = picture()
    kept = keep(empty_book, content)
    assert kept.sha256 == hashlib.sha256(content).hexdigest()
    assert original(empty_book, kept.sha256).read_bytes() == content
    assert (kept.width_px, kept.height_px, kept.media_type, kept.size_bytes) == (64, 48, "image/jpeg", len(content))


def test_keep_same_photograph_twice_is_once(empty_book: Book) -> None:
    """The same bytes are kept once."""
    assert keep(empty_book, picture()) == keep(empty_book, picture())
    assert len([path for path in (empty_book.folder / "photographs").rglob("*") if path.is_file()]) == 1


def odd(form: str, mode: str = "RGB", colour: Any = (120, 90, 60), **more: Any) -> bytes:
    """A picture of one colour in a mode no phone writes."""
    buffer = BytesIO()
    Image.new(mode, (64, 48), colour).save(buffer, form, **more)
    return buffer.getvalue()


def half_clear() -> bytes:
    """A PNG of a palette whose second colour, black on the left, is transparent."""
    image, buffer = Image.new("P", (64, 48), 0), BytesIO()
    image.putpalette([120, 90, 60, 0, 0, 0])
    image.paste(1, (0, 0, 20, 48))
    image.save(buffer, "PNG", transparency=1)
    return buffer.getvalue()


TURNED_BY_99 = bytes.fromhex("457869660000 4d4d002a00000008 0001 0112 0003 00000001 0063 0000 00000000")
GREEN = Image.new("RGB", (64, 48), (0, 200, 0))
BROWN, GREY, PAPER = (120, 90, 60), (120, 120, 120), (255, 255, 255)


@pytest.mark.parametrize(
    ("content", "left"),
    [
        (odd("JPEG", "CMYK", (135, 165, 195, 0)), BROWN),
        (odd("PNG", "I;16", 120 * 257), GREY),
        (odd("PNG", "LA", (120, 255)), GREY),
        (odd("PNG", "RGBA", (0, 0, 0, 0)), PAPER),
        (half_clear(), PAPER),
        (odd("PNG", save_all=True, append_images=[GREEN]), BROWN),
        (odd("WEBP", save_all=True, append_images=[GREEN]), BROWN),
        (odd("JPEG", exif=b"Exif\0\0" + bytes(range(256)) * 20), BROWN),
        (odd("JPEG", exif=b"Exif\0\0II*\0\x08\0\0\0" + b"\xff" * 4000), BROWN),
        (odd("JPEG", exif=TURNED_BY_99), BROWN),
        (odd("PNG", icc_profile=exchanged()), (60, 90, 120)),
        (odd("PNG", "RGBA", (120, 90, 60, 255), icc_profile=exchanged()), (60, 90, 120)),
        (odd("PNG", "L", 120, icc_profile=exchanged()), GREY),
        (odd("PNG", icc_profile=b"no profile at all " * 9), BROWN),
    ],
    ids=["cmyk", "16-bit", "grey-and-clear", "clear", "palette-and-clear", "moving-png", "moving-webp", "exif-rubbish",
         "exif-endless", "exif-turned-by-99", "profile", "profile-and-clear", "profile-of-others", "profile-rubbish"],
)  # fmt: skip
def test_odd_picture_shows_its_first_look_on_paper(empty_book: Book, content: bytes, left: tuple[int, ...]) -> None:
    """Inks, sixteen bits, what shows through, what moves, and notes that make no sense: taken, and shown rightly."""
    kept = keep(empty_book, content)
    assert (kept.width_px, kept.height_px) == (64, 48)
    with Image.open(small_copy(empty_book, kept.sha256, 64)) as copy:
        assert copy.getpixel((5, 20)) == pytest.approx(left, abs=5)


def test_two_hundred_million_pixels_are_refused_by_their_head(empty_book: Book) -> None:
    """A JPEG of 200 megapixels is told what it is too large by, without being unfolded."""
    head = bytes.fromhex("ffd8 ffc0 000b 08 2710 4e20 01 01 11 00")  # 10,000 by 20,000, one channel
    with pytest.raises(UnsuitablePhotograph) as refusal:
        keep(empty_book, head + bytes.fromhex("ffda 0008 01 01 00 00 3f 00") + b"\0" * 64)
    assert "80 million pixels" in refusal.value.reason


@pytest.mark.parametrize("form", ["PNG", "WEBP"])
def test_keep_other_formats_are_taken(empty_book: Book, form: str) -> None:
    """PNG and WebP are photographs too."""
    assert keep(empty_book, picture(form=form)).media_type == f"image/{form.lower()}"


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"Dear keeper",
        picture()[: len(picture()) // 2],
        picture(form="PNG")[:60],
        picture(form="GIF"),
        b"<svg xmlns='http://www.w3.org/2000/svg'/>",
        bomb(),
    ],
    ids=["empty", "letter", "truncated-jpeg", "truncated-png", "gif", "svg", "bomb"],
)
def test_keep_unsuitable_file_is_refused_and_leaves_nothing(empty_book: Book, content: bytes) -> None:
    """A file that is no picture, is cut short or is a bomb is refused by the field, and nothing stays behind."""
    with pytest.raises(UnsuitablePhotograph) as refusal:
        keep(empty_book, content)
    assert refusal.value.field == "photograph"
    assert refusal.value.remedy
    assert not list((empty_book.folder / "photographs").rglob("*"))


@pytest.mark.parametrize("form", ["JPEG", "PNG"])
def test_keep_truncated_picture_is_refused_even_when_the_reader_was_told_to_take_it(
    empty_book: Book, monkeypatch: pytest.MonkeyPatch, form: str
) -> None:
    """Another library's wish to read half pictures in the same process does not reach what is kept."""
    monkeypatch.setattr(ImageFile, "LOAD_TRUNCATED_IMAGES", True)
    content = picture(form=form)
    with pytest.raises(UnsuitablePhotograph):
        keep(empty_book, content[: len(content) // 2])


def test_keep_too_many_bytes_is_refused_before_opening(empty_book: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file larger than the bound is refused with its size."""
    monkeypatch.setattr(photographs, "MOST_BYTES", 100)
    with pytest.raises(UnsuitablePhotograph):
        keep(empty_book, picture())


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP"])
def test_small_copy_carries_nothing_beside_its_pixels(empty_book: Book, form: str) -> None:
    """Comments, descriptions (XMP), where it was taken and a thumbnail of it stay with the original."""
    exif, secret = Image.Exif(), b"the keeper's garden"
    exif.get_ifd(0x8825)[1] = "N"  # GPS
    exif[0x010E] = secret.decode()
    text = PngInfo()
    text.add_text("Comment", secret.decode())
    more = {"JPEG": {"comment": secret, "xmp": secret}, "PNG": {"pnginfo": text}, "WEBP": {"xmp": secret}}[form]
    original_bytes = picture(400, 300, form, exif=exif, **more)
    assert secret in original_bytes
    kept = keep(empty_book, original_bytes)
    copy = small_copy(empty_book, kept.sha256, 320).read_bytes()
    assert secret not in copy
    with Image.open(BytesIO(copy)) as image:
        assert not image.getexif()
        assert image.info.keys() <= {"jfif", "jfif_version", "jfif_unit", "jfif_density", "dpi"}


@pytest.mark.slow
@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="the system does not tell a process's memory")
@pytest.mark.parametrize("form", ["JPEG", "PNG"])
def test_picture_of_many_pixels_is_looked_at_in_little_memory(form: str) -> None:
    """Forty-eight megapixels make a process grow by no more than it may, whatever the format."""
    script = (
        "import sys\n"
        "from pathlib import Path\n"
        "from fieldbook.book.photographs import examine_bytes\n"
        "print(examine_bytes(sys.stdin.buffer.read()).width_px)\n"
        "print(Path('/proc/self/status').read_text().partition('VmHWM:')[2].split()[0])\n"
    )
    buffer = BytesIO()
    Image.new("L", (8_000, 6_000)).save(buffer, form)
    done = subprocess.run([sys.executable, "-c", script], input=buffer.getvalue(), capture_output=True, check=True)
    width, kilobytes = map(int, done.stdout.split())
    assert width == 8_000
    assert kilobytes < 200_000


def test_what_is_printed_does_not_rest_on_a_copy(empty_book: Book) -> None:
    """A smaller copy that was exchanged shows on the desk until it is thrown away, and never on paper."""
    kept = keep(empty_book, picture())
    copy = small_copy(empty_book, kept.sha256, 320)
    before = copy.read_bytes()
    copy.write_bytes(picture(50, 40))
    assert photographs.reduced(empty_book, kept.sha256, 320) == before


def test_small_copy_is_upright_small_and_without_the_cameras_notes(empty_book: Book) -> None:
    """A copy is turned as the camera said (EXIF orientation 6), fits the size, and carries no EXIF."""
    exif = Image.Exif()
    exif[0x0112] = 6  # orientation: turn a quarter clockwise to see it upright
    exif[0x010F] = "maker's note"
    buffer = BytesIO()
    Image.new("RGB", (640, 480)).save(buffer, "JPEG", exif=exif)
    kept = keep(empty_book, buffer.getvalue())
    assert (kept.width_px, kept.height_px) == (480, 640)
    with Image.open(small_copy(empty_book, kept.sha256, 320)) as copy:
        assert copy.size == (240, 320)
        assert not copy.getexif()
    assert original(empty_book, kept.sha256).read_bytes() == buffer.getvalue()


def test_small_copy_is_made_once(empty_book: Book) -> None:
    """Asked for again, the copy made before is given."""
    kept = keep(empty_book, picture())
    first = small_copy(empty_book, kept.sha256, 32)
    made = first.stat().st_mtime_ns
    assert small_copy(empty_book, kept.sha256, 32).stat().st_mtime_ns == made


def test_small_copy_of_a_photograph_that_has_not_come_is_refused(empty_book: Book) -> None:
    """A photograph still on a phone has no copy yet, and that is said."""
    with pytest.raises(UnsuitablePhotograph):
        small_copy(empty_book, "0" * 64, 320)


# 64 by 48 pixels, the upper left quarter red; made with libheif, by us.
HEIC = base64.b64decode(
    "AAAAHGZ0eXBoZWljAAAAAG1pZjFoZWljbWlhZgAAAX1tZXRhAAAAAAAAACFoZGxyAAAAAAAAAABwaWN0AAAAAAAAAAAAAAAAAAAA"
    "ACJpbG9jAAAAAERAAAEAAQAAAAABoQABAAAAAAAAADIAAAAjaWluZgAAAAAAAQAAABVpbmZlAgAAAAABAABodmMxAAAAAA5waXRt"
    "AAAAAAABAAAA/WlwcnAAAADdaXBjbwAAAHZodmNDAQNwAAAAkAAAAAAAHvAA/P34+AAADwNgAAEAGEABDAH//wNwAAADAJAAAAMA"
    "AAMAHroCQGEAAQAqQgEBA3AAAAMAkAAAAwAAAwAeoCCBBZbq5Ka5uAhoMCAAAAMDIAAAAwAhYgABAAZEAcFzwIkAAAATY29scm5j"
    "bHgAAQANAAaAAAAAFGlzcGUAAAAAAAAAQAAAAEAAAAAoY2xhcAAAAEAAAAABAAAAMAAAAAEAAAAAAAAAAv////AAAAACAAAAEHBp"
    "eGkAAAAAAwgICAAAABhpcG1hAAAAAAAAAAEAAQWBAgMFhAAAADptZGF0AAAALigBr1j5ExV/9b7/3oSGnly8cw1Cuk6s+eLW1Lfi"
    "xASMq17WYOjf2UNoRMj/yEA="
)


def test_jpeg_with_a_second_picture_in_it_is_taken_as_a_jpeg(empty_book: Book) -> None:
    """A phone's photograph with a depth map or a preview behind it is kept whole, and copied by its first picture."""
    content = two_in_one(400, 300)
    with Image.open(BytesIO(content)) as opened:
        assert opened.format == "MPO"
    kept = keep(empty_book, content)
    assert (kept.media_type, kept.width_px, kept.height_px) == ("image/jpeg", 400, 300)
    assert original(empty_book, kept.sha256).read_bytes() == content
    with Image.open(small_copy(empty_book, kept.sha256, 320)) as copy:
        assert copy.size == (320, 240)


def test_heic_is_taken_where_it_can_be_read(empty_book: Book) -> None:
    """What a phone makes by default is kept as it came, and shown as a JPEG."""
    pytest.importorskip("pi_heif")
    kept = keep(empty_book, HEIC)
    assert (kept.media_type, kept.width_px, kept.height_px) == ("image/heic", 64, 48)
    with Image.open(small_copy(empty_book, kept.sha256, 320)) as copy:
        red, green, _ = copy.getpixel((8, 8))  # type: ignore[misc]
        assert (copy.format, copy.size, red > 150, green < 80) == ("JPEG", (64, 48), True, True)
    with pytest.raises(UnsuitablePhotograph, match="damaged"):
        keep(empty_book, HEIC[:-30])


def test_heic_is_refused_in_plain_words_where_it_cannot_be_read(
    empty_book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whoever has no reader of such pictures is told what to set on the camera."""
    monkeypatch.setattr(photographs, "_read", lambda: ["JPEG", "PNG", "WEBP"])
    with pytest.raises(UnsuitablePhotograph, match="HEIC") as refusal:
        keep(empty_book, HEIC)
    assert "most compatible" in refusal.value.remedy


@pytest.mark.parametrize("raised", [struct.error("unpack"), KeyError("MPO"), RuntimeError("codec"), MemoryError()])
def test_whatever_a_decoder_raises_is_an_answer_about_that_photograph(
    empty_book: Book, monkeypatch: pytest.MonkeyPatch, raised: Exception
) -> None:
    """A decoder's own failure is a refusal in words, never a fault of the program."""

    def fail(*_: object, **__: object) -> None:
        raise raised

    monkeypatch.setattr(Image, "open", fail)
    with pytest.raises(UnsuitablePhotograph) as refusal:
        photographs.examine_bytes(picture())
    assert refusal.value.remedy


def test_photograph_that_cannot_be_shown_steps_aside_and_counts_as_not_here(empty_book: Book) -> None:
    """Its bytes stay, it is no photograph of the book's any more, and a good one is looked at once."""
    good, bad = picture(), picture(400, 300)[:-200]
    for content in (good, bad):
        evidence.keep(empty_book.folder, "photograph", content)
    good_sha, bad_sha = (hashlib.sha256(content).hexdigest() for content in (good, bad))
    assert (photographs.look_at(empty_book, good_sha), photographs.look_at(empty_book, bad_sha)) == (True, False)
    assert [photographs.is_looked_at(empty_book, sha256) for sha256 in (good_sha, bad_sha)] == [True, False]
    assert not original(empty_book, bad_sha).exists()
    assert photographs.set_aside(empty_book, bad_sha).read_bytes() == bad
