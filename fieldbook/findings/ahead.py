"""What is dated ahead: a day that has not come settles nothing today, whatever was entered for it."""

from __future__ import annotations

from datetime import date
from typing import Protocol

from ..book.site import Site
from ..book.wording import day


class OnADay(Protocol):
    """A site that is asked about on a day."""

    @property
    def site(self) -> Site: ...

    @property
    def today(self) -> date: ...


def come(iso: str, today: date) -> bool:
    """Whether a day, or the day of a moment where it was noted, has come."""
    return iso[:10] <= today.isoformat()


def not_come(iso: str) -> str:
    """That a day has not come, as a sentence."""
    return f"It is dated {day(iso)}, a day that has not come."
