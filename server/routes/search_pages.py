"""The search page, whole and as you type: hits grouped by chapter, and the links that narrow or widen."""

from dataclasses import dataclass, replace
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Path, Query, Request
from fastapi.responses import HTMLResponse, Response

from indexer.errors import QueryProblem
from server.hiding import hides
from server.opened import OpenedLibrary
from server.routes.addresses import OFF, ON, Asked, page_address
from server.routes.found_view import found_view
from server.routes.in_hand import InHand, in_hand
from server.routes.shown import library_of, part_shown, shown, state_of
from server.routes.start_view import start_view
from server.routes.turns import TYPING
from server.routes.views import Fact, publication_view
from server.search import SearchAnswer, note_if_missed, search
from server.why import why

PER_CHAPTER = 5  # hits of one chapter shown at first, so that the next chapter is not far below
OPEN_CHAPTERS = 3  # that stand open at first
LIMIT_IN_CHAPTER = 200  # hits shown when one chapter is asked for
NO_STORE = {"Cache-Control": "no-store"}

router = APIRouter(default_response_class=HTMLResponse)
Values = Annotated[list[str], Query()]


@dataclass(frozen=True, slots=True)
class AskedHere:
    """A search as an address asks it; see `Asked`."""

    asked: Asked
    as_typed: bool
    current: bool
    begun: bool
    misread: bool
    hide: str


def asked_here(
    q: Annotated[str, Query(max_length=500)] = "",
    chapter: Values = [],  # noqa: B006
    type: Values = [],  # noqa: B006
    standing: Values = [],  # noqa: B006
    publication: Values = [],  # noqa: B006
    as_typed: bool = False,
    aircraft: Annotated[str, Query(max_length=40)] = "",
    hide: Annotated[str, Query(max_length=40)] = "",
    misread: bool = True,
    current: bool = False,
    begun: bool = False,
) -> AskedHere:
    asked = Asked(
        q.strip(),
        tuple(chapter),
        tuple(type),
        tuple(standing),
        tuple(publication),
        (ON,) if as_typed else (),
        (aircraft,) if aircraft else (),
        (hide,) if hide else (),
        () if misread else (OFF,),
        (ON,) if current else (),
        (ON,) if begun else (),
    )
    return AskedHere(asked, as_typed, current, begun, misread, hide)


Here = Annotated[AskedHere, Depends(asked_here)]


@router.get("/")
def search_page(request: Request, here: Here) -> Response:
    return _page(request, here, shown, "search.html")


@router.get("/find")
async def find(request: Request, here: Here) -> Response:
    """What the search page holds below its box, for words that are still being typed."""

    def found() -> Response:
        response = _page(request, here, part_shown, "_found.html")
        response.headers.update(NO_STORE)
        return response

    return await TYPING.take(request, found)


@router.get("/find/chapter/{filed}")
def find_chapter(request: Request, here: Here, filed: Annotated[str, Path(max_length=20)]) -> Response:
    """The hits of one chapter, for a group that is opened in place."""
    library = library_of(request)
    back = here.asked.address
    here = replace(here, asked=here.asked.with_value("chapter", filed))
    answer = _answer(library, here, in_hand(request, library))
    view = found_view(library, here.asked, answer)
    response = part_shown(
        request, "_hits.html", answer.state, back=back, group=next(iter(view["groups"]), None)
    )
    response.headers.update(NO_STORE)
    return response


@router.get("/passages/{passage_id}/why")
def why_page(request: Request, here: Here, passage_id: Annotated[str, Path(max_length=120)]) -> Response:
    library = library_of(request)
    asked = here.asked
    found = why(
        library,
        passage_id,
        asked.q,
        asked.chapter,
        asked.type,
        asked.standing,
        asked.publication,
        here.as_typed,
        here.misread,
        here.begun,
    )
    back = asked.address.removeprefix("/?")
    passage = found.passage
    return shown(
        request,
        "why.html",
        found.state,
        why=found,
        back=asked.address,
        publication=publication_view(found.publication),
        address=page_address(
            found.publication.id, passage.pdf_page, passage=passage.id, q=found.question, back=back
        ),
        numbers=[
            Fact("Filed under" if rank == 0 else "Also carries", str(tag.value), tag.evidence)
            for rank, tag in enumerate(passage.numbers)
        ],
    )


def _page(request: Request, here: AskedHere, show: Any, template: str) -> Response:
    """The page, or the part of it below the box: made by the same functions from the same template."""
    library, asked = library_of(request), here.asked
    hand = in_hand(request, library)
    if not asked.asks:
        state, start = start_view(library, hand.registration)
        return show(request, template, state, **_about(asked, start=start))
    try:
        answer = _answer(library, here, hand)
    except QueryProblem as problem:
        status = 200 if here.begun else 400  # what is still being typed need not be whole
        return show(request, template, state_of(library), status, **_about(asked, problem=problem))
    if show is shown:  # a person asked; what is still being typed is no question yet
        note_if_missed(library, answer)
    rest = answer.numbers.question.text  # without the chapter that became a filter
    asked = Asked.of(
        rest,
        answer.filters,
        here.as_typed,
        asked.aircraft,
        asked.hide,
        asked.misread,
        asked.current,
        asked.begun,
    )
    return show(
        request, template, answer.state, **_about(asked, answer=answer), **found_view(library, asked, answer)
    )


def _about(asked: Asked, **more: Any) -> dict[str, Any]:
    kept = [pair for pair in asked.filters if pair[0] != "begun"]
    about = {"question": asked.q, "kept": kept, "begun": bool(asked.begun)}
    return {**about, "problem": None, "answer": None, "start": None, **more}


def _answer(library: OpenedLibrary, here: AskedHere, hand: InHand) -> SearchAnswer:
    asked = here.asked
    in_one_chapter = len(asked.chapter) == 1
    return search(
        library,
        asked.q,
        asked.chapter,
        asked.type,
        asked.standing,
        asked.publication,
        limit=LIMIT_IN_CHAPTER if in_one_chapter else PER_CHAPTER * OPEN_CHAPTERS,
        per_chapter=None if in_one_chapter else PER_CHAPTER,
        as_typed=here.as_typed,
        aircraft=hand.registration,
        hide_not_applying=hides(here.hide),
        misread=here.misread,
        current=here.current,
        begun=here.begun,
        groups=OPEN_CHAPTERS,
    )
