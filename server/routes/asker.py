"""Who asks: this machine or another, whether it joined, and the person who is signed in on it."""

import ipaddress
from typing import Annotated

from fastapi import Depends, Request
from fastapi.responses import Response
from starlette.requests import HTTPConnection

from indexer.errors import OtherName
from indexer.library import people, sign_ins, tablets
from indexer.library.person_records import Person, Tablet

COOKIE = "sign_in"
TABLET_COOKIE = "tablet"
# A proxy names itself or whom it asks for in one of these (RFC 9110, section 7.6.3; RFC 7239; the others are
# common practice, from memory). What they say is not believed: that they are there tells that it is a proxy.
_OF_PROXIES = ("forwarded", "via", "x-forwarded-for", "x-forwarded-host", "x-forwarded-proto", "x-real-ip")


def is_from_this_machine(request: HTTPConnection) -> bool:
    """Whether the asker's address is a loopback address, and it asks for nobody else."""
    if request.client is None or is_forwarded(request):
        return False
    try:
        address = ipaddress.ip_address(request.client.host)
    except ValueError:
        return False
    return (getattr(address, "ipv4_mapped", None) or address).is_loopback


def is_forwarded(request: HTTPConnection) -> bool:
    """Whether a proxy asks for somebody, who may be anywhere, whatever the proxy says of it."""
    return any(name in request.headers for name in _OF_PROXIES)


def joined_tablet(request: HTTPConnection) -> Tablet | None:
    """The device that asks, where it joined and was not ended."""
    token = request.cookies.get(TABLET_COOKIE, "")
    return tablets.joined(request.app.state.library.catalogue, token) if token else None


def must_join(request: HTTPConnection) -> bool:
    """Whether the device may not read yet: it is another machine, which the network or a proxy leads here."""
    if is_from_this_machine(request) or not (request.app.state.network or is_forwarded(request)):
        return False
    return joined_tablet(request) is None


def person_of(request: Request) -> Person | None:
    """Who is signed in on this device; looked up once for each request."""
    if not hasattr(request.state, "person"):
        token = request.cookies.get(COOKIE, "")
        request.state.person = (
            sign_ins.signed_in(request.app.state.library.catalogue, token) if token else None
        )
    return request.state.person


def persons_are_named(request: Request) -> bool:
    """Whether changes need one who is signed in."""
    return people.any_named(request.app.state.library.catalogue)


def keep_sign_in(response: Response, request: Request, token: str, hours: float) -> None:
    """Let the browser hold the token: no script reads it, no other site's page sends it."""
    response.set_cookie(
        COOKIE,
        token,
        max_age=int(hours * 3600),
        path="/",
        httponly=True,
        samesite="strict",
        secure=request.url.scheme == "https",
    )


def drop_sign_in(response: Response) -> None:
    response.delete_cookie(COOKIE, path="/", httponly=True, samesite="strict")


def entered_by(request: Request, typed: str) -> str:
    """The name under which a change is kept: that of who is signed in; else the one that was typed.

    Raises OtherName where another one was typed.
    """
    person = person_of(request)
    if person is None or not persons_are_named(request):
        return typed
    if typed.strip() and " ".join(typed.split()).casefold() != person.name.casefold():
        raise OtherName(typed.strip()[:120], person.name)
    return person.name


async def _name_in_json(request: Request) -> str:
    """`who` of a JSON body, before the body is held against its shape; "" when there is none."""
    try:
        sent = await request.json()
    except ValueError:  # the shape refuses it next, and says what is wrong
        return ""
    typed = sent.get("who", "") if isinstance(sent, dict) else ""
    return typed if isinstance(typed, str) else ""


def _sent_by(request: Request, typed: Annotated[str, Depends(_name_in_json)]) -> str:
    return entered_by(request, typed)


SentBy = Annotated[str, Depends(_sent_by)]
