"""Put it on a tablet, in Chromium: which ways it takes for secure, and what the pages say of them.

A name of the local network leads to this machine here (--host-resolver-rules), since a browser takes loopback
addresses for secure even without encryption. What comes with X-Forwarded-For is from another machine to the
service.
"""

import base64
import hashlib
import sys
from pathlib import Path

import axe
import pytest
from cryptography import x509
from cryptography.hazmat.primitives import serialization
from in_chromium import DESK, PHONE, TABLET, answering, chromium_open
from usable import usable

sys.path.append(str(Path(__file__).parents[1] / "server"))
from encrypted_service import running

from indexer.library.catalogue import Catalogue
from indexer.settings import Settings
from server.opened import OpenedLibrary
from server.packets import Wanted, add_item, begin_packet
from server.serving import PLAIN, Encryption

NAME = "hangar-2.local"
LEADS_HERE = f"--host-resolver-rules=MAP {NAME} 127.0.0.1"
A_TABLET = {"X-Forwarded-For": "192.168.70.20"}


@pytest.fixture(scope="module")
def library(tmp_path_factory):
    """An empty library: nothing here asks for a document."""
    folder = tmp_path_factory.mktemp("tablet") / "library"
    with Catalogue.open(folder, create=True):
        pass
    return Settings(library=str(folder))


@pytest.fixture(scope="module")
def patch():
    with pytest.MonkeyPatch.context() as patch:
        yield patch


@pytest.fixture(scope="module")
def encrypted(library, patch):
    with running(patch, library, "0.0.0.0", Encryption(shop=True)) as service:
        yield service.reach(), Path(library.library) / "https" / "server.pem"


@pytest.fixture(scope="module")
def plain(library, patch):
    with running(patch, library, "0.0.0.0", PLAIN) as service:
        yield service.reach()


def at_name(address):
    return address.replace("192.168.70.7", NAME)


def trusting(certificate):
    """The flag by which Chromium takes certificates with this key for trusted: a base64 SHA-256 of it."""
    key = x509.load_pem_x509_certificate(certificate.read_bytes()).public_key()
    encoded = key.public_bytes(serialization.Encoding.DER, serialization.PublicFormat.SubjectPublicKeyInfo)
    digest = base64.b64encode(hashlib.sha256(encoded).digest()).decode()
    return f"--ignore-certificate-errors-spki-list={digest}"


def words_of(page, what):
    return page.locator(".abilities > div", has_text=what).inner_text()


def test_over_the_encrypted_way_a_tablet_keeps_packets(encrypted):
    reach, certificate = encrypted
    with chromium_open(LEADS_HERE, trusting(certificate)) as browser:
        page = browser.new_context(extra_http_headers=A_TABLET).new_page()
        page.goto(f"{at_name(reach.address)}tablet")
        assert page.evaluate("window.isSecureContext") is True
        page.get_by_text("This browser can keep packets here.").wait_for()
        assert "Works." in words_of(page, "without the network")
        assert page.evaluate(
            "navigator.serviceWorker.register('/service-worker.js').then((kept) => kept.scope)"
        ) == at_name(reach.address)
        assert page.get_by_text("Compare with the screen of the machine").count() == 1


def test_who_does_not_trust_the_authority_is_warned(encrypted):
    with chromium_open(LEADS_HERE) as browser:
        page = browser.new_page()
        with pytest.raises(Exception, match="ERR_CERT_AUTHORITY_INVALID"):
            page.goto(f"{at_name(encrypted[0].address)}tablet")


def test_without_encryption_the_page_says_what_is_missing(plain):
    with chromium_open(LEADS_HERE) as browser:
        page = browser.new_context(extra_http_headers=A_TABLET).new_page()
        page.goto(f"{at_name(plain.address)}tablet")
        assert page.evaluate("window.isSecureContext") is False
        page.get_by_text("This browser keeps no packets here.").wait_for()
        missing = words_of(page, "without the network")
        assert "Does not work." in missing and "PDF" in missing
        assert "Works." in words_of(page, "as PDF") and "Works." in words_of(page, "Find, read pages")
        assert page.get_by_role("link", name="To the packets").get_attribute("href") == "/packets"
        assert page.get_by_text("hangarleaf serve --lan --https").count() == 1


@pytest.fixture
def a_packet(own_demo):
    """A packet of a library that is open to the network, at a name of it that leads to this machine here."""
    with OpenedLibrary.open(own_demo, Settings()) as library:
        packet = begin_packet(library, "WO 1174")
        add_item(library, packet, Wanted("page", library.publications()[0].id, 1))
        address, end = answering(library, host_names={"127.0.0.1", NAME})
        yield f"{address}/packets/{packet}"
        end()


@pytest.mark.parametrize("scripts", [True, False])
def test_what_keeping_takes_is_said_where_it_is_missing_and_nowhere_else(a_packet, scripts):
    """A machine speaks to itself securely, and plain http in a network is not secure (W3C Secure Contexts,
    section 3.1). What is said is the same before scripts have run and after it; the browser complains of
    nothing."""
    complaints = []
    with chromium_open(LEADS_HERE) as browser:
        context = browser.new_context(
            viewport={"width": PHONE[0], "height": PHONE[1]}, java_script_enabled=scripts
        )
        context.on("console", lambda said: complaints.append(said.text) if said.type == "error" else None)
        page = context.new_page()
        for address, secure in ((a_packet, True), (a_packet.replace("127.0.0.1", NAME), False)):
            page.goto(address)
            assert page.evaluate("isSecureContext") is secure
            if secure and scripts:
                page.locator(".keep").get_by_role("button", name="Keep on this").wait_for()
            told = page.locator(".keep").inner_text()
            assert ("takes a secure connection" in told) is not secure
            assert ("takes a browser with scripts" in told) is (secure and not scripts)
            assert page.locator(".keep a").count() == (0 if secure else 1)
            usable(page, address)
    assert complaints == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", [DESK, TABLET, PHONE], ids=lambda size: f"{size[0]}x{size[1]}")
def test_both_pages_can_be_used_with_gloves_and_read(encrypted, tab, size, scheme):
    reach, _ = encrypted
    door = f"http://127.0.0.1:{reach.door.rstrip('/').rpartition(':')[2]}/"
    for address in (f"{reach.here}tablet", door):
        page = tab(size, scheme)
        page.goto(address)
        usable(page, address)
        assert axe.violations(page) == []


def test_the_codes_are_drawn_and_the_door_leads_in(encrypted, tab):
    reach, _ = encrypted
    page = tab(TABLET)
    page.goto(f"{reach.here}tablet")
    drawn = "[...document.querySelectorAll('.step img')].map((one) => one.complete && one.naturalWidth > 0)"
    page.wait_for_function(f"{drawn}.every(Boolean)")
    assert page.evaluate(drawn) == [True, True]
