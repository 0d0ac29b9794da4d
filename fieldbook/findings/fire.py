"""What a fitting adds to a fire, held against the limit that whoever is responsible has set for the room."""

from __future__ import annotations

from ..book.site import Item
from ..checks.fire_class import fire_class_verdict
from .asking import LESS, MORE, Asked, Question
from .finding import Outcome

WAYS_OUT = "Ways out, and how long a door or a wall withstands a fire, are left out; the local code decides."
AS_A_WHOLE = "The class is that of the whole as it hangs, coatings and edges included."


def reaction(asked: Asked, fitting: Item) -> Outcome:
    """The class of a fitting against the class asked for in its room."""
    room = asked.site[asked.site[fitting.face].room]
    limit = asked.need(room, "fire_limit")
    verdict = fire_class_verdict(asked.need(fitting, "fire_class"), limit)
    return Outcome(verdict, room, assumed=(AS_A_WHOLE,), left_out=(WAYS_OUT,))


QUESTIONS = (
    Question(
        "fire",
        "fitting",
        "Does it burn no more readily than was set for the room?",
        reaction,
        {"fitting.fire_class": MORE, "room.fire_limit": LESS},
    ),
)
