"""Parts of a PDF made one file: pages, tags, outline, links and the places they lead to."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pikepdf
from pikepdf import Array, Dictionary, Object, Pdf, String

from .parts import ELSEWHERE


def merge(parts: Sequence[Path], target: Path) -> None:
    """Write one file of several, in their order; what it says of itself is what the first says.

    The same parts give the same bytes. Raises OSError.
    """
    with Pdf.open(parts[0]) as whole:
        for path in parts[1:]:
            with Pdf.open(path) as part:
                _append(whole, part)
        _link_up(whole)
        whole.save(target, deterministic_id=True, object_stream_mode=pikepdf.ObjectStreamMode.generate)


def _append(whole: Pdf, part: Pdf) -> None:
    before, tags_before = len(whole.pages), _next_tag(whole)
    whole.pages.extend(part.pages)  # first, so that all that names a page finds its copy
    for page in [*whole.pages][before:]:
        page.obj.StructParents += tags_before
        for link in page.obj.get("/Annots", ()):
            link.StructParent += tags_before
    _append_tags(whole, part, tags_before)
    _append_outline(whole, part)
    _names(whole).extend(_copied(whole, part, part.Root.Names.Dests).Names)


def _copied(whole: Pdf, part: Pdf, one: Object) -> Object:
    return whole.copy_foreign(one if one.is_indirect else part.make_indirect(one))


def _names(whole: Pdf) -> Object:
    return whole.Root.Names.Dests.Names


def _next_tag(whole: Pdf) -> int:
    numbers = whole.Root.StructTreeRoot.ParentTree.Nums
    return max((int(number) for number in [*numbers][::2]), default=-1) + 1


def _append_tags(whole: Pdf, part: Pdf, before: int) -> None:
    tree = whole.Root.StructTreeRoot
    added = _copied(whole, part, part.Root.StructTreeRoot)
    document = tree.K[0]
    for element in added.K[0].K:
        element.P = document
        document.K.append(element)
    numbers = [*added.ParentTree.Nums]
    for number, elements in zip(numbers[::2], numbers[1::2], strict=True):
        tree.ParentTree.Nums.append(int(number) + before)
        tree.ParentTree.Nums.append(elements)


def _append_outline(whole: Pdf, part: Pdf) -> None:
    if "/Outlines" not in part.Root:
        return
    outline, added = whole.Root.Outlines, _copied(whole, part, part.Root.Outlines)
    entry: Object | None = added.First
    while entry is not None:
        entry.Parent = outline
        entry = entry.get("/Next")
    outline.Last.Next, added.First.Prev = added.First, outline.Last
    outline.Last = added.Last
    outline.Count = int(outline.Count) + int(added.Count)


def _link_up(whole: Pdf) -> None:
    """Links into other parts made links within the file; names of places in the order a reader looks for them."""
    names = [*_names(whole)]
    places = {str(name): place for name, place in zip(names[::2], names[1::2], strict=True)}
    for page in whole.pages:
        for link in page.obj.get("/Annots", ()):
            address = str(link.A.URI) if "/A" in link and "/URI" in link.A else ""
            if address.startswith(ELSEWHERE):
                del link.A
                link.Dest = String(address.removeprefix(ELSEWHERE))
    in_order = Array()
    for name in sorted(places):
        in_order.extend([String(name), places[name]])
    whole.Root.Names.Dests = whole.make_indirect(Dictionary(Names=in_order))
