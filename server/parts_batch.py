"""A list of part numbers answered line by line: CSV in, CSV out.

Columns are parted by commas, semicolons or tabs, as spreadsheets write them. The numbers stand in the column
part_number, else in the first; a first line without a part number in that place names the columns. All other
columns are carried through. A line that cannot be answered says why, and the others go on.
"""

import csv
import io
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from indexer.errors import QueryProblem
from indexer.library import parts
from indexer.library.fleet_records import Aircraft
from server.csv_file import csv_text, plain
from server.fleet import chosen
from server.opened import OpenedLibrary
from server.parts_applying import RowApplying
from server.parts_by_number import by_number
from server.parts_csv import SHORT, currency_words
from server.parts_found import Found
from server.parts_named_in import directives_words, named_in, no_row_words
from server.parts_row import RowShaper
from server.parts_supersession import links_of
from server.parts_words import GROUPS, joined

MOST_LINES = 2_000
MOST_BYTES = 1_000_000
LONGEST_NUMBER = 100  # characters
ANSWERS = (
    *("line", "match", "rows", "listed_number", "section", "figure", "item"),
    *("listed_nomenclature", "units"),
    *("publication", "revision", "superseded_publication", "currency", "directives"),
    *("superseded_by", "applies", "applies_why"),
    *("remarks", "row", "library_state", "caution"),
)
_NUMBER_NAMES = ("part_number", "part number", "partnumber", "part no", "part no.", "p/n", "pn")
_PARTED_BY = (",", ";", "\t")  # the first where none of them stands
_SAID = re.compile(r"sep=([,;\t])", re.IGNORECASE)
_SEVERAL = re.compile(r"part[_ ]?number\s*[|:~^]|[|:~^]\s*part[_ ]?number")
_CONTROL = re.compile(r"[\x00-\x08\x0e-\x1f]")
_SURE = ("exact", "normalised")
NOT_FOUND, PROBLEM, INDEX_ONLY = "not found", "problem", "number index only"


class PartListRefused(QueryProblem):
    """The list as a whole cannot be answered."""

    slug = "part-list-refused"


@dataclass(frozen=True, slots=True)
class _Line:
    number: int  # of the text, the first is 1
    given: Sequence[str]
    asked: str
    problem: str = ""


@dataclass(frozen=True, slots=True)
class _List:
    columns: tuple[str, ...]
    lines: tuple[_Line, ...]


def answer_list(library: OpenedLibrary, text: str, aircraft: str = "") -> str:
    """The list with the answer beside each line, as CSV text. Raises PartListRefused, AircraftUnknown."""
    listed = _read(text)
    library.catch_up()
    with library.reading() as status:
        answering = _Answering(library, chosen(library, aircraft))
        state = {"library_state": status.generation, "caution": SHORT}
        names = [f"given {name}" if name in ANSWERS else name for name in listed.columns]
        answers = (
            {
                **dict(zip(names, line.given, strict=False)),
                "line": line.number,
                **(answering.of(line) if not line.problem else _problem(line.problem)),
                **state,
            }
            for line in listed.lines
        )
        return csv_text((*names, *ANSWERS), answers)


def _problem(what: str) -> dict[str, Any]:
    return {"match": PROBLEM, "rows": 0, "remarks": what}


class _Answering:
    """Answers lines over one state of the library; the same number is answered once."""

    def __init__(self, library: OpenedLibrary, aircraft: Aircraft | None):
        self._library = library
        self._shaper = RowShaper(library, RowApplying(library, aircraft) if aircraft else None)
        self._shelf = frozenset(each.id for each in library.publications())
        self._known: dict[str, tuple[int, dict[str, Any]]] = {}

    def of(self, line: _Line) -> dict[str, Any]:
        before = self._known.get(line.asked)
        if before is None:
            before = self._known[line.asked] = (line.number, self._answer(line.asked))
            return before[1]
        first, answer = before
        return {**answer, "remarks": f"Asked in line {first} as well. {answer['remarks']}".strip()}

    def _answer(self, asked: str) -> dict[str, Any]:
        if not any(letter.isdigit() for letter in asked):
            return _problem("Only numbers are answered here; ask for words on /parts.")
        directives, said = directives_words(self._library, asked)
        answer = self._listed(asked)
        return {**answer, "directives": directives, "remarks": " ".join([*said, answer["remarks"]])}

    def _listed(self, asked: str) -> dict[str, Any]:
        found = by_number(self._library.catalogue, asked, self._shelf, self._shaper.order, 1)
        match = next((each for each in GROUPS if each in found.groups), "")
        if not match:
            return self._without_row(asked, found)
        rows = sorted(found.groups[match], key=lambda each: self._shaper.order(each[0]))
        first = self._shaper.shown(rows[:1])[0]
        publication, applies = first["publication"], first["applies"] or {}
        by, said = self._superseded_by(first["id"]) if match in _SURE else ("", [])
        how = "" if match == "exact" else f"{GROUPS[match]}."
        remarks = [how, first["why"], *_counts(found, match), *found.said, *said]
        return {
            "match": match,
            "rows": found.count(match),
            "listed_number": "" if match == "named" else first["part_number"],
            "section": first["figure"]["number"],
            "figure": first["figure"]["figure"],
            "item": first["item"],
            "listed_nomenclature": first["nomenclature"],
            "units": first["units"],
            "publication": publication["name"],
            "revision": publication["revision"],
            "superseded_publication": "yes" if publication["superseded"] else "",
            "currency": currency_words(publication),
            "superseded_by": by,
            "applies": applies.get("answer", ""),
            "applies_why": applies.get("why", ""),
            "remarks": " ".join(filter(None, (*remarks, *first["flags"]))),
            "row": first["id"],
        }

    def _superseded_by(self, row_id: str) -> tuple[str, list[str]]:
        """The numbers that rows name as taking its place, and what must be said of them."""
        catalogue = self._library.catalogue
        links = links_of(catalogue, parts.row(catalogue, row_id))
        held = [link for link in links.held["replaced_by"] if link.sure]
        first = dict.fromkeys(link.number for link in held if link.step == 1)
        further = dict.fromkeys(link.number for link in held if link.step > 1 and link.number not in first)
        on = [f"Rows lead on from there to {joined(list(further))}."] if further else []
        return "; ".join(first), [*on, *links.cautions]

    def _without_row(self, asked: str, found: Found) -> dict[str, Any]:
        if not found.index:
            said = no_row_words(named_in(self._library, asked, self._shaper))
            none = said or ["No row of the parts lists here has it."]
            return {"match": NOT_FOUND, "rows": 0, "remarks": " ".join((*none, *found.said))}
        record, _ = found.index[0]
        publication = self._shaper.publication(record.publication_id)
        return {
            "match": INDEX_ONLY,
            "rows": 0,
            "listed_number": record.line.part_number,
            "figure": record.line.figure_item,
            "publication": publication["name"],
            "revision": publication["revision"],
            "remarks": "Stands in the number index, and no row with it was read there. Look at the figure.",
        }


def _counts(found: Found, match: str) -> Iterator[str]:
    """How much of less sure groups there is."""
    for other in found.groups:
        if other != match:
            yield f"{found.count(other)} more: {GROUPS[other][:1].lower()}{GROUPS[other][1:]}."


def _read(text: str) -> _List:
    """The lines of the list. Raises PartListRefused."""
    if len(text.encode("utf-8")) > MOST_BYTES:
        raise PartListRefused(
            f"The list is larger than {MOST_BYTES // 1000:,} kB.", "Give it in parts: nothing was answered."
        )
    if control := _CONTROL.search(text):
        raise PartListRefused(
            f"This is no text: it holds the character U+{ord(control[0]):04X}.",
            "Save the table as CSV in UTF-8.",
        )
    text, parted_by = _parted(text.removeprefix("\ufeff"))
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=parted_by, strict=True)
    found: list[tuple[int, list[str]]] = []
    broken: tuple[int, str] | None = None
    begins = 1
    try:
        for values in reader:
            if any(value.strip() for value in values):
                found.append((begins, [plain(value.strip()) for value in values]))
            begins = reader.line_num + 1
            if len(found) > MOST_LINES + 1:
                break
    except csv.Error as problem:
        broken = (begins, f"This line is not CSV ({problem}), so nothing after it was read.")
    names, at, rows = _headed(found) if found else ([], 0, [])
    if not rows:
        raise PartListRefused(
            broken[1] if broken else "The list holds no part number.",
            "Give one part number a line, in the first column or in a column named part_number.",
        )
    if len(rows) > MOST_LINES:
        raise PartListRefused(
            f"The list has more than {MOST_LINES:,} lines.", "Give it in parts: nothing was answered."
        )
    lines = [_line(number, values, at, len(names)) for number, values in rows]
    if broken:
        lines.append(_Line(broken[0], (), "", broken[1]))
    return _List(tuple(names), tuple(lines))


def _parted(text: str) -> tuple[str, str]:
    """The text, and what parts its columns: what stands most often in the first line, outside quotes.

    A first line "sep=;" says it, and becomes an empty one.
    """
    first, end, rest = text.lstrip("\r\n").partition("\n")
    if found := _SAID.fullmatch(first.rstrip()):
        return f"{end}{rest}", found[1]
    bare = re.sub(r'"[^"]*"', "", first)
    return text, max(_PARTED_BY, key=bare.count)


def _headed(
    found: list[tuple[int, list[str]]],
) -> tuple[list[str], int, list[tuple[int, list[str]]]]:
    """Names of the columns, the place of the numbers among them, and the lines below."""
    first = found[0][1]
    folded = [name.casefold() for name in first]
    if len(first) == 1 and folded[0] not in _NUMBER_NAMES and _SEVERAL.search(folded[0]):
        raise PartListRefused(
            f"The first line, «{first[0][:60]}», is not parted into columns.",
            "Save the table as CSV: commas, semicolons or tabs between the columns.",
        )
    at = next((folded.index(name) for name in _NUMBER_NAMES if name in folded), None)
    if at is None and any(letter.isdigit() for letter in first[0]):
        names, rows, at = ["part_number", *(f"column {n + 2}" for n in range(len(first) - 1))], found, 0
    else:
        names, rows, at = first, found[1:], at or 0
    named: list[str] = []
    for place, name in enumerate(names):
        name = name or f"column {place + 1}"
        named.append(f"{name} {place + 1}" if name in named else name)
    return named, at, rows


def _line(number: int, values: list[str], at: int, columns: int) -> _Line:
    asked = " ".join(values[at].split()) if at < len(values) else ""
    problem = ""
    if len(values) > columns:
        problem = f"This line has {len(values)} fields, and {columns} columns are named."
    elif not any(letter.isalnum() for letter in asked):
        problem = "There is no part number in this line."
    elif len(asked) > LONGEST_NUMBER:
        problem = f"What stands for the part number is longer than {LONGEST_NUMBER} characters."
    return _Line(number, values[:columns], asked, problem)
