"""An invented site to try everything on: the customs shed at Marrow Quay.

Its survey, fittings and story are data in modules named after the rooms; its photographs are drawn
in perspective by `photographs`, so that it is known exactly what stands where in them. Every place,
role and object is made up.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import asdict

from fieldbook.book import documents, evidence
from fieldbook.book import photographs as kept_photographs
from fieldbook.book.book import Book

from . import agreed, letters, logged, photographs, rooms, watched
from .booking import Values
from .entering import DESK, PHONE, Desk, as_fitted, as_planned, as_taken_down
from .photographs import GroundTruth, ground_truth
from .photographs.shots import Shot
from .watched import moment

__all__ = ["NAME", "GroundTruth", "ground_truth", "make"]

NAME: str = agreed.SITE["name"]


def make(
    book: Book,
    say: Callable[[str], object] = lambda _: None,
    drawn: Callable[[], Iterable[tuple[Shot, bytes]]] = photographs.drawn,
) -> str:
    """Fill an empty book with the customs shed, and return the site's id.

    say    is told, line by line, what is being done.
    drawn  gives the photographs, which take most of the time. Raises the errors of the book.
    """
    desk = Desk(book)
    say("Entering the survey of four rooms …")
    _survey(desk)
    say("Entering fittings, agreements and fixings …")
    _plan_and_fit(desk)
    say("Entering a year of readings …")
    _watch(desk)
    _add_photographs(desk, say, drawn)
    return desk.ids["site"]


def _survey(desk: Desk) -> None:
    desk.enter("site", [agreed.SITE], moment("2025-03-03", "09:00"))
    desk.enter("room", rooms.ROOMS, moment("2025-03-03", "09:20"))
    surveyed = {"face": rooms.FACES, "zone": rooms.ZONES, "limit": rooms.LIMITS, "hold": rooms.HOLDS}
    for kind, items in (surveyed | {"member": rooms.MEMBERS}).items():
        desk.enter(kind, items, moment("2025-03-13", "16:00"), PHONE)


def _plan_and_fit(desk: Desk) -> None:
    desk.enter("finish", agreed.FINISHES, moment("2025-04-01", "10:00"))
    desk.enter("material", agreed.MATERIALS, moment("2025-04-02", "09:00"))
    phase_2 = [fitting["mark"] for fitting in rooms.FITTINGS if fitting["state"] == "planned"]
    for planned_on, later in (("2025-04-02", False), ("2026-03-02", True)):
        at = moment(planned_on, "11:00")
        if later:
            desk.enter("build_up", rooms.BUILD_UPS, moment(planned_on, "10:30"))
        fittings = [fitting for fitting in rooms.FITTINGS if (fitting["mark"] in phase_2) == later]
        fixings = [fixing for fixing in rooms.FIXINGS if (fixing["fitting"] in phase_2) == later]
        agreements = [
            one for one in agreed.AGREEMENTS if set(one["items"]) <= {fitting["mark"] for fitting in fittings}
        ]
        desk.enter("fitting", map(as_planned, fittings), at)
        desk.enter("fixing", map(as_planned, fixings), moment(planned_on, "16:30"))
        desk.enter("agreement", agreements, moment(agreements[0]["on"], "15:00"))
        _put_up(desk, fittings, fixings)
    desk.enter("decision", agreed.DECISIONS, moment("2026-03-16", "16:00"))
    _file_letters(desk, moment("2026-03-16", "16:40"))


def _file_letters(desk: Desk, at: str) -> None:
    for values, lines in letters.LETTERS:
        content = letters.pdf(lines)
        evidence.keep(desk.book.folder, "document", content)
        desk.enter("document", [values | asdict(documents.examine_bytes(content))], at)
    for kind, kept in (("agreement", agreed.AGREEMENTS), ("decision", agreed.DECISIONS)):
        cited = {one["reference"]: letters.KEPT_AS.get(one["reference"]) for one in kept}
        desk.change(kind, {name: {"kept_as": letter} for name, letter in cited.items() if letter}, at, DESK)
    desk.change("limit", {mark: {"said_in": letter} for mark, letter in letters.SAID_IN.items()}, at, DESK)
    stated = {one["mark"]: letters.STATED_IN.get(one.get("stated_source") or "") for one in rooms.FIXINGS}
    desk.change("fixing", {mark: {"stated_in": letter} for mark, letter in stated.items() if letter}, at, DESK)


def _put_up(desk: Desk, fittings: list[Values], fixings: list[Values]) -> None:
    """What went up is measured as it went up, on the phone; what came down, when it came down."""
    for kind, items in (("fixing", fixings), ("fitting", fittings)):
        for day in ("2025-05-06", "2025-05-07"):
            up = {item["mark"]: as_fitted(item) for item in items if item.get("fitted_on") == day}
            desk.change(kind, up, moment(day, "17:00"))
        down = {item["mark"]: as_taken_down(item) for item in items if item["state"] == "taken down"}
        desk.change(kind, down, moment("2026-02-10", "14:30"))


def _watch(desk: Desk) -> None:
    last = moment("2026-03-20", "10:00")
    for item in (*watched.SPOT_READINGS, *watched.OBSERVATIONS):
        desk.enter("observation" if "what" in item else "reading", [item], item["at"], PHONE)
    desk.enter("reading", watched.climate(), last)
    desk.enter("patch", rooms.PATCHES, last)
    file = logged.file()
    kept = {"sha256": evidence.keep(desk.book.folder, "log", file), "size_bytes": len(file)}
    desk.enter("log", [logged.LOG | kept], last)
    for kind, items in (("task", agreed.TASKS), ("visit", agreed.VISITS), ("cost", agreed.COSTS)):
        desk.enter(kind, items, last)


def _add_photographs(
    desk: Desk, say: Callable[[str], object], drawn: Callable[[], Iterable[tuple[Shot, bytes]]]
) -> None:
    say(f"Drawing {len(photographs.SHOTS)} photographs …")
    for number, (shot, content) in enumerate(drawn(), 1):
        values = asdict(kept_photographs.keep(desk.book, content)) | shot.values()
        desk.enter("photograph", [values], values["taken_at"], PHONE if shot.purpose != "receipt" else DESK)
        if number % 8 == 0:
            say(f"{number} photographs drawn …")
