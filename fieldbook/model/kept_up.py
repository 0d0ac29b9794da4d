"""The kinds of what is done once things are up: work, colours measured again, and the statement at the end.

What is seen is an observation, what is measured again a reading, and what came of a part stands with the part.
"""

from __future__ import annotations

from .choices import OUTCOMES, WORKS
from .description import Kind, choice, line, link, note, number, person, place, rows
from .fields import Field, Type
from .terms import Term

STROKES = (
    place("x", "x", required=True),
    place("y", "y", required=True),
    Field("stroke", "stroke", Type.WHOLE, low=0, required=True),
)
BY_FINGER = "drawn with a finger on the phone"

# fmt: off
WORK = Kind("work", "Work done", "Work done", "something done to what is up, or why it was not", "site", (
    link("site", "Site", "site", required=True),
    line("what", "What", required=True, copied=False),
    choice("sort", Term.TYPE, *WORKS, required=True, listed=True),
    link("task", "Task", "task", copied=False),
    link("fitting", "Fitting", "fitting"),
    link("fixing", "Fixing", "fixing", copied=False),
    link("finish", "Finish", "finish"),
    link("observation", "Deals with", "observation", help="the observation that this deals with", copied=False),
    Field("on", "On", Type.DATE, required=True, listed=True, copied=False),
    person("by", "By", help="role", listed=True),
    choice("outcome", "Outcome", *OUTCOMES, required=True, listed=True, copied=False),
    note("reason", "Why not", help="of what was not done", copied=False),
    note("found", "Found", copied=False),
    note("done", "Done", copied=False),
    number("torque_before_nm", "Torque found", "N m", 0, 1_000, group="Tightening", copied=False),
    number("torque_after_nm", "Torque left", "N m", 0, 1_000, group="Tightening", copied=False),
    line("batch", "Batch", group="Touch-up"),
    line("used", "What was used", group="Touch-up"),
    number("minutes", "Time it took", "min", 0, 10_000, copied=False),
))

COLOUR = Kind("colour", "Colour measured again", "Colours measured again", "what a finish has become", "finish", (
    link("finish", "Finish", "finish", required=True),
    link("fitting", "On which fitting", "fitting"),
    Field("on", "On", Type.DATE, required=True, listed=True, copied=False),
    number("lab_l", "L*", "", 0, 100, required=True, listed=True, copied=False),
    number("lab_a", "a*", "", -200, 200, required=True, listed=True, copied=False),
    number("lab_b", "b*", "", -200, 200, required=True, listed=True, copied=False),
    choice("lab_white", "Reference white", "D50", "D65", required=True),
    line("instrument", "Instrument", help="or: matched by eye to a chart"),
    person("taken_by", "Taken by", help="role"),
    note("note", "Note", copied=False),
))

STATEMENT = Kind("statement", "As-left statement", "As-left statements",
                 "how the building was left when something had been taken down", "site", (
    link("site", "Site", "site", required=True),
    line("reference", "Reference", required=True, help="short: S1", copied=False),
    Field("items", "Taken down", Type.LINKS, to="fitting", required=True, copied=False),
    Field("on", "On", Type.DATE, required=True, listed=True, copied=False),
    person("fitter", "Taken down by", required=True, help="role", listed=True),
    person("keeper", "Seen and taken over by", required=True, help="role", listed=True),
    note("words", "Remarks", copied=False),
    rows("fitter_signature", "Signature of whoever took it down", *STROKES, help=BY_FINGER, copied=False,
         personal=True),
    rows("signature", "Signature of whoever took it over", *STROKES, help=BY_FINGER, copied=False, personal=True),
))
# fmt: on
