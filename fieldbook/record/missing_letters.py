"""Letters that no font of this machine holds: an empty box tells nobody which it was, and an archive takes none.

Their numbers in Unicode stand for them, such as [U+706F], and the title page says so.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Mapping

StandIns = Mapping[int, str]

NOTE_AT = "<!-- letters without a font -->"  # stands in title.html
_NOTHING_TO_SEE = ("Cf", "Cc")
_SELECTORS = (range(0xFE00, 0xFE10), range(0xE0100, 0xE01F0))  # how the letter before is to look


def stand_ins(numbers: Iterable[int]) -> StandIns:
    """What is set for each letter, by its number; nothing for what is not seen of itself."""
    return {number: "" if _is_unseen(number) else f"[U+{number:04X}]" for number in sorted(numbers)}


def noted(html: str, standing: StandIns) -> str:
    """Pages with what stands for letters, and a note of it where they have room for one."""
    seen = [words for words in standing.values() if words]
    note = f"No font where this was set holds some letters. Their numbers in Unicode stand for them: {', '.join(seen)}."
    return html.translate(standing).replace(NOTE_AT, f"<p>{note}</p>" if seen else "")


def told(standing: StandIns) -> str:
    """The same for whoever had it printed, with what to do; "" where nothing is missing."""
    seen = [f"{chr(number)} {words}" for number, words in standing.items() if words]
    if not seen:
        return ""
    return f"No font of this machine holds {', '.join(seen)}. Install one that does, and make it again."


def _is_unseen(number: int) -> bool:
    return unicodedata.category(chr(number)) in _NOTHING_TO_SEE or any(number in some for some in _SELECTORS)
