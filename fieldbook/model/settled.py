"""The kinds of what is agreed, decided, cared for and kept as evidence."""

from __future__ import annotations

from .choices import FORBIDDEN, SPECIALISTS, TRACES
from .description import Kind, choice, kept, length, line, link, note, number, person, place, rows
from .fields import ALWAYS, ANY, Field, Type
from .surveyed import CORNER, OUTLINE_HELP
from .terms import Term

# Pixels of the picture as it is looked at, turned upright, from its upper left corner; the first covers 0 to 1.
PICTURE_POINT = (
    number("across_px", "across", "px", 0, 100_000, required=True),
    number("down_px", "down", "px", 0, 100_000, required=True),
)

# fmt: off
AGREEMENT = Kind("agreement", "Agreement", "Agreements",
    "a keeper's yes or no to named items in the state they were in", "site", (
    link("site", "Site", "site", required=True),
    line("reference", "Reference", required=True, help="short: A2", copied=False),
    Field("items", "About", Type.LINKS, to=ANY, copied=False),
    choice("answer", "Answer", "yes", "yes, with conditions", "no", required=True, listed=True, copied=False,
         read_by=("consent",)),
    note("words", "What was agreed", required=True, copied=False, read_by=("consent",)),
    Field("acts", "Work agreed to", Type.CHOICES, choices=FORBIDDEN, copied=False,
          help="it is to these alone; empty: a no to all work, a yes to all that is done by what it names, and to none "
               "on a face or in a room",
         read_by=("consent",)),
    Field("outline", "Area", Type.OUTLINE, unit="mm", columns=CORNER,
          help=f"of a face; empty: all of it; {OUTLINE_HELP}", copied=False, read_by=("consent",)),
    length("depth_mm", "Not deeper than", 2_000, copied=False, read_by=("consent",)),
    length("play_mm", "Place may differ by", 5_000, help="empty: 5 mm", copied=False, read_by=("consent",)),
    Field("holes", "New holes, at most", Type.WHOLE, low=0, high=10_000, copied=False, read_by=("consent",)),
    choice("trace", "Marks left, at worst", *TRACES, copied=False, read_by=("consent",)),
    note("conditions", "Conditions", copied=False, read_by=("consent",)),
    choice("conditions_met", "Conditions met", "yes", "not yet", "no", copied=False, read_by=("consent",)),
    Field("until", "Until", Type.DATE, copied=False, read_by=("consent",)),
    person("said_by", "Given by", required=True, help="role", listed=True, read_by=("consent",)),
    Field("on", "Given on", Type.DATE, required=True, listed=True, copied=False, read_by=("consent",)),
    kept("kept_as", "Document kept as", copied=False),
    Field("agreed_revision", "State of the book agreed to", Type.WHOLE, low=0,
        help="revision number; empty: as it stands now", copied=False),
    rows("signature", "Signature", place("x", "x", required=True), place("y", "y", required=True),
         Field("stroke", "stroke", Type.WHOLE, low=0, required=True), help="drawn with a finger on the phone",
         copied=False, personal=True),
))

DECISION = Kind("decision", "Specialist’s decision", "Specialists’ decisions",
                "what somebody entitled has decided, with its document", "site", (
    link("site", "Site", "site", required=True),
    line("reference", "Reference", required=True, help="short: E1", copied=False),
    Field("items", "About", Type.LINKS, to=ANY, required=True, copied=False),
    choice("question", "Question", "pull", "shear", "together", "spacing", "slip", "pressure", "carrier", "carries",
           "load", "one-lost", "tipping", "sliding", "floor", "specialist", "touch", "fire", "glass", "gives-off",
           "humidity", "light", "fading", required=True),
    choice("role", "Role", *SPECIALISTS, required=True, listed=True),
    choice("answer", "Answer", "yes", "no", required=True, listed=True, copied=False),
    note("words", "In words", required=True, copied=False),
    line("document", "Document", required=True, help="letter, note or drawing, with its date", copied=False),
    kept("kept_as", "Document kept as", copied=False),
    Field("on", "Given on", Type.DATE, required=True, listed=True, copied=False),
    Field("until", "Until", Type.DATE, listed=True, copied=False),
))

TASK = Kind("task", "Maintenance task", "Maintenance tasks", "regular care", "site", (
    link("site", "Site", "site", required=True),
    line("what", "What to do", required=True),
    link("room", "Room", "room"),
    link("fitting", "Fitting", "fitting"),
    Field("every_months", "Every", Type.WHOLE, unit="months", low=1, high=600, listed=True, wanted=ALWAYS),
    Field("first_on", "First due on", Type.DATE, listed=True),
    person("who", "Who", help="role", listed=True, wanted=ALWAYS),
    number("minutes", "Time", "min", 0, 10_000),
    line("tools", "Tools and materials"),
    note("how", "How", wanted=ALWAYS),
    note("caution", "Caution"),
))

VISIT = Kind("visit", "Visit", "Visits", "a day on site", "site", (
    link("site", "Site", "site", required=True),
    choice("purpose", "Purpose", "survey", "fitting", "inspection", "touch-up", "taking down", required=True),
    Field("on", "On", Type.DATE, required=True, listed=True, copied=False),
    person("by", "By", help="role", listed=True),
    note("found", "What was found", copied=False),
    note("done", "What was done", copied=False),
    Field("next_on", "Next visit due on", Type.DATE, listed=True, copied=False),
))

PHOTOGRAPH = Kind("photograph", "Photograph", "Photographs", "a photograph, known by its checksum", "site", (
    link("site", "Site", "site", required=True),
    link("subject", "Of", ANY, required=True, listed=True),
    choice("purpose", "Purpose", "datum", "as found", "at work", "as fitted", "inspection",
           "before removal", "after removal", "evidence", "receipt",
        required=True, listed=True),
    line("caption", "Caption"),
    Field("taken_at", "Taken", Type.MOMENT, listed=True, copied=False),
    person("taken_by", "Taken by", help="role"),
    place("x_mm", "x", copied=False),
    place("z_mm", "z", copied=False),
    Field("sha256", Term.CHECKSUM, Type.DIGEST, required=True, copied=False),
    Field("size_bytes", "Size", Type.WHOLE, unit="bytes", low=1, high=1e9, copied=False),
    choice("media_type", "File type", "image/jpeg", "image/png", "image/webp", "image/heic", copied=False),
    Field("width_px", "Width", Type.WHOLE, unit="px", low=1, high=100_000, copied=False),
    Field("height_px", "Height", Type.WHOLE, unit="px", low=1, high=100_000, copied=False),
    link("plane_face", "Marks lie on", "face", group="Measuring", copied=False),
    rows("plane_marks", "Marks", *PICTURE_POINT, place("x_mm", "x", required=True), place("z_mm", "z", required=True),
         number("off_mm", "off", "mm", 0, 1_000), group="Measuring", copied=False,
         help="four or more points of the face, one a line: across and down the picture in px, x and z in mm, and how "
              "far x and z may be off"),
    number("mark_px", "Marks are accurate to", "px", 0.1, 100, group="Measuring", copied=False, help="empty: 2 px"),
    rows("card_patches", "Colour card", *PICTURE_POINT, number("reach_px", "reach", "px", 1, 2_000, required=True),
         number("lab_l", "L*", "", 0, 100, required=True), number("lab_a", "a*", "", -200, 200, required=True),
         number("lab_b", "b*", "", -200, 200, required=True), group="Measuring", copied=False,
         help="its patches, one a line: across, down and reach from the middle in px, and its known L*, a*, b* for "
              "white D65; one grey is enough for the balance, six or more correct the colours as well"),
), pointed_to=False)

POINTER = Kind("pointer", "Numbered mark", "Numbered marks", "a number on a photograph that points at something",
               "photograph", (
    link("photograph", "Photograph", "photograph", required=True),
    Field("number", "Number", Type.WHOLE, low=1, high=999, required=True, listed=True, copied=False),
    number("across_px", "Across the picture", "px", 0, 100_000, required=True, copied=False),
    number("down_px", "Down the picture", "px", 0, 100_000, required=True, copied=False),
    link("of", "Points at", ANY, listed=True, copied=False),
    line("words", "In words", listed=True, copied=False),
))

DOCUMENT = Kind("document", "Document", "Documents", "a letter, a note or a data sheet, known by its checksum",
                "site", (
    link("site", "Site", "site", required=True),
    line("reference", "Reference", required=True, help="short: N1", copied=False),
    line("name", "Title", required=True, help="as it is headed", copied=False),
    choice("sort", Term.TYPE, "letter of consent", "letter", "engineer’s note", "data sheet", "drawing", "other",
           required=True, listed=True),
    Field("items", "About", Type.LINKS, to=ANY, copied=False),
    person("from_whom", "From", help="role and office", listed=True),
    Field("on", "Dated", Type.DATE, listed=True, copied=False),
    Field("sha256", Term.CHECKSUM, Type.DIGEST, required=True, copied=False),
    Field("size_bytes", "Size", Type.WHOLE, unit="bytes", low=1, high=1e9, copied=False),
    choice("file_type", "File type", "application/pdf", "image/jpeg", "image/png", "image/webp", "image/heic",
           copied=False),
), pointed_to=False)
# fmt: on
