"""The JSON API of the shop's fleet list."""

from typing import Annotated

from fastapi import APIRouter, Path, Request
from fastapi.responses import JSONResponse, Response

from indexer.library import fleet, fleet_list
from indexer.library.fleet_records import Fitted
from indexer.library.fleet_values import kind_given
from server.fleet import aircraft_fields, import_fields, one_aircraft
from server.fleet import fleet_list as list_fields
from server.rights import Right
from server.routes import fleet_models, models
from server.routes.answers import csv_file, described
from server.routes.asker import SentBy
from server.routes.list_models import Reasoned
from server.routes.shown import library_of
from server.routes.writing import require

router = APIRouter(
    prefix="/api/fleet",
    responses={
        400: {"model": models.ProblemAnswer, "description": "Not entered; it says what is wrong."},
        403: {"model": models.ProblemAnswer, "description": "This asker may not change it; it says why."},
        404: {"model": models.ProblemAnswer, "description": "There is no such aircraft in the list."},
    },
)
Registration = Annotated[str, Path(max_length=40, description="Case, blanks and dashes count for nothing.")]


@router.get("", **described(fleet_models.FleetList, "The shop's aircraft"))
def get_fleet(request: Request) -> Response:
    return JSONResponse(list_fields(library_of(request)))


@router.get(
    ".csv",
    responses={200: {"content": {"text/csv": {}}}},
    summary="The list as CSV, which /api/fleet/import takes back",
    response_class=Response,
)
def get_fleet_csv(request: Request) -> Response:
    return csv_file(fleet_list.export_csv(library_of(request).catalogue), "fleet.csv")


@router.post("", dependencies=[require(Right.FLEET)], **described(fleet_models.Aircraft, "Add an aircraft"))
def post_aircraft(request: Request, new: fleet_models.NewAircraft, who: SentBy) -> Response:
    row = fleet.add(
        library_of(request).catalogue,
        new.registration,
        new.model,
        who,
        new.serial,
        new.maker,
        new.note,
        [_fitted(each) for each in new.fitted],
        new.confirmed_on,
    )
    return JSONResponse(aircraft_fields(row))


@router.post(
    "/import",
    dependencies=[require(Right.FLEET)],
    **described(fleet_models.FleetImportAnswer, "Take a CSV text"),
)
def post_import(request: Request, sent: fleet_models.FleetToImport, who: SentBy) -> Response:
    taken = fleet_list.import_csv(library_of(request).catalogue, sent.csv, who, sent.why)
    return JSONResponse(import_fields(taken), 400 if taken.problems else 200)


@router.get("/{registration}", **described(fleet_models.AircraftAnswer, "One aircraft"))
def get_aircraft(request: Request, registration: Registration) -> Response:
    return JSONResponse(one_aircraft(library_of(request), registration))


@router.post(
    "/{registration}",
    dependencies=[require(Right.FLEET)],
    **described(fleet_models.Aircraft, "Change an aircraft"),
)
def post_change(
    request: Request, registration: Registration, given: fleet_models.Change, who: SentBy
) -> Response:
    row = fleet.change(
        library_of(request).catalogue,
        registration,
        who,
        given.why,
        given.registration,
        given.maker,
        given.model,
        given.serial,
        given.note,
        None if given.fitted is None else [_fitted(each) for each in given.fitted],
    )
    return JSONResponse(aircraft_fields(row))


@router.post(
    "/{registration}/confirm",
    dependencies=[require(Right.FLEET)],
    **described(fleet_models.Aircraft, "Confirm a row"),
)
def post_confirm(
    request: Request, registration: Registration, given: fleet_models.Confirmation, who: SentBy
) -> Response:
    row = fleet.confirm(library_of(request).catalogue, registration, who, given.on)
    return JSONResponse(aircraft_fields(row))


@router.post(
    "/{registration}/fit",
    dependencies=[require(Right.FLEET)],
    **described(fleet_models.Aircraft, "Enter an engine, propeller, appliance or alteration"),
)
def post_fit(request: Request, registration: Registration, given: fleet_models.Fit, who: SentBy) -> Response:
    catalogue = library_of(request).catalogue
    row = fleet.fit(catalogue, registration, _fitted(given.fitted), who, given.why, given.instead)
    return JSONResponse(aircraft_fields(row))


@router.post(
    "/{registration}/unfit",
    dependencies=[require(Right.FLEET)],
    **described(fleet_models.Aircraft, "Take out the one of a kind at a position or of a model"),
)
def post_unfit(
    request: Request, registration: Registration, given: fleet_models.Unfit, who: SentBy
) -> Response:
    kind = kind_given(given.kind)
    row = fleet.unfit(
        library_of(request).catalogue,
        registration,
        kind,
        who,
        given.why,
        given.position,
        given.model,
        given.serial,
    )
    return JSONResponse(aircraft_fields(row))


@router.post(
    "/{registration}/remove",
    dependencies=[require(Right.FLEET)],
    **described(fleet_models.Aircraft, "Take an aircraft out"),
)
def post_removal(request: Request, registration: Registration, given: Reasoned, who: SentBy) -> Response:
    gone = fleet.remove(library_of(request).catalogue, registration, who, given.why)
    return JSONResponse(aircraft_fields(gone))


def _fitted(given: fleet_models.NewFitted) -> Fitted:
    return Fitted(kind_given(given.kind), given.model, given.serial, given.maker, given.position, given.note)
