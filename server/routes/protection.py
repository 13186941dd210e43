"""Headers that keep a page to what we serve, and a check of the name we are called by. Plain ASGI."""

import ipaddress
import re
import socket
from collections.abc import Iterable

from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import Request
from starlette.responses import Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from server.routes.problems import ANSWERED_BY, problem_response
from server.this_machine import is_this_machine

CONTENT_SECURITY_POLICY = "; ".join(
    (
        "default-src 'self'",
        "object-src 'none'",
        "base-uri 'none'",
        "form-action 'self'",
        "frame-ancestors 'none'",
    )
)
_HEADERS = {
    "Content-Security-Policy": CONTENT_SECURITY_POLICY,
    "X-Content-Type-Options": "nosniff",
    # With "no-referrer" browsers hide the Origin of our own forms, and over plain http they send no
    # Sec-Fetch-Site either (W3C Fetch Metadata): then nothing would tell them from another site's.
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    **ANSWERED_BY,
}
# Browsers heed it on a secure connection alone and complain of it on any other (HTML, "cross-origin opener
# policies": it is taken only from what is potentially trustworthy).
_SECURE_HEADERS = {"Cross-Origin-Opener-Policy": "same-origin"}
_HOST = re.compile(r"(\[(?P<address>[0-9A-Fa-f:.]+)\]|(?P<name>[A-Za-z0-9._-]+))(:[0-9]{0,5})?")
THIS_MACHINE = frozenset({"localhost", "127.0.0.1", "::1"})


class SafeHeaders:
    """Puts the headers on every answer; nothing is kept by the browser unless its route says so."""

    def __init__(self, app: ASGIApp):
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        async def send_with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in (_HEADERS | (_SECURE_HEADERS if is_secure(scope) else {})).items():
                    headers[name] = value
                if scope["scheme"] == "https":
                    _let_no_cookie_go_unencrypted(headers)
                headers.setdefault("Cache-Control", "no-store")
            await send(message)

        await self._app(scope, receive, send_with_headers if scope["type"] == "http" else send)


def is_secure(scope: Scope) -> bool:
    """Whether a browser takes the connection of a request for a secure one: encrypted, or from this machine
    to itself (W3C Secure Contexts, section 3.1)."""
    return scope["scheme"] == "https" or is_this_machine(host_name(Headers(scope=scope).get("host", "")))


def _let_no_cookie_go_unencrypted(headers: MutableHeaders) -> None:
    """A cookie set over an encrypted way goes back over such a way alone (RFC 6265, section 4.1.2.5)."""
    cookies = headers.getlist("set-cookie")
    del headers["set-cookie"]
    for cookie in cookies:
        marked = any(part.strip().casefold() == "secure" for part in cookie.split(";")[1:])
        headers.append("set-cookie", cookie if marked else f"{cookie}; Secure")


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


def host_name(header: str) -> str:
    """The host of a Host header without its port; an IPv6 address without its brackets; "" = it is none.

    RFC 9110, section 7.2. What else could stand there would end up in addresses that are made of it.
    """
    found = _HOST.fullmatch(header)
    return (found["address"] or found["name"]).casefold() if found else ""


def _is_address(host: str) -> bool:
    try:
        ipaddress.ip_address(host)
    except ValueError:
        return False
    return True
