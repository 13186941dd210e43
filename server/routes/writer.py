"""Who would change what a page shows: under which name, whether this is possible, and what to do if not."""

from dataclasses import dataclass
from typing import Any
from urllib.parse import quote, unquote, urlencode

from fastapi import Request

from server.rights import Right, able_words, has
from server.routes.asker import is_from_this_machine, person_of, persons_are_named
from server.routes.in_hand import address_without

_COOKIE = "hangarleaf_name"
_COOKIE_DAYS = 400


@dataclass(frozen=True, slots=True)
class Writer:
    """name       of who is signed in; where no persons are named, what this device remembers
    may_write  whether this device may change what the page shows, as it is now
    fixed      True = the name is that of who is signed in, and no other may be typed
    sign_in    the address to sign in at, which leads back; "" = signing in would not help
    unable     why who is signed in may not, in words; "" otherwise
    """

    name: str
    may_write: bool
    fixed: bool = False
    sign_in: str = ""
    unable: str = ""


def writer(request: Request, right: Right) -> Writer:
    """What holds on this device for changes that take this right."""
    if not persons_are_named(request):
        return Writer(unquote(request.cookies.get(_COOKIE, ""))[:120], is_from_this_machine(request))
    person = person_of(request)
    if person is None:
        return Writer("", False, sign_in=sign_in_address(request))
    if has(person.role, right):
        return Writer(person.name, True, fixed=True)
    unable = f"{person.name} is signed in as {person.role.value}. Changes here take {able_words(right)}."
    return Writer(person.name, False, True, sign_in_address(request), unable)


def sign_in_address(request: Request) -> str:
    """Where to sign in, and come back to this page."""
    back = address_without(request.url.path, request.url.query) if request.method == "GET" else "/"
    return f"/sign-in?{urlencode({'back': back})}"


def remember(response: Any, name: str) -> None:
    """Keep the name on this device, so that it need not be typed again where no persons are named."""
    response.set_cookie(
        _COOKIE, quote(name[:120]), max_age=_COOKIE_DAYS * 86400, samesite="strict", httponly=True, path="/"
    )
