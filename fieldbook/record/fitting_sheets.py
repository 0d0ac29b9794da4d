"""A fitting as the record shows it: its fixings, how they are made and come off, and what was found about them."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from typing import Any

from ..book.site import Item, Site
from ..book.wording import marks
from ..checks.limits import rounded_up
from ..checks.verdict import Word
from ..drawing.detail import detail, detail_scale
from ..drawing.diagrams import load_path_of
from ..findings import Finding, consent, hazards
from ..findings.change import drifts
from ..findings.reach import reach_of
from ..model.choices import TRACES
from ..model.kinds import KINDS
from .answers import answers, in_common
from .coming_off import Takedown, coming_off
from .contents import FittingSheet, Make
from .removal import RemovalStep

BESIDE_MM, WHOLE_MM, LOW_MM = (84.0, 92.0), (172.0, 100.0), (172.0, 70.0)
"""Room for the drawing of one fitting, width and height, mm: beside its photograph, or over the whole page."""

SMALLEST_BESIDE = 50
"""A drawing that would be smaller than 1:50 beside the photograph gets the whole width."""

LARGER = 2
"""So does one that is so many times as large there and yet low, as a rail's is."""


def fitting_sheet(
    site: Site, fitting: Item, by_subject: Mapping[str, Sequence[Finding]], step: RemovalStep | None, today: date
) -> FittingSheet:
    """One fitting with its fixings and what was found about them.

    by_subject  item's id -> findings, worst first
    step        when it comes down; None where there is no order, or it is down already
    today       the day it is told of: its edition's
    """
    fixings = site.of(fitting, "fixing")
    own = {fitting.id, *(fixing.id for fixing in fixings)}
    own_findings = [finding for item in [fitting, *fixings] for finding in by_subject.get(item.id, ())]
    others = [other for other in site.all("fitting") if other.id != fitting.id and other.stands]
    face = site[fitting.face]
    takedowns = _takedowns(site, fixings, by_subject, today)
    beside = detail_scale(site, fitting, *BESIDE_MM)
    low = detail_scale(site, fitting, *LOW_MM) * LARGER <= beside
    wide = low or beside > SMALLEST_BESIDE
    paper_mm = LOW_MM if low else WHOLE_MM if wide else BESIDE_MM
    return FittingSheet(
        fitting=fitting,
        room=site[face.room],
        face=face,
        wide=wide,
        detail=detail(site, fitting, own_findings, paper_width_mm=paper_mm[0], paper_height_mm=paper_mm[1]),
        load_path=load_path_of(site, fitting, own_findings, today, paper_width_mm=BESIDE_MM[0]) or "",
        projection_mm=None if math.isinf(out := reach_of(site, fitting).high) else rounded_up(out),
        fixings=tuple(fixings),
        makes=_makes(fixings),
        takedowns=takedowns,
        off=coming_off(fitting, takedowns, step),
        answers=answers(one for one in own_findings if not in_common(one)),
        open_answers=answers(own_findings, within=False),
        cautions=hazards.cautions_for(site, fitting),
        engineer=hazards.engineer_decides(site, fitting),
        carries=tuple(other for other in others if other.hangs_on == fitting.id),
        covered_by=tuple(other for other in others if fitting.id in (other.covers or [])),
        finishes=tuple(filter(None, map(site.get, fitting.finishes or []))),
        tasks=tuple(task for task in site.all("task") if task.fitting == fitting.id),
        agreements=tuple(one for one in site.all("agreement") if own & set(one.items or [])),
        observations=tuple(seen for seen in site.all("observation") if seen.fitting == fitting.id),
        drifts=tuple(
            f"{', '.join(filter(None, at))}: {change.words if fitting.stands else change.words_then}"
            for at, change in drifts(site, fitting).items()
        ),
        trace=max((fixing.trace for fixing in fixings), key=TRACES.index, default=None),
    )


def _makes(fixings: Iterable[Item]) -> tuple[Make, ...]:
    alike: dict[tuple[Any, ...], list[Item]] = defaultdict(list)
    made = [field.name for field in KINDS["fixing"].fields if not field.separate]
    for fixing in fixings:
        alike[tuple(fixing.values[name] for name in made)].append(fixing)
    return tuple(Make(marks([fixing.called for fixing in group]), group[0], tuple(group)) for group in alike.values())


def _takedowns(
    site: Site, fixings: Iterable[Item], by_subject: Mapping[str, Sequence[Finding]], today: date
) -> tuple[Takedown, ...]:
    alike: dict[tuple[bool, tuple[str, ...]], list[str]] = defaultdict(list)
    for fixing in fixings:
        words = [one.word for one in by_subject.get(fixing.id, ()) if one.question == "consent"]
        agreed = _consent(site, fixing, next(iter(words), None), today)
        found = ": ".join(filter(None, (fixing.trace_found, fixing.trace_words))).rstrip(".")
        how = (fixing.removal_tool, fixing.removal, fixing.make_good, fixing.trace, agreed, found)
        alike[not fixing.stands, tuple(text or "" for text in how)].append(fixing.called)
    return tuple(Takedown(marks(names), down, *how) for (down, how), names in alike.items())


def _consent(site: Site, fixing: Item, found: Word | None, today: date) -> str:
    """The agreement that rules a fixing, and what older books have as free text."""
    noted = f"“{fixing.consent}” (not an agreement)" if fixing.consent else ""
    return ", ".join(filter(None, (consent.reference(site, fixing, found, today), noted)))
