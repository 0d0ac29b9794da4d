"""What can be taken away from the desk: lists, drawings, diary, labels, setting-out sheets, the folder.

What is quickly made is an address to follow; what takes the typesetter is asked for with a button, and imported only
then: a book is opened far more often than it is printed.
"""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from datetime import date
from io import BytesIO
from pathlib import Path

from flask import Blueprint, flash, redirect, request, send_file, url_for
from werkzeug.wrappers import Response

from ...book import ledger
from ...book.gathering import gather
from ...book.site import Item, Site
from ...book.wording import day
from ...findings import appraise
from ...model.kinds import kind_named
from ...record.csv_tables import csv_of, table_of
from ...record.diary import diary_of, gone_from
from ...record.drawings import drawing_of
from ...record.file_names import safe_name
from ...record.zipped import pack
from ..books import book, item_of, site_around
from ..shown.filters import titles_of
from ..shown.setting_out import thicknesses

blueprint = Blueprint("handing_over", __name__)
TYPES = {"csv": "text/csv", "svg": "image/svg+xml", "dxf": "image/vnd.dxf", "ics": "text/calendar"}
PDF, ZIP = "application/pdf", "application/zip"


def _text(text: str, words: str, ending: str) -> Response:
    """A text as a file to keep."""
    content = BytesIO(text.encode())
    return _file(content, TYPES[ending], f"{safe_name(words, ending)}.{ending}")


def _file(content: BytesIO, media_type: str, name: str) -> Response:
    return send_file(content, media_type, as_attachment=True, download_name=name)


def _state(site: Site) -> str:
    return f"{day(date.today().isoformat())}, state {site.revision} of the book"


@blueprint.get("/site/<item:item>/all/<kind>.csv")
def table(item: str, kind: str) -> Response:
    """All items of one kind on a site, with every field."""
    site, known = gather(book(), item), kind_named(kind)
    items = [site.item] if known.name == "site" else site.all(known.name)
    return _text(csv_of(table_of(known, items, titles_of(site))), f"{site.item.title} {known.plural}", "csv")


@blueprint.get("/item/<item:item>/drawing.<form>")
def drawing(item: str, form: str) -> Response:
    """A face, or a room's plan, as SVG or DXF."""
    one, site = item_of(item), site_around(item)
    about = f"{site.item.name}, {_state(site)}, no edition."
    return _text(drawing_of(site, one, appraise(site), form, about), one.title, form)


@blueprint.get("/site/<item:item>/diary.ics")
def diary(item: str) -> Response:
    """Care that comes round, as calendars take it."""
    site = gather(book(), item)
    text = diary_of(site, gone_from(book(), site), site.revision, ledger.now())
    return _text(text, f"{site.item.title} diary", "ics")


@blueprint.post("/site/<item:item>/as-left")
def as_left(item: str) -> Response:
    """What was taken down, expected and found, to print and sign."""
    from ...record.as_left import write_as_left

    site = gather(book(), item)
    head = day(ledger.now())
    return _printed(lambda file: write_as_left(book(), site, file, head), site.item, "as left")


@blueprint.post("/site/<item:item>/labels")
def labels(item: str) -> Response:
    """A label for behind each fitting."""
    from ...record.labels import write_labels

    site, today = gather(book(), item), date.today()
    return _printed(lambda file: write_labels(site, file, today, _state(site)), site.item, "labels")


@blueprint.post("/site/<item:item>/before-work")
def before_work(item: str) -> Response:
    """What the keeper is given before work begins, to be signed."""
    from ...record.before_work import write_before_work

    site, today = gather(book(), item), date.today()
    findings = appraise(site, today)
    return _printed(lambda file: write_before_work(site, findings, file, today), site.item, "before work")


@blueprint.post("/face/<item:item>/setting-out")
def setting_out_sheet(item: str) -> Response:
    """What is set out on a face, to print."""
    from ...record.setting_out_sheet import write_setting_out_sheet

    one, site = item_of(item, "face"), site_around(item)
    paper, stock_mm = request.form.get("paper", "A4"), thicknesses(request.form.get("stock_mm", ""))
    findings = appraise(site)
    return _printed(
        lambda file: write_setting_out_sheet(book(), site, one, findings, file, paper=paper, stock_mm=stock_mm),
        one,
        f"setting out {paper}",
    )


def _printed(write: Callable[[Path], object], about: Item, words: str) -> Response:
    with tempfile.TemporaryDirectory(prefix="fieldbook-sheet-") as folder:
        file = Path(folder) / "sheet.pdf"
        write(file)
        return _file(BytesIO(file.read_bytes()), PDF, f"{safe_name(f'{about.title} {words}', 'sheet')}.pdf")


@blueprint.post("/site/<item:item>/folder")
def folder(item: str) -> Response:
    """All that is handed over, in one ZIP; its record is made before, on a page that tells how far it is."""
    from ...record.handover import edition_of_now, handover

    book().refuse_newer()
    site = gather(book(), item)
    edition = edition_of_now(book(), item)
    if edition is None:
        flash("Something was entered since the last edition, or there is none: make the record, then take the folder.")
        return redirect(url_for("editions.every", site=item), 303)
    others = request.form.get("others") == "yes"
    name = safe_name(f"{site.item.title} edition {edition.number}{' for others' if others else ''}", "folder")
    packed = tempfile.TemporaryFile()  # noqa: SIM115  it goes away once it is sent
    with tempfile.TemporaryDirectory(prefix="fieldbook-folder-") as temporary:
        handover(book(), item, Path(temporary) / name, for_others=others)
        pack(Path(temporary) / name, packed, name)
    packed.seek(0)
    return send_file(packed, ZIP, as_attachment=True, download_name=f"{name}.zip")
