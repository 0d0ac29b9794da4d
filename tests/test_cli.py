"""The command line as a person meets it: one clear line, and the right exit status."""

from __future__ import annotations

import io
import json
import signal
import socket
import subprocess
import sys
import urllib.error
import urllib.request
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from fieldbook.book.opening import open_book
from fieldbook.cli import main
from tests.sites import picture, survey

PATIENCE_S = 120


@dataclass(frozen=True)
class Done:
    """How a command ended, and what it said."""

    returncode: int
    stdout: str
    stderr: str


Run = Callable[..., Done]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Run:
    """A way to run one command, with what it is given on standard input."""

    def run_one(*arguments: str, given: str = "") -> Done:
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(given.encode())))
        capsys.readouterr()
        try:
            status = main(arguments)
        except SystemExit as end:
            status = int(end.code or 0)
        return Done(status, *capsys.readouterr())

    return run_one


def run_program(*arguments: str, given: str = "") -> Done:
    """Run one command as a person would, as a program."""
    command = [sys.executable, "-m", "fieldbook", *arguments]
    done = subprocess.run(command, input=given, capture_output=True, text=True, timeout=PATIENCE_S, check=False)
    return Done(done.returncode, done.stdout, done.stderr)


@pytest.fixture
def book_folder(run: Run, tmp_path: Path) -> Path:
    """A new book made from the command line, with a small site in it."""
    assert run("new", str(tmp_path / "book")).returncode == 0
    with open_book(tmp_path / "book") as book:
        survey(book)
    return tmp_path / "book"


@pytest.mark.parametrize(
    "arguments",
    [
        (),
        ("polish",),
        ("new",),
        ("serve", "nowhere"),
        ("serve", "nowhere", "--port", "ninety"),
        ("examine", "nowhere"),
        ("record", "nowhere", "shed", "-o", "record.pdf"),
        ("calc", "alchemy"),
        ("backup", "nowhere", "file"),
        ("enter", "nowhere", "-"),
    ],
)
def test_wrong_use_is_one_clear_line_and_status_two(run: Run, arguments: tuple[str, ...]) -> None:
    """Wrong use is told in one line, without a trace, and exits 2."""
    done = run(*arguments, given="{}")
    assert done.returncode == 2
    assert done.stderr.startswith("fieldbook: ")
    assert done.stderr.count("\n") == 1
    assert not done.stdout


@pytest.mark.parametrize("given", ["", "not json", "[1]", '{"zone_mm": 1}', '{"point_mm": [NaN, 0]}', "[" * 100_000])
def test_calc_with_unsuitable_input_is_one_clear_line_and_status_two(run: Run, given: str) -> None:
    """Input that cannot be reckoned is told in one line."""
    done = run("calc", "keep-off", given=given)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.count("\n") == 1


def test_calc_with_an_unknown_key_says_which_keys_it_takes(run: Run) -> None:
    """The keys of a calculation are said when a wrong one is given."""
    done = run("calc", "keep-off", given='{"colour": 1}')
    assert "zone_mm, margin_mm, point_mm, radius_mm" in done.stderr


def test_calc_without_a_name_lists_the_calculations(run: Run) -> None:
    """What can be calculated is listed."""
    assert {"clearance", "keep-off"} <= {line.split()[0] for line in run("calc").stdout.splitlines()}


def test_calc_clearance_answers_the_published_case(run: Run) -> None:
    """Leaf 800 × 40, e 10, p 12, opened to 160°, at s = 500: 204.6269 mm (closed form; see test_clearance)."""
    leaf = {"hinge_mm": [0, 12], "from_deg": 0, "to_deg": 160, "boxes_mm": [[0, 800, -50, -10]]}
    done = run("calc", "clearance", given=json.dumps({"leaf": leaf, "margin_mm": 0, "x_mm": [-500, -900]}))
    found = json.loads(done.stdout)
    assert found["clear_mm"][0] == pytest.approx(204.6269, abs=0.001)
    assert found["clear_mm"][1] is None


@pytest.mark.slow
def test_program_reads_what_it_is_given_and_exits_with_a_status() -> None:
    """`python -m fieldbook` answers on standard output, and tells wrong use on the other, without a trace."""
    given = {"zone_mm": [[0, 0], [100, 0], [100, 100]], "margin_mm": 0, "point_mm": [500, 50], "radius_mm": 5}
    done = run_program("calc", "keep-off", given=json.dumps(given))
    assert (done.returncode, done.stderr) == (0, "")
    assert json.loads(done.stdout)["verdict"]["word"] == "within"
    wrong = run_program("polish")
    assert (wrong.returncode, wrong.stdout, wrong.stderr.count("\n")) == (2, "", 1)


def test_enter_tells_names_and_ids_and_refuses_by_line(run: Run, book_folder: Path, tmp_path: Path) -> None:
    """A file that is right gives the ids; one that is wrong is told line by line, status 1, and enters nothing."""
    site = '{"kind": "site", "item": "mill", "set": {"name": "Tide mill"}}\n'
    done = run("enter", str(book_folder), "-", given=site)
    assert (done.returncode, done.stderr) == (0, "")
    with open_book(book_folder) as book:
        assert book.item(json.loads(done.stdout)["mill"])[1]["name"] == "Tide mill"
    (tmp_path / "lines.jsonl").write_text(site + '{"kind": "room", "item": "r", "set": {"site": "mil"}}\n{')
    done = run("enter", str(book_folder), str(tmp_path / "lines.jsonl"))
    assert (done.returncode, done.stdout) == (1, "")
    assert [line[:22] for line in done.stderr.splitlines()] == ["fieldbook: Line 2, sit", "fieldbook: Line 3: The"]
    with open_book(book_folder) as book:
        assert len(book.items("site")) == 2


def test_enter_finds_files_beside_the_lines_and_warns_of_one_twice(run: Run, book_folder: Path, tmp_path: Path) -> None:
    """A photograph lies beside the lines; a second use of it is a warning, and status 0."""
    (tmp_path / "view.png").write_bytes(picture(form="PNG"))
    with open_book(book_folder) as book:
        site = book.items("site")[0]["id"]
    values = {"site": site, "subject": site, "purpose": "as found"}
    lines = [{"kind": "photograph", "item": name, "set": values, "file": "view.png"} for name in "ab"]
    (tmp_path / "lines.jsonl").write_text("\n".join(map(json.dumps, lines)))
    done = run("enter", str(book_folder), str(tmp_path / "lines.jsonl"))
    assert done.returncode == 0
    assert list(json.loads(done.stdout)) == ["a", "b"]
    assert done.stderr.startswith("fieldbook: Line 1, file: view.png")


def test_enter_of_a_file_that_is_not_there_is_wrong_use(run: Run, book_folder: Path) -> None:
    """A misspelt file is one line and status 2."""
    done = run("enter", str(book_folder), "nowhere.jsonl")
    assert (done.returncode, done.stdout, done.stderr.count("\n")) == (2, "", 1)


def test_examine_tells_a_sound_book_from_a_damaged_one(run: Run, book_folder: Path) -> None:
    """Status 0 for a sound book; status 1 and a list that names the item for an altered one."""
    assert run("examine", str(book_folder)).returncode == 0
    with open_book(book_folder) as book:
        book.db.execute("UPDATE face SET name = 'Other wall'")
        book.db.conn.commit()
        (face,) = book.items("face")
    done = run("examine", str(book_folder))
    assert done.returncode == 1
    assert face["id"] in done.stdout


def test_backup_and_restore_bring_the_same_book_back(run: Run, book_folder: Path, tmp_path: Path) -> None:
    """A book goes into one file and comes back whole."""
    assert run("backup", str(book_folder), str(tmp_path / "one.file")).returncode == 0
    assert run("restore", str(tmp_path / "one.file"), str(tmp_path / "again")).returncode == 0
    with open_book(book_folder) as book, open_book(tmp_path / "again") as again:
        assert again.digest() == book.digest()


def test_record_of_an_unknown_site_names_the_sites_there_are(run: Run, book_folder: Path, tmp_path: Path) -> None:
    """A misspelt site is answered with the sites of the book."""
    done = run("record", str(book_folder), "Custom shed", "-o", str(tmp_path / "record.pdf"))
    assert done.returncode == 2
    assert "Customs shed" in done.stderr


# Whoever starts the tests in the background may have SIGINT ignored, and what they start would inherit that.
SERVE = "import signal, sys; signal.signal(signal.SIGINT, signal.{}); from fieldbook.cli import main; sys.exit(main())"


@pytest.mark.slow
@pytest.mark.parametrize(
    ("interrupts", "sent", "status"),
    [
        ("default_int_handler", signal.SIGINT, 130),
        ("default_int_handler", signal.SIGTERM, 0),
        ("SIG_IGN", signal.SIGTERM, 0),
    ],
)
def test_serve_opens_the_desk_by_a_one_time_address_and_stops_when_told(
    book_folder: Path, interrupts: str, sent: signal.Signals, status: int
) -> None:
    """The address printed lets one browser in; anyone else is refused; Ctrl-C or SIGTERM ends it without a trace."""
    command = [sys.executable, "-u", "-c", SERVE.format(interrupts)]
    command += ["serve", str(book_folder), "--port", "0", "--no-browser"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as server:
        try:
            assert server.stdout is not None
            assert server.stderr is not None
            address = next(word for word in server.stdout.readline().split() if word.startswith("http://"))
            assert server.stdout.readline().startswith("Stop with")
            browser = urllib.request.build_opener(urllib.request.HTTPCookieProcessor())
            with browser.open(address, timeout=PATIENCE_S) as answer:
                assert "Customs shed" in answer.read().decode()
            with pytest.raises(urllib.error.HTTPError) as refusal:
                urllib.request.urlopen(address, timeout=PATIENCE_S)
            refusal.value.close()
            assert refusal.value.code == 403
            server.send_signal(sent)
            assert server.wait(PATIENCE_S) == status
            assert "Traceback" not in server.stderr.read()
        finally:
            server.kill()


@pytest.mark.slow
def test_serve_on_a_taken_port_is_one_clear_line(book_folder: Path) -> None:
    """A port in use is named, with what to do."""
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        done = run_program("serve", str(book_folder), "--port", str(port), "--no-browser")
    assert done.returncode == 1
    assert str(port) in done.stderr
    assert done.stderr.count("\n") == 1


def test_ask_answers_for_a_point_of_a_face(run: Run, book_folder: Path) -> None:
    """By mark, name or id of the face; in words or as JSON; what is no face, or off it, is told."""
    for face in ("R1-N", "North wall"):
        said = json.loads(run("ask", str(book_folder), face, "--x", "500", "--z", "900", "--json").stdout)
        assert said["drilling"]["answer"] == "not known"
    words = run("ask", str(book_folder), "R1-N", "--x", "500", "--z", "900", "--radius", "12", "--depth", "30")
    assert (words.returncode, words.stdout.count("\n")) == (0, 8)
    assert run("ask", str(book_folder), "R9", "--x", "1", "--z", "1").returncode == 2
    off = run("ask", str(book_folder), "R1-N", "--x", "-1", "--z", "1")
    assert off.returncode == 1
    assert "reaches from 0 to 5000 mm" in off.stderr


def test_what_stands_beyond_its_face_or_through_another_is_entered_and_warned_of(run: Run, book_folder: Path) -> None:
    """Both are in the book afterwards; the warnings go to standard error, with status 0."""
    with open_book(book_folder) as book:
        face = book.items("face")[0]["id"]
    size = {"face": face, "state": "planned", "z_mm": 100, "width_mm": 1000, "height_mm": 80}
    lines = [
        {"kind": "fitting", "item": "a", "set": size | {"mark": "D8", "name": "Rail", "x_mm": 4200}},
        {"kind": "fitting", "item": "b", "set": size | {"mark": "D9", "name": "Rail", "x_mm": 3900}},
    ]
    done = run("enter", str(book_folder), "-", given="\n".join(json.dumps(line) for line in lines))
    assert done.returncode == 0
    assert "D8: It stands 80 mm into the place of D9" in done.stderr or "D8: It reaches 200 mm beyond" in done.stderr
    assert "D9: It stands 80 mm into the place of D8" in done.stderr


def test_what_nobody_foresaw_is_said_in_words(book_folder: Path, run: Run, tmp_path: Path) -> None:
    """Whatever a damaged part makes a command raise, it ends in words that name it, and status 1."""
    assert run("backup", str(book_folder), str(tmp_path / "saved")).returncode == 0
    with open_book(book_folder) as book, book.noting():
        book.set_fact("restored from", "[")
    done = run("restore", str(tmp_path / "saved"), str(book_folder))
    assert (done.returncode, "did not expect (JSONDecodeError" in done.stderr) == (1, True), done.stderr


SAY_FROM_THREADS = """
from threading import Thread
from fieldbook.cli.telling import say
threads = [Thread(target=lambda: [say("a line") for _ in range(400)]) for _ in range(8)]
for thread in threads: thread.start()
for thread in threads: thread.join()
"""


def test_line_is_whole_whoever_says_one_as_well() -> None:
    """Without a buffer too, as a service manager or a program that waits for a line may start it."""
    command = [sys.executable, "-u", "-c", SAY_FROM_THREADS]
    said = subprocess.run(command, capture_output=True, text=True, check=True).stdout.splitlines()
    assert said == ["a line"] * 3200
