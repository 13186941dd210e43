"""Whether a publication, or a page of it, is known to be current on one day, and from what."""

import datetime

from indexer.library.catalogue import Catalogue
from indexer.library.records import PublicationRecord
from indexer.library.register_records import CurrencyFinding, CurrencyState


def currency_of(catalogue: Catalogue, publication: PublicationRecord, on: datetime.date) -> CurrencyFinding:
    """The state of a publication on a day."""
    return CurrencyFinding(CurrencyState.UNKNOWN, "Nobody has checked which revision is current.")


def page_currency(
    catalogue: Catalogue, publication: PublicationRecord, pdf_page: int, on: datetime.date
) -> CurrencyFinding:
    """The same of one page (1-based), with lists of effective pages and temporary revisions."""
    return currency_of(catalogue, publication, on)
