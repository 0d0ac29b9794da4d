"""Labels for behind each fitting: what somebody with a screwdriver in hand has to know, in words and as a square.

The square (QR code, ISO/IEC 18004) holds the words of the label themselves, so that they can be read, spoken and sent
on without a network and without this program.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from io import BytesIO
from pathlib import Path

from ..book.site import Item, Site
from ..book.wording import count, day, figure, joined
from ..errors import FieldbookError
from ..findings.room_to_move import room_to_move
from ..model.choices import FITTED
from .pdf import Printed
from .removal import removal_of
from .sheets import print_sheets

LONGEST, LONGEST_HOW = 90, 230  # letters of a line of a label, and of how it comes off, that there is room for
NO_TOOL = "none"
LOWEST_ERROR_LEVEL = "m"  # a scratch may take 15 % of the square


class SquaresMissing(FieldbookError):
    """The library that makes the squares is not on this machine."""

    code = "squares-missing"


@dataclass(frozen=True)
class Label:
    """One label: what it goes behind, where that is, and its lines, each with what it is about."""

    fitting: Item
    where: str
    lines: tuple[tuple[str, str], ...]

    @property
    def words(self) -> str:
        """All of it as the square holds it."""
        return "\n".join([self.fitting.title, self.where, *(f"{about}: {words}" for about, words in self.lines)])


def labels_of(site: Site, today: date) -> list[Label]:
    """A label for each fitting that is up or to go up, in the order of their marks."""
    first = {step.fitting.id: step for step in removal_of(site).steps}
    labels = []
    for fitting in (one for one in site.all("fitting") if one.stands):
        face = site[fitting.face]
        where = f"{face.called}, {site[face.room].title}, {site.item.name}"
        step = first.get(fitting.id)
        how = _comes_off(fitting, step.tools if step else (), step.after if step else ())
        told = (
            ("Put up", day(fitting.fitted_on) or ("date not entered" if fitting.state == FITTED else "planned")),
            ("Comes off", how),
            ("Finish", joined(one.title for link in fitting.finishes or () if (one := site.get(link)))),
            ("Room to move", _room(site, fitting, today)),
        )
        lines = tuple(
            (about, _short(words, LONGEST_HOW if words is how else LONGEST)) for about, words in told if words
        )
        labels.append(Label(fitting, _short(where, LONGEST), lines))
    return labels


def _comes_off(fitting: Item, tools: tuple[str, ...], after: tuple[Item, ...]) -> str:
    """In one line: what must be off before, by how many, with what, and how."""
    needs = [
        f"after {joined(one.called for one in after)}" if after else "",
        count(fitting.people_to_remove, "person", "people") if fitting.people_to_remove else "",
        figure(fitting.minutes_to_remove, "min"),
        joined(tool for tool in tools if tool != NO_TOOL),
    ]
    how = " ".join((fitting.removal or "how is not entered").split())
    head = "; ".join(filter(None, needs))
    return f"{head}: {how}" if head else how


def _room(site: Site, fitting: Item, today: date) -> str:
    if fitting.moves_mm is None and fitting.carries_kg is None:
        return ""
    room = room_to_move(site, fitting, today)
    stretches = joined((f"{figure(low)} to {figure(high, 'mm')}" for low, high in room.along_mm), "or")
    places = f"left edge at {stretches} from the datum" if fitting.moves_mm is not None and stretches else ""
    if room.more_kg is None:
        more = "how much more it may carry is not known"
    else:
        more = f"may carry {figure(room.more_kg, 'kg')} more" if room.more_kg else "may carry no more"
    return "; ".join([places or "stays where it is", more])


def _short(words: str, longest: int) -> str:
    return words if len(words) <= longest else f"{words[: longest - 1].rstrip()}…"


def square(words: str) -> str:
    """A QR code that holds words, as SVG; raises SquaresMissing."""
    try:
        import segno
    except ImportError:
        remedy = "Bring it: pip install segno, in the environment Fieldbook runs in."
        raise SquaresMissing("Labels need the library segno, which is not here.", remedy) from None
    file = BytesIO()
    made = segno.make_qr(words, error=LOWEST_ERROR_LEVEL, boost_error=False)
    made.save(file, kind="svg", border=4, xmldecl=False, svgclass=None, lineclass=None)
    return file.getvalue().decode()


def write_labels(site: Site, file: Path, today: date, head: str) -> Printed:
    """Write the labels of a site as PDF.

    today  the day they are true on
    head   which state of the site they are of, as it stands on top of each page
    Raises SquaresMissing and what printing raises.
    """
    labels = labels_of(site, today)
    squares = {f"app:square/{label.fitting.id}": square(label.words) for label in labels}
    return print_sheets("labels.html", squares, file, site=site.item, head=head, labels=labels)
