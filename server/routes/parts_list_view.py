"""A list of part numbers answered, as CSV -> what its page shows of each line. Pure."""

import csv
import io
from dataclasses import dataclass
from typing import Any

from server.parts_batch import ANSWERS, INDEX_ONLY, NOT_FOUND, PROBLEM
from server.parts_words import GROUPS, place_words
from server.routes.parts_view import part_address, parts_address
from server.words import count_of

MOST_SHOWN = 300  # lines on the page; the CSV file has all
_NUMBER_COLUMNS = ("part_number", "part number", "partnumber", "part no", "part no.", "p/n", "pn")
_LEADS = {
    NOT_FOUND: "No row found",
    PROBLEM: "Cannot be answered",
    INDEX_ONLY: "In a number index only",
}


@dataclass(frozen=True, slots=True)
class LineView:
    """One line of the list and its answer. match = its kind, for the stylesheet; given = other columns."""

    line: str
    asked: str
    given: tuple[str, ...]
    match: str
    lead: str
    listed: str
    name: str
    place: str
    units: str
    superseded_by: tuple[tuple[str, str], ...]  # number and where it leads
    superseded_publication: bool
    currency: str
    directives: str
    applies: str
    applies_why: str
    remarks: str
    address: str  # of the row; "" = none
    look: str


def list_view(answered: str) -> dict[str, Any]:
    """What part_list.html shows of the answers; "" = nothing was asked."""
    reader = csv.DictReader(io.StringIO(answered))
    columns = list(reader.fieldnames or ())
    given = columns[: columns.index(ANSWERS[0])] if columns else []
    number = next((name for name in given if name.casefold().strip() in _NUMBER_COLUMNS), (given or [""])[0])
    lines = list(reader)
    return {
        "total": len(lines),
        "found": count_of(sum(line["match"] in GROUPS for line in lines), "number"),
        "lines": [_line(line, number, given) for line in lines[:MOST_SHOWN]],
    }


def _line(line: dict[str, str], number: str, given: list[str]) -> LineView:
    match = line["match"]
    lead = GROUPS.get(match) or _LEADS.get(match, match)
    asked = line[number]
    placed = line["figure"] or line["item"]
    place = place_words(line["figure"], line["item"], line["section"]) if placed else ""
    listed = ", ".join(part for part in (line["publication"], place) if part)
    successors = [each for each in line["superseded_by"].split("; ") if each]
    return LineView(
        line["line"],
        asked or "No number in this line",
        tuple(f"{name}: {line[name]}" for name in given if name != number and line[name]),
        match.replace(" ", "-"),
        lead,
        line["listed_number"],
        line["listed_nomenclature"],
        listed,
        line["units"],
        tuple((each, parts_address(each)) for each in successors),
        bool(line["superseded_publication"]),
        line["currency"],
        line["directives"],
        line["applies"],
        line["applies_why"],
        line["remarks"].replace(f"{lead}.", "", 1).strip(),
        part_address(line["row"]) if line["row"] else "",
        parts_address(asked) if asked and match != PROBLEM else "",
    )
