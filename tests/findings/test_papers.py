"""Which documents a finding rests on: those that hold what decided it, and no others."""

from __future__ import annotations

from typing import Any

from fieldbook.book.gathering import gather
from fieldbook.findings.papers import source_of
from fieldbook.findings.plain import as_plain
from fieldbook.record.papers import citing, resting
from tests.findings.hung import BLOCK, CLAMP, HUNG, SCREW, STATED, found
from tests.findings.test_carriers import HOLD, SAID
from tests.sites import Surveyed


def paper(surveyed: Surveyed, reference: str, **more: Any) -> str:
    """A document of the site."""
    about = {"site": surveyed.site, "reference": reference, "name": "Plug", "sort": "data sheet", "sha256": "cd" * 32}
    return surveyed.book.write("document", about | more)


def rests_on(surveyed: Surveyed, question: str, called: str = "") -> list[list[str]]:
    """The references of the documents each finding of a question rests on."""
    return [[one.reference for one in finding.papers] for finding in found(surveyed, question, called)]


def test_stated_load_rests_on_the_document_that_states_it(surveyed: Surveyed) -> None:
    """Its source names the document, its plain form has its id, and the document is told who cites it."""
    sheet = paper(surveyed, "N1")
    rail = surveyed.fitting(**HUNG)
    surveyed.fixing(rail, x_mm=1200, z_mm=1250, **SCREW | STATED | {"stated_load_n": 500, "stated_in": sheet})
    (one,) = found(surveyed, "pull")
    assert source_of(one).endswith("; document N1, Plug")
    assert as_plain(one)["documents"] == [sheet]
    assert rests_on(surveyed, "shear") == [["N1"]]
    assert not any(rests_on(surveyed, "keep-off"))
    site = gather(surveyed.book, surveyed.site)
    assert [one.kind for one in citing(site, site[sheet])] == ["fixing"]
    assert resting(found(surveyed, "pull"), site[sheet]) == f"pull of {one.subject.called}"


def test_data_sheet_of_what_gave_way_is_not_rested_on(surveyed: Surveyed) -> None:
    """The pull that failed decides, and what its maker stated does not."""
    tested = {"tested_n": 100, "tested_held": 0, "tested_by": "fitter", "tested_on": "2026-02-04"}
    more = {"stated_load_n": 500, "stated_in": paper(surveyed, "N1")}
    surveyed.fixing(surveyed.fitting(**HUNG), x_mm=1200, z_mm=1250, **SCREW | STATED | tested | more)
    assert rests_on(surveyed, "pull") == [[]]


def test_pull_on_the_spot_rests_on_its_report(surveyed: Surveyed) -> None:
    """Where the pull decides; the hook's letter, which then decides nothing, is not named."""
    tested = {"tested_n": 900, "tested_held": 1, "tested_by": "fitter", "tested_on": "2026-02-04"}
    agreed = {"face": surveyed.face, "load_limit_n": 600, "load_stated_in": paper(surveyed, "N2")}
    hook = surveyed.book.write("hold", HOLD | SAID | agreed)
    more = {"hold": hook, "tested_in": paper(surveyed, "N6", sort="letter")}
    surveyed.fixing(surveyed.fitting(**HUNG), sort="hook", x_mm=1200, z_mm=1250, **tested | more)
    assert rests_on(surveyed, "pull") == rests_on(surveyed, "shear") == [["N6"]]
    assert rests_on(surveyed, "carrier") == [["N2"]]


def test_zone_and_limit_rest_on_the_letter_that_sets_them(surveyed: Surveyed) -> None:
    """What is held against either names the letter, also where it is over."""
    zone = paper(surveyed, "N7", sort="letter")
    surveyed.zone(outline=[[900, 900], [2000, 900], [2000, 1400], [900, 1400]], forbids=["drilling"], said_in=zone)
    surveyed.limit(sort="flat", projection_mm=5, said_in=paper(surveyed, "N8", sort="letter"))
    surveyed.fixing(surveyed.fitting(**HUNG), x_mm=1200, z_mm=1250, **SCREW)
    assert ["N7"] in rests_on(surveyed, "keep-off")
    assert ["N8"] in rests_on(surveyed, "clearance")
    site = gather(surveyed.book, surveyed.site)
    assert [one.kind for one in citing(site, site[zone])] == ["zone"]


def test_load_agreed_for_a_hook_rests_on_its_letter(surveyed: Surveyed) -> None:
    """For what hangs on it and for all that uses it together; not while it is not known for want of an entry."""
    agreed = {"face": surveyed.face, "load_limit_n": 600, "load_stated_in": paper(surveyed, "N2")}
    hook = surveyed.book.write("hold", HOLD | SAID | agreed)
    surveyed.fixing(surveyed.fitting(**HUNG), sort="hook", x_mm=1200, z_mm=1250, hold=hook)
    assert rests_on(surveyed, "carrier") == rests_on(surveyed, "pull") == [["N2"]]
    surveyed.book.write("hold", {"load_said_by": None}, item=hook)
    assert rests_on(surveyed, "carrier") == [[]]


def test_figure_of_a_material_rests_on_its_letter(surveyed: Surveyed) -> None:
    """The pressure of a jaw is held against what the letter says its substrate bears."""
    letter = paper(surveyed, "N3", sort="letter")
    surveyed.book.write("material", BLOCK | {"site": surveyed.site, "kept_as": letter})
    surveyed.fixing(surveyed.fitting(**HUNG), sort="clamp", **CLAMP)
    assert rests_on(surveyed, "pressure") == [["N3"]]


def test_yes_and_a_specialists_word_rest_on_their_letters(surveyed: Surveyed) -> None:
    """An agreement's letter stands with consent, an engineer's note with what it decides."""
    rail = surveyed.fitting(**HUNG)
    fixing = surveyed.fixing(rail, x_mm=1200, z_mm=1250, **SCREW)
    yes = {
        "site": surveyed.site,
        "reference": "A1",
        "items": [fixing],
        "answer": "yes",
        "words": "Yes.",
        "said_by": "x",
    }
    surveyed.book.write("agreement", yes | {"on": "2026-02-01", "kept_as": paper(surveyed, "N4", sort="letter")})
    word = {"site": surveyed.site, "reference": "E1", "items": [rail], "role": "structural engineer", "answer": "yes"}
    word |= {"question": "pull", "words": "As drawn.", "document": "Note 1", "on": "2026-01-02"}
    surveyed.book.write("decision", word | {"kept_as": paper(surveyed, "N5", sort="engineer’s note")})
    assert rests_on(surveyed, "consent", gather(surveyed.book, surveyed.site)[fixing].called) == [["N4"]]
    assert rests_on(surveyed, "pull") == [["N5"]]
