"""Signing in and out, and the passcode that a person changes."""

from typing import Annotated

from fastapi import APIRouter, Depends, Query, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from indexer.errors import HangarleafError, SignInNeeded, SignInRefused, TooManyTries
from indexer.library import people, sign_ins
from indexer.library.problems import EntryRefused
from server.routes.asker import (
    COOKIE,
    drop_sign_in,
    is_from_this_machine,
    keep_sign_in,
    person_of,
    persons_are_named,
)
from server.routes.in_hand import local_address
from server.routes.shown import library_of, shown, state_of
from server.routes.writing import OF_OURS, sent_fields
from server.tries import Tries

router = APIRouter(default_response_class=HTMLResponse)
_MOST_WRONG, _MINUTES = 20, 15
Sent = Annotated[dict[str, str], Depends(sent_fields)]


def sign_in_tries() -> Tries:
    return Tries(_MOST_WRONG, _MINUTES)


@router.get("/sign-in")
def sign_in_page(
    request: Request,
    back: Annotated[str, Query(max_length=2000)] = "/",
    done: Annotated[str, Query(max_length=20)] = "",
) -> Response:
    """Raises QueryProblem for a `back` that is no address of this service."""
    return _page(request, back=local_address(back), done=done)


@router.post("/sign-in", dependencies=OF_OURS)
def post_sign_in(request: Request, form: Sent) -> Response:
    """Always a new token: what the browser held before is worth nothing any more. Raises QueryProblem."""
    library, back = library_of(request), local_address(form.get("back") or "/")
    name = form.get("name", "")[:200]
    try:
        person = _checked(request, name, form.get("passcode", ""))
    except HangarleafError as problem:
        return _page(request, name, back, problem)
    hours = request.app.state.settings.sign_in_hours
    _forget(request)
    token = sign_ins.sign_in(library.catalogue, person, hours)
    response = RedirectResponse(back, status_code=303)
    keep_sign_in(response, request, token, hours)
    return response


@router.post("/sign-out", dependencies=OF_OURS)
def post_sign_out(request: Request) -> Response:
    _forget(request)
    response = RedirectResponse("/sign-in?done=out", status_code=303)
    drop_sign_in(response)
    return response


@router.post("/sign-in/passcode", dependencies=OF_OURS)
def post_passcode(request: Request, form: Sent) -> Response:
    """A person's own new passcode; every sign-in under the name ends, this one too. Raises SignInNeeded."""
    person = person_of(request)
    if person is None:
        raise SignInNeeded()
    try:
        _checked(request, person.name, form.get("passcode", ""))
        if form.get("new", "") != form.get("again", ""):
            raise EntryRefused("the two new passcodes differ", "Type the new one twice, alike.")
        people.change_passcode(library_of(request).catalogue, person.name, form["new"], person.name)
    except HangarleafError as problem:
        return _page(request, problem=problem)
    response = RedirectResponse("/sign-in?done=passcode", status_code=303)
    drop_sign_in(response)
    return response


def _checked(request: Request, name: str, passcode: str):
    """Who it is. Raises TooManyTries, SignInRefused."""
    tries: Tries = request.app.state.sign_in_tries
    address = request.client.host if request.client else ""
    if not tries.begin(address):
        raise TooManyTries(tries.minutes)
    person = people.with_passcode(library_of(request).catalogue, name, passcode)
    if person is None:
        raise SignInRefused(people.TRIES, people.LOCKED_MINUTES)
    tries.right(address)
    return person


def _forget(request: Request) -> None:
    """End the sign-in that this browser holds."""
    if token := request.cookies.get(COOKIE, ""):
        sign_ins.sign_out(library_of(request).catalogue, token)


def _page(
    request: Request,
    name: str = "",
    back: str = "/",
    problem: HangarleafError | None = None,
    done: str = "",
) -> Response:
    status = {TooManyTries: 429, SignInRefused: 403}.get(type(problem), 400) if problem else 200
    here = is_from_this_machine(request)
    return shown(
        request,
        "sign_in.html",
        state_of(library_of(request)),
        status,
        name=name,
        back=back,
        problem=problem,
        done=done,
        persons_named=persons_are_named(request),
        here_only=here,
        overheard=request.url.scheme != "https" and not here,
        hours=request.app.state.settings.sign_in_hours,
    )
