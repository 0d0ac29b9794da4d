"""One safety format for whatever wood carries: factored actions against a resistance that shrinks with time and damp.

A characteristic resistance is turned into what may be relied on by k_mod (service class, duration) and a
partial factor; what acts is raised by partial factors of its own. Each load is looked at alone, as it lasts,
and together with what people do, as that lasts. Does not cover fire, fatigue, wood that has decayed, nor
national annexes, which may ask for other partial factors.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from ..errors import NotAChoice, shown
from .limits import within
from .verdict import Verdict, Word, at_most, not_known

SOURCE = (
    "EN 1995-1-1:2004+A1:2008, 2.4.3 and Tables 2.3, 3.1; EN 1990:2002, equation 6.10 and Table A1.2 (recommended "
    "partial factors; second hand)"
)

# Table 3.1, solid timber, glued laminated timber, LVL and, in the service class it is made for, plywood.
DURATIONS = ("permanent", "long", "medium", "short", "instantaneous")
SERVICE_CLASSES: Mapping[int, tuple[float, ...]] = {
    1: (0.60, 0.70, 0.80, 0.90, 1.10),
    2: (0.60, 0.70, 0.80, 0.90, 1.10),
    3: (0.50, 0.55, 0.65, 0.70, 0.90),
}
# Table 2.3, connections.
CONNECTION_FACTOR = 1.3
# EN 1990 Table A1.2: loads that press, and a permanent load that relieves (the smaller figure, of set A).
PERMANENT_FACTOR, RELIEVING_FACTOR, PEOPLE_FACTOR = 1.35, 0.9, 1.5
LOAD_HIGH_N = 1e6
# More acts nowhere; what acts absurdly hard, over a lever of many metres, is over and not outside the method.
ACTION_HIGH_N = 1e12


class Case(NamedTuple):
    """Loads that act together: in words, the factor on people's loads, and how long the shortest of them lasts."""

    name: str
    people_factor: float
    duration: str


# The k_mod of a case is that of its shortest load (3.1.3(2)); each longer one has a case of its own.
CASES = (Case("what hangs for good", 0.0, "permanent"), Case("with people", PEOPLE_FACTOR, "short"))


class Use(NamedTuple):
    """A case with its design action and design resistance, N; `share` is how much of the resistance is used."""

    case: Case
    action_n: float
    resistance_n: float

    @property
    def share(self) -> float:
        if self.action_n <= 0:
            return 0.0
        return self.action_n / self.resistance_n if self.resistance_n > 0 else float("inf")


def k_mod(service_class: int, duration: str) -> float:
    """How much of a short test's strength is left under a load of that duration in air of that dampness.

    service_class  1, 2 or 3, no unit: heated rooms; under a roof, unheated; wet or out of doors
    duration       "permanent" (over 10 years), "long" (6 months to 10 years), "medium" (1 week to 6 months),
                   "short" (under a week) or "instantaneous" (accidents alone)
    returns        factor, no unit

    Source: EN 1995-1-1:2004+A1:2008, Tables 2.1 and 3.1, solid timber, glued laminated timber, LVL, plywood.
    Raises NotAChoice for another class or duration.

    >>> k_mod(1, "permanent")
    0.6
    """
    if isinstance(service_class, bool) or service_class not in SERVICE_CLASSES:
        raise NotAChoice(
            f"service_class is {shown(service_class)}.",
            "Choose 1 (heated room), 2 (under a roof, unheated) or 3 (wet or out of doors).",
            field="service_class",
            value=service_class,
        )
    if duration not in DURATIONS:
        raise NotAChoice(
            f"duration is {shown(duration)}.",
            f"Choose one of: {', '.join(DURATIONS)}.",
            field="duration",
            value=duration,
        )
    return SERVICE_CLASSES[service_class][DURATIONS.index(duration)]


def resistance_n(characteristic_n: float, service_class: int, duration: str) -> float:
    """Design resistance of a connection in wood.

    characteristic_n  characteristic resistance, N, 0 to 1 000 000
    service_class     as for `k_mod`, no unit
    duration          as for `k_mod`
    returns           N

    Source: EN 1995-1-1:2004+A1:2008, equation 2.17 with the partial factor 1.3 of Table 2.3.
    Raises OutOfRange outside the limits, NotAChoice for another class or duration.

    >>> round(resistance_n(2606.6, 1, "permanent"), 1)
    1203.0
    """
    within("characteristic_n", characteristic_n, 0, LOAD_HIGH_N, "N")
    return k_mod(service_class, duration) * characteristic_n / CONNECTION_FACTOR


def action_n(permanent_n: float, people_n: float, case: Case) -> float:
    """Design action of a case, in one direction.

    permanent_n  what hangs for good, N, -1e12 to 1e12; below 0 where it relieves
    people_n     what people add at the worst, N, 0 to 1e12
    case         one of CASES
    returns      N, not below 0

    Source: EN 1990:2002, equation 6.10 and Table A1.2: 1.35 on a permanent load, 0.9 where it relieves, 1.5 on people.
    Raises OutOfRange outside the limits.

    >>> round(action_n(981, 0, CASES[0]), 2)
    1324.35
    """
    within("permanent_n", permanent_n, -ACTION_HIGH_N, ACTION_HIGH_N, "N")
    within("people_n", people_n, 0, ACTION_HIGH_N, "N")
    factor = PERMANENT_FACTOR if permanent_n > 0 else RELIEVING_FACTOR
    return max(0.0, factor * permanent_n + case.people_factor * people_n)


def uses(characteristic_n: float, permanent_n: float, people_n: float, service_class: int) -> tuple[Use, ...]:
    """What acts on a connection in each case, and what it holds then.

    characteristic_n       as for `resistance_n`, N
    permanent_n, people_n  as for `action_n`, N
    service_class          as for `k_mod`, no unit
    returns                design action and design resistance, N, in the order of CASES

    Source: EN 1995-1-1:2004+A1:2008, 2.4.3 and 3.1.3: every case against the k_mod of its shortest load.
    Raises OutOfRange outside the limits, NotAChoice for another class.

    >>> [round(use.share, 2) for use in uses(4864.1, 981, 300, 1)]
    [0.59, 0.53]
    """
    return tuple(
        Use(
            case,
            action_n(permanent_n, people_n, case),
            resistance_n(characteristic_n, service_class, case.duration),
        )
        for case in CASES
    )


def worst(characteristic_n: float, permanent_n: float, people_n: float, service_class: int) -> Use:
    """The case that uses most of a connection's resistance.

    characteristic_n       as for `resistance_n`, N
    permanent_n, people_n  as for `action_n`, N
    service_class          as for `k_mod`, no unit
    returns                that case with its action and resistance, N

    Source: as for `uses`.
    Raises OutOfRange outside the limits, NotAChoice for another class.

    >>> worst(3000, 500, 300, 1).case.name
    'with people'
    """
    # where nothing is held at all both shares have no end, and the larger action tells
    return max(uses(characteristic_n, permanent_n, people_n, service_class), key=lambda use: (use.share, use.action_n))


def verdict(
    check: str,
    what: str,
    characteristic_n: float,
    permanent_n: float,
    people_n: float,
    service_class: int,
    source: str,
    *,
    after: str = "",
    standing: str = "",
    working: tuple[tuple[str, str], ...] = (),
) -> Verdict:
    """Whether a connection in wood holds what acts on it, for good and with people.

    check, what            as for `at_most`
    characteristic_n       as for `resistance_n`, N
    permanent_n, people_n  as for `action_n`, N
    service_class          as for `k_mod`, no unit
    source                 where the characteristic resistance comes from
    after, standing        as for `at_most`
    working                as for `at_most`
    returns                verdict, N: design action of the worst case against design resistance

    Source: as for `worst`, and `source` for the resistance.
    Raises OutOfRange outside the limits, NotAChoice for another class.

    >>> verdict("pull", "The pull", 4864.1, 981, 0, 1, "worked example").word.value
    'within'
    """
    use = worst(characteristic_n, permanent_n, people_n, service_class)
    return at_most(
        check,
        f"{what}, raised by partial factors ({use.case.name}),",
        use.action_n,
        use.resistance_n,
        "N",
        f"{source}; {SOURCE}",
        after=after,
        standing=standing,
        working=(
            *working,
            ("characteristic resistance", f"{characteristic_n:.1f} N"),
            ("hangs for good", f"{permanent_n:.10g} N"),
            ("people add", f"{people_n:.10g} N"),
            ("service class", f"{service_class}"),
            ("k_mod", f"{k_mod(service_class, use.case.duration):g} ({use.case.duration})"),
            ("partial factor on the resistance", f"{CONNECTION_FACTOR:g}"),
        ),
    )


def not_better_than_not_known(answer: Verdict, reasons: Sequence[tuple[str, str]]) -> Verdict:
    """The same verdict where its rules hold or it is over; else not known, with why.

    answer   a verdict in N
    reasons  (input, sentence) pairs, each a reason for which the rules do not hold
    returns  verdict, N; what is on the fastener is told all the same

    Source: what is over by rules that would flatter it is over.
    Raises nothing.

    >>> not_better_than_not_known(at_most("shear", "The load", 1, 9, "N", "test"), [("gap_mm", "A gap.")]).word.value
    'not known'
    """
    if not reasons or answer.word is Word.OVER:
        return answer
    fields, sentences = zip(*reasons, strict=True)
    unruled = not_known(answer.check, fields, " ".join(sentences), answer.source, answer.unit)
    return replace(unruled, figure=answer.figure)
