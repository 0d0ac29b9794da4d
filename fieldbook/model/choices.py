"""The words a field may be chosen from, where more than one part of the house knows them."""

from __future__ import annotations

FORBIDDEN = ("drilling", "contact", "adhesive", "load", "heat", "light")
PLANNED, FITTED, TAKEN_DOWN = STATES = ("planned", "fitted", "taken down")
# Said of a place as fitted without figures of its own: the tape found it where it was planned, or nobody looked.
AS_PLANNED, NOT_MEASURED = PLACES_AS_FITTED = ("as planned, checked with a tape", "not measured")
TRACES = (
    "none",
    "a mark that cleans off",
    "an old hole used again",
    "a new hole in later work",
    "a new hole in old fabric",
)
DAMAGE = "damage that was not expected"
TRACES_FOUND = (*TRACES, DAMAGE)
OCCASIONS = ("survey", "inspection", "something happened")
HAPPENED = ("a knock", "damp", "loose", "fallen", "broken", "moved by somebody", "other")
AT_ONCE = ("left as it was", "made safe", "taken off")
DONE, NOT_DONE = OUTCOMES = ("done", "not done")
TAKING_DOWN = "taking down"
WORKS = ("care", "tightening", "touch-up", "repair", "moved or loaded", TAKING_DOWN, "other")
WENT_TO = ("store", "used again", "given back", "disposed of")
FABRICS = ("old fabric", "later work", "another fitting")
HAZARDS = (
    "loads",
    "overhead work",
    "hidden services",
    "escape route",
    "lifting",
    "dust",
    "old lead paint",
    "asbestos",
    "electricity",
    "solvents and fumes",
)
CLASSES = ("0", "1", "2", "3")  # the classes of EN 16096
LOOKED_FOR = (
    "keep-off zones",
    "what swings, passes or must be seen",
    "services in the wall",
    "asbestos",
    "old lead paint",
)
FIRE_CLASSES = ("A1", "A2", "B", "C", "D", "E", "F")  # reaction to fire, EN 13501-1, best first
STEEL_GRADES = ("4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "10.9", "A2-50", "A2-70", "A2-80", "A4-50", "A4-70", "A4-80")
SPECIALISTS = ("structural engineer", "conservator", "electrician", "fire officer", "keeper", "other")
STATES_LOADS = ("maker", "structural engineer", "keeper", "other")  # who may state a load, and others
