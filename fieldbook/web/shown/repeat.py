"""How a finding can be reckoned again by hand: the JSON that `fieldbook calc`, or its page, takes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from flask import url_for

from ...calculations.catalogue import CALCULATIONS
from ...findings import Finding
from ..forms.of_calculation import in_the_address
from .commands import command_for

Payload = dict[str, Any]


@dataclass(frozen=True)
class Again:
    """One calculation with what it is reckoned from."""

    name: str
    payload: Payload

    @property
    def command(self) -> str:
        """What to type."""
        return command_for(self.name, self.payload)

    @property
    def address(self) -> str:
        """The page that does the same, filled in."""
        return url_for("calculations.show", name=self.name, **in_the_address(CALCULATIONS[self.name], self.payload))


def repeated(finding: Finding) -> Again | None:
    """How to do a finding again; None where nothing was reckoned, or no more than a subtraction."""
    return None if finding.again is None else Again(finding.again.name, dict(finding.again.payload))
