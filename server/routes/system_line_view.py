"""One line of the listing of a system -> what its page shows. No catalogue is read here."""

from collections.abc import Sequence
from dataclasses import dataclass

from indexer.library.records import PublicationRecord
from indexer.trade.publication_types import PublicationType
from server.applies_words import AppliesWords, applies_words
from server.current import CurrentWords, current_words
from server.ocr_words import ReadWords
from server.opened import OpenedLibrary
from server.packets import MOST_PAGES
from server.routes.addresses import page_address, publication_address
from server.system_asked import number_name
from server.system_order import ONE_SUBJECT
from server.system_records import Line, Mention
from server.system_text import (
    evidence_words,
    how_words,
    line_reading,
    line_title,
    pages_words,
    places_words,
    printed_words,
)
from server.words import StandingWords, publication_kind, publication_name, standing_words

SHORT_QUOTE = 60  # characters of a quote shown on the line; the whole waits in its fold
_BY_DATE = (
    PublicationType.AIRWORTHINESS_DIRECTIVE,
    PublicationType.PROPOSED_DIRECTIVE,
    PublicationType.AMOC_LETTER,
    PublicationType.TEMPORARY_REVISION,
)


@dataclass(frozen=True, slots=True)
class PageLink:
    name: str
    address: str


@dataclass(frozen=True, slots=True)
class MentionView:
    words: str
    address: str  # "" = not held here
    place: str


@dataclass(frozen=True, slots=True)
class LineView:
    title: str
    address: str
    paper: str  # which publication, where the title is not its name
    kind: str
    places: str
    printed: str
    pdf: str
    currency: tuple[str, ...]
    now: CurrentWords
    why_folded: bool  # why it is current or not waits in the fold: it is no alarm
    applies: AppliesWords | None  # to the aircraft in hand; None = none is
    requirements: tuple[str, ...]
    other_ties: tuple[tuple[str, str], ...]  # words, address
    how: str
    evidence: str
    quote: str  # the whole of it, where `evidence` has it cut
    wider: str
    also_read: str
    standing: StandingWords | None  # None = not the same over these pages
    standings: tuple[StandingWords, ...]
    headings: tuple[str, ...]
    pages: tuple[PageLink, ...]
    refers_to: tuple[MentionView, ...]
    referred_from: tuple[MentionView, ...]
    read: ReadWords | None  # None = born digital, all of it
    folded: str  # what the fold holds, in words
    block: str  # shown above the line where it differs from the one before
    run: tuple[str, int, int] | None  # publication id, first and last page; None = its pages are no one run


def line_view(library: OpenedLibrary, line: Line, block: str, registration: str) -> LineView:
    """block: shown above the line; registration: of the aircraft in hand, "" = none."""
    record = line.publication
    one_subject = record.type in ONE_SUBJECT
    first: dict[int, str] = {}
    for each in line.passages:
        first.setdefault(each.pdf_page, each.passage_id)
    standings = tuple(dict.fromkeys(map(standing_words, line.standings)))
    now = current_words(line.current, _without_places(line.currency))
    why_folded = bool(now.lead and now.why and not now.alarm)
    folded = [
        *(["how current"] if why_folded else []),
        f"{len(line.pages):,} page{'s' if len(line.pages) > 1 else ''}",
        *([f"refers to {len(line.refers_to):,}"] if line.refers_to else []),
        *([f"referred to from {len(line.referred_from):,}"] if line.referred_from else []),
    ]
    return LineView(
        title=line_title(line, one_subject),
        address=page_address(
            record.id, line.pages[0].pdf_page, passage=first.get(line.pages[0].pdf_page, "")
        ),
        paper="" if one_subject else publication_name(record),
        kind=_edition(record),
        places=places_words(line.pages),
        printed=printed_words(line.pages),
        pdf=pages_words(page.pdf_page for page in line.pages),
        currency=line.currency,
        now=now,
        why_folded=why_folded,
        applies=applies_words(line.applies, registration),
        requirements=tuple(tie.words for tie in line.requirements),
        other_ties=tuple(
            dict.fromkeys(
                (tie.words, publication_address(tie.publication))
                for tie in line.ties
                if tie not in line.requirements
            )
        ),
        how=how_words(line),
        evidence=evidence_words(line, SHORT_QUOTE),
        quote=line.evidence.quote if line.evidence and len(line.evidence.quote) > SHORT_QUOTE else "",
        wider=line.wider,
        also_read=", ".join(map(number_name, line.also_read)),
        standing=standings[0] if len(standings) == 1 else None,
        standings=standings,
        headings=line.headings,
        pages=tuple(
            PageLink(
                f"Page {page.printed_page}" if page.printed_page else f"PDF page {page.pdf_page}",
                page_address(record.id, page.pdf_page, passage=first.get(page.pdf_page, "")),
            )
            for page in line.pages
        ),
        refers_to=tuple(_mention(library, mention) for mention in line.refers_to),
        referred_from=tuple(_mention(library, mention) for mention in line.referred_from),
        read=line_reading(line),
        folded=(words := ", ".join(folded))[:1].upper() + words[1:],
        block=block,
        run=_run(record, [page.pdf_page for page in line.pages]),
    )


def _run(record: PublicationRecord, pages: Sequence[int]) -> tuple[str, int, int] | None:
    """What goes into a packet as one item."""
    first, last = min(pages), max(pages)
    one_run = last - first + 1 == len(set(pages)) <= MOST_PAGES
    return (record.id, first, last) if one_run else None


def _edition(record: PublicationRecord) -> str:
    """Revision and date; the type stands above the group. Authorities' papers have no revision to find."""
    kind = publication_kind(record.type, record.revision, record.date, record.entered)
    words = kind.partition(", ")[2] or kind
    return words.removeprefix("no revision found, ") if record.type in _BY_DATE else words


def _mention(library: OpenedLibrary, mention: Mention) -> MentionView:
    if not mention.other:
        read = " (read by OCR)" if mention.read_by_ocr else ""
        return MentionView(mention.words, "", (mention.reason or mention.state.value) + read)
    record = library.publication(mention.other)
    name = publication_name(record)
    page = f", PDF page {mention.pdf_page}" if mention.pdf_page else ""
    address = (
        page_address(record.id, mention.pdf_page) if mention.pdf_page else publication_address(record.id)
    )
    doubt = f" ({mention.state.value})" if mention.state.value != "resolved" else ""
    doubt += " (the reference was read by OCR)" if mention.read_by_ocr else ""
    return MentionView(mention.words, address, f"{name}{page}{doubt}")


def _without_places(currency: Sequence[str]) -> list[str]:
    """Sentences of a line without the page that some are about: "Page 402: Overridden by ..."."""
    return [
        words.partition(": ")[2] if words.startswith(("Page ", "PDF page ")) else words for words in currency
    ]
