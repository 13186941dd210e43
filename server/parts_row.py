"""One row of a parts list as plain data: the same wherever a row is handed out."""

import datetime
from collections.abc import Iterable, Sequence
from typing import Any
from urllib.parse import quote

from indexer.library import parts
from indexer.library.parts_records import PartRecord, RowKey, figure_id
from indexer.library.records import PublicationRecord, SupersessionKind
from indexer.library.register_records import CurrencyState
from indexer.tagging.parts_rows import PartsFigure
from indexer.trade.applies import ApplicabilityAnswer
from server.applies_words import applies_words
from server.currency import Currency
from server.current import Current, current_fields
from server.kept import KeptByState
from server.opened import OpenedLibrary
from server.parts_applying import RowApplying
from server.parts_words import ocr_words, place_words, reads_by_ocr
from server.words import publication_kind, publication_name

_LAST = datetime.date.max
_publications = KeptByState(most=20_000)


class RowShaper:
    """Makes rows into plain data; make one for each answer, inside `reading`.

    applying   None = no aircraft is in hand
    """

    def __init__(self, library: OpenedLibrary, applying: RowApplying | None = None):
        self._library = library
        self._currency = Currency(library.catalogue)
        self._current = Current(library.catalogue, currency=self._currency)
        self.applying = applying
        self._figures: dict[tuple[str, int], PartsFigure] = {}
        self._kept = _publications.of(library.catalogue, library.catalogue.generation, self._current.on)
        self._shelf: frozenset[str] | None = None
        self._orders: dict[str, tuple[bool, int]] = {}

    @property
    def shelf(self) -> frozenset[str]:
        """Ids of the publications on the shelf."""
        if self._shelf is None:
            self._shelf = frozenset(each.id for each in self._library.publications())
        return self._shelf

    def rows(self, records: Sequence[PartRecord], why: str = "") -> list[dict[str, Any]]:
        """Several rows; what they share is read in one go."""
        places = {(each.publication_id, each.row.figure) for each in records}
        self._figures |= parts.figures_with(self._library.catalogue, places - self._figures.keys())
        if self.applying:
            self.applying.read_ahead(records)
        return [self._row(each, why) for each in records]

    def row(self, record: PartRecord, why: str = "") -> dict[str, Any]:
        return self.rows([record], why)[0]

    def publication(self, publication_id: str) -> dict[str, Any]:
        """The publication of a row, whether it is known to be current today, and what speaks against it."""
        return self._kept.once(publication_id, lambda: self._publication(publication_id))

    def _publication(self, publication_id: str) -> dict[str, Any]:
        record = self._library.publication(publication_id)
        current = self._current.of_publication(record)
        return {
            "id": record.id,
            "name": publication_name(record),
            "number": record.number,
            "revision": record.revision,
            "date": record.date.isoformat() if record.date else None,
            "type": record.type.value if record.type else None,
            "kind": publication_kind(record.type, record.revision, record.date, record.entered),
            "superseded": current.state is CurrencyState.SUPERSEDED or self._is_superseded(record),
            "currency": list(self._currency.of_publication(record)),
            "current": current_fields(current),
            "address": publication_address(record.id),
        }

    def _is_superseded(self, record: PublicationRecord) -> bool:
        """Whether something held here takes its place."""
        return record.replaced is not None or any(
            relation.kind != SupersessionKind.CANNOT_TELL.value
            for relation in self._currency.superseding(record)
        )

    def order(self, key: RowKey) -> tuple:
        """Rows of publications not known to be superseded first, the newest before others; as printed."""
        if key[0] not in self._orders:
            held = self._library.publication(key[0])
            age = (_LAST - held.date).days if held.date else _LAST.toordinal()
            self._orders[key[0]] = (self.publication(held.id)["superseded"], age)
        return (*self._orders[key[0]], *key)

    def shown(self, found: Iterable[tuple[RowKey, str]]) -> list[dict[str, Any]]:
        """Rows by key, each with why it is here."""
        why = dict(found)
        records = parts.rows(self._library.catalogue, why)
        return [
            {**fields, "why": why[key]}
            for key, fields in zip(records, self.rows(list(records.values())), strict=True)
        ]

    def figure(self, publication_id: str, ordinal: int) -> dict[str, Any]:
        """The figure of a row in short form."""
        key = publication_id, ordinal
        if key not in self._figures:
            self._figures |= parts.figures_with(self._library.catalogue, [key])
        held = self._figures.get(key)
        return {
            "id": figure_id(publication_id, ordinal),
            "figure": held.figure if held else "",
            "number": held.number if held else "",
            "title": held.title if held else "",
            "place": place_words(held.figure, "", held.number) if held else "",
            "address": figure_address(figure_id(publication_id, ordinal)),
        }

    def _row(self, record: PartRecord, why: str) -> dict[str, Any]:
        row = record.row
        figure = self.figure(record.publication_id, row.figure)
        return {
            "id": record.id,
            "address": row_address(record.id),
            "publication": self.publication(record.publication_id),
            "figure": figure,
            "item": row.item,
            "place": place_words(figure["figure"], row.item, figure["number"]),
            "illustrated": row.illustrated,
            "part_number": row.part_number,
            "nomenclature": row.nomenclature,
            "indenture": row.indenture,
            "units": row.units,
            "stock_number": row.stock_number,
            "usage": [{"code": each.code, "words": each.words} for each in row.usage],
            "effectivity": row.effectivity,
            "supplier": row.supplier,
            "attaching": row.attaching,
            "notes": [
                {"kind": each.kind.value, "words": each.words, "number": each.number} for each in row.notes
            ],
            "flags": [each.value for each in row.flags],
            "origin": row.origin.value,
            "read_by_ocr": reads_by_ocr(row.origin),
            "confidence_words": ocr_words(row.origin, row.confidence, self._library.settings.ocr_floor),
            "quote": row.quote,
            "pdf_page": row.pdf_page,
            "printed_page": record.printed_page,
            "page_address": page_address(record.publication_id, row.pdf_page),
            "applies": self._applies(record),
            "why": why,
        }

    def _applies(self, record: PartRecord) -> dict[str, Any] | None:
        if self.applying is None:
            return None
        return answer_fields(self.applying.of_row(record), self.applying.aircraft.registration)


def answer_fields(answer: ApplicabilityAnswer, registration: str) -> dict[str, Any]:
    """ "words" = the lead ("Applies to QX-1AB:"); "why" and the words printed that decide."""
    said = applies_words(answer, registration)
    return {"answer": answer.value, "words": said.lead, "why": answer.why, "quote": answer.quote}


def row_address(row_id: str) -> str:
    """The page of a row; with /api before it, the same as JSON."""
    return f"/parts/{quote(row_id, safe='')}"


def figure_address(given: str) -> str:
    """The page of a figure's rows; with /api before it, the same as JSON."""
    return f"/figures/{quote(given, safe='')}"


def page_address(publication_id: str, pdf_page: int) -> str:
    return f"{publication_address(publication_id)}/pages/{pdf_page}"


def publication_address(publication_id: str) -> str:
    return f"/publications/{quote(publication_id, safe='')}"
