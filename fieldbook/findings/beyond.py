"""What only a newer version knows: while a book holds such, nothing in it is called fine here.

What is left out may be the very zone, limit or no that would decide; this version cannot tell.
"""

from __future__ import annotations

from dataclasses import replace

from ..book.site import Site
from ..checks.verdict import Word
from .finding import Finding

CAPPED = frozenset({Word.CLOSE, Word.WITHIN, Word.AGREED})
REASON = "This book holds what was entered with a newer Fieldbook, which may bear on this and is not known here."
REMEDY = "Bring this one up to date."
SENTENCE = f"{REASON} {REMEDY}"


def capped(site: Site, finding: Finding) -> Finding:
    """A finding as it may be told: a fine word is not known while something is beyond this version."""
    if not site.beyond or finding.word not in CAPPED:
        return finding
    verdict = replace(finding.verdict, word=Word.NOT_KNOWN, sentence=SENTENCE, standing="")
    return finding._replace(verdict=verdict, left_out=(*finding.left_out, f"Without it: {finding.verdict.sentence}"))
