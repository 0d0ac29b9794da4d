"""The authority of a book: what it can vouch for, how long, and that it is never made anew in silence.

Certificates are judged by OpenSSL, in a real TLS handshake by Python's ssl, not by our own reading.
"""

from __future__ import annotations

import socket
import ssl
import stat
import threading
from contextlib import suppress
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec

from fieldbook.book.backup import backup
from fieldbook.book.book import Book
from fieldbook.serving import authority
from fieldbook.serving.address import Address, address_of
from fieldbook.serving.authority import AuthorityUnusable, Keys, keys_of

LAN = ["192.168.1.7", "10.42.0.1"]


@pytest.fixture
def address(empty_book: Book) -> Address:
    """The address of the book."""
    return address_of(empty_book)


def handshake(keys: Keys, name: str) -> None:
    """Speak TLS with a server that has these keys, under a name, trusting the book's authority alone."""
    serving = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    serving.load_cert_chain(keys.certificate, keys.key)
    asking = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    asking.load_verify_locations(cadata=keys.authority.der)
    ours, theirs = socket.socketpair()

    def serve() -> None:
        with theirs, suppress(ssl.SSLError, OSError):  # what went wrong is told on the other side
            serving.wrap_socket(theirs, server_side=True).close()

    thread = threading.Thread(target=serve)
    thread.start()
    try:
        with ours:
            asking.wrap_socket(ours, server_hostname=name).close()
    finally:
        thread.join()


def loaded(path: Path) -> x509.Certificate:
    """A certificate on disk."""
    return x509.load_pem_x509_certificate(path.read_bytes())


def test_phone_that_trusts_the_authority_accepts_name_and_numbers(empty_book: Book, address: Address) -> None:
    """The server's certificate serves under the book's name, this machine's numbers and localhost, and no other."""
    keys = keys_of(empty_book, address, LAN)
    for name in (address.name, *LAN, "localhost", "127.0.0.1"):
        handshake(keys, name)
    for name in ("elsewhere.local", "192.168.1.8"):
        with pytest.raises(ssl.SSLCertVerificationError):
            handshake(keys, name)


@pytest.mark.parametrize("name", ["bank.example", "other.local", "203.0.113.9"])
def test_authority_can_vouch_for_nothing_outside_its_constraints(empty_book: Book, address: Address, name: str) -> None:
    """Whoever steals the authority's key can still not stand in for another place (RFC 5280, 4.2.1.10)."""
    keys = keys_of(empty_book, address, LAN)
    folder = empty_book.folder / "keys"
    root, key = loaded(folder / "authority.crt"), authority._read_key(folder / "authority.key")
    names, numbers = ([], [name]) if name[0].isdigit() else ([name], [])
    authority._issue(keys.certificate, keys.key, root, key, names or ["localhost"], numbers)
    with pytest.raises(ssl.SSLCertVerificationError, match="subtree"):
        handshake(keys, name)


def test_certificates_have_the_form_phones_ask_for(empty_book: Book, address: Address) -> None:
    """What makes a phone list an authority, and accept a server: see each line."""
    keys = keys_of(empty_book, address, LAN)
    root, leaf = x509.load_der_x509_certificate(keys.authority.der), loaded(keys.certificate)
    basic = root.extensions.get_extension_for_class(x509.BasicConstraints)
    assert (basic.critical, basic.value.ca) == (True, True)
    assert root.extensions.get_extension_for_class(x509.NameConstraints).critical
    assert leaf.not_valid_after_utc - leaf.not_valid_before_utc <= timedelta(days=397)
    usage = leaf.extensions.get_extension_for_class(x509.ExtendedKeyUsage).value
    assert list(usage) == [x509.oid.ExtendedKeyUsageOID.SERVER_AUTH]
    for certificate in (root, leaf):
        key = certificate.public_key()
        assert isinstance(key, ec.EllipticCurvePublicKey)
        assert key.curve.name == "secp256r1"
        assert isinstance(certificate.signature_hash_algorithm, hashes.SHA256)


def test_fingerprint_is_the_digest_of_the_certificate_in_pairs(empty_book: Book, address: Address) -> None:
    """A person can compare what a phone shows with what the desk shows."""
    keys = keys_of(empty_book, address, LAN)
    expected = x509.load_der_x509_certificate(keys.authority.der).fingerprint(hashes.SHA256())
    assert bytes.fromhex(keys.authority.fingerprint.replace(":", "")) == expected
    assert len(keys.authority.fingerprint) == 32 * 3 - 1


def test_keys_are_kept_while_they_serve(empty_book: Book, address: Address) -> None:
    """Starting again changes nothing, so phones notice nothing."""
    first = keys_of(empty_book, address, LAN)
    content = first.certificate.read_bytes()
    assert keys_of(empty_book, address, list(reversed(LAN))) == first
    assert first.certificate.read_bytes() == content


def test_server_certificate_is_renewed_when_the_addresses_change(empty_book: Book, address: Address) -> None:
    """In another network the server's certificate is made anew, by the same authority."""
    first = keys_of(empty_book, address, LAN)
    second = keys_of(empty_book, address, ["172.20.10.2"])
    assert second.authority == first.authority
    handshake(second, "172.20.10.2")
    with pytest.raises(ssl.SSLCertVerificationError):
        handshake(second, LAN[0])


@pytest.mark.parametrize(
    "damage", ["runs out soon", "from the future", "damaged", "key gone", "key of another", "of another authority"]
)
def test_server_certificate_that_serves_no_more_is_made_anew(empty_book: Book, address: Address, damage: str) -> None:
    """Whatever is wrong with the server's own keys mends itself at the next start."""
    keys = keys_of(empty_book, address, LAN)
    folder = keys.key.parent
    root, signing = loaded(folder / "authority.crt"), authority._read_key(folder / "authority.key")
    if damage in {"runs out soon", "from the future", "of another authority"}:
        _replace(keys, root, signing, damage, [address.name, "localhost"])
    elif damage == "damaged":
        keys.certificate.write_bytes(b"-----BEGIN CERTIFICATE-----\nAAAA\n-----END CERTIFICATE-----\n")
    elif damage == "key gone":
        keys.key.unlink()
    else:
        authority._write_key(keys.key, ec.generate_private_key(ec.SECP256R1()))
    before = keys.certificate.read_bytes()
    again = keys_of(empty_book, address, LAN)
    assert again.certificate.read_bytes() != before
    assert again.authority == keys.authority
    handshake(again, address.name)


def _replace(
    keys: Keys, root: x509.Certificate, signing: ec.EllipticCurvePrivateKey, damage: str, names: list[str]
) -> None:
    now, key = datetime.now(UTC), authority._read_key(keys.key)
    begins, ends = {
        "runs out soon": (now - timedelta(days=368), now + timedelta(days=29)),
        "from the future": (now + timedelta(days=2), now + timedelta(days=300)),
        "of another authority": (now - timedelta(days=1), now + timedelta(days=300)),
    }[damage]
    alternatives = loaded(keys.certificate).extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    if damage == "of another authority":
        signing = ec.generate_private_key(ec.SECP256R1())
    made = x509.CertificateBuilder(root.subject, authority._titled(names[0]), key.public_key(), 7, begins, ends)
    made = made.add_extension(alternatives, critical=False).sign(signing, hashes.SHA256())
    keys.certificate.write_bytes(made.public_bytes(serialization.Encoding.PEM))


@pytest.mark.parametrize("damage", ["gone", "key gone", "key of another", "another authority", "damaged"])
def test_authority_is_never_made_anew_in_silence(empty_book: Book, address: Address, damage: str) -> None:
    """Every phone trusts the one that was; a new one is made only when asked for in so many words."""
    first = keys_of(empty_book, address, LAN)
    certificate, key = first.key.with_name("authority.crt"), first.key.with_name("authority.key")
    if damage == "gone":
        certificate.unlink()
        key.unlink()
    elif damage == "key gone":
        key.unlink()
    elif damage == "key of another":
        authority._write_key(key, ec.generate_private_key(ec.SECP256R1()))
    elif damage == "damaged":
        certificate.write_bytes(b"nothing")
    else:
        other = ec.generate_private_key(ec.SECP256R1())
        authority._write_key(key, other)
        made = authority._make_authority(other, address.name).public_bytes(serialization.Encoding.PEM)
        certificate.write_bytes(made)
    with pytest.raises(AuthorityUnusable) as refusal:
        keys_of(empty_book, address, LAN)
    assert "--new-authority" in refusal.value.remedy
    again = keys_of(empty_book, address, LAN, again=True)
    assert again.authority != first.authority
    assert keys_of(empty_book, address, LAN) == again
    handshake(again, address.name)


def test_interrupted_first_making_is_begun_again(empty_book: Book, address: Address) -> None:
    """A key that no phone has ever trusted yet may be replaced without asking."""
    (empty_book.folder / "keys").mkdir()
    authority._write_key(empty_book.folder / "keys" / "authority.key", ec.generate_private_key(ec.SECP256R1()))
    handshake(keys_of(empty_book, address, LAN), address.name)


def test_keys_are_readable_by_their_owner_alone_and_left_out_of_backups(empty_book: Book, address: Address) -> None:
    """Whoever gets a backup cannot stand in for the book."""
    import zipfile

    keys = keys_of(empty_book, address, LAN)
    folder = keys.key.parent
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700
    assert {stat.S_IMODE(path.stat().st_mode) for path in folder.iterdir()} == {0o600}
    backup(empty_book, empty_book.folder.parent / "b.zip")
    with zipfile.ZipFile(empty_book.folder.parent / "b.zip") as archive:
        assert not [name for name in archive.namelist() if "key" in name]
