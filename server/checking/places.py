"""The place in one publication that a reference names: its pages and passages, or why it cannot be told."""

import re
from dataclasses import dataclass, replace

from indexer.library.catalogue import Catalogue
from indexer.library.cited import inside_of, reads_whole, text_of
from indexer.library.records import PublicationRecord, ReferenceState
from indexer.library.relation_rules.paragraphs import find_paragraphs
from indexer.library.relation_rules.places import Inside
from indexer.library.relation_rules.reference_places import (
    NOT_PICKED_OUT,
    SEVERAL_PLACES,
    Found,
    Source,
    place_in,
)
from indexer.library.stated import documents_generation
from indexer.library.works import BULLETINS, DIRECTIVES
from indexer.tagging.tags import Citation
from indexer.trade.chapters import Scheme
from indexer.trade.own_numbers import parse_own_number
from server.kept import KeptByState
from server.page_lookup import passages_on

_NOWHERE = Source("", 0, "", ())  # a record stands in no publication
MOST_PAGES = 12  # of a place, that are looked at one by one
_MOST_NAMED = 8  # places of a figure that are named
_MOST_PAGES = 60  # of a range of pages that is followed
_HAS_WORD = re.compile(r"[A-Za-z]{3,}\b")
_whole = KeptByState(most=8)  # manuals read whole: each may be long
_PAPERS = BULLETINS | DIRECTIVES
_WHOLE_PAGE = "The paragraph named was not picked out on the page: the whole page was weighed."


@dataclass(frozen=True, slots=True)
class Place:
    """Where in a publication. Without pages and passages the whole of it is meant.

    state   RESOLVED; NO_SUCH_PLACE = it is not there; CANNOT_TELL = pages and passages are all that it may be
    reason  in words for a person, when the state is not RESOLVED
    note    what must be said although it is
    several True = one of several sections is meant, and which cannot be told: no pages and passages, no yes
    """

    pdf_pages: tuple[int, ...] = ()
    passages: tuple[str, ...] = ()
    state: ReferenceState = ReferenceState.RESOLVED
    reason: str = ""
    note: str = ""
    several: bool = False


def names_a_place(citation: Citation) -> bool:
    """Whether it names more than a document. A component manual's own number is no place in it."""
    if citation.page or citation.figure or citation.paragraph:
        return True
    return citation.chapter_number is not None and str(citation.chapter_number) != citation.number


def place_of(catalogue: Catalogue, publication: PublicationRecord, citation: Citation) -> Place:
    """The place that the reference names in this publication."""
    if not names_a_place(citation) and not citation.number.count("("):
        return Place()
    if citation.paragraph and publication.type in _PAPERS and not citation.page and not citation.figure:
        return _paragraphs(catalogue, publication, citation)
    inside = _inside(catalogue, publication, citation)
    if not (citation.page or citation.figure or citation.paragraph or citation.number.count("(")):
        return _under(inside, citation)
    founds = [place_in(publication.id, inside, _NOWHERE, each) for each in _each_page(citation)]
    if citation.figure and (candidates := _of_several_sections(inside, founds)):
        reason = f"Figure {citation.figure} stands in several places of it: {candidates}. Name the section."
        return Place(state=ReferenceState.CANNOT_TELL, reason=reason, several=True)
    places = [_found(catalogue, publication, each) for each in founds]
    found = places[0] if len(places) == 1 else _together(places)
    on_one_page = bool(citation.page and found.passages) and len(found.pdf_pages) == 1
    if on_one_page and found.reason == NOT_PICKED_OUT:
        return replace(found, state=ReferenceState.RESOLVED, reason="", note=_WHOLE_PAGE)
    return found


def _of_several_sections(inside: Inside, founds: list[Found]) -> str:
    """The places of a figure in words, where they are of several sections or not told apart; else ""."""
    ids = {passage for found in founds for _, _, passage in found.targets}
    meant = [each for each in inside.passages if each.id in ids]
    sections = dict.fromkeys(str(each.numbers[0]) if each.numbers else "" for each in meant)
    numbered = [each for each in sections if each]
    unsure = any(found.reason == SEVERAL_PLACES for found in founds)
    if len(numbered) < 2 and not (unsure and "" in sections):
        return ""
    named: dict[str, str] = {}  # section, or the page where none is printed -> its first page
    for each in meant:
        page = f"PDF page {each.pdf_page}"
        section = str(each.numbers[0]) if each.numbers else ""
        named.setdefault(section or page, f"section {section}, {page}" if section else page)
    more = f"; {len(named) - _MOST_NAMED} more" if len(named) > _MOST_NAMED else ""
    return "; ".join(list(named.values())[:_MOST_NAMED]) + more


def _inside(catalogue: Catalogue, publication: PublicationRecord, citation: Citation) -> Inside:
    """`inside_of`; a manual that is read whole for it is read once while the documents stay as they are."""
    if not reads_whole(citation):
        return inside_of(catalogue, publication.id, citation)
    kept = _whole.of(catalogue, documents_generation(catalogue))
    return kept.once(publication.id, lambda: inside_of(catalogue, publication.id, citation))


def _paragraphs(catalogue: Catalogue, publication: PublicationRecord, citation: Citation) -> Place:
    """Every passage of the paragraphs named; those that hold only some of it too."""
    passages = text_of(catalogue, publication.id)
    named = citation.paragraph if _HAS_WORD.match(citation.paragraph) else f"paragraph {citation.paragraph}"
    found = find_paragraphs([named], passages)
    meant = [each for each in passages if each.id in found.whole | found.partly]
    if found.not_found or not meant:
        return Place(state=ReferenceState.CANNOT_TELL, reason=NOT_PICKED_OUT)
    pages = tuple(sorted({each.pages[0] for each in meant}))
    return Place(pages, tuple(each.id for each in meant))


def _under(inside: Inside, citation: Citation) -> Place:
    """Every passage under the number named."""
    number = citation.chapter_number
    if number is not None and number.scheme is Scheme.OWN:
        text = f"{number.chapter}-{number.section}" if number.section else number.chapter
        ends = [parse_own_number(end) for end in text.split(" through ")]
        places = inside.in_own(ends[0], ends[-1]) if all(ends) else []
    else:
        places = inside.under(number) if number else []
    if not places:
        return Place(state=ReferenceState.NO_SUCH_PLACE, reason="The number named was not found in it.")
    meant = [inside.passages[place] for place in places]
    return Place(tuple(sorted({each.pdf_page for each in meant})), tuple(each.id for each in meant))


def _each_page(citation: Citation) -> list[Citation]:
    """One reference for each page of a range of plain page numbers; else the one given."""
    first, _, last = citation.page.partition(" through ")
    if last and citation.figure:
        return [replace(citation, page="")]  # the figure tells the page
    if not (first.isdecimal() and last.isdecimal() and 0 < int(last) - int(first) < _MOST_PAGES):
        return [citation]
    return [replace(citation, page=str(page)) for page in range(int(first), int(last) + 1)]


def _found(catalogue: Catalogue, publication: PublicationRecord, found: Found) -> Place:
    pages: dict[int, None] = {}
    passages: dict[str, None] = {}
    for _, pdf_page, passage_id in found.targets:
        if pdf_page is not None:
            pages[pdf_page] = None
        if passage_id is not None:
            passages[passage_id] = None
        elif pdf_page is not None:
            passages.update((each.id, None) for each in passages_on(catalogue, publication, pdf_page))
    if found.state is ReferenceState.NO_SUCH_PLACE:
        return Place(tuple(pages), (), found.state, found.reason)
    return Place(tuple(pages), tuple(passages), found.state, found.reason)


def _together(places: list[Place]) -> Place:
    """A range of pages: the pages found; a range with a page that cannot be told cannot be told."""
    there = [each for each in places if each.state is not ReferenceState.NO_SUCH_PLACE]
    if not there:
        return places[0]
    unsure = next((each for each in there if each.state is not ReferenceState.RESOLVED), None)
    gone = "" if len(there) == len(places) else "Not every page of the range was found in it."
    return Place(
        tuple(dict.fromkeys(page for each in there for page in each.pdf_pages)),
        tuple(dict.fromkeys(passage for each in there for passage in each.passages)),
        unsure.state if unsure else ReferenceState.CANNOT_TELL if gone else ReferenceState.RESOLVED,
        unsure.reason if unsure else gone,
    )
