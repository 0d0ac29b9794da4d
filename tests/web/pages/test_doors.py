"""A door told in trade words becomes a clearance limit."""

from __future__ import annotations

from tests.sites import Surveyed
from tests.web.conftest import Desk, messages, shown

TOLD = {
    "name": "Door to the yard", "margin_mm": "25", "hung": "right", "opens_deg": "100", "hinge_x_mm": "2140",
    "recess_mm": "-6", "pin_mm": "9", "width_mm": "760", "thickness_mm": "38", "handle_reach_mm": "52",
    "handle_long_mm": "110", "handle_from_edge_mm": "48", "z_to_mm": "1980",
}  # fmt: skip


def test_door_is_shown_and_then_entered(surveyed: Surveyed, desk: Desk) -> None:
    """Its plan comes without an entry; saved, it is a limit with hinge, swing and boxes, and a mark that counts on."""
    surveyed.limit(mark="L4")
    page, before = f"/face/{surveyed.face}/door", surveyed.book.revision()
    form = shown(desk.get(page).text) | TOLD
    assert "<svg" in desk.post(page, form | {"show": "yes"}).text
    assert surveyed.book.revision() == before
    assert desk.post(page, form).location == f"/face/{surveyed.face}"
    limit = surveyed.book.items("limit")[-1]
    assert (limit["mark"], limit["sort"], limit["leaf"], limit["hinge_y_mm"]) == ("L5", "leaf", "door", 15)
    assert (limit["swing_from_deg"], limit["swing_to_deg"]) == (180, 80)
    assert limit["boxes"] == [[0, 760, 9, 47], [602, 712, -43, 9]]


def test_door_that_lacks_a_measure_is_asked_back(surveyed: Surveyed, desk: Desk) -> None:
    """Beside its input; nothing is entered."""
    page, before = f"/face/{surveyed.face}/door", surveyed.book.revision()
    answer = desk.post(page, shown(desk.get(page).text) | TOLD | {"thickness_mm": ""})
    assert (answer.status_code, list(messages(answer))) == (422, ["thickness_mm"])
    assert surveyed.book.revision() == before
