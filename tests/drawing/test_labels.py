"""What drawings write beside things, at the desk; tests/js runs the same cases on the phone."""

from __future__ import annotations

from fieldbook.drawing.labels import words_beside
from tests.cases.shared import cases, shared_site


def test_labels_are_those_of_the_phone() -> None:
    """Each thing on a face carries its mark, a zone what it forbids, a limit what it allows, rounded down."""
    site = shared_site()
    assert {case["item"]: words_beside(site[case["item"]]) for case in cases("labels")} == {
        case["item"]: case["label"] for case in cases("labels")
    }
