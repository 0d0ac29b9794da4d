"""What the phone is handed: one page made from the kinds, and a list that names every file of the app."""

from __future__ import annotations

import hashlib
import io
import json
import re
import shutil
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from flask import template_rendered
from flask.testing import FlaskClient
from PIL import Image

from fieldbook import folders
from fieldbook.model.kinds import KINDS
from fieldbook.web import create_app
from fieldbook.web.app import shell
from fieldbook.web.app.version import version
from fieldbook.web.forms.of_kind import fields_of
from tests.sites import Surveyed

LIST = re.compile(r"^const SHELL = (\{.*?\});\n", re.DOTALL)


class Templates(HTMLParser):
    """The ids of a page's templates, with the names of the inputs in each, and the slots that stand in them."""

    def __init__(self, page: str):
        super().__init__()
        self.inputs: dict[str, list[str]] = {}
        self.slots: dict[str, list[str]] = {}
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note what opens here."""
        about = dict(attrs)
        if tag == "template":
            self.inputs[about["id"] or ""], self.slots[about["id"] or ""] = [], []
        elif self.inputs:
            last = next(reversed(self.inputs))
            if tag in {"input", "select", "textarea", "fieldset"} and about.get("id"):
                self.inputs[last].append(about["id"] or "")
            if "data-slot" in about:
                self.slots[last].append(about["data-slot"] or "")


@pytest.fixture
def client(surveyed: Surveyed) -> FlaskClient:
    """A browser that was let in nowhere."""
    return create_app(surveyed.book.folder).test_client()


def listed(client: FlaskClient) -> dict[str, str]:
    """Address -> digest of the files the worker keeps."""
    found = LIST.match(client.get("/sw.js").text)
    assert found
    return json.loads(found[1])["files"]


@pytest.mark.parametrize("kind", KINDS)
def test_page_has_a_form_for_every_kind_with_all_its_fields(client: FlaskClient, kind: str) -> None:
    """The forms are those of the desk, made from the kinds."""
    inputs = Templates(client.get("/phone/").text).inputs[f"form-{kind}"]
    assert sorted(inputs) == sorted(field.name for field in fields_of(KINDS[kind]))


def test_page_names_no_slot_twice_in_one_template(client: FlaskClient) -> None:
    """A slot is found by its name."""
    twice = {
        name: slots
        for name, slots in Templates(client.get("/phone/").text).slots.items()
        if len(slots) > len(set(slots))
    }
    assert twice == {}


def test_every_template_a_script_asks_for_is_on_the_page(client: FlaskClient) -> None:
    """`made` and `filled` find what they name."""
    there = set(Templates(client.get("/phone/").text).inputs)
    scripts = "".join(path.read_text(encoding="utf-8") for path in (folders.STATIC / "phone").rglob("*.js"))
    asked = set(re.findall(r"""\b(?:made|filled|rows)\("([a-z-]+)\"""", scripts))
    assert asked - there == set()
    unused = there - asked - {f"form-{kind}" for kind in KINDS}
    assert unused <= {"action", "act"}  # named by a choice between the two


def test_list_names_every_file_the_page_loads_and_what_each_is_answered_with(client: FlaskClient) -> None:
    """Each digest is that of the answer, and nothing the page asks for is missing."""
    files = listed(client)
    for address, digest in files.items():
        assert hashlib.sha256(client.get(address, buffered=True).data).hexdigest() == digest, address
    loaded = re.findall(r'<(?:script|link)[^>]* (?:src|href)="([^"]+)"', client.get("/phone/").text)
    assert {address.rpartition("/")[2] for address in loaded} >= {"app.js", "opening.js", "phone.css"}
    assert set(loaded) <= set(files)


def test_script_is_made_of_every_module_but_what_runs_by_itself(client: FlaskClient) -> None:
    """One that nothing needs would lie in the folder unused."""
    within = set(re.findall(r'^modules\["([^"]+)"\] = ', client.get("/phone/app.js").text, re.MULTILINE))
    there = {path.relative_to(folders.STATIC).as_posix() for path in (folders.STATIC / "phone").rglob("*.js")}
    assert there - within == {"phone/sw.js", "phone/opening.js"}


def test_worker_is_asked_for_anew_and_is_the_same_while_nothing_changes(client: FlaskClient) -> None:
    """A browser looks each time; two answers are alike, so that no phone sees a new version where there is none."""
    first, second = client.get("/sw.js"), client.get("/sw.js")
    assert first.headers["Cache-Control"] == "no-cache"
    assert first.data == second.data
    assert first.mimetype == "text/javascript"
    assert "Set-Cookie" not in client.get("/phone/").headers


def listed_in(script: str) -> dict[str, Any]:
    """Version and files that a worker begins with."""
    found = LIST.match(script)
    assert found
    return json.loads(found[1])


def test_list_is_of_one_version_though_a_file_changes_while_it_is_made(
    client: FlaskClient, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """A list of new files under the old version's name would be kept in the place of the old ones, which are in use."""
    static = tmp_path / "static"
    shutil.copytree(folders.STATIC, static)
    monkeypatch.setattr(folders, "STATIC", static)
    old = client.get("/sw.js").get_data(as_text=True)
    changed, made = static / "phone" / "pages" / "today.js", []

    def files_once_changed() -> dict[str, str]:
        if not made:
            changed.write_text(changed.read_text(encoding="utf-8") + "// changed\n", encoding="utf-8")
        made.append(files())
        return made[-1]

    files = shell.files
    monkeypatch.setattr(shell, "files", files_once_changed)
    new = client.get("/sw.js").get_data(as_text=True)
    assert listed_in(new)["version"] != listed_in(old)["version"]
    assert listed_in(new)["files"]["/phone/app.js"] != listed_in(old)["files"]["/phone/app.js"]
    assert len(made) == 2
    assert client.get("/sw.js").get_data(as_text=True) == new


def test_hello_says_the_version_of_the_list(client: FlaskClient) -> None:
    """Even when the list has not been asked for yet."""
    version = client.get("/phone/hello").json["shell"]
    found = LIST.match(client.get("/sw.js").text)
    assert found
    assert version == json.loads(found[1])["version"]


def test_hello_makes_no_page(client: FlaskClient) -> None:
    """A book is asked for its version as soon as it is opened, and the page takes half a second."""
    drawn: list[object] = []
    with template_rendered.connected_to(lambda *_, **about: drawn.append(about["template"]), client.application):
        assert client.get("/phone/hello").json["shell"]
    assert drawn == []


@pytest.mark.parametrize("part", ["PACKAGE", "STATIC", "TEMPLATES"])
def test_version_is_another_once_a_file_of_the_program_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, part: str
) -> None:
    """A page is made by the program, from templates, for scripts: each may change what a phone keeps."""
    file = tmp_path / "deep" / "one.py"
    file.parent.mkdir()
    file.write_text("one")
    monkeypatch.setattr(folders, part, tmp_path)
    before = version("https://here")
    assert version("https://here") == before
    file.write_text("two")
    assert version("https://here") != before


def test_version_is_another_at_another_address() -> None:
    """The page says where the book is."""
    assert version("https://here") != version("https://there")


def test_manifest_leads_to_icons_of_their_sizes(client: FlaskClient) -> None:
    """Each picture is a PNG as large as the manifest says."""
    manifest = json.loads(client.get("/phone/manifest.webmanifest").data)
    assert manifest["start_url"] == manifest["scope"] == "/phone/"
    for icon in manifest["icons"]:
        with Image.open(io.BytesIO(client.get(icon["src"]).data)) as image:
            assert f"{image.width}x{image.height}" == icon["sizes"]


def test_page_lets_no_script_or_style_in_but_its_own_files(client: FlaskClient) -> None:
    """The content policy is strict, and nothing on the page would need it otherwise."""
    page = client.get("/phone/")
    policy = page.headers["Content-Security-Policy"]
    assert "script-src 'self';" in policy
    assert "style-src 'self';" in policy
    assert not re.search(
        r"\sstyle=|\son[a-z]+=|<style|<script(?! type=.application/json.|[^>]*\ssrc=)|javascript:", page.text
    )
