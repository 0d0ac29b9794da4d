"""Numbers of pages, put in once the pages are laid out.

A typesetter that is asked for the number of another page lays out anew every page that asks. Here such a place
holds as many noughts as a number is likely to have digits, and its number takes their place at the end: only what
stands behind it on its line moves, by a digit at most. All digits are of one width.

It reads and alters boxes as WeasyPrint 70 lays them out.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from .parts import ELSEWHERE

_AT_THE_END = re.compile(r"0+$")
_FOOT, _IN_A_FOOT = "@bottom-right", re.compile(r"page 0+ of 0+")
_RIGHT = ("right", "end")

Path = tuple[Any, ...]
"""A box of text with all boxes it lies in, the outermost first."""


def pages_of(document: Any) -> dict[str, int]:
    """The page of each anchor, counted from 0."""
    return {name: number for number, page in reversed([*enumerate(document.pages)]) for name in page.anchors}


def numbered(document: Any, first: int, total: int, pages: Mapping[str, int]) -> Any:
    """The document with its numbers put in.

    first  pages before this document's own
    total  pages in all
    pages  anchor -> its page among all of them, from 0
    """
    made = []
    for number, page in enumerate(document.pages, first + 1):
        for path in [*_texts(page._page_box)]:
            _fill(path, number, total, pages)
        made.append(type(page)(page._page_box))  # where links lie is told anew
    return document.copy(made)


def tell_links(pages: Mapping[str, int], _document: Any, pdf: Any) -> None:
    """Let each link within the pages say which page it leads to, for whoever hears it read out."""
    from pydyf import String

    for thing in pdf.objects:
        if isinstance(thing, dict) and thing.get("Subtype") == "/Link":
            anchor = thing["Contents"].string.removeprefix(ELSEWHERE)
            if anchor in pages:
                thing["Contents"] = String(f"page {pages[anchor] + 1}")


def _texts(box: Any, above: Path = ()) -> Iterator[Path]:
    path = (*above, box)
    if hasattr(box, "text"):
        yield path
    for child in box.all_children():
        yield from _texts(child, path)


def _fill(path: Path, page: int, total: int, pages: Mapping[str, int]) -> None:
    text = path[-1]
    if any(getattr(box, "at_keyword", "") == _FOOT for box in path):
        if _IN_A_FOOT.fullmatch(text.text):
            _put(path, f"page {page} of {total}")
    elif text.element_tag == "a::after" and _AT_THE_END.search(text.text):
        anchor = text.element.get("href").removeprefix(ELSEWHERE).removeprefix("#")
        _put(path, _AT_THE_END.sub(str(pages[anchor] + 1) if anchor in pages else "", text.text))


def _put(path: Path, words: str) -> None:
    from weasyprint.text.line_break import Layout, line_size

    text = path[-1]
    if words == text.text:
        return
    layout = Layout(text.style)
    layout.set_text(words)
    width, _height = line_size(layout.get_first_line()[0], text.style)
    text.text = text.pango_layout.text = words
    less, text.width = text.width - width, width
    _close_up(path, less)


def _close_up(path: Path, less: float) -> None:
    """Move what shares the line: before it where the line ends at the right, else behind it."""
    line = next(number for number, box in reversed([*enumerate(path)]) if type(box).__name__ == "LineBox")
    to_the_right = path[line].style["text_align_all"] in _RIGHT or _leads_up(path[line])
    if to_the_right:
        path[-1].translate(dx=less)
    for outer, inner in zip(path[line:], path[line + 1 :], strict=False):
        where = [*outer.children].index(inner)
        if not to_the_right:
            for after in outer.children[where + 1 :]:
                after.translate(dx=-less)
        elif not _leads_up(path[line]):
            for before in outer.children[:where]:
                before.translate(dx=less)


def _leads_up(box: Any) -> bool:
    """Whether dots lead up to the end of a line."""
    children: Sequence[Any] = getattr(box, "children", ())
    return any(child.is_leader or _leads_up(child) for child in children)
