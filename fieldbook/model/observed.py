"""The kinds of what was measured, seen and tried there: readings, observations, test patches, loggers' files."""

from __future__ import annotations

from .choices import AT_ONCE, CLASSES, HAPPENED, OCCASIONS
from .description import Kind, choice, line, link, note, number, person, place
from .fields import Field, Type
from .terms import Term

# fmt: off
READING = Kind("reading", "Reading", "Readings", "one measured quantity at a place and time, with its instrument",
    "room", (
    link("room", "Room", "room", required=True),
    link("face", "Face", "face"),
    choice("quantity", "Quantity", "air temperature", "outside temperature", "relative humidity", "surface temperature",
        "wood moisture content",
           "damp meter units", "illuminance", "ultraviolet", "level", "distance", "mass", "torque", "pull",
               required=True,
           help="pins in plaster, stone or paint compare only: enter them as damp meter units",
         read_by=("movement", "humidity", "condensing", "light", "ultraviolet", "fading", "touch")),
    number("value", "Value", "", -1e6, 1e6, required=True, listed=True, copied=False,
         read_by=("movement", "humidity", "condensing", "light", "ultraviolet", "fading", "touch")),
    choice("unit", "Unit", "°C", "%", "% moisture content", "meter units", "lx", "µW/lm", "mm", "kg", "N m", "N",
        required=True, listed=True,
         read_by=("movement", "humidity", "condensing", "light", "ultraviolet", "fading", "touch")),
    Field("at", "When", Type.MOMENT, required=True, listed=True, copied=False),
    place("x_mm", "x", copied=False),
    place("z_mm", "z", copied=False),
    line("instrument", "Instrument", listed=True),
    number("uncertainty", "Uncertainty", "±", 0, 1e6,
         read_by=("movement", "humidity", "condensing", "light", "ultraviolet", "fading", "touch")),
    person("taken_by", "Taken by", help="role"),
    note("note", "Note", copied=False),
    link("fitting", "Fitting", "fitting", help="what is measured again, to see whether it moves"),
    link("fixing", "Fixing", "fixing"),
    line("of", "Of what", help="x, z, or from where to where: gap to the wall, left end"),
))

OBSERVATION = Kind("observation", "Observation", "Observations", "the state of something, classed as in EN 16096",
    "room", (
    link("room", "Room", "room", required=True),
    link("face", "Face", "face"),
    link("fitting", "Fitting", "fitting"),
    line("what", "What was seen", required=True, copied=False),
    Field("at", "When", Type.MOMENT, required=True, listed=True, copied=False),
    choice("condition_class", "Condition class", *CLASSES, help="0 no symptoms, 1 minor, 2 moderate, 3 major",
           listed=True, copied=False),
    choice("urgency_class", "Urgency class", *CLASSES, help="0 long term, 1 medium, 2 short, 3 at once",
           listed=True, copied=False),
    choice("recommendation_class", "Recommendation class", *CLASSES,
           help="0 nothing to do, 1 care, 2 moderate repair or a closer look, 3 major work after diagnosis",
           copied=False),
    place("x_mm", "x", copied=False),
    place("z_mm", "z", copied=False),
    note("words", "In words", copied=False),
    person("seen_by", "Seen by", help="role", listed=True),
    choice("occasion", "Occasion", *OCCASIONS, copied=False),
    choice("happened", "What happened", *HAPPENED, copied=False),
    choice("at_once", "What was done at once", *AT_ONCE, copied=False),
))

PATCH = Kind("patch", "Test patch", "Test patches", "a lining or finish laid on the fabric to see what it leaves",
    "face", (
    link("face", "Face", "face", required=True),
    line("mark", "Mark", help="short: T1", copied=False),
    line("material", "Lining or finish", required=True, listed=True, read_by=("touch", "trace")),
    line("laid_against", "Laid against", required=True, help="the surface, as in the layers of the face", listed=True,
         read_by=("touch", "trace")),
    place("x_mm", "x", copied=False),
    place("z_mm", "z", copied=False),
    Field("laid_on", "Laid on", Type.DATE, required=True, listed=True, copied=False, read_by=("touch",)),
    Field("looked_on", "Looked at on", Type.DATE, copied=False, read_by=("touch", "trace")),
    choice("found", "Found", "no trace", "a mark that cleans off", "a mark that stays", listed=True, copied=False,
         read_by=("touch", "trace")),
    person("seen_by", "Seen by", help="role"),
))

LOG = Kind("log", "Logger file", "Logger files", "what a logger in a room wrote, kept as it came", "room", (
    link("room", "Room", "room", required=True),
    line("name", "Name", required=True, help="which logger, and where it stands"),
    line("time_column", Term.TIME_COLUMN, required=True, read_by=("movement", "humidity", "touch")),
    line("humidity_column", Term.HUMIDITY_COLUMN, required=True,
         read_by=("movement", "humidity", "touch")),
    line("temperature_column", Term.TEMPERATURE_COLUMN, read_by=("movement", "humidity", "touch")),
    line("date_column", Term.DATE_COLUMN, help="only where date and time stand apart",
         read_by=("movement", "humidity", "touch")),
    choice("date_order", Term.DATE_ORDER, "day first", "month first", help="only where the file leaves it open",
         read_by=("movement", "humidity", "touch")),
    line("instrument", "Instrument", listed=True),
    number("uncertainty_pct", "Humidity is accurate to ±", "%", 0, 100, help="as its maker or its calibration says",
           read_by=("movement", "humidity", "touch")),
    Field("sha256", Term.CHECKSUM, Type.DIGEST, required=True, copied=False,
         read_by=("movement", "humidity", "touch")),
    Field("size_bytes", "Size", Type.WHOLE, unit="bytes", low=1, high=1e9, copied=False),
))
# fmt: on
