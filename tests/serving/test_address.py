"""Where phones find a book, and how its address is made known."""

from __future__ import annotations

import asyncio
import gc
import ipaddress
import sys
from concurrent.futures import ThreadPoolExecutor
from xml.etree import ElementTree

import pytest

from fieldbook.book.backup import backup, restore
from fieldbook.book.book import Book
from fieldbook.serving.address import FIRST_PORT, PORTS, PRIVATE, address_of, local_addresses, way_on_the_local_network
from fieldbook.serving.announcing import PATIENCE_S, announced, qr_svg, qr_terminal


def test_address_stays_the_same_for_the_life_of_a_book(empty_book: Book) -> None:
    """Asked again, and restored from a backup elsewhere, a book has the address its phones know."""
    first = address_of(empty_book)
    backup(empty_book, empty_book.folder.parent / "b.zip")
    with restore(empty_book.folder.parent / "b.zip", empty_book.folder.parent / "elsewhere") as restored:
        assert address_of(restored) == address_of(empty_book) == first
    assert FIRST_PORT <= first.port < first.trust_port < FIRST_PORT + PORTS


def test_local_addresses_are_private_ones(empty_book: Book) -> None:
    """Nothing is offered to phones that the authority could not vouch for."""
    for address in local_addresses():
        assert any(ipaddress.IPv4Address(address) in network for network in PRIVATE)


@pytest.mark.parametrize("addresses", [[], ["192.168.1.7", "10.42.0.1"]])
def test_way_leads_by_number_and_goes_on_by_name(empty_book: Book, addresses: list[str]) -> None:
    """A phone that finds no name yet is led by a number where there is one, and goes on under the lasting name."""
    address = address_of(empty_book)
    way = way_on_the_local_network(address, addresses, "AB")
    assert way.phone_url == f"https://{address.name}:{address.port}/phone/"
    assert way.trust_url == f"http://{(addresses or [address.name])[0]}:{address.port + 1}/"
    assert {address.name, "localhost", *addresses} <= set(way.hosts)


def test_announced_name_is_found_by_another_program(empty_book: Book) -> None:
    """Who asks the network for the book's name is told its number, by multicast DNS."""
    zeroconf = pytest.importorskip("zeroconf")
    address = address_of(empty_book)
    with announced(address, ["127.0.0.1"]) as trouble:
        if trouble:
            pytest.skip(f"no multicast here: {trouble}")
        with ThreadPoolExecutor(1) as apart:  # in the loop of a browser's driver it would wait for itself
            asking = apart.submit(zeroconf.Zeroconf, interfaces=["127.0.0.1"]).result()
        try:
            found = zeroconf.AddressResolverIPv4(f"{address.name}.")
            with ThreadPoolExecutor(1) as apart:
                assert apart.submit(found.request, asking, PATIENCE_S * 1000).result()
            assert found.parsed_addresses() == ["127.0.0.1"]
        finally:
            asking.close()


def test_name_is_announced_from_within_a_loop_that_waits_meanwhile(empty_book: Book) -> None:
    """As in a process that drives a browser: whatever runs there, the announcement has a loop of its own."""
    pytest.importorskip("zeroconf")
    alone, within = [], []
    with announced(address_of(empty_book), ["127.0.0.1"]) as trouble:
        alone.append(trouble)

    async def in_a_loop() -> None:
        with announced(address_of(empty_book), ["127.0.0.1"]) as trouble:
            within.append(trouble)

    with ThreadPoolExecutor(1) as apart:  # where no loop runs yet
        apart.submit(asyncio.run, in_a_loop()).result()
    assert within == alone


def test_network_that_is_gone_when_the_name_is_announced_leaves_no_socket_open(empty_book: Book) -> None:
    """It is told, and the book is served by what is left; 192.0.2.7 is nobody's (RFC 5737)."""
    pytest.importorskip("zeroconf")
    address = address_of(empty_book)
    with announced(address, ["192.0.2.7"]) as trouble:
        assert trouble == f"The name {address.name} cannot be announced: the network is gone."
    gc.collect()  # a socket nobody closed would be told of now, which fails the test


def test_without_the_extra_it_is_said_and_the_address_is_left(
    empty_book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Without the packages that announce and draw, serving goes on; the person types the address."""
    for name in ("zeroconf", "segno", "ifaddr"):
        monkeypatch.setitem(sys.modules, name, None)  # as when it is not installed
    address = address_of(empty_book)
    with announced(address, ["127.0.0.1"]) as trouble:
        assert address.name in (trouble or "")
        assert "lan" in (trouble or "")
    assert (qr_svg(address.url), qr_terminal(address.url)) == (None, None)
    assert isinstance(local_addresses(), list)


def test_square_for_a_camera_is_drawn_for_page_and_terminal() -> None:
    """The drawing is well-formed, sized by its page, and names what it leads to."""
    pytest.importorskip("segno")
    drawn = ElementTree.fromstring(qr_svg("https://fieldbook-0a1b2c.local:23456/phone/") or "")
    assert drawn.get("viewBox")
    assert drawn.find("title").text == "https://fieldbook-0a1b2c.local:23456/phone/"  # type: ignore[union-attr]
    assert (qr_terminal("https://fieldbook-0a1b2c.local:23456/phone/") or "").count("\n") > 15
