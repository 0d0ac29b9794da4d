"""What is done once things are up: each entry stands in the record's next edition, and once for good in the diary."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path
from typing import Any

from fieldbook.book.gathering import gather
from fieldbook.findings.due import due_on
from fieldbook.record.compile import compile_record
from fieldbook.record.diary import diary_of, gone_from
from fieldbook.record.typesetting import typeset
from tests.sites import Surveyed

STROKES = [[0, 0, 0], [40, 30, 0], [60, 5, 1]]
CARD = {"mark": "P1", "name": "Rail green", "sort": "oil paint", "lab_l": 42, "lab_a": -18, "lab_b": 9}


def test_each_entry_of_three_years_stands_in_the_next_edition_and_once_in_the_diary(
    surveyed: Surveyed, tmp_path: Path
) -> None:
    """Rounds, a nut, a touch-up, a colour, a knock, phase two, all down and signed for: none is lost, none doubled."""
    book, site = surveyed.book, surveyed.site

    def enter(kind: str, **values: Any) -> str:
        return book.write(kind, values)

    def edition() -> str:
        record = compile_record(book, site)
        folder = tmp_path / str(book.revision())
        folder.mkdir()
        html = typeset(record, book, folder).html
        return re.sub(r"\s+", " ", re.sub(r"<[^>]*>", " ", html))

    def diary(day: str) -> dict[str, str]:
        text = diary_of(gather(book, site), gone_from(book, gather(book, site)), book.revision(), f"{day}T12:00:00Z")
        text = text.replace("\r\n ", "")
        uids = re.findall(r"^UID:(\S+)", text, re.MULTILINE)
        assert len(uids) == len(set(uids))
        return {uid: entry for entry in text.split("BEGIN:VEVENT")[1:] for uid in re.findall(r"UID:(\S+)", entry)}

    finish = enter("finish", site=site, lab_white="D50", **CARD)
    rail = surveyed.fitting(state="fitted", fitted_on="2026-05-31", phase="1", finishes=[finish])
    clamp = surveyed.fixing(rail, state="fitted", torque_nm=2.5, looked_at_on="2027-05-31")
    task = enter("task", site=site, what="Dust the rail", fitting=rail, every_months=6, first_on="2026-11-30")
    first = diary("2026-06-01")
    assert {task, clamp} <= first.keys()

    of_rail = {"room": surveyed.room, "face": surveyed.face, "fitting": rail}
    rust = enter("observation", what="Rust at the first clamp", at="2027-05-31T10:00Z", urgency_class="2",
                 occasion="inspection", **of_rail)  # fmt: skip
    work = {"site": site, "outcome": "done", "by": "joiner", "fitting": rail}
    enter("work", what="Nipped up the nut", sort="tightening", on="2027-05-31", fixing=clamp, torque_before_nm=1.5,
          torque_after_nm=2.5, **work)  # fmt: skip
    enter("work", what="Dust the rail", sort="care", task=task, on="2027-05-31", **work)
    enter("reading", room=surveyed.room, face=surveyed.face, fitting=rail, fixing=clamp, of="gap", quantity="distance",
          value=12, unit="mm", uncertainty=0.5, at="2027-05-31T10:00Z")  # fmt: skip
    text = edition()
    for words in ("Rust at the first clamp", "Nipped up the nut", "Dust the rail"):
        assert words in text
    second = diary("2027-06-01")
    assert first.keys() <= second.keys()
    assert {rust} == second.keys() - first.keys()
    assert "STATUS:CANCELLED" in second[clamp]
    assert "20271130" in second[task]

    enter("work", what="Touched up the edge", sort="touch-up", finish=finish, on="2028-02-29", batch="B7",
          observation=rust, used="fine brush", **work)  # fmt: skip
    enter("reading", room=surveyed.room, face=surveyed.face, fitting=rail, fixing=clamp, of="gap", quantity="distance",
          value=15, unit="mm", uncertainty=0.5, at="2028-02-29T10:00Z")  # fmt: skip
    enter("colour", finish=finish, fitting=rail, on="2028-02-29", lab_l=44, lab_a=-17, lab_b=9, lab_white="D50")
    knock = enter("observation", what="A knock: a trolley", at="2028-08-31T10:00Z", urgency_class="3",
                  occasion="something happened", happened="a knock", **of_rail)  # fmt: skip
    lamp = surveyed.fitting(mark="D3", name="Lamp", state="fitted", phase="2", covers=[rail], x_mm=2500)
    text = edition()
    for words in ("Touched up the edge", "B7", "CIEDE2000", "A knock: a trolley", "D3 Lamp"):
        assert words in text
    third = diary("2028-09-01")
    assert second.keys() <= third.keys()
    assert "STATUS:CANCELLED" in third[rust]
    assert "STATUS" not in third[knock]

    for one in (lamp, rail):
        book.write("fitting", {"state": "taken down", "taken_down_on": "2029-05-31", "went_to": "store"}, one)
    book.write("fixing", {"state": "taken down", "taken_down_on": "2029-05-31", "trace_found": "none"}, clamp)
    enter("statement", site=site, reference="L1", items=[rail, lamp], on="2029-05-31", fitter="joiner",
          keeper="caretaker", fitter_signature=STROKES, signature=STROKES)  # fmt: skip
    text = edition()
    assert "Nothing is on these walls now. 2 have been taken down again." in text
    assert "D1.1 : none; found: none" in text.replace("D1.1:", "D1.1 :")
    assert "it had moved, and was still moving" in text
    assert "No regular care is left" in text
    assert re.search(r"L1 .{1,200}signed by both", text)
    for untrue in ("still moves", "no things", "come off one day", "[["):
        assert untrue not in text
    last = diary("2029-06-01")
    assert third.keys() <= last.keys()
    assert [uid for uid, entry in last.items() if "STATUS:CANCELLED" not in entry] == []
    assert due_on(gather(book, site), date(2029, 6, 1)) == []
