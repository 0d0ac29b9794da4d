"""What a record says is missing from it."""

from __future__ import annotations

from fieldbook.book.gathering import gather
from fieldbook.record.gaps import gaps_of


def gaps(furnished):
    """Items in words -> what is missing of them."""
    return {gap.items: gap.missing for gap in gaps_of(gather(furnished.book, furnished.site))}


def test_empty_fields_that_matter_are_named(furnished):
    """What a careful reader would look for and not find is named by its label."""
    found = gaps(furnished)
    assert found["D2"] == (
        "projection",
        "mass empty",
        "people to take it down",
        "how to take it down",
        "care",
        "fixings",
    )
    assert found["R2-E"] == ("what it is made of", "datum", "photograph of its datum")
    assert "R1-N" not in found


def test_fixings_that_lack_the_same_are_told_together(furnished):
    """Fixings of one fitting with the same gaps share a line."""
    for mark in ("D1.1", "D1.3"):
        furnished.book.write("fixing", {"material": None, "make_good": None, "size": "60", "removal_tool": "by hand",
                                        "removal": "Turn."}, item=furnished.ids[mark])  # fmt: skip
    assert gaps(furnished)["D1.1, D1.3"] == ("material", "how to make good")


def test_only_what_is_up_lacks_what_is_noted_when_it_goes_up(furnished):
    """A planned fixing needs no date of fitting; a fitted one does."""
    found = gaps(furnished)
    assert "fitted on" in found["D1.2"]
    assert "fitted on" not in found["D1.3"]


def test_what_was_taken_down_lacks_nothing(furnished):
    """Nobody looks after what is gone."""
    furnished.book.write("fixing", {"state": "taken down"}, item=furnished.ids["D1.2"])
    assert "D1.2" not in gaps(furnished)


def test_fitted_fixing_lacks_its_place_as_fitted_until_it_is_there(surveyed):
    """Nothing else than what is due once it is up is asked of it."""

    def lacks():
        return next((gap.missing for gap in gaps_of(gather(surveyed.book, surveyed.site)) if gap.kind == "fixing"), ())

    fixing = surveyed.fixing(surveyed.fitting())
    planned = lacks()
    surveyed.book.write("fixing", {"state": "fitted"}, fixing)
    assert set(lacks()) - set(planned) == {"fitted on", "fitted by", "place as fitted"}
    surveyed.book.write("fixing", {"fitted_on": "2026-05-31", "fitted_by": "fitter"}, fixing)
    assert set(lacks()) - set(planned) == {"place as fitted"}
    surveyed.book.write("fixing", {"fitted_place": "not measured"}, fixing)
    assert set(lacks()) - set(planned) == {"place as fitted"}
    surveyed.book.write("fixing", {"fitted_place": "as planned, checked with a tape"}, fixing)
    assert set(lacks()) == set(planned)
    surveyed.book.write("fixing", {"fitted_place": None, "fitted_x_mm": 1103, "fitted_z_mm": 1544}, fixing)
    assert set(lacks()) == set(planned)
