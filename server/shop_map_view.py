"""The shop's map beside the manuals it speaks of: their sections, what is worked out and what is mapped."""

from collections.abc import Sequence
from typing import Any

from indexer.errors import LibraryProblem, PublicationUnknown
from indexer.library import own_order, shop_map
from indexer.library.map_names import Names, called, names_of
from indexer.library.problems import EntryRefused
from indexer.library.records import MapRow, PublicationRecord
from indexer.library.relation_rules.filing import mapped_publications
from indexer.library.shop_lists import Imported, LineProblem
from indexer.trade.own_numbers import in_range, parse_own_number
from indexer.trade.publication_titles import says_kind_alone
from server.opened import OpenedLibrary
from server.search import publication_fields
from server.shelf import SeveralMeant
from server.words import publication_name

_MOST_NAMED = 8


def manuals(library: OpenedLibrary) -> list[dict[str, Any]]:
    """Publications on the shelf with an order of their own."""
    with library.reading():
        return [
            {**publication_fields(library.publication(one)), "passages": passages}
            for one, passages in own_order.manuals_with_own_order(library.catalogue).items()
        ]


class ManualUnknown(PublicationUnknown):
    """A name that no manual held here has; the remedy gives names that some have."""

    slug = "manual-unknown"

    def __init__(self, given: str, names: Sequence[str], kind_alone: bool):
        if kind_alone:
            what = f"«{given}» says what kind of book it is and not whose; any aircraft may have one."
        else:
            what = f"No manual in this library is called «{given}»."
        them = "; ".join(names[:_MOST_NAMED]) + ("; ..." if len(names) > _MOST_NAMED else "")
        remedy = (
            f"Name one of these: {them}." if names else "No manual with an order of its own is held here."
        )
        LibraryProblem.__init__(self, what, remedy)


def names(library: OpenedLibrary) -> Names:
    return names_of(library.every_publication())


def manuals_named(library: OpenedLibrary, given: str) -> list[PublicationRecord]:
    """The publications of the one work that a person means; those on the shelf first.

    given  an id, a number, a title that says more than the kind of book, model and title, or a file name
    Raises ManualUnknown, or SeveralMeant when it fits several works.
    """
    known, by_id = names(library), {record.id: record for record in library.every_publication()}
    if given in by_id:
        return [by_id[given]]
    found = known.fitting(given) or known.nearly(given)
    alike = known.of_kind(given)
    if not found and len(alike) < 2:
        would_do = alike or [called(record) for record in _with_own_order(library)]
        words = [_name_words(known, by_id[each.id]) for each in would_do]
        raise ManualUnknown(given, words, says_kind_alone(given))
    records = sorted((by_id[each.id] for each in found or alike), key=lambda each: each.replaced is not None)
    if not known.are_one(found):
        raise SeveralMeant(given, records)
    return records


def _with_own_order(library: OpenedLibrary) -> list[PublicationRecord]:
    return [library.publication(one) for one in own_order.manuals_with_own_order(library.catalogue)]


def _name_words(known: Names, record: PublicationRecord) -> str:
    """ "h-14.pdf (SERVICE MANUAL, H-14)": a name that will do, and what it is."""
    key, name = known.key(called(record)) or record.id, publication_name(record)
    return key if key in name else f"{key} ({name})"


def map_name(known: Names, record: PublicationRecord) -> str:
    """What a line of the map calls this publication. Raises EntryRefused where no name means it alone."""
    name = known.key(called(record))
    if not name:
        raise EntryRefused(
            f"nothing tells {publication_name(record)} from another manual held here",
            "Enter its number, beside one of its pages under «A tag here is wrong».",
        )
    return name


def line_name(library: OpenedLibrary, given: str) -> str:
    """How a line writes the manual that a person means. Raises ManualUnknown, SeveralMeant, EntryRefused."""
    known, found = names(library), manuals_named(library, given)
    return known.line_name(given) or map_name(known, found[0])


def unreached(library: OpenedLibrary) -> dict[int, str]:
    """Lines of the map that file nothing, by their numbers, and why."""
    known = names(library)
    return {
        row.id: "Fits several manuals held here and files none: name one of them by its file."
        if known.fitting(row.publication) or len(known.of_kind(row.publication)) > 1
        else "No manual held here has this name."
        for row in shop_map.map_rows(library.catalogue)
        if not known.reached(row.publication)
    }


def rows_of(library: OpenedLibrary, record: PublicationRecord) -> list[MapRow]:
    """The lines that speak of a publication: those of every revision of its work."""
    return mapped_publications(shop_map.map_rows(library.catalogue), names(library)).get(record.id, [])


def sections(library: OpenedLibrary, publication: str) -> dict[str, Any]:
    """A manual's own sections, and the lines of the map that speak of it.

    Raises ManualUnknown, or SeveralMeant also where several revisions of the manual lie on the shelf.
    """
    with library.reading():
        found = manuals_named(library, publication)
        on_shelf = [each for each in found if each.replaced is None]
        if len(on_shelf or found) > 1:
            raise SeveralMeant(publication, on_shelf or found)
        record = found[0]
        lines = rows_of(library, record)
        return {
            "publication": publication_fields(record),
            "map_name": names(library).key(called(record)) or record.file,
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
                for section in own_order.own_sections_of(library.catalogue, record.id)
            ],
            "lines": [row_fields(row) for row in lines],
        }


def _covers(row: MapRow, section: str) -> bool:
    """Whether a line speaks of the section, or of a part of it."""
    outer = (own_order.outer_section(row.first), own_order.outer_section(row.last))
    return in_range(section, row.first, row.last) or any(same_range((section,), (each,)) for each in outer)


def same_range(one: Sequence[str], other: Sequence[str]) -> bool:
    """Whether two (first, last) are the same sections, however they are written: V is 5."""
    return [parse_own_number(each) or each for each in one] == [
        parse_own_number(each) or each for each in other
    ]


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
    """Add a line for a manual held here. Raises ManualUnknown, SeveralMeant, EntryRefused."""
    name = line_name(library, publication)
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


def not_held_words(taken: Imported) -> str:
    """ "Not held yet: KM-12, KM-14."; "" when all are."""
    return f"Not held yet: {', '.join(taken.not_held)}." if taken.not_held else ""


def _problem_words(problem: LineProblem) -> str:
    """ "line 3: «99x» is no assigned chapter. Give ...", without its full stop."""
    return f"line {problem.line}: {problem.what.removeprefix('Not entered: ').rstrip('.')}"
