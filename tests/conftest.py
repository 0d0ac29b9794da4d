"""What holds for every test: the same examples each time unless asked otherwise, and nothing left behind."""

from __future__ import annotations

import os
import shutil
import tempfile
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings
from hypothesis.internal.conjecture import engine

from fieldbook.book.book import Book
from fieldbook.book.opening import create_book, open_book
from tests.compiled_once import compile_once
from tests.examples import LONGER
from tests.sites import Surveyed, survey

GRACE_S = 2.0
OPEN_FILES = Path("/proc/self/fd")

# A failing example is made smaller for so long; its own default is five minutes.
SHRINKING_S = 30
assert hasattr(engine, "MAX_SHRINKING_SECONDS")
engine.MAX_SHRINKING_SECONDS = SHRINKING_S

settings.register_profile("fixed", deadline=None, print_blob=True, derandomize=True)
settings.register_profile("long", deadline=None, print_blob=True, max_examples=100 * LONGER)
settings.load_profile("fixed")

compile_once()


# What is costly to make and shared by a session: those who use it run in one process.
SHARED = ("on_paper", "in_trouble", "shed", "furnished_checkout", "random_cameras")
# Whoever uses one of these is slow.
COSTLY = {*SHARED, "browser", "driver", "checkout", "wheel"}


@pytest.hookimpl(tryfirst=True)  # before xdist reads the groups
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Put the fast tests first, then those that take longest; those that share what is costly into one process."""
    for item in items:
        used = set(getattr(item, "fixturenames", ()))
        for name in sorted(used.intersection(SHARED)):
            item.add_marker(pytest.mark.xdist_group(name))
        if used & COSTLY:
            item.add_marker(pytest.mark.slow)
    items.sort(key=_turn)


def _turn(item: pytest.Item) -> int:
    """What begins last must not take long, or all but one process wait for it."""
    marks = {mark.name for mark in item.iter_markers()}
    return 0 if "slow" not in marks else 1 if marks & {"long", "xdist_group"} else 2


def pytest_collection_finish(session: pytest.Session) -> None:
    """See that tests of a group will run in one process, which a pytest that xdist does not know has broken before."""
    if session.config.getoption("loadgroup", default=False):
        apart = [
            item.nodeid for item in session.items if item.get_closest_marker("xdist_group") and "@" not in item.nodeid
        ]
        assert not apart, f"this pytest and this pytest-xdist keep no group together, such as that of {apart[0]}"


def open_files_under(folder: Path) -> set[str]:
    """Files below a folder that this process holds open, where the system tells."""
    if not OPEN_FILES.is_dir():
        return set()
    targets = set()
    for descriptor in OPEN_FILES.iterdir():
        try:
            targets.add(str(descriptor.readlink()))
        except OSError:  # closed since the listing, such as the listing's own
            continue
    return {target for target in targets if target.startswith(f"{folder}{os.sep}")}


def strays_among(threads: set[threading.Thread]) -> list[str]:
    """Names of the threads that do not end within the grace."""
    for thread in threads:
        thread.join(GRACE_S)
    return sorted(thread.name for thread in threads if thread.is_alive())


@pytest.fixture(autouse=True)
def nothing_left_behind(
    scratch: Path, tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch
) -> Iterator[None]:
    """Fail a test that leaves a thread running, a file or a book open, or a temporary file lying about."""
    base = tmp_path_factory.getbasetemp()
    monkeypatch.setenv("TMPDIR", str(scratch))
    monkeypatch.setattr(tempfile, "tempdir", str(scratch))
    threads_before, files_before = set(threading.enumerate()), open_files_under(base)
    yield
    assert not strays_among(set(threading.enumerate()) - threads_before), "threads still running"
    assert not open_files_under(base) - files_before, "files still open"
    if lying_about := sorted(path.name for path in scratch.iterdir()):
        shutil.rmtree(scratch)  # the next test is not to be blamed for them
        scratch.mkdir()
    assert not lying_about, "temporary files left lying about"


@pytest.fixture(scope="session")
def scratch(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where temporary files go; empty before and after each test."""
    return tmp_path_factory.mktemp("scratch")


@pytest.fixture(scope="session")
def unwritten_book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a new book, to be copied: making its tables anew is most of what a small test would take."""
    folder = tmp_path_factory.mktemp("unwritten") / "book"
    create_book(folder).close()
    return folder


@pytest.fixture
def empty_book(unwritten_book: Path, tmp_path: Path) -> Iterator[Book]:
    """A new book with nothing in it."""
    shutil.copytree(unwritten_book, tmp_path / "book")
    with open_book(tmp_path / "book") as book:
        yield book


@pytest.fixture
def surveyed(empty_book: Book) -> Surveyed:
    """A book with a site, a room and a face."""
    return survey(empty_book)
