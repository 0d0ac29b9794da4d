"""What is printed, written or set out on the fittings.

Each is drawn within its box with a pen, a function from mm to pixels, and the pixels a mm.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from random import Random

from PIL import ImageDraw

from .cards import INK, lettering
from .making import Box
from .patch import Paint

SEA: Paint = (178, 192, 190)
LAND: Paint = (216, 204, 172)

BEAM_WORDS = (
    "Every cask, bale and chest that came over the quay was hung on this beam before it went to store. "
    "The weigher called the figure, the clerk cut a tally in the boards behind you and wrote the sum in his book. "
    "Two men steadied the load; a third set the weights, the smallest no heavier than a coin. "
    "Wet rope weighs more than dry, so goods landed in rain were weighed again next day. "
    "The beam hangs from its own iron and has not been moved since it was put up."
)


def _text(on: ImageDraw.ImageDraw, at: Callable, scale: float, box: Box, heading: str, words: str, size: float) -> None:
    """A heading, and words set to the width under it."""
    left, bottom, right, top = box
    if heading:
        on.text(at(left, top), heading, INK, lettering(round(2.6 * size * scale)), anchor="lt")
        top -= 4.2 * size
    font, line = lettering(round(size * scale)), ""
    for word in words.split():
        longer = f"{line} {word}".strip()
        if font.getlength(longer) > (right - left) * scale and top > bottom:
            on.text(at(left, top), line, INK, font, anchor="lt")
            top, line = top - 1.5 * size, word
        else:
            line = longer
    if top > bottom:
        on.text(at(left, top), line, INK, font, anchor="lt")


def _coast(
    seed: str, left: float, right: float, middle: float, swing: float, steps: int = 60
) -> list[tuple[float, float]]:
    chance = Random(seed)  # noqa: S311
    phases = [(chance.uniform(0, 6.3), chance.uniform(0.5, 1.0) / (n + 1), n + 1) for n in range(7)]
    return [
        (
            left + (right - left) * step / steps,
            middle + swing * sum(a * math.sin(p + f * 2.1 * math.pi * step / steps) for p, a, f in phases),
        )
        for step in range(steps + 1)
    ]


def great_beam(box: Box, on: ImageDraw.ImageDraw, at: Callable, scale: float) -> None:
    """The panel on the beam: its words, and a drawing of the beam with a load."""
    left, bottom, right, top = box
    _text(on, at, scale, (left + 60, bottom + 60, left + 470, top - 70), "The great beam", BEAM_WORDS, 21)
    middle, high = left + 795, top - 190
    iron, thick = (58, 62, 68), max(1, round(7 * scale))
    on.line([at(middle, top - 60), at(middle, high)], fill=iron, width=thick)
    on.polygon(
        [at(middle - 225, high - 16), at(middle, high + 22), at(middle + 225, high - 16), at(middle, high - 14)],
        fill=iron,
    )
    for side in (-1, 1):
        x = middle + side * 215
        for spread in (-100, 100):
            on.line([at(x, high - 14), at(x + spread, high - 330)], fill=(96, 92, 86), width=max(1, round(4 * scale)))
        on.polygon(
            [at(x - 118, high - 330), at(x + 118, high - 330), at(x + 100, high - 356), at(x - 100, high - 356)],
            fill=(120, 88, 52),
        )
    on.rounded_rectangle(
        (*at(middle - 275, high - 200), *at(middle - 155, high - 330)), 18 * scale, fill=(158, 118, 72)
    )
    for row in (-238, -292):
        on.line(
            [at(middle - 275, high + row), at(middle - 155, high + row)],
            fill=(92, 66, 40),
            width=max(1, round(7 * scale)),
        )
    for n in range(3):
        on.rectangle(
            (*at(middle + 128 + n * 58, high - 300 + 26 * n), *at(middle + 180 + n * 58, high - 330)),
            fill=(80, 82, 88),
        )
    _text(
        on,
        at,
        scale,
        (left + 590, bottom + 40, right - 60, bottom + 130),
        "",
        "Weighed in hundredweights, quarters and pounds, to two tons.",
        18,
    )


def weights_and_seals(box: Box, on: ImageDraw.ImageDraw, at: Callable, scale: float) -> None:
    """What stands in the case."""
    left, bottom, right, top = box
    for shelf in (bottom + 60, bottom + 320):
        on.rectangle((*at(left + 30, shelf + 14), *at(right - 30, shelf)), fill=(150, 160, 158))
        on.rectangle((*at(left + 30, shelf - 1), *at(right - 30, shelf - 30)), fill=(36, 34, 32))
    chance = Random("seals")  # noqa: S311
    for n in range(6):
        x, high = left + 90 + n * 118, 40 + 22 * n
        on.rounded_rectangle(
            (*at(x, bottom + 74 + high), *at(x + 62 + 5 * n, bottom + 74)), 6 * scale, fill=(138, 110, 58)
        )
        on.ellipse(
            (*at(x + 18, bottom + 74 + high + 26), *at(x + 44 + 5 * n, bottom + 74 + high - 6)), fill=(160, 130, 72)
        )
        on.line(
            [at(x + 8, bottom + 80), at(x + 8, bottom + 68 + high)],
            fill=(206, 180, 116),
            width=max(1, round(4 * scale)),
        )
    for n in range(9):
        x, z = left + 100 + n * 76, bottom + 372 + chance.uniform(-3, 3)
        reach = chance.uniform(18, 27)
        on.ellipse((*at(x - reach, z + reach), *at(x + reach, z - reach)), fill=(126 + n * 3, 52, 40))
        on.ellipse(
            (*at(x - reach * 0.6, z + reach * 0.6), *at(x + reach * 0.6, z - reach * 0.6)),
            outline=(86, 34, 28),
            width=max(1, round(3 * scale)),
        )
        on.rectangle((*at(x - 22, bottom + 452), *at(x + 22, bottom + 424)), fill=(222, 216, 198))


def beam_sign(box: Box, on: ImageDraw.ImageDraw, at: Callable, scale: float) -> None:
    """The words of the sign."""
    top = box[3]
    for number, words in enumerate(("THE", "GREAT", "BEAM", "weighed", "to 2 tons")):
        size = 30 if number < 3 else 19
        on.text(at(0, top - 130 - number * 46), words, (222, 212, 186), lettering(round(size * scale)), anchor="mm")


def letters(box: Box, on: ImageDraw.ImageDraw, at: Callable, _scale: float) -> None:
    """Pigeon-holes and what sticks out of them."""
    left, bottom, right, top = box
    columns, rows = 6, 4
    wide, high = (right - left - 24) / columns, (top - bottom - 24) / rows
    chance = Random("letters")  # noqa: S311
    for column in range(columns):
        for row in range(rows):
            x, z = left + 12 + column * wide, bottom + 12 + row * high
            on.rectangle((*at(x + 7, z + high - 7), *at(x + wide - 7, z + 7)), fill=(58, 46, 32))
            on.polygon(
                [at(x + 7, z + 7), at(x + wide - 7, z + 7), at(x + wide - 26, z + 22), at(x + 26, z + 22)],
                fill=(116, 96, 66),
            )
            on.polygon(
                [at(x + 7, z + 7), at(x + 26, z + 22), at(x + 26, z + high - 16), at(x + 7, z + high - 7)],
                fill=(84, 68, 46),
            )
            for letter in range(chance.randrange(1, 6)):
                tone = chance.choice(((226, 218, 196), (212, 200, 170), (198, 186, 158), (220, 214, 204)))
                foot = x + 34 + letter * 22 + chance.uniform(-4, 4)
                lean = chance.uniform(-5, 12)
                tall = high * chance.uniform(0.5, 0.74)
                if foot + 24 < x + wide - 20:
                    on.polygon(
                        [
                            at(foot, z + 16),
                            at(foot + 15, z + 16),
                            at(foot + 15 + lean, z + tall),
                            at(foot + lean, z + tall),
                        ],
                        fill=tone,
                        outline=(120, 108, 84),
                    )
    for row in range(rows):
        for column in range(columns):
            x, z = left + 12 + column * wide + wide / 2, bottom + 12 + row * high + 4
            on.rectangle((*at(x - 26, z + 8), *at(x + 26, z - 8)), fill=(214, 206, 184))


def harbour_chart(box: Box, on: ImageDraw.ImageDraw, at: Callable, scale: float) -> None:
    """A chart: shore, soundings and a compass rose."""
    x0, z0, x1, z1 = box
    on.rectangle((*at(x0, z1), *at(x1, z0)), fill=(222, 210, 180))
    for offset, tone in ((90, (212, 204, 180)), (45, (206, 206, 190))):
        shore = _coast("chart", x0 + 30, x1 - 30, z0 + 330 - offset, 62)
        on.line([at(*point) for point in shore], fill=tone, width=max(1, round(14 * scale)))
    shore = [point for point in _coast("chart", x0 + 30, x1 - 30, z0 + 330, 70) if point[1] < z1 - 30]
    on.polygon(
        [at(x0 + 30, z1 - 30), *[at(*point) for point in shore], at(x1 - 30, z1 - 30)],
        fill=(206, 190, 150),
        outline=(78, 66, 50),
    )
    chance = Random("soundings")  # noqa: S311
    for _ in range(90):
        x, z = chance.uniform(x0 + 50, x1 - 50), chance.uniform(z0 + 40, z0 + 300)
        on.text(at(x, z), str(chance.randrange(2, 24)), (96, 84, 66), lettering(round(15 * scale)), anchor="mm")
    rose = at(x0 + 190, z0 + 150)
    for point in range(16):
        long = (84 if point % 4 == 0 else 44) * scale
        angle = point * math.pi / 8
        on.line(
            (*rose, rose[0] + long * math.sin(angle), rose[1] - long * math.cos(angle)),
            fill=(112, 70, 52),
            width=max(1, round(2.4 * scale)),
        )
    on.text(at(x1 - 60, z1 - 60), "The harbour", (66, 56, 42), lettering(round(34 * scale)), anchor="rt")
    on.rectangle((*at(x0 + 14, z1 - 14), *at(x1 - 14, z0 + 14)), outline=(88, 74, 56), width=max(1, round(3 * scale)))


def quay_plan(box: Box, on: ImageDraw.ImageDraw, at: Callable, scale: float) -> None:
    """A plan of the quay: houses, shed, jetty and boats."""
    left, bottom, right, top = box
    x0, z0, x1, z1 = left + 60, bottom + 60, right - 60, top - 60
    on.rectangle((*at(x0, z1 - 130), *at(x1, z0)), fill=SEA)
    shore = _coast("quay", x0, x1, z0 + 430, 30)
    on.polygon([at(x0, z1 - 130), *[at(*point) for point in shore], at(x1, z1 - 130)], fill=LAND)
    on.polygon(
        [
            at(x0 + 260, z0 + 510),
            at(x0 + 900, z0 + 510),
            at(x0 + 900, z0 + 300),
            at(x0 + 760, z0 + 300),
            at(x0 + 760, z0 + 190),
            at(x0 + 690, z0 + 190),
            at(x0 + 690, z0 + 300),
            at(x0 + 260, z0 + 300),
        ],
        fill=(190, 182, 164),
        outline=(80, 76, 70),
    )
    chance = Random("houses")  # noqa: S311
    for _ in range(64):
        x, z = (
            chance.uniform(x0 + 30, x1 - 90),
            chance.choice((z0 + 532, z0 + 590, z0 + 648, z0 + 700)) + chance.uniform(-6, 6),
        )
        on.rectangle((*at(x, z + 36), *at(x + chance.uniform(30, 62), z)), fill=(176, 128, 104), outline=(96, 70, 58))
    on.rectangle((*at(x0 + 470, z0 + 460), *at(x0 + 640, z0 + 370)), fill=(150, 56, 40), outline=(70, 30, 24))
    for n in range(5):
        x, z = x0 + 330 + n * 150, z0 + 70 + 32 * (n % 3)
        on.polygon(
            [at(x, z), at(x + 70, z), at(x + 86, z + 12), at(x + 70, z + 24), at(x, z + 24)],
            fill=(226, 220, 204),
            outline=(70, 68, 64),
        )
    on.text(at(x0 + 10, z1 - 38), "Marrow Quay and its sheds", INK, lettering(round(62 * scale)), anchor="lt")
    on.text(at(x0 + 560, z0 + 346), "customs shed", INK, lettering(round(22 * scale)), anchor="mm")
