"""Inputs that take the figures of several: x with z behind it, width with height."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from typing import Any

from flask_wtf import FlaskForm

from ...model.fields import Field
from ...model.written_together import groups_in, parted


def write_together(form: FlaskForm, fields: Iterable[Field], runs: bool = True) -> None:
    """Let the input of the first take them all, and part what was sent so.

    runs  whether figures alone may be of several things, and the way to type them is told: not on a phone, which
          takes them from what is pasted or from an instrument that types
    """
    groups = groups_in(fields)
    if form.is_submitted():
        sent = {field.name: form[field.name].data for group in groups for field in group}
        for name, text in parted(groups, sent).items():
            form[name].data = text
    for group in groups:
        first, behind = form[group[0].name], " and ".join(f"“{one.label}”" for one in group[1:])
        how = "" if group[0].copied else " after a semicolon"
        if runs:
            first.description = "; ".join(filter(None, [group[0].help, f"{behind} can follow here{how}"]))
        told = of_group([one.name for one in group], group)
        told["own"] = told["own"] and runs
        first.render_kw = {**(first.render_kw or {}), "data-together": json.dumps(told)}


def of_group(into: Sequence[Any], group: Sequence[Field]) -> dict[str, Any]:
    """What static/phone/forms/written_together.js reads: where figures go, what one is, and whether it may run."""
    first, units = group[0], [field.unit for field in group]
    return {"into": into, "units": units, "low": first.low, "high": first.high, "own": not first.copied}
