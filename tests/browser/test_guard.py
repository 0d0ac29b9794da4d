"""A test that waits in a browser for what never comes fails, and the next one has the same browser."""

from __future__ import annotations

import signal

import pytest
from playwright.sync_api import Browser

from tests.browser.guard import LIMIT_S, guarded


def test_page_that_never_answers_is_waited_for_no_longer(browser: Browser) -> None:
    """The call that waits is interrupted, and the page goes on."""
    opened = browser.new_context()
    page = opened.new_page()
    try:
        with pytest.raises(AssertionError, match="stands still"), guarded(0.1):
            page.evaluate("new Promise(() => {})")
        assert page.evaluate("1 + 1") == 2
    finally:
        opened.close()


def test_every_test_here_is_guarded() -> None:
    """Its time is running."""
    left, _ = signal.getitimer(signal.ITIMER_REAL)
    assert 0 < left <= LIMIT_S
