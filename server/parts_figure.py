"""A figure of a parts list with all its rows, in printed order."""

from typing import Any

from indexer.library import parts
from server.fleet import chosen, in_hand_fields
from server.opened import OpenedLibrary
from server.parts import cautions_for, not_read_fields
from server.parts_applying import RowApplying
from server.parts_row import RowShaper, page_address


def figure_rows(library: OpenedLibrary, figure_id: str, aircraft: str = "") -> dict[str, Any]:
    """One figure and its rows. Raises FigureUnknown, AircraftUnknown."""
    library.catch_up()
    with library.reading() as status:
        held = parts.figure(library.catalogue, figure_id)
        row = chosen(library, aircraft)
        shaper = RowShaper(library, RowApplying(library, row) if row else None)
        records = parts.rows_of_figure(library.catalogue, held.publication_id, held.figure.ordinal)
        rows = shaper.rows(records)
        return {
            "library_state": library.state(status).fields(),
            "aircraft": in_hand_fields(row),
            **shaper.figure(held.publication_id, held.figure.ordinal),
            "publication": shaper.publication(held.publication_id),
            "art": [_page(held.publication_id, page) for page in held.figure.art_pages],
            "lists": [_page(held.publication_id, page) for page in held.figure.list_pages],
            "count": len(rows),
            "flagged": sum(bool(each["flags"]) for each in rows),
            "rows": rows,
            "not_read": not_read_fields(library),
            "cautions": cautions_for(rows),
        }


def _page(publication_id: str, pdf_page: int) -> dict[str, Any]:
    return {"pdf_page": pdf_page, "page_address": page_address(publication_id, pdf_page)}
