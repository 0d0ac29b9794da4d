"""How verdicts are told: alike ones once, standing cautions once."""

from __future__ import annotations

from dataclasses import replace

import pytest

from fieldbook.book.site import Item
from fieldbook.checks.cautions import CAUTIONS, LEFT_OUT_OF_LOADS
from fieldbook.checks.verdict import Verdict, Word, not_known
from fieldbook.findings import Finding
from fieldbook.record.answers import answers, answers_in_common, in_common, standing

ZONES = [Item("zone", f"k{number}", {"mark": f"K{number}", "name": "Zone"}) for number in (1, 2, 3)]


def fixing(number: int) -> Item:
    """A fixing of fitting D1."""
    return Item("fixing", f"f{number:02}", {"mark": f"D1.{number}", "fitting": "d1"})


def found(
    subject: Item, word: Word, margin: float, against: Item | None = None, words: str = "So it is.", ends: str = ""
) -> Finding:
    """A verdict of the check of keep-off zones."""
    sentence = f"{words} {ends}".strip()
    verdict = Verdict("keep-off", word, 1, 1, margin, "mm", sentence, "a source", standing=ends)
    return Finding("keep-off", subject, against, verdict)


def unknown(subject: Item, *missing: str) -> Finding:
    """A verdict that something is missing for."""
    return Finding(
        "tightening",
        subject,
        None,
        not_known("preload", missing, f"The {missing} of {subject.mark} is not entered.", "a source"),
    )


def test_of_those_within_the_tightest_speaks_for_all():
    """Of several zones a fixing keeps away from, the nearest is told, with how many there were."""
    findings = [found(fixing(1), Word.WITHIN, margin, zone) for margin, zone in zip((3, 40, 900), ZONES, strict=True)]
    (answer,) = answers([*findings])
    assert (answer.verdict.margin, answer.against, answer.alike) == (3, "K1", 3)
    assert answers(findings, within=False) == ()


def test_alike_fixings_that_are_within_share_a_row():
    """Fixings of one fitting that are all within are told once, by the tightest; those of another by themselves."""
    other = Item("fixing", "g1", {"mark": "D2.1", "fitting": "d2"})
    findings = [found(fixing(number), Word.WITHIN, number) for number in (2, 3, 10)] + [found(other, Word.WITHIN, 9)]
    told = [(answer.about, answer.tightest, answer.alike) for answer in answers(findings)]
    assert told == [("D1.2, D1.3, D1.10", "D1.2", 3), ("D2.1", "", 1)]


def test_what_is_fine_without_a_figure_is_told_once_for_all():
    """Things of several fittings that answer in the same words are one row; what has a figure is none of them."""
    other = Item("fixing", "g1", {"mark": "D2.1", "fitting": "d2"})
    fine = [replace(found(one, Word.WITHIN, 0).verdict, figure=None) for one in (fixing(1), other)]
    findings = [Finding("mark", one, None, verdict) for one, verdict in zip((fixing(1), other), fine, strict=True)]
    assert [in_common(one) for one in findings] == [True, True]
    assert not in_common(found(fixing(1), Word.WITHIN, 4))
    assert not in_common(unknown(fixing(1), "torque_nm"))
    assert [answer.about for answer in answers_in_common([*findings, found(fixing(2), Word.OVER, 1)])] == ["D1.1, D2.1"]


def test_each_that_is_over_or_close_is_told_by_itself():
    """Nothing that is over or close is summed up, unless it is told in the very same words."""
    findings = [
        found(fixing(number), word, 1, words=f"By {number} mm.")
        for word in (Word.CLOSE, Word.OVER)
        for number in (1, 2, 3)
    ]
    told = [(answer.verdict.word, answer.about) for answer in answers(findings)]
    assert told == [(word, f"D1.{number}") for word in (Word.OVER, Word.CLOSE) for number in (1, 2, 3)]
    assert [answer.about for answer in answers([found(fixing(number), Word.OVER, 1) for number in (1, 2)])] == [
        "D1.1, D1.2"
    ]


def test_those_that_lack_the_same_are_told_together():
    """Fixings that lack the same share a row, which names what is missing as its field is called."""
    (answer, other) = answers(
        [unknown(fixing(number), "nut_factor") for number in (10, 1, 2, 9)] + [unknown(fixing(3), "torque_nm")]
    )
    assert answer.about == "D1.1, D1.2, D1.9, D1.10"
    assert "nut factor" in answer.sentence
    assert other.about == "D1.3"
    assert other.sentence == other.verdict.sentence


@pytest.mark.parametrize("words", [LEFT_OUT_OF_LOADS, CAUTIONS["lifting"].text])
def test_standing_caution_is_told_once(words):
    """What every sentence of a check ends with is taken off the rows and told once for all of them."""
    rows = answers(
        [found(fixing(number), Word.OVER, -1, words=f"It is {number} N too much.", ends=words) for number in (1, 2)]
    )
    assert [answer.sentence for answer in rows] == ["It is 1 N too much.", "It is 2 N too much."]
    assert standing(rows) == (words,)


def test_worst_is_told_first():
    """Over, then not known, then close, then within."""
    findings = [
        found(fixing(1), Word.WITHIN, 9),
        found(fixing(2), Word.CLOSE, 1),
        unknown(fixing(3), "torque_nm"),
        found(fixing(4), Word.OVER, -1),
    ]
    assert [answer.verdict.word for answer in answers(findings)] == [Word.OVER, Word.NOT_KNOWN, Word.CLOSE, Word.WITHIN]


def test_what_rests_on_a_document_is_told_apart_from_what_does_not() -> None:
    """A row that names a document speaks for no fixing that rests on another or on none."""
    sheet = Item("document", "n1", {"reference": "N1"})
    findings = [found(fixing(number), Word.WITHIN, number) for number in (1, 2, 3)]
    resting = [findings[0], *(one._replace(papers=(sheet,)) for one in findings[1:])]
    told = {(answer.about, tuple(paper.id for paper in answer.papers)) for answer in answers(resting)}
    assert told == {("D1.1", ()), ("D1.2, D1.3", ("n1",))}
    assert len(answers_in_common([one._replace(verdict=replace(one.verdict, figure=None)) for one in resting])) == 2
