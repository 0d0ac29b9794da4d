"""Findings as plain values, for `fieldbook check` and for whoever reads them with a program."""

from __future__ import annotations

from typing import Any

from .finding import Finding
from .papers import source_of


def as_plain(finding: Finding) -> dict[str, Any]:
    """One finding; `of` and `against` begin with the mark, or are the name where there is none."""
    verdict = finding.verdict
    return {
        "question": finding.question,
        "of": finding.subject.title,
        "of_id": finding.subject.id,
        "against": finding.against and finding.against.title,
        "word": verdict.word,
        "figure": verdict.figure,
        "unit": verdict.unit,
        "limit": verdict.limit,
        "margin": verdict.margin,
        "sentence": verdict.sentence,
        "source": source_of(finding),
        "documents": [one.id for one in finding.papers],
        "assumed": list(finding.assumed),
        "left_out": list(finding.left_out),
        "missing": [{"of_id": blank.item.id, "field": blank.field} for blank in finding.missing],
    }
