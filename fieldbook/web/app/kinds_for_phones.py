"""The one description of each kind, and the tables beside it, as the phone reads them."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from ...checks.cautions import CAUTIONS
from ...findings.at_point import AT_THE_WALL
from ...findings.hazards import MINDED
from ...model import possible, rules, versions
from ...model.choices import FORBIDDEN, STATES
from ...model.fields import Field
from ...model.kinds import KINDS, Kind
from ..forms.of_kind import fields_of


def registry() -> dict[str, Any]:
    """Every kind with its fields, parents before what belongs to them; the tables of the rules; the cautions."""
    return {
        "kinds": [kind_as_plain(kind) for kind in KINDS.values()],
        "described": versions.fingerprint(),
        "forbidden": FORBIDDEN,
        "at_the_wall": AT_THE_WALL,
        "states": STATES,
        "rules": {
            "together": possible.TOGETHER,
            "measured": possible.MEASURED,
            "reaching": possible.REACHING,
            "needed_by_limit": rules.NEEDED_BY_LIMIT,
            "not_above": rules.NOT_ABOVE,
            "on_a_face": rules.ON_A_FACE,
            "trace_of_new_hole": rules.TRACE_OF_NEW_HOLE,
        },
        "minded": MINDED,
        "cautions": [asdict(caution) for caution in CAUTIONS.values()],
    }


def kind_as_plain(kind: Kind) -> dict[str, Any]:
    """One kind with its fields, and which of them a form asks for."""
    return {
        "name": kind.name,
        "label": kind.label,
        "plural": kind.plural,
        "meaning": kind.meaning,
        "parent": kind.parent,
        "numbered_by": kind.numbered_by,
        "pointed_to": kind.pointed_to,
        "pictured": kind.pictured,
        "with_a_file": kind.with_a_file,
        "fields": [field_as_plain(field) for field in kind.fields],
        "in_form": [field.name for field in fields_of(kind)],
    }


def field_as_plain(field: Field) -> dict[str, Any]:
    """One field, without what it leaves at its usual value."""
    usual = Field("", "")
    plain = {name: value for name, value in vars(field).items() if value != getattr(usual, name)}
    bounds = {"low": field.low, "high": field.high}
    return plain | bounds | {"type": field.type, "columns": [field_as_plain(column) for column in field.columns]}
