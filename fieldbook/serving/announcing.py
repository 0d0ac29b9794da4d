"""Making a book's address known: its name on the local network, and a picture a phone's camera reads.

Both use packages of the extra `lan`; without them the address, to be typed, is what is left.
"""

from __future__ import annotations

import io
import socket
from collections.abc import Iterator, Sequence
from contextlib import contextmanager

from .address import Address

WITHOUT_EXTRA = "Install Fieldbook with its extra “lan” for that: pip install 'fieldbook[lan]'."


@contextmanager
def announced(address: Address, addresses: Sequence[str]) -> Iterator[str | None]:
    """Answer to the book's name (multicast DNS, RFC 6762) while the block runs.

    addresses  this machine's on local networks
    Gives what stands in the way, in words, or None; the book is then reached by its numbers alone.
    """
    try:
        from zeroconf import Error as ZeroconfError
        from zeroconf import ServiceInfo, Zeroconf
    except ImportError:
        yield f"The name {address.name} cannot be announced. {WITHOUT_EXTRA}"
        return
    service = ServiceInfo(
        "_https._tcp.local.",
        f"{address.name.removesuffix('.local')}._https._tcp.local.",
        addresses=[socket.inet_aton(one) for one in addresses],
        port=address.port,
        server=f"{address.name}.",
    )
    speaker = None
    try:
        try:
            speaker = Zeroconf(interfaces=list(addresses))
            speaker.register_service(service)
            trouble = None
        except (OSError, ZeroconfError) as error:
            trouble = f"The name {address.name} cannot be announced here ({error or type(error).__name__})."
        yield trouble
    finally:
        if speaker:
            speaker.close()


def qr_svg(text: str) -> str | None:
    """A QR code (ISO/IEC 18004) as an SVG element; None without the extra."""
    try:
        import segno
    except ImportError:
        return None
    return segno.make(text, error="m").svg_inline(omitsize=True, border=4, light="#fff", title=text)


def qr_terminal(text: str) -> str | None:
    """The same in half blocks for a terminal; None without the extra."""
    try:
        import segno
    except ImportError:
        return None
    drawn = io.StringIO()
    segno.make(text, error="m").terminal(drawn, border=2, compact=True)
    return drawn.getvalue()
