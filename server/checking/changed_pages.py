"""Temporary revisions of the pages that a reference means, and whether the entry cites them too."""

import datetime
from collections.abc import Sequence
from dataclasses import dataclass

from indexer.library.catalogue import Catalogue
from indexer.library.fleet_records import Aircraft
from indexer.library.records import OverrideState, PageOverride, PublicationRecord
from indexer.library.relations import overrides_by
from indexer.tagging.tags import Citation
from indexer.trade.publication_types import PublicationType as Type
from server.checking.beside_reference import not_used
from server.checking.places import MOST_PAGES, Place
from server.checking.resolving import resolve
from server.currency import Currency
from server.words import date_words


@dataclass(frozen=True, slots=True)
class ChangedPages:
    """What changes the pages meant.

    cited    temporary revisions that the entry cites with the page: ids; cited_words: for the record
    alone    names of those in force that it does not cite
    beside   what a "yes" says first of other pages of the task; () = none is changed
    """

    cited: tuple[str, ...] = ()
    cited_words: tuple[str, ...] = ()
    alone: tuple[str, ...] = ()
    beside: tuple[str, ...] = ()


def changed_pages(
    catalogue: Catalogue,
    publication: PublicationRecord | None,
    place: Place,
    entry: str,
    others: Sequence[Citation],
    aircraft: Aircraft | None,
    day: datetime.date,
) -> ChangedPages:
    """Of the pages of a place, on a day; `others`: all references of the whole `entry`."""
    if publication is None or not place.pdf_pages or len(place.pdf_pages) > MOST_PAGES:
        return ChangedPages()
    currency = Currency(catalogue)
    on_them = [
        each
        for page in place.pdf_pages
        for each in currency.overrides(publication, page)
        if each.state is not OverrideState.SUPERSEDED
    ]
    beside = [each for page in place.pdf_pages for each in currency.beside(publication, page)]
    if not on_them and not beside:
        return ChangedPages()
    named = _cited(catalogue, entry, others, aircraft)
    cited = tuple(dict.fromkeys(each.source_id for each in on_them if each.source_id in named))
    alone = (
        currency.short_name(each.source_id)
        for each in on_them
        if each.source_id not in named and each.state is OverrideState.IN_FORCE and _by(catalogue, each, day)
    )
    first = (
        f"read with {currency.short_name(each.source_id)}, which changes page "
        f"{printed or each.pdf_page} of this task"
        for printed, each in beside
        if each.pdf_page not in place.pdf_pages and _by(catalogue, each, day)
    )
    return ChangedPages(
        cited,
        tuple(_words(currency, catalogue.publication(each)) for each in cited),
        tuple(dict.fromkeys(alone)),
        tuple(dict.fromkeys(first)),
    )


def manual_changed(catalogue: Catalogue, publication: PublicationRecord) -> list[PageOverride]:
    """The pages that a temporary revision changes; [] for any other document."""
    return overrides_by(catalogue, publication.id) if publication.type is Type.TEMPORARY_REVISION else []


def _cited(
    catalogue: Catalogue, entry: str, others: Sequence[Citation], aircraft: Aircraft | None
) -> set[str]:
    """Ids of the temporary revisions that the entry names for sure and does not deny."""
    found = (
        resolve(catalogue, each, each.text, aircraft).publication
        for each in others
        if each.type is Type.TEMPORARY_REVISION and not not_used(entry, each)
    )
    return {each.id for each in found if each is not None}


def _by(catalogue: Catalogue, override: PageOverride, day: datetime.date) -> bool:
    """Whether it was out on the day."""
    date = catalogue.publication(override.source_id).date
    return date is None or date <= day


def _words(currency: Currency, source: PublicationRecord) -> str:
    dated = f" dated {date_words(source.date)}" if source.date else ""
    return f"as changed by {currency.short_name(source.id)}{dated}"
