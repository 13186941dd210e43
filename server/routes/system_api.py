"""The JSON API about systems: the listing of one, the same as CSV, and which systems are held."""

from typing import Annotated

from fastapi import APIRouter, Path, Query, Request
from fastapi.responses import JSONResponse, Response

from server.hiding import hides
from server.routes import system_models
from server.routes.answers import csv_file, described
from server.routes.api import PROBLEMS, Aircraft, Hide
from server.routes.shown import library_of
from server.system import chapters_held, everything_on, remainder_of
from server.system_csv import file_name, system_csv
from server.system_fields import answer_fields, held_fields

router = APIRouter(prefix="/api/system", responses=PROBLEMS)

Asked = Annotated[
    str,
    Path(max_length=200, description="A number or words.", examples=["32", "32-41", "JASC 3245", "brakes"]),
]


@router.get(
    "",
    **described(
        system_models.SystemList, "Systems that something is filed under; with q, the listing of one"
    ),
)
def get_systems(
    request: Request,
    q: Annotated[str, Query(max_length=200, description="Asked here, a system may have a slash.")] = "",
    aircraft: Aircraft = "",
    hide: Hide = "",
) -> Response:
    library = library_of(request)
    if q.strip():
        return JSONResponse(answer_fields(library, everything_on(library, q, aircraft, hides(hide))))
    with library.reading() as status:
        state = library.state(status)
        return JSONResponse(held_fields(library, state, chapters_held(library), remainder_of(library)))


@router.get(
    "/{asked}.csv",
    responses={200: {"content": {"text/csv": {}}, "description": "UTF-8, with a mark at its head."}},
    summary="Everything that touches a system, as CSV",
    response_class=Response,
)
def get_system_csv(request: Request, asked: Asked, aircraft: Aircraft = "", hide: Hide = "") -> Response:
    answer = everything_on(library_of(request), asked, aircraft, hides(hide))
    return csv_file(system_csv(answer), file_name(answer), mark=True)


@router.get("/{asked}", **described(system_models.SystemAnswer, "Everything that touches a system"))
def get_system(request: Request, asked: Asked, aircraft: Aircraft = "", hide: Hide = "") -> Response:
    library = library_of(request)
    return JSONResponse(answer_fields(library, everything_on(library, asked, aircraft, hides(hide))))
