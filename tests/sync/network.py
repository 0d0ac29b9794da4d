"""A network between phones and a server: it loses, doubles and delays, and gives answers that are not the server's."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from fieldbook.web import create_app
from tests.sync.phones import Phone, Reply

FAULTS = ("request lost", "answer lost", "twice", "late", "portal", "out of order", "damaged")


class Network:
    """Asks the server for the phones.

    faults  what goes wrong with the next requests, one each; after that all goes well
    late    requests whose senders gave up waiting, and which may still arrive
    refused ids of the entries the server refused, whether or not its answer arrived
    """

    def __init__(self, folder: Path):
        self.faults: list[str] = []
        self.late: list[Callable[[], Reply]] = []
        self.refused: set[str] = set()
        self.serve(folder)

    def serve(self, folder: Path) -> None:
        """Start a server over a book, in place of the one before."""
        app = create_app(folder)
        app.config["SHELL"] = "no app is fetched here"  # else its files are read for the first `hello`
        self.client = app.test_client()

    def ask(self, phone: Phone, method: str, path: str, **sent: Any) -> Reply:
        """One request as the phone sees it: status and JSON, or nothing."""
        token, fault = phone.token, self.faults.pop(0) if self.faults else ""

        def deliver() -> Reply:
            return self._deliver(token, method, path, **sent)

        if fault == "damaged" and "piece" in sent:
            first, content, total = sent["piece"]
            sent["piece"] = first, bytes([content[0] ^ 1]) + content[1:], total
        if fault == "late":
            self.late.append(deliver)
        if fault in {"late", "request lost"}:
            return None
        if fault == "portal":
            return 200, "<html>Welcome to this network</html>"
        if fault == "out of order":
            return 503, {"error": "book-locked"}
        reply = deliver()
        if fault == "twice":
            reply = deliver()
        return None if fault == "answer lost" else reply

    def _deliver(self, token: str, method: str, path: str, json: Any = None, piece: Any = None) -> Reply:
        headers, more = {"Authorization": f"Bearer {token}"}, {}
        if json is not None:
            more["json"] = json
        if piece is not None:
            first, content, total = piece
            headers["Content-Range"] = f"bytes {first}-{first + len(content) - 1}/{total}"
            more |= {"data": content, "content_type": "application/octet-stream"}
        answer = self.client.open(f"/phone/{path}", method=method, headers=headers, buffered=True, **more)
        assert answer.status_code in {503, 507} or answer.status_code < 500, answer.text
        said = answer.get_json()
        told = said.get("answers", []) if isinstance(said, dict) else []
        self.refused |= {one["id"] for one in told if one["status"] == "refused"}
        return answer.status_code, said
