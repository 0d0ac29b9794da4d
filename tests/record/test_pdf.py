"""The record as a PDF: what it says, what it is made of, and what happens when it cannot be made."""

from __future__ import annotations

import errno
import os
import re
import subprocess
import sys
from pathlib import Path

import pikepdf
import pytest
from PIL import Image
from pypdf import PdfReader

from fieldbook.book.opening import create_book, open_book
from fieldbook.book.wording import figure
from fieldbook.checks.verdict import Word
from fieldbook.errors import UnknownItem
from fieldbook.record import pdf
from fieldbook.record.compile import compile_record
from fieldbook.record.editions import editions
from tests.record.conftest import OnPaper
from tests.record.furnished import CLOSE_MARK, OVER_MARK, furnish

pytestmark = pytest.mark.slow

HEARD = list[tuple[int, int, str]]
MM = 72 / 25.4
NARROWEST_MARGIN_MM = 14


def quiet(*_):
    """Progress nobody listens to."""


def spaced(words):
    """Words with single plain spaces between them: lines break, and days are held together by spaces that do not."""
    return re.sub(r"\s+", " ", words)


@pytest.fixture(scope="session")
def text(on_paper):
    """All the record's words, single spaces between them."""
    pages = PdfReader(on_paper.file).pages
    return spaced(" ".join(page.extract_text() for page in pages))


@pytest.fixture
def opened(on_paper):
    """The PDF's own structure."""
    with pikepdf.open(on_paper.file) as document:
        yield document


def test_printing_gives_no_warning(on_paper):
    """The typesetter has nothing to complain of, and counts its pages right."""
    assert on_paper.printed.warnings == ()
    assert on_paper.printed.pages == len(PdfReader(on_paper.file).pages)


def test_every_fixing_and_fitting_is_in_the_text(on_paper, text):
    """Whoever searches the record for a mark finds it."""
    for sheet in on_paper.record.sheets:
        for item in (sheet.fitting, *sheet.fixings):
            assert re.search(rf"\b{re.escape(item.mark)}\b", text), item.mark


def test_every_finding_is_in_the_text(on_paper, text):
    """Each is there with its word, what it is about and, unless it is within, its sentence and standing caution."""
    for answer in on_paper.record.answers:
        one = answer.verdict
        figures = [f"{name}{figure(value, one.unit)}" for name, value in (("", one.figure), ("limit ", one.limit))]
        told_together = one.word is Word.CLOSE and spaced(", ".join(figures)) in text
        assert one.word is Word.WITHIN or spaced(answer.sentence) in text or told_together
        assert spaced(answer.standing) in text
        assert re.search(rf"{answer.verdict.word} (?:[^.:]*, )?{re.escape(answer.about)}", text), answer
    keep_off = text.rpartition("keep off [")[2]
    assert f"over {OVER_MARK} against K1" in keep_off
    assert f"close {CLOSE_MARK} against K1" in keep_off
    words = {answer.verdict.word for answer in on_paper.record.answers}
    assert words >= {Word.OVER, Word.NOT_AGREED, Word.NOT_KNOWN, Word.CLOSE, Word.WITHIN}


def test_cautions_are_in_the_text_in_full(on_paper, text):
    """Each caution that applies is there with its words and to whom it is left."""
    assert on_paper.record.cautions
    for note in on_paper.record.cautions:
        for words in (note.caution.title, note.caution.text, note.caution.left_to):
            assert words in text
    assert "A structural engineer decides on this one, whatever the figures say." in text


@pytest.mark.parametrize(
    "words",
    [
        "Brass pin in the third joint above the dado",
        "lettering in old paint",
        "Hairline crack above the door",
        "Undo the clamps from the right.",
        "Half a turn at a time.",
        "PG7 12 %; PW6 88 %",
        "L* 42",
        "Thin, by fine brush.",
        "Not on a chair.",
        "yes, with conditions",
        "Looked at every spring.",
        "146.50 EUR",
        "2 March 2026",
        "Agreed with the keeper: 2. Not agreed: D1.3. Not known: D1, D2.",
        "Key at the gate lodge.",
        "page 2 of",
    ],
)  # fmt: skip
def test_what_was_entered_is_in_the_text(text, words):
    """What someone in the field wrote down reaches the reader."""
    assert words in text


def test_edition_and_digest_are_in_the_text(on_paper, text):
    """The record says which edition it is and what state of the ledger it vouches for."""
    edition = on_paper.record.edition
    assert f"Edition {edition.number}" in text
    assert edition.digest in text.replace(" ", "")


def test_pdf_is_archival_and_tagged(opened):
    """It claims PDF/A-3a and has what that asks for: colour, language, title, tags; no script, no lock."""
    with opened.open_metadata() as metadata:
        assert metadata.pdfa_status == "3A"
        assert metadata["dc:title"] == "Customs shed: care and removal record, edition 1"
        assert metadata["dc:creator"] == ["joiner to the harbour trust"]
    root = opened.Root
    assert root.MarkInfo.Marked
    assert str(root.Lang) == "en-GB"
    assert root.ViewerPreferences.DisplayDocTitle
    assert root.OutputIntents[0].OutputConditionIdentifier
    assert "/StructTreeRoot" in root
    assert not opened.is_encrypted
    assert b"/JavaScript" not in b"".join(bytes(str(item), "utf-8") for item in opened.objects)


def structure(element):
    """Every element of the structure tree."""
    yield element
    kids = element.get("/K")
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            yield from structure(kid)


def test_pictures_have_words_and_tables_have_headings(opened, on_paper):
    """Every figure in the tags has alternative words; tables have header cells; headings are there."""
    tags = [element for element in structure(opened.Root.StructTreeRoot) if "/S" in element]
    kinds = {str(element.S) for element in tags}
    assert {"/Figure", "/Table", "/TH", "/TD", "/H1", "/H2", "/H3", "/Link"} <= kinds
    figures = [str(element.get("/Alt", "")) for element in tags if str(element.S) == "/Figure"]
    assert all(figures)
    assert any("Elevation of R1-N North wall" in words for words in figures)
    assert sum("Photograph" in words for words in figures) == len(on_paper.record.numbers)


def test_links_say_where_they_lead(opened):
    """Read out, a link is a page or an address, never the name of an anchor."""
    links = [link for page in opened.pages for link in page.obj.get("/Annots", ())]
    assert links
    assert all(re.fullmatch(r"page \d+|https?://.*|mailto:.*|tel:.*", str(link.Contents)) for link in links)


def test_bookmarks_lead_to_chapters_rooms_faces_and_fittings(opened):
    """The outline has the chapters, and below them what a reader looks for."""
    with opened.open_outline() as outline:
        titles = {item.title: {child.title for child in item.children} for item in outline.root}
    assert "Annex A Survey: rooms and faces" in titles
    assert {"R1 Weighing hall", "R2 Clerks’ office"} <= titles["Annex A Survey: rooms and faces"]
    assert any(title.startswith("D1 Rail") for title in titles["4 What is put up, thing by thing"])


def test_fonts_are_inside_and_are_ours(opened):
    """Every font's program is embedded, and none but Inter and its stand-in is used."""
    fonts = [item for item in opened.objects if isinstance(item, pikepdf.Dictionary) and item.get("/Type") == "/Font"]
    described = [item for item in opened.objects if isinstance(item, pikepdf.Dictionary) and "/FontName" in item]
    assert fonts
    assert described
    for descriptor in described:
        assert {"/FontFile", "/FontFile2", "/FontFile3"} & set(descriptor.keys())
        assert re.search(r"\+(Inter|DejaVu)", str(descriptor.FontName))


def test_drawings_are_printed_at_the_scale_they_state(opened, on_paper):
    """A mm of a drawing is a mm of paper: the page's matrices make 96/25.4 units of it, and 0.75 pt of each unit."""
    per_mm = []
    for page in opened.pages:
        for operands, operator in pikepdf.parse_content_stream(page):
            if str(operator) == "cm":
                a, b, c, d = (float(part) for part in operands[:4])
                if b == c == 0 and a == d and 3 < a < 4.5:  # of drawings; signs and photographs are far from it
                    per_mm.append(a)
    sheets = on_paper.record.sheets
    faces = [face for room in on_paper.record.rooms for face in room.faces]
    assert len(per_mm) >= len(sheets) + len(faces)
    assert per_mm == [pytest.approx(96 / 25.4, rel=1e-4)] * len(per_mm)


def test_photographs_are_not_smoothed(opened):
    """No picture asks to be interpolated, which the archival format forbids."""
    pictures = [
        item for item in opened.objects if isinstance(item, pikepdf.Stream) and item.get("/Subtype") == "/Image"
    ]
    assert pictures
    assert not any(bool(picture.get("/Interpolate", False)) for picture in pictures)


def test_structure_of_the_file_is_sound(on_paper):
    """An independent reader finds nothing wrong with the file."""
    done = subprocess.run(["qpdf", "--check", str(on_paper.file)], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr


def words_out_of_place(file: Path) -> list[str]:
    """Words that reach into the margins, where a table was too wide or a word did not break."""
    out = subprocess.run(["pdftotext", "-bbox", str(file), "-"], capture_output=True, text=True, check=True).stdout
    found, width = [], 0.0
    for line in out.splitlines():
        if page := re.search(r'<page width="([\d.]+)"', line):
            width = float(page[1])
        elif word := re.search(r'xMin="([-\d.]+)".*xMax="([-\d.]+)".*>(.*)</word>', line):
            left, right = float(word[1]), float(word[2])
            if left < NARROWEST_MARGIN_MM * MM or right > width - NARROWEST_MARGIN_MM * MM:
                found.append(word[3])
    return found


def test_nothing_runs_into_the_margins(on_paper):
    """No word is cut off or cramped against the edge of the paper."""
    assert words_out_of_place(on_paper.file) == []


def test_no_page_is_empty(on_paper, tmp_path):
    """Every page, looked at as a picture, has ink on it between header and footer, and a clean edge."""
    subprocess.run(["pdftoppm", "-r", "30", "-gray", "-png", str(on_paper.file), str(tmp_path / "page")], check=True)
    pictures = sorted(tmp_path.glob("page-*.png"))
    assert len(pictures) == on_paper.printed.pages
    for path in pictures:
        with Image.open(path) as page:
            ink = page.point(lambda level: 255 if level < 200 else 0)
            width, height = page.size
            edge = round(10 / 25.4 * 30)
            assert ink.crop((edge, 2 * edge, width - edge, height - 2 * edge)).getbbox(), f"{path.name} is empty"
            assert not ink.crop((0, 0, width, edge // 2)).getbbox(), f"{path.name} runs over the top"
            assert not ink.crop((width - edge, 0, width, height)).getbbox(), f"{path.name} runs over the right"


def test_same_record_gives_the_same_bytes(on_paper, tmp_path):
    """Printed twice, the file is the same to the last bit."""
    with open_book(on_paper.book) as book:
        pdf.write_pdf(on_paper.record, book, tmp_path / "again.pdf", quiet)
    assert (tmp_path / "again.pdf").read_bytes() == on_paper.file.read_bytes()


def test_record_made_in_one_call_is_issued(furnished, tmp_path):
    """One call compiles, prints and issues; progress only grows and ends at the whole."""
    heard: HEARD = []
    file = tmp_path / "record.pdf"
    edition = pdf.make_record(furnished.book, furnished.site, file, progress=lambda *news: heard.append(news))
    assert editions(furnished.book, furnished.site) == [edition]
    assert file.read_bytes().startswith(b"%PDF-1.7")
    assert [path.name for path in tmp_path.iterdir() if path.name != "book"] == ["record.pdf"]
    done = [news[0] for news in heard]
    assert done == sorted(done)
    assert heard[-1][:2] == (heard[0][1], heard[0][1])
    assert any("page" in news[2] for news in heard)
    assert "146.50" not in " ".join(page.extract_text() for page in PdfReader(file).pages)


HOSTILE = (
    '<script>alert(1)</script> <img src="file:///etc/hostname"> <link rel="attachment" href="file:///etc/hostname">'
    ' </style><style>body{display:none}</style> {{ 7 * 7 }} {% include "/etc/hostname" %} &amp; <!-- "\'` url(file:///etc/passwd)'
)


NO_FONT = "\N{TANGSA LETTER OZ}"  # no font of the tests' machine has it


@pytest.fixture(scope="session")
def in_trouble(tmp_path_factory):
    """The record of a site with hostile words, lost and damaged photographs, and fittings that wait for each other."""
    folder = tmp_path_factory.mktemp("trouble")
    with create_book(folder / "book") as book:
        made = furnish(book)
        book.write("fitting", {"note": f"{HOSTILE}\n{'W' * 10_000}", "hangs_on": made.ids["D2"]}, item=made.ids["D1"])
        book.write("zone", {"reason": HOSTILE, "evidence": "W" * 1000}, item=made.ids["K1"])
        book.write("room", {"name": f"Store {NO_FONT}"}, item=made.ids["R2"])
        book.write("face", {"datum": f"{HOSTILE}\n{'W' * 1000}"}, item=made.ids["R1-N"])
        one, two, _ = book.items("photograph")
        for digest, content in ((one["sha256"], None), (two["sha256"], b"not a picture")):
            path = book.folder / "photographs" / digest[:2] / digest
            path.unlink() if content is None else path.write_bytes(content)
        record = compile_record(book, made.site)
        printed = pdf.write_pdf(record, book, folder / "record.pdf", quiet)
    return OnPaper(record, folder / "book", folder / "record.pdf", printed)


@pytest.fixture(scope="session")
def troubled_text(in_trouble):
    """All the words of that record."""
    return " ".join(page.extract_text() for page in PdfReader(in_trouble.file).pages)


def test_hostile_text_is_printed_and_nothing_more(in_trouble, troubled_text):
    """Markup, template code and endless words in a note are letters on paper: nothing is read, hidden or cut off."""
    assert in_trouble.printed.warnings == ()
    plain = re.sub(r"\s", "", troubled_text)
    assert re.sub(r"\s", "", HOSTILE) in plain
    assert plain.count("W" * 100) >= (10_000 + 1000 + 1000) // 100 - 10  # a page's end parts them
    assert words_out_of_place(in_trouble.file) == []
    with pikepdf.open(in_trouble.file) as document:
        assert "/Names" not in document.Root or "/EmbeddedFiles" not in document.Root.Names


def test_letter_without_a_font_stands_as_its_number(in_trouble, troubled_text):
    """An archive takes no empty boxes: its number is set, the title page says why, and whoever printed it is told."""
    said = " ".join(troubled_text.split())
    assert "Store [U+16A70]" in said
    assert "Their numbers in Unicode stand for them: [U+16A70]." in said
    assert NO_FONT in in_trouble.printed.letters


def test_photograph_that_is_missing_or_damaged_is_said_to_be(troubled_text):
    """A record with a lost photograph is made all the same, and says so where it would stand."""
    assert len(re.findall(r"file\s+is\s+missing\s+or\s+damaged", troubled_text)) == 2


def test_ring_of_fittings_is_named_in_the_record(troubled_text):
    """Fittings that wait for each other to come off are named; the record is made all the same."""
    words = spaced(troubled_text)
    assert "No order can be given. These wait for each other to come off:" in words
    assert "“D1 Rail”, then “D2 Panel”" in words or "“D2 Panel”, then “D1 Rail”" in words


@pytest.mark.parametrize(
    ("where", "number"),
    [("no such folder/record.pdf", errno.ENOENT), ("", errno.EISDIR), ("book.txt/record.pdf", errno.ENOTDIR)],
)
def test_file_that_cannot_be_written_is_refused(furnished, tmp_path, where, number):
    """A place that cannot be written to is named, with why, and no edition is issued."""
    (tmp_path / "book.txt").touch()
    with pytest.raises(pdf.RecordNotWritten) as refused:
        pdf.make_record(furnished.book, furnished.site, tmp_path / where)
    assert refused.value.field == "file"
    assert os.strerror(number).lower() in refused.value.reason
    assert editions(furnished.book, furnished.site) == []


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no device that is always full")
def test_full_disk_is_told(surveyed):
    """A disk that fills up while the file is written is told as such, with what to do."""
    with pytest.raises(pdf.RecordNotWritten) as refused:
        pdf.write_pdf(compile_record(surveyed.book, surveyed.site), surveyed.book, Path("/dev/full"), quiet)
    assert os.strerror(errno.ENOSPC).lower() in refused.value.reason
    assert "room" in refused.value.remedy


def test_interrupted_record_leaves_the_older_one(furnished, tmp_path):
    """Whoever stops the making keeps the file that was there, and finds no half a file beside it."""
    file = tmp_path / "record.pdf"
    file.write_bytes(b"the older one")

    def stop(_done, _total, words):
        if "page" in words:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        pdf.make_record(furnished.book, furnished.site, file, progress=stop)
    assert file.read_bytes() == b"the older one"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["book", "record.pdf"]
    assert editions(furnished.book, furnished.site) == []


def test_record_that_takes_too_long_is_given_up(furnished, tmp_path):
    """After the time allowed the renderer is stopped, and that is said."""
    record = compile_record(furnished.book, furnished.site)
    with pytest.raises(pdf.RecordNotMade) as refused:
        pdf.write_pdf(record, furnished.book, tmp_path / "record.pdf", quiet, time_limit_s=0.01)
    assert "0.01 s" in refused.value.reason


@pytest.fixture
def press_with(tmp_path, monkeypatch):
    """A way to let the renderer find another typesetter than the real one: a module with this text."""

    def put(text: str) -> None:
        folder = tmp_path / "elsewhere"
        folder.mkdir()
        (folder / "weasyprint.py").write_text(text, encoding="utf-8")
        monkeypatch.setenv("PYTHONPATH", str(folder))

    return put


def test_missing_pango_is_told_with_what_to_type(furnished, tmp_path, press_with):
    """Without the libraries that set type, the error names them and the command for this system; nothing is issued."""
    press_with("raise OSError(\"cannot load library 'libpango-1.0-0'\")")
    with pytest.raises(pdf.PangoMissing) as refused:
        pdf.make_record(furnished.book, furnished.site, tmp_path / "record.pdf")
    assert refused.value.code == "pango-missing"
    assert "libpango-1.0-0" in refused.value.reason
    assert "Type: " in refused.value.remedy or "in this system's own way" in refused.value.remedy
    assert not (tmp_path / "record.pdf").exists()
    assert editions(furnished.book, furnished.site) == []


def test_press_that_breaks_down_is_told_without_a_trace(furnished, tmp_path, press_with):
    """A fault in the typesetter becomes one line, not a trace."""
    press_with("class HTML:\n    def __init__(self, **_):\n        raise RuntimeError('out of type')")
    (tmp_path / "elsewhere" / "urls.py").touch()
    with pytest.raises(pdf.RecordNotMade) as refused:
        pdf.make_record(furnished.book, furnished.site, tmp_path / "record.pdf")
    assert "\n" not in refused.value.reason
    assert "Traceback" not in refused.value.reason


def test_everything_else_works_without_the_typesetter():
    """No part of the program but the renderer needs it: all can be imported where it is not there."""
    program = (
        "import sys, pkgutil, importlib\n"
        "sys.modules['weasyprint'] = None\n"
        "import fieldbook\n"
        "for part in pkgutil.walk_packages(fieldbook.__path__, 'fieldbook.'):\n"
        "    if not part.name.endswith('__main__'):\n"
        "        importlib.import_module(part.name)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, cwd=Path(pdf.__file__).parents[2]
    )
    assert done.returncode == 0, done.stderr


def test_record_of_an_unknown_site_is_refused(furnished, tmp_path):
    """A site that is not in the book is refused before anything is written."""
    with pytest.raises(UnknownItem):
        pdf.make_record(furnished.book, "00000000-0000-7000-8000-000000000000", tmp_path / "record.pdf")
    assert not (tmp_path / "record.pdf").exists()
