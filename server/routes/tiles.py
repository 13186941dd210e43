"""Tiles of a page, for a viewer that goes deep into a foldout or a callout."""

from typing import Annotated

from fastapi import APIRouter, Path, Request
from fastapi.responses import Response

from server import leaf
from server.routes import models
from server.routes.api import PROBLEMS, PageNumber, PublicationId
from server.routes.shown import library_of
from server.routes.turns import DRAWING
from server.tiles import TILE_DPIS, Tile

router = APIRouter(prefix="/api", responses=PROBLEMS)
_MOST = 100_000  # more than a page of any size has; keeps the numbers of an address small

Zoom = Annotated[int, Path(ge=0, lt=len(TILE_DPIS), description="0 to 3: 75, 150, 300, 600 dots per inch.")]
Place = Annotated[int, Path(ge=0, le=_MOST, description="0-based, from the page's top left as displayed.")]


@router.get(
    "/publications/{publication_id}/pages/{pdf_page}/tiles/{zoom}/{column}/{row}",
    summary="One tile of the page as a picture",
    response_class=Response,
    responses={200: {"content": {"image/jpeg": {}}}, 502: {"model": models.ProblemAnswer}},
)
async def get_tile(
    request: Request,
    publication_id: PublicationId,
    pdf_page: PageNumber,
    zoom: Zoom,
    column: Place,
    row: Place,
) -> Response:
    """A square of 512 by 512 pixels; smaller at the right and lower edge of the page.

    At zoom 0 a point of the page (1/72 inch) is 75/72 pixels, and twice as many at each zoom after it: 75,
    150, 300 and 600 dots per inch at zoom 0 to 3. The whole page is as many pixels wide as its width in
    points times that scale, rounded up. Column c begins at pixel 512 c.
    """

    def drawn() -> Response:
        jpeg = leaf.tile(library_of(request), publication_id, pdf_page, Tile(zoom, column, row))
        return Response(jpeg, media_type="image/jpeg", headers={"Cache-Control": "no-store"})

    return await DRAWING.take(request, drawn)
