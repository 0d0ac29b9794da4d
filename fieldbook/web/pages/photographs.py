"""Photographs: taken in several at a time, shown upright and small, handed out as they came."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict
from itertools import zip_longest
from pathlib import Path
from typing import Any

from flask import Blueprint, abort, flash, redirect, render_template, request, send_file, url_for
from werkzeug.datastructures import FileStorage
from werkzeug.wrappers import Response

from ...book.book import Book
from ...book.camera_notes import taken_at
from ...book.gathering import gather
from ...book.photographs import MOST_BYTES, keep, original, small_copy
from ...book.wording import count
from ...errors import FieldbookError, Missing, Refused, shown
from ...model.kinds import KINDS
from ...model.typed import from_text
from ...model.values import accept
from ...model.written_together import groups_in, parted
from ..books import book
from ..errors import findings_of
from ..forms.of_kind import entry_form, fields_of
from ..forms.presets import presets
from ..security import csrf
from ..static_files import FOR_EVER

blueprint = Blueprint("photographs", __name__)
PHOTOGRAPH = KINDS["photograph"]
WIDTHS_PX = (320, 1280)
OWN = ("subject", "purpose", "caption", "x_mm", "z_mm")  # what may differ from one photograph to the next
EXTENSIONS = {"image/jpeg": "jpg", "image/png": "png", "image/webp": "webp", "image/heic": "heic"}


@blueprint.route("/site/<item:item>/photographs/new", methods=["GET", "POST"])
@csrf.exempt
def new(item: str) -> Response | tuple[str, int]:
    """Add photographs of one thing. Those that are good are kept, whatever the others are."""
    around = gather(book(), item)
    form = entry_form(PHOTOGRAPH, around, presets(PHOTOGRAPH, around, request.args), book().revision())
    own = said_of_each()
    if form.validate_on_submit():
        for name in (field.name for field in PHOTOGRAPH.fields if field.required and field.name in OWN):
            if own and all(line[name] for line in own):
                form[name].data = form[name].data or own[0][name]
        try:
            kept = add(book(), form.accepted(), request.files.getlist("files"), own)
        except FieldbookError as error:
            form.add_errors(findings_of(error))
        else:
            flash(f"{count(kept, 'photograph')} added.")
            return redirect(url_for("items.show", item=form.subject.data), 303)
    refused = {finding.line for finding in form.unplaced if finding.line}
    said: dict[str, list[dict[str, str]]] = {}
    for number, (file, line) in enumerate(zip(request.files.getlist("files"), own, strict=False), 1):
        if not refused or number in refused:  # the others are in the book
            said.setdefault(file.filename or "", []).append(line)
    page = render_template(
        "photographs/new.html",
        form=form,
        site=around,
        kind=PHOTOGRAPH,
        fields=fields_of(PHOTOGRAPH),
        own=OWN,
        said=said,
    )
    return page, 422 if form.is_submitted() else 200


def said_of_each() -> list[dict[str, str]]:
    """What was typed for each photograph by itself, in the order of the files; none where that was not asked."""
    columns = [request.form.getlist(f"each-{name}") for name in OWN]
    lines = [dict(zip(OWN, line, strict=True)) for line in zip_longest(*columns, fillvalue="")]
    places = groups_in(PHOTOGRAPH.by_name[name] for name in OWN)
    return [line | parted(places, line) for line in lines]


def _noted(content: bytes) -> Any:
    """When the camera says it was taken, if that is a moment the book takes."""
    try:
        return accept(PHOTOGRAPH.by_name["taken_at"], taken_at(content))
    except FieldbookError:
        return None


def add(
    opened: Book, values: dict[str, Any], files: Iterable[FileStorage], own: Sequence[Mapping[str, str]] = ()
) -> int:
    """Keep each file and enter it under these values; the number kept.

    own  for each file what was typed for it alone, which goes before `values`; of an empty one these hold

    Raises Refused with a finding for each file that is no good; the others are in the book then.
    """
    findings: list[FieldbookError] = []
    kept = 0
    chosen = [file for file in files if file]
    if own and len(own) != len(chosen):
        raise Refused([_which_is_whose(len(chosen), len(own))])
    for number, (file, its) in enumerate(zip(chosen, own or [{}] * len(chosen), strict=True), 1):
        try:
            content = file.stream.read(MOST_BYTES + 1)
            known = keep(opened, content)
            told = values | {name: from_text(PHOTOGRAPH.by_name[name], text) for name, text in its.items() if text}
            if not told.get("taken_at"):
                told["taken_at"] = _noted(content)
            opened.write(
                "photograph", {name: value for name, value in told.items() if value is not None} | asdict(known)
            )
            kept += 1
        except FieldbookError as error:
            error.field, error.line, error.reason = (
                "files",
                number,
                f"{shown(file.filename or 'The file')}: {error.reason}",
            )
            findings.append(error)
    if not kept and not findings:
        findings.append(Missing("No photograph is chosen.", "Choose at least one file.", field="files"))
    if findings and kept:
        findings.append(
            FieldbookError(
                f"{count(kept, 'photograph')} of these already added.", "Send only the others again.", field="files"
            )
        )
    if findings:
        raise Refused(findings)
    return kept


def _which_is_whose(files: int, lines: int) -> FieldbookError:
    return FieldbookError(
        f"{count(files, 'photograph')} came with {count(lines, 'line')} of what is said of each.",
        "Choose the files again.",
        field="files",
    )


@blueprint.get("/photographs/<digest:sha256>/<int:width_px>.jpg")
def copy(sha256: str, width_px: int) -> Response:
    """An upright copy, small, without the camera's notes."""
    if width_px not in WIDTHS_PX:
        abort(404)
    return _for_ever(send_file(small_copy(book(), sha256, width_px).resolve(), "image/jpeg"))


@blueprint.get("/photographs/<digest:sha256>/original")
def as_it_came(sha256: str) -> Response:
    """The original, byte for byte."""
    path = original(book(), sha256)
    if not path.exists():
        abort(404)
    media_type = _media_type(book(), sha256)
    name = f"{sha256[:12]}.{EXTENSIONS.get(media_type, 'bin')}"
    return _for_ever(send_file(Path(path).resolve(), media_type, as_attachment=True, download_name=name))


def _media_type(opened: Book, sha256: str) -> str:
    known = (row["media_type"] for row in opened.items("photograph", withdrawn=True) if row["sha256"] == sha256)
    return next(known, None) or "application/octet-stream"


def _for_ever(response: Response) -> Response:
    response.headers["Cache-Control"] = FOR_EVER
    return response
