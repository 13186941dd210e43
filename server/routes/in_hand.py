"""The aircraft in hand: from the address, else from a cookie. It changes nothing in the library."""

from dataclasses import dataclass
from urllib.parse import parse_qsl, urlencode, urlsplit

from fastapi import Request
from fastapi.responses import Response

from indexer.errors import HangarleafError, QueryProblem
from indexer.library.day import today
from indexer.library.fleet_records import Aircraft
from indexer.library.fleet_values import key_of
from indexer.library.problems import AircraftUnknown
from server.fleet import chosen, confirmed_shortly, confirmed_words, is_old, serial_words
from server.opened import OpenedLibrary

COOKIE = "aircraft"
KEPT_S = 12 * 3600  # a long day at one aircraft; the next begins without one
_OF_ONE_AIRCRAFT = ("aircraft", "hide")  # parts of an address that mean nothing for another aircraft


@dataclass(frozen=True, slots=True)
class InHand:
    """gone   the registration of the cookie, where the list has it no more; `asked` = the address named it"""

    row: Aircraft | None = None
    gone: str = ""
    asked: bool = False

    @property
    def registration(self) -> str:
        return self.row.registration if self.row else ""


@dataclass(frozen=True, slots=True)
class HandView:
    """The line on top of every page."""

    registration: str
    model: str
    serial: str
    confirmed: str
    shortly: str  # when it was confirmed, for a narrow screen
    is_old: bool
    gone: str
    choose: str
    clear: str


def in_hand(request: Request, library: OpenedLibrary) -> InHand:
    """Raises AircraftUnknown for a registration in the address that the fleet list does not have."""
    held = getattr(request.state, "in_hand", None)
    if held is None:
        held = request.state.in_hand = _find(request, library)
    return held


def _find(request: Request, library: OpenedLibrary) -> InHand:
    asked = request.query_params.get("aircraft", "").strip()
    if asked:
        return InHand(chosen(library, asked), asked=True)
    kept = request.cookies.get(COOKIE, "")[:40]
    if not kept:
        return InHand()
    try:
        return InHand(chosen(library, kept))
    except AircraftUnknown:
        return InHand(gone=kept)


def hand_of_failure(request: Request) -> HandView | None:
    """The line on top of a page that says what went wrong; None where it cannot be told."""
    try:
        hand = in_hand(request, request.app.state.library)
    except AircraftUnknown:
        hand = InHand()
    except HangarleafError:  # the library itself is what went wrong
        return None
    return hand_view(request, hand)


def hand_view(request: Request, hand: InHand) -> HandView:
    back = address_without(request.url.path, request.url.query) if request.method == "GET" else "/"
    row = hand.row
    day = today(request.app.state.library.catalogue)
    confirmed = confirmed_words(row, day) if row else ""
    return HandView(
        hand.registration,
        row.model if row else "",
        serial_words(row.serial) if row else "",
        confirmed[:1].upper() + confirmed[1:],
        confirmed_shortly(row, day) if row else "",
        bool(row and is_old(row, day)),
        hand.gone,
        choose_address(back),
        choose_address(back, ""),
    )


def address_without(path: str, query: str) -> str:
    """An address of ours without what is about one aircraft."""
    kept = [pair for pair in parse_qsl(query, keep_blank_values=True) if pair[0] not in _OF_ONE_AIRCRAFT]
    return f"{path}?{urlencode(kept)}" if kept else path


def choose_address(back: str, registration: str | None = None) -> str:
    """Where an aircraft is chosen; with a registration, it is; with "", none is."""
    given = {} if registration is None else {"aircraft": registration}
    return f"/fleet/choose?{urlencode({**given, 'back': back})}"


def local_address(back: str) -> str:
    """An address of this service to go back to, without what is about one aircraft. Raises QueryProblem."""
    parts = urlsplit(back)
    odd = any(letter in back for letter in "\\\r\n\t") or not back.isprintable()
    if parts.scheme or parts.netloc or odd or not back.startswith("/") or back.startswith("//"):
        raise QueryProblem("The page to go back to is none of this service.", "Begin at the search page, /.")
    return address_without(parts.path, parts.query)


def keep(response: Response, registration: str) -> None:
    """Carry an aircraft from page to page; "" = none. It is read by this service alone."""
    if registration:
        response.set_cookie(
            COOKIE, key_of(registration), max_age=KEPT_S, path="/", httponly=True, samesite="lax"
        )
    else:
        response.delete_cookie(COOKIE, path="/", httponly=True, samesite="lax")


def is_from_elsewhere(request: Request) -> bool:
    """Whether a page of another site led here: it does not choose the aircraft of later pages."""
    return request.headers.get("sec-fetch-site") == "cross-site"
