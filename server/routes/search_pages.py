"""The search page: the question, the hits grouped by chapter, and the links that narrow or widen it."""

from dataclasses import dataclass, replace
from typing import Annotated

from fastapi import APIRouter, Path, Query, Request
from fastapi.responses import HTMLResponse, Response

from indexer.errors import QueryProblem
from indexer.library.fulltext import FullTextQuery
from indexer.trade.chapters import all_chapters
from server.applies_words import hidden_words
from server.facet_counts import facet_counts
from server.hiding import HIDE, hides
from server.looking import EVERYTHING
from server.opened import OpenedLibrary
from server.question import NO_NUMBER
from server.routes.addresses import OFF, ON, Asked, Chip, active_chips, facets, page_address
from server.routes.in_hand import in_hand
from server.routes.parts_hint import parts_hint
from server.routes.search_notes import note_views
from server.routes.shown import library_of, shown, state_of
from server.routes.views import Fact, HitView, hit_view, publication_view
from server.search import LIMIT, Group, SearchAnswer, listing_address, note_if_missed, search
from server.system_asked import number_name
from server.why import why
from server.words import chapter_words, count_of, not_searched_words, publication_name

PER_CHAPTER = 5  # hits of one chapter shown at first, so that the next chapter is not far below
LIMIT_IN_CHAPTER = 200  # hits shown when one chapter is asked for

router = APIRouter(default_response_class=HTMLResponse)
Values = Annotated[list[str], Query()]
Registration = Annotated[str, Query(max_length=40)]
Hide = Annotated[str, Query(max_length=40)]


@router.get("/")
def search_page(
    request: Request,
    q: Annotated[str, Query(max_length=500)] = "",
    chapter: Values = [],  # noqa: B006
    type: Values = [],  # noqa: B006
    standing: Values = [],  # noqa: B006
    publication: Values = [],  # noqa: B006
    as_typed: bool = False,
    aircraft: Registration = "",
    hide: Hide = "",
    misread: bool = True,
) -> Response:
    library = library_of(request)
    hand = in_hand(request, library)
    about = ((aircraft,) if aircraft else (), (hide,) if hide else (), () if misread else (OFF,))
    asked = Asked(q.strip(), tuple(chapter), tuple(type), tuple(standing), tuple(publication), (), *about)
    if not asked.asks:
        return _start(request, library)
    in_one_chapter = len(asked.chapter) == 1
    try:
        answer = search(
            library,
            asked.q,
            asked.chapter,
            asked.type,
            asked.standing,
            asked.publication,
            limit=LIMIT_IN_CHAPTER if in_one_chapter else LIMIT,
            per_chapter=None if in_one_chapter else PER_CHAPTER,
            as_typed=as_typed,
            aircraft=hand.registration,
            hide_not_applying=hides(hide),
            misread=misread,
        )
    except QueryProblem as problem:
        context = {"question": asked.q, "kept": [], "problem": problem, "answer": None, "browse": []}
        return shown(request, "search.html", state_of(library), 400, **context)
    note_if_missed(library, answer)
    rest = answer.numbers.question.text  # without the chapter that became a filter
    return _found(request, library, Asked.of(rest, answer.filters, as_typed, *about), answer)


@router.get("/passages/{passage_id}/why")
def why_page(
    request: Request,
    passage_id: Annotated[str, Path(max_length=120)],
    q: Annotated[str, Query(max_length=500)] = "",
    chapter: Values = [],  # noqa: B006
    type: Values = [],  # noqa: B006
    standing: Values = [],  # noqa: B006
    publication: Values = [],  # noqa: B006
    as_typed: bool = False,
    aircraft: Registration = "",
    hide: Hide = "",
    misread: bool = True,
) -> Response:
    library = library_of(request)
    found = why(library, passage_id, q, chapter, type, standing, publication, as_typed, misread)
    asked = Asked(
        q,
        tuple(chapter),
        tuple(type),
        tuple(standing),
        tuple(publication),
        (ON,) if as_typed else (),
        (aircraft,) if aircraft else (),
        (hide,) if hide else (),
        () if misread else (OFF,),
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


def _start(request: Request, library: OpenedLibrary) -> Response:
    """The search page before anything was asked, with the chapters that hold something."""
    with library.reading() as status:
        held = library.engine.search(FullTextQuery(filters=EVERYTHING), 0, 0)
        counts = {found.chapter: found.count for found in held.chapters}
        browse = [
            Chip(f"{number} {chapter_words(number)}", Asked(chapter=(number,)).address, counts[number])
            for number in all_chapters()
            if counts.get(number)
        ]
        if counts.get(""):
            browse.append(Chip(chapter_words(""), Asked(chapter=(NO_NUMBER,)).address, counts[""]))
        state = library.state(status)
    return shown(
        request, "search.html", state, question="", kept=[], problem=None, answer=None, browse=browse
    )


@dataclass(frozen=True, slots=True)
class _GroupView:
    chapter: str
    title: str
    count: int
    hits: list[HitView]
    more_address: str
    more_words: str


def _found(request: Request, library: OpenedLibrary, asked: Asked, answer: SearchAnswer) -> Response:
    names = _publication_names(library, asked)
    name = answer.aircraft.registration if answer.aircraft else ""
    back = asked.address.removeprefix("/?")
    all_facets = facets(asked, facet_counts(library, answer))
    by_chapter = bool(asked.chapter)
    return shown(
        request,
        "search.html",
        answer.state,
        question=asked.q,
        kept=asked.filters,
        problem=None,
        answer=answer,
        notes=note_views(answer, asked),
        parts=parts_hint(library, asked.q),
        systems=[
            Chip(f"{number_name(each.number)} {each.title}", listing_address(number_name(each.number)))
            for each in answer.systems
        ],
        active=active_chips(asked, names),
        facets=all_facets,
        more_facets=any(facet.items and not facet.first for facet in all_facets),
        groups=[_group(group, asked, back, name) for group in answer.groups if group.hits],
        other_chapters=[
            Chip(
                f"{group.chapter} {group.title}".strip(),
                asked.with_value("chapter", group.chapter or NO_NUMBER).address,
                group.count,
            )
            for group in answer.groups
            if not group.hits
        ],
        spread_words=_spread_words(answer),
        hiding=_hiding(answer, asked),
        not_searched_words=not_searched_words(
            answer.owed.without_text, answer.passages_not_numbered, by_chapter, answer.owed.words
        ),
    )


def _hiding(answer: SearchAnswer, asked: Asked) -> tuple[str, Chip] | None:
    """What is hidden, in words, and the way to show or to hide it; None without an aircraft."""
    if answer.aircraft is None:
        return None
    name = answer.aircraft.registration
    if answer.hidden is None:
        return "", Chip(f"Hide what does not apply to {name}", replace(asked, hide=(HIDE,)).address)
    words = hidden_words(answer.hidden, name)
    return words, Chip("Show everything", replace(asked, hide=()).address)


def _group(group: Group, asked: Asked, back: str, registration: str) -> _GroupView:
    more = group.count - len(group.hits)
    only = asked.with_value("chapter", group.chapter or NO_NUMBER)
    return _GroupView(
        group.chapter,
        group.title,
        group.count,
        [hit_view(hit, asked.q, back, registration) for hit in group.hits],
        only.address if more > 0 and only != asked else "",
        f"All {group.count:,} {f'in chapter {group.chapter}' if group.chapter else 'not numbered'}",
    )


def _spread_words(answer: SearchAnswer) -> str:
    """ "in 3 chapters and 2 not numbered": where the passages found stand."""
    numbered = sum(1 for chapter in answer.by_chapter if chapter)
    loose = answer.by_chapter.get("", 0)
    parts = [f"in {count_of(numbered, 'chapter')}"] if numbered else []
    if loose:
        parts.append(
            f"{'and ' if parts else ''}{loose:,} without a chapter number"
            if parts
            else "without a chapter number"
        )
    return " ".join(parts)


def _publication_names(library: OpenedLibrary, asked: Asked) -> dict[str, str]:
    names = {}
    for publication_id in asked.publication:
        record = library.publication(publication_id)
        names[publication_id] = publication_name(record)
    return names
