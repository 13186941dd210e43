"""The revision register and what was effective on a day, as pages."""

import datetime
from functools import partial
from typing import Annotated, Any
from urllib.parse import urlencode

from fastapi import APIRouter, Path, Query, Request
from fastapi.responses import HTMLResponse, Response

from indexer.errors import HangarleafError
from indexer.library.day import today
from indexer.library.problems import EntryRefused
from indexer.library.records import PublicationRecord
from indexer.library.register import DIRECTIVE_LIST, DIRECTIVE_LIST_NAME, day_given
from indexer.library.register_lists import export_csv, import_csv
from indexer.library.shop_lists import Imported
from indexer.trade.evidence import Answer
from server import register
from server.effective_on import EffectiveOn, PageOn, count_words, effective_on
from server.opened import OpenedLibrary
from server.rights import Right
from server.routes.addresses import page_address, publication_address
from server.routes.answers import csv_file
from server.routes.desk_view import Given
from server.routes.list_pages import after, after_import
from server.routes.shown import library_of, shown, state_of
from server.routes.views import publication_view
from server.routes.writer import writer
from server.routes.writing import Form, require
from server.words import date_words

router = APIRouter(default_response_class=HTMLResponse)
_NEVER_SHOWN = 50  # publications nobody has checked that the page names
_MOST_CHOICES = 200  # works to choose from; with more, the one meant is named in words


@router.get("/register")
def register_page(
    request: Request, publication: Annotated[str, Query(max_length=300)] = "", done: str = ""
) -> Response:
    return _page(request, {"publication": publication}, done=done[:300])


@router.get("/register.csv")
def register_csv(request: Request) -> Response:
    return csv_file(export_csv(library_of(request).catalogue), "revision-register.csv")


@router.post("/register", dependencies=[require(Right.REGISTER)])
def post_check(request: Request, form: Form) -> Response:
    def keep() -> str:
        kept = register.record(
            library_of(request),
            form.get("publication", ""),
            form.get("revision", ""),
            form.get("date", ""),
            form.get("source", ""),
            form.get("checked_on", ""),
            form.get("who", ""),
            _days(form.get("recheck_days", ""), request.app.state.settings.recheck_days),
            form.get("note", ""),
        )
        return f"Recorded. {kept['publication']}: {kept['words']}."

    return after(form, "/register", keep, partial(_page, request))


@router.post("/register/undo", dependencies=[require(Right.REGISTER)])
def post_undo(request: Request, form: Form) -> Response:
    def undo() -> str:
        number = form.get("check", "")
        check_id = int(number) if number.isascii() and number.isdigit() else 0
        gone = register.undo(library_of(request), check_id, form.get("who", ""), form.get("why", ""))
        return f"Taken back. {gone['publication']}: {gone['words']}."

    return after(form, "/register", undo, partial(_page, request))


@router.post("/register/import", dependencies=[require(Right.REGISTER)])
def post_import(request: Request, form: Form) -> Response:
    def take() -> Imported:
        days = request.app.state.settings.recheck_days
        return import_csv(library_of(request).catalogue, form.get("csv", ""), form.get("who", ""), days)

    return after_import(form, "/register", take, register.import_words, partial(_page, request))


@router.get("/publications/{publication_id}/effective")
def effective_page(
    request: Request,
    publication_id: Annotated[str, Path(max_length=80)],
    on: Annotated[str, Query(max_length=10)] = "",
) -> Response:
    library = library_of(request)
    day = day_given(on) if on else today(library.catalogue)
    with library.reading():
        answer = effective_on(library, publication_id, day)
        record = library.publication(publication_id)
    return shown(
        request,
        "effective.html",
        state_of(library),
        publication=publication_view(record),
        address=publication_address(publication_id),
        day=day,
        day_words=date_words(day),
        counted=count_words(answer),
        newest=_newest(answer),
        notes=answer.notes,
        pages=[_page_view(each) for each in answer.pages],
        pages_overridden=sum(bool(each.temporary) for each in answer.pages),
    )


def _newest(answer: EffectiveOn) -> str:
    if answer.revision is None:
        return "none"
    date = f" of {date_words(answer.revision.date)}" if answer.revision.date else ""
    return f"revision {answer.revision.revision or 'without a number'}{date}"


def _page_view(each: PageOn) -> dict[str, Any]:
    page = each.page
    return {
        "name": f"{page.number} page {page.printed_page}".strip(),
        "sure": page.answer is Answer.YES,
        "why": page.why,
        "address": page_address(page.record.id, page.pdf_page) if page.record and page.pdf_page else "",
        "temporary": [
            {"words": one.words, "address": page_address(one.record.id, one.pdf_page)}
            for one in each.temporary
        ],
    }


def _days(given: str, default: int) -> int:
    if not given:
        return default
    if not given.isascii() or not given.isdigit():
        raise EntryRefused(f"\u00ab{given}\u00bb is no number of days", "Write it in figures: 90.")
    return int(given)


def _page(
    request: Request,
    given: dict[str, str],
    problem: HangarleafError | None = None,
    lines: list[dict[str, Any]] | None = None,
    said: str = "",
    done: str = "",
) -> Response:
    library = library_of(request)
    answer = register.register(library)
    live = (register.STANDS, register.DUE)
    return shown(
        request,
        "register.html",
        state_of(library),
        400 if problem or lines else 200,
        overdue=[_check_view(check) for check in answer["overdue"]],
        standing=[_check_view(check) for check in answer["checks"] if check["state"] == register.STANDS],
        past=[_check_view(check) for check in answer["checks"] if check["state"] not in live],
        never=[
            {**record, "address": publication_address(record["publication"]), "record": _form_for(record)}
            for record in answer["never_checked"][:_NEVER_SHOWN]
        ],
        never_more=len(answer["never_checked"]) - _NEVER_SHOWN,
        choices=_choices(library, given.get("publication", "")),
        given=Given(given),
        writer=writer(request, Right.REGISTER),
        today=answer["on"],
        recheck_days=request.app.state.settings.recheck_days,
        problem=problem,
        lines=lines or [],
        said=said,
        done=done,
    )


def _form_for(record: dict[str, Any]) -> str:
    return f"/register?{urlencode({'publication': record['publication']})}#record"


def _check_view(check: dict[str, Any]) -> dict[str, Any]:
    held = [{**each, "address": publication_address(each["publication"])} for each in check["held"]]
    again = _form_for(held[0]) if held else ""
    if check["publication"] == DIRECTIVE_LIST_NAME:
        again = f"/register?{urlencode({'publication': DIRECTIVE_LIST})}#record"
    due = date_words(datetime.date.fromisoformat(check["review_due"]))
    return {**check, "held": held, "due": due, "again": again}


def _choices(library: OpenedLibrary, given: str) -> list[tuple[str, str]]:
    """(value, words) for the publications that a check may speak of: one for each work, by name.

    given   id of the publication asked for; "" = none. Of too many works to choose from it is the only one,
            and [] says that it is to be named in words.
    """
    works: dict[str, PublicationRecord] = {}
    for record in library.publications():
        if record.work_id not in works or record.id == given:
            works[record.work_id] = record
    listed = list(works.values())
    if len(listed) > _MOST_CHOICES:
        listed = [record for record in listed if record.id == given]
        if not listed and given != DIRECTIVE_LIST:
            return []
    named = []
    for record in listed:
        view = publication_view(record)
        named.append((record.id, f"{view.name} ({view.kind})"))
    return [(DIRECTIVE_LIST, DIRECTIVE_LIST_NAME), *sorted(named, key=lambda each: each[1].casefold())]
