"""The desk in a browser. Only here its parts are put together; views parse, call one function, and render.

A subject is one module with one blueprint, its templates in `templates/<blueprint>/<action>.html`;
to add one, put it in BLUEPRINTS.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

from flask import Flask
from jinja2 import StrictUndefined

from .. import folders
from . import access, books, errors, security, static_files
from .app import shell, sync
from .pages import (
    before_after,
    calculations,
    carrying,
    conflicts,
    copies,
    documents,
    doors,
    due,
    editions,
    entries,
    faces,
    findings,
    fitted,
    glossary,
    handing_over,
    happened,
    importing,
    items,
    joining,
    lacking,
    loggers,
    materials,
    measuring,
    moving,
    packers,
    phases,
    photographs,
    register,
    rooms,
    search,
    several,
    sites,
    together,
    workshop,
)
from .shown import filters

BLUEPRINTS = (
    sites.blueprint,
    rooms.blueprint,
    faces.blueprint,
    importing.blueprint,
    before_after.blueprint,
    items.blueprint,
    entries.blueprint,
    several.blueprint,
    together.blueprint,
    fitted.blueprint,
    copies.blueprint,
    doors.blueprint,
    workshop.blueprint,
    photographs.blueprint,
    measuring.blueprint,
    loggers.blueprint,
    documents.blueprint,
    register.blueprint,
    search.blueprint,
    findings.blueprint,
    due.blueprint,
    happened.blueprint,
    moving.blueprint,
    packers.blueprint,
    phases.blueprint,
    conflicts.blueprint,
    editions.blueprint,
    handing_over.blueprint,
    glossary.blueprint,
    calculations.blueprint,
    materials.blueprint,
    access.blueprint,
    joining.blueprint,
    lacking.blueprint,
    carrying.blueprint,
    sync.blueprint,
    shell.blueprint,
)


def create_app(book_folder: Path | str, **settings: Any) -> Flask:
    """The pages of one book.

    settings  Flask's and those of `security.DEFAULTS` and `access.DEFAULTS`, in lower case; `tls` says that the
              browser comes by https, `access="open"` that the desk needs no one-time address
    Raises the errors of `storage` when the key of the sessions cannot be kept.
    """
    app = Flask(
        __name__,
        static_folder=folders.STATIC,
        static_url_path=static_files.url_path(folders.STATIC),
        template_folder=folders.TEMPLATES,
    )
    app.jinja_env.undefined = StrictUndefined
    app.jinja_env.trim_blocks = app.jinja_env.lstrip_blocks = True
    for part in (books, access, security, errors, filters):  # who may come in is asked before anything is read
        part.prepare(app, Path(book_folder), {name.upper(): value for name, value in settings.items()})
    for blueprint in BLUEPRINTS:
        app.register_blueprint(blueprint)
    return app
