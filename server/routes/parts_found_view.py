"""What was found for a question about parts -> what the parts page shows of it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from indexer.library.parts_held import IndexHeld, ListHeld, indexes_held, lists_held
from server.kept import KeptByState
from server.opened import OpenedLibrary
from server.parts import MOST
from server.parts_words import CAUTION
from server.routes.addresses import Asked, Chip
from server.routes.parts_view import Fields, RowView, named_view, page_words, parts_address, row_view
from server.words import count_of, publication_kind, publication_name

_kept = KeptByState(most=1)


@dataclass(frozen=True, slots=True)
class GroupView:
    """Rows found in one way; `label` says which way. more_words "" = all are shown."""

    match: str
    label: str
    short: str
    count: int
    rows: tuple[RowView, ...]
    more: str
    more_words: str


@dataclass(frozen=True, slots=True)
class CatalogueView:
    id: str
    name: str
    words: str
    index_words: str
    address: str


@dataclass(frozen=True, slots=True)
class IndexLine:
    """A line of a number index without a row."""

    number: str
    words: str
    read: str
    page: str
    address: str
    publication: str


def found_view(
    library: OpenedLibrary, asked: Mapping[str, str], answer: Fields | None, limit: int
) -> dict[str, Any]:
    """What parts.html shows; call it inside `reading`. answer None: nothing was asked, or it was refused."""
    held = lists_held(library.catalogue)
    indexes = {} if answer else _indexes(library)  # said where the lists are listed
    view: dict[str, Any] = {
        "asked": {**asked, "narrowed": any(asked[name] for name in ("catalogue", "figure", "item"))},
        "catalogues": [_catalogue(library, each, indexes.get(each.publication_id)) for each in held],
        "answered": answer is not None,
        "searched": _searched(held, asked, answer),
        "cautions": answer["cautions"] if answer else [CAUTION],
    }
    if answer is not None:
        total = sum(group["count"] for group in answer["groups"])
        view |= {
            "named_in": named_view(answer["named_in"]),
            "said": answer["asked"]["said"],
            "choices": _choices(asked, answer["asked"]["choices"]),
            "total": total,
            "groups": [_group(group, asked, limit) for group in answer["groups"]],
            "index_only": [_index_line(each) for each in answer["index_only"]],
            "suggestions": [] if total else _suggestions(asked),
        }
    return view


def _indexes(library: OpenedLibrary) -> dict[str, IndexHeld]:
    """Worked out once for each state: 80,000 numbers of 20 indexes take 0.3 s."""
    kept = _kept.of(library.catalogue, library.catalogue.generation)
    return kept.once("indexes", lambda: indexes_held(library.catalogue))


def _catalogue(library: OpenedLibrary, held: ListHeld, index: IndexHeld | None) -> CatalogueView:
    record = library.publication(held.publication_id)
    kind = publication_kind(record.type, record.revision, record.date, record.entered)
    words = f"{kind}: {count_of(held.figures, 'figure')}, {count_of(held.rows, 'row')}"
    return CatalogueView(
        record.id,
        publication_name(record),
        words,
        _index_words(index) if index else "",
        f"/publications/{record.id}/pages/{record.first_page}",
    )


def _index_words(index: IndexHeld) -> str:
    """How the number index shows what is missing of the rows: pages left out of the file, or not read."""
    if not index.without_row:
        return ""
    stand = "stands" if index.without_row == 1 else "stand"
    numbers = count_of(index.numbers, "number")
    return f"{index.without_row:,} of the {numbers} in its index {stand} in no row that was read."


def _group(group: Fields, asked: Mapping[str, str], limit: int) -> GroupView:
    rows = tuple(row_view(row) for row in group["rows"])
    hidden = group["count"] - len(rows)
    more = limit < MOST and hidden > 0
    words = f"Show {min(group['count'], MOST)} rows" if more else f"{hidden:,} more rows: ask more narrowly."
    return GroupView(
        group["match"].replace(" ", "-"),
        group["label"],
        group["label"].partition(" (")[0].partition(":")[0],
        group["count"],
        rows,
        parts_address(**asked, limit=str(MOST)) if more else "",
        words if hidden > 0 else "",
    )


def _index_line(each: Fields) -> IndexLine:
    return IndexLine(
        each["part_number"],
        each["words"],
        "Read by OCR: compare it with the page." if each["read_by_ocr"] else "",
        page_words(each["printed_page"], each["pdf_page"]),
        each["page_address"],
        each["publication"]["name"],
    )


def _choices(asked: Mapping[str, str], choices: Sequence[Fields]) -> list[Chip]:
    """The parts lists that have the place asked for, where there are several."""
    if len(choices) < 2:
        return []
    return [
        Chip(each["name"], parts_address(**{**asked, "catalogue": each["id"]}), each["rows"])
        for each in choices
    ]


def _searched(held: Sequence[ListHeld], asked: Mapping[str, str], answer: Fields | None) -> list[str]:
    """How much was looked at, and what was not: said with every answer."""
    rows = sum(each.rows for each in held)
    words = f"{count_of(rows, 'row')} of {count_of(len(held), 'parts list')}"
    said = [f"Searched: {words}."] if answer else []
    if answer and asked["catalogue"]:
        said = [f"Searched: the parts list chosen; {words} are held here."]
    if answer and (not_read := answer["not_read"]["words"]):
        said.append(f"Not searched: {not_read}")
    return said


def _suggestions(asked: Mapping[str, str]) -> list[Chip]:
    """What else can be tried when no row was found."""
    found = []
    if asked["catalogue"]:
        found.append(Chip("In every parts list", parts_address(**{**asked, "catalogue": ""})))
    if asked["figure"] or asked["item"]:
        found.append(Chip("Anywhere in the list", parts_address(asked["q"], catalogue=asked["catalogue"])))
    first, _, rest = asked["q"].partition("-")
    if rest and any(letter.isdigit() for letter in first):
        shorter = asked["q"].rpartition("-")[0]
        found.append(Chip(f"Without the dash number: {shorter}", parts_address(shorter)))
    if asked["q"]:
        found.append(Chip("Search the text of all publications", Asked(q=asked["q"]).address))
    return found + [Chip("Which pages are not read", "/status")]
