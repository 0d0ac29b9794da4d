"""Entering something new, and changing what is there."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import partial
from typing import Any

from flask import Blueprint, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from ...book.gathering import gather
from ...book.same_mark import same_mark_warning
from ...book.site import Item, Site
from ...book.wording import count
from ...drawing.elevation import PAPER_MM
from ...drawing.over_photograph import numbered_marks
from ...errors import FieldbookError
from ...findings import appraise
from ...findings.hazards import minded
from ...findings.place import warnings
from ...model.fields import ANY
from ...model.kinds import KINDS, Kind, kind_named
from ..all_or_nothing import page_around
from ..books import book, item_of, site_around
from ..errors import findings_of, status_of
from ..forms.likes import likes
from ..forms.of_kind import EntryForm, entry_form, fields_of
from ..forms.of_runs import each_accepted, may_run
from ..forms.presets import counted_on, presets
from ..security import csrf
from ..shown.drawings import drawing_of
from ..shown.filters import page_of, titles_of
from ..shown.following import asked_next, write_new, write_with_following
from ..shown.revisions import Overtaken, revise

blueprint = Blueprint("entries", __name__)
Answer = Response | tuple[str, int]
# Where a form leads next, instead of to the page of what was saved.
ANOTHER, ITS_FIXINGS, NEXT = "another", "fixings", "next"
AROUND = ("room", "face", "fitting")  # stays, whatever else the next begins like
WITH_A_FILE = {"photograph": "photographs.new", "log": "loggers.new", "document": "documents.new"}
OVERTAKEN, TO_BE_MENDED, FAILED = 409, 422, 500

# The forms below carry their own token: refused for want of it, they come back with all that was typed.


@blueprint.route("/site/new", methods=["GET", "POST"])
@csrf.exempt
def new_site() -> Answer:
    """A new site."""
    return _new(KINDS["site"], None)


@blueprint.route("/site/<item:item>/new/<kind>", methods=["GET", "POST"])
@csrf.exempt
def new(item: str, kind: str) -> Answer:
    """A new item on a site; any field may be given in the address, and `like` copies another item's."""
    known = kind_named(kind)
    if known.name in WITH_A_FILE:
        given: dict[str, Any] = {name: request.args[name] for name in known.by_name if name in request.args}
        return redirect(url_for(WITH_A_FILE[known.name], item=item, **given))
    return _new(known, gather(book(), item))


def _new(kind: Kind, site: Site | None) -> Answer:
    shown = counted_on(kind, site, presets(kind, site, request.args))
    form = entry_form(kind, site, shown, book().revision())
    if form.validate_on_submit():
        try:
            items, asks = write_new(site, kind, each_accepted(form))
        except FieldbookError as error:
            form.add_errors(findings_of(error))
        else:
            return _saved([item_of(item) for item in items], site, asks)
    return _page("entries/new.html", form, kind, site, likes=likes(kind, site), runs=may_run(kind))


def _saved(items: Sequence[Item], site: Site | None, asks: str) -> Response:
    one, kind = items[-1], KINDS[items[-1].kind]
    if len(items) == 1:
        flash(f"{kind.label} {one.title} is in the book.")
    else:
        flash(f"{count(len(items), kind.label.lower(), kind.plural.lower())} entered.")
    for each in items:
        _warn(each)
    if site and request.form.get("then") == ANOTHER:
        around = {name: one.values[name] for name in AROUND if one.values.get(name)}
        return redirect(url_for("entries.new", item=site.item.id, kind=one.kind, like=one.id, **around), 303)
    if site and not asks and request.form.get("then") == ITS_FIXINGS and one.kind == "fitting":
        return redirect(url_for("entries.new", item=site.item.id, kind="fixing", fitting=one.id), 303)
    return redirect(asks or (page_around(site, items) if site and len(items) > 1 else page_of(one)), 303)


@blueprint.route("/item/<item:item>/change", methods=["GET", "POST"])
@csrf.exempt
def change(item: str) -> Answer:
    """A change of an item; what others changed meanwhile stays, or is shown beside it."""
    one, site = item_of(item), site_around(item)
    after = site.after(one)
    form = entry_form(KINDS[one.kind], site, one.values, book().revision())
    if form.validate_on_submit():
        try:
            changed = revise(book(), one, form, titles_of(site), partial(write_with_following, site, one))
        except FieldbookError as error:
            form.add_errors(findings_of(error))
        else:
            flash("Saved." if changed else "Nothing was changed.")
            _warn(item_of(item))
            return redirect(asked_next(site, one, changed) or _after_change(one, after), 303)
    return _page("entries/change.html", form, KINDS[one.kind], site, one=one, after=after)


def _after_change(one: Item, after: Item | None) -> str:
    to_next = after is not None and request.form.get("then") == NEXT
    return url_for("entries.change", item=after.id) if after and to_next else page_of(one)


def _warn(one: Item) -> None:
    if one.kind != "site" and (warning := same_mark_warning(site_around(one.id), one.kind, one.mark_or_name, one.id)):
        flash(f"{one.mark_or_name}: {warning}")
    for _, sentence in warnings(site_around(one.id), [one.id], date.today()):
        flash(f"{one.called}: {sentence}")


@blueprint.get("/site/<item:item>/marked/<kind>")
def marked(item: str, kind: str) -> Response:
    """The warning beside a mark while it is typed, as plain text."""
    warning = same_mark_warning(
        gather(book(), item), kind_named(kind).name, request.args.get("mark"), request.args.get("item", "")
    )
    return Response(warning, mimetype="text/plain")


def _page(template: str, form: EntryForm, kind: Kind, site: Site | None, **more: Any) -> tuple[str, int]:
    status = _status(form) if form.is_submitted() else 200
    own = more["one"].id if "one" in more else ""
    if site and kind.numbered_by:
        form[kind.numbered_by].warning = same_mark_warning(site, kind.name, form[kind.numbered_by].data, own)
    around, face = parent_of(form, kind, site), face_of(form, kind, site)
    drawing = drawing_of(site, face, appraise(site), paper_width_mm=PAPER_MM[0]) if site and face else None
    photograph = around if kind.name == "pointer" and around and around.kind == "photograph" else None
    given = {name: request.args.getlist(name) for name in (*kind.by_name, "like") if name in request.args}
    more |= {
        "kind": kind,
        "given": given,
        "fields": fields_of(kind),
        "site": site,
        "around": around,
        "face": face,
        "drawing": drawing,
        "photograph": photograph,
        "numbered": numbered_marks(site, photograph, own) if site and photograph else "",
        "minded": minded(site) if site and kind.name == "fixing" else (),
    }
    return render_template(template, form=form, **more), status


def _status(form: EntryForm) -> int:
    """Overtaken by others, refused by storage, or to be mended by the person."""
    findings = [finding for field in form for finding in field.errors] + form.unplaced
    if any(isinstance(finding, Overtaken) for finding in findings):
        return OVERTAKEN
    statuses = [status_of(finding) for finding in findings if isinstance(finding, FieldbookError)]
    return max([status for status in statuses if status >= FAILED], default=TO_BE_MENDED)


def parent_of(form: EntryForm, kind: Kind, site: Site | None) -> Item | None:
    """What the item is to belong to, if that is chosen; its face before its room."""
    if site is None:
        return None
    if not kind.parent:
        return None
    to = kind.by_name[kind.parent].to
    return face_of(form, kind, site) or site.get(form[kind.parent].data, "" if to == ANY else to)


def face_of(form: EntryForm, kind: Kind, site: Site | None) -> Item | None:
    """The face a form is about, when its kind has a place on one and the face is chosen."""
    if site is None or "face" not in kind.by_name or not kind.by_name.keys() & {"x_mm", "outline", "x_from_mm"}:
        return None
    return site.get(form.face.data, "face")
