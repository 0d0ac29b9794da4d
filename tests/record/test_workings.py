"""The annex tells findings question by question: nothing of a working is lost by being told once."""

from __future__ import annotations

from dataclasses import replace

from fieldbook.checks.verdict import Verdict, Word
from fieldbook.record.answers import AnswerRow
from fieldbook.record.folding import told, unusual, usual
from fieldbook.record.workings import lacking, worked

SHEAR = Verdict(
    "shear", Word.WITHIN, 40.0, 7700.0, 7660.0, "N", "", "EN 1993", working=(("thread", "M6"), ("hangs", "11 N"))
)


def row(about: str, **changed: object) -> AnswerRow:
    """A finding about some marks, changed from the shear of a screw."""
    return AnswerRow(replace(SHEAR, **changed), about, "", "", alike=2, tightest=about)  # type: ignore[arg-type]


def test_what_all_workings_share_stands_once_and_the_rest_with_each() -> None:
    """Common figures are told of the question, and each row keeps those in which it differs."""
    other = (("thread", "M6"), ("hangs", "15 N"))
    (shear,) = worked([row("D2.1"), row("D3.1", figure=45.0, working=other)])
    assert shear.common == (("thread", "M6"),)
    assert [one.working for one in shear.rows] == [(("hangs", "11 N"),), (("hangs", "15 N"),)]


def test_rows_that_differ_in_their_marks_alone_are_one() -> None:
    """Two fittings with the very same figures make one row, which speaks for as many findings as both."""
    (shear,) = worked([row("D2.1, D2.2"), row("D3.1, D3.2")])
    (only,) = shear.rows
    assert (only.answer.about, only.answer.alike) == ("D2.1, D2.2, D3.1, D3.2", 4)
    assert only.working == SHEAR.working


def test_worst_stands_first_and_methods_stay_apart() -> None:
    """Within a question what is over comes before what is within; another source is another group."""
    told = worked([row("D2.1"), row("D3.1", word=Word.OVER), row("D4.1", source="EN 1995")])
    assert [(one.source, [each.answer.about for each in one.rows]) for one in told] == [
        ("EN 1993", ["D3.1", "D2.1"]),
        ("EN 1995", ["D4.1"]),
    ]


def test_working_that_another_question_told_of_the_same_thing_is_referred_to() -> None:
    """What stands under another question already is named, not told again."""
    pull, shear = worked([row("D2.1", check="pull"), row("D2.1")])
    assert (pull.rows[0].as_for, pull.rows[0].working) == ("", SHEAR.working)
    assert (shear.rows[0].as_for, shear.rows[0].working) == ("pull", ())


def test_figure_that_stands_beside_the_word_is_not_said_again() -> None:
    """Of a working what is the figure, the limit or the margin itself is left out, and nothing else."""
    working = (("edge to edge", "38 mm"), ("margin to keep", "40 mm"), ("left", "-2 mm"), ("rim", "4 mm"))
    (near,) = worked([row("D9.6", figure=38.0, limit=40.0, margin=-2.0, unit="mm", working=working)])
    assert near.rows[0].working == (("rim", "4 mm"),)


def unknown(about: str, check: str, sentence: str = "Not entered: made of.") -> AnswerRow:
    """A finding that is not known for want of something."""
    verdict = Verdict(check, Word.NOT_KNOWN, None, None, None, "N", sentence, "EN 1993", missing=("into",))
    return AnswerRow(verdict, about, "", sentence)


def test_what_several_questions_lack_alike_stands_once_with_each_question() -> None:
    """The same things, the same words: one row that names the questions; what is known is none of them."""
    rows = [unknown("D1.1", "shear"), unknown("D1.1", "pull"), unknown("D1.2", "pull"), row("D2.1")]
    found = [(one.answer.about, [name for name, _ in one.questions]) for one in lacking(rows)]
    assert found == [("D1.1", ["pull", "shear"]), ("D1.2", ["pull"])]
    assert [[each.answer.about for each in one.rows] for one in worked(rows)] == [["D2.1"]]


def test_alike_findings_of_one_thing_are_one_paragraph_with_every_figure() -> None:
    """What two questions answer alike, and what one answers of two parts, is said once; no figure is lost."""
    rows = [row("D2.1"), row("D2.2", figure=45.0), unknown("D2", "shear"), unknown("D2", "pull")]
    loads, lacks = told(rows)
    assert (loads.checks, len(loads.about)) == ("shear", 2)
    expected = [("D2.1", "40\u00a0N", "limit"), ("D2.2", "45\u00a0N", "margin")]
    assert all(words in about for about, told_of in zip(loads.about, expected, strict=True) for words in told_of)
    assert (lacks.checks, lacks.about, lacks.says) == ("shear, pull", ("D2",), "Not entered: made of.")


def test_figure_of_what_is_not_known_is_told_to_three_figures_and_no_other() -> None:
    """47.298387 N is told as 47.3 N, upwards, as its sentence does; a limit and what is decided stay as they are."""
    (carrier,) = worked([row("D11.3", word=Word.NOT_KNOWN, figure=47.298387, limit=None, margin=None, working=())])
    assert carrier.rows[0].measured == "47.3\u00a0N"
    (shear,) = worked([row("D1.1", figure=47.298387, limit=7700.5, margin=7653.2)])
    assert shear.rows[0].measured == "47.298387 / 7700.5 / 7653.2\u00a0N"


def test_labels_of_a_question_stand_once_where_all_rows_have_them() -> None:
    """Each row then gives its figures alone; rows that name different things keep their own labels."""
    (shear,) = worked([row("D2.1", working=(("a", "1"), ("b", "2"))), row("D3.1", working=(("a", "3"), ("b", "4")))])
    assert shear.labels == ("a", "b")
    (mixed,) = worked([row("D2.1", working=(("a", "1"),)), row("D3.1", working=(("b", "4"),))])
    assert mixed.labels == ()


def test_rows_that_say_the_same_beyond_their_figures_stand_together() -> None:
    """One word, one sentence: each row keeps its own figures in it."""
    (shear,) = worked([row("D2.1"), row("D3.1", figure=45.0), row("D4.1", word=Word.CLOSE)])
    assert [[one.answer.about for one in group] for group in shear.groups] == [["D4.1"], ["D2.1", "D3.1"]]


def test_what_most_say_stands_once_and_silence_is_told() -> None:
    """What half of all say and more stands once; who says nothing of it is told to lack it, who says else says so."""
    told = [[("Glass", "none")], [("Glass", "none"), ("Lift", "close")], [("Glass", "toughened")], [("Lift", "far")]]
    common = usual(told)
    assert common == [("Glass", "none")]
    assert [unusual(one, common) for one in told] == [
        [],
        [("Lift", "close")],
        [("Glass", "toughened")],
        [("Lift", "far"), ("Glass", "not entered")],
    ]
    assert usual(told[:1]) == []
    assert usual(told, share=1) == []
