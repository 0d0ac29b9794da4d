"""Documents: looked at in a bounded way, kept as they came, and never run."""

from __future__ import annotations

import hashlib
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from demo_site import letters
from fieldbook.book import documents, evidence, forgetting
from fieldbook.book.backup import backup, restore
from fieldbook.book.documents import UnsuitableDocument
from fieldbook.book.entering import enter
from fieldbook.book.examine import examine
from fieldbook.errors import FieldbookError, Refused
from tests.examples import examples
from tests.sites import Surveyed, picture

LETTER = letters.pdf(("Marrow Quay", "", "As drawn (all of it)."))


def saved(**how: object) -> bytes:
    """A PDF as an independent library writes it."""
    sink = BytesIO()
    with pikepdf.Pdf.new() as made:
        made.add_blank_page()
        made.save(sink, **how)
    return sink.getvalue()


@pytest.mark.parametrize(
    "content",
    [
        LETTER,
        saved(),
        saved(object_stream_mode=pikepdf.ObjectStreamMode.generate),
        saved(linearize=True),
        b"\n" * 100 + LETTER,
    ],
    ids=["plain", "table", "stream", "for the web", "late header"],  # what a library writes differs each time
)
def test_whole_pdf_is_known_by_its_digest(content: bytes) -> None:
    """With a table or a stream of contents, written for the web, or with something before its header."""
    kept = documents.examine_bytes(content)
    assert kept == documents.KeptDocument(hashlib.sha256(content).hexdigest(), len(content), "application/pdf")


def test_scan_is_looked_at_as_a_picture() -> None:
    """A picture says what it is; one that is cut short is refused."""
    assert documents.examine_bytes(picture()).file_type == "image/jpeg"
    with pytest.raises(UnsuitableDocument):
        documents.examine_bytes(picture()[:-200])


@pytest.mark.parametrize(
    "content",
    [
        b"MZ\x90\x00",
        b"%PDF-1.7\n",
        LETTER[:-40],
        LETTER.replace(b"startxref\n", b"startxref\n9"),
        saved(encryption=pikepdf.Encryption(owner="owner", user="user")),
    ],
    ids=["program", "header alone", "cut short", "leads nowhere", "password"],
)
def test_what_cannot_be_read_is_refused_in_words(content: bytes) -> None:
    """A program, a header alone, one cut short, one whose end leads nowhere, one behind a password."""
    with pytest.raises(UnsuitableDocument) as refused:
        documents.examine_bytes(content)
    assert refused.value.remedy


@given(st.binary(max_size=3_000), st.integers(0, len(LETTER)))
@examples(60)
def test_nothing_but_a_refusal_comes_of_any_bytes(noise: bytes, at: int) -> None:
    """Whatever the bytes, they are a document or refused, and no other error."""
    for content in (noise, LETTER[:at] + noise + LETTER[at:]):
        try:
            documents.examine_bytes(content)
        except FieldbookError as error:
            assert error.code in {"unsuitable-document", "unsuitable-photograph"}


def test_pdf_of_the_invented_site_is_one_that_others_read() -> None:
    """An independent library finds one page of A4 with the words."""
    with pikepdf.open(BytesIO(LETTER)) as read:
        assert read.check_pdf_syntax() == []
        assert [float(one) for one in read.pages[0].mediabox][2:] == [595, 842]
        assert b"(As drawn \\(all of it\\).)" in read.pages[0].Contents.read_bytes()


def lines(site: str) -> list[dict]:
    """A document and a specialist's word that rests on it, as a file of lines says it."""
    about = {"site": site, "reference": "L1", "name": "Note on the rail", "sort": "engineer’s note"}
    word = {"site": site, "reference": "E1", "question": "specialist", "role": "structural engineer", "answer": "yes"}
    word |= {"words": "As drawn.", "document": "Note 1", "on": "2026-01-02", "kept_as": "letter"}
    return [
        {"kind": "document", "item": "letter", "set": about, "file": "letter.pdf"},
        {"kind": "decision", "item": "word", "set": word},
    ]


def test_document_is_entered_from_a_file_cited_examined_backed_up_and_taken_out(
    surveyed: Surveyed, tmp_path: Path
) -> None:
    """Digest, size and type are filled in; an altered one is found; it goes if its writer asks to be forgotten."""
    (tmp_path / "letter.pdf").write_bytes(LETTER)
    said = lines(surveyed.site)
    said[1]["set"]["items"] = [surveyed.fitting()]
    ids = enter(surveyed.book, said, tmp_path).ids
    values = surveyed.book.item(ids["letter"])[1]
    assert (values["size_bytes"], values["file_type"]) == (len(LETTER), "application/pdf")
    assert surveyed.book.item(ids["word"])[1]["kept_as"] == ids["letter"]
    backup(surveyed.book, tmp_path / "backup")
    with restore(tmp_path / "backup", tmp_path / "again") as again:
        assert evidence.path_of(again.folder, "document", values["sha256"]).read_bytes() == LETTER
    kept = evidence.path_of(surveyed.book.folder, "document", values["sha256"])
    kept.write_bytes(LETTER + b" ")
    (damage,) = examine(surveyed.book)
    assert (damage.part, damage.item) == ("documents", ids["letter"])
    place = forgetting.file_of(surveyed.book, ids["letter"])
    assert place
    forgetting.take_out(surveyed.book, [place])
    assert not kept.exists()
    assert examine(surveyed.book) == []


def test_unsuitable_file_enters_nothing(surveyed: Surveyed, tmp_path: Path) -> None:
    """What is refused is told by line, and neither entry nor file is kept."""
    (tmp_path / "letter.pdf").write_bytes(b"%PDF-1.4 and nothing more")
    before = surveyed.book.head()
    with pytest.raises(Refused):
        enter(surveyed.book, lines(surveyed.site)[:1], tmp_path)
    assert surveyed.book.head() == before
    assert not list((surveyed.book.folder / "documents").rglob("*"))
