"""Files of a multipart form to the queue of the ingest: written as they come, and what came of each."""

from functools import partial
from pathlib import Path

from anyio import to_thread
from fastapi import Request
from starlette.requests import ClientDisconnect

from indexer.errors import HangarleafError, QueryProblem
from server import incoming
from server.ingest_background import IngestBackground
from server.ingest_state import Outcome, Source, now
from server.opened import OpenedLibrary
from server.routes.shown import library_of
from server.uploading import Sent, Upload, UploadBroken


class NoFileChosen(UploadBroken):
    """A form without a file."""

    slug = "no-file-chosen"

    def __init__(self):
        HangarleafError.__init__(self, "No file was chosen.", "Choose one or more PDF files, then send them.")


class RefusalUnknown(QueryProblem):
    """A file that is not on the list of refused ones any more."""

    slug = "refusal-unknown"

    def __init__(self, name: str):
        super().__init__(f"«{name}» is not among the files that were refused.", "Look at /ingest again.")


def ingest_of(request: Request) -> IngestBackground:
    return request.app.state.ingest


async def take_files(request: Request) -> list[Outcome]:
    """Every file of the form: waiting to be taken ("sent"), held already, or refused.

    Raises UploadBroken; the files that were whole before it broke are taken all the same.
    """
    library = library_of(request)
    upload = Upload(
        library.folder,
        request.app.state.settings,
        request.headers.get("content-type", ""),
        _announced(request),
        partial(_refused_file, library),
    )
    try:
        async for piece in request.stream():
            await to_thread.run_sync(upload.feed, piece)
        sent = upload.finish()
    except ClientDisconnect:
        raise UploadBroken("the connection ended before its last file did") from None
    finally:
        await to_thread.run_sync(upload.give_up)
        outcomes = await to_thread.run_sync(_queued, library, ingest_of(request), upload.sent)
    if not sent:
        raise NoFileChosen()
    return outcomes


def _queued(library: OpenedLibrary, ingest: IngestBackground, sent: list[Sent]) -> list[Outcome]:
    """Put whole files into the queue; one whose very bytes are on the shelf is let go of."""
    outcomes = []
    for each in sent:
        outcome = _came_of(library, each)
        outcomes.append(outcome)
        if outcome.came == "sent":
            ingest.add([each.path])
        else:
            ingest.note(outcome)
            if each.path is not None:
                incoming.drop(library.folder, each.path)
    return outcomes


def _came_of(library: OpenedLibrary, sent: Sent) -> Outcome:
    where = str(sent.path or sent.name)
    if problem := sent.problem:
        told = {"slug": problem.slug, "what": problem.what, "remedy": problem.remedy}
        return Outcome(sent.name, where, Source.SENT, "refused", now(), **told)
    held = tuple(each.id for each in library.publications() if sent.sha256.startswith(each.copy_id))
    return Outcome(sent.name, where, Source.SENT, "already" if held else "sent", now(), publications=held)


def _refused_file(library: OpenedLibrary, given: str) -> Path | None:
    """The refused file of that path, where it was sent to the service; any other is left alone."""
    known = {each.path for each in library.catalogue.refused()}
    path = Path(given)
    return path if given in known and incoming.is_incoming(library.folder, path) else None


def _announced(request: Request) -> int | None:
    told = request.headers.get("content-length", "")
    return int(told) if told.isdigit() else None
