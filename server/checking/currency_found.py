"""How current the place is that a reference means, on the day of the work, and what speaks against it."""

import datetime
from collections.abc import Collection

from indexer.library.catalogue import Catalogue
from indexer.library.directives_held import directive_numbered
from indexer.library.records import PublicationRecord
from indexer.library.register_records import CurrencyFinding, CurrencyState
from indexer.library.works import DIRECTIVES
from indexer.tagging.tags import Citation
from indexer.trade.evidence import Answer
from indexer.trade.publication_types import PublicationType as Type
from indexer.trade.revisions import later_revision
from server.checking.places import MOST_PAGES, Place
from server.checking.resolving import Resolution
from server.current import currency_of, page_currency
from server.words import date_words

_WORST = (CurrencyState.SUPERSEDED, CurrencyState.CHECK_EXPIRED, CurrencyState.UNKNOWN, CurrencyState.CURRENT)


def currency_at(
    catalogue: Catalogue,
    publication: PublicationRecord | None,
    place: Place,
    on: datetime.date,
    read_with: Collection[str] = (),
) -> CurrencyFinding:
    """The worst state of the pages meant; of the publication where no page is.

    read_with  ids of temporary revisions that the entry cites with them
    """
    if publication is None:
        return CurrencyFinding(CurrencyState.UNKNOWN, "The document meant is not known here.")
    if not place.pdf_pages or len(place.pdf_pages) > MOST_PAGES:
        return currency_of(catalogue, publication, on)
    found = [page_currency(catalogue, publication, page, on, read_with) for page in place.pdf_pages]
    return min(found, key=lambda each: _WORST.index(each.state))


def older_than_held(citation: Citation, resolution: Resolution) -> CurrencyFinding | None:
    """Superseded, where the marks say that a later revision than the one named is held; None = not shown."""
    for each in resolution.named:
        named = each.replaced is None and citation.revision and each.revision
        if named and later_revision(each.revision, citation.revision) is Answer.YES:
            why = f"Revision {each.revision} is held here and is later than revision {citation.revision}."
            return CurrencyFinding(CurrencyState.SUPERSEDED, why)
    return None


def replaced_directive(
    catalogue: Catalogue, citation: Citation, day: datetime.date
) -> CurrencyFinding | None:
    """A directive that is not held and that one held here says it replaces; None = none says so."""
    if citation.type is not Type.AIRWORTHINESS_DIRECTIVE or not citation.number:
        return None
    told = directive_numbered(catalogue, citation.number, day)
    for each in told.replaced_by:
        if each.effective is None or each.effective <= day:
            return CurrencyFinding(CurrencyState.SUPERSEDED, f"{each.name}, held here, takes its place.")
    return None


def after_the_work(publication: PublicationRecord | None, done_on: datetime.date | None) -> str:
    """That the revision held is dated after the day of the work; a directive counts by its day of effect."""
    if publication is None or done_on is None or publication.type in DIRECTIVES or publication.date is None:
        return ""
    if publication.date <= done_on:
        return ""
    return (
        f"The one held here is of {date_words(publication.date)}, after the work of {date_words(done_on)}: "
        "it cannot be what was used."
    )
