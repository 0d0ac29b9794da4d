"""Carrying a visit by file, at the desk: make one for a phone, take one back."""

from __future__ import annotations

import tempfile
from contextlib import ExitStack
from datetime import date

from flask import Blueprint, Response, render_template, request, send_file

from ...book.storage import storage_errors
from ...errors import Missing
from ...phones import carried_files, devices
from ..books import book

blueprint = Blueprint("carrying", __name__, url_prefix="/phones")


@blueprint.post("/<uuid:device>/file")
def out(device: str) -> Response:
    """All a phone needs to go on alone, as one file."""
    phone = devices.device_named(book(), str(device))
    with storage_errors(book().folder), ExitStack() as stack:  # the disk may be full before all is written
        file = stack.enter_context(tempfile.TemporaryFile(dir=book().folder))
        carried_files.write_out(book(), phone.id, file)
        file.seek(0)
        stack.pop_all()  # closed when the answer has been sent
    name = f"{date.today().isoformat()}{carried_files.ENDING}"
    return send_file(file, "application/jsonl", as_attachment=True, download_name=name)


@blueprint.post("/back")
def back() -> str:
    """Take a phone's file in, and say what became of everything in it."""
    sent = request.files.get("file")
    if sent is None or not sent.filename:
        raise Missing("No file was chosen.", "Choose the file that the phone wrote.", field="file")
    return render_template("carrying/back.html", answers=carried_files.take_back(book(), sent.stream))
