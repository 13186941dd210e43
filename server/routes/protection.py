"""A check of the name that the service is called by. Plain ASGI."""

import ipaddress
import socket
from collections.abc import Iterable

from starlette.datastructures import Headers
from starlette.requests import Request
from starlette.responses import Response
from starlette.types import ASGIApp, Receive, Scope, Send

from server.routes.answer_headers import host_name
from server.routes.problems import problem_response

THIS_MACHINE = frozenset({"localhost", "127.0.0.1", "::1"})


class KnownHost:
    """Answers only when called by a name this machine has, so that no foreign page can point a browser at us.

    names    host names and addresses that are ours
    network  True also lets any plain IP address through: the service is open to the local network then
    """

    def __init__(self, app: ASGIApp, names: Iterable[str] = THIS_MACHINE, network: bool = False):
        self._app = app
        self._names = {name.casefold() for name in names}
        if network:
            own = socket.gethostname().casefold()
            self._names |= {own, f"{own}.local"}
        self._network = network

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http" or self._known(host_name(Headers(scope=scope).get("host", ""))):
            await self._app(scope, receive, send)
            return
        await self.refusal(Request(scope))(scope, receive, send)

    def refusal(self, request: Request) -> Response:
        return problem_response(
            request,
            421,
            "unknown-host",
            "The service was called by a name that is not this machine's.",
            "Open it by the address that hangarleaf serve printed.",
        )

    def _known(self, host: str) -> bool:
        return host in self._names or (self._network and _is_address(host))


def _is_address(host: str) -> bool:
    try:
        ipaddress.ip_address(host)
    except ValueError:
        return False
    return True
