"""The service: wiring only."""

from collections.abc import AsyncIterator, Iterable
from contextlib import asynccontextmanager
from pathlib import Path

from anyio import to_thread
from fastapi import FastAPI
from starlette.middleware.gzip import GZipMiddleware

from indexer.settings import Settings
from server.ingest_background import IngestBackground
from server.opened import OpenedLibrary
from server.routes import (
    api,
    chapter_pages,
    check_api,
    check_pages,
    desk_api,
    desk_pages,
    fleet_api,
    fleet_pages,
    ingest_api,
    ingest_pages,
    joining,
    map_pages,
    offline_pages,
    packet_api,
    packet_pages,
    parts_api,
    parts_list_pages,
    parts_pages,
    person_pages,
    register_api,
    register_pages,
    report_pages,
    search_pages,
    shelf_pages,
    signing_in,
    static_files,
    system_api,
    system_pages,
    tablet_pages,
    tiles,
    words_pages,
)
from server.routes.answer_headers import SafeHeaders
from server.routes.asking_pace import TooFast, asking_pace, told_to_wait
from server.routes.joining import JoinedOnly
from server.routes.problems import handle_problems
from server.routes.protection import THIS_MACHINE, KnownHost
from server.routes.writing import SmallBodies
from server.warming import Warming

_SMALLEST_ZIPPED = 1000  # bytes


def create_app(
    library: Path | OpenedLibrary,
    settings: Settings,
    host_names: Iterable[str] = THIS_MACHINE,
    network: bool = False,
) -> FastAPI:
    """The web service over one library.

    library     its folder, or the opened library itself, which is then closed by whoever opened it
    host_names  the names it may be called by
    network     True also answers to this machine's name and addresses in the local network; a device that is
                not this machine reads only after it joined with the shop's code
    Raises NoLibrary, LibraryTooNew, LibraryDamaged, WatchFolderRefused.
    """
    opened = library if isinstance(library, OpenedLibrary) else OpenedLibrary.open(library, settings)

    @asynccontextmanager
    async def lifespan(_: FastAPI) -> AsyncIterator[None]:
        opened.pictures.warm()
        app.state.ingest.start()
        app.state.warming.start()
        yield
        await to_thread.run_sync(app.state.warming.stop)
        await to_thread.run_sync(app.state.ingest.stop)
        if opened is not library:
            opened.close()

    app = FastAPI(
        title="Hangarleaf",
        summary="Finds the page in a repair shop's own publications, with the evidence for every tag.",
        version="1",
        openapi_url="/api/openapi.json",
        docs_url=None,
        redoc_url=None,
        lifespan=lifespan,
    )
    app.state.library = opened
    app.state.settings = settings
    app.state.ingest = IngestBackground(opened.folder, settings)
    app.state.warming = Warming(opened)
    app.state.reach = None  # whoever serves it says how it is reached
    app.state.network = network
    app.state.asking_pace = asking_pace()
    app.state.join_tries = joining.join_tries()
    app.state.sign_in_tries = signing_in.sign_in_tries()
    app.include_router(api.router)
    app.include_router(tiles.router)
    app.include_router(system_api.router)
    app.include_router(chapter_pages.router, include_in_schema=False)
    app.include_router(check_api.router)
    app.include_router(check_pages.router, include_in_schema=False)
    app.include_router(words_pages.api_router)
    app.include_router(words_pages.router, include_in_schema=False)
    app.include_router(desk_api.router)
    app.include_router(desk_pages.router, include_in_schema=False)
    app.include_router(fleet_api.router)
    app.include_router(fleet_pages.router, include_in_schema=False)
    app.include_router(ingest_api.router)
    app.include_router(ingest_pages.router, include_in_schema=False)
    app.include_router(joining.router, include_in_schema=False)
    app.include_router(map_pages.router, include_in_schema=False)
    app.include_router(offline_pages.api_router)
    app.include_router(offline_pages.router, include_in_schema=False)
    app.include_router(packet_api.router)
    app.include_router(packet_pages.router, include_in_schema=False)
    app.include_router(parts_api.router)
    app.include_router(parts_list_pages.router, include_in_schema=False)
    app.include_router(parts_pages.router, include_in_schema=False)
    app.include_router(person_pages.router, include_in_schema=False)
    app.include_router(register_api.router)
    app.include_router(register_pages.router, include_in_schema=False)
    app.include_router(report_pages.api_router)
    app.include_router(report_pages.router, include_in_schema=False)
    app.include_router(system_pages.router, include_in_schema=False)
    app.include_router(tablet_pages.router, include_in_schema=False)
    app.include_router(search_pages.router, include_in_schema=False)
    app.include_router(shelf_pages.router, include_in_schema=False)
    app.include_router(signing_in.router, include_in_schema=False)
    app.mount(static_files.ADDRESS, static_files.StaticFolder(directory=static_files.FOLDER), name="static")
    handle_problems(app)
    app.add_exception_handler(TooFast, told_to_wait)
    app.add_middleware(GZipMiddleware, minimum_size=_SMALLEST_ZIPPED)
    app.add_middleware(SmallBodies)
    app.add_middleware(JoinedOnly)
    app.add_middleware(KnownHost, names=host_names, network=network)
    app.add_middleware(SafeHeaders)
    return app
