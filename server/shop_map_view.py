"""The shop's map beside the manuals it speaks of: their sections, what is worked out and what is mapped."""

from typing import Any

from indexer.library import own_order, shop_map
from indexer.library.problems import EntryRefused
from indexer.library.records import MapRow, PublicationRecord
from indexer.library.relation_rules.filing import mapped_publications
from indexer.library.shop_lists import Imported, LineProblem
from indexer.trade.own_numbers import in_range
from server.opened import OpenedLibrary
from server.search import publication_fields


def manuals(library: OpenedLibrary) -> list[dict[str, Any]]:
    """Publications on the shelf with an order of their own."""
    with library.reading():
        return [
            {**publication_fields(library.publication(one)), "passages": passages}
            for one, passages in own_order.manuals_with_own_order(library.catalogue).items()
        ]


def map_name(record: PublicationRecord) -> str:
    """What a line of the map calls this publication: its number, else its title, else its file."""
    return record.number or record.title or record.file


def rows_of(library: OpenedLibrary, record: PublicationRecord) -> list[MapRow]:
    """The lines that speak of a publication: those of every revision of its work."""
    held = {each.id: each for each in library.every_publication()}
    return mapped_publications(shop_map.map_rows(library.catalogue), held).get(record.id, [])


def sections(library: OpenedLibrary, publication_id: str) -> dict[str, Any]:
    """A manual's own sections, and the lines of the map that speak of it. Raises PublicationUnknown."""
    with library.reading():
        record = library.publication(publication_id)
        lines = rows_of(library, record)
        return {
            "publication": publication_fields(record),
            "map_name": map_name(record),
            "sections": [
                {
                    "number": section.number,
                    "title": section.title,
                    "first_page": section.first_page,
                    "last_page": section.last_page,
                    "passages": section.passages,
                    "not_numbered": section.not_numbered,
                    "worked_out": [
                        {"chapter": chapter, "passages": passages, "confidence": round(sure, 3)}
                        for chapter, passages, sure in section.worked_out
                    ],
                    "filed": [
                        {"chapter": chapter, "passages": passages} for chapter, passages in section.filed
                    ],
                    "mapped": [row_fields(row) for row in lines if _covers(row, section.number)],
                }
                for section in own_order.own_sections_of(library.catalogue, publication_id)
            ],
            "lines": [row_fields(row) for row in lines],
        }


def _covers(row: MapRow, section: str) -> bool:
    """Whether a line speaks of the section, or of a part of it."""
    return in_range(section, row.first, row.last) or section in (
        own_order.outer_section(row.first),
        own_order.outer_section(row.last),
    )


def rows(library: OpenedLibrary) -> list[dict[str, Any]]:
    """Every line of the map, in the order they were added."""
    return [row_fields(row) for row in shop_map.map_rows(library.catalogue)]


def row_fields(row: MapRow) -> dict[str, Any]:
    return {
        "id": row.id,
        "publication": row.publication,
        "first": row.first,
        "last": row.last,
        "chapters": list(row.chapters),
        "who": row.who,
        "made_at": row.made_at.isoformat(),
        "why": row.why,
    }


def add(
    library: OpenedLibrary, publication: str, first: str, last: str, chapters: str, who: str, why: str
) -> dict[str, Any]:
    """Add a line; `publication` may also be an id of one held here. Raises EntryRefused."""
    held = next((each for each in library.every_publication() if each.id == publication), None)
    name = map_name(held) if held else publication
    made = shop_map.add_row(library.catalogue, name, first, last, chapters, who, why)
    library.catch_up()
    return row_fields(made)


def remove(library: OpenedLibrary, row_id: int, who: str, why: str) -> dict[str, Any]:
    """Take a line out. Raises EntryRefused, EntryUnknown."""
    gone = shop_map.remove_row(library.catalogue, row_id, who, why)
    library.catch_up()
    return row_fields(gone)


def import_csv(library: OpenedLibrary, text: str, who: str) -> Imported:
    """Add the lines of a CSV text, or none of them. Raises EntryRefused that names each wrong line."""
    taken = shop_map.import_csv(library.catalogue, text, who)
    if taken.problems:
        told = "; ".join(_problem_words(problem) for problem in taken.problems[:5])
        more = f"; and {len(taken.problems) - 5} more lines" if len(taken.problems) > 5 else ""
        raise EntryRefused(f"{told}{more}", "Correct these lines and import the list again; none was taken.")
    library.catch_up()
    return taken


def _problem_words(problem: LineProblem) -> str:
    """ "line 3: «99x» is no assigned chapter. Give ...", without its full stop."""
    return f"line {problem.line}: {problem.what.removeprefix('Not entered: ').rstrip('.')}"
