"""Every route, asked by everybody: data/rights.csv says what each takes, and a route it does not name fails.

An asker who has the right is answered otherwise than by a refusal; here mostly with "not as asked", since
nothing is sent. So nothing in the library changes, whoever asks.
"""

import asyncio
import csv
import re
import shutil
from dataclasses import dataclass
from pathlib import Path

import httpx
import pytest
from asking import HERE, joined
from plain_engine import PlainEngine

from indexer.library import people, sign_ins
from indexer.library.catalogue import Catalogue
from indexer.library.person_records import Role
from indexer.settings import Settings
from server.app import create_app
from server.opened import OpenedLibrary
from server.render import PagePictures
from server.rights import READERS, Right, able_words, has
from server.routes.writing import Require, require_asker

TABLE = Path(__file__).parent / "data" / "rights.csv"
OPEN = "open"  # to whoever is in the network: how to join, and what holds nothing of the library
YES, JOIN, SIGN_IN, OTHER_ROLE, NOT_FROM_HERE = "yes", "join", "sign in", "other role", "not from here"
# How each refusal is told, on a page and in JSON.
SAID = {
    "has not joined": JOIN,
    "Nobody is signed in here": SIGN_IN,
    "who may not do this": OTHER_ROLE,
    "only on the machine that serves it": NOT_FROM_HERE,
}
TABLET = "192.168.1.20"
PASSCODE = "four sorts of rivet"
PERSONS = {"Rosa Quill": Role.LIBRARIAN, "Ivo Brandt": Role.INSPECTOR, "Nell Ambrose": Role.INSPECTOR}


@dataclass(frozen=True)
class Asker:
    """address  where it asks from; here = this machine; joined = it gave the shop's code"""

    address: str
    joined: bool = False
    person: str = ""
    hours: float = 8.0

    @property
    def here(self) -> bool:
        return self.address == "127.0.0.1"


NOBODY_NAMED = {
    "this machine": Asker("127.0.0.1"),
    "a tablet that joined": Asker(TABLET, True),
    "a tablet that has not joined": Asker(TABLET),
}
NAMED = {
    **NOBODY_NAMED,
    "a librarian on a tablet": Asker(TABLET, True, "Rosa Quill"),
    "an inspector on a tablet": Asker(TABLET, True, "Ivo Brandt"),
    "a librarian at this machine": Asker("127.0.0.1", False, "Rosa Quill"),
    "an inspector at this machine": Asker("127.0.0.1", False, "Ivo Brandt"),
    "a librarian on a tablet that has not joined": Asker(TABLET, False, "Rosa Quill"),
    "somebody whose sign-in has run out": Asker(TABLET, True, "Rosa Quill", -1.0),
    "somebody who was ended": Asker(TABLET, True, "Nell Ambrose"),
}


def expected(right: Right | str, asker: Asker, persons_named: bool) -> str:
    """What the design says, in one place: who is refused what, and how."""
    if right == OPEN:
        return YES
    if not asker.here and not asker.joined:
        return JOIN
    if right in READERS:
        return YES
    if not persons_named:
        return YES if asker.here else NOT_FROM_HERE
    if not asker.person or asker.hours < 0 or asker.person == "Nell Ambrose":
        return SIGN_IN
    return YES if has(PERSONS[asker.person], right) else OTHER_ROLE


def table() -> dict[tuple[str, str], Right | str]:
    with TABLE.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    found = {
        (row["method"], row["address"]): OPEN if row["right"] == OPEN else Right(row["right"]) for row in rows
    }
    assert len(found) == len(rows), "a route stands in the table twice"
    return found


def every_route(routes):
    """Routes with a method, those of included routers among them."""
    for route in routes:
        router = getattr(route, "original_router", route)  # newer FastAPI keeps included routers whole
        if inner := getattr(router, "routes", None):
            yield from every_route(inner)
        elif getattr(route, "methods", None):
            yield route


def asked_of(app) -> dict[tuple[str, str], set]:
    """(method, address) of every route -> what it depends on."""
    return {
        (method, route.path): set(_calls(getattr(route, "dependant", None)))
        for route in every_route(app.routes)
        for method in route.methods - {"HEAD"}
    }


def _calls(dependant):
    for each in dependant.dependencies if dependant else ():
        yield each.call
        yield from _calls(each)


def _library(made, place):
    shutil.copytree(made[0], place)
    settings = Settings()
    opened = OpenedLibrary(
        place, Catalogue.open(place), PlainEngine(), PagePictures(place / "cache" / "pages", settings)
    )
    opened.catch_up()
    return opened


@pytest.fixture(scope="module")
def unnamed(made, tmp_path_factory):
    with _library(made, tmp_path_factory.mktemp("rights") / "library") as opened:
        yield opened


@pytest.fixture(scope="module")
def named(made, tmp_path_factory):
    with _library(made, tmp_path_factory.mktemp("rights") / "library") as opened:
        for name, role in PERSONS.items():
            people.add(opened.catalogue, name, role.value, PASSCODE, "Rosa Quill")
        yield opened


def cookies(library, asker):
    kept = joined(library) if asker.joined else {}
    if asker.person:
        person = people.person_called(library.catalogue, asker.person)
        kept["sign_in"] = sign_ins.sign_in(library.catalogue, person, asker.hours)
    return kept


def walked(app, asker, held) -> dict[tuple[str, str], str]:
    """What became of every route, asked with nothing in it."""

    async def walk():
        transport = httpx.ASGITransport(app, raise_app_exceptions=False, client=(asker.address, 50000))
        found = {}
        for method, address in sorted(asked_of(app), key=lambda route: route[1] == "/sign-out"):
            async with httpx.AsyncClient(transport=transport, base_url=HERE, cookies=held) as web:
                sent = {} if method == "GET" else {"json": {}}
                filled = re.sub(r"\{[^}]*\}", "1", address)
                answer = await web.request(method, filled, headers={"accept": "text/html"}, **sent)
            found[method, address] = outcome(answer)
        return found

    return asyncio.run(walk())


def outcome(answer) -> str:
    if answer.status_code == 303 and answer.headers["location"].startswith("/join?"):
        return JOIN
    if answer.status_code != 403:
        assert answer.status_code < 500 or answer.status_code in (502, 503), answer.text
        return YES
    words = [told for said, told in SAID.items() if said in answer.text]
    assert len(words) == 1, f"{answer.url}: this refusal is not understood: {answer.text}"
    return words[0]


def test_every_route_stands_in_the_table_with_what_it_takes(unnamed):
    app, wanted = create_app(unnamed, Settings(), network=True), table()
    routes = asked_of(app)
    missing = sorted(set(routes) - set(wanted))
    assert not missing, f"routes that {TABLE.name} does not name: {missing}"
    gone = sorted(set(wanted) - set(routes))
    assert not gone, f"{TABLE.name} names routes that there are not: {gone}"
    for route, calls in routes.items():
        rights = {call.right for call in calls if isinstance(call, Require)}
        if wanted[route] in READERS or wanted[route] == OPEN:
            assert not rights, route
            assert route[0] == "GET" or require_asker in calls, f"{route} takes what other sites send"
        else:
            assert rights == {wanted[route]}, route


@pytest.mark.parametrize("who", NOBODY_NAMED)
def test_what_everybody_may_while_nobody_is_named(unnamed, who):
    _hold(unnamed, NOBODY_NAMED[who], False)


@pytest.mark.parametrize("who", NAMED)
def test_what_everybody_may_once_persons_are_named(named, who):
    _hold(named, NAMED[who], True)


def _hold(library, asker, persons_named):
    app = create_app(library, Settings(), network=True)
    held, before = cookies(library, asker), library.catalogue.dump()
    if asker.person == "Nell Ambrose":
        people.end(library.catalogue, asker.person, "Rosa Quill")
    wanted = table()
    found = walked(app, asker, held)
    wrong = {
        route: (answer, expected(wanted[route], asker, persons_named))
        for route, answer in found.items()
        if route in wanted and answer != expected(wanted[route], asker, persons_named)
    }
    assert not wrong
    assert library.catalogue.dump() == before


def test_no_page_of_another_site_sends_anything_even_with_a_librarians_cookies(named):
    app = create_app(named, Settings(), network=True)
    held = cookies(named, NAMED["a librarian on a tablet"])

    async def send(method, address, headers):
        transport = httpx.ASGITransport(app, raise_app_exceptions=False, client=(TABLET, 50000))
        async with httpx.AsyncClient(transport=transport, base_url=HERE, cookies=held) as web:
            return await web.request(method, address, headers=headers, json={})

    before = named.catalogue.dump()
    for method, path in asked_of(app):
        if method == "GET":
            continue
        address = re.sub(r"\{[^}]*\}", "1", path)
        for headers in ({"origin": "http://elsewhere.example"}, {"sec-fetch-site": "cross-site"}):
            answer = asyncio.run(send(method, address, headers))
            assert answer.status_code == 403 and "a page that is not ours" in answer.text, (method, path)
    assert named.catalogue.dump() == before


def test_roles_and_rights():
    assert all(has(Role.LIBRARIAN, right) for right in Right)
    inspector = {right for right in Right if has(Role.INSPECTOR, right)}
    assert inspector == READERS | {Right.TAGS, Right.FLEET, Right.REGISTER}
    assert {right for right in Right if has(None, right)} == {Right.READ, Right.ASK}
    assert able_words(Right.FLEET) == "a librarian or an inspector"
    assert able_words(Right.INGEST) == "a librarian"
