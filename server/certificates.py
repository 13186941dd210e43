"""Certificates: the shop's authority and what it signs, as values. No file is opened here."""

import datetime
from dataclasses import dataclass
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from server.fingerprints import Fingerprint, sha1, sha256
from server.private_names import NETWORKS, permitted_hosts
from server.this_machine import Names

MOST_DAYS = (
    397  # CA/Browser Forum baseline requirements, section 6.3.2: browsers take none for longer than 398
)
_AUTHORITY_LASTS = datetime.timedelta(days=3650)
_CLOCKS_DIFFER = datetime.timedelta(days=1)  # no tablet whose clock is behind takes it for a future one


@dataclass(frozen=True, slots=True)
class Authority:
    """What a tablet is asked to trust. `certificate` in DER, as it is downloaded; `until` in UTC."""

    name: str
    certificate: bytes
    until: datetime.datetime
    permitted: tuple[str, ...]

    @property
    def fingerprint(self) -> Fingerprint:
        return sha256(self.certificate)

    @property
    def short_fingerprint(self) -> Fingerprint:
        return sha1(self.certificate)


@dataclass(frozen=True, slots=True)
class Certified:
    """A certificate that the service can answer with.

    chain, key      files in PEM; the same file where both are in one
    names           what it vouches for
    until           its end, in UTC
    authority       the shop's own; None for a certificate that was given
    authority_made  True when the authority is new: no tablet trusts it yet
    """

    chain: Path
    key: Path
    names: Names
    until: datetime.datetime
    authority: Authority | None = None
    authority_made: bool = False


@dataclass(frozen=True, slots=True)
class Pair:
    """A certificate and its key."""

    key: ec.EllipticCurvePrivateKey
    certificate: x509.Certificate

    def pem(self) -> bytes:
        private = self.key.private_bytes(
            serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
        )
        return private + self.certificate.public_bytes(serialization.Encoding.PEM)


def new_authority(own: Names, now: datetime.datetime) -> Pair:
    """An authority of the shop, limited to the names of this machine and to addresses of local networks."""
    key = ec.generate_private_key(ec.SECP256R1())
    machine = own.hosts[-1].partition(".")[0][:20] if own.hosts else "this machine"
    name = f"Hangarleaf authority of {machine}, {now:%Y-%m-%d}"
    begins = now - _CLOCKS_DIFFER
    limits = [*map(x509.DNSName, permitted_hosts(own)), *map(x509.IPAddress, NETWORKS)]
    certificate = (
        _building(name, _called(name), key, begins, begins + _AUTHORITY_LASTS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_key_usage(key_cert_sign=True), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.NameConstraints(permitted_subtrees=limits, excluded_subtrees=None), critical=True)
        .sign(key, hashes.SHA256())
    )
    return Pair(key, certificate)


def issue(authority: Pair, names: Names, now: datetime.datetime) -> Pair:
    """A certificate for a service. Whether the authority may vouch for the names is not asked."""
    key = ec.generate_private_key(ec.SECP256R1())
    begins = now - _CLOCKS_DIFFER
    ends = min(begins + datetime.timedelta(days=MOST_DAYS), authority.certificate.not_valid_after_utc)
    listed = [*map(x509.DNSName, names.hosts), *map(x509.IPAddress, names.addresses)]
    signer = x509.AuthorityKeyIdentifier.from_issuer_public_key(authority.key.public_key())
    certificate = (
        _building("Hangarleaf service", authority.certificate.subject, key, begins, ends)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_key_usage(digital_signature=True), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName(listed), critical=False)
        .add_extension(signer, critical=False)
        .sign(authority.key, hashes.SHA256())
    )
    return Pair(key, certificate)


def as_authority(certificate: x509.Certificate) -> Authority:
    """What is said of an authority of ours. Raises ValueError for a certificate that is none."""
    try:
        limits = certificate.extensions.get_extension_for_class(x509.NameConstraints).value
    except x509.ExtensionNotFound as problem:
        raise ValueError("a certificate without limits is no authority of ours") from problem
    permitted = tuple(
        limit.value for limit in limits.permitted_subtrees or () if isinstance(limit, x509.DNSName)
    )
    name = certificate.subject.get_attributes_for_oid(NameOID.COMMON_NAME)[0].value
    der = certificate.public_bytes(serialization.Encoding.DER)
    return Authority(str(name), der, certificate.not_valid_after_utc, permitted)


def names_of(certificate: x509.Certificate) -> Names:
    """The names and addresses that a certificate vouches for."""
    try:
        listed = certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    except x509.ExtensionNotFound:
        return Names()
    return Names(
        tuple(name.casefold() for name in listed.get_values_for_type(x509.DNSName)),
        tuple(listed.get_values_for_type(x509.IPAddress)),
    )


def _building(
    name: str,
    issuer: x509.Name,
    key: ec.EllipticCurvePrivateKey,
    begins: datetime.datetime,
    ends: datetime.datetime,
) -> x509.CertificateBuilder:
    return (
        x509.CertificateBuilder()
        .subject_name(_called(name))
        .issuer_name(issuer)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(begins)
        .not_valid_after(ends)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
    )


def _called(name: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, name)])


def _key_usage(digital_signature: bool = False, key_cert_sign: bool = False) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=digital_signature,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        key_cert_sign=key_cert_sign,
        crl_sign=False,
        encipher_only=False,
        decipher_only=False,
    )
