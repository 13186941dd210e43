"""Asks the service as a browser would, without a network."""

import asyncio

import httpx

from indexer.library import tablets

HERE = "http://127.0.0.1"


def joined(library):
    """The cookies of a tablet that gave the shop's code; `library` is an opened one."""
    catalogue = library.catalogue
    return {"tablet": tablets.join(catalogue, tablets.shop_code(catalogue), "Tablet at bay 2")}


class Client:
    """Speaks to one application."""

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
