"""The shop's fleet: a page to read and edit it, and the choice of the aircraft in hand."""

import datetime
from functools import partial
from typing import Annotated, Any

from fastapi import APIRouter, Query, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from indexer.errors import ForeignOrigin, HangarleafError
from indexer.library import fleet, fleet_list
from indexer.library.day import today
from indexer.library.fleet_records import Aircraft, Fitted, FittedKind
from indexer.library.fleet_values import fitted_words, kind_given
from indexer.library.shop_lists import Imported
from server.fleet import aircraft_words, confirmed_words, import_words, is_old, serial_words
from server.rights import Right
from server.routes.answers import csv_file
from server.routes.in_hand import choose_address, is_from_elsewhere, keep, local_address
from server.routes.list_pages import after, after_import
from server.routes.shown import library_of, shown, state_of
from server.routes.writer import writer
from server.routes.writing import Form, require

router = APIRouter(default_response_class=HTMLResponse)


@router.get("/fleet")
def fleet_page(request: Request, done: Annotated[str, Query(max_length=300)] = "") -> Response:
    return _page(request, done=done)


@router.get("/fleet.csv")
def fleet_csv(request: Request) -> Response:
    return csv_file(fleet_list.export_csv(library_of(request).catalogue), "fleet.csv")


@router.get("/fleet/choose")
def choose_page(
    request: Request,
    aircraft: Annotated[str | None, Query(max_length=40)] = None,
    back: Annotated[str, Query(max_length=2000)] = "/",
) -> Response:
    """Without `aircraft` the list to choose from; with a registration it is taken in hand, with "" none is.

    Nothing in the library changes. Raises AircraftUnknown, ForeignOrigin, QueryProblem for a `back` that is
    no address of this service.
    """
    library = library_of(request)
    address = local_address(back)
    if aircraft is None:
        rows = fleet.fleet(library.catalogue)
        day = today(library.catalogue)
        chosen = [(choose_address(address, each.registration), _card(each, day)) for each in rows]
        return shown(request, "fleet_choose.html", state_of(library), rows=chosen, back=address)
    if is_from_elsewhere(request):
        raise ForeignOrigin(request.headers.get("origin") or "another site")
    registration = fleet.aircraft(library.catalogue, aircraft).registration if aircraft.strip() else ""
    response = RedirectResponse(address, status_code=303)
    keep(response, registration)
    return response


@router.post("/fleet", dependencies=[require(Right.FLEET)])
def post_aircraft(request: Request, form: Form) -> Response:
    def act() -> str:
        row = fleet.add(
            library_of(request).catalogue,
            form.get("registration", ""),
            form.get("model", ""),
            form.get("who", ""),
            form.get("serial", ""),
            form.get("maker", ""),
            form.get("note", ""),
            (),
            form.get("on", ""),
        )
        return f"Added: {aircraft_words(row)}."

    return after(form, "/fleet", act, partial(_page, request))


@router.post("/fleet/change", dependencies=[require(Right.FLEET)])
def post_change(request: Request, form: Form) -> Response:
    def act() -> str:
        row = fleet.change(
            library_of(request).catalogue,
            form.get("aircraft", ""),
            form.get("who", ""),
            form.get("why", ""),
            form.get("registration"),
            form.get("maker"),
            form.get("model"),
            form.get("serial"),
            form.get("note"),
        )
        return f"Changed: {aircraft_words(row)}. Confirm the row when it was held against the aircraft."

    return after(form, "/fleet", act, partial(_page, request))


@router.post("/fleet/confirm", dependencies=[require(Right.FLEET)])
def post_confirm(request: Request, form: Form) -> Response:
    def act() -> str:
        row = fleet.confirm(
            library_of(request).catalogue,
            form.get("aircraft", ""),
            form.get("who", ""),
            form.get("on", ""),
        )
        words = confirmed_words(row, today(library_of(request).catalogue))
        return f"{row.registration}: {words}."

    return after(form, "/fleet", act, partial(_page, request))


@router.post("/fleet/fit", dependencies=[require(Right.FLEET)])
def post_fit(request: Request, form: Form) -> Response:
    def act() -> str:
        new = Fitted(
            kind_given(form.get("kind", "")),
            form.get("model", ""),
            form.get("serial", ""),
            form.get("maker", ""),
            form.get("position", ""),
            form.get("note", ""),
        )
        row = fleet.fit(
            library_of(request).catalogue,
            form.get("aircraft", ""),
            new,
            form.get("who", ""),
            form.get("why", ""),
            bool(form.get("instead")),
        )
        return f"{row.registration}: {fitted_words(row.fitted[-1])} entered."

    return after(form, "/fleet", act, partial(_page, request))


@router.post("/fleet/unfit", dependencies=[require(Right.FLEET)])
def post_unfit(request: Request, form: Form) -> Response:
    def act() -> str:
        kind, position, model, serial = (*form.get("fitted", "").split("|", 3), "", "", "")[:4]
        row = fleet.unfit(
            library_of(request).catalogue,
            form.get("aircraft", ""),
            kind_given(kind),
            form.get("who", ""),
            form.get("why", ""),
            position,
            model,
            serial,
        )
        return f"{row.registration}: {kind} {model} taken out."

    return after(form, "/fleet", act, partial(_page, request))


@router.post("/fleet/remove", dependencies=[require(Right.FLEET)])
def post_removal(request: Request, form: Form) -> Response:
    def act() -> str:
        gone = fleet.remove(
            library_of(request).catalogue,
            form.get("aircraft", ""),
            form.get("who", ""),
            form.get("why", ""),
        )
        return f"Taken out: {gone.registration}."

    return after(form, "/fleet", act, partial(_page, request))


@router.post("/fleet/import", dependencies=[require(Right.FLEET)])
def post_import(request: Request, form: Form) -> Response:
    def take() -> Imported:
        return fleet_list.import_csv(
            library_of(request).catalogue, form.get("csv", ""), form.get("who", ""), form.get("why", "")
        )

    return after_import(form, "/fleet", take, import_words, partial(_page, request))


def _page(
    request: Request,
    given: dict[str, str] | None = None,
    problem: HangarleafError | None = None,
    lines: list[dict[str, Any]] | None = None,
    said: str = "",
    done: str = "",
) -> Response:
    library = library_of(request)
    day = today(library.catalogue)
    return shown(
        request,
        "fleet.html",
        state_of(library),
        400 if problem or lines else 200,
        cards=[_card(row, day) for row in fleet.fleet(library.catalogue)],
        kinds=[kind.value for kind in FittedKind],
        given=given or {},
        problem=problem,
        lines=lines or [],
        said=said,
        done=done,
        writer=writer(request, Right.FLEET),
    )


def _told_apart(each: Fitted) -> tuple[str, str, str]:
    return each.position, each.model, each.serial


def _card(row: Aircraft, day: datetime.date) -> dict[str, Any]:
    words = confirmed_words(row, day)
    return {
        "row": row,
        "serial": serial_words(row.serial),
        "confirmed": words[:1].upper() + words[1:],
        "is_old": is_old(row, day),
        "fitted": [
            {"words": fitted_words(each), "value": "|".join((each.kind, *_told_apart(each)))}
            for each in row.fitted
        ],
        "choose": choose_address("/", row.registration),
    }
