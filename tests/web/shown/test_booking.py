"""The booking of a face, at the desk; tests/js runs the same cases on the phone."""

from __future__ import annotations

from fieldbook.book.gathering import gather
from fieldbook.model.choices import PLACES_AS_FITTED
from fieldbook.web.shown.booking import booking_of, parts_of
from tests.cases.shared import cases, shared_site
from tests.findings.generated import changed
from tests.sites import Surveyed

FACE = "00000000-0000-7000-8000-000000000004"


def test_booking_is_that_of_the_phone() -> None:
    """The same lines in the same order and words: from left to right, alike ones by kind and mark."""
    site = shared_site()
    lines = [
        {
            "item": line.item.id,
            "x": line.x_mm,
            "x_to": line.x_to_mm,
            "z": line.z_mm,
            "z_to": line.z_to_mm,
            "planned": line.planned,
            "found": line.found,
            "found_first": line.found_first,
        }
        for line in booking_of(site, site[FACE])
    ]
    assert lines == cases("booking")


def test_half_measured_place_is_booked_without_a_deviation(surveyed: Surveyed) -> None:
    """How far off the plan it came to sit is said when both figures are there; an old book may hold one of them."""
    fixing = surveyed.fixing(surveyed.fitting(), state="fitted")
    site = gather(surveyed.book, surveyed.site)

    def found(**fitted: float | str) -> str:
        now = changed(site, site[fixing], **fitted)
        return next(line.found for line in booking_of(now, now[surveyed.face]) if line.item.id == fixing)

    assert "off the plan" not in found(fitted_x_mm=1103)
    assert "5\u00a0mm off the plan" in found(fitted_x_mm=1103, fitted_z_mm=1544)  # 3-4-5


def test_words_for_a_place_that_was_not_measured_anew_are_booked(surveyed: Surveyed) -> None:
    """What the tape found as planned and what nobody measured are told apart, and neither as a figure."""
    fitting = surveyed.fitting()
    fixings = [
        surveyed.fixing(fitting, mark=f"D1.{at}", x_mm=1100 + 100 * at, state="fitted", fitted_place=place)
        for at, place in enumerate(PLACES_AS_FITTED)
    ]
    site = gather(surveyed.book, surveyed.site)
    found = {line.item.id: line.found for line in booking_of(site, site[surveyed.face])}
    assert [found[one] for one in fixings] == [f"fitted; place {place}" for place in PLACES_AS_FITTED]


def test_booking_is_grouped_by_fitting_and_shows_what_is_asked_for(surveyed: Surveyed) -> None:
    """Fixings stand under their fitting, what belongs to none at the end; a filter leaves the other kinds out."""
    zone, rail, lamp = surveyed.zone(), surveyed.fitting(mark="D1"), surveyed.fitting(mark="D2", x_mm=3400)
    fixings = [surveyed.fixing(lamp, x_mm=3460), surveyed.fixing(rail, x_mm=1710)]
    site = gather(surveyed.book, surveyed.site)
    lines = booking_of(site, site[surveyed.face])

    def parts(only: str, *, by_fitting: bool) -> list[tuple[str | None, list[str]]]:
        return [
            (owner and owner.id, [line.item.id for line in those])
            for owner, those in parts_of(site, lines, only, by_fitting=by_fitting)
        ]

    assert parts("", by_fitting=True) == [(rail, [rail, fixings[1]]), (lamp, [lamp, fixings[0]]), (None, [zone])]
    assert parts("limits", by_fitting=False) == [(None, [zone])]
    assert parts("found", by_fitting=True) == []
