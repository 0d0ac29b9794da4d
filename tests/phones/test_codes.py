"""One-time codes: typed as a person types, used once, and not to be guessed."""

from __future__ import annotations

import re

import pytest

from fieldbook.book.book import Book
from fieldbook.book.opening import open_book
from fieldbook.errors import FieldbookError
from fieldbook.phones import codes
from fieldbook.phones.codes import JOIN, LETTERS, MOST_WRONG, OPEN, TooManyTries, WrongCode


def redeem(book: Book, typed: str) -> FieldbookError | None:
    """Try a code as a phone does."""
    with book.writing():
        return codes.redeem_join_code(book, typed)


def test_join_code_has_at_least_forty_bits_in_groups(empty_book: Book) -> None:
    """A code can be read aloud, and is one of 2^40."""
    code = codes.new_join_code(empty_book)
    assert re.fullmatch(r"[0-9A-Z]{4}-[0-9A-Z]{4}", code)
    assert len(set(LETTERS)) ** len(code.replace("-", "")) >= 2**40


@pytest.mark.parametrize(
    "write", [str.lower, lambda code: f" {code.replace('-', ' ')} ", lambda code: code.replace("-", "")]
)
def test_join_code_is_understood_however_it_is_typed(empty_book: Book, write: object) -> None:
    """Small letters, spaces and missing hyphens do not matter."""
    assert redeem(empty_book, write(codes.new_join_code(empty_book))) is None  # type: ignore[operator]


def test_as_typed_letters_taken_for_figures_are_read_as_figures() -> None:
    """Whoever reads 0 as O, or 1 as I or L, joins all the same."""
    assert codes.as_typed("oil0-1abc") == "0110 1ABC".replace(" ", "")


def test_join_code_works_once(empty_book: Book) -> None:
    """The second to come with a code is refused."""
    code = codes.new_join_code(empty_book)
    assert redeem(empty_book, code) is None
    assert isinstance(redeem(empty_book, code), WrongCode)


def test_join_code_is_too_old_after_an_hour(empty_book: Book) -> None:
    """A code that lay about is worth nothing."""
    code = codes.new_join_code(empty_book)
    with empty_book.writing():
        empty_book.db.execute("UPDATE one_time_code SET expires_at = expires_at - 3600")
    assert isinstance(redeem(empty_book, code), WrongCode)


def test_five_wrong_codes_close_the_door_even_for_the_right_one(empty_book: Book) -> None:
    """Guessing costs ten minutes for five tries, and the right code is not tested meanwhile."""
    code = codes.new_join_code(empty_book)
    for _ in range(MOST_WRONG):
        assert isinstance(redeem(empty_book, "0000-0000"), WrongCode)
    closed = redeem(empty_book, code)
    assert isinstance(closed, TooManyTries)
    assert 590 < closed.seconds <= 600
    with empty_book.writing():
        empty_book.db.execute("UPDATE wrong_code SET at = at - 601")
    assert redeem(empty_book, code) is None


def test_wrong_codes_of_a_clock_set_back_do_not_close_the_door_for_ever(empty_book: Book) -> None:
    """Tries noted in what is now the future are not counted."""
    with empty_book.writing():
        for _ in range(MOST_WRONG):
            empty_book.db.execute("INSERT INTO wrong_code SELECT 1e12")
    assert redeem(empty_book, codes.new_join_code(empty_book)) is None


def test_code_made_by_one_process_opens_the_door_of_another(empty_book: Book) -> None:
    """Codes lie in the book, not in a process."""
    code = codes.new_join_code(empty_book)
    with open_book(empty_book.folder) as other:
        assert redeem(other, code) is None
    assert isinstance(redeem(empty_book, code), WrongCode)


def test_codes_are_kept_as_digests_only(empty_book: Book) -> None:
    """Whoever reads the book's file finds no code in it."""
    code, secret = codes.new_join_code(empty_book).replace("-", ""), codes.new_opening(empty_book)
    kept = repr(empty_book.db.execute("SELECT * FROM one_time_code").fetchall())
    assert code not in kept
    assert secret not in kept


def test_code_for_one_purpose_does_not_serve_another(empty_book: Book) -> None:
    """What opens the desk lets no phone join, and the other way round."""
    code, secret = codes.new_join_code(empty_book).replace("-", ""), codes.new_opening(empty_book)
    with empty_book.writing():
        assert not codes.redeem(empty_book, OPEN, code)
        assert not codes.redeem(empty_book, JOIN, secret)
        assert codes.redeem(empty_book, OPEN, secret)
        assert not codes.redeem(empty_book, OPEN, secret)


def test_wrong_codes_are_counted_over_a_right_one_and_over_processes(empty_book: Book) -> None:
    """Four wrong, one right, one wrong in another process: that is five wrong ones, and the door is closed."""
    for _ in range(MOST_WRONG - 1):
        assert isinstance(redeem(empty_book, "0000-0000"), WrongCode)
    assert redeem(empty_book, codes.new_join_code(empty_book)) is None
    with open_book(empty_book.folder) as other:
        assert isinstance(redeem(other, "0000-0000"), WrongCode)
    assert isinstance(redeem(empty_book, codes.new_join_code(empty_book)), TooManyTries)
