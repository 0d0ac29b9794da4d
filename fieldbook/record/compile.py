"""One call gathers a site into one plain structure; every output is a rendering of it.

Nothing is reckoned or looked up later: what one output says, no other can contradict.
"""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from typing import Any

from .. import __version__, gather
from ..book import Book
from ..checks.cautions import CAUTIONS
from ..gather import Item, Site
from ..kinds import KINDS, STATES, TRACES
from ..verdicts import Finding, appraise, counts
from . import hazards, swatch
from .answers import answers
from .contents import (
    CautionNote,
    FaceSheet,
    FinishCard,
    FittingSheet,
    Make,
    Money,
    ReadingSummary,
    Record,
    RoomSheet,
    Source,
    Takedown,
    TraceCount,
)
from .editions import changes_since, edition_due
from .elevation import elevation
from .gaps import gaps_of
from .glossary import glossary
from .removal import removal_of
from .room_plan import room_plan
from .wording import marks

FROM_MEMORY = "(from memory, not seen in a readable copy)"

UPRIGHT_MM, ACROSS_MM = (172.0, 208.0), (261.0, 150.0)
"""Room for a drawing on an upright page and on one turned, width and height, mm."""

BESIDE_MM, WORDS_MM = 60.0, 25.0
"""Height a photograph of the datum takes above a drawing, and that of the words it stands beside."""


def compile_record(book: Book, site_id: str, *, costs: bool = False, now: datetime | None = None) -> Record:
    """Everything the record of a site says, as the book stands.

    costs  whether money is shown
    now    date of a new edition, with offset; left out, this moment
    Raises UnknownItem and the errors of `storage`.
    """
    site = gather.gather(book, site_id)
    edition, previous = edition_due(book, site, now)
    findings = appraise(site)
    by_subject = _by_subject(findings)
    sheets = tuple(fitting_sheet(site, fitting, by_subject) for fitting in site.all("fitting"))
    photographs = _photographs(site, receipts=costs)
    items = [item for kind in KINDS for item in _all(site, kind)]
    titles = {item.id: item.title for item in items}
    return Record(
        edition=edition,
        previous=previous,
        program=__version__,
        site=site.item,
        fittings=_states(site.all("fitting")),
        fixings=_states(site.all("fixing")),
        traces=_traces(site.all("fixing")),
        consent=next((finding.verdict for finding in findings if finding.verdict.check == "trace"), None),
        answers=answers(findings, within=False),
        counts=counts(findings),
        cautions=_caution_notes(site, sheets),
        rooms=tuple(room_sheet(site, room, findings) for room in site.all("room")),
        sheets=sheets,
        finishes=tuple(_finish_card(site, finish) for finish in site.all("finish")),
        tasks=tuple(site.all("task")),
        removal=removal_of(site),
        agreements=tuple(site.all("agreement")),
        visits=tuple(sorted(site.all("visit"), key=lambda visit: visit.on)),
        costs=tuple(site.all("cost")) if costs else None,
        money=_money(site.all("cost")) if costs else (),
        changes=changes_since(book, site, previous, titles) if previous else (),
        gaps=gaps_of(site),
        sources=_sources(site, findings),
        materials=tuple(site.all("material")),
        glossary=glossary(),
        photographs=photographs,
        numbers=_numbers(site, photographs),
        titles=titles,
        called={item.id: item.called for item in items},
    )


def _all(site: Site, kind: str) -> list[Item]:
    return [site.item] if kind == "site" else site.all(kind)


def room_sheet(site: Site, room: Item, findings: Sequence[Finding]) -> RoomSheet:
    """One room with its faces, drawn."""
    return RoomSheet(
        room=room,
        plan=room_plan(site, room, findings) if room.plan else "",
        faces=tuple(face_sheet(site, face, findings) for face in site.of(room, "face")),
        readings=_readings(site, room),
        logs=tuple(site.of(room, "log")),
        observations=tuple(sorted(site.of(room, "observation"), key=lambda seen: seen.at)),
        answers=answers(finding for finding in findings if _room_of(site, finding.subject) == room),
        cautions=hazards.cautions_in(room),
    )


def _room_of(site: Site, item: Item) -> Item | None:
    """The room an item belongs to; None for fittings and fixings, which have sheets of their own, and for the site."""
    while item.kind not in {"room", "site", "fitting", "fixing"}:
        item = site.parent(item) or site.item
    return item if item.kind == "room" else None


def face_sheet(site: Site, face: Item, findings: Sequence[Finding]) -> FaceSheet:
    """One face, drawn on the paper upright, or across where that makes the drawing larger."""
    upright, across = (
        elevation(site, face, findings, paper_width_mm=width_mm, paper_height_mm=height_mm)
        for width_mm, height_mm in (UPRIGHT_MM, ACROSS_MM)
    )
    wide = _measure(across, "data-scale") < _measure(upright, "data-scale")
    drawing = across if wide else upright
    height_mm = (ACROSS_MM if wide else UPRIGHT_MM)[1]
    return FaceSheet(
        face=face,
        drawing=drawing,
        wide=wide,
        room_beside=_measure(drawing, "height") <= height_mm - BESIDE_MM + WORDS_MM,
        zones=tuple(site.of(face, "zone")),
        limits=tuple(site.of(face, "limit")),
        holds=tuple(site.of(face, "hold")),
        fittings=tuple(site.of(face, "fitting")),
    )


def _measure(drawing: str, name: str) -> float:
    """A figure a drawing says about itself: its height in mm, or 50 where its scale is 1:50."""
    found = re.search(rf' {name}="([\d.]+)', drawing)
    return float(found[1]) if found else 0.0


def _by_subject(findings: Iterable[Finding]) -> dict[str, list[Finding]]:
    grouped: dict[str, list[Finding]] = defaultdict(list)
    for finding in findings:
        grouped[finding.subject.id].append(finding)
    return grouped


def fitting_sheet(site: Site, fitting: Item, by_subject: Mapping[str, Sequence[Finding]]) -> FittingSheet:
    """One fitting with its fixings and what was found about them (item's id -> findings, worst first)."""
    fixings = site.of(fitting, "fixing")
    own = {fitting.id, *(fixing.id for fixing in fixings)}
    others = [other for other in site.all("fitting") if other.id != fitting.id]
    face = site[fitting.face]
    return FittingSheet(
        fitting=fitting,
        room=site[face.room],
        face=face,
        projection_mm=gather.projection_of(fitting),
        fixings=tuple(fixings),
        makes=_makes(fixings),
        takedowns=_takedowns(site, fixings),
        answers=answers(finding for item in [fitting, *fixings] for finding in by_subject.get(item.id, ())),
        cautions=hazards.cautions_for(site, fitting),
        engineer=hazards.engineer_decides(site, fitting),
        carries=tuple(other for other in others if other.hangs_on == fitting.id),
        covered_by=tuple(other for other in others if fitting.id in (other.covers or [])),
        finishes=tuple(filter(None, map(site.get, fitting.finishes or []))),
        tasks=tuple(task for task in site.all("task") if task.fitting == fitting.id),
        agreements=tuple(one for one in site.all("agreement") if own & set(one.items or [])),
        trace=max((fixing.trace for fixing in fixings), key=TRACES.index, default=None),
    )


# What is each fixing's own, or is told with how it comes off; in all else fixings may be alike.
_OWN = {"mark", "face", "state", "x_mm", "z_mm", "fitted_x_mm", "fitted_z_mm", "packers_mm", "hold", "fitted_on"}
_OWN |= {"fitted_by", "taken_down_on", "note", "removal_tool", "removal", "make_good", "trace", "agreement", "consent"}


def _makes(fixings: Iterable[Item]) -> tuple[Make, ...]:
    alike: dict[tuple[Any, ...], list[Item]] = defaultdict(list)
    for fixing in fixings:
        alike[tuple(fixing.values[name] for name in KINDS["fixing"].by_name if name not in _OWN)].append(fixing)
    return tuple(Make(marks([fixing.called for fixing in group]), group[0]) for group in alike.values())


def _takedowns(site: Site, fixings: Iterable[Item]) -> tuple[Takedown, ...]:
    alike: dict[tuple[str, ...], list[str]] = defaultdict(list)
    for fixing in fixings:
        consent = _consent(site, fixing)
        how = (fixing.removal_tool, fixing.removal, fixing.make_good, fixing.trace, consent)
        alike[tuple(text or "" for text in how)].append(fixing.called)
    return tuple(Takedown(marks(names), *how) for how, names in alike.items())


def _consent(site: Site, fixing: Item) -> str:
    """The agreement and the reference a fixing names; an agreement that said no is shown as such."""
    agreement = site.get(fixing.agreement)
    reference = f"{agreement.reference}{' (no)' if agreement.answer == 'no' else ''}" if agreement else ""
    return ", ".join(filter(None, (reference, fixing.consent)))


def _states(items: Iterable[Item]) -> dict[str, int]:
    found = Counter(item.state for item in items)
    return {state: found[state] for state in STATES}


def _traces(fixings: Sequence[Item]) -> tuple[TraceCount, ...]:
    told = []
    for left in TRACES:
        alike = [fixing for fixing in fixings if fixing.trace == left]
        told.append(TraceCount(left, _states(alike), tuple(fixing.called for fixing in alike)))
    return tuple(told)


def _readings(site: Site, room: Item) -> tuple[ReadingSummary, ...]:
    alike: dict[tuple[str, str, str], list[Item]] = defaultdict(list)
    for reading in site.of(room, "reading"):
        face = site.get(reading.face)
        alike[reading.quantity, reading.unit, face.called if face else ""].append(reading)
    return tuple(_reading_summary(*key, readings) for key, readings in sorted(alike.items()))


def _reading_summary(quantity: str, unit: str, where: str, readings: list[Item]) -> ReadingSummary:
    in_time = sorted(readings, key=lambda reading: datetime.fromisoformat(reading.at))
    values = [reading.value for reading in readings]
    instruments = tuple(dict.fromkeys(reading.instrument for reading in in_time if reading.instrument))
    span = (min(values), max(values), in_time[0], in_time[-1])
    return ReadingSummary(quantity, unit, where, len(readings), *span, instruments)


def _finish_card(site: Site, finish: Item) -> FinishCard:
    lab = (finish.lab_l, finish.lab_a, finish.lab_b)
    known = finish.lab_white and None not in lab
    used_on = tuple(fitting for fitting in site.all("fitting") if finish.id in (fitting.finishes or []))
    return FinishCard(finish, swatch.swatch(lab, finish.lab_white) if known else None, used_on)


def _caution_notes(site: Site, sheets: Sequence[FittingSheet]) -> tuple[CautionNote, ...]:
    notes = []
    for key, caution in CAUTIONS.items():
        about_fittings = [sheet.fitting.called for sheet in sheets if caution in sheet.cautions]
        about_rooms = [room.called for room in site.all("room") if caution in hazards.cautions_in(room)]
        if about_fittings or about_rooms:
            everywhere = bool(sheets) and len(about_fittings) == len(sheets)
            where = about_rooms + ([] if everywhere else about_fittings)
            notes.append(CautionNote(CAUTIONS[key], tuple(where), everywhere))
    return tuple(notes)


def _money(costs: Iterable[Item]) -> tuple[Money, ...]:
    sums: dict[str, Counter[str]] = defaultdict(Counter)
    for cost in costs:
        sums[cost.currency][cost.state] += cost.amount
    return tuple(Money(currency, states["expected"], states["paid"]) for currency, states in sorted(sums.items()))


def _sources(site: Site, findings: Iterable[Finding]) -> tuple[Source, ...]:
    methods = {finding.verdict.source: finding.verdict.check for finding in findings}
    sources = [(f"Check “{check}”", words) for words, check in sorted(methods.items(), key=lambda pair: pair[1])]
    if site.all("face"):
        sources.append(("Drawings", f"line types: ISO 128-2; dimensions: ISO 129-1; lettering: ISO 3098 {FROM_MEMORY}"))
    if site.all("observation"):
        sources.append(("Classes of condition, urgency and recommendation", f"EN 16096 {FROM_MEMORY}"))
    if site.all("finish"):
        sources.append(("Printed swatches", swatch.SOURCE))
    sources.append(("Cautions", "common practice, no source; smallest lifting figure: HSE INDG143 (rev4), figure 1"))
    return tuple(Source(number, what, words) for number, (what, words) in enumerate(sources, 1))


_STANDS_WITH = {"fixing": "fitting", "zone": "face", "limit": "face", "hold": "face"}
_SHEETS = {"site", "room", "face", "fitting", "finish"}


def _photographs(site: Site, *, receipts: bool) -> dict[str, tuple[Item, ...]]:
    """The photographs by the sheet they stand on; each once."""
    homes: dict[str, list[Item]] = defaultdict(list)
    for photograph in site.all("photograph"):
        if receipts or not _is_receipt(site, photograph):
            homes[_home(site, photograph)].append(photograph)
    return {home: tuple(sorted(kept, key=lambda one: (one.taken_at or "", one.id))) for home, kept in homes.items()}


def _is_receipt(site: Site, photograph: Item) -> bool:
    subject = site.get(photograph.subject)
    return photograph.purpose == "receipt" or bool(subject and subject.kind == "cost")


def _home(site: Site, photograph: Item) -> str:
    subject = site.get(photograph.subject)
    if subject is None:
        return ""
    if subject.kind in _STANDS_WITH:
        return subject.values[_STANDS_WITH[subject.kind]]
    if subject.kind in {"reading", "observation"}:
        return subject.face or subject.room
    return subject.id if subject.kind in _SHEETS else ""


def _numbers(site: Site, photographs: dict[str, tuple[Item, ...]]) -> dict[str, int]:
    """Photographs numbered in the order the record shows them."""
    rooms = [home for room in site.all("room") for home in [room.id, *(face.id for face in site.of(room, "face"))]]
    rest = [item.id for kind in ("fitting", "finish") for item in site.all(kind)]
    homes = [site.item.id, *rooms, *rest, ""]
    shown = [photograph.id for home in homes for photograph in photographs.get(home, ())]
    return {photograph: number for number, photograph in enumerate(shown, 1)}
