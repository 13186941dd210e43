"""Joining: a device of the network reads only after it gave the shop's code.

An address with the code in it, as the QR code holds, shows a page whose button joins. The GET alone changes
nothing: cameras and messengers fetch an address to show what is behind it, and would join too.
"""

from typing import Annotated, Any
from urllib.parse import urlencode

from fastapi import APIRouter, Depends, Query, Request
from fastapi.responses import HTMLResponse, JSONResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Receive, Scope, Send

from indexer.errors import HangarleafError, NotJoined, TooManyTries
from indexer.library import tablets
from indexer.library.problems import CodeRefused
from server.routes.asker import TABLET_COOKIE, is_forwarded, is_from_this_machine, joined_tablet, must_join
from server.routes.in_hand import local_address
from server.routes.page_templates import templates
from server.routes.writing import OF_OURS, sent_fields
from server.tries import Tries

router = APIRouter(default_response_class=HTMLResponse)
KEPT_S = 400 * 24 * 3600  # as long as browsers keep a cookie
# Read without joining: how to join, how to trust this machine, and what holds nothing of the library.
OPEN = frozenset({"/join", "/tablet", "/manifest.webmanifest", "/service-worker.js", "/offline", "/pinned"})
OPEN_BELOW = ("/static/", "/tablet/")
_MOST_WRONG, _MINUTES = 10, 10


def join_tries() -> Tries:
    return Tries(_MOST_WRONG, _MINUTES)


class JoinedOnly:
    """Answers a device that has not joined with the way to join, and with nothing else. Plain ASGI."""

    def __init__(self, app: ASGIApp):
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        answer = _refusal(Request(scope)) if scope["type"] == "http" else None
        await (answer or self._app)(scope, receive, send)


def _refusal(request: Request) -> Response | None:
    # By the path that the routes go by: the one of request.url is put together with the Host header.
    path = request.scope["path"]
    open_to_network = request.app.state.network or is_forwarded(request)
    if not open_to_network or is_from_this_machine(request) or _is_open(path):
        return None
    tablet = joined_tablet(request)
    if tablet is not None:
        tablets.seen(request.app.state.library.catalogue, tablet)
        return None
    problem = NotJoined()
    if path.startswith("/api"):
        error = {"slug": problem.slug, "what": problem.what, "remedy": problem.remedy}
        return JSONResponse({"error": error}, 403)
    if request.method in ("GET", "HEAD") and "text/html" in request.headers.get("accept", ""):
        query = request.scope["query_string"].decode("latin-1")
        back = f"{path}?{query}" if query else path
        return RedirectResponse(f"/join?{urlencode({'back': back})}", status_code=303)
    return _page(request, problem=problem, status_code=403)


def _is_open(path: str) -> bool:
    return path in OPEN or path.startswith(OPEN_BELOW)


@router.get("/join")
def join_page(
    request: Request,
    code: Annotated[str, Query(max_length=40)] = "",
    back: Annotated[str, Query(max_length=2000)] = "/",
) -> Response:
    """Raises QueryProblem for a `back` that is no address of this service."""
    return _page(request, {"code": code}, local_address(back))


@router.post("/join", dependencies=OF_OURS)
def post_join(request: Request, form: Annotated[dict[str, str], Depends(sent_fields)]) -> Response:
    """Raises QueryProblem, ForeignOrigin."""
    back = local_address(form.get("back") or "/")
    tries: Tries = request.app.state.join_tries
    address = request.client.host if request.client else ""
    if not tries.begin(address):
        return _page(request, form, back, TooManyTries(tries.minutes), 429)
    try:
        token = tablets.join(request.app.state.library.catalogue, form.get("code", ""), form.get("name", ""))
    except CodeRefused as problem:
        return _page(request, form, back, problem, 403)
    tries.right(address)
    response = RedirectResponse(back, status_code=303)
    response.set_cookie(
        TABLET_COOKIE,
        token,
        max_age=KEPT_S,
        path="/",
        httponly=True,
        samesite="lax",  # so that a link in a message opens on a tablet that has joined
        secure=request.url.scheme == "https",
    )
    return response


def _page(
    request: Request,
    given: dict[str, str] | None = None,
    back: str = "/",
    problem: HangarleafError | None = None,
    status_code: int = 200,
) -> Response:
    """The page says nothing of the library: who has not joined may not read."""
    told: dict[str, Any] = {
        "given": given or {},
        "back": back,
        "problem": problem,
        "joined": not must_join(request),
        "here": "/join",
    }
    return templates.TemplateResponse(request, "join.html", told, status_code=status_code)
