"""A stranger in the shop's network: what he learns and gets without the shop's code, however he asks."""

import http.client
import re

import pytest
import small_library
from encrypted_service import running
from test_signing_in import TABLET, Browser

from indexer.library import fleet, tablets
from indexer.settings import Settings
from server.app import create_app
from server.routes.answer_headers import host_name
from server.serving import PLAIN

SECRET_PATHS = ("/api/publications", "/publications", "/persons")
# RFC 9110, section 7.6.3, and RFC 7239, section 4; the X- names are common practice, from memory.
OF_PROXIES = {
    "X-Forwarded-For": "127.0.0.1",
    "X-Real-IP": "127.0.0.1",
    "Forwarded": "for=127.0.0.1;proto=https",
    "Via": "1.1 front",
}


@pytest.fixture
def stranger(shelf):
    return Browser(create_app(shelf[0], Settings(), network=True), None, TABLET, "http://192.168.1.7:8017")


@pytest.fixture(scope="module")
def service(tmp_path_factory):
    place = tmp_path_factory.mktemp("strangers")
    small_library.make(place / "library", place / "files")
    settings = Settings(library=str(place / "library"))
    with pytest.MonkeyPatch.context() as patch, running(patch, settings, "0.0.0.0", PLAIN) as running_one:
        yield int(running_one.reach().address.rstrip("/").rpartition(":")[2])


def ask(port, path, method="GET", **headers):
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=60)
    connection.request(method, path, headers={name.replace("_", "-"): said for name, said in headers.items()})
    answer = connection.getresponse()
    body = answer.read().decode("utf-8", "replace")
    connection.close()
    return answer, body


SPELLINGS = (
    "//api/publications",
    "/%2Fapi/publications",
    "/static/../api/publications",
    "/static/%2e%2e/api/publications",
    "/tablet/%2e%2e/api/publications",
    "/tablet/../publications",
    "/join/../publications",
    "/join/",
    "/offline/",
    "/static",
    "/static/",
    "/API/publications",
    "/api/publications/",
    "/tablet/nothing",
)
NO_HOSTS = (
    "192.168.1.7:/static/",
    "192.168.1.7:80/static/",
    "192.168.1.7/static/",
    "192.168.1.7:80/tablet?",
    "192.168.1.7:80#",
    "user@192.168.1.7",
    "[::1]/static/",
    "[::1",
    "127.0.0.1:80:80",
    "127.0.0.1, manuals.example",
)


@pytest.mark.parametrize("method", ["GET", "HEAD", "OPTIONS", "POST"])
def test_no_spelling_of_an_address_leads_past_the_gate(stranger, own_manual, method):
    for path in SPELLINGS:
        answer = stranger.send(method, path)
        assert answer.status_code in (303, 307, 403, 404, 405), (path, answer.status_code)
        assert own_manual not in answer.text and "Library state" not in answer.text, path
        assert "library-state" not in answer.headers, path


def test_a_host_header_that_is_no_host_is_refused(stranger):
    """RFC 9110, section 7.2: a name or an address, and perhaps a port."""
    for host in NO_HOSTS:
        assert host_name(host) == "", host
        for path in SECRET_PATHS:
            assert stranger.send("GET", path, headers={"host": host}).status_code == 421, (host, path)


def test_no_page_before_the_gate_tells_of_the_fleet(stranger, shelf):
    fleet.add(shelf[0].catalogue, "QX-1AB", "QZ62", "Rosa Quill", "QZ-077")
    for path in ("/tablet/nothing", "/static/nothing", "/tablet", "/join", "/offline", "/pinned"):
        for host in ("192.168.1.7", "manuals.example"):
            stranger.cookies.clear()
            answers = [
                stranger.send("GET", f"{path}?aircraft={which}", headers={"host": host})
                for which in ("QX-1AB", "QX-9ZZ")
            ]
            assert answers[0].status_code == answers[1].status_code
            stranger.cookies.set("aircraft", "QX1AB")
            answers.append(stranger.send("GET", path, headers={"host": host}))
            for told in ("QZ62", "QZ-077", "QX-1AB", "fleet list"):
                assert not any(told in answer.text for answer in answers), (path, host, told)


@pytest.mark.parametrize("header", OF_PROXIES)
def test_nobody_is_this_machine_by_a_header(service, header):
    """Nor is one for whom a proxy asks, which itself runs on this machine."""
    assert ask(service, "/api/publications")[0].status == 200
    for said in (OF_PROXIES[header], "192.168.1.20", ""):
        answer, body = ask(service, "/api/publications", **{header: said})
        assert answer.status == 403 and "not-joined" in body, (header, said)
        answer, body = ask(service, "/persons", **{header: said})
        assert answer.status == 403


def test_nobodys_way_is_encrypted_by_a_header(service):
    """Else the page on the tablet would promise what does not hold."""
    _, body = ask(service, "/tablet", X_Forwarded_Proto="https", X_Forwarded_For="192.168.1.20")
    assert "/tablet" in body and "https://" not in body


def test_behind_a_proxy_a_service_that_is_not_open_asks_for_the_code_too(shelf):
    app = create_app(shelf[0], Settings())
    through = {"x-forwarded-for": "192.168.1.20"}
    browser = Browser(app)
    assert browser.get("/api/status").status_code == 200
    assert browser.send("GET", "/api/status", headers=through).status_code == 403
    code = tablets.shop_code(shelf[0].catalogue)
    joining = {"data": {"code": code, "name": "Tablet at bay 2"}, "headers": through}
    assert browser.send("POST", "/join", **joining).status_code == 303
    assert browser.send("GET", "/api/status", headers=through).status_code == 200
    refused = browser.send("POST", "/words", data={"who": "Rosa Quill"}, headers=through)
    assert refused.status_code == 403 and "only on the machine" in refused.text


def test_no_socket_is_kept_open_past_the_gate(service):
    """RFC 6455, section 4.1: asked to speak otherwise, the service goes on as if it had not been."""
    wanted = {
        "Connection": "Upgrade",
        "Upgrade": "websocket",
        "Sec_WebSocket_Key": "dGhlIHNhbXBsZSBub25jZQ==",
        "Sec_WebSocket_Version": "13",
        "Via": "1.1 front",
    }
    for path in ("/api/publications", "/static/x"):
        answer, _ = ask(service, path, **wanted)
        assert answer.status in (403, 404)


def test_the_code_is_in_no_answer_before_joining(stranger, shelf):
    code = tablets.shop_code(shelf[0].catalogue)
    for path in (
        "/join",
        "/tablet",
        "/tablet/code.svg",
        "/tablet/door.svg",
        "/offline",
        "/pinned",
        "/nothing",
    ):
        assert not re.search(code.replace("-", "-?"), stranger.get(path).text), path
    before = stranger.get("/tablet/code.svg").content
    tablets.change_code(shelf[0].catalogue, "Rosa Quill")
    assert stranger.get("/tablet/code.svg").content == before, "the picture holds the address alone"
    stranger.post("/join", code=tablets.shop_code(shelf[0].catalogue))
    assert stranger.get("/packets").status_code == 200, "it has joined"
    assert stranger.get("/tablet/code.svg").content == before, "it may read, and let nobody in"
