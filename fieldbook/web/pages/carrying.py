"""Carrying a visit by file, at the desk: make one for a phone, take one back."""

from __future__ import annotations

import tempfile
from datetime import date

from flask import Blueprint, Response, render_template, request, send_file

from ...errors import Missing
from ...phones import carried_files, devices
from ..books import book

blueprint = Blueprint("carrying", __name__, url_prefix="/phones")


@blueprint.post("/<uuid:device>/file")
def out(device: str) -> Response:
    """All a phone needs to go on alone, as one file."""
    phone = devices.device_named(book(), str(device))
    file = tempfile.TemporaryFile(dir=book().folder)  # noqa: SIM115 - closed when the answer has been sent
    try:
        carried_files.write_out(book(), phone.id, file)
    except BaseException:
        file.close()
        raise
    file.seek(0)
    name = f"{date.today().isoformat()}{carried_files.ENDING}"
    return send_file(file, "application/jsonl", as_attachment=True, download_name=name)


@blueprint.post("/back")
def back() -> str:
    """Take a phone's file in, and say what became of everything in it."""
    sent = request.files.get("file")
    if sent is None or not sent.filename:
        raise Missing("No file was chosen.", "Choose the file that the phone wrote.", field="file")
    return render_template("carrying/back.html", answers=carried_files.take_back(book(), sent.stream))
