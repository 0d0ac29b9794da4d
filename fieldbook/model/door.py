"""A hung leaf told as a tradesperson tells it, as the hinge, the swing and the boxes that a clearance limit holds.

Plan axes are those of a face: x to the right as one stands before it, y out of it. A box is u along the leaf from its
hinge, v at 90° anticlockwise from u.
"""

from __future__ import annotations

from typing import Any, NamedTuple

LEFT, RIGHT = HUNG = ("left", "right")
INTO, AWAY = TOWARDS = ("into the room", "away from the room")


class HungLeaf(NamedTuple):
    """A leaf, mm and degrees.

    hung             the side its hinges are on, seen from the room; opens is how far, towards which side
    hinge_x_mm       where the pin of its hinges is along the face
    recess_mm        how far its side to the room lies behind the face when it is shut; negative when it stands proud
    pin_mm           how far the pin stands before the side it opens towards
    width_mm         from the pin to its free edge
    handle_*         how far the handle stands out into the room, its length along the leaf, and what is left from
                     there to the free edge; without a reach there is none
    """

    hung: str
    towards: str
    opens_deg: float
    hinge_x_mm: float
    recess_mm: float
    pin_mm: float
    width_mm: float
    thickness_mm: float
    handle_reach_mm: float = 0
    handle_long_mm: float = 0
    handle_from_edge_mm: float = 0


def limit_of(door: HungLeaf) -> dict[str, Any]:
    """The fields of a clearance limit that a leaf comes to: its hinge, its swing, its boxes.

    >>> limit_of(HungLeaf("left", "into the room", 130, 3320, -4, 8, 812, 42))["boxes"]
    [[0.0, 812, -50, -8]]
    """
    left, into = door.hung == LEFT, door.towards == INTO
    # Measured from the pin out of the face: where the leaf's side to the room lies when it is shut.
    front = -door.pin_mm if into else door.pin_mm + door.thickness_mm
    spans = [(0.0, door.width_mm, front - door.thickness_mm, front)]
    if door.handle_reach_mm:
        far = door.width_mm - door.handle_from_edge_mm
        spans.append((far - door.handle_long_mm, far, front, front + door.handle_reach_mm))
    shut, turned = (0, 1) if left else (180, -1)
    return {
        "hinge_x_mm": door.hinge_x_mm,
        "hinge_y_mm": -door.recess_mm - front,
        "swing_from_deg": shut,
        "swing_to_deg": shut + (turned if into else -turned) * door.opens_deg,
        # Along a leaf that is hung on the right, v points into the wall.
        "boxes": [[u0, u1, v0, v1] if left else [u0, u1, -v1, -v0] for u0, u1, v0, v1 in spans],
    }
