"""The renderer reads the files of its job and nothing else."""

from __future__ import annotations

import json
import subprocess
import sys

import pikepdf
import pytest

from fieldbook.record import rendering
from tests.sites import picture

pytestmark = pytest.mark.slow

PHOTOGRAPH = "app:photograph/1"


@pytest.fixture
def files(tmp_path):
    """One photograph the job names, beside one it does not."""
    for name in ("mine.jpg", "other.jpg"):
        (tmp_path / name).write_bytes(picture())
    return {PHOTOGRAPH: {"path": str(tmp_path / "mine.jpg"), "media_type": "image/jpeg"}}


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
    html, target = tmp_path / "page.html", tmp_path / "page.pdf"
    html.write_text(page, encoding="utf-8")
    job = {"html": str(html), "files": files, "target": str(target), "identifier": "00" * 16}
    done = subprocess.run(
        [sys.executable, "-m", rendering.__name__], input=json.dumps(job), text=True, capture_output=True, check=True
    )
    told = [json.loads(line) for line in done.stdout.splitlines()]
    with pikepdf.open(target) as document:
        images = [
            item for item in document.objects if isinstance(item, pikepdf.Stream) and item.get("/Subtype") == "/Image"
        ]
        assert len(images) == 1
        assert "/Names" not in document.Root or "/EmbeddedFiles" not in document.Root.Names
    warnings = " ".join(news["warning"] for news in told if "warning" in news)
    assert all(address in warnings for address in wanted)
    assert told[-1] == {"pages": 1}
