"""The source check's pages: paste an entry, read the findings, the trail of all checks."""

import datetime
from typing import Annotated
from urllib.parse import urlencode

from fastapi import APIRouter, Path, Query, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from indexer.errors import HangarleafError
from indexer.library.checks import count_checks, kept_checks
from indexer.library.fleet import fleet
from server import sourcecheck
from server.checking.comparing import differences
from server.routes.answers import csv_file
from server.routes.check_api import day_of
from server.routes.check_view import WORKS, check_view, summary_words, work_words
from server.routes.in_hand import in_hand
from server.routes.shown import library_of, shown, state_of
from server.routes.writing import ASKS, Form
from server.sourcecheck_batch import check_csv
from server.words import date_words

router = APIRouter(default_response_class=HTMLResponse)
CheckId = Annotated[int, Path(ge=1, le=2**62)]
SHOWN = 25  # checks on one page of the trail


@router.get("/check")
def check_page(
    request: Request,
    text: Annotated[str, Query(max_length=20_000)] = "",
    work: Annotated[str, Query(max_length=20)] = "",
) -> Response:
    """The form, with the aircraft in hand."""
    aircraft = in_hand(request, library_of(request)).registration
    return _form(request, {"text": text, "aircraft": aircraft, "work": work})


@router.post("/check", dependencies=ASKS)
def post_check(request: Request, form: Form) -> Response:
    """Check an entry and go to its page; an empty box comes back with the message beside it, status 422."""
    if not form.get("text", "").strip():
        return _form(request, form, problem_at="text")
    try:
        made = sourcecheck.check(
            library_of(request),
            form.get("text", ""),
            form.get("aircraft", ""),
            form.get("work", ""),
            day_of(form.get("on", "")),
        )
    except HangarleafError as problem:
        return _form(request, form, problem)
    return RedirectResponse(f"/checks/{made.id}", status_code=303)


@router.post("/check/batch", dependencies=ASKS)
def post_batch(request: Request, form: Form) -> Response:
    """A list of entries as CSV -> its findings as CSV."""
    if not form.get("csv", "").strip():
        return _form(request, form, problem_at="csv")
    try:
        batch = check_csv(library_of(request), form.get("csv", ""))
    except HangarleafError as problem:
        return _form(request, form, problem)
    return csv_file(batch.text, "findings.csv", mark=True)


@router.get("/checks")
def checks_page(request: Request, offset: Annotated[int, Query(ge=0, le=2**62)] = 0) -> Response:
    library = library_of(request)
    total = count_checks(library.catalogue)
    kept = kept_checks(library.catalogue, SHOWN, offset)
    return shown(
        request,
        "checks.html",
        state_of(library),
        checks=[
            {
                "id": each.id,
                "at": each.at,
                "text": each.text,
                "aircraft": each.aircraft,
                "work": work_words(each.work) if each.work else "",
                "summary": summary_words(each.answer),
            }
            for each in kept
        ],
        total=total,
        first=offset + 1,
        previous=_trail_address(max(0, offset - SHOWN)) if offset else "",
        next=_trail_address(offset + SHOWN) if offset + SHOWN < total else "",
    )


@router.get("/checks/{check_id}")
def one_check_page(
    request: Request, check_id: CheckId, before: Annotated[int, Query(ge=0, le=2**62)] = 0
) -> Response:
    """One check as it was answered; with `before`, what differs from an earlier one."""
    library = library_of(request)
    answer = sourcecheck.kept(library, check_id)
    earlier = sourcecheck.kept(library, before) if before else None
    state = state_of(library)
    return shown(
        request,
        "check_one.html",
        state,
        check=check_view(answer),
        older_state=answer["library_state"]["generation"] != state.generation,
        before=check_view(earlier) if earlier else None,
        differs=list(differences(earlier, answer)) if earlier else [],
    )


@router.post("/checks/{check_id}/again", dependencies=ASKS)
def check_again(request: Request, check_id: CheckId) -> Response:
    """Ask the same of today's library: a new check, shown with what differs."""
    library = library_of(request)
    kept = sourcecheck.kept(library, check_id)
    day = datetime.date.fromisoformat(kept["on"]) if kept["on"] else None
    try:
        made = sourcecheck.check(library, kept["text"], kept["aircraft"], kept["work"], day)
    except HangarleafError as problem:  # the aircraft may have left the fleet list
        return _form(request, {name: kept[name] for name in ("text", "aircraft", "work")}, problem)
    return RedirectResponse(f"/checks/{made.id}?{urlencode({'before': check_id})}", status_code=303)


def _trail_address(offset: int) -> str:
    return f"/checks?offset={offset}" if offset else "/checks"


def _form(
    request: Request, given: dict[str, str], problem: HangarleafError | None = None, problem_at: str = ""
) -> Response:
    """The form again. problem_at: the box that was left empty, "text" or "csv"."""
    library = library_of(request)
    aircraft = [
        {
            "registration": each.registration,
            "words": f"{each.registration}: {each.model}, serial {each.serial or 'not known'}, "
            f"{f'confirmed {date_words(each.confirmed_on)}' if each.confirmed_on else 'never confirmed'}",
        }
        for each in fleet(library.catalogue)
    ]
    return shown(
        request,
        "check.html",
        state_of(library),
        400 if problem else 422 if problem_at else 200,
        given=given,
        works=WORKS,
        fleet=aircraft,
        problem=problem,
        problem_at=problem_at,
        kept=count_checks(library.catalogue),
    )
