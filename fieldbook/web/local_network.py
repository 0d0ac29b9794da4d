"""A book on the local network: the desk, the phones' app under TLS and the plain page, wherever the laptop is."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from cheroot import wsgi
from flask import Flask

from ..book.opening import open_book
from ..errors import FieldbookError
from ..serving.address import Address, way_on_the_local_network
from ..serving.authority import Keys, keys_of
from .pages.joining import WAY


@dataclass(frozen=True)
class LocalNetwork:
    """What has to be told when the laptop's addresses change.

    desk, phones, trust  the apps
    server               the one that speaks TLS
    keys                 whose files it speaks with
    say                  told in words what has changed
    """

    folder: Path
    address: Address
    keys: Keys
    desk: Flask
    phones: Flask
    trust: Flask
    server: wsgi.Server
    say: Callable[[str], object]

    def move(self, addresses: list[str]) -> None:
        """Answer under these addresses from now on, with a certificate that names them."""
        way = way_on_the_local_network(self.address, addresses, self.keys.authority.fingerprint)
        try:
            with open_book(self.folder) as book:
                keys_of(book, self.address, addresses)
            self.server.ssl_adapter.context.load_cert_chain(self.keys.certificate, self.keys.key)
        except FieldbookError as error:
            self.say(f"{error.reason} {error.remedy} Until then phones reach the book by its name alone.")
        for app in (self.desk, self.phones, self.trust):
            app.config[WAY] = way
        for app in (self.phones, self.trust):
            app.config["TRUSTED_HOSTS"] = list(way.hosts)
        self.say(f"Another network: phones begin at {way.trust_url} now, and use {way.phone_url} as before.")
