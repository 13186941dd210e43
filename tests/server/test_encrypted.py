"""The encrypted service on a real network socket, asked by Python's ssl and http, which are none of ours."""

import asyncio
import base64
import csv
import hashlib
import http.client
import ipaddress
import re
import socket
import ssl
from pathlib import Path

import pytest
import small_library
from encrypted_service import OWN, running
from handshake import client_trusting

from indexer.library import tablets
from indexer.library.catalogue import Catalogue
from indexer.settings import Settings
from server.serving import PLAIN, Encryption
from server.this_machine import Names


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    place = tmp_path_factory.mktemp("encrypted")
    small_library.make(place / "library", place / "files")
    return place / "library"


@pytest.fixture(scope="module")
def patch():
    with pytest.MonkeyPatch.context() as patch:
        yield patch


@pytest.fixture(scope="module")
def service(folder, patch):
    with running(patch, Settings(library=str(folder)), "0.0.0.0", Encryption(shop=True)) as running_one:
        yield running_one


def port(address):
    return int(address.rstrip("/").rpartition(":")[2])


def ask(address, path, method="GET", trust=None, name="127.0.0.1", **headers):
    """One request to the listener of an address; encrypted where there is something to trust."""
    at = port(address)
    connection = http.client.HTTPConnection("127.0.0.1", at, timeout=60)
    if trust is not None:
        plain = socket.create_connection(("127.0.0.1", at), timeout=60)
        try:
            connection.sock = trust.wrap_socket(plain, server_hostname=name)
        except ssl.SSLError:
            plain.close()
            raise
    connection.request(method, path, headers={"Host": f"{name}:{at}", **headers})
    answer = connection.getresponse()
    body = answer.read()
    connection.close()
    return answer, body


@pytest.fixture(scope="module")
def trusting(service):
    """A client that trusts what it downloaded from the plain door, and nothing else."""
    answer, der = ask(service.reach().door, "/authority.crt")
    assert answer.status == 200
    return client_trusting(der)


@pytest.mark.parametrize("name", ["hangar-2.local", "192.168.70.7", "localhost"])
def test_who_trusts_the_download_reads_the_library(service, trusting, name):
    answer, body = ask(service.reach().address, "/api/status", trust=trusting, name=name)
    assert answer.status == 200 and b'"publications":4' in body.replace(b" ", b"")


def test_without_trust_nothing_is_read(service):
    with pytest.raises(ssl.SSLCertVerificationError):
        ask(service.reach().address, "/api/status", trust=client_trusting())
    with pytest.raises(ssl.SSLCertVerificationError):
        ask(service.reach().address, "/api/status", trust=ssl.create_default_context())


def test_under_another_name_nothing_is_read(service, trusting):
    with pytest.raises(ssl.SSLCertVerificationError, match="mismatch"):
        ask(service.reach().address, "/api/status", trust=trusting, name="hangar-3.local")


def test_a_foreign_host_is_refused_by_both(service, trusting):
    answer, _ = ask(service.reach().address, "/about", trust=trusting, Host="manuals.example")
    assert answer.status == 421
    answer, _ = ask(service.reach().door, "/", Host="manuals.example")
    assert answer.status == 421


def test_the_way_is_not_older_than_tls_1_2(service, trusting):
    """RFC 8996 ends TLS 1.0 and 1.1."""
    assert service.config.ssl.minimum_version >= ssl.TLSVersion.TLSv1_2
    with (
        socket.create_connection(("127.0.0.1", port(service.reach().address)), timeout=60) as plain,
        trusting.wrap_socket(plain, server_hostname="localhost") as encrypted,
    ):
        assert encrypted.version() in ("TLSv1.2", "TLSv1.3")


def test_no_promise_is_made_for_other_ports_of_the_machine(service, trusting):
    """HSTS would shut the plain door of the same name (RFC 6797, section 8.3: any port)."""
    answer, _ = ask(service.reach().address, "/about", trust=trusting)
    assert answer.getheader("Strict-Transport-Security") is None


def test_cookies_stay_on_the_encrypted_way(service, trusting):
    """RFC 6265, section 4.1.2.5. The plain way of this machine to itself sets them without."""
    answer, _ = ask(service.reach().address, "/fleet/choose?aircraft=&back=/", trust=trusting)
    cookies = answer.headers.get_all("Set-Cookie")
    assert cookies and all("; secure" in cookie.casefold() for cookie in cookies)
    answer, _ = ask(service.reach().here, "/fleet/choose?aircraft=&back=/", name="localhost")
    cookies = answer.headers.get_all("Set-Cookie")
    assert cookies and not any("secure" in cookie.casefold() for cookie in cookies)


def test_the_download_is_what_the_fingerprint_is_of(service):
    answer, der = ask(service.reach().door, "/authority.crt")
    assert answer.getheader("Content-Type") == "application/x-x509-ca-cert"
    assert 'filename="hangarleaf-authority.crt"' in answer.getheader("Content-Disposition")
    digits = hashlib.sha256(der).hexdigest().upper()
    page = ask(service.reach().here, "/tablet", name="localhost")[1].decode()
    assert "".join(re.findall(r"<li><b>([0-9A-F]{4})</b>", page)) == digits
    assert ask(service.reach().here, "/tablet/authority.crt", name="localhost")[1] == der


def test_the_door_has_three_addresses_and_nothing_else(service, trusting):
    door = service.reach().door
    page, body = ask(door, "/")
    assert page.status == 200 and b"Before this tablet" in body
    assert set(re.findall(rb'(?:href|src|action)="([^"]*)"', body)) == {b"/open", b"/authority.crt"}
    way, _ = ask(door, "/open")
    assert way.status == 303 and way.getheader("Location") == service.reach().address
    with (Path(__file__).parent / "data" / "rights.csv").open(encoding="utf-8", newline="") as file:
        paths = sorted({row["address"] for row in csv.DictReader(file)} - {"/"})
    assert len(paths) > 100
    for path in [
        *paths,
        "/static/hangarleaf.css",
        "/docs",
        "/openapi.json",
        "/authority.pem",
        "/../https/authority.pem",
    ]:
        answer, said = ask(door, path.replace("{", "").replace("}", ""))
        assert answer.status == 404 and said.startswith(b"Nothing is at this address"), path
    for method in ("POST", "PUT", "DELETE", "OPTIONS", "HEAD"):
        for path in ("/", "/open", "/authority.crt"):
            assert ask(door, path, method)[0].status == 405, (method, path)


def test_the_doors_page_runs_no_script_and_tells_no_secret(service, folder):
    answer, body = ask(service.reach().door, "/")
    policy = answer.getheader("Content-Security-Policy")
    assert policy.startswith("default-src 'none'; style-src 'sha256-") and "unsafe" not in policy
    style = re.search(rb"<style>(.*?)</style>", body, re.DOTALL)[1]
    assert base64.b64encode(hashlib.sha256(style).digest()).decode() in policy
    assert b"<script" not in body and b" style=" not in body
    with Catalogue.open(folder) as catalogue:
        code = tablets.shop_code(catalogue)
    fingerprint = service.reach().authority.fingerprint
    assert code.encode() not in body and not any(group.encode() in body for group in fingerprint.groups[:4])


def test_the_plain_way_of_this_machine_is_closed_to_the_network(service):
    """It listens on loopback alone."""
    assert service.servers[-1].sockets[0].getsockname()[0] == "127.0.0.1"
    assert port(service.reach().here) == service.servers[-1].sockets[0].getsockname()[1]
    assert ask(service.reach().here, "/about", name="localhost")[0].status == 200


def test_a_machine_that_moves_is_answered_for_without_a_restart(service, patch, trusting):
    moved = ipaddress.ip_address("10.20.30.40")
    with pytest.raises(ssl.SSLCertVerificationError):
        ask(service.reach().address, "/about", trust=trusting, name=str(moved))
    patch.setattr("server.serving.own_names", lambda: Names(OWN.hosts, (moved,)))
    asyncio.run(service.renew())
    assert service.reach().address.startswith(f"https://{moved}:")
    assert ask(service.reach().address, "/about", trust=trusting, name=str(moved))[0].status == 200
    patch.setattr("server.serving.own_names", lambda: OWN)
    asyncio.run(service.renew())
    assert ask(service.reach().address, "/about", trust=trusting, name="192.168.70.7")[0].status == 200


def test_what_the_terminal_says(folder, monkeypatch, capsys):
    with running(monkeypatch, Settings(library=str(folder)), "0.0.0.0", Encryption(shop=True)) as service:
        reach = service.reach()
    said = capsys.readouterr().out
    with Catalogue.open(folder) as catalogue:
        code = tablets.shop_code(catalogue)
    assert said.startswith(f"Hangarleaf answers at {reach.address}\n")
    for words in (reach.door, reach.here, code, *reach.authority.fingerprint.groups, "Ctrl-C"):
        assert words in said
    assert max(map(len, said.splitlines())) <= 120 and said.count("\n") < 60


def test_what_the_terminal_says_without_encryption(folder, monkeypatch, capsys):
    with running(monkeypatch, Settings(library=str(folder)), "0.0.0.0", PLAIN) as service:
        reach = service.reach()
    said = capsys.readouterr().out
    assert reach.address.startswith("http://192.168.70.7:") and not reach.door and not reach.here
    assert "not encrypted" in said and "--https" in said and "█" in said


def test_on_this_machine_alone_there_is_no_door_and_no_code(folder, monkeypatch, capsys):
    with running(monkeypatch, Settings(library=str(folder)), "127.0.0.1", Encryption(shop=True)) as service:
        reach = service.reach()
        answer, _ = ask(reach.address, "/about", trust=client_trusting(reach.authority.certificate))
        assert answer.status == 200
    said = capsys.readouterr().out
    assert "Only this machine can reach it." in said and "code" not in said
    assert not reach.door and not reach.here and not reach.network
