"""The shop's authority and what it signs, as OpenSSL and a second verifier see them."""

import datetime
import hashlib
import ipaddress
import os
import ssl
import stat

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.x509.verification import PolicyBuilder, Store, VerificationError
from handshake import client_trusting, shake_hands

from server.certificates import MOST_DAYS, Pair, issue, new_authority
from server.fingerprints import Fingerprint, sha256
from server.private_names import NETWORKS, covered, is_private, permitted_hosts
from server.shop_certificate import (
    RENEWED_BEFORE,
    ShopCertificateDamaged,
    ShopCertificateNotKept,
    ShopKeyOpen,
    shop_certificate,
)
from server.this_machine import Names, _own_hosts

NOW = datetime.datetime.now(datetime.UTC)
DAY = datetime.timedelta(days=1)
HERE = ipaddress.ip_address("192.168.70.7")
OWN = Names(("hangar-2.local", "hangar-2"), (HERE,))
X509_V_ERR_PERMITTED_VIOLATION = 47  # OpenSSL, x509_vfy.h
posix = pytest.mark.skipif(os.name != "posix", reason="rights of files are kept otherwise on Windows")


def certificate_in(file):
    return x509.load_pem_x509_certificate(file.read_bytes())


@pytest.fixture
def shop(tmp_path):
    return shop_certificate(tmp_path, OWN)


@pytest.mark.parametrize(
    "name", ["hangar-2.local", "hangar-2", "192.168.70.7", "127.0.0.1", "::1", "localhost"]
)
def test_who_trusts_the_authority_reaches_this_machine_by_all_its_names(shop, name):
    client = client_trusting(shop.authority.certificate)
    assert shake_hands(shop.chain, shop.key, client, name) in ("TLSv1.2", "TLSv1.3")


def test_who_does_not_trust_it_is_refused(shop):
    with pytest.raises(ssl.SSLCertVerificationError, match="unable to get local issuer"):
        shake_hands(shop.chain, shop.key, client_trusting(), "hangar-2.local")


@pytest.mark.parametrize("name", ["hangar-3.local", "192.168.70.8", "manuals.example"])
def test_a_name_that_is_not_this_machines_is_refused(shop, name):
    with pytest.raises(ssl.SSLCertVerificationError, match="mismatch|not valid for"):
        shake_hands(shop.chain, shop.key, client_trusting(shop.authority.certificate), name)


OUTSIDE = [
    "www.example.com",
    "example.org",
    "notlocal",
    "local.example",
    "8.8.8.8",
    "192.169.0.1",
    "2001:db9::1",
]


def signed_for(authority: Pair, name: str, folder):
    """A certificate for a name that the authority's key signs although it may not."""
    try:
        names = Names((), (ipaddress.ip_address(name),))
    except ValueError:
        names = Names((name,))
    pair = issue(authority, names, NOW)
    file = folder / "counterfeit.pem"
    file.write_bytes(pair.pem())
    return file, pair.certificate


def without_limits(authority: Pair) -> Pair:
    """The same authority, its name constraints left out: what shows that nothing else refuses."""
    held = authority.certificate
    building = (
        x509.CertificateBuilder()
        .subject_name(held.subject)
        .issuer_name(held.issuer)
        .public_key(held.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(held.not_valid_before_utc)
        .not_valid_after(held.not_valid_after_utc)
    )
    for extension in held.extensions:
        if not isinstance(extension.value, x509.NameConstraints):
            building = building.add_extension(extension.value, extension.critical)
    return Pair(authority.key, building.sign(authority.key, hashes.SHA256()))


@pytest.mark.parametrize("name", OUTSIDE)
def test_a_stolen_key_counterfeits_no_site_outside_the_shop(tmp_path, name):
    """RFC 5280, section 4.2.1.10: names outside the permitted subtrees are refused, as OpenSSL holds it."""
    authority = new_authority(OWN, NOW)
    file, _ = signed_for(authority, name, tmp_path)
    der = authority.certificate.public_bytes(serialization.Encoding.DER)
    with pytest.raises(ssl.SSLCertVerificationError) as refused:
        shake_hands(file, file, client_trusting(der), name)
    assert refused.value.verify_code == X509_V_ERR_PERMITTED_VIOLATION
    open_authority = without_limits(authority).certificate.public_bytes(serialization.Encoding.DER)
    assert shake_hands(file, file, client_trusting(open_authority), name)


@pytest.mark.parametrize("name", OUTSIDE)
def test_a_second_verifier_refuses_them_too(tmp_path, name):
    """RFC 5280, section 4.2.1.10, by the path validation that cryptography brings (webpki profile)."""
    authority = new_authority(OWN, NOW)
    _, certificate = signed_for(authority, name, tmp_path)

    def verified(root):
        subject = certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value[0]
        return (
            PolicyBuilder()
            .store(Store([root]))
            .time(NOW)
            .build_server_verifier(subject)
            .verify(certificate, [])
        )

    with pytest.raises(VerificationError):
        verified(authority.certificate)
    assert len(verified(without_limits(authority).certificate)) == 2


def test_the_authority_signs_no_further_authority_and_says_so_critically():
    """RFC 5280: basic constraints (4.2.1.9), key usage (4.2.1.3) and name constraints (4.2.1.10)."""
    held = new_authority(OWN, NOW).certificate.extensions
    basic = held.get_extension_for_class(x509.BasicConstraints)
    usage = held.get_extension_for_class(x509.KeyUsage)
    limits = held.get_extension_for_class(x509.NameConstraints)
    assert basic.critical and usage.critical and limits.critical
    assert basic.value == x509.BasicConstraints(ca=True, path_length=0)
    assert usage.value.key_cert_sign and not usage.value.digital_signature
    permitted = limits.value.permitted_subtrees
    assert {limit.value for limit in permitted} == {"local", "localhost", "hangar-2", *NETWORKS}


def test_every_permitted_block_leads_nowhere_on_the_internet():
    """By the registries of special-purpose addresses of IANA, as Python's `ipaddress` carries them."""
    for network in NETWORKS:
        assert not network[0].is_global and not network[-1].is_global, network
    for address in ("10.1.2.3", "172.31.255.255", "192.168.0.1", "169.254.3.4", "fd12::1", "fe80::1"):
        assert is_private(ipaddress.ip_address(address))
    for address in ("8.8.8.8", "172.32.0.1", "11.0.0.1", "2606:4700::1"):
        assert not is_private(ipaddress.ip_address(address))


@pytest.mark.parametrize(
    ("own", "hosts", "more"),
    [
        ("HANGAR-2", ("hangar-2.local", "hangar-2"), ("hangar-2",)),
        ("desk7.shop.example", ("desk7.local", "desk7.shop.example"), ("desk7.shop.example",)),
        ("shop", ("shop.local", "shop"), ()),  # "shop" is a top-level domain (IANA root zone)
        ("xn--p1ai", ("xn--p1ai.local", "xn--p1ai"), ()),  # so is this one
        ("mac.local", ("mac.local",), ()),
        ("a name", (), ()),
        ("under_score", (), ()),
        ("192.168.1.4", (), ()),
    ],
)
def test_which_names_of_a_machine_may_be_vouched_for(own, hosts, more):
    assert _own_hosts(own) == hosts
    permitted = permitted_hosts(Names(hosts))
    assert permitted == ("local", "localhost", *more)
    assert covered(Names(hosts), permitted).hosts == tuple(
        host for host in hosts if host.endswith(".local") or host in more
    )


def test_a_public_address_of_the_machine_is_left_out(tmp_path):
    shop = shop_certificate(tmp_path, Names(("hangar-2.local",), (HERE, ipaddress.ip_address("8.8.4.4"))))
    assert shop.names.holds("192.168.70.7") and not shop.names.holds("8.8.4.4")


@posix
def test_the_keys_can_be_read_by_their_owner_only(shop, tmp_path):
    assert stat.S_IMODE((tmp_path / "https").stat().st_mode) == 0o700
    files = list((tmp_path / "https").iterdir())
    assert sorted(file.name for file in files) == ["authority.pem", "server.pem"]
    assert {stat.S_IMODE(file.stat().st_mode) for file in files} == {0o600}


@posix
def test_an_authority_whose_key_others_can_read_is_not_used(shop, tmp_path):
    file = tmp_path / "https" / "authority.pem"
    file.chmod(0o640)
    with pytest.raises(ShopKeyOpen, match="mode 640") as refused:
        shop_certificate(tmp_path, OWN)
    assert f"chmod 600 '{file}'" in refused.value.remedy
    file.chmod(0o600)
    assert shop_certificate(tmp_path, OWN).authority == shop.authority


@posix
def test_a_servers_key_that_others_can_read_is_made_anew(shop, tmp_path):
    before = shop.chain.read_bytes()
    shop.chain.chmod(0o644)
    shop_certificate(tmp_path, OWN)
    assert shop.chain.read_bytes() != before and stat.S_IMODE(shop.chain.stat().st_mode) == 0o600


def test_what_is_kept_is_loaded_again(shop, tmp_path):
    assert shop.authority_made
    before = {file.name: file.read_bytes() for file in (tmp_path / "https").iterdir()}
    again = shop_certificate(tmp_path, OWN)
    assert not again.authority_made and again.authority == shop.authority and again.until == shop.until
    assert {file.name: file.read_bytes() for file in (tmp_path / "https").iterdir()} == before


@pytest.mark.parametrize(
    "own",
    [
        Names(OWN.hosts, (ipaddress.ip_address("10.0.0.9"),)),
        Names(OWN.hosts, (HERE, ipaddress.ip_address("10.0.0.9"))),
        Names(("hangar-4.local",), (HERE,)),
        Names(),
    ],
    ids=["another address", "one more address", "another name", "no network"],
)
def test_a_machine_that_is_called_otherwise_has_a_new_certificate_by_the_same_authority(shop, tmp_path, own):
    before = shop.chain.read_bytes()
    again = shop_certificate(tmp_path, own)
    assert again.authority == shop.authority and again.chain.read_bytes() != before
    client = client_trusting(shop.authority.certificate)
    for name in (*own.hosts, *map(str, own.addresses), "localhost"):
        assert shake_hands(again.chain, again.key, client, name)


def test_a_certificate_is_renewed_thirty_days_before_its_end_and_not_earlier(shop, tmp_path):
    before = shop.chain.read_bytes()
    shop_certificate(tmp_path, OWN, shop.until - RENEWED_BEFORE - DAY)
    assert shop.chain.read_bytes() == before
    late = shop.until - RENEWED_BEFORE + DAY
    renewed = shop_certificate(tmp_path, OWN, late)
    assert renewed.until > shop.until and renewed.authority == shop.authority
    assert datetime.timedelta(days=30) == RENEWED_BEFORE


def test_a_certificate_of_the_future_is_made_anew(shop, tmp_path):
    """The clock was wrong when it was made."""
    before = shop.chain.read_bytes()
    shop_certificate(tmp_path, OWN, NOW - 3 * DAY)
    assert shop.chain.read_bytes() != before


@pytest.mark.parametrize("years", [0, 3, 9.5])
def test_no_certificate_lasts_longer_than_397_days_or_than_its_authority(shop, tmp_path, years):
    """CA/Browser Forum baseline requirements, section 6.3.2: 397 days or less; 398 must not be exceeded."""
    shop_certificate(tmp_path, OWN, NOW + years * 365 * DAY)
    certificate = certificate_in(shop.chain)
    assert certificate.not_valid_after_utc - certificate.not_valid_before_utc <= 397 * DAY
    assert certificate.not_valid_after_utc <= shop.authority.until
    assert MOST_DAYS == 397


def test_an_authority_about_to_end_is_replaced_and_that_is_told(shop, tmp_path):
    again = shop_certificate(tmp_path, OWN, shop.authority.until - 10 * DAY)
    assert again.authority_made and again.authority != shop.authority
    certificate_in(again.chain).verify_directly_issued_by(
        x509.load_der_x509_certificate(again.authority.certificate)
    )


@pytest.mark.parametrize("content", [b"", b"nothing of the kind", b"-----BEGIN CERTIFICATE-----\n"])
def test_a_damaged_certificate_of_the_service_is_made_anew(shop, tmp_path, content):
    shop.chain.write_bytes(content)
    again = shop_certificate(tmp_path, OWN)
    assert shake_hands(again.chain, again.key, client_trusting(shop.authority.certificate), "localhost")


def test_a_certificate_by_another_authority_is_made_anew(shop, tmp_path):
    shop.chain.write_bytes(issue(new_authority(OWN, NOW), shop.names, NOW).pem())
    again = shop_certificate(tmp_path, OWN)
    assert shake_hands(again.chain, again.key, client_trusting(shop.authority.certificate), "localhost")


def test_a_damaged_authority_is_never_replaced_unasked(shop, tmp_path):
    file = tmp_path / "https" / "authority.pem"
    whole = file.read_bytes()
    key, certificate = whole.split(b"-----END PRIVATE KEY-----\n")
    other = new_authority(OWN, NOW).pem().split(b"-----END PRIVATE KEY-----\n")[1]
    for content in (
        b"",
        key,
        certificate,
        whole[:-200],
        key + b"-----END PRIVATE KEY-----\n" + other,
        shop.chain.read_bytes(),
    ):
        file.write_bytes(content)
        with pytest.raises(ShopCertificateDamaged, match="authority.pem"):
            shop_certificate(tmp_path, OWN)
        assert file.read_bytes() == content


def test_a_library_that_cannot_be_written_is_told(tmp_path):
    (tmp_path / "https").write_text("a file where the folder should be", encoding="utf-8")
    with pytest.raises((ShopCertificateNotKept, ShopCertificateDamaged), match="https"):
        shop_certificate(tmp_path, OWN)


def test_a_fingerprint_is_the_hash_of_what_is_downloaded(shop):
    der = shop.authority.certificate
    assert shop.authority.fingerprint.digits == hashlib.sha256(der).hexdigest().upper()
    assert x509.load_der_x509_certificate(der).fingerprint(hashes.SHA1()).hex().upper() == (
        shop.authority.short_fingerprint.digits
    )


def test_a_fingerprint_in_groups_and_spelled():
    """SHA-256 of "abc": NIST's example of FIPS 180. Spelling: ICAO Annex 10, volume II."""
    found = sha256(b"abc")
    assert " ".join(found.groups[:4]) == "BA78 16BF 8F01 CFEA" and len(found.groups) == 16
    assert found.spelled[0] == ("BA78", "Bravo Alfa Seven Eight")
    assert Fingerprint("0123456789ABCDEF").spelled[2] == ("89AB", "Eight Nine Alfa Bravo")
    assert Fingerprint("CDEF").spelled == (("CDEF", "Charlie Delta Echo Foxtrot"),)
