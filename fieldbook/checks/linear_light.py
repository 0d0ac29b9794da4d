"""Linear light and CIELAB of sRGB colours, for D65 and 2°."""

from __future__ import annotations

from collections.abc import Sequence

WHITE = (0.95047, 1.0, 1.08883)  # D65, 2°, ASTM E308
# rows; from memory of IEC 61966-2-1, held against a reference library in the tests
LINEAR_TO_XYZ = (
    (0.4124564, 0.3575761, 0.1804375),
    (0.2126729, 0.7151522, 0.0721750),
    (0.0193339, 0.1191920, 0.9503041),
)
XYZ_TO_LINEAR = (
    (3.2404542, -1.5371385, -0.4985314),
    (-0.9692660, 1.8760108, 0.0415560),
    (0.0556434, -0.2040259, 1.0572252),
)
Lab = tuple[float, float, float]
Light = tuple[float, float, float]


def light_of(rgb: Sequence[float]) -> Light:
    """Linear light of an sRGB colour.

    rgb      red, green and blue, 0 to 255, without unit
    returns  shares of full scale

    Source: IEC 61966-2-1.
    Raises nothing.

    >>> round(light_of((128, 128, 128))[0], 4)
    0.2159
    """
    shares = [value / 255 for value in rgb]
    linear = [share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4 for share in shares]
    return linear[0], linear[1], linear[2]


def lab_of_light(light: Sequence[float]) -> Lab:
    """CIELAB, D65, 2°, of linear light.

    light    red, green and blue, shares of full scale, without unit
    returns  L*, a*, b*

    Source: ISO/CIE 11664-4.
    Raises nothing.

    >>> [round(part, 2) for part in lab_of_light(light_of((128, 128, 128)))][0]
    53.59
    """
    x, y, z = (_root(part / of) for part, of in zip(times(LINEAR_TO_XYZ, light), WHITE, strict=True))
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def light_of_lab(lab: Sequence[float]) -> Light:
    """Linear light of a CIELAB colour, D65, 2°; beyond 0 to 1 where sRGB has no such colour.

    lab      L*, a*, b*, without unit
    returns  red, green and blue, shares of full scale

    Source: ISO/CIE 11664-4, IEC 61966-2-1.
    Raises nothing.

    >>> round(light_of_lab((53.585, 0, 0))[1], 3)
    0.216
    """
    y = (lab[0] + 16) / 116
    xyz = [_cube(part) * of for part, of in zip((y + lab[1] / 500, y, y - lab[2] / 200), WHITE, strict=True)]
    return times(XYZ_TO_LINEAR, xyz)


def _root(part: float) -> float:
    return part ** (1 / 3) if part > (6 / 29) ** 3 else part / (3 * (6 / 29) ** 2) + 4 / 29


def _cube(part: float) -> float:
    return part**3 if part > 6 / 29 else 3 * (6 / 29) ** 2 * (part - 4 / 29)


def times(rows: Sequence[Sequence[float]], of: Sequence[float]) -> Light:
    """A matrix of three rows times a column of three.

    rows     without unit
    of       without unit
    returns  the three sums

    Source: arithmetic.
    Raises ValueError for rows that are longer or shorter.

    >>> times(((1, 0, 0), (0, 2, 0), (1, 1, 1)), (1, 2, 3))
    (1, 4, 6)
    """
    one, two, three = (sum(entry * part for entry, part in zip(row, of, strict=True)) for row in rows)
    return one, two, three
