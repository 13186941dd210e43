"""The JSON API of the revision register, and of what was effective on a day."""

from typing import Annotated

from fastapi import APIRouter, Path, Query, Request
from fastapi.responses import JSONResponse, PlainTextResponse, Response

from indexer.library.register import day_given
from indexer.library.register_lists import export_csv, import_csv
from server import register
from server.effective_on import effective_on
from server.list_imports import import_fields
from server.rights import Right
from server.routes import models
from server.routes import register_models as shapes
from server.routes.answers import csv_file, described
from server.routes.asker import SentBy
from server.routes.list_models import ImportAnswer, Reasoned
from server.routes.shown import library_of
from server.routes.writing import require

router = APIRouter(
    prefix="/api",
    responses={
        400: {"model": models.ProblemAnswer, "description": "Not entered: incomplete, or no such day."},
        403: {"model": models.ProblemAnswer, "description": "This asker may not change it; it says why."},
        404: {"model": models.ProblemAnswer, "description": "There is no such check or publication."},
    },
)


@router.get("/register", **described(shapes.Register, "The revision register, what is overdue first"))
def get_register(request: Request) -> Response:
    return JSONResponse(register.register(library_of(request)))


@router.get("/register.csv", summary="The standing checks as CSV", response_class=PlainTextResponse)
def get_register_csv(request: Request) -> Response:
    return csv_file(export_csv(library_of(request).catalogue), "revision-register.csv")


@router.post(
    "/register",
    dependencies=[require(Right.REGISTER)],
    **described(shapes.RegisterCheck, "Record which revision is current"),
)
def post_check(request: Request, given: shapes.NewCheck, who: SentBy) -> Response:
    days = request.app.state.settings.recheck_days if given.recheck_days is None else given.recheck_days
    kept = register.record(
        library_of(request),
        given.publication,
        given.revision,
        given.date,
        given.source,
        given.checked_on,
        who,
        days,
        given.note,
    )
    return JSONResponse(kept)


@router.post(
    "/register/import",
    dependencies=[require(Right.REGISTER)],
    **described(ImportAnswer, "Add the lines of a CSV text"),
)
def post_checks(request: Request, sent: shapes.ChecksToImport, who: SentBy) -> Response:
    days = request.app.state.settings.recheck_days
    taken = import_csv(library_of(request).catalogue, sent.csv, who, days)
    return JSONResponse(import_fields(taken), 400 if taken.problems else 200)


@router.post(
    "/register/{check_id}/undo",
    dependencies=[require(Right.REGISTER)],
    **described(shapes.RegisterCheck, "Take a check back; it stays readable"),
)
def post_undo(
    request: Request, check_id: Annotated[int, Path(ge=1, le=2**62)], given: Reasoned, who: SentBy
) -> Response:
    return JSONResponse(register.undo(library_of(request), check_id, who, given.why))


@router.get(
    "/publications/{publication_id}/effective",
    **described(shapes.EffectiveAnswer, "What was effective on a day, page by page"),
)
def get_effective(
    request: Request,
    publication_id: Annotated[str, Path(max_length=80)],
    on: Annotated[str, Query(max_length=10, description="Year-month-day.")],
) -> Response:
    return JSONResponse(effective_on(library_of(request), publication_id, day_given(on)).fields())
