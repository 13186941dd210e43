"""Who may change the library through the service: this machine's own pages and programs, nobody else.

There is no signing in yet. Until there is, a change is taken from this machine alone, and a page of another
site that is open in a browser here cannot send one either.
"""

import ipaddress
from typing import Annotated
from urllib.parse import parse_qsl, urlsplit

from fastapi import Depends, Request
from starlette.requests import HTTPConnection
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from indexer.errors import ForeignOrigin, NotFromThisMachine, QueryProblem, TooMuchSent
from server.routes.problems import problem_response

MOST_SENT_KB = 1024  # a map of some ten thousand lines
_OUR_PAGES = ("same-origin", "none")  # values of Sec-Fetch-Site; "none" = the reader's own doing, no page's


async def require_writer(request: Request) -> None:
    """The dependency of every route that changes anything.

    Raises NotFromThisMachine, ForeignOrigin.
    """
    if not is_from_this_machine(request):
        raise NotFromThisMachine(request.client.host if request.client else "an unknown address")
    if foreign := _foreign_origin(request):
        raise ForeignOrigin(foreign)


async def require_asker(request: Request) -> None:
    """The dependency of routes that change nothing, or only add to the audit trail: from any machine, of no
    other site's page.

    Raises ForeignOrigin.
    """
    if foreign := _foreign_origin(request):
        raise ForeignOrigin(foreign)


def is_from_this_machine(request: HTTPConnection) -> bool:
    """Whether the asker's address is a loopback address: pages show no buttons that would be refused."""
    if request.client is None:
        return False
    try:
        address = ipaddress.ip_address(request.client.host)
    except ValueError:
        return False
    return (getattr(address, "ipv4_mapped", None) or address).is_loopback


def _foreign_origin(request: Request) -> str:
    """The page of another site that sent this; "" when ours did, or a program that is no browser.

    Our pages send no referrer, and browsers then send a form's Origin as "null" (WHATWG Fetch, "append a
    request Origin header"); Sec-Fetch-Site tells all the same. A browser without it that hides the origin is
    not let through.
    """
    site, origin = request.headers.get("sec-fetch-site"), request.headers.get("origin")
    if site is not None and site not in _OUR_PAGES:
        return origin or site
    if origin in (None, "") or (origin == "null" and site is not None):
        return ""
    same = urlsplit(origin).netloc.casefold() == request.headers.get("host", "").casefold()
    return "" if same else origin


class SmallBodies:
    """Takes no more than MOST_SENT_KB of any request. Plain ASGI."""

    def __init__(self, app: ASGIApp):
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        most, taken = MOST_SENT_KB * 1024, 0
        announced = dict(scope["headers"]).get(b"content-length", b"0")
        if not announced.isdigit() or int(announced) > most:
            problem = TooMuchSent(MOST_SENT_KB)
            answer = problem_response(Request(scope), 413, problem.slug, problem.what, problem.remedy)
            await answer(scope, receive, send)
            return

        async def receive_little() -> Message:
            nonlocal taken
            message = await receive()
            taken += len(message.get("body", b""))
            if taken > most:
                raise TooMuchSent(MOST_SENT_KB)
            return message

        await self._app(scope, receive_little, send)


async def form_fields(request: Request) -> dict[str, str]:
    """The fields of a plain form, each once (the last counts), without white space around.

    Raises QueryProblem when something else than a form was sent.
    """
    kind = request.headers.get("content-type", "").partition(";")[0].strip().casefold()
    if kind != "application/x-www-form-urlencoded":
        raise QueryProblem("This address takes a plain form.", "Send it from the page, or use the JSON API.")
    try:
        text = (await request.body()).decode("utf-8")
    except UnicodeDecodeError:
        raise QueryProblem("The form is not UTF-8 text.", "Send it from the page.") from None
    return {name: value.strip() for name, value in parse_qsl(text, keep_blank_values=True)}


WRITES = [Depends(require_writer)]
ASKS = [Depends(require_asker)]
Form = Annotated[dict[str, str], Depends(form_fields)]
