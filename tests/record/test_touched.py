"""What touches the fabric, counted by hand over a small site."""

from __future__ import annotations

from math import pi

import pytest

from fieldbook.book.gathering import gather
from fieldbook.record.touched import Touch, touched


def test_touches_are_counted_by_room_and_state(furnished):
    """Two clamps of 30 mm round press 2 × 28.3 cm²; a planned screw is one new hole in old fabric."""
    hall, office, total = touched(gather(furnished.book, furnished.site))
    assert (hall.room.mark, office.room.mark, total.room) == ("R1", "R2", None)
    assert (hall.up.pressed_cm2, hall.up.new_old) == (pytest.approx(2 * pi * 9), 0)
    assert hall.planned == Touch(new_old=1)
    assert office.up == office.planned == office.gone == Touch()
    assert total.up == hall.up
    assert hall.up.words.replace("\u00a0", " ") == "no old holes used again, 0 new, 57 cm² pressed"
    assert hall.gone.words == "nothing"


def test_what_is_fixed_to_another_fitting_touches_no_fabric(furnished):
    """A screw into a rail marks the rail; taken down, what pressed on a wall is counted as gone."""
    into_the_rail = {"fabric": "another fitting", "other_fitting": furnished.ids["D1"], "fitting": furnished.ids["D2"]}
    furnished.book.write(
        "fixing", into_the_rail | {"trace": "none", "x_mm": 2000, "z_mm": 1400}, item=furnished.ids["D1.3"]
    )
    furnished.book.write("fixing", {"state": "taken down"}, item=furnished.ids["D1.1"])
    hall, *_ = touched(gather(furnished.book, furnished.site))
    assert hall.planned == Touch()
    assert hall.up.pressed_cm2 == hall.gone.pressed_cm2 == pytest.approx(pi * 9)
