"""The letter about an alternative method that an entry means: told by the directive beside it and its date.

Such a letter has no number of its own that entries give (common practice, no source).
"""

from collections.abc import Sequence

from indexer.library.catalogue import Catalogue
from indexer.library.cited import publications_called
from indexer.library.records import PublicationRecord
from indexer.library.relation_rules.cited_dates import is_of_day
from indexer.library.relation_rules.reference_targets import names_in
from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.directive_numbers import normalised_directive
from indexer.trade.evidence import Answer
from indexer.trade.publication_types import PublicationType as Type
from server.checking.findings import Candidate
from server.checking.resolving import Resolution
from server.words import date_words, publication_name


def letter_meant(catalogue: Catalogue, citation: Citation, others: Sequence[Citation]) -> Resolution | None:
    """The letter held here for the directive named beside it; None = the reference is no such letter."""
    if citation.type is not Type.AMOC_LETTER or citation.number:
        return None
    named = {each.number for each in others if each.type is Type.AIRWORTHINESS_DIRECTIVE and each.number}
    asked = Citation(CitationKind.DOCUMENT, "", 0, 0, Type.AMOC_LETTER)
    held = [each for each in publications_called(catalogue, names_in(asked)) if each.replaced is None]
    held = [each for each in held if any(_is_about(each, number) for number in named)]
    if not held:
        told = " and ".join(sorted(f"AD {number}" for number in named))
        about = f"about {told} " if told else ""
        why = "" if told else " The entry does not say which directive it is about."
        return Resolution(None, reason=f"No letter {about}that can be meant is in this library.{why}")
    if citation.date is None:
        return Resolution(None, _candidates(held), "The words do not give the letter's date.")
    of_day = [each for each in held if is_of_day(citation, each.date) is not Answer.NO]
    sure = [each for each in of_day if is_of_day(citation, each.date) is Answer.YES]
    if len(of_day) == 1 and (sure or len(held) == 1):
        day = date_words(of_day[0].date)
        return Resolution(
            of_day[0], notes=(f"Told by its directive and its date, {day}.",), named=tuple(of_day)
        )
    if not of_day:
        return Resolution(
            None, _candidates(held), "The letters held here for this directive are of other days."
        )
    return Resolution(None, _candidates(of_day), "Several letters held here may be meant.")


def _is_about(letter: PublicationRecord, directive: str) -> bool:
    """Whether the subject of the letter names the directive."""
    wanted = normalised_directive(directive) or directive
    return wanted in f"{letter.title} {letter.number}"


def _candidates(held: Sequence[PublicationRecord]) -> tuple[Candidate, ...]:
    return tuple(
        Candidate(
            each.id, publication_name(each), each.revision, f"of {date_words(each.date)}" if each.date else ""
        )
        for each in held
    )
