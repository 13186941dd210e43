"""Stylesheets, scripts and pictures of the pages, under an address that changes with their content.

So a browser may keep them for good, and never shows a page of one version with the script of another.
"""

import hashlib
from pathlib import Path

from starlette.responses import Response
from starlette.staticfiles import StaticFiles

FOLDER = Path(__file__).parent.parent / "static"


def _digest(folder: Path) -> str:
    content = hashlib.sha256()
    for path in sorted(folder.rglob("*")):
        if path.is_file():
            content.update(path.relative_to(folder).as_posix().encode() + b"\0" + path.read_bytes())
    return content.hexdigest()[:12]


ADDRESS = f"/static/{_digest(FOLDER)}"


class StaticFolder(StaticFiles):
    """Answers that may be kept for good: another content has another address."""

    def file_response(self, *given: object, **more: object) -> Response:
        response = super().file_response(*given, **more)
        response.headers["Cache-Control"] = "public, max-age=31536000, immutable"
        return response
