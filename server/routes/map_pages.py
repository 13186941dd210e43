"""The shop's map: a manual's own sections and the chapters they are filed under, edited in place."""

from datetime import datetime
from typing import Annotated, Any

from fastapi import APIRouter, Query, Request
from fastapi.responses import HTMLResponse, Response

from indexer.errors import HangarleafError
from indexer.library.entry_values import QUICK_REASONS
from indexer.library.problems import EntryRefused
from indexer.library.review_words import number_title
from indexer.library.shop_map import export_csv
from indexer.tagging.inference import LIKELY
from indexer.trade.chapters import ChapterNumber
from server import shop_map_view
from server.opened import OpenedLibrary
from server.rights import Right
from server.routes.addresses import page_address
from server.routes.answers import csv_file
from server.routes.desk_view import Given
from server.routes.list_pages import led_to
from server.routes.shown import library_of, shown
from server.routes.views import publication_view
from server.routes.writer import writer
from server.routes.writing import Form, require
from server.words import count_of

router = APIRouter(default_response_class=HTMLResponse)
PublicationName = Annotated[str, Query(max_length=200)]


@router.get("/map")
def map_page(request: Request, publication: PublicationName = "", done: str = "") -> Response:
    return _map_page(request, publication, done=done[:200])


@router.get("/map.csv")
def map_csv(request: Request) -> Response:
    return csv_file(export_csv(library_of(request).catalogue), "shop-map.csv")


@router.post("/map", dependencies=[require(Right.LISTS)])
def post_map(request: Request, form: Form) -> Response:
    """Map sections to chapters: one by its button, or all whose fields were changed."""
    library, publication = library_of(request), form.get("publication", "")
    try:
        words = _save(library, publication, form)
    except HangarleafError as problem:
        return _map_page(request, publication, form, problem)
    return _done(form, publication, words)


@router.post("/map/remove", dependencies=[require(Right.LISTS)])
def post_remove(request: Request, form: Form) -> Response:
    publication, number = form.get("publication", ""), form.get("line", "")
    try:
        gone = shop_map_view.remove(
            library_of(request), int(number) if number.isdigit() else 0, form.get("who", ""), _reason(form)
        )
    except HangarleafError as problem:
        return _map_page(request, publication, form, problem)
    return _done(form, publication, f"Taken out: {_line_words(gone)}.")


@router.post("/map/import", dependencies=[require(Right.LISTS)])
def post_import(request: Request, form: Form) -> Response:
    try:
        taken = shop_map_view.import_csv(library_of(request), form.get("csv", ""), form.get("who", ""))
    except HangarleafError as problem:
        return _map_page(request, "", form, problem)
    known = f"; {count_of(taken.already, 'line')} said what the map says already" if taken.already else ""
    return _done(
        form,
        "",
        f"{count_of(taken.added, 'line')} added{known}. {shop_map_view.not_held_words(taken)}".strip(),
    )


def _save(library: OpenedLibrary, publication: str, form: dict[str, str]) -> str:
    who, why = form.get("who", ""), _reason(form)
    wanted: list[tuple[str, str, str]] = []  # first, last, chapters
    if "map" in form:
        section, _, chapter = form["map"].partition("|")
        wanted.append((section, section, chapter))
    elif form.get("save") == "range":
        wanted.append((form.get("first", ""), form.get("last", ""), form.get("chapters", "")))
    else:
        for name, value in form.items():
            if name.startswith("chapters:") and value:
                section = name.removeprefix("chapters:")
                wanted.append((section, section, value))
    lines = shop_map_view.sections(library, publication)["lines"]
    changed = [
        (*each, before)
        for each in wanted
        if (before := _line_of(lines, each[0], each[1])) is None or _chapters(each[2]) != before["chapters"]
    ]
    if not changed:
        raise EntryRefused("nothing was changed", "Fill in the chapters of a section, then save.")
    for first, last, chapters, before in changed:
        shop_map_view.add(library, publication, first, last, chapters, who, why)
        if before:
            shop_map_view.remove(library, before["id"], who, why)
    return f"{count_of(len(changed), 'line')} saved."


def _line_of(lines: list[dict[str, Any]], first: str, last: str) -> dict[str, Any] | None:
    """The line that is about just this range; the latest of several."""
    ends = (first, last or first)
    alike = (line for line in lines if shop_map_view.same_range((line["first"], line["last"]), ends))
    return max(alike, key=lambda line: line["id"], default=None)


def _chapters(text: str) -> list[str]:
    return [part.strip() for part in text.replace(",", ";").split(";") if part.strip()]


def _reason(form: dict[str, str]) -> str:
    return form.get("why") or form.get("why_quick", "")


def _done(form: dict[str, str], publication: str, words: str) -> Response:
    return led_to("/map", words, form, **({"publication": publication} if publication else {}))


def _line_words(line: dict[str, Any]) -> str:
    ends = line["first"] if line["first"] == line["last"] else f"{line['first']} to {line['last']}"
    return f"{line['publication']}, section {ends}: {', '.join(line['chapters'])}"


def _line_view(line: dict[str, Any]) -> dict[str, Any]:
    return {**line, "words": _line_words(line), "made_at": datetime.fromisoformat(line["made_at"])}


def _map_page(
    request: Request,
    publication: str = "",
    given: dict[str, str] | None = None,
    problem: HangarleafError | None = None,
    done: str = "",
) -> Response:
    library = library_of(request)
    with library.reading() as status:
        answer = shop_map_view.sections(library, publication) if publication else None
        record = library.publication(answer["publication"]["id"]) if answer else None
        lines = answer["lines"] if answer else shop_map_view.rows(library)
        why_none = {} if answer else shop_map_view.unreached(library)
        state = library.state(status)
        manuals = [
            {"view": publication_view(library.publication(each["id"])), **each}
            for each in ([] if publication else shop_map_view.manuals(library))
        ]
    return shown(
        request,
        "map.html",
        state,
        400 if problem else 200,
        writer=writer(request, Right.LISTS),
        manuals=manuals,
        publication=publication_view(record) if record else None,
        sections=[_section_view(answer["publication"]["id"], each) for each in answer["sections"]]
        if answer
        else [],
        lines=[{**_line_view(line), "why_none": why_none.get(line["id"], "")} for line in lines],
        given=Given(given or {}),
        nothing=Given(),
        problem=problem,
        done=done,
        reasons=QUICK_REASONS,
    )


def _sure(confidence: float) -> str:
    return "likely" if confidence >= LIKELY else "possible"


def _section_view(publication_id: str, section: dict[str, Any]) -> dict[str, Any]:
    number = section["number"]
    exact = _line_of(section["mapped"], number, number)
    first, last = section["first_page"], section["last_page"]
    return {
        **section,
        "pages": f"PDF page {first}" if first == last else f"PDF pages {first} to {last}",
        "address": page_address(publication_id, first),
        "chapters": "; ".join(exact["chapters"]) if exact else "",
        "filed_words": ", ".join(
            f"{number_title(ChapterNumber(each['chapter']))} ({each['passages']})"
            for each in section["filed"][:3]
        ),
        "suggested": [
            {
                "value": f"{number}|{each['chapter']}",
                "words": number_title(ChapterNumber(each["chapter"])),
                "most": 2 * each["passages"] >= section["passages"],
                "how": f"{_sure(each['confidence'])}, {each['passages']} of {section['passages']}",
            }
            for each in section["worked_out"]
        ],
        "mapped_words": [_line_words(line) for line in section["mapped"]],
    }
