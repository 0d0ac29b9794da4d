"""What test patches on a face have shown of what touches it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from ..book.site import Item
from ..checks.patch import patch_verdict, settled_by
from ..checks.verdict import Verdict, Word
from .asking import Asked
from .named import words
from .verdicts import badness

CLEANS_OFF, STAYS = "a mark that cleans off", "a mark that stays"
A_YEAR_DAYS = 365.25
ANOTHER_BATCH = "A patch shows neither another batch of the same material nor a damper place."

READS = {"site.stands_years": "more", "patch.found": "more"} | dict.fromkeys(
    ("patch.material", "patch.laid_against", "patch.laid_on", "patch.looked_on"), "neither"
)


def of(asked: Asked, face: Item, material: str, against: Iterable[str]) -> list[Item]:
    """The patches of a material on a face, laid against one of what is named.

    A patch counts for what has no part that the patch lacks: felt over cork is not shown by felt alone.
    """
    surfaces = [words(name) for name in against]
    return [
        patch
        for patch in asked.site.of(face, "patch")
        if words(material) <= words(patch.material) and any(words(patch.laid_against) & one for one in surfaces)
    ]


def settle(asked: Asked, face: Item, material: str, against: Iterable[str], general: Verdict) -> Verdict:
    """What stands when the patches of a material are looked at beside what a rule says of it."""
    shown = [_shown(asked, patch) for patch in of(asked, face, material, against)]
    if not shown:
        return general
    return settled_by(general, min(shown, key=badness))


def _shown(asked: Asked, patch: Item) -> Verdict:
    """A patch that was laid has to be looked under: what is not known of it is asked for."""
    what = f"{patch.called}, {patch.material} on {patch.laid_against},"
    found, looked_on = asked.need(patch, "found"), date.fromisoformat(asked.need_done(patch, "looked_on"))
    years = asked.site.item.stands_years
    stays = max(years * A_YEAR_DAYS, 1.0) if years is not None else None
    verdict = patch_verdict(what, date.fromisoformat(patch.laid_on), looked_on, found == STAYS, stays)
    if found == CLEANS_OFF and verdict.word in {Word.WITHIN, Word.CLOSE}:
        sentence = verdict.sentence.replace("without a mark", "and left a mark that cleans off")
        return replace(verdict, word=Word.CLOSE, sentence=sentence)
    return verdict
