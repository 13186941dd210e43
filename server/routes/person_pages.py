"""Persons and tablets: the page where a librarian names and ends persons, ends tablets, changes the code."""

from functools import partial
from typing import Annotated

from fastapi import APIRouter, Query, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from indexer.errors import HangarleafError
from indexer.library import people, tablets
from indexer.library.person_records import Role
from indexer.library.problems import EntryRefused
from server.rights import Right
from server.routes.asker import persons_are_named
from server.routes.list_pages import after
from server.routes.shown import library_of, shown, state_of
from server.routes.writer import writer
from server.routes.writing import Form, require

router = APIRouter(
    prefix="/persons", default_response_class=HTMLResponse, dependencies=[require(Right.PERSONS)]
)


@router.get("")
def persons_page(request: Request, done: Annotated[str, Query(max_length=300)] = "") -> Response:
    return _page(request, done=done)


@router.post("/add")
def post_person(request: Request, form: Form) -> Response:
    """Name a person. Whoever names the first one signs in next."""
    is_first = not persons_are_named(request)

    def act() -> str:
        _alike(form)
        name = form.get("name", "")
        by = form.get("who", "") or (name if is_first else "")
        made = people.add(
            library_of(request).catalogue, name, form.get("role", ""), form.get("passcode", ""), by
        )
        return f"Named: {made.name}, {made.role.value}."

    try:
        said = act()
    except HangarleafError as problem:
        return _page(request, form, problem)
    if is_first:
        return RedirectResponse("/sign-in?back=%2Fpersons", status_code=303)
    return after(form, "/persons", lambda: said, partial(_page, request))


@router.post("/passcode")
def post_passcode(request: Request, form: Form) -> Response:
    def act() -> str:
        _alike(form)
        held = people.change_passcode(
            library_of(request).catalogue,
            form.get("name", ""),
            form.get("passcode", ""),
            form.get("who", ""),
        )
        return f"{held.name} has a new passcode and must sign in with it."

    return after(form, "/persons", act, partial(_page, request))


@router.post("/end")
def post_end(request: Request, form: Form) -> Response:
    def act() -> str:
        gone = people.end(library_of(request).catalogue, form.get("name", ""), form.get("who", ""))
        return f"{gone.name} may not sign in any more. What was entered stays."

    return after(form, "/persons", act, partial(_page, request))


@router.post("/tablets/end")
def post_tablet_end(request: Request, form: Form) -> Response:
    def act() -> str:
        number = form.get("tablet", "")
        which = int(number) if number.isascii() and number.isdigit() else 0
        gone = tablets.end(library_of(request).catalogue, which, form.get("who", ""))
        return f"{gone.name} may not read any more, until it joins again."

    return after(form, "/persons", act, partial(_page, request))


@router.post("/code")
def post_code(request: Request, form: Form) -> Response:
    def act() -> str:
        by, end_all = form.get("who", ""), bool(form.get("end_all"))
        if not by:
            raise EntryRefused("no name is given", "Say who you are: the change stands in the history.")
        tablets.change_code(library_of(request).catalogue, by, end_all)
        return "The shop's code is changed." + (
            " Every tablet must join again." if end_all else " Tablets that joined stay."
        )

    return after(form, "/persons", act, partial(_page, request))


def _alike(form: dict[str, str]) -> None:
    """Raises EntryRefused when a new passcode was not typed alike twice."""
    if form.get("passcode", "") != form.get("again", ""):
        raise EntryRefused("the two passcodes differ", "Type the passcode twice, alike.")


def _page(
    request: Request,
    given: dict[str, str] | None = None,
    problem: HangarleafError | None = None,
    done: str = "",
) -> Response:
    library = library_of(request)
    listed, held = people.persons(library.catalogue), tablets.tablets(library.catalogue)
    return shown(
        request,
        "persons.html",
        state_of(library),
        400 if problem else 200,
        persons=[one for one in listed if one.ended_at is None],
        gone=[one for one in listed if one.ended_at],
        tablets=[one for one in held if one.ended_at is None],
        code=tablets.shop_code(library.catalogue),
        roles=[role.value for role in Role],
        given={key: value for key, value in (given or {}).items() if key in ("name", "role", "who")},
        problem=problem,
        done=done,
        writer=writer(request, Right.PERSONS),
    )
