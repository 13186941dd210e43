"""The pages about systems: the listing of one, the same for printing, and the chapters to choose from."""

from typing import Annotated

from fastapi import APIRouter, Path, Query, Request
from fastapi.responses import HTMLResponse, Response

from indexer.errors import QueryProblem
from server.hiding import hides
from server.question import NO_NUMBER
from server.routes.addresses import Asked, Chip
from server.routes.in_hand import in_hand
from server.routes.shown import library_of, shown
from server.routes.system_view import system_address, system_view
from server.system import chapters_held, everything_on, remainder_of
from server.system_asked import number_name
from server.system_text import cause_words

router = APIRouter(default_response_class=HTMLResponse)
Hide = Annotated[str, Query(max_length=40)]


@router.get("/system")
def systems_page(
    request: Request,
    q: Annotated[str, Query(max_length=200)] = "",
    print: Annotated[bool, Query()] = False,
    hide: Hide = "",
) -> Response:
    if q.strip():
        return _listing(request, q, print, hide)
    return _choose(request)


@router.get("/system/{asked}")
def system_page(
    request: Request,
    asked: Annotated[str, Path(max_length=200)],
    print: Annotated[bool, Query()] = False,
    hide: Hide = "",
) -> Response:
    return _listing(request, asked, print, hide)


def _listing(request: Request, asked: str, printing: bool, hide: str) -> Response:
    library = library_of(request)
    hand = in_hand(request, library)
    try:
        answer = everything_on(library, asked, hand.registration, hides(hide))
    except QueryProblem as problem:
        return _choose(request, asked, problem)
    with library.reading():
        view = system_view(library, answer, hand.asked)
    template = "system_print.html" if printing else "system.html"
    return shown(request, template, answer.state, view=view)


def _choose(request: Request, asked: str = "", problem: QueryProblem | None = None) -> Response:
    """The systems that something is filed under."""
    library = library_of(request)
    with library.reading() as status:
        chips = [
            Chip(
                f"{number_name(meaning.number)} {meaning.title}",
                system_address(number_name(meaning.number)),
                count,
            )
            for meaning, count in chapters_held(library)
        ]
        causes = [cause_words(cause) for cause in remainder_of(library)]
        state = library.state(status)
    return shown(
        request,
        "systems.html",
        state,
        400 if problem else 200,
        asked=asked,
        problem=problem,
        chips=chips,
        causes=causes,
        search=Asked(q=asked).address if asked else "",
        loose=Asked(chapter=(NO_NUMBER,)).address,
    )
