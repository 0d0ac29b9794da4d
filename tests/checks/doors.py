"""Leaves for tests: a plain door, and any leaf at all."""

from __future__ import annotations

from hypothesis import strategies as st

from fieldbook.checks.sweep import Leaf


def door(w: float, t: float, e: float, p: float, opens: float) -> Leaf:
    """A leaf w wide and t thick, its room face e behind the pin, the pin p in front of the wall."""
    return Leaf((0, p), 0, opens, ((0, w, -(e + t), -e),))


LENGTH = st.floats(-400, 900).map(lambda value: round(value, 2))


@st.composite
def leaves(draw: st.DrawFn) -> Leaf:
    """Any leaf: hinge on either side of the face, one or two boxes anywhere round it, any swing."""
    boxes = []
    for _ in range(draw(st.integers(1, 2))):
        u, v = draw(LENGTH), draw(LENGTH)
        boxes.append((u, u + draw(st.floats(5, 900)), v, v + draw(st.floats(5, 200))))
    start = draw(st.floats(-180, 180))
    hinge = (draw(st.floats(-50, 50)), draw(st.floats(-50, 50)))
    return Leaf(hinge, start, start + draw(st.floats(1, 350)), tuple(boxes))
