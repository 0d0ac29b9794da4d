"""The answer of a calculation as a page shows it: figures with units, verdicts, tables, notes.

It knows no calculation: the names of an answer's keys tell their units, the shape of a value how it is shown.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from ...book.wording import figure
from ...checks.verdict import Verdict
from ...model.typed import NO, YES

DIGITS = 6  # shown of a figure; the command gives them all
UNITS = (
    ("_n_mm2", "N/mm²"), ("_nmm", "N·mm"), ("_mm2", "mm²"), ("_v", "V"),
    ("_g_m3", "g/m³"), ("_lux_h", "lx·h"), ("_lux", "lx"), ("_mm", "mm"), ("_kg", "kg"),
    ("_n", "N"), ("_pct", "%"), ("_c", "°C"), ("_deg", "°"), ("_h", "h"),
)  # fmt: skip
LABELS = {
    "delta_e00": "Colour difference ΔE₀₀",
    "every_h": "Time between readings",
    "from": "First reading",
    "to": "Last reading",
    "years_to_noticeable_fade": "Years to a noticeable fade",
    "from_pct": "Moisture content of timber, least",
    "to_pct": "Moisture content of timber, greatest",
    "at_least": "No layout can do with fewer than",
    "gives_where": "Weakest in",
    "characteristic_n": "Holds (characteristic)",
    "worst_to_lose": "Fixing whose loss is worst",
    "use_when_lost": "Share of its strength the worst-loaded other one then uses",
    "least_number": "Fixings that must be in before anyone lets go",
    "x_mm": "x",
    "y_mm": "y",
}
NOTES = {"source", "left_out", "caution"}
TOLD_ELSEWHERE = {"verdict", "verdicts", "working", "equation_source"}  # the last among the sources


@dataclass(frozen=True)
class Table:
    """Figures in columns under their headings."""

    caption: str
    headings: Sequence[str]
    rows: Sequence[Sequence[str]]


@dataclass
class Reckoned:
    """An answer, sorted by how its parts are shown."""

    verdicts: list[Verdict] = field(default_factory=list)
    figures: list[tuple[str, str]] = field(default_factory=list)
    tables: list[Table] = field(default_factory=list)
    notes: list[tuple[str, str]] = field(default_factory=list)
    working: Sequence[tuple[str, str]] = ()


def reckoned(answer: Mapping[str, Any]) -> Reckoned:
    """The parts of an answer, each in the order the calculation gives them."""
    shown = Reckoned()
    columns: dict[int, list[tuple[str, Sequence[Any]]]] = {}
    shown.verdicts = [Verdict(**one) for one in answer.get("verdicts") or [answer.get("verdict")] if one]
    shown.working = answer.get("working", ())
    for key, value in answer.items():
        if key in TOLD_ELSEWHERE:
            continue
        if key in NOTES:
            label = label_of(key)[0]
            words = [value] if isinstance(value, str) else value
            shown.notes.append((label, "; ".join(words)))
        elif isinstance(value, Mapping):
            shown.tables += _of_mapping(key, value)
        elif _is_records(value):
            shown.tables.append(_of_records(key, value))
        elif _is_column(value):
            columns.setdefault(len(value), []).append((key, value))
        else:
            label, unit = label_of(key)
            shown.figures.append((label, in_figures(value, unit)))
    told = {words for _, words in shown.notes}
    standing = dict.fromkeys(one.standing for one in shown.verdicts if one.standing not in told | {""})
    shown.notes += [("Of the finding", words) for words in standing]
    shown.tables += [_side_by_side(group) for group in columns.values()]
    return shown


def label_of(key: str) -> tuple[str, str]:
    """A key in words, and its unit."""
    ending, unit = next(((ending, unit) for ending, unit in UNITS if key.endswith(ending)), ("", ""))
    words = LABELS.get(key) or key.removesuffix(ending).replace("_", " ")
    return words[:1].upper() + words[1:], unit


def in_figures(value: Any, unit: str = "") -> str:
    """A value of an answer in words and figures."""
    if value is None:
        return "–"
    if isinstance(value, bool):
        return YES if value else NO
    if isinstance(value, (int, float)):
        return figure(float(f"{value:.{DIGITS}g}"), unit)
    if isinstance(value, (list, tuple)):
        return ", ".join(in_figures(one) for one in value) or "–"
    return str(value)


def _of_mapping(key: str, value: Mapping[str, Any]) -> Iterator[Table]:
    label, unit = label_of(key)
    if value:
        heading = f"{label} ({unit})" if unit else label
        yield Table(label, ("", heading), [(name, in_figures(one)) for name, one in value.items()])


def _is_records(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and isinstance(value[0], Mapping)


def _of_records(key: str, records: Sequence[Mapping[str, Any]]) -> Table:
    rows = [[in_figures(cell) for cell in record.values()] for record in records]
    return Table(label_of(key)[0], [_heading(name) for name in records[0]], rows)


def _is_column(value: Any) -> bool:
    """Whether a value is a list of figures; of words a line will do."""
    return isinstance(value, list) and bool(value) and not any(isinstance(one, str) for one in value)


def _side_by_side(columns: Iterable[tuple[str, Sequence[Any]]]) -> Table:
    """Lists as long as each other as the columns of one table, their places numbered from 1."""
    keys, lists = zip(*columns, strict=True)
    rows = [[str(place), *map(in_figures, cells)] for place, cells in enumerate(zip(*lists, strict=True), 1)]
    return Table(", ".join(label_of(key)[0] for key in keys), ["No.", *map(_heading, keys)], rows)


def _heading(key: str) -> str:
    label, unit = label_of(key)
    return f"{label} ({unit})" if unit else label
