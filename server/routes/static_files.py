"""Stylesheets, scripts and pictures of the pages, under an address that changes with their content.

So a browser may keep them for good, and never shows a page of one version with the script of another.
"""

import hashlib
from pathlib import Path

from starlette.exceptions import HTTPException
from starlette.responses import Response
from starlette.staticfiles import StaticFiles
from starlette.types import Scope

FOLDER = Path(__file__).parent.parent / "static"


def _digest(folder: Path) -> str:
    content = hashlib.sha256()
    for path in sorted(folder.rglob("*")):
        if path.is_file():
            content.update(path.relative_to(folder).as_posix().encode() + b"\0" + path.read_bytes())
    return content.hexdigest()[:12]


ADDRESS = f"/static/{_digest(FOLDER)}"


def _joined(name: str) -> Response:
    """The stylesheets of `a+b.css` in that order: a page that is opened first then waits for one answer, over
    the connection that it came by, and for no second connection.
    """
    parts = [FOLDER / f"{part}.css" for part in name.removesuffix(".css").split("+")]
    known = set(FOLDER.glob("*.css"))
    if not known.issuperset(parts):
        raise HTTPException(404)
    return Response("".join(part.read_text(encoding="utf-8") for part in parts), media_type="text/css")


class StaticFolder(StaticFiles):
    """Answers that may be kept for good: another content has another address."""

    async def get_response(self, path: str, scope: Scope) -> Response:
        if "+" in path and scope["method"] in ("GET", "HEAD"):
            return _for_good(_joined(path))
        return await super().get_response(path, scope)

    def file_response(self, *given: object, **more: object) -> Response:
        return _for_good(super().file_response(*given, **more))


def _for_good(response: Response) -> Response:
    response.headers["Cache-Control"] = "public, max-age=31536000, immutable"
    return response
