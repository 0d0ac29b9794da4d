"""Where phones find a book: one name and one port, the same for its whole life.

What a phone has not yet sent belongs to the address it was opened under, so neither is ever
changed; both are made from the book's id, so that a restored book answers where the lost one did.
"""

from __future__ import annotations

import ipaddress
import socket
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from urllib.parse import urlsplit
from uuid import UUID

from ..book.book import Book

# Below the ports a system hands out by itself (IANA: from 49152; Linux: from 32768).
FIRST_PORT, PORTS = 20_000, 12_000
PRIVATE = tuple(map(ipaddress.IPv4Network, ("10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16")))
# Nothing is sent there: the system only says from which of its addresses it would be.
PROBES = ("10.255.255.255", "172.16.255.255", "192.168.0.1", "192.168.137.2", "10.42.0.2", "169.254.1.1", "192.0.2.1")


@dataclass(frozen=True)
class Address:
    """The book's place on a local network.

    name  its name there, `fieldbook-….local`
    port  where it is served; the page that leads a phone to trust it is at the next one
    """

    name: str
    port: int

    @property
    def url(self) -> str:
        """The address to open on a phone."""
        return f"https://{self.name}:{self.port}/phone/"

    @property
    def trust_port(self) -> int:
        """Where, without encryption, the authority's certificate is given out."""
        return self.port + 1


def address_of(book: Book) -> Address:
    """The name and port of a book; settled when first asked for."""
    if book.fact("name") is None:
        number = UUID(book.fact("book")).int
        with book.noting():
            book.set_fact("name", f"fieldbook-{number % 16**6:06x}.local")
            book.set_fact("port", str(FIRST_PORT + number % (PORTS // 2) * 2))
    return Address(book.fact("name") or "", int(book.fact("port") or 0))


def local_addresses() -> list[str]:
    """This machine's IPv4 addresses on private networks, in order."""
    found = _of_adapters() or _of_probes()
    return [str(address) for address in sorted(found) if any(address in network for network in PRIVATE)]


def _of_adapters() -> set[ipaddress.IPv4Address]:
    try:
        import ifaddr  # comes with zeroconf
    except ImportError:
        return set()
    texts = {ip.ip for adapter in ifaddr.get_adapters() for ip in adapter.ips if isinstance(ip.ip, str)}
    return {ipaddress.IPv4Address(text) for text in texts}


def _of_probes() -> set[ipaddress.IPv4Address]:
    found = set()
    for probe in PROBES:
        with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking, suppress(OSError):
            asking.connect((probe, 9))
            found.add(ipaddress.IPv4Address(asking.getsockname()[0]))
    return found


@dataclass(frozen=True)
class Way:
    """How a phone comes to a book.

    phone_url    what it opens, and installs
    by_number    the same by numbers, for a phone that does not find the name; it must then stay with that one
    trust_url    where it first learns to trust the book, None when it need not
    fingerprint  of the authority it then trusts
    hosts        names the server answers to
    """

    phone_url: str
    by_number: tuple[str, ...] = ()
    trust_url: str | None = None
    fingerprint: str | None = None
    hosts: tuple[str, ...] = ()

    def leading(self, code: str) -> str:
        """What a square for the camera holds: where the phone begins, with its code.

        After a # a code is sent to nobody, since that page is not encrypted.
        """
        return f"{self.trust_url}#{code}" if self.trust_url else f"{self.phone_url}?join={code}"

    @property
    def ports(self) -> tuple[int, ...]:
        """What a firewall must let through; none where a proxy speaks for the book."""
        found = (urlsplit(url).port for url in (self.phone_url, self.trust_url) if url)
        return tuple(port for port in found if port)


def way_on_the_local_network(address: Address, addresses: Sequence[str], fingerprint: str) -> Way:
    """The way to a book that this machine serves itself."""
    return Way(
        address.url,
        tuple(f"https://{one}:{address.port}/phone/" for one in addresses),
        f"http://{addresses[0] if addresses else address.name}:{address.trust_port}/",
        fingerprint,
        (address.name, *addresses, "localhost", "127.0.0.1"),
    )


def way_behind_a_proxy(name: str) -> Way:
    """The way to a book that a reverse proxy serves under its own name, with a certificate phones trust already."""
    return Way(f"https://{name}/phone/", hosts=(name.partition(":")[0],))
