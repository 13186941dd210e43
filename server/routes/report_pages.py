"""A tag is wrong: said from any tablet, answered at the desk. Whoever may read may report."""

from typing import Annotated, Any

from fastapi import APIRouter, Path, Request
from fastapi.responses import HTMLResponse, JSONResponse, RedirectResponse, Response

from indexer.errors import QueryProblem
from server import reports
from server.pace import Pace
from server.rights import Right
from server.routes import models, report_models
from server.routes.addresses import page_address, wrong_address
from server.routes.answers import described
from server.routes.asker import SentBy, entered_by
from server.routes.shown import library_of, shown, state_of
from server.routes.writer import remember, writer
from server.routes.writing import ASKS, Form, require

router = APIRouter(default_response_class=HTMLResponse)
api_router = APIRouter(
    prefix="/api/reports",
    responses={
        400: {"model": models.ProblemAnswer, "description": "Not kept; it says what is wrong."},
        404: {"model": models.ProblemAnswer, "description": "There is no such place or report."},
    },
)
ReportId = Annotated[int, Path(ge=1, le=2**62)]


@router.get("/reports")
def reports_page(request: Request) -> Response:
    library = library_of(request)
    answer = reports.reports(library)
    return shown(
        request,
        "reports.html",
        state_of(library),
        writer=writer(request, Right.TAGS),
        reports=[report_view(each) for each in answer["open"]],
        settled=[report_view(each) for each in answer["settled"]],
    )


@router.post("/reports", dependencies=ASKS)
def post_report(request: Request, form: Form) -> Response:
    """Keep a report, and go back to its page, which now says so."""
    _keep_pace(request)
    number = form.get("pdf_page", "")
    if not (number.isascii() and number.isdigit()):
        raise QueryProblem("The report names no page.", "Report it from the page itself.")
    kept = reports.report(
        library_of(request),
        form.get("publication", ""),
        int(number),
        form.get("tag", ""),
        form.get("said", ""),
        form.get("who", ""),
        form.get("passage", ""),
    )
    address = page_address(kept["publication"], kept["pdf_page"], passage=kept["passage"] or "")
    return RedirectResponse(f"{address}#reported", status_code=303)


@router.post("/reports/{report_id}/settle", dependencies=[require(Right.TAGS)])
def post_settle(request: Request, report_id: ReportId, form: Form) -> Response:
    who = entered_by(request, form.get("who", ""))
    reports.settle(library_of(request), report_id, who, form.get("why", ""))
    response = RedirectResponse("/reports", status_code=303)
    remember(response, who)
    return response


@api_router.get("", **described(report_models.ReportList, "Tags that were reported as wrong"))
def get_reports(request: Request) -> Response:
    return JSONResponse(reports.reports(library_of(request)))


@api_router.post("", dependencies=ASKS, **described(report_models.Report, "Report a wrong tag"))
def post_report_json(request: Request, new: report_models.NewReport) -> Response:
    _keep_pace(request)
    place = (new.publication, new.pdf_page, new.tag.value, new.said, new.who, new.passage)
    return JSONResponse(reports.report(library_of(request), *place))


@api_router.post(
    "/{report_id}/settle",
    dependencies=[require(Right.TAGS)],
    **described(report_models.Report, "Answer a report"),
)
def post_settle_json(
    request: Request, report_id: ReportId, given: report_models.Settlement, who: SentBy
) -> Response:
    return JSONResponse(reports.settle(library_of(request), report_id, who, given.why))


def report_view(fields: dict[str, Any]) -> dict[str, Any]:
    """A report as the desk shows it, with the way to the page and to the form of the entry."""
    place = (fields["publication"], fields["pdf_page"])
    held = bool(fields["name"])
    return {
        **fields,
        "name": fields["name"] or "A publication that is not in the library any more",
        "day": fields["at"][:10],
        "address": page_address(*place, passage=fields["passage"] or "") if held else "",
        "enter": wrong_address(*place, fields["passage"] or "") if held else "",
        "settle": f"/reports/{fields['report']}/settle",
    }


def _keep_pace(request: Request) -> None:
    """One pace for the whole service. Raises TooManyReports."""
    state = request.app.state
    if not hasattr(state, "report_pace"):
        state.report_pace = Pace(reports.MOST_IN_TIME, reports.IN_TIME_S)
    if state.report_pace.take(request.client.host if request.client else ""):
        raise reports.TooManyReports()
