"""Bulletins and figures that a row of a parts list names, and whether they are here."""

from collections.abc import Iterator
from typing import Any

from indexer.library.parts_records import PartRecord
from indexer.library.records import PublicationRecord
from indexer.tagging.parts_rows import PartNoteKind, PartsRow
from server.opened import OpenedLibrary
from server.parts_applying import bulletin_key
from server.parts_asked import PartsAsked, PartsKind, parts_asked
from server.parts_by_place import every_figure, figures_meant
from server.parts_row import figure_address, publication_address
from server.parts_words import place_words
from server.words import publication_kind, publication_name

_CONFIGURATIONS = {
    PartNoteKind.PRE_BULLETIN: "before the bulletin",
    PartNoteKind.POST_BULLETIN: "after the bulletin",
}
_OF_FIGURES = (PartNoteKind.SEE_FIGURE, PartNoteKind.NEXT_HIGHER_ASSEMBLY)


def bulletins_named(library: OpenedLibrary, row: PartsRow) -> list[dict[str, Any]]:
    """Bulletins that part the row's configurations, each with the publications here that are it."""
    found = []
    for note in row.notes:
        if note.kind not in _CONFIGURATIONS:
            continue
        held = list(_bulletins(library, note.number))
        name = note.number or note.words
        found.append(
            {
                "mark": note.kind.value,
                "words": note.words,
                "number": note.number,
                "publications": [_publication(each) for each in held],
                "said": f"It belongs to the configuration {_CONFIGURATIONS[note.kind]}. {name} is "
                + ("held here." if held else "not among the documents held here."),
            }
        )
    return found


def _bulletins(library: OpenedLibrary, number: str) -> Iterator[PublicationRecord]:
    """Publications on the shelf with a bulletin's number, the newest first."""
    key = bulletin_key(number)
    held = [
        each for each in library.publications() if key and each.number and bulletin_key(each.number) == key
    ]
    yield from sorted(
        held, key=lambda each: (each.date is None, -(each.date.toordinal() if each.date else 0))
    )


def _publication(record: PublicationRecord) -> dict[str, Any]:
    return {
        "id": record.id,
        "name": f"{publication_name(record)}, revision {record.revision}"
        if record.revision
        else publication_name(record),
        "kind": publication_kind(record.type, record.revision, record.date, record.entered),
        "address": publication_address(record.id),
    }


def figures_named(library: OpenedLibrary, record: PartRecord) -> list[dict[str, Any]]:
    """Figures of the same list that the row sends the reader to."""
    here = [each for each in every_figure(library.catalogue) if each.publication_id == record.publication_id]
    found = []
    for note in record.row.notes:
        if note.kind not in _OF_FIGURES or not note.number:
            continue
        meant = figures_meant(here, _asked(note.number))
        found.append(
            {
                "kind": note.kind.value,
                "words": note.words,
                "number": note.number,
                "figures": [
                    {
                        "id": each.id,
                        "figure": each.figure.figure,
                        "number": each.figure.number,
                        "title": each.figure.title,
                        "place": place_words(each.figure.figure, "", each.figure.number),
                        "address": figure_address(each.id),
                    }
                    for each in meant
                ],
                "said": "" if meant else f"Figure {note.number} was not found in this parts list.",
            }
        )
    return found


def _asked(number: str) -> PartsAsked:
    """ "14", "5-2", "32-41-00-02" or "figure 14" as a question for a figure."""
    plain = number.strip()
    asked = parts_asked(plain if plain.lower().startswith("fig") else f"figure {plain}")
    pieces = asked.figure.split("-")
    if asked.kind is PartsKind.PLACE and not asked.section and len(pieces) == 4:
        return PartsAsked(PartsKind.PLACE, plain, "-".join(pieces[:3]), pieces[3])
    return asked
