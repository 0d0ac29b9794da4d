"""The diary: care that comes round, next visits and ends of agreements, as a file that calendars take.

A later diary updates what an earlier one put into a calendar, and doubles nothing: each entry goes by the id of its
task, visit or agreement, and its sequence is the revision it was made from. What is no longer to be done is said to be
cancelled.

Source: RFC 5545, Internet Calendaring and Scheduling Core Object Specification, B. Desruisseaux, 2009: lines 3.1, text
3.3.11, recurrence 3.3.10, events 3.6.1, to-dos 3.6.2, sequence 3.8.7.4; RFC 7986, 5.1 (NAME) and 5.3 (UID).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import UTC, date, datetime, timedelta

from .. import __version__
from ..book import one_site
from ..book.book import Book
from ..book.site import Item, Site
from ..book.wording import figure

MOST_OCTETS = 75
LAST_IN_EVERY_MONTH = 28

IN_DIARY = ("task", "visit", "agreement")
Lines = list[tuple[str, str]]


def gone_from(book: Book, site: Site) -> list[Item]:
    """The tasks, visits and agreements that were withdrawn from a site."""
    mine = one_site.belonging(book, site.item.id)
    return [
        Item(kind, values["id"], values)
        for kind in IN_DIARY
        for values in book.items(kind, withdrawn=True)
        if values["id"] in mine and values["id"] not in site
    ]


def diary_of(site: Site, gone: Iterable[Item], revision: int, made_at: str) -> str:
    """The diary of a site as the text of one file.

    gone      tasks, visits and agreements that were withdrawn
    revision  of the ledger, which it is made from; made_at when, RFC 3339 with offset
    """
    stamp = datetime.fromisoformat(made_at).astimezone(UTC).strftime("%Y%m%dT%H%M%SZ")
    about = [("DTSTAMP", stamp), ("SEQUENCE", str(revision))]
    entries = [*_tasks(site), *_visits(site.all("visit")), *_agreements(site.all("agreement")), *_gone(gone)]
    lines = [("BEGIN", "VCALENDAR"), ("VERSION", "2.0"), ("PRODID", f"-//Fieldbook//Fieldbook {__version__}//EN")]
    lines += [("CALSCALE", "GREGORIAN"), ("METHOD", "PUBLISH"), ("NAME", _text(f"Care of {site.item.name}"))]
    for component, its_own in entries:
        place = [("LOCATION", _text(site.item.name))] if not any(name == "LOCATION" for name, _ in its_own) else []
        lines += [("BEGIN", component), *its_own, *place, *about, ("END", component)]
    return "".join(_folded(f"{name}:{value}") for name, value in [*lines, ("END", "VCALENDAR")])


def _text(words: str) -> str:
    """Words as a value: what would end it or begin another is escaped, other control characters are left out."""
    escaped = words.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,").replace("\n", "\\n")
    return "".join(letter for letter in escaped if letter.isprintable() or letter == "\u00a0")


def _folded(line: str) -> str:
    """A line in pieces of at most 75 octets, none of which parts a letter."""
    pieces, piece = [], b""
    for letter in line:
        octets = letter.encode()
        if len(piece) + len(octets) > MOST_OCTETS:
            pieces.append(piece)
            piece = b" "
        piece += octets
    return b"\r\n".join([*pieces, piece, b""]).decode()


def _day(name: str, iso: str) -> tuple[str, str]:
    return f"{name};VALUE=DATE", iso[:10].replace("-", "")


def _event(item: Item, summary: str, on: str, description: str = "", *more: tuple[str, str]) -> tuple[str, Lines]:
    following = (date.fromisoformat(on[:10]) + timedelta(days=1)).isoformat()
    days = [_day("DTSTART", on), _day("DTEND", following), ("TRANSP", "TRANSPARENT")]
    words = [("DESCRIPTION", _text(description))] if description else []
    return "VEVENT", [("UID", item.id), ("SUMMARY", _text(summary)), *days, *words, *more]


def _tasks(site: Site) -> Iterator[tuple[str, Lines]]:
    for task in site.all("task"):
        fitting = site.get(task.fitting)
        room = site.get(task.room) or (site.get(site[fitting.face].room) if fitting else None)
        summary = f"{task.what} ({fitting.title})" if fitting else task.what
        more: Lines = [("LOCATION", _text(f"{room.title}, {site.item.name}"))] if room else []
        if fitting is not None and not fitting.stands:
            yield _cancelled(task, summary)
        elif task.first_on is None:
            words = f"No first date is entered for it.\n{_how(task)}"
            yield "VTODO", [("UID", task.id), ("SUMMARY", _text(summary)), ("DESCRIPTION", _text(words)), *more]
        else:
            if task.every_months:
                more.append(("RRULE", _rule(task)))
            yield _event(task, summary, task.first_on, _how(task), *more)


def _rule(task: Item) -> str:
    """Every so many months on the day of the first; on the last day of a month that has no such day."""
    rule, day = f"FREQ=MONTHLY;INTERVAL={task.every_months}", date.fromisoformat(task.first_on).day
    if day <= LAST_IN_EVERY_MONTH:
        return rule
    days = ",".join(str(number) for number in range(LAST_IN_EVERY_MONTH, day + 1))
    return f"{rule};BYMONTHDAY={days};BYSETPOS=-1"


def _how(task: Item) -> str:
    told = (
        ("Caution", task.caution),
        ("Who", task.who),
        ("Time", figure(task.minutes, "min")),
        ("Tools and materials", task.tools),
        ("How", task.how),
    )
    return "\n".join(f"{label}: {words}" for label, words in told if words)


def _visits(visits: Iterable[Item]) -> Iterator[tuple[str, Lines]]:
    for visit in visits:
        if visit.next_on:
            yield _event(visit, "Next visit", visit.next_on, f"Said at the visit of {visit.on} ({visit.purpose}).")


def _agreements(agreements: Iterable[Item]) -> Iterator[tuple[str, Lines]]:
    for agreement in agreements:
        if agreement.until:
            words = f"{agreement.words}\nGiven by: {agreement.said_by}. What it covers is to be agreed again."
            yield _event(agreement, f"Agreement {agreement.reference} ends", agreement.until, words)


def _gone(gone: Iterable[Item]) -> Iterator[tuple[str, Lines]]:
    for item in gone:
        yield _cancelled(item, item.title)


def _cancelled(item: Item, summary: str) -> tuple[str, Lines]:
    name, lines = _event(item, summary, item.values.get("first_on") or item.values.get("on") or "1970-01-01")
    return name, [*lines, ("STATUS", "CANCELLED")]
