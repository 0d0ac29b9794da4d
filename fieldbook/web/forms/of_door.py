"""A door as it is told: hung left or right, how wide and thick, its handle, how far it opens."""

from __future__ import annotations

from typing import Any

from ...errors import FieldbookError, Refused
from ...model.door import HUNG, TOWARDS, HungLeaf, limit_of
from ...model.fields import Field, Type
from ...model.kinds import KINDS
from ...model.values import accept
from .inputs import inputs_of
from .of_kind import MendableForm

LIMIT = KINDS["limit"]
LEAF_SORT = "leaf"


def _length(name: str, label: str, low: float = 0, help: str = "", *, required: bool = True) -> Field:  # noqa: A002
    return Field(name, label, Type.NUMBER, unit="mm", low=low, high=10_000, help=help, required=required)


OF_LIMIT = tuple(LIMIT.by_name[name] for name in ("mark", "name", "leaf", "margin_mm", "z_from_mm", "z_to_mm"))
TOLD = (
    Field("hung", "Hung on the", Type.CHOICE, choices=HUNG, required=True, help="seen from the room"),
    Field("towards", "Opens", Type.CHOICE, choices=TOWARDS, required=True),
    Field("opens_deg", "Opens to", Type.NUMBER, unit="°", low=1, high=270, required=True),
    _length("hinge_x_mm", "Pin of the hinges, x", -100_000),
    _length(
        "recess_mm",
        "Lies behind the face by",
        -2_000,
        "its room side when shut; negative when it stands out of the wall",
    ),
    _length("pin_mm", "Pin stands before the leaf by", help="on the side it opens towards; 0 when in line with it"),
    _length("width_mm", "Width", 1, "from the pin to its free edge"),
    _length("thickness_mm", "Thickness", 1),
    _length("handle_reach_mm", "Handle stands out by", help="into the room; 0 for none"),
    _length("handle_long_mm", "Handle is long", help="along the leaf", required=False),
    _length("handle_from_edge_mm", "From there to the free edge", required=False),
)
ASKED = (*OF_LIMIT, *TOLD)


class DoorForm(MendableForm):
    """What is told of a leaf."""


def door_form() -> DoorForm:
    """The form as it was sent, or empty with a door that opens into the room."""
    made: type[DoorForm] = type("DoorFormOf", (DoorForm,), dict[str, Any](inputs_of(ASKED)))
    return made(data={"leaf": "door", "towards": TOWARDS[0]})


def limit_in(form: DoorForm, face: str) -> dict[str, Any]:
    """The limit that was told; raises Refused."""
    given: dict[str, Any] = {}
    findings: list[FieldbookError] = []
    for field in ASKED:
        try:
            given[field.name] = accept(field, form.meant(field))
        except FieldbookError as error:
            findings.append(error)
    if findings:
        raise Refused(findings)
    told: dict[str, Any] = {field.name: given[field.name] or 0 for field in TOLD}
    door = HungLeaf(**told)
    own = {field.name: given[field.name] for field in OF_LIMIT if given[field.name] is not None}
    return {"face": face, "sort": LEAF_SORT} | own | limit_of(door)
