"""Joining: what a device of the network sees before and after it gave the shop's code."""

import pytest
from test_signing_in import TABLET, Browser

from indexer.library import tablets
from indexer.settings import Settings
from server.app import create_app
from server.routes.static_files import ADDRESS

HTML = {"accept": "text/html"}


@pytest.fixture
def far(shelf):
    return Browser(create_app(shelf[0], Settings(), network=True), address=TABLET)


@pytest.fixture
def code(shelf):
    return tablets.shop_code(shelf[0].catalogue)


def test_before_joining_nothing_of_the_library_is_told(far, shelf, own_manual):
    name = shelf[0].publication(own_manual).file
    led = far.send("GET", f"/publications/{own_manual}?q=a%20b", headers=HTML)
    assert led.status_code == 303
    assert led.headers["location"] == f"/join?back=%2Fpublications%2F{own_manual}%3Fq%3Da%2520b"
    far.cookies.set("aircraft", "QX1AB")  # a registration that it might ask about so
    for address in (
        "/api/status",
        "/api/search?q=brake",
        f"/publications/{own_manual}",
        "/nothing",
        "/join",
        "/tablet",
    ):
        answer = far.get(address)
        assert answer.status_code == (200 if address in ("/join", "/tablet") else 403), address
        assert "Library state" not in answer.text and name not in answer.text and "QX1AB" not in answer.text
    assert far.get("/api/status").json()["error"]["slug"] == "not-joined"
    assert far.get(f"{ADDRESS}/hangarleaf.css").status_code == 200


def test_looking_at_the_address_of_the_code_joins_nobody(far, shelf, code):
    page = far.get(f"/join?code={code}")
    assert page.status_code == 200 and f'value="{code}"' in page.text and "set-cookie" not in page.headers
    assert not tablets.tablets(shelf[0].catalogue)


def test_one_tap_joins_and_leads_on(far, shelf, code):
    answer = far.post("/join", code=code.lower(), name="Tablet at bay 2", back="/system")
    assert (answer.status_code, answer.headers["location"]) == (303, "/system")
    cookie = answer.headers["set-cookie"]
    assert "HttpOnly" in cookie and "SameSite=lax" in cookie and code not in cookie
    assert far.get("/api/status").status_code == 200
    assert "need not join" in far.get("/join").text
    (held,) = tablets.tablets(shelf[0].catalogue)
    assert held.name == "Tablet at bay 2"
    tablets.end(shelf[0].catalogue, held.id, "Rosa Quill")
    assert far.get("/api/status").status_code == 403


def test_wrong_codes_are_slowed_down(far, shelf, code):
    codes = [far.post("/join", code=f"AAAA-{number:04}").status_code for number in range(12)]
    assert codes == [403] * 10 + [429] * 2
    assert far.post("/join", code=code).status_code == 429, "the right one must wait too"
    other = Browser(far.app, address="192.168.1.21")
    assert other.post("/join", code=code).status_code == 303
    assert len(tablets.tablets(shelf[0].catalogue)) == 1


def test_this_machine_and_a_service_that_is_not_open_ask_for_no_code(shelf, far):
    assert Browser(far.app).get("/api/status").status_code == 200
    closed = create_app(shelf[0], Settings())
    assert Browser(closed).get("/api/status").status_code == 200
