"""The order of taking down: what hangs on a thing, is fixed to it or covers it comes off first."""

from __future__ import annotations

import pytest

from fieldbook.book.gathering import gather
from fieldbook.checks.verdict import Word
from fieldbook.findings import Finding, appraise
from fieldbook.findings.taking_down import not_said
from fieldbook.record.removal import removal_of
from tests.cases.shared import cases, site_of_cases
from tests.sites import Surveyed


def found(surveyed: Surveyed, check: str) -> list[Finding]:
    """The findings of one check."""
    return [one for one in appraise(gather(surveyed.book, surveyed.site)) if one.verdict.check == check]


def test_order_of_taking_down_is_found_or_the_cycle_named(surveyed: Surveyed) -> None:
    """What hangs on each other can never come down, and that is said by name."""
    rail = surveyed.fitting(mark="D1")
    panel = surveyed.fitting(mark="D2", name="Panel", hangs_on=rail)
    (one,) = found(surveyed, "removal")
    assert (one.verdict.word, one.verdict.figure) == (Word.WITHIN, 2)
    surveyed.book.write("fitting", {"hangs_on": panel}, item=rail)
    (one,) = found(surveyed, "removal")
    assert one.verdict.word is Word.OVER
    assert "D1 Rail" in one.verdict.sentence
    assert "D2 Panel" in one.verdict.sentence


def test_fitting_that_is_down_needs_no_order(surveyed: Surveyed) -> None:
    """What has been taken down no longer keeps anything up."""
    rail = surveyed.fitting(mark="D1", state="taken down")
    surveyed.fitting(mark="D2", hangs_on=rail)
    assert found(surveyed, "removal")[0].verdict.figure == 1


@pytest.mark.parametrize("case", cases("taking_down"), ids=lambda case: case["what"])
def test_stages_are_those_of_the_phone(case):
    """What comes off in which stage, and after what; None where things wait for each other."""
    ids = {mark: f"00000000-0000-7000-8000-0000000001{number:02}" for number, (mark, _) in enumerate(case["fittings"])}
    removal = removal_of(site_of_cases(staged(case, ids)))
    told = [[one.fitting.mark, one.stage, [other.mark for other in one.after]] for one in removal.steps]
    assert (told or None) == case["stages"]


@pytest.mark.parametrize("case", cases("not_said"), ids=lambda case: case["what"])
def test_who_signs_is_asked_as_on_the_phone(case, surveyed: Surveyed) -> None:
    """Of which fixings nobody has said what they left."""
    rail = surveyed.fitting(state="taken down")
    for values in case["fixings"]:
        surveyed.fixing(rail, **values)
    site = gather(surveyed.book, surveyed.site)
    assert [one.mark for one in not_said(site, [site[rail]])] == case["not_said"]


def staged(case, ids):
    """The items of a case, as the phone's test makes them."""
    site, room, face = (f"00000000-0000-7000-8000-00000000000{number}" for number in (1, 2, 3))
    fabric = {"contact_radius_mm": 12, "hole": "none", "fabric": "another fitting", "trace": "none", "sort": "bolt"}
    size = {"x_mm": 0, "z_mm": 0, "width_mm": 100, "height_mm": 100, "name": "thing", "face": face}
    items = [{"kind": "site", "id": site, "values": {"name": "Tide house"}}]
    items.append({"kind": "room", "id": room, "values": {"site": site, "name": "Loft"}})
    items.append({"kind": "face", "id": face, "values": {"room": room, "name": "North", "sort": "wall"}})
    for mark, more in case["fittings"]:
        linked = {name: ids[more[name]] for name in ("hangs_on",) if name in more}
        linked |= {"covers": [ids[other] for other in more["covers"]]} if "covers" in more else {}
        values = {"mark": mark, "state": more.get("state", "fitted")} | size | linked
        items.append({"kind": "fitting", "id": ids[mark], "values": values})
    for number, (mark, other, state) in enumerate(case["fixed_to"]):
        own = {"fitting": ids[mark], "other_fitting": ids[other], "face": face, "mark": f"{mark}.1", "state": state}
        values = own | fabric | {"x_mm": 10, "z_mm": 10}
        items.append({"kind": "fixing", "id": f"00000000-0000-7000-8000-00000000020{number}", "values": values})
    return items
