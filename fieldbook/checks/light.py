"""Light on a surface through a year, against what its kind bears, and how long its colour lasts.

Source: CIE 157:2004. The four categories are read in its contents page; limits and doses are
from memory and older doses differ by up to a third, so the years are an order of magnitude.
It does not cover damage by heat or ultraviolet alone, nor fading in the dark.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from ..errors import NotAChoice, shown
from .limits import rounded_down, rounded_up, within
from .measurement import Reading, highest_verdict
from .verdict import Verdict, Word, at_most, not_known, word_for

FROM_MEMORY = "from memory, not seen in a readable copy"
SOURCE = f"CIE 157:2004, section 3.1 (limits {FROM_MEMORY})"
DOSE_SOURCE = f"CIE 157:2004, doses to a just noticeable change by blue wool grade ({FROM_MEMORY})"

ULTRAVIOLET_SOURCE = (
    "The limit entered for the room; 75 µW/lm is the older figure of museum practice, 10 µW/lm the newer (second hand)"
)

STANDS_YEARS = (0.0, 1000.0)
# full sun is about 100 000 lx
LUX = (0.0, 200_000.0)
# a leap year
HOURS_PER_YEAR = (0.0, 8784.0)
BLUE_WOOL = (1, 8)


@dataclass(frozen=True)
class Category:
    """What a category of responsivity bears; None is no limit."""

    lux: float | None
    lux_h: float | None


CATEGORIES: Mapping[str, Category] = {
    "none": Category(None, None),
    "low": Category(200, 600_000),
    "medium": Category(50, 150_000),
    "high": Category(50, 15_000),
}

# grade: million lx·h to a just noticeable change, with ultraviolet in the light and with it filtered out
DOSES_MLX_H: Mapping[int, tuple[float, float]] = {
    1: (0.22, 0.3),
    2: (0.6, 1),
    3: (1.5, 3),
    4: (3.5, 10),
    5: (8, 30),
    6: (20, 100),
    7: (50, 300),
    8: (120, 1100),
}


def exposure(lux: float, hours_per_year: float) -> float:
    """Light dose of a year.

    lux             illuminance while lit, lx, 0 to 200 000
    hours_per_year  hours lit in a year, h, 0 to 8784
    returns         exposure, lx·h in a year

    Source: definition; doses add up whatever the illuminance (reciprocity), CIE 157:2004.
    Raises OutOfRange outside the limits above, NotANumber for what is no number.

    >>> exposure(50, 2400)
    120000
    """
    within("lux", lux, *LUX, "lx")
    within("hours_per_year", hours_per_year, *HOURS_PER_YEAR, "h")
    return lux * hours_per_year


def years_to_noticeable_fade(exposure_lux_h: float, blue_wool: int, uv_filtered: bool) -> float | None:
    """Years until a finish of a blue wool grade has changed by what one can just see.

    exposure_lux_h  light dose of a year, lx·h, 0 to 2e9
    blue_wool       lightfastness grade, 1 (fugitive) to 8
    uv_filtered     whether ultraviolet is kept out of the light
    returns         years; None in the dark, where this method knows no end

    Source: CIE 157:2004, doses by blue wool grade (from memory, not seen in a readable copy).
    Raises NotAChoice between grades, OutOfRange outside the limits above, NotANumber for what is no number.

    >>> years_to_noticeable_fade(120_000, 3, True)
    25.0
    """
    within("exposure_lux_h", exposure_lux_h, 0, LUX[1] * HOURS_PER_YEAR[1], "lx·h")
    within("blue_wool", blue_wool, *BLUE_WOOL, "")
    if blue_wool not in DOSES_MLX_H:
        raise NotAChoice(
            f"is {shown(blue_wool)}.", "Give a whole grade.", field="blue_wool", value=blue_wool, about="blue_wool"
        )
    if exposure_lux_h == 0:
        return None
    with_ultraviolet, filtered = DOSES_MLX_H[blue_wool]
    return (filtered if uv_filtered else with_ultraviolet) * 1e6 / exposure_lux_h


def light_verdict(lux: float, hours_per_year: float, category: str) -> Verdict:
    """Whether the light in a year keeps within what the category bears.

    lux             illuminance while lit, lx, 0 to 200 000
    hours_per_year  hours lit in a year, h, 0 to 8784
    category        responsivity: none, low, medium or high
    returns         verdict on the exposure in lx·h, or on the illuminance where that is too high by a greater share

    Source: CIE 157:2004, section 3.1 (from memory, not seen in a readable copy).
    Raises NotAChoice for another category, OutOfRange outside the limits above, NotANumber for
    what is no number.

    >>> str(light_verdict(50, 3650, "medium").word)
    'over'
    """
    exposure_lux_h = exposure(lux, hours_per_year)
    limit = _category(category)
    working = (
        ("Illuminance", f"{lux:g} lx"),
        ("Hours lit in a year", f"{hours_per_year:g} h"),
        ("Responsivity", category),
    )
    if limit.lux_h is None or limit.lux is None:
        figure = rounded_up(exposure_lux_h, 1)
        sentence = f"The exposure is {figure:.10g} lx·h in a year; this category has no limit."
        return Verdict("light", Word.WITHIN, figure, None, None, "lx·h", sentence, SOURCE, working=working)
    if lux > limit.lux and lux / limit.lux >= exposure_lux_h / limit.lux_h:
        figure = rounded_up(lux)
        margin = limit.lux - figure
        sentence = (
            f"The illuminance is {figure:.10g} lx, {-margin:.10g} lx above the {limit.lux:g} lx this category bears."
        )
        return Verdict("light", Word.OVER, figure, limit.lux, margin, "lx", sentence, SOURCE, working=working)
    return at_most(
        "light", "The exposure in a year", exposure_lux_h, limit.lux_h, "lx·h", SOURCE, step=1, working=working
    )


def light_limit_verdict(readings: Sequence[Reading], limit_lx: float | None) -> Verdict:
    """Whether the light keeps below what was set for the room.

    readings  illuminance, lx, with their uncertainty
    limit_lx  the limit set, lx, 0 to 200 000; None: nobody has set one
    returns   verdict in lx on the highest reading with its uncertainty

    Source: the limit is whoever's set it; uncertainty as reading.highest_verdict has it.
    Raises OutOfRange for a limit outside those above.

    >>> str(light_limit_verdict([Reading(0, 44, 2)], 50).word)
    'close'
    """
    return highest_verdict("light", "illuminance", readings, limit_lx, "The limit entered for the room")


def ultraviolet_verdict(readings: Sequence[Reading], limit_uw_per_lm: float | None) -> Verdict:
    """Whether the ultraviolet in the light keeps below what was set for the room.

    readings         ultraviolet content, µW/lm, with their uncertainty
    limit_uw_per_lm  the limit set, µW/lm, 0 to 10 000; None: nobody has set one
    returns          verdict in µW/lm on the highest reading with its uncertainty

    Source: ULTRAVIOLET_SOURCE.
    Raises OutOfRange for a limit outside those above.

    >>> str(ultraviolet_verdict([Reading(0, 70, 10)], 75).word)
    'over'
    """
    return highest_verdict("ultraviolet", "ultraviolet", readings, limit_uw_per_lm, ULTRAVIOLET_SOURCE)


def fading_verdict(years: float | None, stands_years: float | None) -> Verdict:
    """Whether a finish keeps its colour as long as the display is to stand.

    years         until the change can just be seen, years, above 0; None: no light falls on it
    stands_years  how long the display is to stand, years, 0 to 1000; None: not known
    returns       verdict in years; not known, with the figure, without the years it is to stand

    Source: DOSE_SOURCE; close is within a third, by which older doses differ.
    Raises OutOfRange outside the limits above.

    >>> str(fading_verdict(25, 30).word), fading_verdict(25, None).figure
    ('over', 25.0)
    """
    if years is None:
        return Verdict("fading", Word.WITHIN, None, stands_years, None, "years", "No light falls on it.", DOSE_SOURCE)
    figure = rounded_down(within("years", years, 0, 1e9, "years"))
    changes = f"It changes noticeably after {figure:.10g} years"
    if stands_years is None:
        sentence = f"{changes}. Enter how many years the display is to stand."
        found = not_known("fading", ("stands_years",), sentence, DOSE_SOURCE, "years")
        return replace(found, figure=figure)
    margin = figure - within("stands_years", stands_years, *STANDS_YEARS, "years")
    sentence = f"{changes}; the display is to stand {stands_years:.10g}."
    word = word_for(margin, figure / 3)
    return Verdict("fading", word, figure, stands_years, margin, "years", sentence, DOSE_SOURCE)


def _category(name: str) -> Category:
    if name not in CATEGORIES:
        raise NotAChoice(
            f"is {shown(name)}.",
            f"Choose one of: {', '.join(CATEGORIES)}.",
            field="category",
            value=name,
            about="category",
        )
    return CATEGORIES[name]
