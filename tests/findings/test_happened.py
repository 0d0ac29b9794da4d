"""What to do at once when something happened: the cases that the phone runs as well."""

from __future__ import annotations

import pytest

from fieldbook.findings.happened import what_to_do
from tests.cases.shared import cases, site_of_cases

ID = "00000000-0000-7000-8000-0000000000{:02d}".format
OF_SITE = {"name": "Tide house", "call": "gate lodge", "isolators": "cupboard by the stair."}
PLACE = {"face": ID(3), "name": "thing", "x_mm": 1000, "z_mm": 900, "width_mm": 400, "height_mm": 300}
LIGHT = {"state": "fitted", "mass_loaded_kg": 3, "people_to_remove": 1, "removal": "Lift it off."}
LIGHT |= {"glass": "none", "gives": ["nothing"]}
FACE = {"room": ID(2), "name": "North", "sort": "wall", "width_mm": 4000, "height_mm": 2500}


@pytest.mark.parametrize("case", cases("happened"), ids=lambda case: case["what"])
def test_what_to_do_is_what_the_phone_says(case):
    """Only what is light, low, alone and known is taken off by whoever stands there."""
    items = [{"kind": "site", "id": ID(1), "values": OF_SITE}]
    items += [{"kind": "room", "id": ID(2), "values": {"site": ID(1), "name": "Loft"}}]
    items += [{"kind": "face", "id": ID(3), "values": FACE}]
    if case["fitting"] is not None:
        items.append({"kind": "fitting", "id": ID(4), "values": PLACE | LIGHT | {"mark": "D1"} | case["fitting"]})
    if hung := case.get("hung"):
        joined = {"hangs_on": ID(4)} if "hangs_on" in hung else {"covers": [ID(4)]}
        items.append({"kind": "fitting", "id": ID(5), "values": PLACE | LIGHT | {"mark": "D2"} | joined})
    site = site_of_cases(items)
    told = what_to_do(site, site.get(ID(4)), case["happened"])
    assert (told.act, told.urgency, told.call) == (case["act"], case["urgency"], case["call"])
    assert case["says"] in " ".join(told.words)
