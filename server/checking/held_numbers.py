"""Numbers of publications held here, known wherever they stand in an entry, no word leading to them."""

from collections.abc import Sequence

from indexer.library.catalogue import Catalogue
from indexer.library.cited import publications_called
from indexer.library.relation_rules.reference_targets import names_in, names_of
from indexer.tagging.bare_numbers import BareNumber, bare_numbers, with_numbers
from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.publication_types import PublicationType as Type
from server.checking.narrowing import as_held

MOST_NUMBERS = 200  # of one entry that are looked up


def with_held_numbers(catalogue: Catalogue, text: str, citations: Sequence[Citation]) -> list[Citation]:
    """The references of an entry and those to publications that it calls by their number alone."""
    tokens = bare_numbers(text, citations)[:MOST_NUMBERS]
    if not tokens:
        return list(citations)
    names = {each: _names(each) for each in tokens}
    held = publications_called(catalogue, frozenset().union(*names.values()))
    known: dict[BareNumber, tuple[str, Type | None]] = {}
    for publication in held:
        mine = names_of(as_held(publication))
        for token in tokens:
            if mine & names[token]:
                known.setdefault(token, (publication.number, publication.type))
    return with_numbers(text, citations, known)


def _names(token: BareNumber) -> frozenset[str]:
    """Keys that a publication of any kind with this number has."""
    asked = (
        Citation(CitationKind.DOCUMENT, spelling, token.start, token.end, kind, spelling)
        for spelling in token.spellings
        for kind in (None, *Type)
    )
    return frozenset(name for each in asked for name in names_in(each) if name.startswith("number "))
