"""The librarian's desk: the queue as cards, the form for a tag that is wrong, the trail of entries."""

from typing import Annotated, Any
from urllib.parse import urlencode

from fastapi import APIRouter, Path, Query, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from indexer.errors import HangarleafError
from indexer.library.entry_values import QUICK_REASONS
from indexer.library.own_order import outer_section
from indexer.library.problems import EntryRefused, ItemUnknown
from indexer.library.records import EntryKind, EntryState
from indexer.library.tag_reports import open_reports
from server import desk
from server.page_lookup import passages_on
from server.register import overdue_count
from server.review_progress import review_progress
from server.rights import Right
from server.routes.desk_view import (
    STANDINGS,
    TYPES,
    Given,
    cause_chips,
    desk_address,
    done_view,
    entry_view,
    item_view,
)
from server.routes.shown import library_of, shown, state_of
from server.routes.views import passage_view, publication_view
from server.routes.writer import remember, writer
from server.routes.writing import Form, require

router = APIRouter(default_response_class=HTMLResponse)
ItemId = Annotated[str, Path(max_length=60)]
EntryId = Annotated[int, Path(ge=1, le=2**62)]
_CHOICES = {"nothing": Given(), "reasons": QUICK_REASONS, "types": TYPES, "standings": STANDINGS}


@router.get("/desk")
def desk_page(
    request: Request,
    cause: Annotated[list[str], Query()] = [],  # noqa: B006
    offset: Annotated[int, Query(ge=0, le=2**62)] = 0,
    left_out: bool = False,
    done: Annotated[str, Query(max_length=200)] = "",
) -> Response:
    library, who = library_of(request), writer(request, Right.TAGS)
    causes = tuple(cause)
    answer = desk.queue(library, causes, desk.SHOWN, offset, left_out)
    after = offset + desk.SHOWN
    return shown(
        request,
        "desk.html",
        state_of(library),
        writer=who,
        overdue=overdue_count(library),
        reported=len(open_reports(library.catalogue)),
        items=[item_view(library, item, who) for item in answer["items"]],
        total=answer["total"],
        progress=review_progress(library, answer["counts"]),
        chips=cause_chips(answer["counts"], causes),
        left_out=answer["left_out"],
        showing_left_out=left_out,
        first=offset + 1,
        previous=desk_address(causes, max(0, offset - desk.SHOWN), left_out) if offset else "",
        next=desk_address(causes, after, left_out) if after < answer["total"] else "",
        back=desk_address(causes, 0, left_out),
        done=done_view(library, done, who),
        **_CHOICES,
    )


@router.get("/desk/items/{item_id}")
def item_page(request: Request, item_id: ItemId) -> Response:
    return _item_page(request, item_id)


@router.post("/desk/items/{item_id}", dependencies=[require(Right.TAGS)])
def post_item(request: Request, item_id: ItemId, form: Form) -> Response:
    library = library_of(request)
    try:
        made = _answer(library, item_id, form)
    except ItemUnknown:
        raise
    except HangarleafError as problem:
        return _item_page(request, item_id, form, problem)
    return _done(form, [each.id for each in made])


def _answer(library: Any, item_id: str, form: dict[str, str]) -> list[Any]:
    """Do what the pressed button says. Raises EntryRefused and what desk.py raises."""
    who, why = form.get("who", ""), _reason(form)
    if "file_under" in form:
        return desk.decide(library, item_id, EntryKind.CHAPTERS, form["file_under"], who, why)
    answer = form.get("answer", "")
    if answer == "dismiss":
        return desk.dismiss(library, item_id, who, why)
    if answer in ("agree", "undo"):
        entry_id = desk.item(library, item_id)["entry"]
        if entry_id is None:
            raise EntryRefused("no entry waits here", "Choose one of the answers of this question.")
        if answer == "agree":
            return [desk.agree(library, entry_id, who)]
        return desk.undo(library, [entry_id], who, why)
    kind, value = _kind_and_value(answer, form)
    return desk.decide(library, item_id, kind, value, who, why)


def _kind_and_value(answer: str, form: dict[str, str]) -> tuple[EntryKind, str]:
    if answer == "no_chapter":
        return EntryKind.CHAPTERS, ""
    if answer not in ("chapters", "type", "number", "title", "revision", "date", "standing", "note"):
        raise EntryRefused("no answer was chosen", "Press the button of the answer that is right.")
    value = form.get(answer, "")
    if answer == "chapters" and not value:
        raise EntryRefused("no chapter is given", "Write it as 32 or 32-41, or press the button for none.")
    return EntryKind(answer), value


def _reason(form: dict[str, str]) -> str:
    """Words printed at the place, else own words, else the quick choice."""
    return form.get("printed") or form.get("why") or form.get("why_quick", "")


def _done(form: dict[str, str], entry_ids: list[int]) -> Response:
    """Back to where the form came from; the name is remembered on this device."""
    back = form.get("back", "")
    if not back.startswith("/desk") or "\\" in back:
        back = "/desk"
    numbers = ",".join(str(each) for each in entry_ids)
    joint = "&" if "?" in back else "?"
    response = RedirectResponse(f"{back}{joint}{urlencode({'done': numbers})}", status_code=303)
    remember(response, form.get("who", ""))
    return response


def _item_page(
    request: Request,
    item_id: str,
    given: dict[str, str] | None = None,
    problem: HangarleafError | None = None,
) -> Response:
    library, who = library_of(request), writer(request, Right.TAGS)
    return shown(
        request,
        "desk_item.html",
        state_of(library),
        400 if problem else 200,
        writer=who,
        item=item_view(library, desk.item(library, item_id), who),
        given=Given(given or {}),
        problem=problem,
        back=(given or {}).get("back", "/desk"),
        **_CHOICES,
    )


@router.get("/desk/new")
def new_page(
    request: Request,
    publication: Annotated[str, Query(max_length=80)],
    pdf_page: Annotated[int, Query(ge=1, le=2**62)],
    passage: Annotated[str, Query(max_length=120)] = "",
) -> Response:
    return _new_page(request, publication, pdf_page, passage)


@router.post("/desk/new", dependencies=[require(Right.TAGS)])
def post_new(request: Request, form: Form) -> Response:
    library = library_of(request)
    publication, passage = form.get("publication", ""), form.get("passage", "")
    pdf_page = int(form["pdf_page"]) if form.get("pdf_page", "").isdigit() else 1
    reach = form.get("reach", "passage" if passage else "page")
    try:
        last = form.get("last_page", "") if reach == "pages" else ""
        if last and not last.isdigit():
            raise EntryRefused(f"«{last}» is no PDF page", "Write the number of the last page meant.")
        place = desk.Place(
            publication,
            pdf_page,
            int(last) if last else None,
            reach.removeprefix("section:") if reach.startswith("section:") else "",
            passage if reach == "passage" else "",
        )
        kind, value = _kind_and_value(form.get("answer", ""), form)
        made = desk.enter(library, place, kind, value, form.get("who", ""), _reason(form))
    except HangarleafError as problem:
        return _new_page(request, publication, pdf_page, passage, form, problem)
    return _done({**form, "back": "/desk/entries"}, [each.id for each in made])


def _new_page(
    request: Request,
    publication_id: str,
    pdf_page: int,
    passage_id: str,
    given: dict[str, str] | None = None,
    problem: HangarleafError | None = None,
) -> Response:
    library = library_of(request)
    with library.reading() as status:
        owner = library.publication(publication_id)
        library.catalogue.page(owner.copy_id, pdf_page)
        here = passages_on(library.catalogue, owner, pdf_page)
        meant = next((passage for passage in here if passage.id == passage_id), None)
        first = meant or (here[0] if here else None)
        own = first.own_number if first else None
        state = library.state(status)
    return shown(
        request,
        "desk_new.html",
        state,
        400 if problem else 200,
        writer=writer(request, Right.TAGS),
        publication=publication_view(owner),
        owner=owner,
        pdf_page=pdf_page,
        passage=passage_view(meant, (), True, "") if meant else None,
        passage_id=meant.id if meant else "",
        sections=list(dict.fromkeys((str(own.value), outer_section(own.value.chapter)))) if own else [],
        given=Given(given or {}),
        problem=problem,
        **_CHOICES,
    )


@router.get("/desk/entries")
def entries_page(
    request: Request,
    publication: Annotated[str, Query(max_length=80)] = "",
    state: Annotated[str, Query(max_length=40)] = "",
    done: Annotated[str, Query(max_length=200)] = "",
) -> Response:
    return _entries_page(request, publication, state, done)


def _entries_page(
    request: Request,
    publication: str = "",
    state: str = "",
    done: str = "",
    problem: HangarleafError | None = None,
    about: int = 0,
    given: dict[str, str] | None = None,
) -> Response:
    library, who = library_of(request), writer(request, Right.TAGS)
    wanted = EntryState(state) if state in list(EntryState) else None
    every = desk.entries(library, publication)["entries"]
    chips = [
        {
            "name": each.value[:1].upper() + each.value[1:],
            "count": sum(entry["state"] == each.value for entry in every),
            "on": each is wanted,
            "address": "/desk/entries"
            if each is wanted
            else f"/desk/entries?{urlencode({'state': each.value})}",
        }
        for each in EntryState
    ]
    return shown(
        request,
        "desk_entries.html",
        state_of(library),
        400 if problem else 200,
        writer=who,
        entries=[
            entry_view(library, entry, who)
            for entry in every
            if wanted is None or entry["state"] == wanted.value
        ],
        chips=[chip for chip in chips if chip["count"] or chip["on"]],
        done=done_view(library, done, who),
        problem=problem,
        about=about,
        given=Given(given or {}),
        **_CHOICES,
    )


@router.post("/desk/entries/undo", dependencies=[require(Right.TAGS)])
def post_undo(request: Request, form: Form) -> Response:
    """Take back one entry, or all that one decision made."""
    numbers = [int(one) for one in form.get("entries", "").split(",") if one.isdigit()]
    try:
        desk.undo(library_of(request), numbers, form.get("who", ""), _reason(form))
    except HangarleafError as problem:
        return _entries_page(request, problem=problem, about=numbers[0] if numbers else 0, given=form)
    return _done(form, numbers)


@router.post("/desk/entries/{entry_id}/agree", dependencies=[require(Right.TAGS)])
def post_agree(request: Request, entry_id: EntryId, form: Form) -> Response:
    try:
        desk.agree(library_of(request), entry_id, form.get("who", ""))
    except HangarleafError as problem:
        return _entries_page(request, problem=problem, about=entry_id, given=form)
    return _done({**form, "back": "/desk/entries"}, [entry_id])
