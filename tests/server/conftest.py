"""A small library with every case, opened over a plain engine, and the service over it."""

import asyncio

import httpx
import pytest

from indexer.library.catalogue import Catalogue
from indexer.settings import Settings
from server.app import create_app
from server.opened import OpenedLibrary
from server.render import PagePictures
from tests.server import small_library
from tests.server.plain_engine import PlainEngine

HERE = "http://127.0.0.1"


@pytest.fixture(scope="session")
def made(tmp_path_factory):
    """The library's folder, and the ids of its publications by name. Tests only read it."""
    place = tmp_path_factory.mktemp("small")
    return place / "library", small_library.make(place / "library", place / "files")


@pytest.fixture(scope="session")
def ids(made):
    return made[1]


@pytest.fixture(scope="session")
def library(made):
    folder, _ = made
    settings = Settings()
    pictures = PagePictures(folder / "cache" / "pages", settings)
    with OpenedLibrary(folder, Catalogue.open(folder), PlainEngine(), pictures) as opened:
        opened.catch_up()
        yield opened


class Client:
    """Asks the service as a browser would, without a network."""

    def __init__(self, app):
        self._app = app

    def get(self, address, **more):
        return self.request("GET", address, **more)

    def request(self, method, address, **more):
        async def ask():
            transport = httpx.ASGITransport(self._app, raise_app_exceptions=False)
            async with httpx.AsyncClient(transport=transport, base_url=HERE) as client:
                return await client.request(method, address, **more)

        return asyncio.run(ask())


@pytest.fixture(scope="session")
def client(library):
    return Client(create_app(library, Settings()))
