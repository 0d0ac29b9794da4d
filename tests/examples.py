"""How many examples a property is tried with: as many as named, or several times that in the long run."""

from __future__ import annotations

from hypothesis import settings

LONGER = 10


def examples(number: int, **more: object) -> settings:
    """Settings for a property that is tried with so many examples."""
    is_long = settings.get_current_profile_name() == "long"
    return settings(max_examples=number * (LONGER if is_long else 1), **more)
