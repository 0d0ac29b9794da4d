"""Whole questions about one screw, put together from the pieces and worked by hand beside them."""

from __future__ import annotations

import pytest

from fieldbook.checks import face_layers, timber_combined, timber_dowel, timber_gap, timber_pull, timber_shear
from fieldbook.checks.face_layers import FaceLayer
from fieldbook.checks.timber_shear import WoodPart
from fieldbook.checks.verdict import Word

JOIST = [FaceLayer("lime plaster", 25, False), FaceLayer("joist", 200, True)]
STUD = [FaceLayer("lime plaster", 25, False), FaceLayer("oak", 80, True)]


# 60 kg on two screws 6 x 80 overhead: 294.2 N each. 48 of thread less 6: f = 0.52 · 6^-0.5 · 42^-0.1 · 350^0.8 · 0.75
# = 11.883; R = 11.883 · 6 · 42 = 2994.5; each of two 0.6/1.3 · 2994.5 · 2^0.9/2 = 1289.5; 1.35 · 294.2 = 397.2.
def test_sixty_kilograms_on_two_screws_overhead():
    """Each of two screws through a plaster ceiling into a joist is held against its lasting pull."""
    hold = face_layers.hold(JOIST, 80, 48)
    thread = timber_pull.counted_thread_mm(hold.reach.thread_mm, 6)
    resistance = timber_pull.withdrawal_n(timber_pull.parameter_n_mm2(6, 4.2, thread, 350), 6, thread, 90)
    found = timber_pull.verdict(
        resistance,
        294.2,
        0,
        1,
        thread_mm=hold.reach.thread_mm,
        diameter_mm=6,
        end_grain=False,
        count=2,
        strength_source=timber_pull.RULE_SOURCE,
    )
    assert resistance == pytest.approx(2994.5, abs=0.05)
    assert (found.word, found.figure, found.limit) == (Word.WITHIN, 397.2, 1289.5)


# Screw 5 x 60 with a core of 3.2 in oak of 530 kg/m³ behind 25 of plaster, drilled: d_ef 3.52; f_h = 0.082 · 0.9648
# · 530 = 41.930; M_y = 0.3 · 400 · 3.52^2.6 = 3163.7; q = 147.59; P = q (√(25² + 2 · 3163.7/q) − 25) = 124.45.
def test_hook_on_a_screw_through_plaster():
    """What hangs on a screw standing 25 mm out of the wood bends it, and a pull at the same time is added."""
    hold = face_layers.hold(STUD, 55, 36)
    diameter = timber_dowel.effective_diameter_mm(3.8, 3.2, hold.reach.shank_mm)
    wood = WoodPart(timber_dowel.embedment_n_mm2("screw", diameter, 530, 90, "hardwood", True), hold.reach.length_mm)
    ways = timber_gap.standing_out(wood, diameter, timber_dowel.yield_moment_nmm(diameter, 400), hold.gap_mm)
    mode = timber_shear.weakest(ways, "screw")
    assert (mode.name, mode.load_n) == ("the fastener bends in the wood", pytest.approx(124.45, abs=0.05))
    sound = {"gap_mm": hold.gap_mm, "diameter_mm": diameter, "lacking_mm": 0.0, "end_grain": False}
    # 0.6/1.3 · 124.45 / 1.35 = 42.5 N: 4 kg hang, 5 do not
    assert timber_gap.verdict(mode, 4 * 9.81, 0, 1, **sound).word is Word.CLOSE
    assert timber_gap.verdict(mode, 5 * 9.81, 0, 1, **sound).word is Word.OVER
    assert timber_shear.verdict(mode, 39.0, 0, 1, gap_mm=25, lacking_mm=0, end_grain=False).word is Word.NOT_KNOWN
    pull = timber_pull.withdrawal_n(timber_pull.wood_screw_n_mm2(5, 530)[0], 5, 25, 90)
    # 30 of thread less 5: 17.5 · 5 · 25 = 2187.5; 0.92 sideways and 0.13 of pull come to more than all of it
    assert pull == pytest.approx(2187.5)
    both = timber_combined.verdict((100, 0, pull), (39.0, 0, mode.load_n), 1, "screw", touching=False)
    assert both.word is Word.OVER
