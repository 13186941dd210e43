"""A place in one publication: which of its pages and passages a number, page, figure or paragraph names."""

from collections.abc import Iterable
from dataclasses import dataclass

from indexer.library.records import ReferenceState
from indexer.library.relation_rules.paragraph_names import label_parts
from indexer.library.relation_rules.places import Inside, folded_page, page_block
from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.own_numbers import OwnNumber, parse_own_number

NOT_PICKED_OUT = "The paragraph named was not picked out there."
SEVERAL_PLACES = "Several places there have this name."
NO_PLACE = "The document is here; the place named was not found in it."


@dataclass(frozen=True, slots=True)
class Source:
    """Where a reference stands: what it says of "figure 1" depends on the subject and page block it is in."""

    publication_id: str
    pdf_page: int
    printed_page: str
    numbers: tuple[ChapterNumber, ...]  # printed ones of its passage


@dataclass(frozen=True, slots=True)
class Found:
    state: ReferenceState
    targets: tuple[tuple[str, int | None, str | None], ...] = ()
    reason: str = ""


def place_in(publication_id: str, inside: Inside, source: Source, citation: Citation) -> Found:
    """What the citation names in this publication. A place of the source's own paper is near the source."""
    own = publication_id == source.publication_id
    scope, whole = _scope(inside, citation)
    if scope is not None and not scope:
        return _nothing(publication_id)
    if citation.kind is CitationKind.TASK and citation.number:
        return _task(publication_id, inside, citation, scope)
    near = source if own and scope is None else None
    if citation.page:
        pages = [
            place for page in _ends(citation.page)[:1] for place in inside.pages.get(folded_page(page), [])
        ]
        scope = _narrowed(pages, scope, near, inside)
        if not scope:
            return _nothing(publication_id, whole, inside)
        whole, near = scope[0], None
        if not citation.figure and not citation.paragraph:
            return _pages(publication_id, inside, scope)
    if citation.figure:
        figures = [
            place for name in _ends(citation.figure) for place in inside.figures.get(_figure(name), [])
        ]
        found = _narrowed(figures, scope, near, inside)
        if not found:
            return _nothing(publication_id, whole, inside)
        return _one(publication_id, inside, found)
    if citation.paragraph:
        return _paragraph(publication_id, inside, citation, scope, near, whole)
    if scope is not None:
        return Found(ReferenceState.RESOLVED, (_whole_page(publication_id, inside, scope[0]),))
    return Found(ReferenceState.RESOLVED, ((publication_id, None, None),))


def _scope(inside: Inside, citation: Citation) -> tuple[list[int] | None, int | None]:
    """The passages under the number named, and the first of them; None when no number is named."""
    number = citation.chapter_number
    if citation.kind is CitationKind.REGULATION:
        section = citation.number.partition("(")[0]
        return (inside.rules.get(section, []), None) if "." in section else (None, None)
    if number is None:
        return None, None
    if number.scheme is Scheme.OWN:
        own = _own_number(number)
        places = inside.in_own(own, own) if own else []
    elif str(number) == citation.number and not inside.under(number):
        return None, None  # a component manual that prints its number on no page
    else:
        places = inside.under(number)
    return places, places[0] if places else None


def _own_number(number: ChapterNumber) -> OwnNumber | None:
    text = f"{number.chapter}-{number.section}" if number.section else number.chapter
    first = text.partition(" through ")[0]
    return parse_own_number(first)


def _task(publication_id: str, inside: Inside, citation: Citation, scope: list[int] | None) -> Found:
    tasks = inside.tasks.get(citation.number.upper(), [])
    if not tasks:
        tasks = [
            place
            for name, places in inside.tasks.items()
            if name.startswith(f"{citation.number.upper()}-")
            for place in places
        ]
    if tasks:
        return _one(publication_id, inside, tasks[:1])
    return _nothing(publication_id, scope[0] if scope else None, inside)


def _narrowed(
    places: Iterable[int], scope: list[int] | None, near: Source | None, inside: Inside
) -> list[int]:
    """Those in the scope named; without one, those nearest the source: its subject, then its page block.

    Where pages or figures are numbered anew in each subject, one of another subject is not meant.
    """
    found = sorted(set(places))
    if scope is not None:
        within = set(scope)
        return [place for place in found if place in within]
    if near is None or not found:
        return found
    mine = next((number for number in near.numbers if number.scheme is not Scheme.OWN), None)
    if mine is None:
        return found
    same = [place for place in found if mine in inside.passages[place].numbers]
    if not same:
        unnumbered = all(not inside.passages[place].numbers for place in found)
        return found if unnumbered else []
    block = page_block(near.printed_page)
    return [place for place in same if inside.block(place) == block] or same


def _paragraph(
    publication_id: str,
    inside: Inside,
    citation: Citation,
    scope: list[int] | None,
    near: Source | None,
    whole: int | None,
) -> Found:
    ends = _ends(citation.paragraph)
    own = [parse_own_number(end) for end in ends]
    places: list[int] = []
    if all(own) and ("-" in ends[0] or "." in ends[0]):
        places = inside.in_own(own[0], own[-1])
    elif citation.kind is CitationKind.OWN_SECTION and citation.chapter_number:
        section = _own_number(citation.chapter_number)
        within = parse_own_number(f"{section}-{ends[0]}") if section else None
        places = inside.in_own(within, within) if within else []
    if not places:
        labelled = _labelled(inside, ends)
        places = _narrowed(labelled, scope, near, inside) or _in_block(labelled, whole, inside)
    elif len(ends) > 1:
        return Found(
            ReferenceState.RESOLVED, tuple((publication_id, *inside.target(place)) for place in places)
        )
    if not places:
        if whole is None and scope:
            whole = scope[0]
        page = (
            _whole_page(publication_id, inside, whole) if whole is not None else (publication_id, None, None)
        )
        return Found(ReferenceState.CANNOT_TELL, (page,), NOT_PICKED_OUT)
    if places[-1] - places[0] == len(places) - 1:
        return Found(
            ReferenceState.RESOLVED, tuple((publication_id, *inside.target(place)) for place in places[:1])
        )
    return _one(publication_id, inside, places)


def _in_block(places: list[int], page: int | None, inside: Inside) -> list[int]:
    """Those of the page block of the page named: "Page 401, paragraph 3.C" may be on page 402."""
    if page is None or not inside.block(page):
        return []
    here = inside.passages[page]
    return [
        place
        for place in places
        if inside.block(place) == inside.block(page) and inside.passages[place].numbers == here.numbers
    ]


def _labelled(inside: Inside, ends: list[str]) -> list[int]:
    found: set[int] = set()
    for end in ends:
        words = end.lower().replace("appendices", "appendix")
        kind = next((word for word in ("part", "appendix", "table") if words.startswith(word)), "")
        parts = label_parts(end.partition(" ")[2] if kind else end)
        found.update(inside.labels.get((kind, *parts) if kind else parts, []))
    return sorted(found)


def _one(publication_id: str, inside: Inside, places: list[int]) -> Found:
    targets = tuple((publication_id, *inside.target(place)) for place in places)
    pages = sorted({inside.passages[place].pdf_page for place in places})
    if len(pages) == 1:
        return Found(ReferenceState.RESOLVED, targets[:1])
    if pages[-1] - pages[0] == len(pages) - 1:  # a figure of several sheets, a task that runs on
        return Found(ReferenceState.RESOLVED, targets)
    return Found(ReferenceState.CANNOT_TELL, targets, SEVERAL_PLACES)


def _pages(publication_id: str, inside: Inside, places: list[int]) -> Found:
    pages = sorted({inside.passages[place].pdf_page for place in places})
    targets = tuple((publication_id, page, None) for page in pages)
    if len(pages) == 1:
        return Found(ReferenceState.RESOLVED, targets)
    return Found(ReferenceState.CANNOT_TELL, targets, SEVERAL_PLACES)


def _whole_page(publication_id: str, inside: Inside, place: int) -> tuple[str, int, None]:
    return publication_id, inside.passages[place].pdf_page, None


def _nothing(publication_id: str, near: int | None = None, inside: Inside | None = None) -> Found:
    where = (
        _whole_page(publication_id, inside, near)
        if inside and near is not None
        else (publication_id, None, None)
    )
    return Found(ReferenceState.NO_SUCH_PLACE, (where,), NO_PLACE)


def _ends(text: str) -> list[str]:
    return text.split(" through ")


def _figure(name: str) -> str:
    return name.upper().lstrip("0") or "0"
