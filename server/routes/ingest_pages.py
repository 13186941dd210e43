"""The page about ingest: what is being taken in, what was refused and what to do, and files sent to it."""

from pathlib import Path

from anyio import to_thread
from fastapi import APIRouter, Depends, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from indexer.errors import HangarleafError
from server import incoming
from server.ingest_state import Outcome, Source
from server.rights import Right
from server.routes.ingest_upload import RefusalUnknown, ingest_of, take_files
from server.routes.ingest_view import ingest_view, outcome_view
from server.routes.shown import library_of, shown
from server.routes.writer import writer
from server.routes.writing import Form, require, take_large_body
from server.uploading import UploadBroken

router = APIRouter(default_response_class=HTMLResponse)


@router.get("/ingest")
def ingest_page(request: Request) -> Response:
    return _page(request)


@router.post("/ingest/files", dependencies=[require(Right.INGEST), Depends(take_large_body)])
async def post_files(request: Request) -> Response:
    """Back to the page; where a file was refused at the door, the page says so at once."""
    try:
        outcomes = await take_files(request)
    except UploadBroken as problem:
        return await to_thread.run_sync(_page, request, None, problem)
    if any(each.came == "refused" for each in outcomes):
        return await to_thread.run_sync(_page, request, outcomes)
    return RedirectResponse("/ingest", status_code=303)


@router.post("/ingest/refused", dependencies=[require(Right.INGEST)])
def post_refused(request: Request, form: Form) -> Response:
    """Remove a refused file (what was sent) or strike it from the list; or try it again."""
    library, ingest = library_of(request), ingest_of(request)
    given = form.get("path", "")
    if given not in {each.path for each in library.catalogue.refused()}:
        raise RefusalUnknown(Path(given).name or "nothing")
    path = Path(given)
    sent = incoming.is_incoming(library.folder, path)
    if form.get("do") == "again":
        ingest.add([path], Source.SENT if sent else Source.WATCHED)
    elif form.get("do") == "remove":
        ingest.forget(path)
        library.catalogue.forget_refusal(path)
        incoming.drop(library.folder, path)
    return RedirectResponse("/ingest#refused", status_code=303)


def _page(
    request: Request, outcomes: list[Outcome] | None = None, problem: HangarleafError | None = None
) -> Response:
    library = library_of(request)
    with library.reading() as status:
        view = ingest_view(library, ingest_of(request).state())
        sent = [outcome_view(library, each) for each in outcomes or ()]
        state = library.state(status)
    return shown(
        request,
        "ingest.html",
        state,
        400 if outcomes or problem else 200,
        view=view,
        sent=sent,
        problem=problem,
        writer=writer(request, Right.INGEST),
        most_mb=request.app.state.settings.max_file_mb,
    )
