"""The certificate authority of one book, and the server's certificate it signs.

Phones are asked to trust an authority only if it can vouch for nothing else: its certificate
names the one host name and the private networks it holds for (RFC 5280, 4.2.1.10, critical).
Made once and never silently again, since every phone would have to trust the new one. The
server's certificate is short-lived and renewed by itself; 397 days are accepted everywhere.
"""

from __future__ import annotations

import hashlib
import ipaddress
import plistlib
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from uuid import NAMESPACE_OID, uuid5

from cryptography import x509
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from ..book.book import Book
from ..book.evidence import write_whole
from ..book.storage import storage_errors
from ..errors import FieldbookError
from .address import PRIVATE, Address

AUTHORITY_LIFE, SERVER_LIFE = timedelta(days=3650), timedelta(days=397)
RENEW_BEFORE = timedelta(days=30)
CLOCKS_DIFFER = timedelta(days=1)  # a phone's clock may be that far behind
LOCAL_NETWORKS = (ipaddress.IPv4Network("127.0.0.0/8"), *PRIVATE)
LOCAL_NAMES = ("localhost",)
FACT = "authority"


class AuthorityUnusable(FieldbookError):
    """The book's authority is missing, damaged, or not valid today."""

    code = "authority-unusable"


@dataclass(frozen=True)
class Authority:
    """What phones are asked to trust.

    der          its certificate
    fingerprint  SHA-256 of it, in pairs, as phones show it
    """

    der: bytes
    fingerprint: str

    def profile(self, name: str) -> bytes:
        """The certificate as a configuration profile, which is how an iPhone takes it."""
        place = f"local.fieldbook.{self.fingerprint[:8].replace(':', '').lower()}"
        shown = {"PayloadVersion": 1, "PayloadDisplayName": called(name)}
        root = shown | {
            "PayloadType": "com.apple.security.root",
            "PayloadIdentifier": f"{place}.authority",
            "PayloadUUID": str(uuid5(NAMESPACE_OID, f"{self.fingerprint} authority")),
            "PayloadContent": self.der,
        }
        whole = shown | {
            "PayloadType": "Configuration",
            "PayloadIdentifier": place,
            "PayloadUUID": str(uuid5(NAMESPACE_OID, self.fingerprint)),
            "PayloadDescription": "Lets this phone trust one book on the local network, and nothing else.",
            "PayloadContent": [root],
        }
        return plistlib.dumps(whole)


@dataclass(frozen=True)
class Keys:
    """What the server needs to speak TLS.

    certificate, key  files of the server's own
    authority         what phones trust
    """

    certificate: Path
    key: Path
    authority: Authority


def keys_of(book: Book, address: Address, addresses: Iterable[str], again: bool = False) -> Keys:
    """The keys of a book, made on first use; the server's renewed when they no longer fit or soon run out.

    addresses  this machine's on local networks
    again      make a new authority where the old one cannot be used
    Raises AuthorityUnusable and the errors of `storage`.
    """
    folder = book.folder / "keys"
    with storage_errors(folder):
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        authority, signing = _authority(book, folder, address.name, again)
        certificate, key = folder / "server.crt", folder / "server.key"
        networks = sorted({"127.0.0.1", *addresses})
        if not _fits(certificate, key, authority, [address.name, *LOCAL_NAMES], networks):
            _issue(certificate, key, authority, signing, [address.name, *LOCAL_NAMES], networks)
    return Keys(certificate, key, Authority(authority.public_bytes(serialization.Encoding.DER), fingerprint(authority)))


def called(name: str) -> str:
    """What a phone shows an authority as, in its lists: `Fieldbook 3fa9c1` for `fieldbook-3fa9c1.local`."""
    return f"Fieldbook {name.removeprefix('fieldbook-').removesuffix('.local')}"


def fingerprint(certificate: x509.Certificate) -> str:
    """SHA-256 of a certificate, in upper-case pairs with colons between."""
    return hashlib.sha256(certificate.public_bytes(serialization.Encoding.DER)).digest().hex(":").upper()


def _authority(book: Book, folder: Path, name: str, again: bool) -> tuple[x509.Certificate, ec.EllipticCurvePrivateKey]:
    certificate_file, key_file = folder / "authority.crt", folder / "authority.key"
    try:
        return _usable(certificate_file, key_file, book.fact(FACT))
    except FileNotFoundError:
        trouble = "The keys that phones trust are not here." if book.fact(FACT) else None
    except ValueError as error:
        trouble = str(error)
    if trouble and not again:
        raise AuthorityUnusable(
            trouble,
            "Bring back the folder “keys” of this book, or start once with --new-authority: "
            "then every phone has to trust the new one.",
            value=folder,
        )
    key = ec.generate_private_key(ec.SECP256R1())
    certificate = _make_authority(key, name)
    _write_key(key_file, key)
    write_whole(certificate_file, certificate.public_bytes(serialization.Encoding.PEM))
    with book.noting():
        book.set_fact(FACT, fingerprint(certificate))
    return certificate, key


def _usable(
    certificate_file: Path, key_file: Path, expected: str | None
) -> tuple[x509.Certificate, ec.EllipticCurvePrivateKey]:
    """The authority as it lies there; FileNotFoundError when it does not, ValueError when it cannot be used."""
    certificate, key = _read_certificate(certificate_file), _read_key(key_file)
    if certificate.public_key() != key.public_key():
        raise ValueError("The authority's certificate and its key do not belong together.")
    if expected not in {None, fingerprint(certificate)}:
        raise ValueError("The authority here is not the one that the phones of this book trust.")
    if not certificate.not_valid_before_utc <= datetime.now(UTC) <= certificate.not_valid_after_utc:
        raise ValueError("By this machine's clock, the authority is not valid today; look at the clock first.")
    return certificate, key


def _read_certificate(file: Path) -> x509.Certificate:
    try:
        return x509.load_pem_x509_certificate(file.read_bytes())
    except ValueError:
        raise ValueError(f"{file.name} is damaged.") from None


def _read_key(file: Path) -> ec.EllipticCurvePrivateKey:
    try:
        key = serialization.load_pem_private_key(file.read_bytes(), password=None)
    except (ValueError, TypeError):
        key = None
    if not isinstance(key, ec.EllipticCurvePrivateKey):
        raise ValueError(f"{file.name} is damaged.")
    return key


def _make_authority(key: ec.EllipticCurvePrivateKey, name: str) -> x509.Certificate:
    title = _titled(called(name))
    permitted = [x509.DNSName(one) for one in (name, *LOCAL_NAMES)] + [x509.IPAddress(one) for one in LOCAL_NETWORKS]
    return (
        _builder(title, title, key, AUTHORITY_LIFE)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(key_cert_sign=True, crl_sign=True), critical=True)
        .add_extension(x509.NameConstraints(permitted, None), critical=True)
        .sign(key, hashes.SHA256())
    )


def _fits(
    certificate_file: Path, key_file: Path, authority: x509.Certificate, names: list[str], addresses: list[str]
) -> bool:
    """Whether the server's certificate still serves."""
    try:
        certificate, key = _read_certificate(certificate_file), _read_key(key_file)
        certificate.verify_directly_issued_by(authority)
        alternatives = certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    except (FileNotFoundError, ValueError, TypeError, InvalidSignature, x509.ExtensionNotFound):
        return False
    now = datetime.now(UTC)
    return (
        certificate.public_key() == key.public_key()
        and certificate.not_valid_before_utc <= now < certificate.not_valid_after_utc - RENEW_BEFORE
        and set(alternatives.get_values_for_type(x509.DNSName)) == set(names)
        and set(map(str, alternatives.get_values_for_type(x509.IPAddress))) == set(addresses)
    )


def _issue(
    certificate_file: Path,
    key_file: Path,
    authority: x509.Certificate,
    signing: ec.EllipticCurvePrivateKey,
    names: list[str],
    addresses: list[str],
) -> None:
    key = ec.generate_private_key(ec.SECP256R1())
    alternatives: list[x509.GeneralName] = [x509.DNSName(name) for name in names]
    alternatives += [x509.IPAddress(ipaddress.ip_address(address)) for address in addresses]
    certificate = (
        _builder(_titled(names[0]), authority.subject, key, SERVER_LIFE, authority.not_valid_after_utc)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(digital_signature=True), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName(alternatives), critical=False)
        .add_extension(x509.AuthorityKeyIdentifier.from_issuer_public_key(signing.public_key()), critical=False)
        .sign(signing, hashes.SHA256())
    )
    _write_key(key_file, key)
    write_whole(certificate_file, certificate.public_bytes(serialization.Encoding.PEM))


def _builder(
    subject: x509.Name,
    issuer: x509.Name,
    key: ec.EllipticCurvePrivateKey,
    life: timedelta,
    latest: datetime | None = None,
) -> x509.CertificateBuilder:
    begins = datetime.now(UTC) - CLOCKS_DIFFER
    ends = begins + life
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(begins)
        .not_valid_after(min(ends, latest) if latest else ends)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
    )


def _titled(text: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, text)])


def _usage(**used: bool) -> x509.KeyUsage:
    names = "digital_signature content_commitment key_encipherment data_encipherment key_agreement"
    names += " key_cert_sign crl_sign encipher_only decipher_only"
    return x509.KeyUsage(**{name: used.get(name, False) for name in names.split()})


def _write_key(file: Path, key: ec.EllipticCurvePrivateKey) -> None:
    form = serialization.PrivateFormat.PKCS8
    write_whole(file, key.private_bytes(serialization.Encoding.PEM, form, serialization.NoEncryption()))
