"""How often a fitting is copied, and where to."""

from __future__ import annotations

from typing import Any

from flask import request

from ...book.makes import Copy
from ...book.site import Item, Site
from ...errors import FieldbookError, Missing, NotANumber, Refused
from ...model.fields import Field, Type
from ...model.figures import lengths_in
from ...model.values import accept
from .inputs import inputs_of
from .of_kind import MendableForm
from .options import Options

NUMBER = Field("count", "How many", Type.WHOLE, low=1, high=200, required=True)
APART = Field(
    "apart", "Apart along x", unit="mm", help="from left edge to left edge: one figure for all, or one for each"
)
UP = Field("up_mm", "Apart along z", Type.NUMBER, unit="mm", low=-100_000, high=100_000)
TURNED = Field("turned", "Turned left to right", Type.YES_NO)
FACE = Field("face", "Face", Type.LINK, to="face", required=True)
X = Field("x_mm", "x of the first copy", Type.NUMBER, unit="mm", low=-1e5, high=1e5, help="empty: one distance on")
Z = Field("z_mm", "z of the first copy", Type.NUMBER, unit="mm", low=-1e5, high=1e5, help="empty: as high as it is")
ASKED = (NUMBER, APART, UP, TURNED, FACE, X, Z)


class CopiesForm(MendableForm):
    """Where the copies of a fitting go."""


def copies_form(site: Site, fitting: Item) -> CopiesForm:
    """The form as it was sent; at first one copy on the same face. It asks by the address, and enters by post."""
    made: type[CopiesForm] = type("CopiesOfFitting", (CopiesForm,), dict[str, Any](inputs_of(ASKED)))
    shown = {"count": "1", "face": fitting.face}
    form = made(data=shown) if request.method == "POST" else made(formdata=request.args or None, data=shown)
    form[FACE.name].groups = Options(site).of(FACE, fitting.face)
    return form


def copies_in(form: CopiesForm, site: Site, fitting: Item) -> list[Copy]:
    """Where each goes; raises Refused."""
    given: dict[str, Any] = {}
    findings: list[FieldbookError] = []
    for field in ASKED:
        try:
            given[field.name] = _distances(form) if field is APART else accept(field, form.meant(field))
        except FieldbookError as error:
            findings.append(error)
    if not findings:
        findings = list(_lacking(given, site, fitting))
    if findings:
        raise Refused(findings)
    apart = given[APART.name] or [0.0]
    number = max(given[NUMBER.name], len(apart))
    x = fitting.x_mm + apart[0] if given[X.name] is None else given[X.name]
    z = fitting.z_mm + (given[UP.name] or 0) if given[Z.name] is None else given[Z.name]
    copies = []
    for at in range(number):
        copies.append(Copy(given[FACE.name], x, z, bool(given[TURNED.name]) != bool(fitting.mirrored)))
        x += apart[min(at + 1, len(apart) - 1)]
        z += given[UP.name] or 0
    return copies


def _distances(form: CopiesForm) -> list[float]:
    found = lengths_in(form[APART.name].data or "")
    for one in found:
        if isinstance(one, str):
            reason = f"is “{one[:40]}”, which is not a number."
            raise NotANumber(
                reason, "Give figures with spaces between.", field=APART.name, value=one, about=APART.label
            )
    return [float(one) for one in found]


def _lacking(given: dict[str, Any], site: Site, fitting: Item) -> list[FieldbookError]:
    face = site.get(given[FACE.name], "face")
    if face is None:
        return [Missing("There is no such face.", "Choose one from the list.", field=FACE.name)]
    placed = given[X.name] is not None or given[Z.name] is not None
    if face.id != fitting.face and given[X.name] is None:
        return [Missing("On another face its place is not known.", "Give x of the first copy.", field=X.name)]
    if not (given[APART.name] or given[UP.name] or (placed and given[NUMBER.name] == 1)):
        return [Missing("They would stand in one place.", "Say how far they are apart.", field=APART.name)]
    return []
