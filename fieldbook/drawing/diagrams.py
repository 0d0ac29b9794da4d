"""Diagrams of what a site holds: a fitting's load path, a room's humidity and light over time."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from datetime import UTC, date, datetime, timedelta

from ..book.site import Item, Site
from ..book.wording import figure, marks
from ..checks.humidity_record import DAY_S, Day
from ..checks.limits import rounded_up
from ..checks.verdict import Word
from ..errors import FieldbookError
from ..findings import Finding, about, logs, readings, worst
from ..findings.asking import Asked, NotEntered
from ..findings.fixing_loads import Share
from ..findings.fixing_loads import shares as shares_of
from ..findings.load_paths import Weight, people_pull_n, weights
from . import drafting as d
from .climate_plot import HEIGHT_MM, WIDTH_MM, Area, Bound, Series, climate_plot
from .load_path import WIDTH_MM as PATH_WIDTH_MM
from .load_path import Carrier, Level, load_path

LOAD_QUESTIONS = {"pull", "shear", "together", "spacing", "slip", "pressure", "carrier", "tightening"}
STEP_N = 1.0  # forces are shown rounded up to it
MOST_FIXINGS = 24  # in one diagram
WHOLE, NEVER = timedelta(days=1.5), timedelta(seconds=-1)  # values further apart than this are not joined
SHORT_LETTERS = 18  # of a logger's name, beside its line


def load_path_of(
    site: Site, fitting: Item, findings: Iterable[Finding], today: date, *, paper_width_mm: float = PATH_WIDTH_MM
) -> d.Drawn | None:
    """From what weighs on a fitting's fixings down to the fabric; None where something for it is not entered."""
    # Where nobody said whether people can lean on it, the figures are without them.
    nobody = {(one.id, "climbable"): 0 for one in site.all("fitting")}
    asked = Asked(site, today, nobody)
    try:
        parts, shares = weights(asked, fitting), list(shares_of(asked, fitting).values())
        pull = sum(people_pull_n(asked, part.part) for part in parts)
    except (FieldbookError, NotEntered):
        return None
    if not shares:
        return None
    of_loads = [finding for finding in findings if finding.question in LOAD_QUESTIONS]
    pulled = f", {_force(pull)} by people" if pull else ""
    mass = figure(round(sum(part.mass_kg for part in parts), 3), "kg")
    masses = [Carrier(one.part.title, _where(one)) for one in parts]
    return load_path(
        f"Load path of {fitting.called}",
        [
            Level(f"What weighs, {mass} in all", masses, f"{_force(sum(one.force_n for one in parts))} down{pulled}"),
            Level(f"Fixings of {fitting.called}", list(_fixings(shares, of_loads)), _hardest(shares)),
            Level("What carries it", list(_fabric(site, [share.fixing for share in shares]))),
        ],
        paper_width_mm=paper_width_mm,
    )


def _where(weight: Weight) -> str:
    return f"{figure(weight.mass_kg, 'kg')}, {figure(rounded_up(weight.at_mm[2], 1), 'mm')} out"


def _fixings(shares: Sequence[Share], findings: Sequence[Finding]) -> Iterator[Carrier]:
    """The fixings with what each carries, those of one sort and word together; where many, those that carry most."""
    shown = shares if len(shares) <= MOST_FIXINGS else sorted(shares, key=_along, reverse=True)[:MOST_FIXINGS]
    alike: dict[tuple[str, Word | None], list[Share]] = defaultdict(list)
    for share in shown:
        alike[share.fixing.sort, worst(about(findings, share.fixing))].append(share)
    for (sort, word), group in alike.items():
        figures = f"{_forces([one.whole_shear_n for one in group])} shear, "
        figures += f"{_forces([one.whole_pull_n for one in group])} pull"
        yield Carrier(f"{marks([one.fixing.called for one in group])} {sort}", figures, word)
    if len(shares) > len(shown):
        yield Carrier(f"and {len(shares) - len(shown)} more, none of which carries more than these")


def _forces(newtons: Sequence[float]) -> str:
    """Forces in their order: 30, 28, 29 N; once, where all are the same."""
    told = [figure(rounded_up(each, STEP_N)) for each in newtons]
    return figure(rounded_up(newtons[0], STEP_N), "N") if len(set(told)) == 1 else f"{', '.join(told)} N"


def _along(share: Share) -> float:
    return share.force_n


def _hardest(shares: Sequence[Share]) -> str:
    """The greatest of each force on any one fixing, which the fabric has to bear there."""
    shear, pull = max(share.whole_shear_n for share in shares), max(share.whole_pull_n for share in shares)
    return f"at most {_force(shear)} along, {_force(pull)} out"


def _fabric(site: Site, fixings: Sequence[Item]) -> Iterator[Carrier]:
    """What the fixings go into, each once with the fixings that do, and the existing holds they use."""
    groups: dict[str, list[str]] = defaultdict(list)
    for fixing in fixings:
        groups[f"{fixing.fabric}{f': {fixing.into}' if fixing.into else ''}"].append(fixing.called)
    for words, names in groups.items():
        yield Carrier(f"{words} ({marks(names)})")
    held: dict[tuple[str, str], dict[str, list[str]]] = defaultdict(lambda: defaultdict(list))
    for fixing in fixings:
        for carrier in (fixing.hold, fixing.member):
            if carrier in site:
                held[_sort_and_limit(site[carrier])][site[carrier].called].append(fixing.called)
    for (sort, agreed), users in held.items():
        used = marks(list(dict.fromkeys(name for names in users.values() for name in names)))
        yield Carrier(f"{sort} {marks(list(users))}, for {used}", f"{agreed} each" if len(users) > 1 else agreed)


def _sort_and_limit(carrier: Item) -> tuple[str, str]:
    limit = carrier.load_limit_n
    agreed = "no load agreed" if limit is None else f"{figure(limit, 'N')} agreed"
    return "hold" if carrier.kind == "hold" else carrier.sort, agreed


def _force(newtons: float) -> str:
    return figure(rounded_up(newtons, STEP_N), "N")


def humidity_of(
    site: Site, room: Item, *, paper_width_mm: float = WIDTH_MM, paper_height_mm: float = HEIGHT_MM
) -> d.Drawn | None:
    """A room's relative humidity over time, from readings and loggers, with band and limits; None without any.

    Of a logger the days are shown, mean, least and greatest, and the band of its own past where it is long enough.
    """
    logged = [(log, days) for log in site.of(room, "log") if (days := _days(site, log))]
    apart = NEVER if logged else None  # beside a logger's line they are points
    series = list(_readings(site, room, "relative humidity", apart))
    for log, days in logged:
        series += _logged(site, log, days, "daily mean" if len(logged) == 1 else _short(log.called))
    if not series:
        return None
    bounds = [
        Bound(value, above)
        for value, above in ((room.humidity_low_pct, False), (room.humidity_high_pct, True))
        if value is not None
    ]
    areas = [_range(days) for _, days in logged[:1]]  # of several, the ranges would hide each other
    title = f"Relative humidity in {room.called}"
    return climate_plot(
        title, "%", series, bounds, areas, paper_width_mm=paper_width_mm, paper_height_mm=paper_height_mm
    )


def light_of(
    site: Site, room: Item, *, paper_width_mm: float = WIDTH_MM, paper_height_mm: float = HEIGHT_MM
) -> d.Drawn | None:
    """A room's illuminance over time with its limit; None without readings. Taken here and there, they are points."""
    series = list(_readings(site, room, "illuminance", NEVER))
    bounds = [] if room.light_limit_lx is None else [Bound(room.light_limit_lx, True)]
    title = f"Light in {room.called}"
    if not series:
        return None
    return climate_plot(title, "lx", series, bounds, paper_width_mm=paper_width_mm, paper_height_mm=paper_height_mm)


def _readings(site: Site, room: Item, quantity: str, whole: timedelta | None) -> Iterator[Series]:
    values = [(datetime.fromisoformat(one.at), one.value) for one in readings.items(site, room, quantity)]
    if values:
        yield Series("readings", values, whole)


def _days(site: Site, log: Item) -> Sequence[Day]:
    """A logger's days; none of one that is not here or cannot be read, which its finding says."""
    try:
        return logs.days(site, log)
    except FieldbookError:
        return ()


def _short(name: str) -> str:
    return name if len(name) <= SHORT_LETTERS else f"{name[: SHORT_LETTERS - 1].rstrip()}…"


def _logged(site: Site, log: Item, days: Sequence[Day], name: str) -> Iterator[Series]:
    noon = [(_moment(day.start_s + DAY_S / 2), day.mean_pct) for day in days]
    yield Series(name, noon, WHOLE, d.CONTINUOUS)
    try:
        band = logs.levels(site, log)
    except FieldbookError:  # too short a record, which its verdict says
        return
    edges = (("seasonal level", 1, d.DASHED), ("", 2, d.LONG_DASHED_DOTTED), ("band", 3, d.LONG_DASHED_DOTTED))
    for name, place, line in edges:
        yield Series(name, [(_moment(day[0]), day[place]) for day in band], WHOLE, line)


def logger_plot(name: str, days: Sequence[Day]) -> d.Drawn:
    """What a logger's file says of each day, before it is in the book: mean, least and greatest."""
    noon = [(_moment(day.start_s + DAY_S / 2), day.mean_pct) for day in days]
    return climate_plot(f"Relative humidity, {name}", "%", [Series("daily mean", noon, WHOLE)], (), [_range(days)])


def _range(days: Sequence[Day]) -> Area:
    spans = [(_moment(day.start_s + DAY_S / 2), day.lowest_pct, day.highest_pct) for day in days]
    return Area("daily range", spans, WHOLE)


def _moment(seconds: float) -> datetime:
    """By the logger's own clock, which is taken for universal time: a day's plot is not wrong by more than that."""
    return datetime.fromtimestamp(seconds, UTC)
