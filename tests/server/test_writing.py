"""Nothing that changes the library is taken from another machine, nor from a page of another site."""

import asyncio

import httpx
import pytest
from asking import HERE, Client
from fastapi import FastAPI

from indexer.settings import Settings
from server.app import create_app
from server.rights import Right
from server.routes.problems import handle_problems
from server.routes.writing import MOST_SENT_KB, Form, SmallBodies, require

FORM = {"content-type": "application/x-www-form-urlencoded"}


def ask(app, method, address, client="127.0.0.1", **more):
    """As another machine would, when `client` is its address."""

    async def asking():
        transport = httpx.ASGITransport(app, raise_app_exceptions=False, client=(client, 50000))
        async with httpx.AsyncClient(transport=transport, base_url=HERE) as web:
            return await web.request(method, address, **more)

    return asyncio.run(asking())


@pytest.fixture
def note(library):
    """A service with one route that changes something; no person is named in its library."""
    app = FastAPI()
    app.state.library = library
    app.state.kept = []
    handle_problems(app)
    app.add_middleware(SmallBodies)

    @app.post("/api/note", dependencies=[require(Right.TAGS)])
    def keep(form: Form):
        app.state.kept.append(form)
        return {"kept": len(app.state.kept)}

    return app


@pytest.mark.parametrize("client", ["127.0.0.1", "127.8.0.1", "::1", "::ffff:127.0.0.1"])
def test_this_machine_is_heard(note, client):
    assert ask(note, "POST", "/api/note", client, data={"a": " b "}).status_code == 200
    assert note.state.kept == [{"a": "b"}]


@pytest.mark.parametrize(
    "client", ["192.168.1.20", "10.0.0.1", "8.8.8.8", "fe80::1", "::ffff:192.168.1.2", "x"]
)
def test_no_other_machine_is_heard(note, client):
    answer = ask(note, "POST", "/api/note", client, data={"a": "b"})
    assert answer.status_code == 403
    error = answer.json()["error"]
    assert (
        error["slug"] == "not-from-this-machine"
        and client in error["what"]
        and "localhost" in error["remedy"]
    )
    assert not note.state.kept


# What browsers send: WHATWG Fetch ("append a request Origin header") and W3C Fetch Metadata (Sec-Fetch-Site).
@pytest.mark.parametrize(
    ("headers", "heard"),
    [
        ({}, True),  # a program
        ({"origin": HERE}, True),
        ({"origin": HERE.upper()}, True),
        ({"sec-fetch-site": "same-origin", "origin": "null"}, True),  # a form whose origin is hidden
        ({"sec-fetch-site": "none", "origin": "null"}, True),  # the reader sends a page once more
        ({"sec-fetch-site": "same-origin"}, True),
        ({"origin": "null"}, False),  # an old browser, or a page in a sandbox
        ({"origin": "http://elsewhere.example"}, False),
        ({"origin": f"{HERE}:81"}, False),
        ({"origin": f"{HERE}.elsewhere.example"}, False),
        ({"sec-fetch-site": "cross-site", "origin": "null"}, False),
        ({"sec-fetch-site": "same-site", "origin": "null"}, False),
        ({"sec-fetch-site": "cross-site", "origin": HERE}, False),
        ({"sec-fetch-site": "same-origin", "origin": "http://elsewhere.example"}, False),
    ],
)
def test_only_our_own_pages_and_programs_are_heard(note, headers, heard):
    answer = ask(note, "POST", "/api/note", data={"a": "b"}, headers=headers)
    assert answer.status_code == (200 if heard else 403)
    assert len(note.state.kept) == heard
    if not heard:
        assert answer.json()["error"]["slug"] == "foreign-origin"


def test_too_much_is_not_taken(note):
    most = MOST_SENT_KB * 1024
    fits = ask(note, "POST", "/api/note", content=b"a=" + b"x" * (most - 2), headers=FORM)
    assert fits.status_code == 200
    over = ask(note, "POST", "/api/note", content=b"a=" + b"x" * most, headers=FORM)
    assert over.status_code == 413 and over.json()["error"]["slug"] == "too-much-sent"

    async def pieces():
        for _ in range(MOST_SENT_KB + 2):
            yield b"x" * 1024

    unsaid = ask(note, "POST", "/api/note", content=pieces(), headers=FORM)
    assert unsaid.status_code == 413, unsaid.text
    assert len(note.state.kept) == 1


def test_a_form_must_be_a_form(note):
    assert ask(note, "POST", "/api/note", json={"a": "b"}).json()["error"]["slug"] == "query-problem"
    assert ask(note, "POST", "/api/note", content=b"a=\xff", headers=FORM).status_code == 400
    assert not note.state.kept


def test_reading_needs_none_of_this(library):
    far = Client(create_app(library, Settings(), network=True))
    assert far.get("/api/status", headers={"origin": "http://elsewhere.example"}).status_code == 200
