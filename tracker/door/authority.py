"""A small authority of a household, and the certificate that it gives this machine: for phones that trust it once.

Whoever holds the key of an authority that a phone trusts could pass for anybody there. So this one is bound, critically,
to the names of this machine and to private addresses; it can make no further authority; its key is readable by this account
alone and in no backup; and a name that it was not made for wants a new one. Whether a phone's browser keeps to such a bound
is the browser's matter, so the key is to be guarded as if none did.
"""

from __future__ import annotations

import platform
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from ipaddress import IPv4Network, IPv6Network, ip_address, ip_network
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from tracker.door.addresses import LOOPBACK
from tracker.errors import BadInputError
from tracker.private import opener

GOOD_FOR, LASTS = (
    timedelta(days=1825),
    timedelta(days=397),
)  # authority, certificate; 397: the most that browsers take (from memory)
RENEWED_AT = timedelta(days=397 // 3)  # so much is left of a certificate when another one is made
PRIVATE = (  # RFC 1918, RFC 4193, RFC 4291 link-local and loopback
    IPv4Network("10.0.0.0/8"), IPv4Network("172.16.0.0/12"), IPv4Network("192.168.0.0/16"), IPv4Network("127.0.0.0/8"),
    IPv6Network("fc00::/7"), IPv6Network("fe80::/10"), IPv6Network("::1/128"),
)  # fmt: skip
TITLE = "Tidemark at home"


@dataclass(frozen=True, slots=True)
class Ours:
    """What was made, and what a person compares before they trust it."""

    certificate: Path  # with its key and nothing else, as the server reads it
    authority: bytes  # the authority's certificate for phones, DER; its key is not in it
    fingerprint: str
    new: bool  # phones have to trust this authority before they come in


def made(keys: Path, names: Iterable[str], address: str, now: datetime | None = None) -> Ours:
    """Return this machine's certificate, made where there is none that fits.

    Args:
        keys: The file of paired devices; authority and certificate lie beside it.
        names: By which phones find the machine; its own is added.
        address: By which they find it.
        now: The moment it is.

    Raises:
        BadInputError: if the address is not a private one, or the files can't be read.
    """
    now = now or datetime.now(UTC)
    if ip_address(address).is_global:
        what = f"{address} is no private address: the authority of a household is bound to those."
        raise BadInputError(what, where="--encrypt", mend="Choose another --address, or give a public --certificate.")
    wanted = {name.lower() for name in names if name} | {"localhost", *_own_names()}
    root, leaf = (keys.with_name(f"{keys.name}.{kind}.pem") for kind in ("authority", "certificate"))
    known = _read(root)
    fresh = known is None or not _fits(known[0], wanted, address, now)
    authority, key = _authority(wanted, address, now) if known is None or fresh else known
    if fresh:
        _write(root, authority, key)
    last = _read(leaf)
    if last is None or not _serves(last[0], authority, wanted, address, now):
        _write(leaf, *_certificate(authority, key, wanted, address, now))
    print_ = authority.fingerprint(hashes.SHA256()).hex().upper()
    pairs = " ".join(print_[at : at + 4] for at in range(0, 64, 4))
    return Ours(leaf, authority.public_bytes(serialization.Encoding.DER), pairs, fresh)


def _own_names() -> set[str]:
    name = platform.node().partition(".")[0].lower()
    return {name, f"{name}.local"} if name and all(part.isalnum() for part in name.split("-")) else set()


def _read(path: Path) -> tuple[x509.Certificate, ec.EllipticCurvePrivateKey] | None:
    """Read a certificate with its key; None where there is none."""
    try:
        text = path.read_bytes()
        key = serialization.load_pem_private_key(text, None)
        certificate = x509.load_pem_x509_certificate(text)
    except FileNotFoundError:
        return None
    except (OSError, ValueError, TypeError) as err:
        mend = "Delete it: another one is made, which phones have to trust again."
        raise BadInputError("It can't be read.", where=str(path), mend=mend) from err
    return (certificate, key) if isinstance(key, ec.EllipticCurvePrivateKey) else None


def _write(path: Path, certificate: x509.Certificate, key: ec.EllipticCurvePrivateKey) -> None:
    """Put it there in one step, for this account alone from its first moment."""
    half = path.with_name(f"{path.name}.half")
    half.unlink(missing_ok=True)
    private = key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )
    with open(half, "wb", opener=opener) as file:  # made for one account
        file.write(certificate.public_bytes(serialization.Encoding.PEM) + private)
    half.replace(path)


def _named(title: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, title)])


def _bounds(address: str) -> tuple[IPv4Network | IPv6Network, ...]:
    """Return the networks that an authority is bound to: private ones, and an address of ours that no network shares."""
    own = ip_address(address)
    return PRIVATE if any(own in each for each in PRIVATE) else (*PRIVATE, ip_network(address))


def _authority(names: set[str], address: str, now: datetime) -> tuple[x509.Certificate, ec.EllipticCurvePrivateKey]:
    key = ec.generate_private_key(ec.SECP256R1())
    name = _named(f"{TITLE}, {now:%d %b %Y}")  # without a common name phones don't list it
    permitted = [*(x509.DNSName(each) for each in sorted(names)), *(x509.IPAddress(each) for each in _bounds(address))]
    made = (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(name)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - timedelta(days=1))
        .not_valid_after(now + GOOD_FOR)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(signs=True), critical=True)
        .add_extension(x509.NameConstraints(permitted, None), critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
    )
    return made.sign(key, hashes.SHA256()), key


def _certificate(
    authority: x509.Certificate, by: ec.EllipticCurvePrivateKey, names: set[str], address: str, now: datetime
) -> tuple[x509.Certificate, ec.EllipticCurvePrivateKey]:
    key = ec.generate_private_key(ec.SECP256R1())
    addresses = sorted({address, LOOPBACK})
    also = [*(x509.DNSName(each) for each in sorted(names)), *(x509.IPAddress(ip_address(each)) for each in addresses)]
    made = (
        x509.CertificateBuilder()
        .subject_name(_named(address))
        .issuer_name(authority.subject)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - timedelta(days=1))
        .not_valid_after(min(now + LASTS - timedelta(days=1), authority.not_valid_after_utc))
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(signs=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName(also), critical=False)
        .add_extension(x509.AuthorityKeyIdentifier.from_issuer_public_key(by.public_key()), critical=False)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
    )
    return made.sign(by, hashes.SHA256()), key


def _usage(*, signs: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs, content_commitment=False, key_encipherment=False, data_encipherment=False,
        key_agreement=False, key_cert_sign=signs, crl_sign=signs, encipher_only=False, decipher_only=False,
    )  # fmt: skip


def _fits(authority: x509.Certificate, names: set[str], address: str, now: datetime) -> bool:
    """Whether an authority holds for these names, and for as long as a certificate of it would."""
    try:
        bound = authority.extensions.get_extension_for_class(x509.NameConstraints).value.permitted_subtrees or []
    except x509.ExtensionNotFound:
        return False
    known = {each.value for each in bound if isinstance(each, x509.DNSName)}
    networks = [each.value for each in bound if isinstance(each, x509.IPAddress)]
    here = any(ip_address(address) in each for each in networks if isinstance(each, IPv4Network | IPv6Network))
    return here and names <= known and authority.not_valid_after_utc - now > RENEWED_AT


def _serves(
    certificate: x509.Certificate, authority: x509.Certificate, names: set[str], address: str, now: datetime
) -> bool:
    """Whether a certificate is of this authority, for this address and these names, and not about to end."""
    try:
        certificate.verify_directly_issued_by(authority)
        also = certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    except Exception:  # of another authority, or none of ours: made anew
        return False
    known = set(also.get_values_for_type(x509.DNSName))
    here = ip_address(address) in also.get_values_for_type(x509.IPAddress)
    return here and names <= known and certificate.not_valid_after_utc - now > RENEWED_AT
