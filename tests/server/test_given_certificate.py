"""A certificate from elsewhere: used when it will do, refused before anything is served when not."""

import datetime
import ipaddress

import pytest
from click.testing import CliRunner
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import rsa
from handshake import client_trusting, shake_hands

from server.certificates import Pair, issue, new_authority
from server.cli import main
from server.given_certificate import CertificateRefused, given_certificate, names_missing
from server.reach import how_reached
from server.this_machine import Names

NOW = datetime.datetime.now(datetime.UTC)
DAY = datetime.timedelta(days=1)
OWN = Names(("hangar-2.local", "hangar-2"), (ipaddress.ip_address("192.168.70.7"),))
NAMED = Names(("manuals.hangar-2", "*.bay.hangar-2"))


class Files:
    def __init__(self, folder, names=NAMED, made=NOW):
        self.authority = new_authority(OWN, NOW - 2000 * DAY)
        pair = issue(self.authority, names, made)
        self.chain, self.key = folder / "shop.crt", folder / "shop.key"
        self.chain.write_bytes(pair.certificate.public_bytes(serialization.Encoding.PEM))
        self.key.write_bytes(pair.pem().split(b"-----BEGIN CERTIFICATE-----")[0])


@pytest.fixture
def files(tmp_path):
    return Files(tmp_path)


def refused(files, now=None):
    with pytest.raises(CertificateRefused) as problem:
        given_certificate(files.chain, files.key, now)
    assert problem.value.remedy
    return problem.value.what


def test_a_sound_pair_is_what_the_service_answers_with(files):
    given = given_certificate(files.chain, files.key)
    assert given.authority is None and given.names == NAMED
    trusting = client_trusting(files.authority.certificate.public_bytes(serialization.Encoding.DER))
    assert shake_hands(given.chain, given.key, trusting, "manuals.hangar-2")


@pytest.mark.parametrize("which", ["chain", "key"])
def test_a_file_that_is_not_there_or_is_a_folder(files, tmp_path, which):
    setattr(files, which, tmp_path / "nowhere.pem")
    assert "nowhere.pem" in refused(files) and "cannot be read (No such file" in refused(files)
    setattr(files, which, tmp_path)
    assert "cannot be read" in refused(files)


@pytest.mark.parametrize("content", [b"", b"\x30\x82\x01", b"-----BEGIN CERTIFICATE-----\nAAAA\n"])
def test_a_file_that_is_no_certificate(files, content):
    files.chain.write_bytes(content)
    assert "no certificate in PEM" in refused(files)


def test_a_file_that_is_no_key(files):
    files.key.write_bytes(files.chain.read_bytes())
    assert "no private key in PEM" in refused(files)


def test_a_key_with_a_passphrase(files):
    key = serialization.load_pem_private_key(files.key.read_bytes(), None)
    files.key.write_bytes(
        key.private_bytes(
            serialization.Encoding.PEM,
            serialization.PrivateFormat.PKCS8,
            serialization.BestAvailableEncryption(b"hangar"),
        )
    )
    assert "locked with a passphrase" in refused(files)


def test_the_key_of_another_certificate(files, tmp_path):
    (tmp_path / "other").mkdir()
    files.key = Files(tmp_path / "other").key
    assert "does not belong to the certificate" in refused(files)


def test_a_key_too_short_for_today(files):
    """OpenSSL's security level 2, the default of Python's own contexts, asks 2,048 bits of an RSA key
    (SSL_CTX_set_security_level)."""
    key = rsa.generate_private_key(public_exponent=65537, key_size=1024)
    old = issue(files.authority, NAMED, NOW).certificate
    short = (
        x509.CertificateBuilder()
        .subject_name(old.subject)
        .issuer_name(old.issuer)
        .public_key(key.public_key())
        .serial_number(1)
        .not_valid_before(old.not_valid_before_utc)
        .not_valid_after(old.not_valid_after_utc)
        .sign(files.authority.key, hashes.SHA256())
    )
    pem = Pair(key, short).pem()
    files.chain.write_bytes(pem[pem.index(b"-----BEGIN CERT") :])
    files.key.write_bytes(pem[: pem.index(b"-----BEGIN CERT")])
    assert "cannot be served" in refused(files)


def test_one_that_has_ended_or_not_begun(files, tmp_path):
    assert "ended on" in refused(files, NOW + 500 * DAY)
    assert "not valid before" in refused(files, NOW - 3 * DAY)


@pytest.mark.parametrize(
    ("names", "silent"),
    [
        (Names(("hangar-2",)), True),
        (Names((), OWN.addresses), True),
        (Names(("*.local",)), True),
        (NAMED, False),
        (Names(("*.hangar-2",)), False),  # one label, the leftmost (RFC 6125, section 6.4.3)
        (Names(("*.2.local",)), False),
        (Names(), False),
    ],
)
def test_one_that_does_not_name_this_machine_is_a_warning(tmp_path, names, silent):
    files = Files(tmp_path, names)
    said = names_missing(given_certificate(files.chain, files.key), OWN)
    assert (said == "") is silent
    if not silent:
        assert "hangar-2" in said and "Tablets will warn" in said


def test_people_are_given_a_name_that_the_certificate_has(files):
    reach = how_reached("0.0.0.0", 8017, OWN, given_certificate(files.chain, files.key))
    assert reach.address == "https://manuals.hangar-2:8017/" and len(reach.warnings) == 1


def test_the_command_refuses_it_before_it_looks_at_the_library(files, tmp_path):
    files.key.write_text("no key", encoding="utf-8")
    given = ["--certificate", str(files.chain), "--certificate-key", str(files.key)]
    done = CliRunner().invoke(main, ["serve", "--lan", *given, "--library", str(tmp_path / "none")])
    assert done.exit_code == 2 and "no private key in PEM" in done.stderr
    assert "BEGIN PRIVATE KEY" in done.stderr, "what to do is said"
    assert not (tmp_path / "none").exists()


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--lan", "--host", "127.0.0.1"], "leave one out"),
        (["--certificate", "a.pem"], "give both"),
        (["--certificate-key", "a.pem"], "give both"),
        (["--https", "--certificate", "a.pem", "--certificate-key", "b.pem"], "leave it out"),
    ],
)
def test_options_that_do_not_go_together(options, said, tmp_path):
    done = CliRunner().invoke(main, ["serve", *options, "--library", str(tmp_path / "none")])
    assert done.exit_code == 2 and said in done.stderr


def test_no_library_is_made_by_asking_for_a_certificate(tmp_path):
    done = CliRunner().invoke(main, ["serve", "--https", "--port", "0", "--library", str(tmp_path / "none")])
    assert done.exit_code == 2 and not (tmp_path / "none").exists()
