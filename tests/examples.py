"""How many examples a property is tried with: as many as named, or several times that in the long run."""

from __future__ import annotations

from hypothesis import settings

LONGER = 10


def is_long() -> bool:
    """Whether this is the long run."""
    return settings.get_current_profile_name() == "long"


def examples(number: int, in_the_long_run: int | None = None, **more: object) -> settings:
    """Settings for a property that is tried with so many examples."""
    return settings(max_examples=(in_the_long_run or number * LONGER) if is_long() else number, **more)
