"""Reading a request's head strictly: what a proxy and a server could take in two ways is refused.

Who disagrees with a proxy on where a request ends, or on whom it is from, lets a stranger speak as somebody else.

Source: RFC 9112, HTTP/1.1, 2022, sections 2.2, 3.2, 5.1, 5.2, 6.1 and 6.3; RFC 9110, HTTP Semantics, 2022, sections
5.3, 5.5, 5.6.2 and 8.6.
"""

from __future__ import annotations

import re
from typing import Any

from cheroot.server import HeaderReader

_NAME = re.compile(rb"[!#$%&'*+\-.^_`|~0-9A-Za-z]+")
_LENGTH = re.compile(rb"[0-9]+")
_NEVER_IN_A_VALUE = re.compile(rb"[\x00\r\n]")
ONCE = {b"Content-Length", b"Host", b"Transfer-Encoding"}


class StrictReader(HeaderReader):
    """Reads fields up to the empty line; raises ValueError, in words, for what is no HTTP/1.1."""

    def __call__(self, rfile: Any, hdict: dict[bytes, bytes] | None = None) -> dict[bytes, bytes]:
        """The fields by name, added to those given; one that comes again is joined to the one before."""
        fields: dict[bytes, bytes] = {} if hdict is None else hdict
        while (line := rfile.readline()) != b"\r\n":
            name, value = _field(line)
            if b"_" in name:  # a program behind a gateway could not tell X_Forwarded_For from X-Forwarded-For
                continue
            if name in fields and name in ONCE:
                raise ValueError(f"{name.decode()} is said twice")
            between = b"; " if name == b"Cookie" else b", "
            fields[name] = fields[name] + between + value if name in fields else value
        _agreeing(fields)
        return fields


def _field(line: bytes) -> tuple[bytes, bytes]:
    """Name and value of one line."""
    if not line.endswith(b"\r\n"):
        raise ValueError("A line of the head does not end as HTTP has it")
    if line[:1] in b" \t":
        raise ValueError("A line of the head goes on in the next")
    name, colon, value = line[:-2].partition(b":")
    if not colon or not _NAME.fullmatch(name):
        raise ValueError("A line of the head has no name that HTTP knows")
    if _NEVER_IN_A_VALUE.search(value):
        raise ValueError("A line of the head has a character that no value may have")
    return name.title(), value.strip(b" \t")


def _agreeing(fields: dict[bytes, bytes]) -> None:
    """Raise ValueError where the length is no number, or is said in two ways."""
    length = fields.get(b"Content-Length")
    if length is not None and not _LENGTH.fullmatch(length):
        raise ValueError("Content-Length is no number")
    if length is not None and b"Transfer-Encoding" in fields:
        raise ValueError("The length of the body is said in two ways")
