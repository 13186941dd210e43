"""The page that puts the library on a tablet: who sees the shop's code, and what is said of each way."""

import asyncio
import ipaddress
import re

import httpx
import pytest
import segno
from asking import Client, joined

from indexer.library import people, sign_ins, tablets
from indexer.library.person_records import Role
from indexer.settings import Settings
from server.app import create_app
from server.reach import Reach, how_reached, own_names_at
from server.routes.tablet_pages import abilities
from server.shop_certificate import shop_certificate
from server.this_machine import Names, in_address

OWN = Names(("hangar-2.local", "hangar-2"), (ipaddress.ip_address("192.168.70.7"),))
TABLET = ("192.168.70.20", 40000)


class From(Client):
    """Asks from another machine."""

    def request(self, method, address, **more):
        async def ask():
            transport = httpx.ASGITransport(self._app, client=TABLET)
            async with httpx.AsyncClient(transport=transport, base_url="https://192.168.70.7") as client:
                return await client.request(method, address, **more)

        return asyncio.run(ask())


@pytest.fixture
def app(shelf, tmp_path):
    made = create_app(shelf[0], Settings(), network=True)
    certified = shop_certificate(tmp_path / "shop", OWN)
    made.state.reach = how_reached("0.0.0.0", 8017, OWN, certified, 8018, 8019)
    return made


def code_of(shelf):
    return tablets.shop_code(shelf[0].catalogue)


def test_this_machine_sees_the_shops_code(app, shelf):
    page = Client(app).get("/tablet").text
    assert code_of(shelf) in page and "https://192.168.70.7<wbr>:8017/" in page
    assert "http://192.168.70.7<wbr>:8018/" in page


def test_a_tablet_is_told_who_knows_it(app, shelf):
    """Whoever holds a tablet that joined may read, and no more: the code would let any device in."""
    code, plain = code_of(shelf), From(app).get("/tablet/code.svg").content
    for cookies, asked_to_join in (({}, True), (joined(shelf[0]), False)):
        page = From(app).get("/tablet", cookies=cookies)
        assert page.status_code == 200 and code not in page.text
        assert ('href="/join"' in page.text) is asked_to_join
        assert "Ask whoever looks after the machine" in page.text
        assert From(app).get("/tablet/code.svg", cookies=cookies).content == plain


@pytest.mark.parametrize("role", Role)
def test_who_answers_for_the_library_sees_it_on_a_tablet_that_joined(app, shelf, role):
    library, code = shelf[0], code_of(shelf)
    people.add(library.catalogue, "Ada Marsh", "librarian", "four sorts of rivet", "Ada Marsh")
    person = people.add(library.catalogue, "Rosa Quill", role.value, "four sorts of rivet", "Ada Marsh")
    signed_in = {"sign_in": sign_ins.sign_in(library.catalogue, person, 8.0)}
    assert code not in From(app).get("/tablet", cookies=signed_in).text, "the tablet has not joined"
    assert code in From(app).get("/tablet", cookies={**joined(library), **signed_in}).text
    page = From(app).get("/tablet", cookies=joined(library)).text
    assert code not in page and "wherever a librarian or an inspector is signed in" in " ".join(page.split())


def test_the_pictures_hold_the_addresses(app, shelf):
    """Drawn again by segno from the address expected: a picture of another address has other modules."""

    def modules(address):
        return re.search(r' d="([^"]+)"', segno.make(address, error="m").svg_inline(border=4))[1]

    def drawn(response):
        assert response.headers["content-type"] == "image/svg+xml"
        return response.text

    join = f"https://192.168.70.7:8017/join?code={code_of(shelf)}"
    assert modules(join) in drawn(Client(app).get("/tablet/code.svg"))
    assert modules("https://192.168.70.7:8017/") in drawn(From(app).get("/tablet/code.svg"))
    assert modules("http://192.168.70.7:8018/") in drawn(Client(app).get("/tablet/door.svg"))


def test_the_address_in_the_code_opens_the_page_that_joins(app, shelf):
    address = app.state.reach.joining(code_of(shelf)).removeprefix("https://192.168.70.7:8017")
    page = From(app).get(address)
    assert page.status_code == 200 and code_of(shelf) in page.text


def test_without_an_authority_there_is_none_to_download(client):
    for address in ("/tablet/authority.crt", "/tablet/door.svg"):
        assert client.get(address).status_code == 404
    page = client.get("/tablet").text
    assert "Only this machine reaches the service now" in page and "serve --lan --https" in page
    assert "fingerprint" not in page


def test_at_the_machine_the_page_speaks_of_the_tablets_way(app):
    """This machine's own browser takes a plain way to itself for secure; the tablets' way need not be."""
    app.state.reach = how_reached("0.0.0.0", 8017, OWN)
    page = Client(app).get("/tablet").text
    assert "What works on tablets" in page and "Does not work." in page and "serve --lan --https" in page


@pytest.mark.parametrize("secure", [True, False])
def test_everything_but_what_browsers_refuse_works_on_every_way(secure):
    """W3C Secure Contexts and Service Workers: offline storage and the clipboard take a secure context."""
    found = {each.what: each.works for each in abilities(Reach("https://h/", True), secure)}
    assert len(found) == 6
    refused = {what for what, works in found.items() if not works}
    assert refused == (
        set()
        if secure
        else {
            "Packets that open without the network",
            "Hangarleaf among the tablet's own programs",
            "Copy a citation with one tap",
        }
    )


@pytest.mark.parametrize(
    ("host", "own", "address"),
    [
        ("0.0.0.0", OWN, "http://192.168.70.7:8017/"),
        ("127.0.0.1", OWN, "http://127.0.0.1:8017/"),
        ("::1", OWN, "http://[::1]:8017/"),
        ("0.0.0.0", Names(("hangar-2.local",)), "http://hangar-2.local:8017/"),
        ("0.0.0.0", Names((), (ipaddress.ip_address("fd00::7"),)), "http://localhost:8017/"),
        ("::", Names((), (ipaddress.ip_address("fd00::7"),)), "http://[fd00::7]:8017/"),
        ("10.1.1.1", OWN, "http://10.1.1.1:8017/"),
    ],
)
def test_the_address_that_people_are_given(host, own, address):
    assert how_reached(host, 8017, own_names_at(host, own)).address == address
    assert in_address("fd00::7") == "[fd00::7]"


def test_a_public_address_is_not_given_to_tablets_of_an_encrypted_service(tmp_path):
    own = Names(("hangar-2.local",), (ipaddress.ip_address("8.8.4.4"),))
    reach = how_reached("0.0.0.0", 8017, own, shop_certificate(tmp_path, own), 8018)
    assert reach.address == "https://hangar-2.local:8017/" and reach.door == "http://hangar-2.local:8018/"
    assert "8.8.4.4" in reach.warnings[0]
