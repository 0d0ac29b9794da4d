"""Pages of HTML cut into parts that can be laid out side by side, each as if the others stood about it.

A template marks where a new page begins anyway. What leads into another part is an address of its own kind until
the parts are one file again.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

MAY_BEGIN = "<!-- a part may begin here -->"
ELSEWHERE = "app:elsewhere/"
"""Before the anchor of a link into another part."""

WORTH_CUTTING = 100_000
"""Characters below which pages stay whole: a part takes half a second before its first page."""

GREATEST_SHARE = 0.4
"""Of a part, where there is a place to cut: some parts take three times as long as others of their length."""

_BODY = re.compile(r"(.*?<body[^>]*>)(.*)(</body>.*)", re.DOTALL)
_COVER = re.compile(r'<style id="cover">.*?</style>', re.DOTALL)
_ANCHOR, _LINK = re.compile(r'\bid="([^"]+)"'), re.compile(r'\bhref="#([^"]+)"')


def cut(html: str) -> list[str]:
    """Whole pages of HTML, one for each part; one alone where cutting is not worth it."""
    whole = _BODY.fullmatch(html)
    if not whole or len(html) < WORTH_CUTTING or MAY_BEGIN not in html:
        return [html]
    head, body, end = whole.groups()
    grouped = _grouped(body.split(MAY_BEGIN))
    heads = [head, *[_COVER.sub("", head)] * (len(grouped) - 1)]
    anchors = {*_ANCHOR.findall(body)}
    return [before + _led_elsewhere(part, anchors) + end for before, part in zip(heads, grouped, strict=True)]


def _grouped(pieces: Sequence[str]) -> list[str]:
    """Neighbours together, as many as do not make a part greater than its share."""
    most = GREATEST_SHARE * sum(map(len, pieces))
    grouped = [pieces[0]]
    for piece in pieces[1:]:
        if len(grouped[-1]) + len(piece) <= most:
            grouped[-1] += piece
        else:
            grouped.append(piece)
    return grouped


def _led_elsewhere(part: str, anchors: set[str]) -> str:
    """A part with its links into others; one that leads nowhere stays, and the typesetter complains of it."""
    others = anchors.difference(_ANCHOR.findall(part))
    return _LINK.sub(lambda link: f'href="{ELSEWHERE}{link[1]}"' if link[1] in others else link[0], part)
