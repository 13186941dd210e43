"""One page as printed, with what must be known beside it: marks, warnings, standing, what overrides it."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any
from urllib.parse import parse_qs

from indexer.library.fleet_records import Aircraft
from indexer.library.fulltext import FullTextQuery
from indexer.library.parts_held import figures_on
from indexer.library.records import PageRecord, PassageRecord, PublicationRecord
from indexer.reading.page import PassageKind
from indexer.trade.evidence import Basis, Box
from server import leaf, reports
from server.applies_words import AppliesWords, applies_words
from server.applying import Applying
from server.currency import Currency
from server.current import Current, CurrentWords, current_words
from server.hits_in import HitPlace, hits_in
from server.looking import to_mark
from server.ocr_words import ReadWords, read_words
from server.opened import OpenedLibrary
from server.page_lookup import passages_on
from server.parts_row import figure_address
from server.question import Question, parse_question
from server.reports import TAG_WORDS
from server.routes.addresses import Chip, page_address, picture_address, publication_address, wrong_address
from server.routes.check_view import reference_address
from server.routes.page_references import PageReferences, page_references
from server.routes.views import (
    PassageView,
    PublicationView,
    number_words,
    one_standing,
    passage_view,
    publication_view,
    state_words,
    warnings_words,
)
from server.words import StandingWords, count_of, standing_words

ZOOMS = {100: 150, 150: 220, 200: 300}  # width in percent -> dots per inch
_MARGIN = 2.0  # points around a marked box
DOUBTS = "Words that OCR was not certain of have a dashed frame."
_SIGNAL = re.compile(r"\b(?:WARNING|CAUTION)S?\b")  # in capitals, as the trade prints them
_GUARDING = (PassageKind.WARNING, PassageKind.CAUTION)


@dataclass(frozen=True, slots=True)
class Rectangle:
    """A mark on a picture, in points from its top left. `also` = a passage that is not the one asked for."""

    x: float
    y: float
    width: float
    height: float
    also: bool = False


@dataclass(frozen=True, slots=True)
class LinkOn:
    """Words of a picture that lead somewhere."""

    name: str
    address: str
    at: tuple[Rectangle, ...]


@dataclass(frozen=True, slots=True)
class Picture:
    address: str
    width: float  # points
    height: float
    alt: str
    pdf_page: int
    boxes: tuple[Rectangle, ...] = ()
    words: tuple[Rectangle, ...] = ()
    boxes_label: str = ""
    doubts: tuple[Rectangle, ...] = ()  # words that OCR was not certain of
    links: tuple[LinkOn, ...] = ()


@dataclass(frozen=True, slots=True)
class OverrideView:
    name: str
    short_name: str  # "TR 32-07"
    words: str
    address: str
    pictures: tuple[Picture, ...]
    warnings: tuple[str, ...]  # WARNINGs and CAUTIONs of its own pages


@dataclass(frozen=True, slots=True)
class HitsView:
    """words   "Hit 2 of 7 in this publication"; "" where nothing was asked for or found"""

    words: str = ""
    previous: str = ""
    next: str = ""


@dataclass(frozen=True, slots=True)
class Zoom:
    name: str
    address: str
    on: bool


@dataclass(frozen=True, slots=True)
class PageView:
    publication: PublicationView
    pdf_page: int
    printed_page: str
    page_name: str
    position: str
    number: str
    page_block: str
    currency: tuple[str, ...]
    now: CurrentWords
    applies: AppliesWords | None  # the passage you came for, else the page, to the aircraft in hand
    problem: str
    unread: str  # that OCR owes the page, in words
    read: ReadWords | None  # the passage you came for, else the page; None = born digital
    standing: StandingWords | None
    warnings_words: str
    warnings: tuple[str, ...]  # of the passage you came for first
    first_warning: str  # of the change in front, else of the page; "" where none stands
    overrides: tuple[OverrideView, ...]
    picture: Picture
    picture_caption: str
    passages: tuple[PassageView, ...]
    previous: str
    next: str
    zooms: tuple[Zoom, ...]
    zoom_class: str
    question: str
    back: str
    wrong: str  # where to say that a tag of the page is wrong
    check: str  # the source check with a reference to the page in it
    figures: tuple[Chip, ...]  # of a parts list, that the page shows or lists
    hits: HitsView
    contents: str
    references: PageReferences
    reported: tuple[str, ...]  # what is said against its tags and not answered yet
    report_tags: tuple[tuple[str, str], ...]
    passage_id: str  # of the passage you came for; "" = none
    here: str  # the address of the page as it is shown


def page_view(
    library: OpenedLibrary,
    publication_id: str,
    pdf_page: int,
    passage_id: str = "",
    question: str = "",
    zoom: int = 100,
    back: str = "",
    aircraft: Aircraft | None = None,
) -> PageView:
    """Everything the page view shows; call it inside `reading`.

    passage_id   the passage to mark; one that is not on this page marks nothing
    back         the search to go back to, as its query string
    aircraft     in hand: the page and each passage are marked for it
    Raises PublicationUnknown, PageUnknown, QueryProblem.
    """
    asked = parse_question(question)
    owner = library.publication(publication_id)
    sheet = leaf.page_of(library, owner, pdf_page)
    zoom = zoom if zoom in ZOOMS else 100
    kept = {"q": asked.text, "back": back, "zoom": "" if zoom == 100 else str(zoom)}
    passages = passages_on(library.catalogue, owner, pdf_page)
    here = next((passage for passage in passages if passage.id == passage_id), None)
    query = to_mark(library, asked)
    marks = {
        passage.id: library.engine.marks(query, passage.text) if asked.asks else () for passage in passages
    }
    currency = Currency(library.catalogue)
    unread = leaf.ocr_owes(library, owner, sheet)
    marked = _Marks(library, owner, aircraft)
    overrides = _overrides(library, currency, owner, pdf_page, ZOOMS[zoom])
    guarding = [passage for passage in passages if passage.kind in _GUARDING]
    guarding.sort(key=lambda passage: passage is not here)
    references = page_references(library, owner, sheet, passages)
    tagged = [here] if here else passages
    numbers = {number_words(passage.numbers[0]): None for passage in tagged if passage.numbers}
    blocks = {passage.page_block.value: None for passage in tagged if passage.page_block}
    return PageView(
        publication=publication_view(owner, currency.of_publication(owner)),
        now=_now(library, currency, owner, pdf_page),
        pdf_page=pdf_page,
        printed_page=sheet.printed_page,
        page_name=f"page {sheet.printed_page}" if sheet.printed_page else f"PDF page {pdf_page}",
        position=_position(owner, pdf_page),
        number=", ".join(numbers),
        page_block=", ".join(blocks),
        currency=_currency(currency, owner, here, overrides),
        applies=marked.passage(here) if here else marked.page(pdf_page),
        problem="" if unread else state_words(sheet.state, sheet.problem),
        unread=unread,
        read=read_words([here] if here else passages),
        standing=standing_words(here.standing) if here else one_standing(passages),
        warnings_words=warnings_words(guarding),
        warnings=tuple(_from_signal(passage.text) for passage in guarding),
        first_warning=next((each for override in overrides for each in override.warnings), "")
        or next((_from_signal(passage.text) for passage in guarding), ""),
        overrides=overrides,
        picture=_picture(library, owner, sheet, ZOOMS[zoom], passages, here, marks, asked, references),
        picture_caption="The page as printed, before the change" if overrides else "",
        passages=tuple(
            passage_view(
                passage,
                marks[passage.id],
                passage is here,
                page_address(owner.id, pdf_page, passage=passage.id, **kept),
                marked.passage(passage),
            )
            for passage in passages
        ),
        previous=page_address(owner.id, pdf_page - 1, **kept) if pdf_page > owner.first_page else "",
        next=page_address(owner.id, pdf_page + 1, **kept) if pdf_page < owner.last_page else "",
        zooms=tuple(
            Zoom(
                "Page width" if size == 100 else f"{size} %",
                page_address(
                    owner.id,
                    pdf_page,
                    passage=passage_id,
                    **kept | {"zoom": "" if size == 100 else str(size)},
                ),
                size == zoom,
            )
            for size in ZOOMS
        ),
        zoom_class="" if zoom == 100 else f" zoom-{zoom}",
        question=parse_qs(back).get("q", [""])[0],
        back=f"/?{back}" if back else "",
        wrong=wrong_address(owner.id, pdf_page),
        check=reference_address(owner, _printed_number(tagged), sheet.printed_page),
        figures=_figures(library, owner, pdf_page),
        hits=_hits(library, owner, pdf_page, here, query if asked.asks else None, kept),
        contents=f"{publication_address(owner.id)}/contents",
        references=references,
        reported=reports.of_page(library, owner.id, pdf_page),
        report_tags=tuple((tag.value, words) for tag, words in TAG_WORDS.items()),
        passage_id=here.id if here else "",
        here=page_address(owner.id, pdf_page, passage=here.id if here else "", **kept),
    )


def _from_signal(text: str) -> str:
    """A passage from its first WARNING or CAUTION on: the step before it is read on the page itself."""
    found = _SIGNAL.search(text)
    return text[found.start() :] if found else text


def _hits(
    library: OpenedLibrary,
    owner: PublicationRecord,
    pdf_page: int,
    here: PassageRecord | None,
    query: FullTextQuery | None,
    kept: dict[str, str],
) -> HitsView:
    """The way from hit to hit within the publication."""
    found = hits_in(library, query, owner, pdf_page, here.id if here else "") if query else None
    if not found or not found.total:
        return HitsView()

    def address(place: HitPlace | None) -> str:
        return page_address(owner.id, place.pdf_page, passage=place.passage_id, **kept) if place else ""

    at = f"Hit {found.at} of {found.total}" if found.at else f"{count_of(found.total, 'hit')}, none here"
    return HitsView(at, address(found.previous), address(found.next))


def _figures(library: OpenedLibrary, owner: PublicationRecord, pdf_page: int) -> tuple[Chip, ...]:
    """The way to the rows of each figure of a parts list that stands on the page."""
    return tuple(
        Chip(
            f"Parts of figure {', '.join(filter(None, (each.figure.figure, each.figure.number)))}",
            figure_address(each.id),
        )
        for each in figures_on(library.catalogue, owner.id, pdf_page)
    )


class _Marks:
    """Whether the page and its passages apply to the aircraft in hand, in words; None without one."""

    def __init__(self, library: OpenedLibrary, owner: PublicationRecord, aircraft: Aircraft | None):
        self._owner = owner
        self._applying = Applying(library.catalogue, aircraft) if aircraft else None
        self._registration = aircraft.registration if aircraft else ""

    def page(self, pdf_page: int) -> AppliesWords | None:
        answer = self._applying.of_page(self._owner, pdf_page) if self._applying else None
        return applies_words(answer, self._registration)

    def passage(self, passage: PassageRecord) -> AppliesWords | None:
        answer = self._applying.of_passage(self._owner, passage) if self._applying else None
        return applies_words(answer, self._registration)


def _currency(
    currency: Currency,
    owner: PublicationRecord,
    here: PassageRecord | None,
    overrides: tuple[OverrideView, ...],
) -> tuple[str, ...]:
    """What speaks against it, without what the overriding pages in front say themselves."""
    words = currency.of_passage(owner, here) if here else currency.of_publication(owner)
    said = {override.words for override in overrides}
    return tuple(each for each in words if each not in said)


def _printed_number(passages: Sequence[PassageRecord]) -> str:
    """The first number that the page itself prints: a worked-out one is no number to cite."""
    tags = (tag for passage in passages for tag in passage.numbers)
    return next((str(tag.value) for tag in tags if tag.evidence.basis is Basis.PRINTED), "")


def _now(library: OpenedLibrary, currency: Currency, owner: PublicationRecord, pdf_page: int) -> CurrentWords:
    """Whether the page is known to be current, without what stands above it already."""
    finding = Current(library.catalogue, currency=currency).of_page(owner, pdf_page)
    return current_words(finding, currency.of_publication(owner))


def _position(owner: PublicationRecord, pdf_page: int) -> str:
    if owner.first_page == 1:
        return f"PDF page {pdf_page} of {owner.last_page}"
    return f"PDF page {pdf_page} ({owner.first_page} to {owner.last_page})"


def _picture(
    library: OpenedLibrary,
    owner: PublicationRecord,
    sheet: PageRecord,
    dpi: int,
    passages: Sequence[PassageRecord],
    here: PassageRecord | None,
    marks: dict[str, Any],
    asked: Question,
    references: PageReferences,
) -> Picture:
    boxes = [
        _around(place.box, also=passage is not here)
        for passage in passages
        if passage is here or marks[passage.id]
        for place in passage.boxes
        if place.pdf_page == sheet.pdf_page
    ]
    words = [_rectangle(box) for box in leaf.marked_words(library, owner, sheet, asked)]
    doubts = tuple(_around(box, also=False) for box in leaf.doubtful_words(library, sheet))
    name = f"page {sheet.printed_page}" if sheet.printed_page else f"PDF page {sheet.pdf_page}"
    return Picture(
        picture_address(owner.id, sheet.pdf_page, dpi),
        sheet.width,
        sheet.height,
        f"Picture of {name}. Its text is under “On this page”.",
        sheet.pdf_page,
        tuple(sorted(boxes, key=lambda box: box.also)),
        tuple(words),
        _outlined(here, bool(doubts)) if boxes or words or doubts else "Links of the page",
        doubts,
        tuple(
            LinkOn(each.text, each.address, tuple(_around(box, also=False) for box in each.boxes))
            for each in references.references
            if each.boxes
        ),
    )


def _outlined(here: PassageRecord | None, doubts: bool) -> str:
    words = "The passage you came for is outlined" if here else "Passages with your words are outlined"
    return f"{words}. {DOUBTS}" if doubts else words


def _rectangle(box: Box) -> Rectangle:
    return Rectangle(round(box.x0, 1), round(box.top, 1), round(box.width, 1), round(box.height, 1))


def _around(box: Box, also: bool) -> Rectangle:
    return Rectangle(
        round(box.x0 - _MARGIN, 1),
        round(box.top - _MARGIN, 1),
        round(box.width + 2 * _MARGIN, 1),
        round(box.height + 2 * _MARGIN, 1),
        also,
    )


def _overrides(
    library: OpenedLibrary, currency: Currency, owner: PublicationRecord, pdf_page: int, dpi: int
) -> tuple[OverrideView, ...]:
    """The temporary revisions that change this page, each with its own pages as pictures."""
    by_source: dict[str, list[Any]] = {}
    for override in currency.overrides(owner, pdf_page):
        by_source.setdefault(override.source_id, []).append(override)
    views = []
    for source_id, overrides in by_source.items():
        source = library.publication(source_id)
        named = publication_view(source)
        numbers = sorted({override.source_pdf_page for override in overrides})
        sheets = [library.catalogue.page(source.copy_id, number) for number in numbers]
        views.append(
            OverrideView(
                named.name,
                currency.short_name(source_id),
                currency.override_words(overrides[0]),
                page_address(source.id, numbers[0]),
                tuple(
                    Picture(
                        picture_address(source.id, sheet.pdf_page, dpi),
                        sheet.width,
                        sheet.height,
                        f"Picture of {named.name}, PDF page {sheet.pdf_page}",
                        sheet.pdf_page,
                    )
                    for sheet in sheets
                ),
                tuple(
                    _from_signal(passage.text)
                    for number in numbers
                    for passage in passages_on(library.catalogue, source, number)
                    if passage.kind in _GUARDING and passage.pdf_page == number
                ),
            )
        )
    return tuple(views)
