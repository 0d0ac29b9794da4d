"""A certificate of one's own: what is served with, and what is refused in words.

The certificates come from the cryptography library; which names they hold for is judged by RFC 6125, 6.4.
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import NameOID

from fieldbook.serving.address import Address
from fieldbook.serving.own_certificate import CertificateUnusable, way_by_certificate

ADDRESS = Address("fieldbook-0a1b2c.local", 23456)


def made(folder: Path, *names: str, days: int = 30, passphrase: bytes | None = None) -> tuple[Path, Path]:
    """A certificate for names and its key, as files."""
    key = ec.generate_private_key(ec.SECP256R1())
    title = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "own")])
    begins = datetime.now(UTC) - timedelta(days=60)
    certificate = (
        x509.CertificateBuilder()
        .subject_name(title)
        .issuer_name(title)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(begins)
        .not_valid_after(datetime.now(UTC) + timedelta(days=days))
        .add_extension(x509.SubjectAlternativeName([x509.DNSName(name) for name in names]), critical=False)
        .sign(key, hashes.SHA256())
    )
    form = serialization.PrivateFormat.PKCS8
    lock = serialization.BestAvailableEncryption(passphrase) if passphrase else serialization.NoEncryption()
    folder.mkdir(exist_ok=True)
    (folder / "own.pem").write_bytes(certificate.public_bytes(serialization.Encoding.PEM))
    (folder / "own.key").write_bytes(key.private_bytes(serialization.Encoding.PEM, form, lock))
    return folder / "own.pem", folder / "own.key"


@pytest.mark.parametrize("held", ["book.example", "*.example"])
def test_phones_are_led_to_the_name_at_the_books_own_port(tmp_path: Path, held: str) -> None:
    """No trust is asked for, and the server answers to that name."""
    way = way_by_certificate(ADDRESS, "book.example", *made(tmp_path, held))
    assert (way.phone_url, way.trust_url) == ("https://book.example:23456/phone/", None)
    assert "book.example" in way.hosts


@pytest.mark.parametrize(
    ("name", "held"), [("b.example", "a.example"), ("a.b.example", "*.example"), ("example", "*.example")]
)
def test_name_the_certificate_does_not_hold_for_is_refused(tmp_path: Path, name: str, held: str) -> None:
    """A star stands for one label, and for no more."""
    with pytest.raises(CertificateUnusable, match=name):
        way_by_certificate(ADDRESS, name, *made(tmp_path, held))


def test_certificate_that_ran_out_is_refused(tmp_path: Path) -> None:
    """Its days are said."""
    with pytest.raises(CertificateUnusable, match="not today"):
        way_by_certificate(ADDRESS, "book.example", *made(tmp_path, "book.example", days=-1))


def test_files_that_cannot_be_used_are_refused(tmp_path: Path) -> None:
    """A missing file, another's key, a key under a passphrase and a file of something else are each told."""
    certificate, key = made(tmp_path, "book.example")
    _, others = made(tmp_path / "other", "book.example")
    _, locked = made(tmp_path / "locked", "book.example", passphrase=b"secret")
    for pair in ((certificate, tmp_path / "none.key"), (certificate, others), (certificate, locked), (key, key)):
        with pytest.raises(CertificateUnusable) as refused:
            way_by_certificate(ADDRESS, "book.example", *pair)
        assert refused.value.remedy
