"""Fixings that no formula is published for: what somebody states they hold, and what they cannot hold at all.

Hooks, straps, eyes, plugs and existing holds are held against a stated working load. Magnets, hook and loop, pads
and putty are not known unless tested. Wedges and props take pressure alone: they carry no pull, and nobody else's
share is smaller for them. Does not cover whether whoever stated a load was entitled to.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from ..errors import NotAChoice, shown
from . import site_pull
from .days import in_words
from .limits import within
from .verdict import Verdict, at_most, not_known

SOURCE = "Stated load, by whom, from what and when as entered; compared without partial factors"
PRESSURE_SOURCE = "Statics: what is pressed in place has no hold against a pull"
LOAD_HIGH_N = 1e6
ASKED: Mapping[str, str] = {
    "stated_n": "the working load",
    "by": "who states it",
    "source": "what it rests on",
    "on": "the day",
}
NOT_TABLED = "G. Spicer, Magnetic Mounting Systems for Museums (2019); ASTM D5169 (test method alone)"


class HoldSort(NamedTuple):
    """A sort of hold: whether it takes a pull, whether it lets go slowly, and why it has no general figure."""

    takes_pull: bool
    gives_slowly: bool
    why: str


DEVICES: Mapping[str, HoldSort] = {
    "magnet": HoldSort(
        True,
        False,
        "What a magnet holds depends on the thickness of the metal and on the gap; a maker's figure is for thick bare "
        "steel, no gap and a straight pull. Sideways it holds friction times the pull, and a knock takes it off.",
    ),
    "hook and loop": HoldSort(
        True,
        True,
        "Hook and loop peels at a small part of what it bears in its plane; lasting loads are not published.",
    ),
    "adhesive pad": HoldSort(
        True, True, "Pads and putty creep under what hangs for good, and old paint lets go first; no code has a figure."
    ),
    "glue": HoldSort(True, True, "What glue holds is what the old surface holds, which only a test of it shows."),
    "plug": HoldSort(
        True,
        False,
        "What a plug or a thread holds in stone, brick or iron depends on the very spot, which only a pull shows.",
    ),
    "hook": HoldSort(True, False, "What a hook or eye holds is stated by its maker, or by whoever keeps the building."),
    "strap": HoldSort(
        True, False, "What a strap holds is stated by its maker; what it goes around has to hold as well."
    ),
    "wedge": HoldSort(False, True, "A wedge takes pressure alone, and works loose as wood dries."),
    "prop": HoldSort(False, False, "A prop takes pressure alone."),
    "weight": HoldSort(False, False, "A weight presses down alone; it steadies, and holds nothing up."),
}


def device(kind: str) -> HoldSort:
    """The sort of hold of that name.

    kind     one of DEVICES
    returns  what it takes and why it has no general figure, without unit

    Source: G. Spicer, Magnetic Mounting Systems for Museums (2019), for magnets; the rest common practice, no source.
    Raises NotAChoice for another sort.

    >>> device("wedge").takes_pull
    False
    """
    if kind not in DEVICES:
        raise NotAChoice(f"kind is {shown(kind)}.", f"Choose one of: {', '.join(DEVICES)}.", field="kind", value=kind)
    return DEVICES[kind]


def plug_distances_mm(embedded_mm: float, in_concrete: bool) -> Mapping[str, float]:
    """How far small plastic plugs stay from an edge and from each other.

    embedded_mm  depth of the plug in the masonry itself, without plaster, mm, 10 to 300
    in_concrete  whether it is concrete, which splits less than masonry
    returns      mm: "edge" and "spacing"

    Source: a plug maker's page (second hand): 2 and 4 depths in masonry, 1 and 2 in concrete. The maker's own figure
    goes before it.
    Raises OutOfRange outside the limits.

    >>> plug_distances_mm(40, False)
    {'edge': 80, 'spacing': 160}
    """
    times = within("embedded_mm", embedded_mm, 10, 300, "mm") * (1 if in_concrete else 2)
    return {"edge": times, "spacing": 2 * times}


def stated(permanent_n: float, people_n: float, stated_n: float | None, *, by: str, source: str, on: str) -> Verdict:
    """Whether what hangs on a hold is within the load stated for it.

    permanent_n, people_n  load for good, and what people add, without partial factors, N, 0 to 1 000 000
    stated_n               working load stated for this hold and this direction, N, 0 to 1 000 000; None where none is
    by, source, on         who stated it, what it was taken from, and the day; "" where nobody wrote it down
    returns                verdict, N; not known while the load, its author, its source or its day is missing

    Source: the statement itself; it is a working load, so it already holds its own margin.
    Raises OutOfRange outside the limits.

    >>> stated(200, 0, 500, by="keeper", source="drawing 3 of 1988", on="2026-03-02").word.value
    'within'
    """
    within("permanent_n", permanent_n, 0, LOAD_HIGH_N, "N")
    within("people_n", people_n, 0, LOAD_HIGH_N, "N")
    given = {"stated_n": stated_n is not None, "by": by.strip(), "source": source.strip(), "on": on.strip()}
    missing = tuple(name for name, there in given.items() if not there)
    if missing or stated_n is None:
        sentence = (
            f"What this fixing may carry is not stated in full: missing {', '.join(ASKED[name] for name in missing)}. "
            f"It has to carry {permanent_n + people_n:g} N."
        )
        return not_known("stated load", missing, sentence, SOURCE, "N")
    return at_most(
        "stated load",
        "What hangs on it",
        permanent_n + people_n,
        within("stated_n", stated_n, 0, LOAD_HIGH_N, "N"),
        "N",
        SOURCE,
        after=f"Stated by {by} on {in_words(on)} ({source}).",
        working=(("hangs for good", f"{permanent_n:g} N"), ("people add", f"{people_n:g} N")),
    )


def untested(kind: str, permanent_n: float, people_n: float) -> Verdict:
    """What is known of a hold that nobody stated a load for or tested.

    kind                   one of DEVICES
    permanent_n, people_n  pull for good, and what people add, N, 0 to 1 000 000
    returns                verdict, N: what takes pressure alone is over where it is pulled, within where it is not; the
                           rest is not known

    Source: statics for wedges, props and weights; G. Spicer (2019) and the lack of any published figure for the rest.
    Raises OutOfRange outside the limits, NotAChoice for another sort.

    >>> untested("magnet", 10, 0).word.value, untested("prop", 10, 0).word.value
    ('not known', 'over')
    """
    sort = device(kind)
    within("permanent_n", permanent_n, 0, LOAD_HIGH_N, "N")
    within("people_n", people_n, 0, LOAD_HIGH_N, "N")
    if sort.takes_pull:
        remedy = "Have a load stated, pull it on the spot, or choose a fixing that can be calculated."
        return not_known("pull", ("stated_n",), f"{sort.why} {remedy}", NOT_TABLED, "N")
    carries = permanent_n + people_n
    return at_most(
        "pull",
        f"The pull on the {kind}",
        carries,
        0.0,
        "N",
        PRESSURE_SOURCE,
        after=f"{sort.why} It makes no other fixing's share smaller.",
    )


def tested(
    kind: str, permanent_n: float, people_n: float, *, in_wood: bool, pulled_n: float, held: bool, on: str, by: str
) -> Verdict:
    """What a pull on the spot shows of a hold without a general figure.

    kind                   one of DEVICES
    permanent_n, people_n  pull for good, and what people add, without partial factors, N, 0 to 1 000 000
    in_wood                whether wood holds it, which lets go in time under less than it bears at once
    pulled_n, held, on, by  as for `site_pull.verdict`; N
    returns                verdict, N, as `site_pull.verdict` gives it; what takes no pull stays over, whatever it held

    Source: BS 8539:2012, Annex B.3, as for `site_pull.verdict`.
    Raises OutOfRange outside the limits, NotAChoice for another sort.

    >>> tested("adhesive pad", 10, 0, in_wood=False, pulled_n=100, held=True, on="2026-05-04", by="fitter").word.value
    'not known'
    """
    sort = device(kind)
    if not sort.takes_pull:
        return untested(kind, permanent_n, people_n)
    slowly = in_wood or sort.gives_slowly
    return site_pull.verdict(permanent_n, people_n, pulled_n=pulled_n, held=held, on=on, by=by, gives_slowly=slowly)
