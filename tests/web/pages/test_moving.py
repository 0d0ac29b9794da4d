"""A fitting moved at the desk: the answer at once, and the new state in the book."""

from __future__ import annotations

from tests.sites import Surveyed
from tests.web.conftest import Desk


def test_place_and_mass_go_in_and_the_answer_comes_out(surveyed: Surveyed, desk: Desk) -> None:
    """Within its room, or ask first with the reason; what is sent is entered with the work that did it."""
    rail = surveyed.fitting(moves_mm=300, mass_loaded_kg=5)
    clamp = surveyed.fixing(rail)
    assert "Within its room to move" in desk.get(f"/item/{rail}/move?x_mm=1100").text
    assert "Ask first" in desk.get(f"/item/{rail}/move?x_mm=1400").text
    assert "is “wide”" in desk.get(f"/item/{rail}/move?x_mm=wide").text
    page = f"/item/{rail}/move?x_mm=1400"
    sent = {"x_mm": "1400", "mass_loaded_kg": "", "words": "for the model ship", "base": "99"}
    answer = desk.post(page, sent)
    assert answer.status_code == 303, answer.text
    assert surveyed.book.item(rail)[1]["x_mm"] == 1400
    assert surveyed.book.item(clamp)[1]["x_mm"] == 1500
    (work,) = surveyed.book.items("work")
    assert (work["sort"], work["fitting"], work["done"]) == ("moved or loaded", rail, "for the model ship")
    assert work["found"].startswith("To be asked:")
