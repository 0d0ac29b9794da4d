"""Styles and scripts are asked for once, and anew when one of them is another."""

from __future__ import annotations

import shutil
from pathlib import Path

from fieldbook import folders
from fieldbook.web import create_app
from fieldbook.web.static_files import url_path
from tests.sites import Surveyed


def test_address_is_another_once_a_file_is(tmp_path: Path) -> None:
    """Its content or its name; of a copy it is the same."""
    addresses = set()
    for name, text in (("a.js", "one"), ("a.js", "two"), ("b.js", "one")):
        folder = tmp_path / f"{name}-{text}"
        folder.mkdir()
        (folder / name).write_text(text)
        addresses.add(url_path(folder))
        shutil.copytree(folder, copied := tmp_path / f"copy of {name}-{text}")
        assert url_path(copied) == url_path(folder)
    assert len(addresses) == 3


def test_what_a_page_loads_is_kept_by_the_browser_and_what_is_not_there_is_not(surveyed: Surveyed) -> None:
    """A script that another one names lies at an address of the same version."""
    browser = create_app(surveyed.book.folder).test_client()
    here = url_path(folders.STATIC)
    for name in ("desk.css", "desk/form.js", "phone/book/figures.js"):
        assert "immutable" in browser.get(f"{here}/{name}", buffered=True).headers["Cache-Control"]
    for missing in (f"{here}/desk/none.js", "/static/desk.css"):
        answer = browser.get(missing)
        assert (answer.status_code, answer.headers["Cache-Control"]) == (404, "private, no-cache")
