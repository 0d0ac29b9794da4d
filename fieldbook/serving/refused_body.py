"""What nobody reads of a request's body is thrown away in pieces; of a long one no more than a phone ever sends.

cheroot reads all of it at once before it answers, so that four posts of 400 MB that are refused take 1.6 GB.
"""

from __future__ import annotations

from cheroot.server import HTTPRequest

from .head import StrictReader

# As much as the largest piece of a photograph, twice: whoever sends less gets the answer, and may go on.
MOST_BYTES = 16 * 2**20
AT_ONCE_BYTES = 65_536


class Request(HTTPRequest):
    """A request whose body may be refused unread, however long it is, and whose head may be nonsense."""

    header_reader = StrictReader()

    def read_request_line(self) -> bool:
        """Read the first line; one that is no address is refused, where cheroot would let the connection drop."""
        try:
            return bool(super().read_request_line())  # type: ignore[no-untyped-call]
        except ValueError:
            self.simple_response("400 Bad Request", "Malformed Request-URI")
            return False

    def read_request_headers(self) -> bool:
        """Read the head; a request that does not say whom it is to, or a body how long it is, is refused by that."""
        if not super().read_request_headers():  # type: ignore[no-untyped-call]
            return False
        if b"Transfer-Encoding" in self.inheaders:  # in HTTP/1.0 as well, which has none (RFC 9112, 6.1)
            self.simple_response("411 Length Required", "Say how long it is")
            return False
        if self.request_protocol != b"HTTP/1.0" and b"Host" not in self.inheaders:  # RFC 9112, 3.2
            self.simple_response("400 Bad Request", "Say whom it is to: Host is missing")
            return False
        return True

    def send_headers(self) -> None:
        """Throw away what is left of the body, or let the connection close after the answer; then answer."""
        room = 0 if self.close_connection else MOST_BYTES
        while (left := getattr(self.rfile, "remaining", 0)) and room > 0:
            read = self.rfile.read(min(left, room, AT_ONCE_BYTES))
            if not read:
                break
            room -= len(read)
        if getattr(self.rfile, "remaining", 0):
            self.close_connection = True
        super().send_headers()
