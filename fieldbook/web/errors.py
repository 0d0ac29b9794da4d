"""The only handlers of errors: a page or JSON that says what is wrong, why, and what to do."""

from __future__ import annotations

import logging
import secrets
import sqlite3
from collections.abc import Mapping
from http import HTTPStatus
from typing import Any

from flask import Flask, Response, current_app, jsonify, make_response, render_template, request
from flask_wtf.csrf import CSRFError
from werkzeug.exceptions import HTTPException, SecurityError

from ..book.book import NewerBook
from ..book.making import NotABook
from ..book.storage import BookDamaged, BookLocked, BookReadOnly, DiskFull, StorageFailed, storage_errors
from ..errors import FieldbookError, Refused, UnknownItem, UnknownKind
from ..phones.codes import TooManyTries
from ..phones.devices import ShutOut, UnknownToken
from ..phones.messages import UnsuitableRequest
from ..phones.pieces import OutOfStep, TooMuchUnderWay
from ..phones.put_back import EpochChanged
from .access import DeskClosed, ForeignOrigin
from .books import FOLDER

STATUS: Mapping[type[FieldbookError], int] = {
    UnsuitableRequest: 400,
    UnknownToken: 401,
    ShutOut: 401,
    DeskClosed: 403,
    ForeignOrigin: 403,
    UnknownItem: 404,
    UnknownKind: 404,
    EpochChanged: 409,
    NewerBook: 409,
    OutOfStep: 409,
    TooManyTries: 429,
    TooMuchUnderWay: 429,
    NotABook: 503,
    BookLocked: 503,
    BookReadOnly: 503,
    BookDamaged: 503,
    StorageFailed: 503,
    DiskFull: 507,
}
IN_WORDS = {
    400: ("What was sent cannot be read.", "Go back and try again."),
    404: ("There is nothing at this address.", "Go back, or start from the list of sites."),
    405: ("This address does not take what was asked of it.", "Use the buttons of the pages."),
    413: ("That is more than can be taken at once.", "Send fewer or smaller files."),
    415: ("What was sent is of another kind than this address takes.", "Use the forms of the pages."),
}
log = logging.getLogger(__name__)


def prepare(app: Flask, *_: object) -> None:
    """Register the handlers."""
    app.register_error_handler(FieldbookError, _refused)
    app.register_error_handler(sqlite3.Error, _of_storage)
    app.register_error_handler(OSError, _of_storage)
    app.register_error_handler(CSRFError, _not_from_a_page)
    app.register_error_handler(SecurityError, _under_another_name)
    app.register_error_handler(HTTPException, _of_the_web)
    app.register_error_handler(Exception, _unforeseen)


def status_of(error: FieldbookError) -> int:
    """The status an error is answered with: 422 unless it is of another nature."""
    return next((STATUS[base] for base in type(error).__mro__ if base in STATUS), 422)


def findings_of(error: FieldbookError) -> list[FieldbookError]:
    """The findings an error holds, or the error itself."""
    return error.findings if isinstance(error, Refused) else [error]


def _refused(error: FieldbookError) -> Response:
    response = _answer(status_of(error), findings_of(error), error.as_dict())
    if response.status_code == 401:
        response.headers["WWW-Authenticate"] = "Bearer"
    if isinstance(error, (TooManyTries, TooMuchUnderWay)):
        response.headers["Retry-After"] = str(error.seconds)
    return response


def _of_storage(error: sqlite3.Error | OSError) -> Response:
    """What SQLite or the system says while a book is read, in the words of `storage`."""
    if isinstance(error, (ConnectionError, TimeoutError)):  # not of the disk
        return _unforeseen(error)
    try:
        with storage_errors(current_app.config[FOLDER]):
            raise error
    except FieldbookError as said:
        return _refused(said)


def _not_from_a_page(_: CSRFError) -> Response:
    return _said(
        400,
        "This did not come from a page of this book that is still open.",
        "Open the page again and press the button once more.",
    )


def _under_another_name(_: SecurityError) -> Response:
    # Without a name to trust there is no page: its links would lead there.
    answer = make_response(
        "This book is not served under that name. Use the address the server said when it started.\n", 400
    )
    answer.content_type = "text/plain; charset=utf-8"
    return answer


def _of_the_web(error: HTTPException) -> Response:
    status = error.code or 500
    if status < 400:
        return make_response(error)
    response = _said(status, *IN_WORDS.get(status, (f"{HTTPStatus(status).phrase}.", IN_WORDS[400][1])))
    if allowed := getattr(error, "valid_methods", None):
        response.headers["Allow"] = ", ".join(allowed)
    return response


def _unforeseen(error: Exception) -> Response:
    reference = secrets.token_hex(4)
    log.error("reference %s", reference, exc_info=error)
    return _said(
        500,
        f"Something went wrong that this program did not expect (reference {reference}).",
        "What was saved before is safe. Try again; if it comes back, look for the reference where the server runs.",
    )


def _said(status: int, reason: str, remedy: str) -> Response:
    error = FieldbookError(reason, remedy)
    return _answer(status, [error], error.as_dict() | {"error": f"http-{status}"})


def _answer(status: int, findings: list[FieldbookError], as_json: dict[str, Any]) -> Response:
    if wants_json():
        return make_response(jsonify(as_json), status)
    return make_response(render_template("errors/refused.html", status=status, findings=findings), status)


def wants_json() -> bool:
    """Whether whoever asks would rather read JSON than a page; a phone does, unless it asks for one."""
    if request.path.startswith("/phone/") and "text/html" not in request.headers.get("Accept", ""):
        return True
    best = request.accept_mimetypes.best_match(["text/html", "application/json"])
    return best == "application/json"
