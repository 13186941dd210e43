"""The page that answers a list of part numbers. Its router goes before that of the parts pages."""

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response

from indexer.errors import HangarleafError
from server.parts_batch import answer_list
from server.parts_words import CAUTION
from server.routes.answers import csv_file
from server.routes.in_hand import in_hand
from server.routes.parts_list_view import list_view
from server.routes.shown import library_of, shown, state_of
from server.routes.writing import ASKS, Form

router = APIRouter(default_response_class=HTMLResponse)


@router.get("/parts/list")
def list_page(request: Request) -> Response:
    return _list(request, {"csv": ""})


@router.post("/parts/list", dependencies=ASKS)
def post_list(request: Request, form: Form) -> Response:
    """A list of part numbers -> each answered, as a table or, where the form says so, as a CSV file."""
    given = {"csv": form.get("csv", "")}
    if not given["csv"].strip():
        return _list(request, given, empty=True)
    library = library_of(request)
    try:
        answered = answer_list(library, given["csv"], in_hand(request, library).registration)
    except HangarleafError as problem:
        return _list(request, given, problem=problem)
    if form.get("as") == "csv":
        return csv_file(answered, "parts.csv", mark=True)
    return _list(request, given, answered=answered)


def _list(
    request: Request,
    given: dict[str, str],
    empty: bool = False,
    problem: HangarleafError | None = None,
    answered: str = "",
) -> Response:
    """The form again, with the answers above it. empty: nothing was given to answer."""
    return shown(
        request,
        "part_list.html",
        state_of(library_of(request)),
        400 if problem else 422 if empty else 200,
        given=given,
        empty=empty,
        problem=problem,
        answered=bool(answered),
        cautions=[CAUTION],
        **list_view(answered),
    )
