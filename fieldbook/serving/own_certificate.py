"""A certificate of somebody's own, that phones trust already: looked at before it is served with."""

from __future__ import annotations

import ssl
from datetime import UTC, datetime
from pathlib import Path

from cryptography import x509

from ..checks.days import in_words
from ..errors import FieldbookError
from .address import Address, Way


class CertificateUnusable(FieldbookError):
    """A certificate or its key cannot be read, do not belong together, or do not hold for the name today."""

    code = "certificate-unusable"


def way_by_certificate(address: Address, name: str, certificate: Path, key: Path) -> Way:
    """The way to a book served under a name with its own certificate, at the book's own port.

    certificate  PEM, with whatever stands between it and an authority that phones trust
    key          PEM, without a passphrase
    Raises CertificateUnusable.
    """
    _look_at_the_pair(certificate, key)
    first = x509.load_pem_x509_certificates(certificate.read_bytes())[0]
    now = datetime.now(UTC)
    if not first.not_valid_before_utc <= now <= first.not_valid_after_utc:
        begins, ends = (in_words(one.date()) for one in (first.not_valid_before_utc, first.not_valid_after_utc))
        raise _unusable(
            f"{certificate} holds from {begins} to {ends}, not today.", "Renew it, or look at the clock.", certificate
        )
    names = _names(first)
    if not any(_covers(one, name) for one in names):
        held = ", ".join(names) or "no name"
        raise _unusable(f"{certificate} holds for {held}, not for {name}.", "Give --name as it stands there.", name)
    return Way(f"https://{name}:{address.port}/phone/", hosts=(name, "localhost", "127.0.0.1"))


def _look_at_the_pair(certificate: Path, key: Path) -> None:
    for file in (certificate, key):
        try:
            file.read_bytes()
        except OSError as error:
            raise _unusable(f"{file} cannot be read: {error.strerror}.", "Check its name.", file) from None
    try:
        # A passphrase is never asked for: nobody may be there to type it.
        ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER).load_cert_chain(certificate, key, password=lambda: b"")
    except (ssl.SSLError, ValueError) as error:
        remedy = "Give both as PEM, the key without a passphrase, and the certificate followed by those above it."
        raise _unusable(f"{certificate} and {key} cannot be used together ({error}).", remedy, key) from None


def _names(certificate: x509.Certificate) -> list[str]:
    try:
        found = certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    except x509.ExtensionNotFound:
        return []
    return [*found.get_values_for_type(x509.DNSName), *map(str, found.get_values_for_type(x509.IPAddress))]


def _covers(held: str, name: str) -> bool:
    """Whether a name in a certificate stands for another; a * stands for one label (RFC 6125, 6.4.3)."""
    held, name = held.lower(), name.lower()
    return held == name or (held.startswith("*.") and "." in name and held[2:] == name.partition(".")[2])


def _unusable(reason: str, remedy: str, value: object) -> CertificateUnusable:
    return CertificateUnusable(reason, remedy, field="certificate", value=value)
