"""The renderer reads the files of its job and nothing else."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from pypdf import PdfReader

from fieldbook.record import part_processes, rendering
from fieldbook.record.missing_letters import NOTE_AT
from fieldbook.record.typesetting import Pages
from tests.sites import picture

pytestmark = pytest.mark.slow

PHOTOGRAPH = "app:photograph/1"


@pytest.fixture
def files(tmp_path):
    """One photograph the job names, beside one it does not."""
    for name in ("mine.jpg", "other.jpg"):
        (tmp_path / name).write_bytes(picture())
    return {PHOTOGRAPH: {"path": str(tmp_path / "mine.jpg"), "media_type": "image/jpeg"}}


def rendered(page: str, files: dict[str, dict[str, str]], folder: Path) -> list[Mapping[str, Any]]:
    """What is reported of pages that are written to `page.pdf` in a folder."""
    return [*part_processes.rendered(Pages(page, files), folder, folder / "page.pdf", time_limit_s=600)]


def test_file_of_the_job_is_read(files, tmp_path):
    """An address the job names gives its file, with its type."""
    answer = rendering.fetcher(files).fetch(PHOTOGRAPH)
    assert answer.read() == (tmp_path / "mine.jpg").read_bytes()
    assert answer.content_type == "image/jpeg"


@pytest.mark.parametrize(
    "address",
    [
        "file:///etc/hostname",
        "FILE:///etc/hostname",
        "http://localhost/",
        "https://localhost/",
        "ftp://localhost/",
        "data:text/plain,hello",
        "app:photograph/2",
        "app:photograph/1/../2",
        "app:photograph/1?other",
        "app:../book.sqlite",
        "/etc/hostname",
        "",
    ],
)
@pytest.mark.parametrize("way", ["fetch", "open", "__call__"])
def test_every_other_address_is_refused(files, address, way):
    """No scheme, no other book's file, and no bending of a path gets past."""
    with pytest.raises(ValueError, match="none of this record's own files"):
        getattr(rendering.fetcher(files), way)(address)


def test_page_that_asks_for_other_files_gets_none(files, tmp_path):
    """Pictures, styles and attachments a page asks for from elsewhere are refused, and the refusals are told."""
    secret = tmp_path / "secret.txt"
    secret.write_text("the keeper's alarm code", encoding="utf-8")
    wanted = [secret.as_uri(), (tmp_path / "other.jpg").as_uri(), "http://localhost:9/picture.jpg", "app:photograph/2"]
    pictures = "".join(f'<img alt="one" src="{address}">' for address in [PHOTOGRAPH, *wanted])
    page = f"""<!DOCTYPE html><html lang="en"><head><title>Page</title>
        <link rel="attachment" href="{secret.as_uri()}"><link rel="stylesheet" href="{secret.as_uri()}">
        <style>@import url("{secret.as_uri()}"); body {{ background: url("{wanted[1]}") }}</style></head>
        <body>{pictures}<svg width="9" height="9"><title>One</title><image href="{wanted[1]}"/></svg></body></html>"""
    told = rendered(page, files, tmp_path)
    with pikepdf.open(tmp_path / "page.pdf") as document:
        images = [
            item for item in document.objects if isinstance(item, pikepdf.Stream) and item.get("/Subtype") == "/Image"
        ]
        assert len(images) == 1
        assert "/Names" not in document.Root or "/EmbeddedFiles" not in document.Root.Names
    warnings = " ".join(news["warning"] for news in told if "warning" in news)
    assert all(address in warnings for address in wanted)
    assert {"pages": 1} in told


NO_FONT = "\U0010fffd"  # for whoever agrees on it between themselves: no font of the tests' machine has it


def test_letter_without_a_font_is_set_as_its_number(tmp_path):
    """In words and in a drawing, with a note where there is room for one; what only says how another looks is not."""
    drawing = tmp_path / "drawing.svg"
    size = 'xmlns="http://www.w3.org/2000/svg" width="200" height="20"'
    drawing.write_text(f'<svg {size}><text x="2" y="15">Shelf {NO_FONT}</text></svg>', encoding="utf-8")
    files = {"app:drawing": {"path": str(drawing), "media_type": "image/svg+xml"}}
    page = f"""<!DOCTYPE html><html lang="en"><head><title>Page</title></head>
        <body><p>Lamp {NO_FONT} bar\ufe0f</p>{NOTE_AT}<img alt="a drawing" src="app:drawing"></body></html>"""
    told = rendered(page, files, tmp_path)
    words = " ".join(page.extract_text() for page in PdfReader(tmp_path / "page.pdf").pages)
    assert "Lamp [U+10FFFD] bar" in words
    assert "Shelf [U+10FFFD]" in words
    assert "Their numbers in Unicode stand for them: [U+10FFFD]." in " ".join(words.split())
    assert NO_FONT not in words
    assert any(f"No font of this machine holds {NO_FONT} [U+10FFFD]." in news.get("letters", "") for news in told)
    assert not any("warning" in news for news in told)
    assert {"pages": 1} in told


def test_pages_whose_letters_are_all_there_are_set_once(tmp_path):
    """What nobody misses is not noted."""
    told = rendered(f'<!DOCTYPE html><html lang="en"><title>Page</title><p>Żółw Λάμπα</p>{NOTE_AT}', {}, tmp_path)
    assert [news["page"] for news in told if "page" in news] == [1]
    assert told[-1] == {"pages": 1}
    assert not any("letters" in news for news in told)
