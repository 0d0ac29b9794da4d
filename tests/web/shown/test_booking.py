"""The booking of a face, at the desk; tests/js runs the same cases on the phone."""

from __future__ import annotations

from fieldbook.web.shown.booking import booking_of
from tests.cases.shared import cases, shared_site

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
