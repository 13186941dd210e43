"""What a tablet needs to keep packets: the service worker, the manifest, the two pages it shows by itself.

The service worker is filled in here with the build of the static files and the addresses of the shell:
another version of the program is another service worker, which replaces the shell as a whole.
"""

import json
import re
from functools import cache

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, JSONResponse, Response

from server.opened import LibraryState
from server.routes import models
from server.routes.answers import described
from server.routes.page_templates import templates
from server.routes.shown import library_of, state_of
from server.routes.static_files import ADDRESS, FOLDER

PAGES = ("/offline", "/pinned")
ALSO = ("kept_copy.js", "leaf.svg")  # of the shell, and named by neither page
_ICON_SIZES = (192, 512)
_REFERENCE = re.compile(rf'"{ADDRESS}/([\w.-]+)"')
_IMPORT = re.compile(r'^import [^"\n]*"\./([\w.-]+)";', re.MULTILINE)

router = APIRouter()
api_router = APIRouter(prefix="/api")


class Contact(models.Shape):
    """What an open page asks now and then."""

    library: str
    generation: int
    mark: str


@router.get("/service-worker.js")
def service_worker(request: Request) -> Response:
    hours = request.app.state.settings.offline_hours
    given = {"build": ADDRESS.rpartition("/")[2], "statics": ADDRESS, "shell": shell(), "hours": hours}
    script = (FOLDER / "service-worker.js").read_text(encoding="utf-8")
    return Response(f"const GIVEN = {json.dumps(given)};\n{script}", media_type="text/javascript")


@router.get("/manifest.webmanifest")
def manifest() -> Response:
    """The colours are those of hangarleaf.css in the light."""
    icons = [
        {
            "src": f"{ADDRESS}/icon-{size}{of}.png",
            "sizes": f"{size}x{size}",
            "type": "image/png",
            "purpose": use,
        }
        for size in _ICON_SIZES
        for of, use in (("", "any"), ("-maskable", "maskable"))
    ]
    about = {
        "name": "Hangarleaf",
        "short_name": "Hangarleaf",
        "description": "The shop's own publications, with the evidence for every tag.",
        "id": "/",
        "start_url": "/",
        "scope": "/",
        "display": "standalone",
        "background_color": "#f5f4ef",
        "theme_color": "#0b5a45",
        "icons": icons,
    }
    return JSONResponse(about, media_type="application/manifest+json")


@router.get("/offline")
def offline_page() -> Response:
    """What a tablet shows without contact, for all that it does not keep."""
    return HTMLResponse(_page("offline.html"))


@router.get("/pinned")
def pinned_page() -> Response:
    """The packets that this device keeps; the device fills it in."""
    return HTMLResponse(_page("pinned.html"))


@api_router.get(
    "/contact", **described(Contact, "Whether there is contact, and with which state of which library")
)
def get_contact(request: Request) -> Response:
    state: LibraryState = state_of(library_of(request))
    return JSONResponse({"library": state.library, "generation": state.generation, "mark": state.mark})


def _page(template: str) -> str:
    """The same for every library, aircraft and person: nothing of a library is kept with the shell."""
    return templates.env.get_template(template).render()


@cache
def shell() -> list[str]:
    """Every address that the two pages and a kept copy need, the modules that modules import included."""
    names = {name for page in PAGES for name in _REFERENCE.findall(_page(f"{page[1:]}.html"))} | {*ALSO}
    waiting = [name for name in names if name.endswith(".js")]
    while waiting:
        script = (FOLDER / waiting.pop()).read_text(encoding="utf-8")
        more = set(_IMPORT.findall(script)) - names
        names |= more
        waiting += more
    return [*PAGES, *(f"{ADDRESS}/{name}" for name in sorted(names))]
