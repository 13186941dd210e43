"""Headers that every answer bears: they keep a page to what we serve, and out of what a browser keeps."""

import re

from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

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
    # For the service worker of a tablet: what does not bear it came from something on the way, such as the
    # sign-in page of a guest network, and is no contact with the library.
    "Answered-By": "hangarleaf",
}
# Browsers heed it on a secure connection alone and complain of it on any other (HTML, "cross-origin opener
# policies": it is taken only from what is potentially trustworthy).
_SECURE_HEADERS = {"Cross-Origin-Opener-Policy": "same-origin"}
_HOST = re.compile(r"(\[(?P<address>[0-9A-Fa-f:.]+)\]|(?P<name>[A-Za-z0-9._-]+))(:[0-9]{0,5})?")


class SafeHeaders:
    """Puts the headers on every answer; nothing is kept by the browser unless its route says so."""

    def __init__(self, app: ASGIApp):
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        async def send_with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                put_headers(MutableHeaders(scope=message), scope)
            await send(message)

        await self._app(scope, receive, send_with_headers if scope["type"] == "http" else send)


def put_headers(headers: MutableHeaders, scope: Scope) -> None:
    """Put on an answer to a request of `scope` what every answer bears."""
    for name, value in (_HEADERS | (_SECURE_HEADERS if is_secure(scope) else {})).items():
        headers[name] = value
    if scope["scheme"] == "https":
        _let_no_cookie_go_unencrypted(headers)
    headers.setdefault("Cache-Control", "no-store")


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


def host_name(header: str) -> str:
    """The host of a Host header without its port; an IPv6 address without its brackets; "" = it is none.

    RFC 9110, section 7.2. What else could stand there would end up in addresses that are made of it.
    """
    found = _HOST.fullmatch(header)
    return (found["address"] or found["name"]).casefold() if found else ""
