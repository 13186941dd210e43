"""The JSON API: the same answers as the command line's --json, under /api."""

from typing import Annotated, Any

from fastapi import APIRouter, Path, Query, Request
from fastapi.responses import JSONResponse, Response

from server import leaf, shelf
from server.hiding import HIDE, hides
from server.ocr_debt import wanted
from server.routes import models
from server.routes.answers import described
from server.routes.shown import library_of
from server.routes.turns import DRAWING
from server.search import LIMIT, MOST, note_if_missed, search
from server.why import why

PROBLEMS: dict[int | str, dict[str, Any]] = {
    400: {"model": models.ProblemAnswer, "description": "The question cannot be answered as asked."},
    404: {"model": models.ProblemAnswer, "description": "There is no such publication, page or passage."},
    503: {"model": models.ProblemAnswer, "description": "The library cannot be used at present."},
}
router = APIRouter(prefix="/api", responses=PROBLEMS)

Words = Annotated[
    str, Query(max_length=500, description='Words; "..." for a phrase, - before what to leave out.')
]
AsTyped = Annotated[bool, Query(description="Look for nothing but the words and numbers as they stand.")]
Misread = Annotated[bool, Query(description="Look also for what OCR may have made of the words.")]
Aircraft = Annotated[
    str,
    Query(max_length=40, description="Registration: each hit says whether it applies to it."),
]
Hide = Annotated[
    str,
    Query(max_length=40, description=f'"{HIDE}" leaves out what does not apply, and says how much that is.'),
]
CurrentOnly = Annotated[
    bool,
    Query(description="Leave out what is known not to be current; what nobody has checked stays in."),
]
PublicationId = Annotated[str, Path(max_length=80)]
PageNumber = Annotated[int, Path(ge=1, description="1-based, as a viewer counts.")]


@router.get(
    "/search",
    **described(models.SearchAnswer, "Hits, grouped by chapter"),
    description=(
        "Hits that may be of use stand before those that are superseded, blocked, or do not apply to the "
        "aircraft named: in every group and among all hits handed out; both parts are best score first. A "
        "group has the place of its first hit. Nothing is left out by this, counts are over all hits, and a "
        "smaller limit gives the beginning of the same order."
    ),
)
def get_search(
    request: Request,
    q: Words = "",
    chapter: Annotated[list[str], Query(description='"32", "32-41", or "none"', examples=[["32"]])] = [],  # noqa: B006
    type: Annotated[list[str], Query(examples=[["service-bulletin"]])] = [],  # noqa: B006
    standing: Annotated[list[str], Query(examples=[["approved"]])] = [],  # noqa: B006
    publication: Annotated[list[str], Query(description="Ids of publications to stay within.")] = [],  # noqa: B006
    limit: Annotated[int, Query(ge=0, le=MOST)] = LIMIT,
    per_chapter: Annotated[int | None, Query(ge=1, le=MOST)] = None,
    as_typed: AsTyped = False,
    aircraft: Aircraft = "",
    hide: Hide = "",
    misread: Misread = True,
    current: CurrentOnly = False,
) -> Response:
    answer = search(
        library_of(request),
        q,
        chapter,
        type,
        standing,
        publication,
        limit=limit,
        per_chapter=per_chapter,
        as_typed=as_typed,
        aircraft=aircraft,
        hide_not_applying=hides(hide),
        misread=misread,
        current=current,
    )
    return JSONResponse(note_if_missed(library_of(request), answer).fields())


@router.get("/publications", **described(models.PublicationList, "What is on the shelf"))
def get_publications(request: Request) -> Response:
    return JSONResponse(shelf.publications(library_of(request)))


@router.get(
    "/publications/{publication_id}", **described(models.PublicationAnswer, "One publication, with its tags")
)
def get_publication(request: Request, publication_id: PublicationId, aircraft: Aircraft = "") -> Response:
    return JSONResponse(shelf.publication(library_of(request), publication_id, aircraft))


@router.get(
    "/publications/{publication_id}/pages/{pdf_page}",
    summary="The page as a picture",
    response_class=Response,
    responses={200: {"content": {"image/jpeg": {}}}, 502: {"model": models.ProblemAnswer}},
)
async def get_picture(
    request: Request,
    publication_id: PublicationId,
    pdf_page: PageNumber,
    dpi: Annotated[int | None, Query(ge=1, le=300, description="Taken to the next size drawn.")] = None,
) -> Response:
    library = library_of(request)
    size = dpi or request.app.state.settings.render_dpi

    def drawn() -> Response:
        return Response(leaf.picture(library, publication_id, pdf_page, size), media_type="image/jpeg")

    return await DRAWING.take(request, drawn)


@router.get(
    "/publications/{publication_id}/pages/{pdf_page}/boxes",
    **described(models.PageAnswer, "The page as data: its passages, and where the words asked for stand"),
)
def get_boxes(
    request: Request,
    publication_id: PublicationId,
    pdf_page: PageNumber,
    q: Words = "",
    aircraft: Aircraft = "",
) -> Response:
    library = library_of(request)
    answer = leaf.page(library, publication_id, pdf_page, q, aircraft)
    if answer["not_read"]:
        wanted(library, library.publication(publication_id).copy_id, pdf_page)
    return JSONResponse(answer)


@router.get("/passages/{passage_id}", **described(models.PassageAnswer, "One passage, with its tags"))
def get_passage(request: Request, passage_id: Annotated[str, Path(max_length=120)]) -> Response:
    return JSONResponse(leaf.passage(library_of(request), passage_id))


@router.get(
    "/passages/{passage_id}/why",
    **described(models.WhyAnswer, "Why a passage is among the hits of a search, and why there"),
)
def get_why(
    request: Request,
    passage_id: Annotated[str, Path(max_length=120)],
    q: Words = "",
    chapter: Annotated[list[str], Query(examples=[["32"]])] = [],  # noqa: B006
    type: Annotated[list[str], Query(examples=[["service-bulletin"]])] = [],  # noqa: B006
    standing: Annotated[list[str], Query(examples=[["approved"]])] = [],  # noqa: B006
    publication: Annotated[list[str], Query(description="As the search was asked.")] = [],  # noqa: B006
    as_typed: AsTyped = False,
    misread: Misread = True,
) -> Response:
    library = library_of(request)
    found = why(library, passage_id, q, chapter, type, standing, publication, as_typed, misread)
    return JSONResponse(found.fields())


@router.get("/status", **described(models.StatusAnswer, "What is held, not searched, and refused"))
def get_status(request: Request) -> Response:
    return JSONResponse(shelf.status(library_of(request)))
