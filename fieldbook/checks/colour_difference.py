"""How different two colours look: CIEDE2000 of two CIELAB colours.

Source: Sharma, Wu and Dalal (2005), the formulation with all hue cases spelled out, of the CIE
formula of 2001; weights kL = kC = kH = 1. Both colours must be for the same white and
observer. It does not say whether a difference may stand: sheen, texture and light decide too.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from .limits import within

SOURCE = "CIEDE2000 after Sharma, Wu and Dalal (2005)"

LIGHTNESS = (0.0, 100.0)
# a* and b* of any real surface lie well inside
OPPONENT = (-200.0, 200.0)

# chroma from which greyish colours are no longer stretched, to the seventh power
GREY_CHROMA_7 = 25.0**7


def ciede2000(lab1: Sequence[float], lab2: Sequence[float]) -> float:
    """Colour difference of two colours.

    lab1     L*, a*, b* of the first; L* 0 to 100, a* and b* -200 to 200, without unit
    lab2     the same of the second, for the same white
    returns  difference, without unit; 0 for equal colours

    Source: Sharma, Wu and Dalal (2005), equations 2 to 22; kL = kC = kH = 1.
    Raises OutOfRange outside the limits above, NotANumber for what is no number.

    >>> round(ciede2000((50, 2.6772, -79.7751), (50, 0, -82.7485)), 4)
    2.0425
    """
    (l1, a1, b1), (l2, a2, b2) = _checked("lab1", lab1), _checked("lab2", lab2)
    stretch = 1.5 - 0.5 * _chroma_weight((math.hypot(a1, b1) + math.hypot(a2, b2)) / 2)
    c1, h1 = _polar(a1 * stretch, b1)
    c2, h2 = _polar(a2 * stretch, b2)
    lightness, chroma, hue = (l1 + l2) / 2, (c1 + c2) / 2, _mean_hue(h1, h2)
    # a grey has no hue; its chroma of nothing takes the hue difference, and all that hangs on hue, out of the sum
    hue_difference = 2 * math.sqrt(c1 * c2) * _sin(_turn(h2 - h1) / 2)

    hue_weight = 1 - 0.17 * _cos(hue - 30) + 0.24 * _cos(2 * hue) + 0.32 * _cos(3 * hue + 6) - 0.20 * _cos(4 * hue - 63)
    from_middle = (lightness - 50) ** 2
    in_lightness = (l2 - l1) / (1 + 0.015 * from_middle / math.sqrt(20 + from_middle))
    in_chroma = (c2 - c1) / (1 + 0.045 * chroma)
    in_hue = hue_difference / (1 + 0.015 * chroma * hue_weight)
    # blue turns towards violet as it pales, so there chroma and hue count together
    blue = 30 * math.exp(-(((hue - 275) / 25) ** 2))
    rotation = -2 * _chroma_weight(chroma) * _sin(2 * blue)
    return math.sqrt(in_lightness**2 + in_chroma**2 + in_hue**2 + rotation * in_chroma * in_hue)


def _checked(name: str, lab: Sequence[float]) -> tuple[float, float, float]:
    lightness, a, b = lab
    within(f"{name}[0]", lightness, *LIGHTNESS, "")
    within(f"{name}[1]", a, *OPPONENT, "")
    within(f"{name}[2]", b, *OPPONENT, "")
    return lightness, a, b


def _chroma_weight(chroma: float) -> float:
    return math.sqrt(chroma**7 / (chroma**7 + GREY_CHROMA_7))


def _polar(a: float, b: float) -> tuple[float, float]:
    """Chroma and hue angle; degrees from 0 up to 360."""
    return math.hypot(a, b), math.degrees(math.atan2(b, a)) % 360


def _turn(degrees: float) -> float:
    """The shorter way round, -180 to 180; half a turn keeps its sign, which keeps the formula symmetric."""
    if abs(degrees) <= 180:
        return degrees
    return degrees - math.copysign(360, degrees)


def _mean_hue(h1: float, h2: float) -> float:
    """Hue half-way round the shorter way, 0 to 360."""
    if abs(h1 - h2) <= 180:
        return (h1 + h2) / 2
    return (h1 + h2 + (360 if h1 + h2 < 360 else -360)) / 2


def _sin(degrees: float) -> float:
    return math.sin(math.radians(degrees))


def _cos(degrees: float) -> float:
    return math.cos(math.radians(degrees))
