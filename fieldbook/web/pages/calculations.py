"""The calculations, to be done by hand on a page as `fieldbook calc` does them on a command line."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from flask import Blueprint, abort, render_template, request

from ...calculations.catalogue import CALCULATIONS, calculate
from ...calculations.description import Calculation
from ...calculations.guide import keys_of
from ...checks.cutting import Layout, Piece, Stock
from ...checks.logger import lines_of
from ...drawing.cutting_plan import cutting_plan
from ...errors import FieldbookError, OutOfRange, Refused
from ..forms.of_calculation import FILE, CalculationForm, calculation_form, in_the_address, suggested
from ..security import csrf
from ..shown.commands import command_for, command_for_file
from ..shown.reckoned import Table, reckoned

blueprint = Blueprint("calculations", __name__, url_prefix="/calculations")
TO_BE_MENDED = 422
MOST_FILE_BYTES = 100_000_000


@blueprint.get("")
def every() -> str:
    """All calculations, each with what it answers."""
    return render_template(
        "calculations/every.html", calculations=sorted(CALCULATIONS.values(), key=lambda one: one.heading)
    )


@blueprint.route("/<name>", methods=["GET", "POST"])
@csrf.exempt
def show(name: str) -> tuple[str, int]:
    """One calculation: its inputs, and beside them the answer when it was asked."""
    if name not in CALCULATIONS:
        abort(404)
    calculation = CALCULATIONS[name]
    form = calculation_form(calculation)
    asked = request.method == "POST" or bool(request.args)
    answer = _answered(calculation, form) if asked and form.validate() else {}
    page = render_template(
        "calculations/show.html",
        calculation=calculation,
        form=form,
        example=in_the_address(calculation, calculation.example),
        suggested=suggested(calculation),
        guide=Table("What it takes", ("Key", "Written as", "What it is"), list(keys_of(calculation))),
        **({"answer": None, "drawing": None} | answer),
    )
    return page, TO_BE_MENDED if asked and not answer else 200


def _answered(calculation: Calculation, form: CalculationForm) -> dict[str, Any]:
    """What the page shows of the answer; nothing where it was refused, which the form says then."""
    try:
        file_text, file_name = _file()
        payload = form.payload(file_text)
    except Refused as refused:
        form.add_errors(refused.findings)
        return {}
    try:
        answer = calculate(calculation.name, payload)
    except FieldbookError as error:
        form.add_calculation_error(error)
        return {}
    command = (
        command_for_file(calculation.name, payload, file_name) if file_text else command_for(calculation.name, payload)
    )
    drawing = cutting_plan("Parts", *_cut(payload, answer), interactive=True) if calculation.name == "yield" else None
    return {"answer": reckoned(answer), "command": command, "drawing": drawing}


def _cut(payload: Mapping[str, Any], answer: Mapping[str, Any]) -> tuple[Layout, Stock]:
    """The layout in an answer, and what it was cut from."""
    pieces = tuple(Piece(**piece) for piece in answer["pieces"])
    layout = Layout(answer["needed"], answer["at_least"], pieces, answer["used_share"])
    return layout, Stock(**{"width_mm": None} | payload["stock"])


def _file() -> tuple[str | None, str]:
    """The text and name of a file that was sent along."""
    sent = request.files.get(f"{FILE}_file")
    if not sent:
        return None, ""
    content = sent.stream.read(MOST_FILE_BYTES + 1)
    if len(content) > MOST_FILE_BYTES:
        reason = f"The file is larger than {MOST_FILE_BYTES // 1_000_000} MB."
        raise Refused([OutOfRange(reason, "Give a part of it.", field=FILE, value=sent.filename)])
    return "\n".join(lines_of(content)), sent.filename or "FILE.csv"
