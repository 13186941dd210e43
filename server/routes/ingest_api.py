"""The JSON API of ingest: what it does now, and files sent to it."""

from fastapi import APIRouter, Depends, Request
from fastapi.responses import JSONResponse, Response

from server.ingest_state import outcome_fields
from server.rights import Right
from server.routes import ingest_models, models
from server.routes.answers import described
from server.routes.ingest_upload import ingest_of, take_files
from server.routes.shown import library_of, state_of
from server.routes.writing import require, take_large_body

PROBLEMS = {
    status: {"model": models.ProblemAnswer, "description": words}
    for status, words in (
        (400, "No form with files, or none of its files can be taken."),
        (403, "Who asks may not have files taken."),
    )
}
router = APIRouter(prefix="/api", responses=PROBLEMS)


@router.get("/ingest", **described(ingest_models.IngestAnswer, "What is being taken in, and what came of it"))
def get_ingest(request: Request) -> Response:
    state = state_of(library_of(request)).fields()
    return JSONResponse({"library_state": state, **ingest_of(request).state().fields()})


@router.post(
    "/ingest/files",
    dependencies=[require(Right.INGEST), Depends(take_large_body)],
    status_code=202,
    **described(ingest_models.UploadAnswer, "Send PDF files (multipart form, any field names)"),
)
async def post_files(request: Request) -> Response:
    """Answers 202 when a file waits for its turn or is held, 400 with the first `error` when none is."""
    outcomes = await take_files(request)
    answer = {"files": [outcome_fields(each) for each in outcomes]}
    if all(each.came == "refused" for each in outcomes):
        first = outcomes[0]
        error = {"slug": first.slug, "what": first.what, "remedy": first.remedy}
        return JSONResponse({"error": error, **answer}, 400)
    return JSONResponse(answer, 202)
