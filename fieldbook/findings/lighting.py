"""What light and ultraviolet of a room do to what hangs there, and how long a finish keeps its colour."""

from __future__ import annotations

from collections.abc import Sequence

from ..book.site import Item, Site
from ..checks import light
from ..checks.measurement import Reading, span
from ..checks.verdict import Verdict, not_known
from . import readings
from .asking import LESS, MORE, NEITHER, Asked, Question
from .finding import Outcome, Recalculation
from .verdicts import badness, does_not_apply

BLUE_WOOL = "ISO Blue Wool 1 to 8"
NOTHING_HANGS = "Nothing is put up in this room."
INSENSITIVE = "none"  # the category of CIE 157 for what no light changes, and for which it sets no limit
NOTHING_FADES = "Nothing here is sensitive to light, as its category says, and no limit is set."
NOWHERE_USED = "No fitting that stands or is planned has this finish."


def in_room(asked: Asked, room: Item) -> Outcome:
    """The light of a room held against the limit set for it and against what the category of its things bears."""
    if not fittings_in(asked.site, room):
        return does_not_apply("light", NOTHING_HANGS)
    if room.light_limit_lx is None and _insensitive(asked, room, "illuminance"):
        return does_not_apply("light", NOTHING_FADES)
    lit = readings.needed(asked, room, "illuminance")
    if room.light_limit_lx is None and room.light_category is None:
        asked.need(room, "light_limit_lx", _highest(lit), "lx")
    verdict = readings.firm(
        _lit(asked, room, lit),
        lambda: _lit(asked, room, readings.exact(lit)),
        readings.unsure(asked, room, "illuminance"),
    )
    return Outcome(verdict, again=_again(asked, room, lit))


def _lit(asked: Asked, room: Item, lit: Sequence[Reading]) -> Verdict:
    """The worse of the limit set and of what the category bears."""
    found: list[Verdict] = []
    if room.light_limit_lx is not None:
        found.append(light.light_limit_verdict(lit, room.light_limit_lx))
    if room.light_category is not None:
        found.append(light.light_verdict(_highest(lit), asked.need(room, "light_hours"), room.light_category))
    return min(found, key=badness)


def _insensitive(asked: Asked, room: Item, quantity: str) -> bool:
    """Whether nobody measured a quantity, and by its category nothing here would mind it."""
    return room.light_category == INSENSITIVE and not readings.of(asked, room, quantity)


def _again(asked: Asked, room: Item, lit: Sequence[Reading]) -> Recalculation | None:
    if room.light_category is None:
        return None
    hours = asked.need(room, "light_hours")
    given = {"lux": _highest(lit), "hours_per_year": hours, "category": room.light_category}
    return Recalculation("light", given)


def _highest(lit: Sequence[Reading]) -> float:
    """The strongest light read, its uncertainty added, lx."""
    return max(span("illuminance", one)[1] for one in lit)


def ultraviolet(asked: Asked, room: Item) -> Outcome:
    """The ultraviolet in the light of a room held against the limit set for it."""
    if not fittings_in(asked.site, room):
        return does_not_apply("ultraviolet", NOTHING_HANGS)
    if room.uv_limit_uw_lm is None and _insensitive(asked, room, "ultraviolet"):
        return does_not_apply("ultraviolet", NOTHING_FADES)
    read = readings.needed(asked, room, "ultraviolet")
    highest = max(span("ultraviolet", one)[1] for one in read)
    limit = asked.need(room, "uv_limit_uw_lm", highest, "µW/lm")
    verdict = readings.firm(
        light.ultraviolet_verdict(read, limit),
        lambda: light.ultraviolet_verdict(readings.exact(read), limit),
        readings.unsure(asked, room, "ultraviolet"),
    )
    return Outcome(verdict)


def fading(asked: Asked, finish: Item) -> Outcome:
    """Whether a finish keeps its colour for as long as the display is to stand, in the room that is worst for it."""
    rooms = rooms_with(asked.site, finish)
    if not rooms:
        return does_not_apply("fading", NOWHERE_USED)
    scale, grade = asked.need(finish, "lightfastness_scale"), str(asked.need(finish, "lightfastness")).strip()
    if scale != BLUE_WOOL or not grade.isdecimal() or not 1 <= int(grade) <= 8:
        sentence = f"The lightfastness of {finish.called} is “{grade}” by {scale}; doses are published for {BLUE_WOOL}."
        return Outcome(not_known("fading", ("lightfastness",), sentence, light.SOURCE, "years"))
    return min((_in_one(asked, int(grade), room) for room in rooms), key=lambda one: badness(one.verdict))


def _in_one(asked: Asked, grade: int, room: Item) -> Outcome:
    lux = _highest(readings.needed(asked, room, "illuminance"))
    hours, filtered = asked.need(room, "light_hours"), bool(asked.need(room, "uv_filtered"))
    years = light.years_to_noticeable_fade(light.exposure(lux, hours), grade, filtered)
    stands = asked.need(asked.site.item, "stands_years", years, "years")
    given = {"lux": lux, "hours_per_year": hours, "category": room.light_category or "none", "blue_wool": grade}
    return Outcome(
        light.fading_verdict(years, stands),
        against=room,
        assumed=("The light stays what the strongest reading says, for all the years.",),
        left_out=("Pigments in one coat can fade otherwise than the grade of the whole; look at them each year.",),
        again=Recalculation("light", given | {"uv_filtered": filtered}),
    )


def fittings_in(site: Site, room: Item) -> list[Item]:
    """What stands or is to stand on the faces of a room."""
    return [one for face in site.of(room, "face") for one in site.of(face, "fitting") if one.stands]


def rooms_with(site: Site, finish: Item) -> list[Item]:
    """The rooms in which a finish is used."""
    return [
        room for room in site.all("room") if any(finish.id in (one.finishes or ()) for one in fittings_in(site, room))
    ]


_READINGS = {
    "reading.quantity": NEITHER,
    "reading.value": MORE,
    "reading.unit": NEITHER,
    "reading.uncertainty": MORE,
}
_ROOM_LIGHT = {"room.light_hours": MORE, "room.light_category": MORE}

QUESTIONS = (
    Question(
        "light",
        "room",
        "Is there no more light than was set for the room, or than its things bear?",
        in_room,
        {**_READINGS, **_ROOM_LIGHT, "room.light_limit_lx": LESS},
    ),
    Question(
        "ultraviolet",
        "room",
        "Is there no more ultraviolet than was set for the room?",
        ultraviolet,
        {**_READINGS, "room.uv_limit_uw_lm": LESS, "room.light_category": MORE},
    ),
    Question(
        "fading",
        "finish",
        "Does it keep its colour for as long as the display is to stand?",
        fading,
        {
            **_READINGS,
            **_ROOM_LIGHT,
            "room.uv_filtered": LESS,
            "site.stands_years": MORE,
            "finish.lightfastness": NEITHER,
            "finish.lightfastness_scale": NEITHER,
            "fitting.finishes": NEITHER,
        },
    ),
)
