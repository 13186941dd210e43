"""The shop's certificate authority and the certificate of its service: made, kept, loaded again, renewed.

Both lie under <library>/https/, each in one file with its key, so that a key and a certificate can never be
of two different makings. The authority is made once, since every tablet trusts it by hand; the certificate of
the service is made anew whenever what the machine is called has changed, or it is about to end.
"""

import datetime
import ipaddress
import os
import stat
import tempfile
from pathlib import Path

from cryptography import x509
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric import ec

from indexer.errors import HangarleafError
from server.certificates import Certified, Pair, as_authority, issue, names_of, new_authority
from server.private_names import covered
from server.this_machine import Names

FOLDER = "https"
RENEWED_BEFORE = datetime.timedelta(days=30)
_HERE = Names(("localhost",), (ipaddress.ip_address("127.0.0.1"), ipaddress.ip_address("::1")))


class ShopKeyOpen(HangarleafError):
    """Others than its owner can read the key of the shop's authority."""

    slug = "shop-key-open"

    def __init__(self, file: Path, mode: int):
        super().__init__(
            f"{file}: others can read this key (mode {mode:o}), and so could counterfeit the service.",
            f"If nobody did, run: chmod 600 '{file}'. Else delete the folder {FOLDER} of the library; every "
            "tablet must then trust the new authority.",
        )


class ShopCertificateDamaged(HangarleafError):
    """The shop's authority cannot be loaded."""

    slug = "shop-certificate-damaged"

    def __init__(self, file: Path, detail: str):
        super().__init__(
            f"{file}: the shop's certificate authority cannot be loaded ({detail}).",
            f"Put the file back from a copy of the library, or delete the folder {FOLDER} of the library; "
            "every tablet must then trust the new authority.",
        )


class ShopCertificateNotKept(HangarleafError):
    """The shop's certificates cannot be written."""

    slug = "shop-certificate-not-kept"

    def __init__(self, file: Path, detail: str):
        super().__init__(
            f"{file}: the shop's certificate cannot be written ({detail}).",
            "Make room in the library's folder, or let this user write there.",
        )


def shop_certificate(library: Path, own: Names, now: datetime.datetime | None = None) -> Certified:
    """The certificate of this machine's service, by the shop's authority; what is missing or old is made.

    own   what the machine is called; names outside the authority's limits are left out
    Raises ShopKeyOpen, ShopCertificateDamaged, ShopCertificateNotKept.
    """
    now = now or datetime.datetime.now(datetime.UTC)
    folder = library / FOLDER
    kept = _kept_authority(folder / "authority.pem")
    made = kept is None or kept.certificate.not_valid_after_utc - now < RENEWED_BEFORE
    pair = new_authority(own, now) if made else kept
    authority = as_authority(pair.certificate)
    known = covered(own, authority.permitted)
    names = Names((*known.hosts, *_HERE.hosts), (*known.addresses, *_HERE.addresses))
    if made:
        _write(folder / "authority.pem", pair.pem())
    file = folder / "server.pem"
    certificate = _kept_certificate(file)
    if certificate is None or not _will_do(certificate, pair.certificate, names, now):
        service = issue(pair, names, now)
        _write(file, service.pem())
        certificate = service.certificate
    return Certified(file, file, names, certificate.not_valid_after_utc, authority, made)


def _kept_authority(file: Path) -> Pair | None:
    try:
        pem = file.read_bytes()
    except FileNotFoundError:
        return None
    except OSError as problem:
        raise ShopCertificateDamaged(file, problem.strerror or type(problem).__name__) from problem
    if mode := _open_to_others(file):
        raise ShopKeyOpen(file, mode)
    try:
        key = serialization.load_pem_private_key(pem, None)
        certificate = x509.load_pem_x509_certificate(pem)
        as_authority(certificate)
    except (ValueError, TypeError) as problem:
        raise ShopCertificateDamaged(file, "it holds no key and certificate of ours") from problem
    if not isinstance(key, ec.EllipticCurvePrivateKey) or key.public_key() != certificate.public_key():
        raise ShopCertificateDamaged(file, "its key is not that of its certificate")
    return Pair(key, certificate)


def _kept_certificate(file: Path) -> x509.Certificate | None:
    """None where there is none to answer with: it is made anew, and no tablet notices."""
    try:
        pem = file.read_bytes()
        key = serialization.load_pem_private_key(pem, None)
        certificate = x509.load_pem_x509_certificate(pem)
    except (OSError, ValueError, TypeError):
        return None
    sound = key.public_key() == certificate.public_key() and not _open_to_others(file)
    return certificate if sound else None


def _open_to_others(file: Path) -> int:
    """The mode of a file that others than its owner can reach; 0 when they cannot, or on Windows."""
    mode = stat.S_IMODE(file.stat().st_mode)
    return mode if os.name == "posix" and mode & 0o077 else 0


def _will_do(
    certificate: x509.Certificate, authority: x509.Certificate, names: Names, now: datetime.datetime
) -> bool:
    held = names_of(certificate)
    try:
        certificate.verify_directly_issued_by(authority)
    except (InvalidSignature, ValueError, TypeError):
        return False
    return (
        certificate.not_valid_before_utc <= now
        and certificate.not_valid_after_utc - now >= RENEWED_BEFORE
        and set(held.hosts) == set(names.hosts)
        and set(held.addresses) == set(names.addresses)
    )


def _write(file: Path, pem: bytes) -> None:
    """Whole or not at all, and from its first byte readable by its owner only (mkstemp makes it so)."""
    try:
        file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        handle, beside = tempfile.mkstemp(dir=file.parent, prefix=f"{file.name}-")
        try:
            with os.fdopen(handle, "wb") as out:
                out.write(pem)
            os.replace(beside, file)
        except BaseException:
            os.unlink(beside)
            raise
    except OSError as problem:
        raise ShopCertificateNotKept(file, problem.strerror or type(problem).__name__) from problem
