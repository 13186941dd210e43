"""A pace for what any reader may have kept: checks, packets, reports. Beyond it a device is told to wait.

It is far above what hands can do, and stops a page or a program that has run wild from filling the library.
"""

from urllib.parse import parse_qsl, quote

from fastapi import Request
from fastapi.responses import JSONResponse, Response

from indexer.errors import HangarleafError
from server.pace import Pace
from server.routes.asker import joined_tablet
from server.routes.page_templates import templates

MOST, IN_S = 300, 60.0  # of one device
_A_FORM = "application/x-www-form-urlencoded"


class TooFast(HangarleafError):
    """wait_s  whole seconds until the device may ask again
    fields  what the form held that was sent, to send it again; () = it was no form
    """

    slug = "too-fast"

    def __init__(self, wait_s: int, fields: tuple[tuple[str, str], ...] = ()):
        super().__init__(
            f"This device sent more than {MOST} things within a minute; the last one was not kept.",
            f"Wait {wait_s} seconds, then send it again.",
        )
        self.wait_s, self.fields = wait_s, fields


def asking_pace() -> Pace:
    return Pace(MOST, IN_S)


async def keep_pace(request: Request) -> None:
    """The dependency of what any reader may have kept. Raises TooFast."""
    pace: Pace = request.app.state.asking_pace
    if wait_s := pace.take(_device(request)):
        kind = request.headers.get("content-type", "").partition(";")[0].strip().casefold()
        sent = (await request.body()).decode("utf-8", "replace") if kind == _A_FORM else ""
        raise TooFast(wait_s, tuple(parse_qsl(sent, keep_blank_values=True)))


async def told_to_wait(request: Request, problem: TooFast) -> Response:
    """429 (RFC 6585, section 4), with what was sent in a form that sends it again."""
    headers = {"Retry-After": str(problem.wait_s)}
    path = request.scope["path"]
    if path.startswith("/api"):
        error = {"slug": problem.slug, "what": problem.what, "remedy": problem.remedy}
        return JSONResponse({"error": error}, 429, headers)
    told = {"problem": problem, "again": quote(path)}
    return templates.TemplateResponse(request, "too_fast.html", told, status_code=429, headers=headers)


def _device(request: Request) -> str:
    """A tablet by its number, whatever its address; this machine, and who need not join, by the address."""
    tablet = joined_tablet(request)
    if tablet is not None:
        return f"tablet {tablet.id}"
    return request.client.host if request.client else ""
