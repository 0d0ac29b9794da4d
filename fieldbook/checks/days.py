"""A day as sentences tell it, on the desk, the phone and paper alike: 31 May 2026."""

from __future__ import annotations

from datetime import date

NO_BREAK = "\u00a0"
MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)


def in_words(day: date | str) -> str:
    """A day with its month in words; day and month are never parted.

    day      a day, or a day or a moment as the book keeps it: 2026-05-31; other words are told as they are
    returns  words

    Source: common practice, no source.
    Raises nothing.

    >>> in_words("2026-05-31T14:30:00+01:00").replace(NO_BREAK, " "), in_words("in spring")
    ('31 May 2026', 'in spring')
    """
    try:
        known = date.fromisoformat(day[:10]) if isinstance(day, str) else day
    except ValueError:
        return str(day)
    return f"{known.day}{NO_BREAK}{month_in_words(known)}"


def month_in_words(day: date) -> str:
    """The month of a day: May 2026.

    day      a day
    returns  words

    Source: common practice, no source.
    Raises nothing.

    >>> month_in_words(date(2026, 5, 31))
    'May 2026'
    """
    return f"{MONTHS[day.month - 1]} {day.year}"
