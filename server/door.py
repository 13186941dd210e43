"""The plain door beside an encrypted service: how to trust it, the authority to trust, and the way in.

A tablet that does not trust the shop's authority yet cannot be told how over the encrypted way. So this one
small application speaks plain http, and holds nothing of the library. It shows no fingerprint: whoever could
put another certificate in its place could put that one's fingerprint there too.
"""

import base64
import hashlib
from collections.abc import Callable, Iterable

from fastapi import FastAPI, Request
from fastapi.responses import PlainTextResponse, RedirectResponse, Response
from markupsafe import Markup
from starlette.exceptions import HTTPException

from server.reach import Reach
from server.routes.certificate_file import certificate_file
from server.routes.page_templates import templates
from server.routes.protection import KnownHost
from server.routes.static_files import FOLDER

CERTIFICATE, WAY_IN = "/authority.crt", "/open"
_STYLE = (FOLDER / "door.css").read_text(encoding="utf-8")
_STYLE_HASH = base64.b64encode(hashlib.sha256(_STYLE.encode()).digest()).decode()
_HEADERS = {
    # The page's style stands in it, since the door has no address for another file; the hash lets it in.
    "Content-Security-Policy": f"default-src 'none'; style-src 'sha256-{_STYLE_HASH}'; base-uri 'none'; "
    "form-action 'none'; frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cache-Control": "no-store",
}


def create_door(reach: Callable[[], Reach], host_names: Iterable[str]) -> FastAPI:
    """The application. It answers to GET of `/`, CERTIFICATE and WAY_IN, and to nothing else.

    reach       how the encrypted service is reached at present; it has an authority
    host_names  the names that this machine may be called by
    """
    door = FastAPI(title="Hangarleaf, the way in", openapi_url=None, docs_url=None, redoc_url=None)
    door.add_exception_handler(HTTPException, _nothing_else)
    door.add_middleware(_KnownHost, names=host_names, network=True)

    @door.get("/")
    async def trust_page(request: Request) -> Response:
        at = reach()
        shown = {"reach": at, "style": Markup(_STYLE), "certificate": CERTIFICATE, "way_in": WAY_IN}
        return templates.TemplateResponse(request, "door.html", shown, headers=_HEADERS)

    @door.get(CERTIFICATE)
    async def authority() -> Response:
        return certificate_file(reach().authority, _HEADERS)

    @door.get(WAY_IN)
    async def way_in() -> Response:
        return RedirectResponse(reach().address, 303, headers=_HEADERS)

    return door


class _KnownHost(KnownHost):
    """Refuses in plain words: the door has no library to make a page with."""

    def refusal(self, request: Request) -> Response:
        words = "This machine is not called so. Use the address that hangarleaf serve printed.\n"
        return PlainTextResponse(words, 421, headers=_HEADERS)


async def _nothing_else(_: Request, problem: Exception) -> Response:
    status = problem.status_code if isinstance(problem, HTTPException) else 404
    return PlainTextResponse("Nothing is at this address. Begin at /.\n", status, headers=_HEADERS)
