"""Who agreed to what: whether a fixing or a fitting may do to the fabric what it does.

One relation, entered with the agreement and seen from both sides: an agreement names things, or a face with acts
and depth. The latest rules, on one day the no. A yes covers what it names in the state it was in, within its
play; what has gone past that is to be asked again.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date

from ..book.site import Item, Site
from ..book.wording import day, joined, marks
from ..checks.verdict import Verdict, Word, not_known
from . import ages
from . import coming_out as behind
from .acts import GIVEN, acts_of, borne_by, given_off, joins_ours, need_depth, taken_as_deep
from .asking import LESS, MORE, NEITHER, NOTHING_TAKEN, Asked, Question
from .coming_out import Rulings, coming_out
from .finding import Blank, Finding, Outcome
from .geometry import fitting_stretch, member_stretch, place_of
from .gone_past import changes
from .rulings import BY_HOLD, NO, given, hold_at, lapsed, latest, latest_to, may_be_used, said_by, unsaid
from .verdicts import badness, does_not_apply

SOURCE = "Agreements entered in this book; place within 5 mm where none says otherwise: common practice, no source"
OWN_WORK = "It joins our own work; the fabric is not touched."
ONLY_FIXINGS = "Only its fixings touch the fabric; they are asked about by themselves."
LATER_WORK = "It touches later work, about which the keeper need not be asked."


def of_fixing(asked: Asked, fixing: Item) -> Outcome:
    """Whether the keeper has agreed to a fixing, in the state it is in now."""
    if joins_ours(asked, fixing):
        return does_not_apply("consent", OWN_WORK)
    site = asked.site
    fitting = site.get(fixing.fitting)
    things = [fixing, *([fitting] if fitting else [])]
    assumed = (*ages.taken_at_its_word(site, fixing), *taken_as_deep(site, fixing))
    here = _of_fixing(asked, fixing, things)
    if here.verdict.word is not Word.REFUSED:
        here = min((here, *_behind(asked, fixing, things)), key=lambda one: badness(one.verdict))
    return here._replace(assumed=assumed)


def _behind(asked: Asked, fixing: Item, things: list[Item]) -> Iterator[Outcome]:
    """What it does on the other side of the wall, where it comes out there."""
    if (out := coming_out(asked, fixing, things)) is None:
        return
    if out.barred is not None:
        yield _outcome(Word.REFUSED, f"{out.barred.called} may not be used{said_by(out.barred)}.", out.barred)
    if out.rulings:
        yield _worst(asked, fixing, out.rulings)
    if out.lacking and (out.old or asked.need(asked.site.item, "asks_about_later_work")):
        fabric = "old fabric" if out.old else "later work, about which the keeper is asked,"
        where = f"It comes out on {out.face.called}, where nobody has agreed to {joined(out.lacking)}"
        yield _outcome(Word.NOT_AGREED, f"{where}; it is {fabric} there. Ask the keeper.", None)


def _of_fixing(asked: Asked, fixing: Item, things: list[Item]) -> Outcome:
    acts = acts_of(asked, fixing)
    rulings, lacking = _for_each(asked, things, acts)
    if no := next((one for one, _ in rulings.values() if one.answer == NO), None):
        return _judged(asked, no, fixing, acts)
    hold = asked.site.get(fixing.hold)
    for used in (hold, hold_at(asked.site, asked.site[fixing.face], place_of(fixing))):  # entered as used or not
        if used is not None and used.may_be_used == "no":
            return _outcome(Word.REFUSED, f"{used.called} may not be used{said_by(used)}.", used)
    if (hole := latest_to(asked, things, "drilling")) is not None and hole.answer == NO:
        need_depth(asked, fixing)
    if BY_HOLD & lacking and hold is not None and may_be_used(hold, asked.today):
        need_depth(asked, fixing)
        return _by_hold(asked, things, rulings, lacking - BY_HOLD, hold)
    return _by_acts(asked, things, rulings, lacking)


def _by_hold(asked: Asked, things: list[Item], rulings: Rulings, lacking: set[str], hold: Item) -> Outcome:
    """What a yes to an existing hold, and agreements about what it does besides, come to."""
    may = f"{hold.called} may be used again{said_by(hold)}"
    if lacking:
        return _outcome(Word.NOT_AGREED, f"{may}, without {joined(sorted(lacking))}. Ask.", hold)
    return _worst(asked, things[0], rulings, _outcome(Word.AGREED, f"{may}.", hold))


def _by_acts(asked: Asked, things: list[Item], rulings: Rulings, lacking: set[str]) -> Outcome:
    """What agreements about a thing or its place, each to some of what it does, come to."""
    if not lacking:
        return _worst(asked, things[0], rulings)
    named = [one for thing in things for one in asked.site.rulings_on(thing) if one.answer != NO]
    if (some := latest(named, asked.today)) is not None:  # which says yes to other work on it
        return _judged(asked, some, things[0], lacking)
    return _unasked(asked, things[0], sorted(lacking))


def _for_each(asked: Asked, things: list[Item], acts: set[str]) -> tuple[Rulings, set[str]]:
    """Which agreements rule these acts of a thing, by their ids, each with its acts; and of which acts none is."""
    rulings: Rulings = {}
    lacking = set()
    for act in sorted(acts):
        if (ruling := latest_to(asked, things, act)) is None:
            lacking.add(act)
        else:
            rulings.setdefault(ruling.id, (ruling, set()))[1].add(act)
    return rulings, lacking


def _worst(asked: Asked, thing: Item, rulings: Rulings, *others: Outcome) -> Outcome:
    """The worst of what agreements come to, each for its acts; where all are agreed, all of them are told."""
    found = [*others, *(_judged(asked, ruling, thing, acts) for ruling, acts in rulings.values())]
    worst = min(found, key=lambda one: badness(one.verdict))
    if worst.verdict.word is not Word.AGREED:
        return worst
    told = " ".join(one.verdict.sentence for one in found)
    return worst._replace(verdict=replace(worst.verdict, sentence=told))


def of_fitting(asked: Asked, fitting: Item) -> Outcome:
    """Whether the keeper has agreed that a fitting itself bears on the face, or lights or warms it."""
    bears, gives = {"contact", "load"}, given_off(fitting)
    if no := _refusing(asked, fitting, bears | gives, named=True):
        return _judged(asked, no, fitting, bears)
    if _refusing(asked, fitting, GIVEN):
        asked.need(fitting, "gives")
    touches = asked.need(fitting, "touches_face")
    if no := _refusing(asked, fitting, bears | gives if touches else gives):
        return _judged(asked, no, fitting, bears)
    if not touches:
        return does_not_apply("consent", ONLY_FIXINGS)
    rulings, lacking = _for_each(asked, [fitting], borne_by(fitting))
    if any(one.acts for one, _ in rulings.values()):
        asked.need(fitting, "gives")  # a yes may be to acts alone; what it gives off is one
    return _by_acts(asked, [fitting], rulings, lacking)


def _refusing(asked: Asked, fitting: Item, acts: Iterable[str], *, named: bool = False) -> Item | None:
    """The no that rules one of these acts of a fitting; `named`: one that names it, not the place alone."""
    ruling = (latest_to(asked, [fitting], act) for act in sorted(acts))
    no = (one for one in ruling if one is not None and one.answer == NO)
    return next((one for one in no if not named or fitting.id in (one.items or ())), None)


def _surface_is_old(asked: Asked, fitting: Item) -> bool:
    """Whether a fitting lies on old fabric: on boards of the surface, or on the face, unless entered as later work."""
    face, part = asked.site[fitting.face], fitting_stretch(fitting)
    if not face.layers or face.layers[0][2] != "later":
        return True
    boards = [one for one in asked.site.of(face, "member") if one.behind_mm == 0 and member_stretch(one).meets(part)]
    return any(asked.need(one, "age") == ages.OLD for one in boards)


def reference(site: Site, fixing: Item, found: Word | None, today: date) -> str:
    """The reference of the agreement that rules a fixing, with what it comes to where that is no yes; "" for none.

    found  the word of the fixing's finding; None where it is not asked any more
    """
    fitting, asked = site.get(fixing.fitting), Asked(site, today, NOTHING_TAKEN)
    ruling = latest_to(asked, [fixing, *([fitting] if fitting else [])], "contact")
    if ruling is None:
        return ""
    no_yes = "no" if ruling.answer == NO else str(found) if found in (Word.NOT_AGREED, Word.NOT_KNOWN) else ""
    return f"{ruling.reference} ({no_yes})" if no_yes else ruling.reference


def in_words(findings: Iterable[Finding]) -> str:
    """How many things the keeper has agreed to, and which not: a sentence or two; "" where nothing was asked."""
    by_word: dict[Word, list[str]] = defaultdict(list)
    for one in findings:
        if one.question == "consent":
            by_word[one.word].append(one.subject.called)
    said = [f"Agreed with the keeper: {len(by_word[Word.AGREED])}."] if by_word else []
    for word, words in ((Word.REFUSED, "Refused"), (Word.NOT_AGREED, "Not agreed"), (Word.NOT_KNOWN, "Not known")):
        if by_word[word]:
            said.append(f"{words}: {marks(by_word[word])}.")
    return " ".join(said)


def _judged(asked: Asked, ruling: Item, thing: Item, acts: set[str]) -> Outcome:
    """What an agreement that is about a thing comes to for it today; `acts`: what of all it does is held to it."""
    by = given(ruling)
    if ruling.answer == NO:
        return _outcome(Word.REFUSED, f"No: {by}. {ruling.words}", ruling)
    if why := lapsed(ruling, asked.today):
        return _outcome(Word.NOT_AGREED, f"{by}{why} Ask again.", ruling)
    if changed := "; ".join(changes(asked, ruling, thing, acts)):
        return _outcome(Word.NOT_AGREED, f"It has changed since {by}: {changed}. Ask again.", ruling)
    if why := unsaid(ruling):
        verdict = not_known("consent", ("conditions_met",), f"{by}{why}", SOURCE)
        return Outcome(verdict, ruling, missing=(Blank(ruling, "conditions_met"),))
    conditions = f" On condition: {ruling.conditions.rstrip('.')}; met." if ruling.conditions else ""
    until = f" Until {day(ruling.until)}." if ruling.until else ""
    return _outcome(Word.AGREED, f"Agreed: {by}.{conditions}{until}", ruling)


def _unasked(asked: Asked, thing: Item, lacking: list[str]) -> Outcome:
    """Nobody was asked: old fabric is not agreed, later work only where the keeper wants to be asked.

    lacking  the acts of which no agreement is
    """
    why, old = "", _surface_is_old(asked, thing) if thing.kind == "fitting" else thing.fabric == "old fabric"
    if thing.kind == "fixing" and ages.said_later_yet_old(asked, thing):
        why = f"It is said to go into later work, where {asked.site[thing.face].called} is old. "
    if not (why or old) and not asked.need(asked.site.item, "asks_about_later_work"):
        return does_not_apply("consent", LATER_WORK)
    fabric = "old fabric" if why or old else "later work, about which the keeper is asked"
    noted = f" “{thing.values['consent']}” stands with it as free text, which no one signed." if _noted(thing) else ""
    sentence = f"{why}Nobody has agreed to {joined(lacking)}; it is {fabric}. Ask the keeper.{noted}"
    return _outcome(Word.NOT_AGREED, sentence, None)


def _noted(thing: Item) -> bool:
    return bool(thing.values.get("consent"))


def _outcome(word: Word, sentence: str, against: Item | None) -> Outcome:
    return Outcome(Verdict("consent", word, None, None, None, "", sentence, SOURCE), against)


_RULING = {
    "agreement.answer": NEITHER,
    "agreement.on": NEITHER,
    "agreement.until": LESS,
    "agreement.said_by": NEITHER,
    "agreement.words": NEITHER,
    "agreement.conditions": NEITHER,
    "agreement.conditions_met": MORE,
    "agreement.acts": NEITHER,
    "agreement.outline": NEITHER,
    "agreement.play_mm": LESS,
    "agreement.depth_mm": NEITHER,
    "agreement.holes": NEITHER,
    "fitting.mass_loaded_kg": MORE,
    "fitting.support": NEITHER,
    "fitting.hangs_on": NEITHER,
    "fitting.state": NEITHER,
    "fixing.other_fitting": NEITHER,
    "fixing.state": NEITHER,
    "fixing.carries_load": NEITHER,
    "site.asks_about_later_work": MORE,
    "fixing.contact_radius_mm": NEITHER,
    "face.layers": NEITHER,
}

QUESTIONS = (
    Question(
        "consent",
        "fixing",
        "Has the keeper agreed to it as it is now?",
        of_fixing,
        behind.READS
        | _RULING
        | {
            "agreement.depth_mm": LESS,
            "agreement.holes": LESS,
            "agreement.trace": LESS,
            "fixing.fabric": NEITHER,
            "fixing.hole": NEITHER,
            "fixing.sort": NEITHER,
            "fixing.lining": NEITHER,
            "fixing.adhesive": NEITHER,
            "hold.depth_mm": NEITHER,
            "fixing.penetration_mm": MORE,
            "fixing.trace": MORE,
            "fixing.consent": NEITHER,
            "fixing.x_mm": NEITHER,
            "fixing.z_mm": NEITHER,
            "fixing.fitted_x_mm": NEITHER,
            "fixing.fitted_z_mm": NEITHER,
            "hold.may_be_used": NEITHER,
            "hold.said_by": NEITHER,
            "hold.said_on": NEITHER,
            "hold.x_mm": NEITHER,
            "hold.z_mm": NEITHER,
            "hold.diameter_mm": MORE,
        },
    ),
    Question(
        "consent",
        "fitting",
        "Has the keeper agreed that it bears on the face?",
        of_fitting,
        _RULING
        | {
            "fitting.touches_face": NEITHER,
            "fitting.gives": NEITHER,
            "member.age": NEITHER,
            "member.behind_mm": NEITHER,
            "member.x_mm": NEITHER,
            "member.z_mm": NEITHER,
            "member.width_mm": NEITHER,
            "member.height_mm": NEITHER,
            "fitting.x_mm": NEITHER,
            "fitting.z_mm": NEITHER,
            "fitting.width_mm": NEITHER,
            "fitting.height_mm": NEITHER,
        },
    ),
)
