"""One error shape for every route: what happened and what to do, as JSON under /api, as a page elsewhere."""

import logging

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse, Response
from starlette.exceptions import HTTPException

from indexer.errors import (
    HangarleafError,
    LibraryProblem,
    PageUnknown,
    PublicationUnknown,
    QueryProblem,
    RightMissing,
    SignInNeeded,
    TooManyTries,
    TooMuchSent,
    WritingRefused,
)
from indexer.library.problems import (
    AircraftUnknown,
    CheckUnknown,
    EntryRefused,
    EntryUnknown,
    FigureUnknown,
    ItemUnknown,
    PacketClosed,
    PacketFull,
    PacketItemUnknown,
    PacketRefused,
    PacketUnknown,
    PartUnknown,
    PassageUnknown,
    PersonUnknown,
    SecondPersonRefused,
)
from indexer.library.tag_reports import ReportUnknown
from server.packet_pdf import PacketNotPrinted
from server.render import PageNotDrawn
from server.reports import TooManyReports
from server.routes.answer_headers import put_headers
from server.routes.asker import must_join, person_of
from server.routes.in_hand import hand_of_failure
from server.routes.page_templates import templates
from server.routes.turns import RETRY_AFTER_S, TooManyAtOnce
from server.routes.writer import sign_in_address
from server.shelf import SeveralMeant
from server.tiles import TileUnknown

log = logging.getLogger(__name__)

_STATUSES = (  # the first class that fits
    (TooManyReports, 429),
    (QueryProblem, 400),
    (TooMuchSent, 413),
    (TooManyTries, 429),
    (WritingRefused, 403),
    (PublicationUnknown, 404),
    (PageUnknown, 404),
    (PassageUnknown, 404),
    (TileUnknown, 404),
    (EntryUnknown, 404),
    (AircraftUnknown, 404),
    (PersonUnknown, 404),
    (ItemUnknown, 404),
    (ReportUnknown, 404),
    (PartUnknown, 404),
    (FigureUnknown, 404),
    (CheckUnknown, 404),
    (PacketUnknown, 404),
    (PacketItemUnknown, 404),
    (PacketClosed, 409),
    (PacketFull, 409),
    (PacketRefused, 400),
    (PacketNotPrinted, 409),
    (EntryRefused, 400),
    (SecondPersonRefused, 409),
    (SeveralMeant, 400),
    (LibraryProblem, 503),
    (PageNotDrawn, 502),
    (TooManyAtOnce, 503),
)
_HEADINGS = {
    400: "This cannot be done as asked",
    403: "Not from here",
    404: "Not here",
    405: "Not possible here",
    409: "Not as it stands now",
    413: "Too much at once",
    421: "Not under this name",
    429: "Too many tries",
    500: "Something went wrong",
    502: "This page could not be drawn",
    503: "The library cannot be used at present",
}


def handle_problems(app: FastAPI) -> None:
    """Give every way of failing the one shape."""
    app.add_exception_handler(HangarleafError, _ours)
    app.add_exception_handler(RequestValidationError, _malformed)
    app.add_exception_handler(HTTPException, _http)
    app.add_exception_handler(Exception, _unforeseen)


def problem_response(
    request: Request, status: int, slug: str, what: str, remedy: str, sign_in: str = "", heading: str = ""
) -> Response:
    """The error as JSON under /api, else as a page; `sign_in` = where to sign in, if that helps."""
    if request.url.path.startswith("/api"):
        return JSONResponse({"error": {"slug": slug, "what": what, "remedy": remedy}}, status)
    heading = heading or _HEADINGS.get(status, "This did not work")
    knows = status < 500 and not must_join(request)  # who has not joined is told nothing of the library
    hand = hand_of_failure(request) if knows else None
    person = person_of(request) if knows else None
    told = {"heading": heading, "what": what, "remedy": remedy, "sign_in": sign_in, "hand": hand}
    told["person"] = person
    return templates.TemplateResponse(request, "error.html", told, status_code=status)


async def _ours(request: Request, problem: HangarleafError) -> Response:
    status = next((status for kind, status in _STATUSES if isinstance(problem, kind)), 500)
    if status >= 500:
        log.error("%s: %s %s", problem.slug, problem.what, problem.remedy)
    sign_in = sign_in_address(request) if isinstance(problem, SignInNeeded | RightMissing) else ""
    busy = isinstance(problem, TooManyAtOnce)
    heading = "Busy just now" if busy else ""
    response = problem_response(request, status, problem.slug, problem.what, problem.remedy, sign_in, heading)
    if busy:
        response.headers["Retry-After"] = str(RETRY_AFTER_S)
    return response


async def _malformed(request: Request, problem: RequestValidationError) -> Response:
    first = problem.errors()[0]
    place = " ".join(str(part) for part in first["loc"][1:]) or "the address"
    return problem_response(
        request,
        400,
        "bad-request",
        f"The value given for {place} cannot be used ({first['msg']}).",
        "Correct the address; /api/openapi.json says what each value may be.",
    )


async def _http(request: Request, problem: HTTPException) -> Response:
    if problem.status_code == 404:
        slug, what, remedy = (
            "no-such-address",
            "There is nothing at this address.",
            "Begin at the search page, /.",
        )
    elif problem.status_code == 405:
        slug, what, remedy = "method-not-allowed", "This address only answers reading (GET).", "Ask with GET."
    else:
        slug, what, remedy = "bad-request", str(problem.detail), "Begin at the search page, /."
    response = problem_response(request, problem.status_code, slug, what, remedy)
    response.headers.update(problem.headers or {})
    return response


async def _unforeseen(request: Request, problem: Exception) -> Response:
    log.error("%s %r failed", request.method, request.scope["path"], exc_info=problem)
    response = problem_response(
        request,
        500,
        "internal-error",
        "Hangarleaf failed at this; nothing in the library was changed.",
        "Try again. If it fails again, send the last lines the service printed to whoever looks after it.",
    )
    put_headers(response.headers, request.scope)  # it is made outside all that puts them on the others
    return response
