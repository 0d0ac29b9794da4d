"""Pages cut into parts, laid out side by side and made one file: nobody who reads it can tell."""

from __future__ import annotations

import re
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pikepdf
import pytest
from pypdf import PdfReader

from fieldbook.record import part_processes, parts
from fieldbook.record.part_processes import Stopped, TooLong, rendered
from fieldbook.record.parts import ELSEWHERE, MAY_BEGIN, cut
from fieldbook.record.typesetting import Pages

pytestmark = [pytest.mark.slow, pytest.mark.xdist_group("parts")]  # the same pages, laid out once

CHAPTERS = ("stores", "lamps", "doors", "hooks")
STYLE = """@page { size: 120mm 90mm; margin: 12mm; @bottom-right { content: "page 00 of 00"; width: 60% } }
section { break-before: page } h1 { bookmark-level: 1 }
a.page::after { content: "page 00" } #contents a.page::after { content: leader(". ") "00" }"""


def chapter(name: str, paragraphs: int = 12) -> str:
    """Some pages; each paragraph names a page of its own chapter and one of each of the others."""
    links = ", ".join(f'({name} <a class="page" href="#{name}"></a>)' for name in (f"{name}-9", *CHAPTERS))
    words = "".join(f'<p id="{name}-{number}">{name} {number}: {links}; end.</p>' for number in range(paragraphs))
    return f'<section id="{name}"><h1>The {name}</h1>{words}</section>'


def pages(between: str = MAY_BEGIN) -> str:
    """A cover with its contents, and four chapters."""
    contents = "".join(f'<li>{name}<a class="page" href="#{name}"></a></li>' for name in CHAPTERS)
    chapters = between.join(["", *map(chapter, CHAPTERS)])
    return f"""<!DOCTYPE html><html lang="en"><head><title>Stores</title><style>{STYLE}</style>
        <style id="cover">@page :first {{ @bottom-right {{ content: none }} }}</style></head>
        <body><h1>Cover</h1><ul id="contents" style="list-style: none">{contents}</ul>{chapters}</body></html>"""


@pytest.fixture(scope="module")
def both(tmp_path_factory) -> Iterator[tuple[Path, Path]]:
    """The same pages whole, and cut into parts."""
    folder = tmp_path_factory.mktemp("parts")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(parts, "WORTH_CUTTING", 0)
        for name, html in (("whole", pages("")), ("cut", pages())):
            (folder / name).mkdir()
            told = [*rendered(Pages(html, {}), folder / name, folder / f"{name}.pdf", time_limit_s=600)]
            assert not [news for news in told if "warning" in news]
    yield folder / "whole.pdf", folder / "cut.pdf"


def words(file: Path) -> list[str]:
    """The words of each page."""
    return [page.extract_text() for page in PdfReader(file).pages]


def test_short_pages_are_not_cut():
    """A process more takes longer than they do."""
    assert cut(pages()) == [pages()]


def test_each_part_is_a_page_of_its_own(monkeypatch):
    """Nothing is lost or twice; only the first has a cover, and links between parts are kept apart."""
    monkeypatch.setattr(parts, "WORTH_CUTTING", 0)
    made = cut(pages())
    assert len(made) == 4
    assert [part.count('id="cover"') for part in made] == [1, 0, 0, 0]
    for name in CHAPTERS:
        assert sum(f"<h1>The {name}</h1>" in part for part in made) == 1
    for part in made:
        own = set(re.findall(r'id="([^"]+)"', part))
        assert set(re.findall(r'href="#([^"]+)"', part)) <= own
        assert not set(re.findall(f'href="{ELSEWHERE}([^"]+)"', part)) & own


def test_link_that_leads_nowhere_is_complained_of(tmp_path, monkeypatch):
    """In parts as in the whole, where nobody would see it otherwise."""
    monkeypatch.setattr(parts, "WORTH_CUTTING", 0)
    page = pages().replace("<h1>Cover", '<a href="#attic">attic</a><h1>Cover')
    told = [*rendered(Pages(page, {}), tmp_path, tmp_path / "page.pdf", time_limit_s=600)]
    assert any("attic" in news.get("warning", "") for news in told)


def test_parts_say_what_the_whole_says(both):
    """Page by page the same words, those of the page numbers among them."""
    whole, in_parts = map(words, both)
    assert len(whole) > 12
    assert whole == in_parts


def test_every_number_is_that_of_the_page_it_names(both):
    """In the contents, in the text, and at the foot of each page but the cover's."""
    told = words(both[1])
    at = {name: next(number for number, page in enumerate(told, 1) if f"The {name}" in page) for name in CHAPTERS}
    for name, page in at.items():
        assert re.search(rf"{name}[ .]*{page}\b", f"{told[0]} {told[1]}")
        named = {int(number) for text in told[1:] for number in re.findall(rf"{name}\s+page\s+(\d+)", text)}
        assert named == {page}
    assert [f"page {number} of {len(told)}" in page for number, page in enumerate(told, 1)] == [
        number > 1 for number in range(1, len(told) + 1)
    ]
    assert not any(re.search(r"page\s+0", page) for page in told)


def test_what_stands_behind_a_number_closes_up(both):
    """A number shorter than the room kept for it leaves no gap: its bracket stands as close as any."""
    for file in both:
        out = subprocess.run(["pdftotext", "-bbox", str(file), "-"], capture_output=True, text=True, check=True).stdout
        assert not re.search(r">\)[,;]<", out), "a bracket stands by itself"
        assert re.search(r">\d\)[,;]<", out)


def test_links_outline_and_tags_are_of_one_file(both):
    """Links lead within it, to a page that has what they name; tags name each page and link once."""
    with pikepdf.open(both[0]) as whole, pikepdf.open(both[1]) as merged:
        for document in (whole, merged):
            names = [*document.Root.Names.Dests.Names]
            places = dict(zip(map(str, names[::2]), names[1::2], strict=True))
            assert [*places] == sorted(places)
            links = [link for page in document.pages for link in page.obj.get("/Annots", ())]
            assert len(links) > 400
            assert all("/A" not in link and str(link.Dest) in places for link in links)
            at = {page.obj.objgen: number for number, page in enumerate(document.pages, 1)}
            for link in links:
                assert str(link.Contents) == f"page {at[places[str(link.Dest)][0].objgen]}"
            numbers = [*document.Root.StructTreeRoot.ParentTree.Nums]
            keys = [int(number) for number in numbers[::2]]
            assert len(set(keys)) == len(keys)
            owned = dict(zip(keys, numbers[1::2], strict=True))
            for page in document.pages:
                assert all(element.Pg.objgen == page.obj.objgen for element in owned[int(page.obj.StructParents)])
            for link in links:
                assert owned[int(link.StructParent)].S == "/Link"
            with document.open_outline() as outline:
                assert [entry.title for entry in outline.root] == ["Cover", *(f"The {name}" for name in CHAPTERS)]
        assert len(whole.Root.StructTreeRoot.K) == len(merged.Root.StructTreeRoot.K) == 1
        order = [[str(element.S) for element in document.Root.StructTreeRoot.K[0].K] for document in (whole, merged)]
        assert order[0] == order[1]
    assert subprocess.run(["qpdf", "--check", str(both[1])], capture_output=True, check=False).returncode == 0


def test_same_pages_give_the_same_bytes(both, tmp_path, monkeypatch):
    """However the processes took turns."""
    monkeypatch.setattr(parts, "WORTH_CUTTING", 0)
    [*rendered(Pages(pages(), {}), tmp_path, tmp_path / "again.pdf", time_limit_s=600)]
    assert (tmp_path / "again.pdf").read_bytes() == both[1].read_bytes()


def test_pages_are_told_as_they_come(tmp_path, monkeypatch):
    """Of all parts together, never fewer than before."""
    monkeypatch.setattr(parts, "WORTH_CUTTING", 0)
    told = [*rendered(Pages(pages(), {}), tmp_path, tmp_path / "page.pdf", time_limit_s=600)]
    count = [news["page"] for news in told if "page" in news]
    assert count == sorted(count)
    assert count[-1] == told[-1]["pages"]


def test_time_that_is_up_stops_every_part(tmp_path, monkeypatch):
    """And says that it was the time."""
    monkeypatch.setattr(parts, "WORTH_CUTTING", 0)
    with pytest.raises(TooLong):
        [*rendered(Pages(pages(), {}), tmp_path, tmp_path / "page.pdf", time_limit_s=0)]


def test_part_that_stops_says_why(tmp_path, monkeypatch):
    """With the last thing it complained of; the others are stopped with it."""
    monkeypatch.setattr(parts, "WORTH_CUTTING", 0)
    monkeypatch.setattr(part_processes, "environment_of_a_child", lambda: {"PYTHONHOME": str(tmp_path)})
    with pytest.raises(Stopped, match=r"\w+"):
        [*rendered(Pages(pages(), {}), tmp_path, tmp_path / "page.pdf", time_limit_s=600)]
