"""The JSON API of the parts lists: rows, figures, and lists of part numbers answered."""

from typing import Annotated

from fastapi import APIRouter, Path, Query, Request
from fastapi.responses import JSONResponse, Response
from starlette.concurrency import run_in_threadpool

from server.parts import LIMIT, MOST, find_parts, part_row
from server.parts_batch import PartListRefused, answer_list
from server.parts_csv import figure_csv
from server.parts_figure import figure_rows
from server.routes import parts_models
from server.routes.answers import csv_file, described
from server.routes.api import PROBLEMS
from server.routes.shown import library_of
from server.routes.writing import ASKS

router = APIRouter(prefix="/api", responses=PROBLEMS)
Aircraft = Annotated[
    str, Query(max_length=40, description="Registration: each row says whether it applies to it.")
]
RowId = Annotated[str, Path(max_length=120, description="As a row's id in an answer of /api/parts.")]
FigureId = Annotated[str, Path(max_length=120, description="As a figure's id in an answer of /api/parts.")]


@router.get("/parts", **described(parts_models.PartsAnswer, "Rows of the parts lists, the surest first"))
def get_parts(
    request: Request,
    q: Annotated[
        str,
        Query(
            max_length=500,
            description="A part number, words, or figure and item.",
            examples=["AN4-12A", "brake lining", "fig 14 item 7", "32-42-00-01-15"],
        ),
    ] = "",
    catalogue: Annotated[
        str, Query(max_length=200, description="Id, number or file name of a publication to stay within.")
    ] = "",
    figure: Annotated[str, Query(max_length=60, examples=["14"])] = "",
    item: Annotated[str, Query(max_length=20, examples=["15A"])] = "",
    aircraft: Aircraft = "",
    limit: Annotated[int, Query(ge=0, le=MOST, description="Most rows of each group.")] = LIMIT,
) -> Response:
    return JSONResponse(find_parts(library_of(request), q, catalogue, figure, item, aircraft, limit))


@router.post(
    "/parts/list",
    dependencies=ASKS,
    responses={
        200: {
            "content": {"text/csv": {}},
            "description": "The list with answers: UTF-8, with a mark at its head.",
        }
    },
    summary="Answer each part number of a CSV text: column part_number, or the first column",
    response_class=Response,
)
async def post_list(request: Request, aircraft: Aircraft = "") -> Response:
    text = decoded_list(await request.body())
    answers = await run_in_threadpool(answer_list, library_of(request), text, aircraft)
    return csv_file(answers, "part-list-answers.csv", mark=True)


@router.get(
    "/parts/{row_id}", **described(parts_models.PartAnswer, "One row, with all that the lists say of it")
)
def get_part(request: Request, row_id: RowId, aircraft: Aircraft = "") -> Response:
    return JSONResponse(part_row(library_of(request), row_id, aircraft))


@router.get(
    "/figures/{figure_id}.csv",
    summary="The rows of one figure as CSV",
    response_class=Response,
    responses={200: {"content": {"text/csv": {}}}},
)
def get_figure_csv(request: Request, figure_id: FigureId, aircraft: Aircraft = "") -> Response:
    text, name = figure_csv(library_of(request), figure_id, aircraft)
    return csv_file(text, name, mark=True)


@router.get("/figures/{figure_id}", **described(parts_models.FigureAnswer, "One figure with all its rows"))
def get_figure(request: Request, figure_id: FigureId, aircraft: Aircraft = "") -> Response:
    return JSONResponse(figure_rows(library_of(request), figure_id, aircraft))


def decoded_list(body: bytes) -> str:
    """The text of a list that was sent. Raises PartListRefused."""
    try:
        return body.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise PartListRefused("The list is not UTF-8 text.", "Save it as CSV in UTF-8.") from None
