"""The labels that stand in more than one place, so that a thing has one name on desk, phone, terminal and paper.

What a field or a kind is called by itself stands in its own line among the kinds; here stands what kinds,
calculations and pages say alike. Each is a word of the trade or of the volunteers who look after a building.
"""

from __future__ import annotations

from enum import StrEnum


class Term(StrEnum):
    """A label as it is shown."""

    # what pages ask and offer
    REQUIRED = "required"
    CALCULATE = "Calculate"
    SHOW_SUMS = "Show the sums"
    NEEDS_CORRECTING = "Not saved yet: something needs correcting"
    CORRECT_AND_SEND = "Correct and send again"
    NOT_SENT = "Not sent yet"
    IMPORT = "Import"
    IMPORTED = "Imported"
    REMOVE_PHONE = "Remove this phone"
    OVERVIEW = "Overview"
    CHECKSUM = "Checksum (SHA-256)"
    # what kinds, calculations and tables ask for or head alike
    TYPE = "Type"
    FIXING_POINT = "Existing hole or fixing point"
    FIXING_POINTS = "Existing holes and fixing points"
    CONTACT_RADIUS = "Contact radius"
    DEPTH_IN_WALL = "Depth into the wall"
    GREATEST_DEPTH = "Greatest depth into the wall"
    MARKS_LEFT = "Marks left"
    LOCKING = "Locking"
    PILOT_HOLE = "Pilot hole drilled"
    GRIPPING_FACES = "Gripping faces"
    MOVEMENT_GAP = "Gap left for movement"
    BOLT_TENSION = "Bolt tension"
    CUTTING_PLAN = "Cutting plan"
    TIME_COLUMN = "Time column"
    HUMIDITY_COLUMN = "Humidity column"
    TEMPERATURE_COLUMN = "Temperature column"
    DATE_COLUMN = "Date column"
    DATE_ORDER = "Date order"
