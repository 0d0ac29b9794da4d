"""What a browser is told to allow, who may ask, and what a post must bring with it."""

from __future__ import annotations

import hashlib
import logging
import os
import re
import secrets
from collections.abc import Mapping
from contextlib import suppress
from datetime import timedelta
from pathlib import Path
from typing import Any

from flask import Flask, Response, request
from flask_wtf import CSRFProtect

from ..book.evidence import PART, synchronise, write_whole
from ..book.storage import storage_errors
from .static_files import FOR_EVER

CONTENT_POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' blob: data:",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)
HEADERS = {
    "Content-Security-Policy": CONTENT_POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "private, no-cache",
}
DEFAULTS = {
    "TLS": False,
    "BUSY_SECONDS": 10,  # how long a page waits while another program writes to the book
    "TRUSTED_HOSTS": ["localhost", "127.0.0.1"],
    "SESSION_COOKIE_HTTPONLY": True,
    "SESSION_COOKIE_SAMESITE": "Strict",
    # Only an answer that changes the session sends it: one that comes late would put back what had been in it before.
    "SESSION_REFRESH_EACH_REQUEST": False,
    "PERMANENT_SESSION_LIFETIME": timedelta(days=400),  # as long as browsers keep one; `sessions` says when it lapses
    "MAX_CONTENT_LENGTH": 1_000_000_000,  # a day's photographs in one go
    "MAX_FORM_MEMORY_SIZE": 5_000_000,  # the longest notes and tables of a form
    "WTF_CSRF_TIME_LIMIT": None,  # a form may lie open over lunch; its token lasts as long as the session
}
TAKING_FILES = {"photographs", "loggers", "documents", "importing", "calculations", "carrying"}  # blueprints
MOST_WITHOUT_FILES = 6_000_000
KEY_BYTES = 32
_KEY = re.compile(rb"[0-9a-f]{%d}" % (2 * KEY_BYTES))
log = logging.getLogger(__name__)

csrf = CSRFProtect()


def prepare(app: Flask, folder: Path, settings: Mapping[str, Any]) -> None:
    """Settle the app's settings, and guard every answer and every post."""
    app.config.update(DEFAULTS)
    app.config.update(settings)
    tls = app.config["TLS"]
    app.config["SESSION_COOKIE_SECURE"] = tls
    # Cookies know no ports: two books served on one machine must not take each other's.
    name = f"fieldbook-{hashlib.sha256(str(folder.resolve()).encode()).hexdigest()[:8]}"
    app.config["SESSION_COOKIE_NAME"] = f"__Host-{name}" if tls else name
    app.secret_key = app.secret_key or session_key(folder)
    app.before_request(_bound_what_is_sent)
    csrf.init_app(app)
    app.after_request(_with_headers)


def _bound_what_is_sent() -> None:
    """Refuse a body by its announced size before any of it is read, where the page takes no files."""
    if request.blueprint not in TAKING_FILES:
        request.max_content_length = MOST_WITHOUT_FILES


def session_key(folder: Path) -> str:
    """The key the sessions of a book are signed with, on disk once it is used and readable by its owner alone.

    Made on first use; one that cannot be read, as a failing disk may leave it, is made anew, with a word in the log:
    browsers are then let in by a new one-time address.
    Raises the errors of `storage`.
    """
    path = folder / "keys" / "session"
    with storage_errors(path):
        if not path.parent.is_dir():
            path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            synchronise(folder)
        if path.exists() and not _KEY.fullmatch(path.read_bytes()):
            log.warning("%s could not be read and was made again: open the desk by the address shown here.", path)
            path.unlink()
        if not path.exists():
            _make_key(path)
        return path.read_text(encoding="ascii")


def _make_key(path: Path) -> None:
    """Write a key under another name and link it once it is on disk: the first to come wins."""
    own = path.with_name(f"{PART}{secrets.token_hex(8)}")
    try:
        write_whole(own, secrets.token_hex(KEY_BYTES).encode())
        with suppress(FileExistsError):
            os.link(own, path)
    finally:
        own.unlink(missing_ok=True)
    synchronise(path.parent)


def _with_headers(response: Response) -> Response:
    for name, value in HEADERS.items():
        response.headers.setdefault(name, value)
    if request.endpoint == "static" and response.status_code < 400:
        response.headers["Cache-Control"] = FOR_EVER
    return response
