"""A figure of a parts list -> its picture with marks, and its rows as a tree."""

import json
from collections.abc import Sequence
from typing import Any

from indexer.library import parts
from server.opened import OpenedLibrary
from server.routes import part_pictures as pictures
from server.routes.addresses import Chip
from server.routes.page_view import Rectangle
from server.routes.parts_view import Fields, RowView, figure_address, figure_words, now_words, row_view
from server.tag_fields import box_fields
from server.words import count_of


def figure_view(library: OpenedLibrary, answer: Fields, marked: str, zoom: int) -> dict[str, Any]:
    """What part_figure.html shows; call it inside `reading`. marked: id of a row, "" = none."""
    publication = answer["publication"]
    owner = library.publication(publication["id"])
    rows = answer["rows"]
    chosen = next((row for row in rows if row["id"] == marked), None)
    callouts = _callouts(library, answer)
    here = callouts.get(marked, []) if chosen else []
    views = [(row, row_view(row), callouts.get(row["id"], [])) for row in rows]
    kept = {"zoom": "" if zoom == 100 else str(zoom)}
    return {
        "figure": figure_words(answer),
        "figure_id": answer["id"],
        "publication": publication["name"],
        "publication_words": publication["kind"],
        "currency": publication["currency"],
        "now": now_words(publication),
        "csv": f"/api{figure_address(answer['id'])}.csv",
        "pages": [
            Chip(f"Open the list, PDF page {each['pdf_page']}", each["page_address"])
            for each in answer["lists"]
        ],
        "flagged": _flagged_words(answer["flagged"]),
        "art": [
            pictures.marked_page(
                library,
                owner,
                pdf_page,
                f"PDF page {pdf_page}",
                zoom,
                outlined=[box for page, box in here if page == pdf_page],
                label="The item is outlined",
            )
            for pdf_page in (each["pdf_page"] for each in answer["art"])
        ],
        "zooms": pictures.zooms(zoom, figure_address(answer["id"], marked)),
        "zoom_class": pictures.zoom_class(zoom),
        "marked": marked if chosen else "",
        "marked_words": _marked_words(row_view(chosen), chosen["illustrated"], here) if chosen else "",
        "rows": [
            {
                "row": view,
                "illustrated": row["illustrated"],
                "mark": f"{figure_address(answer['id'], view.id, **kept)}#art",
                "words": _marked_words(view, row["illustrated"], places),
                "callouts": json.dumps([[page, box.x, box.y, box.width, box.height] for page, box in places]),
            }
            for row, view, places in views
        ],
        "cautions": answer["cautions"],
    }


def _callouts(library: OpenedLibrary, answer: Fields) -> dict[str, list[tuple[int, Rectangle]]]:
    """Where the items of the rows stand on the pictures, by id of the row: page and outline."""
    held = parts.figure(library.catalogue, answer["id"])
    records = parts.rows_of_figure(library.catalogue, held.publication_id, held.figure.ordinal)
    return {
        record.id: [
            (place.pdf_page, mark)
            for place in record.row.callouts
            for mark in pictures.item_marks([box_fields(place.box)])
        ]
        for record in records
    }


def _marked_words(view: RowView, illustrated: bool, callouts: Sequence[tuple[int, Rectangle]]) -> str:
    """What is marked on the picture, in words."""
    lead = f"{view.item_words}: {view.number_words}, {view.name}."
    if not illustrated:
        return f"{lead} The figure does not show it."
    if not callouts:
        return f"{lead} Its number was not found in the text of the figure: look for it on the picture."
    return f"{lead} Outlined at {count_of(len(callouts), 'place')}."


def _flagged_words(flagged: int) -> str:
    if not flagged:
        return ""
    rows = "Of 1 row something" if flagged == 1 else f"Of {flagged:,} rows something"
    return f"{rows} could not be read. It is said at the row: read the page there."
