"""The JSON API of the librarian's desk and of the shop's map."""

from typing import Annotated, Any

from fastapi import APIRouter, Path, Query, Request
from fastapi.responses import JSONResponse, PlainTextResponse, Response

from indexer.library.records import EntryKind, EntryState
from indexer.library.shop_map import export_csv
from server import desk, shop_map_view
from server.rights import Right
from server.routes import desk_models, models
from server.routes.answers import csv_file, described
from server.routes.asker import SentBy
from server.routes.shown import library_of
from server.routes.writing import require

PROBLEMS: dict[int | str, dict[str, Any]] = {
    status: {"model": models.ProblemAnswer, "description": words}
    for status, words in (
        (400, "Not entered: incomplete, or none of its kind."),
        (403, "This asker may not change it; it says why."),
        (404, "There is no such question, entry, line or place."),
        (409, "A second person must be another person."),
    )
}
router = APIRouter(prefix="/api", responses=PROBLEMS)
ItemId = Annotated[str, Path(max_length=60)]
EntryId = Annotated[int, Path(ge=1, le=2**62)]


@router.get("/desk", **described(desk_models.QueueAnswer, "What the machine is unsure of"))
def get_queue(
    request: Request,
    cause: Annotated[list[desk_models.CauseWord], Query()] = [],  # noqa: B006
    limit: Annotated[int, Query(ge=0, le=500)] = desk.SHOWN,
    offset: Annotated[int, Query(ge=0, le=2**62)] = 0,
    left_out: Annotated[bool, Query(description="What nobody is asked about instead.")] = False,
) -> Response:
    return JSONResponse(desk.queue(library_of(request), cause, limit, offset, left_out))


@router.get("/desk/items/{item_id}", **described(desk_models.Question, "One open question"))
def get_item(request: Request, item_id: ItemId) -> Response:
    return JSONResponse(desk.item(library_of(request), item_id))


@router.post(
    "/desk/items/{item_id}",
    dependencies=[require(Right.TAGS)],
    **described(list[desk_models.Entry], "Answer or dismiss a question"),
)
def post_decision(request: Request, item_id: ItemId, decision: desk_models.Decision, who: SentBy) -> Response:
    library = library_of(request)
    if decision.dismiss:
        made = desk.dismiss(library, item_id, who, decision.why)
    else:
        kind = EntryKind(decision.kind)
        made = desk.decide(library, item_id, kind, decision.value, who, decision.why)
    return JSONResponse(desk.entries_by_id(library, [each.id for each in made]))


@router.get("/desk/entries", **described(desk_models.EntryList, "Every entry of the shop, newest first"))
def get_entries(
    request: Request,
    publication: Annotated[str, Query(max_length=80)] = "",
    state: Annotated[desk_models.StateWord | None, Query()] = None,
) -> Response:
    wanted = EntryState(state) if state else None
    return JSONResponse(desk.entries(library_of(request), publication, wanted))


@router.post(
    "/desk/entries",
    dependencies=[require(Right.TAGS)],
    **described(list[desk_models.Entry], "Enter something about a place"),
)
def post_entry(request: Request, new: desk_models.NewEntry, who: SentBy) -> Response:
    library = library_of(request)
    place = desk.Place(new.publication, new.pdf_page, new.last_page, new.section, new.passage)
    made = desk.enter(library, place, EntryKind(new.kind), new.value, who, new.why)
    return JSONResponse(desk.entries_by_id(library, [each.id for each in made]))


@router.post(
    "/desk/entries/{entry_id}/undo",
    dependencies=[require(Right.TAGS)],
    **described(list[desk_models.Entry], "Take an entry back"),
)
def post_undo(request: Request, entry_id: EntryId, undo: desk_models.Undo, who: SentBy) -> Response:
    library = library_of(request)
    desk.undo(library, [entry_id], who, undo.why)
    return JSONResponse(desk.entries_by_id(library, [entry_id]))


@router.post(
    "/desk/entries/{entry_id}/agree",
    dependencies=[require(Right.TAGS)],
    **described(list[desk_models.Entry], "Agree as the second person"),
)
def post_agreement(
    request: Request, entry_id: EntryId, agreement: desk_models.Agreement, who: SentBy
) -> Response:
    library = library_of(request)
    desk.agree(library, entry_id, who)
    return JSONResponse(desk.entries_by_id(library, [entry_id]))


@router.get("/map", **described(list[desk_models.MapLine], "The shop's map"))
def get_map(request: Request) -> Response:
    return JSONResponse(shop_map_view.rows(library_of(request)))


@router.post("/map", dependencies=[require(Right.LISTS)], **described(desk_models.MapLine, "Add a line"))
def post_line(request: Request, new: desk_models.NewMapLine, who: SentBy) -> Response:
    given = (new.publication, new.first, new.last, new.chapters, who, new.why)
    return JSONResponse(shop_map_view.add(library_of(request), *given))


@router.get("/map/sections", **described(desk_models.SectionList, "A manual's own sections"))
def get_sections(request: Request, publication: Annotated[str, Query(max_length=200)]) -> Response:
    return JSONResponse(shop_map_view.sections(library_of(request), publication))


@router.get("/map.csv", response_class=PlainTextResponse, summary="The shop's map as CSV")
def get_csv(request: Request) -> Response:
    return csv_file(export_csv(library_of(request).catalogue), "shop-map.csv")


@router.post(
    "/map/import",
    dependencies=[require(Right.LISTS)],
    **described(desk_models.Imported, "Add lines from CSV, all or none"),
)
def post_csv(request: Request, given: desk_models.MapCsv, who: SentBy) -> Response:
    taken = shop_map_view.import_csv(library_of(request), given.csv, who)
    return JSONResponse({"added": taken.added, "already": taken.already, "not_held": list(taken.not_held)})


@router.post(
    "/map/{row_id}/remove",
    dependencies=[require(Right.LISTS)],
    **described(desk_models.MapLine, "Take a line out"),
)
def post_removal(
    request: Request, row_id: Annotated[int, Path(ge=1, le=2**62)], undo: desk_models.Undo, who: SentBy
) -> Response:
    return JSONResponse(shop_map_view.remove(library_of(request), row_id, who, undo.why))
