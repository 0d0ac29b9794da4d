"""What has changed since a thing was fitted: measures taken again, and colours."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from datetime import datetime

from ..book.site import Item, Site
from ..checks.colour_difference import ciede2000
from ..checks.colour_seen import seen
from ..checks.drift import Drift, Measured, drift

AS_FITTED = {"x": "fitted_x_mm", "z": "fitted_z_mm"}


def drifts(site: Site, fitting: Item) -> Mapping[tuple[str, str], Drift]:
    """What was measured again at a fitting: (mark of the fixing or "", of what) -> how far it has changed.

    A place of a fixing is held against where it was fitted, anything else against its first reading.
    """
    series: dict[tuple[str, str], list[Item]] = defaultdict(list)
    for reading in site.pointing_at(fitting, "reading", "fitting"):
        if reading.of and reading.unit == "mm":
            series[reading.fixing or "", reading.of].append(reading)
    found = {}
    for (fixing_id, of), readings in series.items():
        fixing = site.get(fixing_id)
        readings.sort(key=lambda one: datetime.fromisoformat(one.at))
        known = [Measured(one.value, one.uncertainty) for one in readings]
        fitted = fixing.values.get(AS_FITTED.get(of, "")) if fixing else None
        if change := drift([*([Measured(fitted)] if fitted is not None else []), *known]):
            found[fixing.called if fixing else "", of] = change
    return found


def faded(finish: Item, colour: Item) -> str:
    """How far a colour measured again is from that of its card, in words."""
    card = (finish.lab_l, finish.lab_a, finish.lab_b)
    if None in card or finish.lab_white is None:
        return "not known: the card has no colour"
    if colour.lab_white != finish.lab_white:
        return f"not known: the card is for {finish.lab_white}, this for {colour.lab_white}"
    difference = ciede2000(card, (colour.lab_l, colour.lab_a, colour.lab_b))
    return f"difference {difference:.1f} (CIEDE2000): {seen(difference)}"
