"""Asks the service as a browser would, without a network."""

import asyncio

import httpx

HERE = "http://127.0.0.1"


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
