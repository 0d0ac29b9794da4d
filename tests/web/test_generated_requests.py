"""Requests made by chance over every route, at the desk and of phones: each is answered, none with a failure."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.examples import is_long
from tests.web.generated_requests import OF_A_ROUND, REQUESTS, Asking

pytestmark = [
    pytest.mark.slow,
    # Werkzeug leaves the part of an upload that was cut short to the garbage collector.
    pytest.mark.filterwarnings("ignore:.*SpooledTemporaryFile:pytest.PytestUnraisableExceptionWarning"),
]

BATCHES, IN_SHORT = 2, 60


@pytest.mark.parametrize("batch", range(BATCHES))
def test_requests_by_chance_are_answered(tmp_path: Path, batch: int) -> None:
    """Items of every kind in every place, lists for single values, extremes: words or a page, and soon."""
    asking = Asking(tmp_path)
    if is_long():
        for number in range(REQUESTS // BATCHES // OF_A_ROUND):
            asking.round(f"batch {batch} {number}")
    else:
        asking.round(f"batch {batch}", IN_SHORT)
    assert asking.said[404] < asking.said.total() / 2, "most requests are about nothing"
