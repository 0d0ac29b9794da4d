"""One call gathers a site into one plain structure; every output is a rendering of it.

Nothing is reckoned or looked up later: what one output says, no other can contradict.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from datetime import date, datetime
from typing import Any

from .. import __version__
from ..book.book import Book
from ..book.gathering import gather
from ..book.site import Item, Site
from ..book.wording import marks
from ..checks.cautions import CAUTIONS
from ..drawing import swatch
from ..drawing.key import key, met
from ..drawing.key_plan import key_plan
from ..findings import Finding, appraise, consent, counts, hazards, rulings
from ..findings.change import faded
from ..model.choices import STATES, TRACES_FOUND
from ..model.kinds import KINDS
from .album import album, numbered, pointers
from .answers import answers, answers_in_common, in_common
from .care import care_of
from .contents import CautionNote, FinishCard, FittingSheet, Money, Record, Source, TraceCount
from .editions import becomes_edition, changes_since, edition_due
from .first_pages import first_off, may_carry, open_matters
from .fitting_sheets import fitting_sheet
from .gaps import gaps_of
from .glossary import glossary
from .papers import citing, resting
from .removal import removal_of
from .room_sheets import room_of, room_sheet
from .touched import touched

PAGE_MM = 172.0
"""Width of what is printed on an upright page."""

KEY_PLAN_MM = 110.0
"""Height there is for the plan of all rooms, before the first of them."""

FROM_MEMORY = "(from memory, not seen in a readable copy)"


def compile_record(book: Book, site_id: str, *, costs: bool = False, now: datetime | None = None) -> Record:
    """Everything the record of a site says, as the book stands.

    costs  whether money is shown
    now    date of a new edition, with offset; left out, this moment
    Raises UnknownItem and the errors of `storage`.
    """
    site = gather(book, site_id)
    edition, previous = edition_due(book, site, now)
    findings = appraise(site, edition.day)
    by_subject = _by_subject(findings)
    removal = removal_of(site)
    steps = {step.fitting.id: step for step in removal.steps}
    sheets = tuple(fitting_sheet(site, one, by_subject, steps.get(one.id), edition.day) for one in site.all("fitting"))
    items = [item for kind in KINDS for item in _all(site, kind)]
    titles = {item.id: item.title for item in items}
    return Record(
        edition=edition,
        is_issued=becomes_edition(book, edition),
        newer=(*book.newer, *(f"left out: {KINDS[kind].title(values)}" for kind, values in _left_out(book))),
        previous=previous,
        program=__version__,
        site=site.item,
        fittings=_states(site.all("fitting")),
        fixings=_states(site.all("fixing")),
        traces=_traces(site.all("fixing")),
        may_carry=may_carry(site, edition.day),
        first_off=first_off(removal),
        care=care_of(site, edition.day),
        touched=touched(site),
        **_found(site, findings),
        cautions=_caution_notes(site, sheets),
        rooms=tuple(room_sheet(site, room, findings) for room in site.all("room")),
        sheets=sheets,
        finishes=tuple(_finish_card(site, finish) for finish in site.all("finish")),
        tasks=tuple(site.all("task")),
        removal=removal,
        **_settled(site, findings, edition.day),
        visits=tuple(sorted(site.all("visit"), key=lambda visit: visit.on)),
        works=tuple(sorted(site.all("work"), key=lambda work: work.on)),
        statements=tuple(site.all("statement")),
        costs=tuple(site.all("cost")) if costs else None,
        money=_money(site.all("cost")) if costs else (),
        changes=changes_since(book, site, previous, titles) if previous else (),
        gaps=gaps_of(site),
        sources=_sources(site, findings),
        key=key(met(site, findings), paper_width_mm=PAGE_MM),
        key_plan=_key_plan(site),
        materials=tuple(site.all("material")),
        build_ups=tuple(site.all("build_up")),
        glossary=glossary({item.kind for item in items}),
        **_pictured(site, costs=costs),
        titles=titles,
        called={item.id: item.called for item in items},
    )


def _key_plan(site: Site) -> str:
    """One room alone has its own plan, and needs no key to where it is."""
    if len(site.all("room")) < 2:
        return ""
    return key_plan(site, paper_width_mm=PAGE_MM, paper_height_mm=KEY_PLAN_MM) or ""


def _pictured(site: Site, *, costs: bool) -> dict[str, Any]:
    """The parts of a record that tell of its photographs."""
    photographs = album(site, receipts=costs)
    return {"photographs": photographs, "numbers": numbered(site, photographs), "pointers": pointers(site)}


def _found(site: Site, findings: Sequence[Finding]) -> dict[str, Any]:
    """The parts of a record that tell of all findings together."""
    in_sheets = {"fitting", "fixing"}
    elsewhere = [one for one in findings if one.subject.kind not in in_sheets and room_of(site, one.subject) is None]
    return {
        "consent": consent.in_words(findings),
        "open_matters": open_matters(site, findings),
        "site_answers": answers(one for one in elsewhere if not in_common(one)),
        "common_answers": answers_in_common(findings, {face.called for face in site.all("face")}),
        "counts": counts(findings),
    }


def _settled(site: Site, findings: Sequence[Finding], today: date) -> dict[str, Any]:
    """The parts of a record that tell what was agreed and decided, and by which documents."""
    documents = tuple(site.all("document"))
    return {
        "agreements": tuple(site.all("agreement")),
        "standing": {one.id: rulings.standing(one, today) for one in site.all("agreement")},
        "decisions": tuple(site.all("decision")),
        "documents": documents,
        "citing": {one.id: marks([by.called for by in citing(site, one)]) for one in documents},
        "resting": {one.id: resting(findings, one) for one in documents},
    }


def _left_out(book: Book) -> list[tuple[str, dict[str, Any]]]:
    """Kind and values of what only a newer version can reckon with."""
    return [book.item(item) for item in sorted(book.left_out())]


def _all(site: Site, kind: str) -> Sequence[Item]:
    return [site.item] if kind == "site" else site.all(kind)


def _by_subject(findings: Iterable[Finding]) -> dict[str, list[Finding]]:
    grouped: dict[str, list[Finding]] = defaultdict(list)
    for finding in findings:
        grouped[finding.subject.id].append(finding)
    return grouped


def _states(items: Iterable[Item]) -> dict[str, int]:
    found = Counter(item.state for item in items)
    return {state: found[state] for state in STATES}


def _traces(fixings: Sequence[Item]) -> tuple[TraceCount, ...]:
    told = []
    for left in TRACES_FOUND:
        alike = [fixing for fixing in fixings if _leaves(fixing) == left]
        told.append(TraceCount(left, _states(alike), tuple(fixing.called for fixing in alike)))
    return tuple(told)


def _leaves(fixing: Item) -> str:
    """What a fixing leaves as it was expected or, of one that is gone, as it was found."""
    return (not fixing.stands and fixing.trace_found) or fixing.trace


def _finish_card(site: Site, finish: Item) -> FinishCard:
    lab = (finish.lab_l, finish.lab_a, finish.lab_b)
    known = finish.lab_white and None not in lab
    used_on = tuple(one for one in site.all("fitting") if one.stands and finish.id in (one.finishes or []))
    again = sorted(site.of(finish, "colour"), key=lambda one: (one.on, one.id))
    became = tuple((one, faded(finish, one)) for one in again)
    return FinishCard(finish, swatch.swatch(lab, finish.lab_white) if known else None, used_on, became)


def _caution_notes(site: Site, sheets: Sequence[FittingSheet]) -> tuple[CautionNote, ...]:
    notes = []
    for caution in CAUTIONS.values():
        about_fittings = [sheet.fitting.called for sheet in sheets if caution in sheet.cautions]
        about_rooms = [room.called for room in site.all("room") if caution in hazards.cautions_in(room)]
        if about_fittings or about_rooms:
            everywhere = bool(sheets) and len(about_fittings) == len(sheets)
            where = about_rooms + ([] if everywhere else about_fittings)
            notes.append(CautionNote(caution, tuple(where), everywhere))
    return tuple(notes)


def _money(costs: Iterable[Item]) -> tuple[Money, ...]:
    sums: dict[str, Counter[str]] = defaultdict(Counter)
    for cost in costs:
        sums[cost.currency][cost.state] += cost.amount
    return tuple(Money(currency, states["expected"], states["paid"]) for currency, states in sorted(sums.items()))


def _sources(site: Site, findings: Iterable[Finding]) -> tuple[Source, ...]:
    methods = {one.verdict.source: one.verdict.check for one in findings if one.verdict.source}
    sources = [(f"Check “{check}”", words) for words, check in sorted(methods.items(), key=lambda pair: pair[1])]
    if site.all("face"):
        sources.append(("Drawings", f"line types: ISO 128-2; dimensions: ISO 129-1; lettering: ISO 3098 {FROM_MEMORY}"))
    if site.all("observation"):
        sources.append(("Classes of condition, urgency and recommendation", f"EN 16096 {FROM_MEMORY}"))
    if site.all("finish"):
        sources.append(("Printed swatches", swatch.SOURCE))
    sources.append(("Cautions", "common practice, no source; smallest lifting figure: HSE INDG143 (rev4), figure 1"))
    return tuple(Source(number, what, words) for number, (what, words) in enumerate(sources, 1))
