"""Whether somebody else has to decide about a fitting: an engineer, a conservator, an electrician, a fire officer.

The tool helps a competent person and replaces none of them. What they decide is entered with its document.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from ..book.site import Item
from ..checks.cautions import ENGINEER_MASS_KG
from ..checks.limits import rounded_up
from ..checks.verdict import Verdict, Word
from . import geometry, named
from .acts import is_glued
from .asking import MORE, NEITHER, Asked, NotEntered, Question
from .decisions import decisions_on, in_words, ruling_of
from .finding import Blank, Outcome
from .fixing_loads import standing
from .load_paths import is_overhead, mass_kg
from .looked import ASBESTOS, SERVICES, SWINGS, ahead, hazards_at, looked, not_looked
from .pulls import LOADED

SOURCE = "Local codes and licensed practice; the marks at which an engineer is asked are common practice, no source"
NOBODY = "By what is entered, nobody but whoever fits it has to decide about it. Local codes apply all the same."
NOBODY_LOOKED = "Whether a way out passes here nobody has looked for."
ENGINEER, CONSERVATOR, ELECTRICIAN, FIRE_OFFICER, OTHER = (
    "structural engineer",
    "conservator",
    "electrician",
    "fire officer",
    "other",
)
Reasons = Iterator[tuple[str, str]]
Look = Callable[[Asked, Item], Reasons]
CALLED = {OTHER: "licensed asbestos surveyor"}


def specialist(asked: Asked, fitting: Item) -> Outcome:
    """Who has to decide about a fitting, why, and whether they have."""
    return _decided(asked, fitting, (*ON_LOAD, *ON_OTHER_THINGS))


def on_load(asked: Asked, fitting: Item) -> Outcome:
    """The same of those whose decision bears on how much it may carry: what it hangs on, and what glue pulls at.

    Whether holes, heat, current or a narrower way are allowed says nothing of a mass.
    """
    return _decided(asked, fitting, ON_LOAD)


def _decided(asked: Asked, fitting: Item, looks: Iterable[Look]) -> Outcome:
    reasons, lacking = _collected(asked, fitting, looks)
    decided = decisions_on(asked.site, fitting, asked.today)
    said = {role: ruling_of(decided, "specialist", (role,)) for role in reasons}
    answers = [one and one.answer for one in said.values()]
    if "no" not in answers and None not in answers and lacking is not None:
        raise lacking  # what is missing may ask for one more
    if not reasons:
        return Outcome(Verdict("specialist", Word.DOES_NOT_APPLY, None, None, None, "", NOBODY, SOURCE))
    words = " ".join(_words(role, why, said[role]) for role, why in reasons.items())
    word = Word.REFUSED if "no" in answers else Word.NOT_KNOWN if None in answers else Word.AGREED
    kept = (asked.site.get(one.kept_as) for one in said.values() if one)
    papers = tuple(dict.fromkeys(one for one in kept if one))
    return Outcome(Verdict("specialist", word, None, None, None, "", words, SOURCE), papers=papers)


def _collected(asked: Asked, fitting: Item, looks: Iterable[Look]) -> tuple[dict[str, list[str]], NotEntered | None]:
    """The reasons for each role, and what is missing to know of more."""
    reasons: dict[str, list[str]] = {}
    lacking: NotEntered | None = None
    for look in looks:
        try:
            for role, why in look(asked, fitting):
                reasons.setdefault(role, []).append(why)
        except NotEntered as lack:
            lacking = lacking or lack
    if ENGINEER not in reasons and not lacking and asked.need(fitting, "climbable"):
        reasons[ENGINEER] = ["people can lean or climb on it"]
    return reasons, lacking


def _words(role: str, why: list[str], ruling: Item | None) -> str:
    who = CALLED.get(role, role)
    because = "; ".join(why)
    if ruling is None:
        return f"{'An' if who[0] in 'aeiou' else 'A'} {who} has to decide: {because}."
    said = "agreed" if ruling.answer == "yes" else "refused"
    return f"The {who} has {said} ({because}): {in_words(ruling)}"


def _by_load(asked: Asked, fitting: Item) -> Reasons:
    if is_overhead(asked, fitting):
        yield ENGINEER, "it hangs overhead"
    mass = mass_kg(asked, fitting)
    if mass > ENGINEER_MASS_KG:
        yield ENGINEER, f"it weighs {rounded_up(mass, 0.1):.10g} kg with all it carries, above {ENGINEER_MASS_KG:g} kg"


def _by_fabric(asked: Asked, fitting: Item) -> Reasons:
    fixings = standing(asked.site, fitting)
    if iron := next((one for one in fixings if _in_iron(asked, one)), None):
        yield ENGINEER, f"{iron.called} holds on old iron, which breaks without warning"
    if unknown := next((one for one in fixings if _unknown_fabric(asked, one)), None):
        yield ENGINEER, f"nobody knows what {unknown.called} goes into"
    if any(one.fabric == "old fabric" and is_glued(asked, one) for one in fixings):
        yield CONSERVATOR, "something is stuck to old fabric"


def _by_asbestos(asked: Asked, fitting: Item) -> Reasons:
    if _drills(asked, fitting):
        if there := hazards_at(asked.site, asked.site[fitting.face]).get(ASBESTOS):
            yield OTHER, f"holes are made where {there.called} has asbestos as a hazard"
        else:
            _need_look(asked, asked.site[fitting.face], ASBESTOS)


def _by_current(asked: Asked, fitting: Item) -> Reasons:
    room = asked.site[asked.site[fitting.face].room]
    if given := [what for what in asked.need(fitting, "gives") if what != "nothing"]:
        yield ELECTRICIAN, f"it gives off {' and '.join(given)}"
    if _drills(asked, fitting):
        if "electricity" in (room.hazards or ()):
            yield ELECTRICIAN, f"holes are made where {room.called} has electricity as a hazard"
        elif not given:
            _need_look(asked, asked.site[fitting.face], SERVICES)


def _drills(asked: Asked, fitting: Item) -> bool:
    return any(one.hole == "new" for one in standing(asked.site, fitting))


def _need_look(asked: Asked, face: Item, what: str) -> None:
    """Raise NotEntered where nobody looked for something on a face: that it is no hazard of the room says nothing."""
    if not looked(asked, face, what):
        raise NotEntered(not_looked(face, what), None, "", ahead(asked, face, what).strip())


def _by_way_out(asked: Asked, fitting: Item) -> Reasons:
    """Whether it stands on a way out; where nobody looked and no hazard of the room is entered, that is missing."""
    face = asked.site[fitting.face]
    room = asked.site[face.room]
    part = geometry.fitting_stretch(fitting)
    routes = [limit for limit in asked.site.of(face, "limit") if limit.sort == "route"]
    passes = any(geometry.band_of(limit).meets(part) for limit in routes)
    if passes or "escape route" in (room.hazards or ()):
        yield FIRE_OFFICER, "it stands on a way out"
    elif not room.hazards and not looked(asked, face, SWINGS):
        raise NotEntered(Blank(face, "looked_for"), None, "", NOBODY_LOOKED + ahead(asked, face, SWINGS))


def _in_iron(asked: Asked, fixing: Item) -> bool:
    layers = asked.site[fixing.face].layers or [] if fixing.fabric != "another fitting" else []
    names = [fixing.bears_on, fixing.into, *(material for material, *_ in layers)]
    return any(name and named.is_old_iron(name) for name in names)


def _unknown_fabric(asked: Asked, fixing: Item) -> bool:
    """Whether a fixing goes into old fabric of which nothing at all is entered."""
    said = any(_says_what(name) for name in (fixing.grips, fixing.bears_on) if name)
    known = fixing.member or fixing.hold or said or asked.site[fixing.face].layers
    return fixing.fabric == "old fabric" and not known


def _says_what(name: str) -> bool:
    """Whether the name of a material says what a building is of; one of the site's own may be of anything."""
    return named.is_wood(name) or named.is_mineral(name) or named.is_metal(name)


ON_LOAD, ON_OTHER_THINGS = (_by_load, _by_fabric), (_by_asbestos, _by_current, _by_way_out)
READS = LOADED | {
    "fitting.gives": MORE,
    "room.hazards": MORE,
    "limit.sort": NEITHER,
    "limit.x_from_mm": NEITHER,
    "limit.x_to_mm": NEITHER,
    "limit.z_from_mm": NEITHER,
    "limit.z_to_mm": NEITHER,
    "room.looked_for": NEITHER,
    "face.looked_for": NEITHER,
    "face.layers": NEITHER,
    "member.material": NEITHER,
    "fixing.fabric": NEITHER,
    "fixing.adhesive": MORE,
    "fixing.hole": NEITHER,
    "fixing.hold": NEITHER,
    "fixing.member": NEITHER,
    "fixing.grips": NEITHER,
    "fixing.bears_on": NEITHER,
    "fixing.into": NEITHER,
}
ASKS = "Does somebody else have to decide, and have they?"

QUESTIONS = (Question("specialist", "fitting", ASKS, specialist, READS),)
OF_WHAT_IT_CARRIES = Question("specialist on load", "fitting", ASKS, on_load, READS)
