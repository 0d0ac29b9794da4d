"""Wires and straps that do not hang plumb: T = W / (n cos a), and as hard to the side as W / n times tan a."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.checks.verdict import FINE, Word
from tests.findings.hung import HUNG, STATED, ceiling, found
from tests.sites import Surveyed

HOLD: dict[str, Any] = {"sort": "hook", "z_mm": 1250, "may_be_used": "yes", "load_said_by": "harbour engineer"}


def picture(surveyed: Surveyed, lean: float | None, stated_n: float = 900, agreed_n: float = 900) -> None:
    """A picture of 20 kg on two wires, 98.1 N each, whose hooks hang on old ones."""
    hung = surveyed.fitting(**HUNG | {"centre_out_mm": 0})
    for number, x in enumerate((1100, 1300), 1):
        old = HOLD | {"mark": f"H{number}", "x_mm": x, "face": surveyed.face, "load_limit_n": agreed_n}
        hook = {"sort": "hook", "hole": "existing", "x_mm": x, "z_mm": 1250, "stated_load_n": stated_n, **STATED}
        hold = surveyed.book.write("hold", old)
        surveyed.fixing(hung, mark=f"D1.{number}", off_plumb_deg=lean, hold=hold, **hook)


@pytest.mark.parametrize(
    ("question", "figure"), [("pull", 98.1), ("shear", 138.7), ("together", 138.7), ("carrier", 138.7)]
)
def test_wire_at_45_degrees_pulls_out_as_hard_as_down(surveyed: Surveyed, question: str, figure: float) -> None:
    """196.2 / (2 cos 45°) = 138.7 N in each wire, 98.1 of it down and as much to the side, out of the wall or along."""
    picture(surveyed, 45)
    for one in found(surveyed, question):
        assert (one.word, one.verdict.figure) == (Word.WITHIN, pytest.approx(figure, abs=0.11))


def test_plumb_wire_pulls_nothing_out(surveyed: Surveyed) -> None:
    """98.1 N down, and no more."""
    picture(surveyed, 0)
    assert {one.word for one in found(surveyed, "pull")} == {Word.DOES_NOT_APPLY}
    assert [one.verdict.figure for one in found(surveyed, "carrier")] == [pytest.approx(98.1)] * 2


@pytest.mark.parametrize(
    ("stated_n", "agreed_n", "question"), [(130, 900, "shear"), (900, 130, "carrier"), (90, 900, "pull")]
)
def test_how_a_wire_hangs_is_asked_for_only_where_it_decides(
    surveyed: Surveyed, stated_n: float, agreed_n: float, question: str
) -> None:
    """At 45° there would be 138.7 N in each wire, and 98.1 to the side; all of it is within 900 N."""
    picture(surveyed, None, stated_n, agreed_n)
    for one in found(surveyed, question):
        assert (one.word, one.missing[0].field) == (Word.NOT_KNOWN, "off_plumb_deg")
    others = {"shear", "carrier", "pull"} - {question, "shear" if stated_n < 98 else question}
    assert {one.word for other in others for one in found(surveyed, other)} <= FINE


def test_under_a_ceiling_it_pulls_along_it(surveyed: Surveyed) -> None:
    """98.1 N straight down on each, at 30° 98.1 · tan 30° = 56.6 N along the ceiling: 113.3 N in the wire."""
    face = ceiling(surveyed)
    hung = surveyed.fitting(**HUNG | {"face": face, "z_mm": 900, "touches_face": 0})
    for number, x in enumerate((1100, 1300), 1):
        hook = {"sort": "hook", "hole": "existing", "x_mm": x, "z_mm": 1050, "stated_load_n": 900, **STATED}
        surveyed.fixing(hung, face=face, mark=f"D1.{number}", off_plumb_deg=30, **hook)
    figures = [found(surveyed, question)[0].verdict.figure for question in ("pull", "shear", "together")]
    assert figures == [pytest.approx(force, abs=0.11) for force in (98.1, 56.6, 113.3)]


def test_when_one_wire_lets_go_the_other_is_looked_at_as_it_leans(surveyed: Surveyed) -> None:
    """All of 50 kg, 490.5 N, on one wire at 60° is 981 N, over the 900 N stated; plumb it is within."""
    for lean, word in ((60, Word.OVER), (0, Word.WITHIN)):
        hung = surveyed.fitting(**HUNG | {"mark": f"D{lean}", "x_mm": 1000 + 20 * lean, "mass_loaded_kg": 50})
        surveyed.book.write("fitting", {"centre_out_mm": 0}, item=hung)
        for number, z in enumerate((1050, 1250), 1):
            hook = {"sort": "hook", "hole": "existing", "x_mm": 1200 + 20 * lean, "z_mm": z, "stated_load_n": 900}
            surveyed.fixing(hung, mark=f"D{lean}.{number}", off_plumb_deg=lean, **hook, **STATED)
        assert found(surveyed, "one-lost", f"D{lean}")[0].word is word


def test_what_hangs_on_one_hook_alone_hangs_plumb_below_it(surveyed: Surveyed) -> None:
    """20 kg on one hook good for 200 N: 196.2 N, and nobody asks how its wire hangs; what is said counts."""
    hung = surveyed.fitting(**HUNG | {"centre_out_mm": 0})
    hook = {"sort": "hook", "hole": "existing", "x_mm": 1200, "z_mm": 1250, "stated_load_n": 200, **STATED}
    one = surveyed.fixing(hung, **hook)
    assert found(surveyed, "shear")[0].verdict.figure == pytest.approx(196.2)
    surveyed.book.write("fixing", {"off_plumb_deg": 20}, item=one)
    assert found(surveyed, "shear")[0].word is Word.OVER
