"""How every page is answered: its template, and the state of the library it speaks of."""

from typing import Any

from fastapi import Request
from fastapi.responses import Response

from server.opened import LibraryState, OpenedLibrary
from server.routes.asker import must_join, person_of
from server.routes.in_hand import hand_view, in_hand, is_from_elsewhere, keep
from server.routes.packet_in_hand import packet_in_hand
from server.routes.page_templates import templates

STATE_HEADER = "Library-State"  # read by the service worker of a tablet that keeps packets


def library_of(request: Request) -> OpenedLibrary:
    return request.app.state.library


def state_of(library: OpenedLibrary) -> LibraryState:
    with library.reading() as status:
        return library.state(status)


def shown(
    request: Request, template: str, state: LibraryState, status_code: int = 200, **context: Any
) -> Response:
    """A page. Every page says which state of the library it shows, and when, and which aircraft is in hand.

    An aircraft that the address names stays in hand on the pages after it. Raises AircraftUnknown.
    """
    if must_join(request):  # one of the few pages open to it; none tells anything of the library
        return templates.TemplateResponse(
            request, template, {"here": request.url.path, **context}, status_code=status_code
        )
    hand = in_hand(request, library_of(request))
    given = {
        "state": state,
        "here": request.url.path,
        "hand": hand_view(request, hand),
        "person": person_of(request),
        "packet_in_hand": packet_in_hand(request),
        **context,
    }
    response = templates.TemplateResponse(request, template, given, status_code=status_code)
    response.headers[STATE_HEADER] = state.mark
    if hand.asked and not is_from_elsewhere(request):
        keep(response, hand.registration)
    return response


def part_shown(
    request: Request, template: str, state: LibraryState, status_code: int = 200, **context: Any
) -> Response:
    """A part of a page, from the template that the whole page includes: without head, top and foot."""
    given = {
        "state": state,
        "here": request.url.path,
        "hand": None,
        "packet_in_hand": packet_in_hand(request),
        **context,
    }
    response = templates.TemplateResponse(request, template, given, status_code=status_code)
    response.headers[STATE_HEADER] = state.mark
    return response
