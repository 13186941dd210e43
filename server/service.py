"""One web server over the application: it says when it answers, and keeps its certificate fresh."""

import asyncio
import functools
import logging
import socket
import ssl
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager

import uvicorn
from fastapi import FastAPI

from indexer.errors import HangarleafError
from server.certificates import Certified

RENEWAL_EVERY_S = 3600
# proxy_headers: nobody is where a header says, and nobody's way is encrypted because one says so.
_WAYS = {"log_level": "warning", "server_header": False, "proxy_headers": False, "ws": "none"}
_log = logging.getLogger(__name__)


class Service(uvicorn.Server):
    """Run it with `run(sockets=[...])`.

    answers    called once it does
    certified  None = plain http
    here       a second way in, in plain http, for this machine's own browser
    renewed    gives the certificate to answer with from now on; asked every RENEWAL_EVERY_S
    """

    def __init__(
        self,
        app: FastAPI,
        answers: Callable[[], None],
        certified: Certified | None = None,
        here: socket.socket | None = None,
        renewed: Callable[[], Certified] | None = None,
    ):
        config = uvicorn.Config(app, **_WAYS)
        config.load()
        if certified:  # Python's own defaults for a server: TLS 1.2 and newer
            config.ssl = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
            config.ssl.load_cert_chain(certified.chain, certified.key)
        super().__init__(config)
        self._answers = answers
        self._here = here
        self._renewed = renewed
        self._renewing: asyncio.Task[None] | None = None

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        if not self.started:
            return
        if self._here:
            await self._listen_here(self._here)
        if self._renewed:
            self._renewing = asyncio.create_task(self._keep_fresh())
        self._answers()

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        if self._renewing:
            self._renewing.cancel()
        await super().shutdown(sockets)

    async def renew(self) -> None:
        """Answer new connections with the certificate of now. One that cannot be made leaves the old one."""
        try:
            certified = await asyncio.to_thread(self._renewed)
        except HangarleafError as problem:
            _log.error("%s: %s %s", problem.slug, problem.what, problem.remedy)
            return
        self.config.ssl.load_cert_chain(certified.chain, certified.key)

    async def _keep_fresh(self) -> None:
        while True:
            await asyncio.sleep(RENEWAL_EVERY_S)
            await self.renew()

    async def _listen_here(self, ear: socket.socket) -> None:
        """As uvicorn does with its own sockets, but never encrypted."""
        protocol = functools.partial(
            self.config.http_protocol_class,
            config=self.config,
            server_state=self.server_state,
            app_state=self.lifespan.state,
        )
        loop = asyncio.get_running_loop()
        self.servers.append(await loop.create_server(protocol, sock=ear, backlog=self.config.backlog))


@contextmanager
def beside(app: FastAPI, ear: socket.socket) -> Iterator[None]:
    """Serve a small application in plain http from a thread of its own."""
    config = uvicorn.Config(app, lifespan="off", **_WAYS)
    service = uvicorn.Server(config)
    thread = threading.Thread(target=service.run, kwargs={"sockets": [ear]}, name="door")
    thread.start()
    try:
        yield
    finally:
        service.should_exit = True
        thread.join()
