"""Every calculation can be done by hand on a page, without scripts, and says how to do it again."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from html import unescape
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from werkzeug.test import TestResponse

from fieldbook.book.wording import kept_together
from fieldbook.calculations.catalogue import CALCULATIONS, calculate
from fieldbook.checks.verdict import Verdict, Word
from fieldbook.model.fields import Type
from fieldbook.web.forms.of_calculation import in_the_address, input_named
from fieldbook.web.shown.commands import command_for, command_for_file
from fieldbook.web.shown.reckoned import in_figures, label_of, reckoned
from tests.web.conftest import Desk, messages, shown

LOGGED = "when;RH %\n" + "\n".join(f"2025-01-{day:02} 12:00;{40 + day},5" for day in range(1, 29))
HOSTILE = ("", "x", "1e999", "NaN", "-5", "\x00", "<b>", "1;2;3;4;5;6;7;8;9;10;11;12;13", "9" * 5000, "١٢", "a\nb\nc")


def example(desk: Desk, name: str) -> dict[str, str]:
    """The example of a calculation as its form holds it."""
    with desk.app.test_request_context():
        return in_the_address(CALCULATIONS[name], CALCULATIONS[name].example)


def asked(desk: Desk, name: str, data: dict[str, Any]) -> TestResponse:
    """Send a calculation's form the way it is sent."""
    address = f"/calculations/{name}"
    return desk.get(address, query_string=data) if CALCULATIONS[name].is_short else desk.post(address, data)


def test_list_names_every_calculation_with_its_sentence(desk: Desk) -> None:
    """Each leads to its page."""
    page = desk.get("/calculations").text
    for calculation in CALCULATIONS.values():
        assert f'href="/calculations/{calculation.name}"' in page
        assert calculation.sentence in unescape(page)
        assert f">{calculation.heading}<" in unescape(page)
        assert f"<h1>{calculation.heading}</h1>" in unescape(desk.get(f"/calculations/{calculation.name}").text)


@pytest.mark.parametrize("name", CALCULATIONS)
def test_example_is_answered_with_every_figure_and_the_command(desk: Desk, name: str) -> None:
    """The page shows what the calculation gives, and the command line that gives it again."""
    answer = desk.get(f"/calculations/{name}", query_string=example(desk, name))
    assert answer.status_code == 200
    page = unescape(answer.text)
    told = reckoned(calculate(name, CALCULATIONS[name].example))
    for label, value in told.figures:
        assert f"<dt>{label}</dt>" in page
        assert value in page
    for verdict in told.verdicts:
        assert kept_together(verdict.own_sentence) in page
    for _, words in told.notes:
        assert words in page
    assert f"| fieldbook calc {name}</pre>" in page


@pytest.mark.parametrize("name", CALCULATIONS)
def test_every_input_has_a_label_and_its_unit(desk: Desk, name: str) -> None:
    """No key is asked for by its name alone."""
    page = unescape(desk.get(f"/calculations/{name}").text)
    for field in CALCULATIONS[name].fields:
        assert re.search(rf'<label for="{re.escape(field.name)}">{re.escape(field.label)}', page), field.name
        if field.unit:
            assert f'<span class="unit">{field.unit}</span>' in page


@pytest.mark.parametrize("name", CALCULATIONS)
def test_what_cannot_be_reckoned_comes_back_as_it_was_typed(desk: Desk, name: str) -> None:
    """Nonsense in every input is refused beside the inputs, and nothing of it is lost."""
    fields = CALCULATIONS[name].fields
    texts = [field.name for field in fields if not field.choices and field.type is not Type.YES_NO]
    for typed in HOSTILE:
        answer = asked(desk, name, {field.name: typed for field in fields})
        assert answer.status_code in {200, 422}, typed
        assert (answer.status_code == 422) == ('id="refused"' in answer.text)
        kept = shown(answer.text)
        assert {kept[one].replace("\r", "").strip() for one in texts} == {typed.strip()}


def test_short_question_is_asked_in_the_address_and_a_long_one_posted_with_a_token(desk: Desk) -> None:
    """A link can carry a short one; a post without its token comes back with all that was typed."""
    assert 'method="get"' in desk.get("/calculations/air").text
    assert 'method="post"' in desk.get("/calculations/packers").text
    typed = example(desk, "packers")
    assert desk.post("/calculations/packers", typed).status_code == 200
    desk.app.config["WTF_CSRF_ENABLED"] = True
    answer = desk.checked(desk.client.post("/calculations/packers", data=typed))
    assert answer.status_code == 422
    assert shown(answer.text)["points_mm"] == typed["points_mm"]


@pytest.mark.parametrize(
    ("name", "changed", "field"),
    [
        ("air", {"humidity_pct": "0,5"}, "humidity_pct"),
        ("moisture", {"moisture_content_pct": "9"}, "humidity_pct"),
        ("movement", {"species": "unobtainium"}, "species"),
        ("movement", {"species": ""}, "species"),
        ("packers", {"points_mm": "0 0 1e8"}, "points_mm"),
        ("projection", {"layers": "rail; -3; 0"}, "layers"),
        ("yield", {"stock.kerf_mm": "99"}, "stock.kerf_mm"),
        ("yield", {"parts": "shelf; 9000; 300; 1"}, "parts"),
        ("keep-off", {"point_mm": "1 2\n3 4"}, "point_mm"),
        ("level", {"readings": "1; A; 1320"}, "readings"),
        ("light", {"blue_wool": "", "uv_filtered": "yes"}, "uv_filtered"),
        ("lifting", {"hands_mm": ""}, "zone"),
        ("humidity-band", {"columns.humidity": "damp"}, None),
        ("humidity-band", {"csv": "when;RH %\n2025-01-01;wet"}, "csv"),
        ("removal", {"items": "rail; panel"}, "items"),
    ],
)
def test_refusal_of_a_calculation_stands_beside_the_input_it_is_about(
    desk: Desk, name: str, changed: dict[str, str], field: str | None
) -> None:
    """It is said in the words of the labels, and the other inputs stay as they were."""
    typed = example(desk, name) | changed
    answer = asked(desk, name, typed)
    assert answer.status_code == 422
    found = messages(answer)
    assert set(found) == ({field} if field else set())
    assert not any(re.search(r"\w+_(mm|pct|c|n|kg)\b", text) for text in found.values())
    assert {key: text for key, text in shown(answer.text).items() if text} | {"csrf_token": ""} == {
        key: text for key, text in typed.items() if text
    } | {"csrf_token": ""}


def test_layout_of_parts_is_drawn(desk: Desk) -> None:
    """What comes out of what is seen, not only counted; other calculations have no drawing."""
    assert "Cutting plan of Parts" in desk.get("/calculations/yield", query_string=example(desk, "yield")).text
    lengths = {"parts": "batten; 798; ; 3", "stock.length_mm": "2400", "stock.kerf_mm": "3"}
    assert "comes out of 1" in desk.get("/calculations/yield", query_string=lengths).text
    assert "<svg" not in desk.get("/calculations/light", query_string={}).text.partition("<main")[2]


def test_file_of_a_logger_is_read_as_it_was_sent(desk: Desk) -> None:
    """A chosen file goes before what is pasted, in whichever way its program wrote letters."""
    columns = {"columns.time": "when", "columns.humidity": "RH %"}
    for encoding in ("utf-8", "utf-8-sig", "cp1252"):
        sent = {"csv_file": (BytesIO(f"{LOGGED}\nWärme;".encode(encoding)[: -len("\nWärme;")]), "r1.csv")}
        answer = desk.post("/calculations/humidity-band", columns | sent)
        assert answer.status_code == 200, messages(answer)
        assert "&lt; r1.csv | fieldbook calc humidity-band" in answer.text


def test_missing_file_is_asked_for(desk: Desk) -> None:
    """Neither file nor text is no record."""
    answer = desk.post("/calculations/humidity-band", {"columns.time": "when", "columns.humidity": "RH %"})
    assert set(messages(answer)) == {"csv"}


def test_unknown_calculation_is_not_there(desk: Desk) -> None:
    """404, not a failure."""
    assert desk.get("/calculations/alchemy").status_code == 404


def test_command_does_what_the_page_did(tmp_path: Path) -> None:
    """A shell runs it as it stands, quotation marks and all."""
    payload = {"items": [{"name": "keeper's shelf; $HOME"}]}
    assert _run(command_for("removal", payload), tmp_path) == calculate("removal", payload)
    (tmp_path / "it's.csv").write_text(LOGGED, encoding="utf-8")
    given = {"csv": LOGGED, "columns": {"time": "when", "humidity": "RH %"}}
    assert _run(command_for_file("humidity-band", given, "it's.csv"), tmp_path) == calculate("humidity-band", given)


def _run(command: str, folder: Path) -> object:
    """What a command line answers, with this checkout's program in the place of an installed one."""
    here = Path(__file__).resolve().parents[3]
    program = f"'{sys.executable}' -m fieldbook calc"
    line = command.replace("fieldbook calc", program).replace("python3 -c", f"'{sys.executable}' -c")
    done = subprocess.run(
        ["sh", "-c", line], cwd=folder, env={"PYTHONPATH": str(here)}, capture_output=True, text=True, check=True
    )
    return json.loads(done.stdout)


@pytest.mark.parametrize(
    ("name", "key", "field", "label"),
    [
        ("clamp", "friction", "friction", "“Friction”"),
        ("packers", "points_mm[2][1]", "points_mm", "“Fixings”, row 3"),
        ("projection", "layers[0].thickness_mm", "layers", "“Layers”, row 1, thickness"),
        ("fixing-group", "load_n[1]", "load_n", "“Load”"),
        ("clearance", "leaf.hinge_mm[0]", "leaf.hinge_mm", "“Hinge”"),
        ("humidity-band", "csv row 5 humidity", "csv", "“The logger’s file as text”"),
        ("yield", "stock", None, "stock"),
    ],
)
def test_key_of_a_refusal_is_told_by_the_label_of_its_input(name: str, key: str, field: str | None, label: str) -> None:
    """A row is counted from 1, a column has its own label, and an object is none of the inputs."""
    assert input_named(key, CALCULATIONS[name]) == (field, label)


def test_parts_of_an_answer_are_told_apart_by_their_shape() -> None:
    """Verdicts, figures, tables and notes; lists as long as each other stand side by side."""
    verdict = Verdict("air", Word.CLOSE, 1, 2, 1, "K", "Close.", "book")
    told = reckoned(
        {
            "verdict": verdict.as_dict(),
            "force_n": 12.345678,
            "shear_n": [1, 2],
            "pairs_mm": [[0, 1], []],
            "tools": ["saw", "knife"],
            "by_fabric": {"lime": 2},
            "steps": [{"stage": 1, "minutes": None}],
            "out_of_one": True,
            "source": ["a book", "another"],
            "working": [["Height", "3 mm"]],
        }
    )
    assert told.verdicts == [verdict]
    assert told.figures == [("Force", "12.3457\xa0N"), ("Tools", "saw, knife"), ("Out of one", "yes")]
    assert [list(map(list, table.rows)) for table in told.tables] == [
        [["lime", "2"]],
        [["1", "–"]],
        [["1", "1", "0, 1"], ["2", "2", "–"]],
    ]
    assert told.tables[2].headings == ["No.", "Shear (N)", "Pairs (mm)"]
    assert told.notes == [("Source", "a book; another")]
    assert told.working == [["Height", "3 mm"]]


def test_units_are_told_by_the_ends_of_names() -> None:
    """The longest ending counts."""
    assert label_of("pressure_n_mm2") == ("Pressure", "N/mm²")
    assert label_of("change_mm") == ("Change", "mm")
    assert label_of("readings") == ("Readings", "")
    assert in_figures(-0.5, "mm") == "\u22120.5\xa0mm"
