"""Days and moments as people and spreadsheets write them: 31 May 2026, 31.5.2026, 31/5/2026, with or without a time.

A day of figures alone has its day first where dots stand between; with slashes it is read only where it can be read in
one way: 3/5/2026 stays as it was typed, and is asked back. In a table, what a cell leaves out is as in the cell above:
`10:05` is at that time on the same day, `17 Feb` in the same year.
"""

from __future__ import annotations

import re
from datetime import date

MONTHS = (
    *("january", "february", "march", "april", "may", "june"),
    *("july", "august", "september", "october", "november", "december"),
)
_TIME = re.compile(r"^(?:(.*?)[\sT,]+)?(\d{1,2}):(\d{2})(:\d{2})?$", re.IGNORECASE)
_WORDED = re.compile(r"^(\d{1,2})(?:st|nd|rd|th)?\.?\s*([a-z]{3,9})\.?(?:,?\s*(\d{4}))?$", re.IGNORECASE)
_MONTH_FIRST = re.compile(r"^([a-z]{3,9})\.?\s*(\d{1,2})(?:st|nd|rd|th)?(?:,?\s*(\d{4}))?$", re.IGNORECASE)
_DOTTED = re.compile(r"^(\d{1,2})\.\s*(\d{1,2})\.\s*(\d{4})?$")
_SLASHED = re.compile(r"^(\d{1,2})/(\d{1,2})/(\d{4})$")


def day_in(text: str, above: str = "") -> str:
    """The day that a text names, as 2026-05-31; the text itself where it names none, or could name two.

    above  the day in the cell above, whose year counts where the text has none

    >>> day_in("31 May 2026"), day_in("17. 2.", "2026-01-30"), day_in("5/31/2026"), day_in("3/5/2026")
    ('2026-05-31', '2026-02-17', '2026-05-31', '3/5/2026')
    """
    text = text.strip()
    if worded := _WORDED.match(text) or _MONTH_FIRST.match(text):
        one, other, year = worded.groups()
        day, name = (one, other) if one.isdigit() else (other, one)
        months = [at for at, month in enumerate(MONTHS, 1) if month.startswith(name.lower())]
        return _as_iso(text, year or above[:4], months[0] if months else 0, int(day))
    if dotted := _DOTTED.match(text):
        day, month, year = dotted.groups()
        return _as_iso(text, year or above[:4], int(month), int(day))
    ways = ways_to_read(text)
    return ways[0] if len(ways) == 1 else text


def ways_to_read(text: str) -> list[str]:
    """The days that figures with slashes between can mean, the day first and the month first.

    >>> ways_to_read("3/5/2026"), ways_to_read("13/5/2026")
    (['2026-05-03', '2026-03-05'], ['2026-05-13'])
    """
    if not (slashed := _SLASHED.match(text)):
        return []
    one, other = int(slashed[1]), int(slashed[2])
    ways = [_as_iso("", slashed[3], month, day) for day, month in ((one, other), (other, one))]
    return list(dict.fromkeys(filter(None, ways)))


def moment_in(text: str, above: str = "") -> str:
    """The moment that a text names, as 2026-05-31 10:05; the text itself where it names none.

    above  the moment in the cell above, whose day counts where the text has a time alone

    >>> moment_in("31 May 2026 9:40"), moment_in("10:05", "2026-02-11T09:40:00+00:00")
    ('2026-05-31 09:40', '2026-02-11 10:05')
    """
    found = _TIME.match(text.strip())
    if not found:
        return text
    day = day_in(found[1], above) if found[1] else above[:10]
    time = f"{int(found[2]):02d}:{found[3]}{found[4] or ''}"
    return f"{day} {time}" if re.fullmatch(r"\d{4}-\d{2}-\d{2}", day) else text


def _as_iso(text: str, year: str, month: int, day: int) -> str:
    try:
        return date(int(year), month, day).isoformat()
    except ValueError:
        return text
