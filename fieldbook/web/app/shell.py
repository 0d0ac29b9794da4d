"""The phone's app as it is handed out: one page, its script and pictures, and the list that keeps all of one version.

Nothing here shows anything of the book; that comes by `sync`, to phones that have joined.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from functools import lru_cache, partial
from typing import Any

from flask import Blueprint, Response, current_app, make_response, render_template, request, url_for
from jinja2.utils import htmlsafe_json_dumps

from ... import folders
from ...model.description import Kind
from ...model.kinds import KINDS
from ...serving.address import Way
from ..forms.of_kind import entry_form, fields_of
from ..pages.joining import WAY
from .icons import icon
from .kinds_for_phones import registry
from .one_script import joined
from .version import version

ICONS = {"180": (180, False), "192": (192, False), "512": (512, False), "mask": (512, True)}
APP, WORKER = "phone/app.js", "phone/sw.js"
MODULES = ("checks", "phone")  # folders of what the app's one script is made of
BESIDE = ("phone.css", "phone/opening.js")  # what the page loads besides

blueprint = Blueprint("phone", __name__)


@blueprint.before_app_request
def know_the_version() -> None:
    """Let `hello` say which version is handed out, from the first phone that asks."""
    if request.endpoint == "sync.hello" and not current_app.config.get("SHELL"):
        know_anew()


@blueprint.get("/phone/")
def page() -> Response:
    """The one page of the app, with a template for each of its views and each kind's form.

    The description of the kinds is no file of its own: what the app cannot begin without comes with the page.
    """
    way: Way | None = current_app.config.get(WAY)
    text = _page_text(tuple(KINDS.values()), way.phone_url if way else "")
    return _file(text, "text/html; charset=utf-8")


@lru_cache(maxsize=4)  # it takes most of a second, and phones ask for it whenever they look for a newer version
def _page_text(kinds: tuple[Kind, ...], address: str) -> bytes:
    forms = {kind.name: (entry_form(kind, None, {}, 0), fields_of(kind)) for kind in kinds}
    described = htmlsafe_json_dumps(registry(), ensure_ascii=False)
    return render_template("phone/shell.html", forms=forms, registry=described, address=address).encode()


@blueprint.get("/phone/app.js")
def script() -> Response:
    """All of the app's modules as one script."""
    paths = (path for part in MODULES for path in sorted((folders.STATIC / part).rglob("*.js")))
    modules = {path.relative_to(folders.STATIC).as_posix(): path.read_text(encoding="utf-8") for path in paths}
    return _file(_script_text(tuple(modules.items())), "text/javascript; charset=utf-8")


@lru_cache(maxsize=1)
def _script_text(modules: tuple[tuple[str, str], ...]) -> bytes:
    return joined(APP, dict(modules)).encode()


@blueprint.get("/phone/manifest.webmanifest")
def manifest(join: str | None = None) -> Response:
    """What a phone installs the app by."""
    drawn = [
        {"src": url_for("phone.picture", name=name), "sizes": f"{size}x{size}", "type": "image/png"}
        | ({"purpose": "maskable"} if maskable else {})
        for name, (size, maskable) in ICONS.items()
    ]
    home = url_for("phone.page")
    said = {"id": home, "name": "Fieldbook", "short_name": "Fieldbook", "scope": home}
    said["start_url"] = url_for("phone.page", join=join)
    look = {"display": "standalone", "background_color": "#fdfcf9", "theme_color": "#fdfcf9", "icons": drawn}
    return _file(json.dumps(said | look).encode(), "application/manifest+json")


@blueprint.get("/phone/join-<code>.webmanifest")
def manifest_with_code(code: str) -> Response:
    """The same, so that the app begins with the code it is to join with."""
    return manifest(join=code)


@blueprint.get("/phone/icon-<any('180', '192', '512', 'mask'):name>.png")
def picture(name: str) -> Response:
    """The mark of the app."""
    return _file(icon(*ICONS[name]), "image/png")


@blueprint.get("/sw.js")
def worker() -> Response:
    """The service worker, which begins with the list of all files of the app and their digests."""
    listed = json.dumps(_one_version(), indent=1)
    script = (folders.STATIC / WORKER).read_text(encoding="utf-8")
    return _file(f"const SHELL = {listed};\n\n{script}".encode(), "text/javascript; charset=utf-8")


def _one_version() -> dict[str, Any]:
    """The version and its files; read again where one changed meanwhile, or they would go by another's name."""
    told = know_anew()
    while True:
        listed = files()
        before, told = told, know_anew()
        if told == before:
            return {"version": told, "files": listed}


def know_anew() -> str:
    """The version handed out now; `hello` says it to phones."""
    way: Way | None = current_app.config.get(WAY)
    current_app.config["SHELL"] = version(way.phone_url if way else "")
    return current_app.config["SHELL"]


def files() -> dict[str, str]:
    """Address -> SHA-256 of each file the app is made of; the page and what it loads, not the worker."""
    made: dict[str, Callable[[], Response]] = {
        url_for("phone.page"): page,
        url_for("phone.script"): script,
        url_for("phone.manifest"): manifest,
        **{url_for("phone.picture", name=name): partial(picture, name) for name in ICONS},
    }
    contents = {address: make().get_data() for address, make in made.items()}
    contents |= {url_for("static", filename=name): (folders.STATIC / name).read_bytes() for name in BESIDE}
    return {address: hashlib.sha256(content).hexdigest() for address, content in contents.items()}


def _file(content: bytes, media_type: str) -> Response:
    response = make_response(content)
    response.headers["Content-Type"] = media_type
    response.headers["Cache-Control"] = "no-cache"
    return response
