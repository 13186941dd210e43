"""Parts of the parts lists: found by number, words, or figure and item; and all about one row.

Page, JSON API and command share it. Nothing here says that a part may be installed.
"""

import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Any

from indexer.errors import PublicationUnknown
from indexer.library import parts
from indexer.library.catalogue import Catalogue
from indexer.library.parts_records import IndexedRecord, PartRecord, RowKey
from indexer.trade.part_numbers import loose_key
from server.fleet import chosen, in_hand_fields
from server.ocr_debt import owed
from server.opened import OpenedLibrary
from server.parts_applying import RowApplying
from server.parts_asked import PartsAsked, PartsKind, parts_asked
from server.parts_by_number import add_counted, by_number
from server.parts_by_place import by_place, every_figure, figures_meant
from server.parts_by_words import by_words
from server.parts_fleet import fleet_fields
from server.parts_found import Found, Within
from server.parts_named import bulletins_named, figures_named
from server.parts_named_in import named_in, no_row_words, rows_named
from server.parts_row import RowShaper, page_address
from server.parts_supersession import links_fields, links_of
from server.parts_tree import above, attaching, below
from server.parts_words import (
    CAUTION,
    GROUPS,
    OCR_CAUTION,
    SUPERSEDED_CAUTION,
    SUPPLIER_WORDS,
    folded_number,
    not_read_words,
    reads_by_ocr,
)
from server.shelf import named_all
from server.tag_fields import box_fields, page_box_fields

LIMIT = 50  # rows of each group that are shown
MOST = 1000


def find_parts(
    library: OpenedLibrary,
    q: str = "",
    catalogue: str = "",
    figure: str = "",
    item: str = "",
    aircraft: str = "",
    limit: int = LIMIT,
) -> dict[str, Any]:
    """Rows of the parts lists on the shelf, in groups with the surest first.

    catalogue  id, number or file name of a publication; "" = all
    limit      rows of each group that are given; `count` is of all
    Raises QueryProblem, PublicationUnknown, AircraftUnknown.
    """
    asked = parts_asked(q, figure, item)
    library.catch_up()
    with library.reading() as status:
        row = chosen(library, aircraft)
        shaper = RowShaper(library, RowApplying(library, row) if row else None)
        publications = _publications(library, catalogue)
        found = _found(library, asked, publications, shaper, limit)
        groups = _groups(found, shaper, limit)
        index = [_index_fields(each, match, shaper) for each, match in found.index[:limit]]
        named = named_in(library, asked.text, shaper) if asked.kind is PartsKind.NUMBER else None
        if named is None:
            shown = (each["part_number"] for group in groups for each in group["rows"])
            found.said[:0] = rows_named(library, shown)
        if not groups and not index:
            found.said += no_row_words(named)
            if _SUPPLIER.fullmatch(asked.text):
                found.said.append(SUPPLIER_WORDS)
        return {
            "library_state": library.state(status).fields(),
            "asked": {
                "q": q,
                "kind": asked.kind.value,
                "catalogue": catalogue,
                "figure": asked.figure,
                "item": asked.item,
                "aircraft": row.registration if row else "",
                "said": found.said,
                "choices": found.choices,
            },
            "aircraft": in_hand_fields(row),
            "named_in": named,
            "groups": groups,
            "index_only": index,
            "not_read": not_read_fields(library),
            "cautions": cautions_for([each for group in groups for each in group["rows"]], index),
        }


def part_row(library: OpenedLibrary, row_id: str, aircraft: str = "") -> dict[str, Any]:
    """One row with all that the parts lists here say about it.

    Raises PartUnknown, AircraftUnknown.
    """
    library.catch_up()
    with library.reading() as status:
        catalogue = library.catalogue
        hand = chosen(library, aircraft)
        record = parts.row(catalogue, row_id)
        shaper = RowShaper(library, RowApplying(library, hand) if hand else None)
        near = parts.rows_of_figure(catalogue, record.publication_id, record.row.figure)
        links = links_of(catalogue, record)
        used, alike = _elsewhere(library, record, shaper)
        fleet = fleet_fields(library, record)
        fields, own = shaper.row(record), record.row.ordinal
        return {
            "library_state": library.state(status).fields(),
            "aircraft": in_hand_fields(hand),
            **fields,
            "named_in": named_in(library, record.row.part_number, shaper),
            "above": [
                {**shaper.row(step), "variants": shaper.rows(variants)}
                for step, variants in above(near, record)
            ],
            "below": shaper.rows(below(near, own)),
            "attaching_parts": shaper.rows(attaching(near, own)),
            "attaches": _attached_to(catalogue, record, shaper),
            "attaches_also": shaper.rows(
                [each for each in near if each.row.ordinal in record.row.attaches_also]
            ),
            "used_elsewhere": shaper.shown([(key, "") for key in used.first]),
            "used_elsewhere_count": used.count,
            "may_be_used_elsewhere": shaper.shown([(key, _ALIKE) for key in alike.first]),
            "may_be_used_elsewhere_count": alike.count,
            "supersession": links_fields(catalogue, links, shaper),
            "bulletins": bulletins_named(library, record.row),
            "figures": figures_named(library, record),
            "marks": _marks(library, record),
            **fleet,
            "not_read": not_read_fields(library),
            "cautions": [*cautions_for([fields]), *links.cautions],
        }


_SUPPLIER = re.compile(r"(?=.*[0-9])V?[0-9A-Z]{4,5}", re.IGNORECASE)  # most have five, after a "V" in lists
_ALIKE = "Looks alike, or read by OCR: compare with the page."


def _attached_to(catalogue: Catalogue, record: PartRecord, shaper: RowShaper) -> dict[str, Any] | None:
    if record.row.attaches is None:
        return None
    key = (record.publication_id, record.row.attaches)
    found = parts.rows(catalogue, [key]).get(key)
    return shaper.row(found) if found else None


@dataclass(frozen=True, slots=True)
class _Rows:
    """The first of several rows, and how many there are."""

    first: list[RowKey]
    count: int


def _elsewhere(library: OpenedLibrary, record: PartRecord, shaper: RowShaper) -> tuple[_Rows, _Rows]:
    """Other rows with the same number, and those that only look alike or were read by OCR."""
    number, found = record.row.part_number, Found()
    key = loose_key(number)
    if key:
        add_counted(found, library.catalogue, number, key, shaper.shelf, shaper.order, LIMIT + 1)
    itself = 0 if library.publication(record.publication_id).replaced or not key else 1
    if reads_by_ocr(record.row.origin):
        alike = ("exact", "normalised", "loose")
        return _Rows([], 0), _other_rows(found, alike, record, itself, shaper)
    same = _other_rows(found, ("exact", "normalised"), record, itself, shaper)
    return same, _other_rows(found, ("loose",), record, 0, shaper)


def _other_rows(
    found: Found, matches: Sequence[str], record: PartRecord, itself: int, shaper: RowShaper
) -> _Rows:
    """`itself` = 1 where the row stands among those that were counted."""
    rows = [key for match in matches for key, _ in found.groups.get(match, ()) if key != record.key]
    first = sorted(rows, key=shaper.order)[:LIMIT]
    return _Rows(first, sum(found.count(match) for match in matches) - itself)


def _marks(library: OpenedLibrary, record: PartRecord) -> dict[str, Any]:
    """Where the row, its number and its callouts stand. Points on the page as displayed."""
    row = record.row
    key = (record.publication_id, row.figure)
    figure = parts.figures_with(library.catalogue, [key]).get(key)
    pages = dict.fromkeys((*(figure.art_pages if figure else ()), *(each.pdf_page for each in row.callouts)))
    return {
        "list_page": row.pdf_page,
        "row": [page_box_fields(each) for each in row.boxes],
        "number": box_fields(row.number_box) if row.number_box else None,
        "art": [
            {
                "pdf_page": page,
                "page_address": page_address(record.publication_id, page),
                "callouts": [box_fields(each.box) for each in row.callouts if each.pdf_page == page],
            }
            for page in pages
        ],
    }


def not_read_fields(library: OpenedLibrary) -> dict[str, Any]:
    """What no search of the parts lists can find; inside `reading`."""
    rows, pages = parts.not_read(library.catalogue), owed(library)
    return {
        "pages": pages.unread + pages.failed + pages.without_text,
        "rows": rows,
        "words": " ".join(filter(None, (pages.words, not_read_words(pages.without_text, rows)))),
    }


def cautions_for(rows: Collection[dict[str, Any]], index: Collection[dict[str, Any]] = ()) -> list[str]:
    """What must be said beside some rows."""
    cautions = [CAUTION]
    if any(each["read_by_ocr"] for each in (*rows, *index)):
        cautions.append(OCR_CAUTION)
    if any(each["publication"]["superseded"] for each in rows):
        cautions.append(SUPERSEDED_CAUTION)
    return cautions


def _publications(library: OpenedLibrary, given: str) -> frozenset[str]:
    """Ids of the publications that are searched. Raises PublicationUnknown."""
    if not given.strip():
        return frozenset(each.id for each in library.publications())
    found = named_all(library, given)
    if not found:
        raise PublicationUnknown(given)
    return frozenset(each.id for each in found)


def _found(
    library: OpenedLibrary,
    asked: PartsAsked,
    publications: frozenset[str],
    shaper: RowShaper,
    limit: int,
) -> Found:
    catalogue = library.catalogue
    if asked.kind is PartsKind.PLACE:
        found = by_place(catalogue, asked, publications, shaper.publication)
        if asked.number:
            also = by_number(catalogue, asked.text, publications, shaper.order, limit)
            found.groups = also.groups | found.groups
            found.counts, found.index = also.counts, also.index
        return found
    within = _within(library, asked, publications) if asked.figure or asked.item else None
    if asked.kind is PartsKind.NUMBER:
        return by_number(catalogue, asked.text, publications, shaper.order, limit, within)
    return by_words(catalogue, asked.text, publications, within)


def _within(library: OpenedLibrary, asked: PartsAsked, publications: frozenset[str]) -> Within:
    """Whether a row stands at the figure and item asked about."""
    held = [each for each in every_figure(library.catalogue) if each.publication_id in publications]
    figures = {(each.publication_id, each.figure.ordinal) for each in figures_meant(held, asked)}
    item_asked = folded_number(asked.item)

    def within(publication_id: str, figure: int, item: str) -> bool:
        if asked.figure and (publication_id, figure) not in figures:
            return False
        return publication_id in publications and (not item_asked or folded_number(item) == item_asked)

    return within


def _groups(found: Found, shaper: RowShaper, limit: int) -> list[dict[str, Any]]:
    groups = []
    for match, usual in GROUPS.items():
        label = found.labels.get(match, usual)
        rows = found.groups.get(match)
        if not rows:
            continue
        rows = sorted(rows, key=lambda each: shaper.order(each[0]))
        shown = shaper.shown(rows[:limit])
        groups.append({"match": match, "label": label, "count": found.count(match), "rows": shown})
    return groups


def _index_fields(each: IndexedRecord, match: str, shaper: RowShaper) -> dict[str, Any]:
    line = each.line
    return {
        "match": match,
        "publication": shaper.publication(each.publication_id),
        "part_number": line.part_number,
        "figure_item": line.figure_item,
        "quantity": line.quantity,
        "stock_number": line.stock_number,
        "origin": line.origin.value,
        "read_by_ocr": reads_by_ocr(line.origin),
        "pdf_page": line.pdf_page,
        "printed_page": each.printed_page,
        "box": box_fields(line.box),
        "page_address": page_address(each.publication_id, line.pdf_page),
        "words": f"The number index gives {line.figure_item or 'a place that was not read'}, and no row with "
        "this number was read there. Look at the figure.",
    }
