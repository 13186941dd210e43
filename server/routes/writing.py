"""Who may change the library through the service, and that no page of another site may send anything.

As long as no person is named in the library, a change is taken from this machine alone, under a name that is
typed. Once one is, every change needs a person who is signed in and has the right, from whatever machine.
"""

from dataclasses import dataclass
from typing import Annotated, Any
from urllib.parse import parse_qsl, urlsplit

from fastapi import Depends, Request
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from indexer.errors import (
    ForeignOrigin,
    NotFromThisMachine,
    QueryProblem,
    RightMissing,
    SignInNeeded,
    TooMuchSent,
)
from server.rights import Right, able_words, has
from server.routes.asker import entered_by, is_from_this_machine, person_of, persons_are_named
from server.routes.asking_pace import keep_pace
from server.routes.problems import problem_response

MOST_SENT_KB = 1024  # a map of some ten thousand lines
MAY_BE_LARGE = frozenset({"/ingest/files", "/api/ingest/files"})  # whose routes lift the limit
_LIMIT = "hangarleaf.body_limit"
_OUR_PAGES = ("same-origin", "none")  # values of Sec-Fetch-Site; "none" = the reader's own doing, no page's


@dataclass(frozen=True, slots=True)
class Require:
    """The dependency of a route that changes something; `right` is what it takes."""

    right: Right

    def __call__(self, request: Request) -> None:
        """Raises NotFromThisMachine, SignInNeeded, RightMissing, ForeignOrigin."""
        if foreign := _foreign_origin(request):
            raise ForeignOrigin(foreign)
        if not persons_are_named(request):
            if not is_from_this_machine(request):
                raise NotFromThisMachine(request.client.host if request.client else "an unknown address")
            return
        person = person_of(request)
        if person is None:
            raise SignInNeeded()
        if not has(person.role, self.right):
            raise RightMissing(person.name, person.role.value, able_words(self.right))


def require(right: Right) -> Any:
    """For `dependencies=[require(Right.FLEET)]`."""
    return Depends(Require(right))


async def require_asker(request: Request) -> None:
    """The dependency of routes that change nothing, or only add to the audit trail: from any machine, of no
    other site's page.

    Raises ForeignOrigin.
    """
    if foreign := _foreign_origin(request):
        raise ForeignOrigin(foreign)


def _foreign_origin(request: Request) -> str:
    """The page of another site that sent this; "" when ours did, or a program that is no browser.

    Browsers send the Origin of our forms, since our pages have the referrer policy "same-origin" (WHATWG
    Fetch, "append a request Origin header"); where it is hidden, Sec-Fetch-Site tells all the same. A browser
    without it that hides the origin is not let through.
    """
    site, origin = request.headers.get("sec-fetch-site"), request.headers.get("origin")
    if site is not None and site not in _OUR_PAGES:
        return origin or site
    if origin in (None, "") or (origin == "null" and site is not None):
        return ""
    same = urlsplit(origin).netloc.casefold() == request.headers.get("host", "").casefold()
    return "" if same else origin


class BodyLimit:
    """What one request may send, in bytes; None = its route sees to it."""

    def __init__(self, most: int | None):
        self.most = most


def take_large_body(request: Request) -> None:
    """The dependency that lifts the limit, for addresses in MAY_BE_LARGE. List it after `require`."""
    if limit := request.scope.get(_LIMIT):
        limit.most = None


class SmallBodies:
    """Takes no more than MOST_SENT_KB of any request, unless its route lifts the limit. Plain ASGI."""

    def __init__(self, app: ASGIApp):
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        limit, taken = BodyLimit(MOST_SENT_KB * 1024), 0
        scope[_LIMIT] = limit
        announced = dict(scope["headers"]).get(b"content-length", b"0")
        too_much = announced.isdigit() and int(announced) > limit.most and scope["path"] not in MAY_BE_LARGE
        if not announced.isdigit() or too_much:
            problem = TooMuchSent(MOST_SENT_KB)
            answer = problem_response(Request(scope), 413, problem.slug, problem.what, problem.remedy)
            await answer(scope, receive, send)
            return

        async def receive_little() -> Message:
            nonlocal taken
            message = await receive()
            taken += len(message.get("body", b""))
            if limit.most is not None and taken > limit.most:
                raise TooMuchSent(MOST_SENT_KB)
            return message

        await self._app(scope, receive_little, send)


async def sent_fields(request: Request) -> dict[str, str]:
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


def form_fields(request: Request, sent: Annotated[dict[str, str], Depends(sent_fields)]) -> dict[str, str]:
    """The same; `who` is the name of the person who is signed in. Raises QueryProblem, OtherName."""
    name = entered_by(request, sent.get("who", ""))
    return {**sent, "who": name} if name else sent


OF_OURS = [Depends(require_asker)]
ASKS = [*OF_OURS, Depends(keep_pace)]
Form = Annotated[dict[str, str], Depends(form_fields)]
