"""What a question leads straight to: a publication by its number, rows of a part, a figure and its item.

Nothing is guessed: numbers agree as printed, or in another way of writing the same number (case, blanks,
dashes and strokes, the short word of the type before it). What only looks alike is left to the hits.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache

from indexer.errors import QueryProblem
from indexer.library import parts
from indexer.library.parts_records import CountedNumber, FigureRecord, PartRecord, row_id
from indexer.library.records import PublicationRecord
from indexer.library.register_records import CurrencyFinding, CurrencyState
from indexer.library.relation_rules.reference_targets import type_fits
from indexer.library.works import number_key
from indexer.tagging.references import find_citations
from indexer.tagging.tags import CitationKind
from indexer.trade.applies import ApplicabilityAnswer
from indexer.trade.dashes import plain_dashes
from indexer.trade.evidence import Origin
from indexer.trade.part_numbers import Match, find_part_numbers, loose_key, match_with
from indexer.trade.publication_types import PublicationType, type_row
from server.applying import Applying
from server.currency import Currency
from server.current import Current
from server.kept import KeptByState
from server.opened import OpenedLibrary
from server.parts_asked import PartsAsked, PartsKind, parts_asked
from server.parts_by_place import every_figure, figures_meant
from server.parts_words import folded_number, reads_by_ocr

MOST_PUBLICATIONS, MOST_FIGURES, MOST_ROWS = 6, 4, 3
_SHORTEST = 3  # characters of a publication's number; with fewer it is hardly meant
_kept = KeptByState(most=4)
_APART = re.compile(r"[^a-z0-9]+")


@dataclass(frozen=True, slots=True)
class HeldPublication:
    """A publication with the number typed, its state, and whether it applies (None = no aircraft)."""

    record: PublicationRecord
    currency: tuple[str, ...]
    current: CurrencyFinding
    applies: ApplicabilityAnswer | None


@dataclass(frozen=True, slots=True)
class HeldPart:
    """Rows of parts lists with the number typed; `only_row` = its id where there is just one.

    alike   rows whose number only looks like it, or was read by OCR: nobody is led straight to one
    """

    number: str
    rows: int
    alike: int
    only_row: str


@dataclass(frozen=True, slots=True)
class HeldFigure:
    """A figure with the number typed, and its rows with the item typed; () = none was."""

    figure: FigureRecord
    publication: PublicationRecord
    item: str
    rows: tuple[PartRecord, ...]
    superseded: bool  # the publication


@dataclass(frozen=True, slots=True)
class StraightTo:
    """What a question names by number. `more_` = how many beyond those given."""

    publications: tuple[HeldPublication, ...] = ()
    more_publications: int = 0
    part: HeldPart | None = None
    figures: tuple[HeldFigure, ...] = ()
    more_figures: int = 0


def straight_to(library: OpenedLibrary, question: str, applying: Applying | None = None) -> StraightTo:
    """What is held under the numbers of a question; inside `reading`."""
    if not any(letter.isdigit() for letter in question):
        return StraightTo()
    publications = _publications(library, question, applying)
    asked = _asked(question)
    figures = list(_figures(library, asked)) if asked and asked.kind is PartsKind.PLACE else []
    return StraightTo(
        tuple(publications[:MOST_PUBLICATIONS]),
        max(0, len(publications) - MOST_PUBLICATIONS),
        _part(library, question, asked),
        tuple(figures[:MOST_FIGURES]),
        max(0, len(figures) - MOST_FIGURES),
    )


# Publications ---------------------------------------------------------------------------------------------


def _publications(library: OpenedLibrary, question: str, applying: Applying | None) -> list[HeldPublication]:
    """Every publication with a number of the question, superseded ones last."""
    by_number = _kept.of(library.catalogue, library.catalogue.generation).once(
        "numbers", lambda: _by_number(library.every_publication())
    )
    found = {
        record.id: record
        for number, types in _numbers_in(question)
        for record in by_number.get(number, ())
        if not types or any(type_fits(each, record.type) for each in types)
    }
    if not found:
        return []
    shelf = {record.revision_id for record in found.values() if record.replaced is None}
    records = [each for each in found.values() if each.replaced is None or each.revision_id not in shelf]
    currency = Currency(library.catalogue)
    current = Current(library.catalogue, currency=currency)
    current.prepare(records)
    held = [
        HeldPublication(
            each,
            currency.of_publication(each),
            current.of_publication(each),
            applying.of_publication(each) if applying else None,
        )
        for each in records
    ]
    return sorted(held, key=_order)


def _order(held: HeldPublication) -> tuple:
    superseded = held.current.state is CurrencyState.SUPERSEDED
    date = held.record.date.toordinal() if held.record.date else 0
    return superseded, held.record.replaced is not None, -date, held.record.id


def _by_number(records: Iterable[PublicationRecord]) -> dict[str, list[PublicationRecord]]:
    by_number: dict[str, list[PublicationRecord]] = {}
    for record in records:
        for number in {number for number, _ in _forms(record.number, record.type)}:
            by_number.setdefault(number, []).append(record)
    return by_number


def _forms(number: str, kind: PublicationType | None) -> Iterator[tuple[str, tuple[PublicationType, ...]]]:
    """The ways a number is looked up by, each with the types that its own words name; () = none is named."""
    for text in (number, number_key(number, kind) if number and kind else ""):
        whole = _plain(text)
        if len(whole) >= _SHORTEST and any(letter.isdigit() for letter in whole):
            yield whole, ()
            rest, types = _without_type(whole)
            if types and len(rest) >= _SHORTEST and any(letter.isdigit() for letter in rest):
                yield rest, types


def _numbers_in(question: str) -> Iterator[tuple[str, tuple[PublicationType, ...]]]:
    """The question as a whole, and each paper that it cites by number."""
    yield from _forms(question, None)
    for cited in find_citations(question):
        if cited.kind is CitationKind.DOCUMENT and cited.number:
            types = (cited.type,) if cited.type else ()
            for number, named in _forms(cited.number, cited.type):
                yield number, types or named


def _plain(text: str) -> str:
    return _APART.sub("-", plain_dashes(text).casefold()).strip("-")


def _without_type(number: str) -> tuple[str, tuple[PublicationType, ...]]:
    """A number without the word of its type before it, and the types that the word stands for."""
    for word, types in _type_words():
        if number.startswith(f"{word}-"):
            return number[len(word) + 1 :], types
    return number, ()


@cache
def _type_words() -> list[tuple[str, tuple[PublicationType, ...]]]:
    """Words before a number: "sb", "service-bulletin", the longest first."""
    found: dict[str, list[PublicationType]] = {}
    for kind in PublicationType:
        row = type_row(kind)
        for word in {_plain(each) for each in (row.short, kind.label, *row.also)}:
            if word and not any(letter.isdigit() for letter in word):
                found.setdefault(word, []).append(kind)
    return sorted(((word, tuple(kinds)) for word, kinds in found.items()), key=lambda each: -len(each[0]))


# Parts ----------------------------------------------------------------------------------------------------


def _asked(question: str) -> PartsAsked | None:
    try:
        return parts_asked(question)
    except QueryProblem:  # nothing in it names a part
        return None


def _part(library: OpenedLibrary, question: str, asked: PartsAsked | None) -> HeldPart | None:
    """Rows with the question's number, or with the first number in it that has the look of a standard's."""
    if asked and (asked.kind is PartsKind.NUMBER or asked.number):
        number = asked.text
    else:
        number = next((found.text for found in find_part_numbers(question)), "")
    key = loose_key(number)
    if not key:
        return None
    shelf = {each.id for each in library.publications()}
    counted: dict[Match, list[CountedNumber]] = {}
    for each in parts.numbers_counted(library.catalogue, key):
        if each.publication_id in shelf:
            match = match_with(number, each.part_number, reads_by_ocr(Origin(each.origin)))
            counted.setdefault(match, []).append(each)
    same = [*counted.get(Match.EXACT, ()), *counted.get(Match.NORMALISED, ())]
    total, alike = (sum(each.rows for each in found) for found in (same, counted.get(Match.LOOSE, ())))
    if not total:
        return None
    only = parts.keys_of(library.catalogue, key, same[0], 1)[0] if total == 1 and not alike else None
    return HeldPart(number, total, alike, row_id(only) if only else "")


def _figures(library: OpenedLibrary, asked: PartsAsked) -> Iterator[HeldFigure]:
    """Figures with the number asked for, and with an item only those that have it; superseded ones last."""
    shelf = {each.id: each for each in library.publications()}
    held = [each for each in every_figure(library.catalogue) if each.publication_id in shelf]
    current = Current(library.catalogue)
    item = folded_number(asked.item)
    found = []
    for figure in figures_meant(held, asked):
        keys = [
            key
            for key, printed in parts.items_of(
                library.catalogue, figure.publication_id, figure.figure.ordinal
            )
            if item and folded_number(printed) == item
        ]
        if item and not keys:
            continue
        publication = shelf[figure.publication_id]
        superseded = current.of_publication(publication).state is CurrencyState.SUPERSEDED
        rows = tuple(parts.rows(library.catalogue, keys[:MOST_ROWS]).values())
        found.append(HeldFigure(figure, publication, asked.item, rows, superseded))
    yield from sorted(found, key=lambda each: each.superseded)
