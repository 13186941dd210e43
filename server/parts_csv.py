"""The rows of a figure as CSV (RFC 4180), in printed order, with the caution in every row."""

import re
from collections.abc import Mapping
from typing import Any

from server.csv_file import csv_text
from server.fleet import aircraft_words, chosen
from server.opened import OpenedLibrary
from server.parts_figure import figure_rows

SHORT = (
    "A parts list never proves by itself that a part may be installed; check revision, directives and the "
    "part's papers."
)
COLUMNS = (
    *("publication", "revision", "superseded", "currency", "section", "figure", "title", "item"),
    *("illustrated", "part_number", "stock_number", "dots", "nomenclature", "usage", "usage_words"),
    *("effectivity", "units", "supplier", "attaching", "notes", "could_not_be_read", "read_by", "pdf_page"),
    *("printed_page", "aircraft", "applies", "applies_why", "row", "library_state", "made_at", "caution"),
)


def figure_csv(library: OpenedLibrary, figure_id: str, aircraft: str = "") -> tuple[str, str]:
    """The CSV text, rows ended by CR LF, and a name for its file. Raises FigureUnknown, AircraftUnknown."""
    answer = figure_rows(library, figure_id, aircraft)
    hand = chosen(library, aircraft)
    every_row = {
        "aircraft": aircraft_words(hand) if hand else "",
        "library_state": answer["library_state"]["generation"],
        "made_at": answer["library_state"]["shown_at"],
        "caution": SHORT,
    }
    text = csv_text(COLUMNS, ({**every_row, **_row(each)} for each in answer["rows"]))
    return text, file_name(answer)


def file_name(answer: Mapping[str, Any]) -> str:
    """ "figure-32-42-00-14.csv": plain letters, figures and dashes."""
    name = f"{answer['number']} {answer['figure']}" if answer["number"] else answer["figure"]
    plain = re.sub(r"[^A-Za-z0-9]+", "-", name).strip("-").lower()
    return f"figure-{plain or 'rows'}.csv"


def _row(row: Mapping[str, Any]) -> dict[str, Any]:
    publication, figure, applies = row["publication"], row["figure"], row["applies"] or {}
    return {
        "publication": publication["name"],
        "revision": publication["revision"],
        "superseded": "yes" if publication["superseded"] else "",
        "currency": currency_words(publication),
        "section": figure["number"],
        "figure": figure["figure"],
        "title": figure["title"],
        "item": row["item"],
        "illustrated": "yes" if row["illustrated"] else "no",
        "part_number": row["part_number"],
        "stock_number": row["stock_number"],
        "dots": "" if row["indenture"] is None else row["indenture"],
        "nomenclature": row["nomenclature"],
        "usage": " ".join(each["code"] for each in row["usage"]),
        "usage_words": " | ".join(f"{each['code']}: {each['words'] or 'not found'}" for each in row["usage"]),
        "effectivity": row["effectivity"],
        "units": row["units"],
        "supplier": row["supplier"],
        "attaching": "yes" if row["attaching"] else "",
        "notes": " | ".join(each["words"] for each in row["notes"]),
        "could_not_be_read": " | ".join(row["flags"]),
        "read_by": row["confidence_words"] or "text of the file",
        "pdf_page": row["pdf_page"],
        "printed_page": row["printed_page"],
        "applies": applies.get("answer", ""),
        "applies_why": applies.get("why", ""),
        "row": row["id"],
    }


def currency_words(publication: Mapping[str, Any]) -> str:
    """Whether a publication is known to be current, with why: "superseded. Revision 5 is current per ..."."""
    current = publication["current"]
    said = [each for each in publication["currency"] if each not in current["why"]]
    return " ".join([f"{current['state']}.", *said, current["why"]])
