"""Photographs that arrive in pieces, cut at any place."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.book import photographs
from fieldbook.book.book import Book
from fieldbook.book.opening import create_book, open_book
from fieldbook.book.photographs import UnsuitablePhotograph, original
from fieldbook.phones import pieces
from fieldbook.phones.pieces import DigestDiffers, OutOfStep, Progress, TooMuchUnderWay
from tests.examples import examples
from tests.sites import picture

PHONE = "01890a5d-ac96-774b-bcce-b302099a8057"
PICTURE = picture(400, 300)
DIGEST = hashlib.sha256(PICTURE).hexdigest()
LANES = 6


def send(book: Book, first: int, last: int, content: bytes = PICTURE, digest: str = DIGEST) -> Progress:
    """Send the bytes from `first` up to `last`, exclusive."""
    return pieces.take(book, PHONE, digest, first, len(content), [content[first:last]])


def begun(book: Book) -> list[Path]:
    """Files of photographs under way."""
    return sorted((book.folder / "arriving").rglob("*.part"))


def test_s7_photograph_appears_only_when_every_byte_is_there(empty_book: Book) -> None:
    """Until the last piece nothing lies under the digest; then the bytes are those that were taken."""
    assert send(empty_book, 0, 500) == Progress(500, False)
    assert not original(empty_book, DIGEST).exists()
    assert pieces.progress(empty_book, PHONE, DIGEST) == Progress(500, False)
    assert send(empty_book, 500, len(PICTURE)) == Progress(len(PICTURE), True)
    assert original(empty_book, DIGEST).read_bytes() == PICTURE
    assert begun(empty_book) == []


def test_s7_piece_that_leaves_a_gap_is_out_of_step(empty_book: Book) -> None:
    """A piece that does not follow what is here says where to go on."""
    send(empty_book, 0, 500)
    with pytest.raises(OutOfStep) as refusal:
        send(empty_book, 600, 700)
    assert refusal.value.as_dict()["received"] == 500


def test_s7_piece_sent_again_costs_nothing(empty_book: Book) -> None:
    """A piece whose answer was lost comes again, and so does one after the end."""
    send(empty_book, 0, 500)
    assert send(empty_book, 0, 500) == Progress(500, False)
    send(empty_book, 500, len(PICTURE))
    assert send(empty_book, 500, len(PICTURE)) == Progress(len(PICTURE), True)


def test_s7_what_came_before_a_cut_stays(empty_book: Book) -> None:
    """A connection that ends within a piece costs nothing of what was written."""
    assert pieces.take(empty_book, PHONE, DIGEST, 0, len(PICTURE), [PICTURE[:300]]) == Progress(300, False)
    assert send(empty_book, 300, len(PICTURE)).complete


def test_s7_two_requests_with_the_same_bytes_make_one_photograph(empty_book: Book) -> None:
    """The one that was given up and still writes does no harm to the one after it."""

    def cut() -> Iterator[bytes]:
        yield PICTURE[:200]
        assert send(empty_book, 0, len(PICTURE)).complete  # the phone began again meanwhile
        yield PICTURE[200:400]

    assert pieces.take(empty_book, PHONE, DIGEST, 0, len(PICTURE), cut()).complete
    assert original(empty_book, DIGEST).read_bytes() == PICTURE
    assert begun(empty_book) == []


def test_s7_wrong_bytes_are_refused_and_begun_anew(empty_book: Book) -> None:
    """Bytes that are not those of the digest leave nothing behind, and the right ones go in afterwards."""
    with pytest.raises(DigestDiffers):
        send(empty_book, 0, len(PICTURE), PICTURE[:-1] + b"\0")
    assert begun(empty_book) == []
    assert not original(empty_book, DIGEST).exists()
    assert send(empty_book, 0, len(PICTURE)).complete


def test_s7_all_bytes_there_but_not_finished_is_finished_by_any_piece(empty_book: Book) -> None:
    """A server that died after the last byte and before the end finishes when the phone begins again."""
    send(empty_book, 0, 500)
    (part,) = begun(empty_book)
    part.write_bytes(PICTURE)
    assert pieces.progress(empty_book, PHONE, DIGEST) == Progress(len(PICTURE), False)
    assert send(empty_book, 0, 500).complete


def test_what_is_no_picture_is_refused_with_a_reason(empty_book: Book) -> None:
    """Bytes that fit their digest but show nothing are refused, and leave nothing behind."""
    words = b"not a picture"
    with pytest.raises(UnsuitablePhotograph):
        send(empty_book, 0, len(words), words, hashlib.sha256(words).hexdigest())
    assert begun(empty_book) == []


def test_photograph_announced_as_too_large_is_refused_before_it_is_sent(empty_book: Book) -> None:
    """The limit is said with the first piece, not after an hour's sending."""
    with pytest.raises(UnsuitablePhotograph):
        pieces.take(empty_book, PHONE, DIGEST, 0, photographs.MOST_BYTES + 1, [b"x"])
    assert begun(empty_book) == []


def test_pieces_of_one_device_do_not_touch_those_of_another(empty_book: Book) -> None:
    """A device that sends rubbish under a digest spoils nobody else's photograph."""
    send(empty_book, 0, 500)
    pieces.take(empty_book, "other", DIGEST, 0, len(PICTURE), [b"\0" * 500])
    assert send(empty_book, 500, len(PICTURE)).complete


def test_device_that_finishes_nothing_is_stopped_until_what_it_began_is_old(empty_book: Book) -> None:
    """One device cannot fill the disk with beginnings; those forgotten for a month make room."""
    for number in range(pieces.MOST_UNDER_WAY):
        pieces.take(empty_book, PHONE, f"{number:064x}", 0, 10, [b"x"])
    with pytest.raises(TooMuchUnderWay):
        send(empty_book, 0, 500)
    for part in begun(empty_book):
        os.utime(part, (0, 0))
    assert send(empty_book, 0, 500).received == 500
    pieces.forget(empty_book, PHONE)
    assert begun(empty_book) == []


def test_photographs_of_one_device_may_come_side_by_side(empty_book: Book) -> None:
    """While one is begun, others of the same device are finished and gone from where it looks."""

    def send_some(lane: int) -> bool:
        with open_book(empty_book.folder) as book:
            pictures = [PICTURE + bytes([lane, number]) for number in range(60)]
            ways = [pieces.take(book, PHONE, hashlib.sha256(one).hexdigest(), 0, len(one), [one]) for one in pictures]
            return all(way.complete for way in ways)

    with ThreadPoolExecutor(LANES) as lanes:
        assert all(lanes.map(send_some, range(LANES)))


@examples(60)
@given(st.lists(st.tuples(st.integers(-900, 20), st.integers(1, 900)), max_size=12))
def test_s7_any_order_of_pieces_and_cuts_gives_the_same_bytes(
    tmp_path_factory: pytest.TempPathFactory, steps: list[tuple[int, int]]
) -> None:
    """Whatever is cut short, sent twice or sent in the wrong place, the photograph is the one that was taken."""
    with create_book(tmp_path_factory.mktemp("book") / "b") as book:
        for jump, length in [*steps, *[(0, 500)] * len(PICTURE)]:
            here = pieces.progress(book, PHONE, DIGEST)
            if here.complete:
                break
            first = max(0, here.received + jump)
            try:
                send(book, first, min(first + length, len(PICTURE)))
            except OutOfStep as refusal:
                assert first > refusal.received == here.received
            else:
                assert first <= here.received
        assert original(book, DIGEST).read_bytes() == PICTURE
