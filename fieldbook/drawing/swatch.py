"""The colour a swatch is printed in: CIELAB to sRGB, and whether sRGB can show it at all.

Source: CIELAB as in ISO/CIE 11664-4; sRGB as in IEC 61966-2-1; from white D50 to D65 by the Bradford
transform (Lindbloom). Observer 2°. A print is only as true as the printer: the figures are the record,
the swatch is a reminder.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..checks.limits import within
from ..errors import NotAChoice

SOURCE = "CIELAB: ISO/CIE 11664-4; sRGB: IEC 61966-2-1; white D50 to D65: Bradford transform"

# X, Y, Z of the two reference whites, ASTM E308, 2° observer
WHITES = {"D50": (0.96422, 1.0, 0.82521), "D65": (0.95047, 1.0, 1.08883)}
# rows of the matrices, from memory of IEC 61966-2-1 and Lindbloom; held against a reference library in the tests
XYZ_TO_LINEAR = (
    (3.2404542, -1.5371385, -0.4985314),
    (-0.9692660, 1.8760108, 0.0415560),
    (0.0556434, -0.2040259, 1.0572252),
)
D50_TO_D65 = (
    (0.9555766, -0.0230393, 0.0631636),
    (-0.0282895, 1.0099416, 0.0210077),
    (0.0122982, -0.0204830, 1.3299098),
)
# share of full scale by which a channel may pass it before the colour counts as out of reach: one step of 255
SLACK = 1 / 255


@dataclass(frozen=True)
class Swatch:
    """A printable colour.

    hex       as CSS writes it, each channel brought within 0 to 255
    in_gamut  whether sRGB can show the colour, or only the nearest its channels reach
    """

    hex: str
    in_gamut: bool


def swatch(lab: Sequence[float], white: str) -> Swatch:
    """The sRGB colour of a CIELAB colour.

    lab    L* 0 to 100, a* and b* -200 to 200, without unit
    white  the reference white they are for: D50 or D65

    Source: SOURCE. Raises OutOfRange, NotANumber, NotAChoice.

    >>> swatch((53.585, 0, 0), "D65")
    Swatch(hex='#808080', in_gamut=True)
    """
    channels = srgb(lab, white)
    in_gamut = all(-SLACK <= channel <= 1 + SLACK for channel in channels)
    return Swatch("#" + "".join(f"{round(255 * min(max(channel, 0), 1)):02x}" for channel in channels), in_gamut)


def srgb(lab: Sequence[float], white: str) -> tuple[float, ...]:
    """Red, green and blue as shares of full scale, outside 0 to 1 where sRGB cannot show the colour.

    lab, white  as for `swatch`
    Source: SOURCE. Raises OutOfRange, NotANumber, NotAChoice.
    """
    if white not in WHITES:
        raise NotAChoice(
            f"The reference white is “{white}”.", f"Choose one of: {', '.join(WHITES)}.", field="lab_white", value=white
        )
    lightness, a, b = lab
    within("lab_l", lightness, 0, 100, "")
    within("lab_a", a, -200, 200, "")
    within("lab_b", b, -200, 200, "")
    across = (lightness + 16) / 116
    xyz = [
        _uncompressed(part) * of
        for part, of in zip((across + a / 500, across, across - b / 200), WHITES[white], strict=True)
    ]
    if white == "D50":
        xyz = _times(D50_TO_D65, xyz)
    return tuple(_encoded(channel) for channel in _times(XYZ_TO_LINEAR, xyz))


def _uncompressed(part: float) -> float:
    return part**3 if part > 6 / 29 else 3 * (6 / 29) ** 2 * (part - 4 / 29)


def _encoded(linear: float) -> float:
    if linear < 0:
        return -_encoded(-linear)
    return 12.92 * linear if linear <= 0.0031308 else 1.055 * linear ** (1 / 2.4) - 0.055


def _times(matrix: Sequence[Sequence[float]], vector: Sequence[float]) -> list[float]:
    return [sum(entry * value for entry, value in zip(row, vector, strict=True)) for row in matrix]
