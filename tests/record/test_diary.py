"""The diary, as a calendar program reads it."""

from __future__ import annotations

import datetime
from typing import Any

import icalendar
import pytest
import recurring_ical_events

from fieldbook.book.book import Book
from fieldbook.book.gathering import gather
from fieldbook.book.site import Item, Site
from fieldbook.findings.due import ANSWERS, uid_of
from fieldbook.record.diary import diary_of
from tests.record.conftest import HandedOver
from tests.record.furnished import furnish
from tests.sites import Surveyed

AT = "2026-05-30T11:20:00+01:00"


def read(text: str) -> icalendar.Calendar:
    """The file as another program reads it; its lines are as RFC 5545, 3.1 wants them."""
    lines = text.split("\r\n")
    assert lines.pop() == ""
    assert all(len(line.encode()) <= 75 and "\n" not in line and "\r" not in line for line in lines)
    return icalendar.Calendar.from_ical(text)


def diary(site: Site, *gone: Item, revision: int = 7, first: bool = False) -> icalendar.Calendar:
    """The diary of a site."""
    return read(diary_of(site, gone, revision, AT, first=first))


def entries(calendar: icalendar.Calendar) -> dict[str, Any]:
    """UID -> entry."""
    found = [one for one in calendar.walk() if one.name in {"VEVENT", "VTODO"}]
    by_uid = {str(one["UID"]): one for one in found}
    assert len(by_uid) == len(found)
    return by_uid


def days(calendar: icalendar.Calendar, first: str, last: str) -> list[datetime.date]:
    """The days on which something is due."""
    span = (datetime.date.fromisoformat(first), datetime.date.fromisoformat(last))
    return sorted(one["DTSTART"].dt for one in recurring_ical_events.of(calendar).between(*span))


def test_task_comes_round_with_what_to_do_tools_and_caution(empty_book: Book) -> None:
    """Each half year from its first day, with all that its card says."""
    site = gather(empty_book, furnish(empty_book).site)
    task = site.all("task")[0]
    made = diary(site)
    event = entries(made)[task.id]
    assert str(event["SUMMARY"]) == "Dust the rail (D1 Rail)"
    for words in ("Caution: Not on a chair.", "caretaker", "15", "dry brush", "From above, without a ladder."):
        assert words in str(event["DESCRIPTION"])
    assert "R1 Weighing hall" in str(event["LOCATION"])
    assert event["DTSTAMP"].dt == datetime.datetime(2026, 5, 30, 10, 20, tzinfo=datetime.UTC)
    due = days(made, "2026-10-01", "2028-06-01")
    assert [day.isoformat() for day in due] == ["2026-11-01", *["2027-05-01"] * 2, "2027-11-01", "2028-05-01"]


@pytest.mark.parametrize(
    ("first", "expected"),
    [
        ("2026-08-31", ["2026-08-31", "2026-11-30", "2027-02-28", "2027-05-31"]),
        ("2027-11-30", ["2027-11-30", "2028-02-29", "2028-05-30", "2028-08-30"]),
        ("2026-02-28", ["2026-02-28", "2026-05-28", "2026-08-28", "2026-11-28"]),
    ],
)
def test_day_that_a_month_lacks_is_its_last(surveyed: Surveyed, first: str, expected: list[str]) -> None:
    """No month is left out because it is short (RFC 5545, 3.3.10 skips days that are not there)."""
    surveyed.book.write(
        "task", {"site": surveyed.site, "what": "Look", "every_months": 3, "first_on": first, "who": "keeper"}
    )
    found = days(diary(gather(surveyed.book, surveyed.site)), first, expected[-1][:8] + "28")
    assert [day.isoformat() for day in found][:3] == expected[:3]
    following = days(diary(gather(surveyed.book, surveyed.site)), expected[-1], "2028-09-01")
    assert following[0].isoformat() == expected[-1]


def test_later_diary_updates_and_doubles_nothing(surveyed: Surveyed) -> None:
    """The same UID with a higher sequence; what was withdrawn, or whose fitting is down, is cancelled."""
    book, site = surveyed.book, surveyed.site
    rail = surveyed.fitting(state="fitted", fitted_on="2026-01-02")
    first = {"site": site, "every_months": 6, "first_on": "2026-11-01", "who": "keeper"}
    kept, gone, of_rail = (
        book.write("task", first | {"what": what} | more)
        for what, more in (("Dust", {}), ("Wax", {}), ("Tighten", {"fitting": rail}))
    )
    before = entries(diary(gather(book, site), revision=book.revision()))
    book.write("task", {"what": "Dust with a soft brush"}, kept)
    book.withdraw(gone)
    book.write("fitting", {"state": "taken down", "taken_down_on": "2026-05-01"}, rail)
    withdrawn = Item("task", gone, book.item(gone)[1])
    after = entries(diary(gather(book, site), withdrawn, revision=book.revision()))
    answers = answers_in(gather(book, site))
    assert after.keys() == before.keys() == {kept, gone, of_rail, *answers}
    assert all(int(after[uid]["SEQUENCE"]) > int(before[uid]["SEQUENCE"]) for uid in before)
    assert str(after[kept]["SUMMARY"]) == "Dust with a soft brush"
    assert {uid for uid, one in after.items() if one.get("STATUS") == "CANCELLED"} == {gone, of_rail, *answers}


def test_what_is_over_stands_in_it_until_it_is_not(surveyed: Surveyed) -> None:
    """What stands where it may not is one entry of its day for the site; settled, the same entry is cancelled."""
    book, site = surveyed.book, surveyed.site
    zone = surveyed.zone()
    surveyed.fixing(surveyed.fitting(state="fitted", x_mm=0, z_mm=20), state="fitted", x_mm=60, z_mm=60)
    before = entries(diary(gather(book, site)))
    (uid,) = answers_in(gather(book, site))
    assert before[uid].get("STATUS") is None
    assert "D1" in str(before[uid]["SUMMARY"])
    assert "inside K1" in str(before[uid]["DESCRIPTION"])
    book.write("zone", {"forbids": ["heat"]}, zone)
    after = entries(diary(gather(book, site), revision=book.revision()))
    assert (after.keys(), after[uid]["STATUS"]) == (before.keys(), "CANCELLED")
    assert after[uid]["DTSTART"].dt == datetime.date(2026, 5, 30)  # the diary's, for want of a day of its own


def answers_in(site: Site) -> set[str]:
    """The id of what is told of all that is up or was."""
    return {uid_of(site.item, ANSWERS)}


def test_first_diary_cancels_nothing(surveyed: Surveyed) -> None:
    """Of what is settled, met, seen to or withdrawn before any diary was handed over, none says a word."""
    book, site = surveyed.book, surveyed.site
    rail = surveyed.fitting(state="fitted", fitted_on="2026-01-02")
    fixing = surveyed.fixing(rail, state="fitted", looked_at_on="2027-01-02")
    met = {"site": site, "reference": "A1", "answer": "yes", "words": "Clamps.", "said_by": "keeper"}
    book.write("agreement", met | {"on": "2026-01-02", "conditions": "On cork.", "conditions_met": "yes"})
    book.withdraw(fixing)
    gone = Item("fixing", fixing, book.item(fixing)[1])
    assert entries(diary(gather(book, site), gone, first=True)) == {}
    assert len(entries(diary(gather(book, site), gone))) == 3


def test_what_was_withdrawn_and_never_due_is_not_cancelled(surveyed: Surveyed) -> None:
    """A fixing nobody was to look at and a visit without a next one were in no diary."""
    book, site = surveyed.book, surveyed.site
    visit = book.write("visit", {"site": site, "purpose": "survey", "on": "2026-01-02"})
    ids = [surveyed.fixing(surveyed.fitting()), visit]
    gone = [Item(*found) for kind, values in map(book.item, ids) for found in [(kind, values["id"], values)]]
    assert entries(diary(gather(book, site), *gone)) == {}


def test_task_without_a_first_day_is_something_to_do_without_a_date(surveyed: Surveyed) -> None:
    """No day is made up for it; it says that none is entered."""
    task = surveyed.book.write("task", {"site": surveyed.site, "what": "Oil the hinge", "every_months": 12})
    entry = entries(diary(gather(surveyed.book, surveyed.site)))[task]
    assert (entry.name, "DTSTART" in entry) == ("VTODO", False)
    assert "No first date is entered" in str(entry["DESCRIPTION"])


def test_end_of_an_agreement_and_next_visit_stand_in_it(surveyed: Surveyed) -> None:
    """What must be asked again is in the keeper's calendar."""
    book, site = surveyed.book, surveyed.site
    values = {"site": site, "reference": "A1", "answer": "yes", "words": "Clamps.", "said_by": "keeper"}
    book.write("agreement", values | {"on": "2026-01-02", "until": "2027-01-31"})
    book.write("visit", {"site": site, "purpose": "inspection", "on": "2026-01-02", "next_on": "2027-02-01"})
    found = days(diary(gather(book, site)), "2026-01-01", "2028-01-01")
    assert [day.isoformat() for day in found] == ["2027-01-31", "2027-02-01"]


@pytest.mark.parametrize(
    "words", ["END:VEVENT", "=cmd|' /C calc'!A0", "a;b,c \\ d", "ATTENDEE:mailto:x", "北の壁" * 40, "<b>"]
)
def test_hostile_words_come_out_as_they_went_in(surveyed: Surveyed, words: str) -> None:
    """No text ends an entry, begins another or adds a line to it."""
    how = f"{words}\nEND:VEVENT\nBEGIN:VALARM\n{words}"
    values = {"site": surveyed.site, "what": "Look", "first_on": "2026-11-01", "how": how}
    task = surveyed.book.write("task", values)
    made = diary(gather(surveyed.book, surveyed.site))
    assert [one.name for one in made.walk()] == ["VCALENDAR", "VEVENT"]
    assert str(entries(made)[task]["DESCRIPTION"]) == f"How: {how}"


def test_diary_in_the_folder_has_the_dates_of_the_tables(handed_over: HandedOver) -> None:
    """First days of tasks and days of next visits are those the record was made of; a condition that is met is off."""
    text = (handed_over.folder / "data" / "diary.ics").read_bytes().decode()
    made = {uid: entry for uid, entry in entries(read(text)).items() if entry.get("STATUS") != "CANCELLED"}
    entered = {uid: entry for uid, entry in made.items() if "eeds attention" not in str(entry["SUMMARY"])}
    told = {uid: entry["DTSTART"].dt.isoformat() for uid, entry in entered.items()}
    expected = {task.id: task.first_on for task in handed_over.record.tasks}
    assert told == expected | {visit.id: visit.next_on for visit in handed_over.record.visits}


def test_what_was_done_moves_on_and_nothing_is_doubled(surveyed: Surveyed) -> None:
    """Care stands from its next round, on the day of its first; a patch has two days, a finding goes when seen to."""
    book, site = surveyed.book, surveyed.site
    rail = surveyed.fitting(state="fitted", fitted_on="2026-01-02")
    task = book.write("task", {"site": site, "what": "Dust", "every_months": 3, "first_on": "2025-11-30"})
    patch = {"face": surveyed.face, "mark": "T1", "material": "felt", "laid_against": "limewash"}
    book.write("patch", patch | {"laid_on": "2025-11-30"})
    seen = {"room": surveyed.room, "fitting": rail, "what": "Rust", "at": "2026-05-01T10:00+01:00"}
    rust = book.write("observation", seen | {"urgency_class": "2"})
    before = entries(diary(gather(book, site)))
    work = {"site": site, "sort": "care", "on": "2026-03-02", "outcome": "done"}
    book.write("work", work | {"what": "Dust", "task": task})
    book.write("work", work | {"what": "Oiled", "observation": rust})
    made = diary(gather(book, site), revision=book.revision())
    after = entries(made)
    assert after.keys() == before.keys()
    assert [before[task]["DTSTART"].dt.isoformat(), after[task]["DTSTART"].dt.isoformat()] == [
        "2025-11-30",
        "2026-05-30",
    ]
    assert {uid for uid, one in after.items() if one.get("STATUS") == "CANCELLED"} == {
        rust,
        *answers_in(gather(book, site)),
    }
    found = [day.isoformat() for day in days(made, "2025-12-01", "2026-12-01")]  # what is cancelled has its day as well
    assert found == ["2026-02-28", "2026-05-30", "2026-05-30", "2026-06-01", "2026-08-30", "2026-11-30", "2026-11-30"]
