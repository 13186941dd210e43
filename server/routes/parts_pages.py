"""The parts pages: look for a part, one row in full, the rows of a figure."""

from typing import Annotated

from fastapi import APIRouter, Path, Query, Request
from fastapi.responses import HTMLResponse, Response

from indexer.errors import QueryProblem
from server.parts import LIMIT, MOST, find_parts, part_row
from server.parts_figure import figure_rows
from server.routes.in_hand import in_hand
from server.routes.page_view import ZOOMS
from server.routes.part_view import part_view
from server.routes.parts_figure_view import figure_view
from server.routes.parts_found_view import found_view
from server.routes.shown import library_of, shown

router = APIRouter(default_response_class=HTMLResponse)
Words = Annotated[str, Query(max_length=500)]
Short = Annotated[str, Query(max_length=120)]
Zoomed = Annotated[int, Query()]


@router.get("/parts")
def parts_page(
    request: Request,
    q: Words = "",
    catalogue: Short = "",
    figure: Short = "",
    item: Short = "",
    limit: Annotated[int, Query(ge=1, le=MOST)] = LIMIT,
) -> Response:
    """The box, and what was found under its labels; before anything is asked, the parts lists held here."""
    library = library_of(request)
    asked = {"q": q.strip(), "catalogue": catalogue, "figure": figure.strip(), "item": item.strip()}
    answer = problem = None
    if any(asked[name] for name in ("q", "figure", "item")):
        try:
            answer = find_parts(
                library, **asked, aircraft=in_hand(request, library).registration, limit=limit
            )
        except QueryProblem as refused:
            problem = refused
    with library.reading() as status:
        context = found_view(library, asked, answer, limit)
        state = library.state(status)
    return shown(request, "parts.html", state, 400 if problem else 200, problem=problem, **context)


@router.get("/parts/{row_id}")
def part_page(request: Request, row_id: Annotated[str, Path(max_length=120)], zoom: Zoomed = 100) -> Response:
    library = library_of(request)
    answer = part_row(library, row_id, in_hand(request, library).registration)
    with library.reading() as status:
        context = part_view(library, answer, _zoom(zoom))
        state = library.state(status)
    return shown(request, "part_row.html", state, wide=True, **context)


@router.get("/figures/{figure_id}")
def figure_page(
    request: Request,
    figure_id: Annotated[str, Path(max_length=120)],
    row: Short = "",
    zoom: Zoomed = 100,
) -> Response:
    """The rows of a figure beside its picture; `row` = the row whose places on the picture are marked."""
    library = library_of(request)
    answer = figure_rows(library, figure_id, in_hand(request, library).registration)
    with library.reading() as status:
        context = figure_view(library, answer, row, _zoom(zoom))
        state = library.state(status)
    return shown(request, "part_figure.html", state, wide=True, **context)


def _zoom(zoom: int) -> int:
    return zoom if zoom in ZOOMS else 100
