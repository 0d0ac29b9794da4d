"""Editions: numbered, dated, and told apart by what changed."""

from __future__ import annotations

import sys
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from fieldbook.book.gathering import gather
from fieldbook.record.compile import compile_record
from fieldbook.record.editions import EditionTaken, changes_since, edition_due, editions, issue_edition
from fieldbook.record.typesetting import typeset

MAY, JUNE = datetime(2026, 5, 1, tzinfo=UTC), datetime(2026, 6, 1, tzinfo=UTC)


@pytest.fixture
def issued(furnished):
    """A furnished site whose first edition was issued."""
    edition, _ = edition_due(furnished.book, gather(furnished.book, furnished.site), MAY)
    issue_edition(furnished.book, edition)
    return furnished


def changes(furnished):
    """What changed since the first edition: kind, title and how."""
    record = compile_record(furnished.book, furnished.site)
    return {(change.kind, change.title): change for change in record.changes}


def test_first_edition_is_number_one(furnished):
    """Editions count from one, and vouch for the state of the ledger they were made from."""
    edition, before = edition_due(furnished.book, gather(furnished.book, furnished.site), MAY)
    assert (edition.number, before) == (1, None)
    assert (edition.revision, edition.digest) == (furnished.book.revision(), furnished.book.digest())
    assert editions(furnished.book, furnished.site) == []


def test_edition_of_a_changed_book_is_the_next_one(issued):
    """After any change the next record is a new edition, and knows the one before it."""
    issued.book.write("fitting", {"note": "tapped, sounds firm"}, item=issued.ids["D1"])
    record = compile_record(issued.book, issued.site, now=JUNE)
    assert (record.edition.number, record.previous.number) == (2, 1)
    assert record.edition.made_at.startswith("2026-06-01")


def test_edition_printed_again_is_the_same_edition(issued):
    """Nothing changed: a second printing keeps number and date, and tells the same changes."""
    record = compile_record(issued.book, issued.site, now=JUNE)
    assert (record.edition.number, record.edition.made_at[:10], record.previous) == (1, "2026-05-01", None)
    issue_edition(issued.book, record.edition)
    assert len(editions(issued.book, issued.site)) == 1


class YearsLater(date):
    """A calendar on which four more years have gone by."""

    @classmethod
    def today(cls) -> date:
        """A day on which all that was to end has ended, and all that was to be done is overdue."""
        return date(2030, 6, 1)


def printed(record, book, folder):
    """All that goes to print: the pages, and what is drawn on them."""
    pages = typeset(record, book, folder)
    return pages.html, {address: Path(file["path"]).read_bytes() for address, file in pages.files.items()}


def test_edition_made_again_years_later_says_the_same(issued, tmp_path, monkeypatch):
    """An agreement that has ended since, and a word given until a day, stand in it as on the edition's own day."""
    book, ids = issued.book, issued.ids
    book.write("agreement", {"until": "2027-06-01"}, item=ids["A1"])
    book.write("fitting", {"moves_mm": 300}, item=ids["D1"])
    decided = {"question": "specialist", "role": "structural engineer", "answer": "yes", "words": "It holds."}
    about = {"site": issued.site, "items": [ids["D1"]], "reference": "E1", "document": "E1"}
    book.write("decision", decided | about | {"on": "2026-05-01", "until": "2027-06-01"})
    first = compile_record(book, issued.site, now=JUNE)
    issue_edition(book, first.edition)
    for module in [one for name, one in sys.modules.items() if name.startswith("fieldbook")]:
        if getattr(module, "date", None) is date:
            monkeypatch.setattr(module, "date", YearsLater)
    again = compile_record(book, issued.site)
    assert (again.standing, again.counts, again.consent) == (first.standing, first.counts, first.consent)
    assert printed(again, book, tmp_path) == printed(first, book, tmp_path)
    book.write("fitting", {"note": "looked at"}, item=ids["D1"])
    later = compile_record(book, issued.site, now=datetime(2030, 6, 1, tzinfo=UTC))
    assert later.standing[ids["A1"]] == "not agreed: it has ended"
    assert later.counts != first.counts


def test_edition_issued_meanwhile_is_not_overwritten(issued):
    """A number that went to another state of the book is refused, and that edition stays as it was."""
    (first,) = editions(issued.book, issued.site)
    with pytest.raises(EditionTaken) as refused:
        issue_edition(issued.book, replace(first, digest="0" * 64))
    assert refused.value.field == "edition"
    assert editions(issued.book, issued.site) == [first]


def test_changed_field_is_told_from_what_to_what(issued):
    """A changed field is named by its label, with its value before and after in words."""
    issued.book.write("fixing", {"fitted_x_mm": 1580, "fitted_z_mm": 1700}, item=issued.ids["D1.2"])
    issued.book.write("fixing", {"fitted_x_mm": 1584}, item=issued.ids["D1.2"])
    change = changes(issued)["fixing", "D1.2"]
    assert change.what == "changed"
    assert change.fields == (("As-fitted x", "nothing", "1584\u00a0mm"), ("As-fitted z", "nothing", "1700\u00a0mm"))


def test_items_that_came_and_went_are_told(issued):
    """What was added, withdrawn and brought back is told as such."""
    issued.book.write("task", {"site": issued.site, "what": "Oil the hinges"})
    issued.book.withdraw(issued.ids["D2"])
    found = changes(issued)
    assert found["task", "Oil the hinges"].what == "added"
    assert found["fitting", "D2 Panel"].what == "withdrawn"
    assert len(found) == 2


def test_item_brought_back_is_told(issued):
    """What the edition before had as withdrawn, and is there again, was brought back."""
    issued.book.withdraw(issued.ids["D2"])
    second, _ = edition_due(issued.book, gather(issued.book, issued.site), MAY)
    issue_edition(issued.book, second)
    issued.book.withdraw(issued.ids["D2"], withdraw=False)
    assert changes(issued)["fitting", "D2 Panel"].what == "brought back"


def test_change_taken_back_is_no_change(issued):
    """A field set and set back, or an item added and withdrawn, changed nothing between the editions."""
    issued.book.write("fitting", {"name": "Batten"}, item=issued.ids["D1"])
    issued.book.write("fitting", {"name": "Rail"}, item=issued.ids["D1"])
    issued.book.withdraw(issued.book.write("task", {"site": issued.site, "what": "Oil the hinges"}))
    assert changes(issued) == {}


def test_change_of_another_site_is_not_told(issued):
    """The other sites of a book stay out of it."""
    other = issued.book.write("site", {"name": "Weigh house"})
    issued.book.write("room", {"site": other, "name": "Loft"})
    site = gather(issued.book, issued.site)
    assert changes_since(issued.book, site, editions(issued.book, issued.site)[0], {}) == ()
