"""Making a book's address known: its name on the local network, and a picture a phone's camera reads.

Both use packages of the extra `lan`; without them the address, to be typed, is what is left.
"""

from __future__ import annotations

import io
import socket
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager, suppress
from typing import TYPE_CHECKING

from .address import Address

if TYPE_CHECKING:
    from zeroconf import ServiceInfo, Zeroconf

EVERYBODY = "224.0.0.251"  # the group that names are asked of: RFC 6762, section 3
PATIENCE_S = 60.0  # a machine that starts many things at once may be long about it
ATTEMPTS = 6
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
    heard_at = [one for one in addresses if _may_be_heard(one)]
    if not heard_at:
        yield f"The name {address.name} cannot be announced: the network is gone."
        return
    service = ServiceInfo(
        "_https._tcp.local.",
        f"{address.name.removesuffix('.local')}._https._tcp.local.",
        addresses=[socket.inet_aton(one) for one in heard_at],
        port=address.port,
        server=f"{address.name}.",
    )
    speaker = None
    try:
        try:
            with ThreadPoolExecutor(1) as apart:  # else it would wait in a loop that runs in this thread for itself
                speaker = apart.submit(Zeroconf, interfaces=heard_at).result()
            _say(speaker, service)
            trouble = None
        except (OSError, ZeroconfError, TimeoutError) as error:
            trouble = f"The name {address.name} cannot be announced here ({str(error) or type(error).__name__})."
        yield trouble
    finally:
        if speaker:
            _fall_silent(speaker)


def _say(speaker: Zeroconf, service: ServiceInfo) -> None:
    """Announce a service; zeroconf's own call waits ten seconds, and gives up on a busy machine."""
    import asyncio  # here, as zeroconf is: a book that is not announced does without

    assert speaker.loop is not None
    asyncio.run_coroutine_threadsafe(speaker.async_register_service(service), speaker.loop).result(PATIENCE_S)


def _fall_silent(speaker: Zeroconf) -> None:
    """Take the name back and close; begun again, as it may be, where a busy machine had no time for it."""
    from zeroconf import EventLoopBlocked

    for _ in range(ATTEMPTS):
        with suppress(EventLoopBlocked):
            speaker.close()
            return


def _may_be_heard(one: str) -> bool:
    """Whether an address is still this machine's: asked first, since zeroconf leaves sockets open where it is not."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe, suppress(OSError):
        joined = socket.inet_aton(EVERYBODY) + socket.inet_aton(one)
        probe.setsockopt(socket.IPPROTO_IP, socket.IP_ADD_MEMBERSHIP, joined)
        return True
    return False


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
