"""How many hits each further filter would leave, so that no link made from it leads to an empty page.

Every count is that of the search it leads to, asked of the index, and none is added up or estimated.
"""

from dataclasses import replace

from indexer.library.fulltext import Filters, FullTextResult
from server.applying import Applying
from server.hiding import to_hide
from server.looking import EVERYTHING, look
from server.not_current import both, not_current
from server.opened import OpenedLibrary
from server.question import parse_question
from server.search import SearchAnswer, without


def facet_counts(library: OpenedLibrary, answer: SearchAnswer) -> dict[str, dict[str, int]]:
    """For each filter, how many hits each of its values would give in place of those chosen, with the other
    filters as they are. A value that would give none is not among them.
    """
    filters = answer.filters
    open_filters = {
        "chapter": replace(filters, chapters=(), sections=()),
        "type": replace(filters, types=()),
        "standing": replace(filters, standings=()),
    }
    counts = {
        "chapter": answer.by_chapter,
        "type": dict(answer.by_type),
        "standing": dict(answer.by_standing),
    }
    for name, wider in open_filters.items():
        if wider != filters:
            result = _counted(library, answer, wider)
            counts[name] = {
                "chapter": {found.chapter: found.count for found in result.chapters},
                "type": dict(result.counts_by_type),
                "standing": dict(result.counts_by_standing),
            }[name]
    return counts


def current_count(library: OpenedLibrary, answer: SearchAnswer) -> int:
    """How many of the hits "current only" would leave."""
    with library.reading():
        out = both(library, answer.not_applying, not_current(library))
        return without(library, answer.found, out, 0, 0).result.total


def not_hidden_count(library: OpenedLibrary, answer: SearchAnswer) -> int:
    """How many of the hits would be left without what does not apply to the aircraft in hand."""
    if answer.aircraft is None:
        return answer.total
    with library.reading():
        hiding = to_hide(library, Applying(library.catalogue, answer.aircraft))
        return without(library, answer.found, both(library, hiding, answer.not_current), 0, 0).result.total


def _counted(library: OpenedLibrary, answer: SearchAnswer, filters: Filters) -> FullTextResult:
    """What the rest of the question would find with other filters: the chapter it names is one of them."""
    rest = parse_question(answer.numbers.question.text)
    if not rest.asks and filters == Filters():
        filters = EVERYTHING
    found = look(library, rest, filters, 0, 0, answer.as_typed, misread=answer.misread, begun=answer.begun)
    out = both(library, answer.not_applying, answer.not_current)
    return without(library, found, out, 0, 0).result
