"""The diary: all that is due, as a file that calendars take.

A later diary updates what an earlier one put into a calendar, and doubles nothing: each entry goes by the id of its
task, visit or agreement, and its sequence is the revision it was made from. What is no longer to be done is said to be
cancelled, but in a site's first diary, before which there was nothing to cancel. Care stands from the round that comes
after what was done, so that a round that was missed stays in sight.

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
from ..book.wording import day, figure
from ..findings.due import ANSWERS, PATCH_MONTHS, URGENT_MONTHS, Due, all_due, room_of, uid_of

MOST_OCTETS = 75
LAST_IN_EVERY_MONTH = 28

IN_DIARY = ("task", "visit", "agreement", "patch", "fixing", "observation")
Lines = list[tuple[str, str]]


def gone_from(book: Book, site: Site) -> list[Item]:
    """What was in the diary and was withdrawn from a site."""
    mine = one_site.belonging(book, site.item.id)
    return [
        Item(kind, values["id"], values)
        for kind in IN_DIARY
        for values in book.items(kind, withdrawn=True)
        if values["id"] in mine and values["id"] not in site
    ]


def diary_of(site: Site, gone: Iterable[Item], revision: int, made_at: str, *, first: bool = False) -> str:
    """The diary of a site as the text of one file.

    gone      what was in it and was withdrawn
    revision  of the ledger, which it is made from; made_at when, RFC 3339 with offset
    first     whether none was handed over before
    """
    stamp = datetime.fromisoformat(made_at).astimezone(UTC).strftime("%Y%m%dT%H%M%SZ")
    about = [("DTSTAMP", stamp), ("SEQUENCE", str(revision))]
    today = date.fromisoformat(made_at[:10])
    due = list(all_due(site, today))
    told = [one for one in due if one.sort != "answer" and (one.open or (one.on is not None and not first))]
    entries = [*(_entry(site, one, today) for one in told), *_answers(site, due, today, first=first)]
    entries += () if first else _gone(gone, today)
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


def _day(name: str, on: date) -> tuple[str, str]:
    return f"{name};VALUE=DATE", on.isoformat().replace("-", "")


def _event(uid: str, summary: str, on: date, description: str = "", *more: tuple[str, str]) -> tuple[str, Lines]:
    days = [_day("DTSTART", on), _day("DTEND", on + timedelta(days=1)), ("TRANSP", "TRANSPARENT")]
    words = [("DESCRIPTION", _text(description))] if description else []
    return "VEVENT", [("UID", uid), ("SUMMARY", _text(summary)), *days, *words, *more]


def _entry(site: Site, one: Due, today: date) -> tuple[str, Lines]:
    at, room = one.about, room_of(site, one.about)
    named = at is not None and at.kind != "room" and at.called not in one.what
    summary = f"{one.what} ({at.title if at else ''})" if named else one.what
    more: Lines = [("LOCATION", _text(f"{room.title}, {site.item.name}"))] if room else []
    if not one.open:
        return _cancelled(one.uid, summary, one.on or today)
    if one.on is None:
        words = f"No first date is entered for it.\n{_words(one)}"
        return "VTODO", [("UID", one.uid), ("SUMMARY", _text(summary)), ("DESCRIPTION", _text(words)), *more]
    if one.every:
        more.append(("RRULE", _rule(one.every, one.item.first_on or one.on.isoformat())))
    return _event(one.uid, summary, one.on, _words(one), *more)


def _rule(every_months: int, first_on: str) -> str:
    """Every so many months on the day of the first; on the last day of a month that has no such day."""
    rule, day = f"FREQ=MONTHLY;INTERVAL={every_months}", date.fromisoformat(first_on).day
    if day <= LAST_IN_EVERY_MONTH:
        return rule
    days = ",".join(str(number) for number in range(LAST_IN_EVERY_MONTH, day + 1))
    return f"{rule};BYMONTHDAY={days};BYSETPOS=-1"


def _words(one: Due) -> str:
    """What is to be known when it is done."""
    item = one.item
    if one.sort == "care":
        why = f"It was not done when it was due: {one.why_not}" if one.why_not else ""
        return "\n".join(filter(None, (why, _how(item))))
    if one.sort == "visit":
        return f"Said at the visit of {day(item.on)} ({item.purpose})."
    if one.sort == "agreement":
        return f"{item.words}\nGiven by: {item.said_by}. What it covers is to be agreed again."
    if one.sort == "condition":
        return f"{item.words}\nGiven by: {item.said_by}."
    words = (item.words or "") if one.sort == "finding" else ""
    return "\n".join(filter(None, (words, f"Who: {one.by}" if one.by else "")))


def _how(task: Item) -> str:
    told = (
        ("Caution", task.caution),
        ("Who", task.who),
        ("Time", figure(task.minutes, "min")),
        ("Tools and materials", task.tools),
        ("How", task.how),
    )
    return "\n".join(f"{label}: {words}" for label, words in told if words)


def _answers(site: Site, due: Iterable[Due], today: date, *, first: bool) -> Iterator[tuple[str, Lines]]:
    """All that stands and is refused or over, in one entry: one each would mostly be cancelled without having been."""
    asked = [one for one in due if one.sort == "answer"]
    wrong = [one for one in asked if one.open]
    uid = uid_of(site.item, ANSWERS)
    if wrong:
        summary = f"Needs attention: {', '.join(one.item.called for one in wrong)}"
        by = f"Who: {wrong[0].by}" if wrong[0].by else ""
        yield _event(uid, summary, today, "\n".join(filter(None, (*(one.what for one in wrong), by))))
    elif asked and not first:
        yield _cancelled(uid, "Nothing that stands is refused or over", today)


def _gone(gone: Iterable[Item], today: date) -> Iterator[tuple[str, Lines]]:
    for item in gone:
        said = (
            item.values.get("first_on") or item.values.get("on") or item.values.get("laid_on") or item.values.get("at")
        )
        on = date.fromisoformat(said[:10]) if said else today
        yield from (_cancelled(uid, item.title, on) for uid in _brought(item))


def _brought(item: Item) -> list[str]:
    """The ids of the entries an item brought, each of which is due by a field of its own."""
    if item.kind == "patch":
        return [uid_of(item, f"{months} months") for months in PATCH_MONTHS]
    due = {
        "task": True,
        "visit": item.values.get("next_on"),
        "agreement": item.values.get("until"),
        "fixing": item.values.get("looked_at_on"),
        "observation": item.values.get("urgency_class") in URGENT_MONTHS,
    }
    conditions = item.kind == "agreement" and item.values.get("conditions")
    return [*([item.id] if due[item.kind] else []), *([uid_of(item, "conditions")] if conditions else [])]


def _cancelled(uid: str, summary: str, on: date) -> tuple[str, Lines]:
    name, lines = _event(uid, summary, on)
    return name, [*lines, ("STATUS", "CANCELLED")]
