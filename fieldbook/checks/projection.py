"""How far a fitting stands out of the face, layer by layer, against the clear depth there."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from ..errors import Missing
from .limits import within
from .verdict import Verdict, at_most

SOURCE = "Tolerance chain: worst case as the sum of the tolerances, likely case as the root of the sum of their squares"
LAYERS_HIGH = 100
THICKNESS_HIGH_MM = 10_000.0
TOLERANCE_HIGH_MM = 1_000.0
# What setting out on uneven old walls can be trusted to: common practice, no source.
CLOSE_MM = 5.0


class Layer(NamedTuple):
    """One layer of a build-up: its name, and its thickness and tolerance (plus or minus), mm."""

    name: str
    thickness_mm: float
    tolerance_mm: float


class Projection(NamedTuple):
    """How far the front stands out, mm: as drawn, likely at most, and at the very most."""

    nominal_mm: float
    likely_mm: float
    worst_mm: float


def projection(layers: Sequence[Layer], packers_mm: Sequence[float] = ()) -> Projection:
    """How far the front of a build-up stands out of the face.

    layers      from the face outwards; thickness 0 to 10 000 mm, tolerance 0 to 1000 mm, 1 to 100 layers
    packers_mm  packers behind it, mm, 0 to 10 000 each; the thickest one counts
    returns     mm; the likely case takes the tolerances as independent of each other and as often plus as minus

    Source: arithmetic: worst case the sum; likely case the root of the sum of squares, as variances add.
    Raises OutOfRange outside the limits, Missing where there is no layer.

    >>> projection([Layer("cleat", 27, 0.5), Layer("bracket plate", 6, 1.2)], [4])
    Projection(nominal_mm=37.0, likely_mm=38.3, worst_mm=38.7)
    """
    if not layers:
        raise Missing("There is no layer.", "Give the build-up layer by layer, from the face outwards.", field="layers")
    within("layers", len(layers), 1, LAYERS_HIGH, "layers")
    for place, layer in enumerate(layers):
        within(f"layers[{place}].thickness_mm", layer.thickness_mm, 0, THICKNESS_HIGH_MM, "mm")
        within(f"layers[{place}].tolerance_mm", layer.tolerance_mm, 0, TOLERANCE_HIGH_MM, "mm")
    for place, packer in enumerate(packers_mm):
        within(f"packers_mm[{place}]", packer, 0, THICKNESS_HIGH_MM, "mm")
    nominal = math.fsum([*(layer.thickness_mm for layer in layers), max(packers_mm, default=0.0)])
    tolerances = [layer.tolerance_mm for layer in layers]
    return Projection(nominal, nominal + math.hypot(*tolerances), nominal + math.fsum(tolerances))


def verdict(layers: Sequence[Layer], packers_mm: Sequence[float], clear_mm: float) -> Verdict:
    """Whether a build-up keeps within the clear depth even in the worst case.

    layers, packers_mm  as for `projection`, mm
    clear_mm            clear depth in front of the face there, mm, 0 to 100 000
    returns             verdict, mm; what stands over it only in the worst case is over

    Source: as for `projection`.
    Raises OutOfRange outside the limits, Missing where there is no layer.

    >>> verdict([Layer("case", 140, 1.5)], [], 157).word.value
    'within'
    """
    reach = projection(layers, packers_mm)
    return at_most(
        "projection",
        "The projection in the worst case",
        reach.worst_mm,
        within("clear_mm", clear_mm, 0, 100_000, "mm"),
        "mm",
        SOURCE,
        close=CLOSE_MM,
        working=(
            *((layer.name, f"{layer.thickness_mm:g} ± {layer.tolerance_mm:g} mm") for layer in layers),
            ("thickest packer", f"{max(packers_mm, default=0.0):g} mm"),
            ("as drawn", f"{reach.nominal_mm:.1f} mm"),
            ("likely at most", f"{reach.likely_mm:.1f} mm"),
        ),
    )
