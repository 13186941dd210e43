"""The JSON API of the source check and its trail. Any machine may ask: asking only adds to the trail."""

import datetime
from typing import Annotated

from fastapi import APIRouter, Path, Query, Request
from fastapi.responses import JSONResponse, Response
from starlette.concurrency import run_in_threadpool

from server.routes import check_models
from server.routes.answers import csv_file, described
from server.routes.api import PROBLEMS
from server.routes.shown import library_of
from server.routes.writing import ASKS
from server.sourcecheck import CheckRefused, again, check, kept, kept_list
from server.sourcecheck_batch import check_csv, decoded

router = APIRouter(prefix="/api", responses=PROBLEMS)
CheckId = Annotated[int, Path(ge=1, le=2**62)]
Aircraft = Annotated[str, Query(max_length=40, description="Registration of the fleet list.")]
Work = Annotated[str, Query(max_length=20, description="minor, major, directive or inspection.")]
Day = Annotated[str, Query(max_length=10, description="The day the work was done, as 2031-03-14.")]


@router.get(
    "/check",
    dependencies=ASKS,
    **described(check_models.CheckAnswer, "Check the sources that an entry cites; kept in the trail"),
)
def get_check(
    request: Request,
    text: Annotated[str, Query(max_length=4000, description="The entry; longer ones by POST.")] = "",
    aircraft: Aircraft = "",
    work: Work = "",
    on: Day = "",
) -> Response:
    return JSONResponse(check(library_of(request), text, aircraft, work, day_of(on)).fields())


@router.post("/check", dependencies=ASKS, **described(check_models.CheckAnswer, "The same, for a long entry"))
def post_check(request: Request, asked: check_models.CheckAsked) -> Response:
    answer = check(library_of(request), asked.text, asked.aircraft, asked.work, day_of(asked.on))
    return JSONResponse(answer.fields())


@router.post(
    "/check/batch",
    dependencies=ASKS,
    responses={
        200: {"content": {"text/csv": {}}, "description": "The findings: UTF-8, with a mark at its head."}
    },
    summary="Check every entry of a CSV text: column entry, and if wanted id, aircraft, work, date",
    response_class=Response,
)
async def post_batch(request: Request, aircraft: Aircraft = "", work: Work = "", on: Day = "") -> Response:
    text = decoded(await request.body(), "The body")
    batch = await run_in_threadpool(check_csv, library_of(request), text, aircraft, work, day_of(on))
    return csv_file(batch.text, "findings.csv", mark=True)


@router.get("/checks", **described(check_models.CheckList, "The audit trail, newest first"))
def get_checks(
    request: Request,
    limit: Annotated[int, Query(ge=1, le=200)] = 50,
    offset: Annotated[int, Query(ge=0, le=2**62)] = 0,
) -> Response:
    return JSONResponse(kept_list(library_of(request), limit, offset))


@router.get("/checks/{check_id}", **described(check_models.CheckAnswer, "A kept check, as it was answered"))
def get_kept(request: Request, check_id: CheckId) -> Response:
    return JSONResponse(kept(library_of(request), check_id))


@router.get(
    "/checks/{check_id}/again",
    **described(check_models.AgainAnswer, "A kept check asked again, and in what the answers differ"),
)
def get_again(request: Request, check_id: CheckId) -> Response:
    return JSONResponse(again(library_of(request), check_id).fields())


def day_of(text: str) -> datetime.date | None:
    """A day as 2031-03-14; None for "". Raises CheckRefused."""
    if not text.strip():
        return None
    try:
        return datetime.date.fromisoformat(text.strip())
    except ValueError:
        raise CheckRefused(f"«{text}» is no date.", "Write it as 2031-03-14.") from None
