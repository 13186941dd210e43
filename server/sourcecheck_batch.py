"""Many entries at once: a CSV of entries in, a CSV of findings out, one row for each source cited.

Columns in: entry (or text), and if wanted id, aircraft, work, date. A row that cannot be checked is named
with its line and stands in the findings with what is wrong; the others go on. Each entry is kept in the
audit trail.
"""

import csv
import datetime
import io
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from indexer.errors import HangarleafError
from indexer.library.day import demonstration_words
from server.csv_file import csv_text
from server.opened import OpenedLibrary
from server.sourcecheck import CheckRefused, SourceCheck, check

MOST_ENTRIES = 2_000
MOST_BYTES = 4_000_000
_ENTRY = ("entry", "text")
_KNOWN = (*_ENTRY, "id", "aircraft", "work", "date")
COLUMNS = (
    *(
        "line",
        "id",
        "check",
        "entry",
        "aircraft",
        "work",
        "citation",
        "kind",
        "type",
        "number",
        "revision",
        "date",
    ),
    *(
        "chapter_number",
        "page",
        "figure",
        "paragraph",
        "document",
        "document_revision",
        "pdf_pages",
        "candidates",
    ),
    *(
        "current",
        "current_why",
        "applies",
        "applies_why",
        "standing",
        "usual",
        "basis",
        "quote",
        "quote_pdf_page",
    ),
    *("conditions", "mandatory", "directives", "enough_minor", "enough_minor_why", "enough_major"),
    *(
        "enough_major_why",
        "enough_directive",
        "enough_directive_why",
        "enough_inspection",
        "enough_inspection_why",
    ),
    *("missing", "notes", "ask", "wording", "problem"),
)
CAUTION = (
    "Reference aid only: approves no work, data or part; check the revision and the authority's list of ADs."
)


@dataclass(frozen=True, slots=True)
class Batch:
    """The findings as CSV text, and what could not be checked, in words."""

    text: str
    entries: int
    findings: int
    problems: tuple[str, ...]


def check_csv(
    library: OpenedLibrary,
    text: str,
    aircraft: str = "",
    work: str = "",
    on: datetime.date | None = None,
) -> Batch:
    """Check every entry of a CSV text. `aircraft`, `work` and `on` stand where a row does not say.

    Raises CheckRefused when the text is no such CSV.
    """
    rows = _rows(text)
    found: list[Mapping[str, Any]] = []
    problems: list[str] = []
    entries = findings = 0
    for line, row in rows:
        given = {name: (row.get(name) or "").strip() for name in _KNOWN}
        entry = given["entry"] or given["text"]
        start = {"line": line, "id": given["id"], "entry": entry, "aircraft": given["aircraft"] or aircraft}
        start["work"] = (given["work"] or work).casefold()
        try:
            day = _day(given["date"]) or on
            answer = check(library, entry, start["aircraft"], start["work"], day)
        except HangarleafError as problem:
            problems.append(f"Line {line}: {problem.what} {problem.remedy}".strip())
            found.append({**start, "problem": f"{problem.what} {problem.remedy}".strip()})
            continue
        entries += 1
        findings += len(answer.findings)
        found += [{**start, **each} for each in _findings(answer)]
    caution = f"{demonstration_words(library.catalogue)} {CAUTION}".strip()
    rows = ({**row, "caution": caution} for row in found)  # no row travels without it
    return Batch(csv_text((*COLUMNS, "caution"), rows), entries, findings, tuple(problems))


def read_file(path: Path) -> str:
    """A text file in UTF-8. Raises CheckRefused."""
    try:
        held = path.read_bytes()
    except OSError as problem:
        raise CheckRefused(
            f"{path}: {problem.strerror or problem}.", "Check the name and the rights."
        ) from None
    return decoded(held, str(path))


def decoded(held: bytes, where: str) -> str:
    """Bytes as UTF-8 text, with or without a mark at the head. Raises CheckRefused."""
    if len(held) > MOST_BYTES:
        raise CheckRefused(f"{where}: larger than {MOST_BYTES // 1_000_000} MB.", "Give it in parts.")
    try:
        return held.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise CheckRefused(f"{where}: this is not UTF-8 text.", "Save it as text or CSV in UTF-8.") from None


def write_file(path: Path, text: str) -> None:
    """Write the findings as UTF-8 with a mark at the head, as spreadsheets want it. Raises CheckRefused."""
    try:
        path.write_bytes(text.encode("utf-8-sig"))
    except OSError as problem:
        raise CheckRefused(
            f"{path}: {problem.strerror or problem}.", "Choose another place to write to."
        ) from None


def _rows(text: str) -> list[tuple[int, dict[str, str]]]:
    """Every row with its line (of its last physical line, 1-based). Raises CheckRefused."""
    reader = csv.DictReader(io.StringIO(text, newline=""), strict=True)
    rows: list[tuple[int, dict[str, str]]] = []
    try:
        names = [(name or "").strip().casefold() for name in reader.fieldnames or []]
        if not set(_ENTRY) & set(names):
            raise CheckRefused(
                "The CSV has no column «entry».",
                "Name the columns in the first line: entry, and if wanted id, aircraft, work, date.",
            )
        twice = sorted({name for name in names if name and names.count(name) > 1})
        if twice:
            raise CheckRefused(f"The CSV has two columns «{twice[0]}».", "Name each column once.")
        reader.fieldnames = names
        for row in reader:
            if any(isinstance(value, str) and value.strip() for value in row.values()):
                rows.append((reader.line_num, row))
            if len(rows) > MOST_ENTRIES:
                raise CheckRefused(
                    f"The CSV has more than {MOST_ENTRIES:,} entries.",
                    "Give it in parts: nothing was checked.",
                )
    except csv.Error as problem:
        raise CheckRefused(
            f"Line {reader.line_num}: this is not CSV ({problem}).", "Write it again from the spreadsheet."
        ) from None
    if not rows:
        raise CheckRefused("The CSV holds no entry.", "Give one entry a row, below the names of the columns.")
    return rows


def _day(text: str) -> datetime.date | None:
    if not text:
        return None
    try:
        return datetime.date.fromisoformat(text)
    except ValueError:
        raise CheckRefused(f"«{text}» is no date.", "Write dates as 2031-03-14.") from None


def _findings(answer: SourceCheck) -> Iterable[dict[str, Any]]:
    """One row for each citation; one row that says so where nothing is cited."""
    kept = {
        "check": answer.id,
        "aircraft": answer.aircraft,
        "notes": " ".join((*answer.facts, *answer.notes)),
    }
    cited = answer.fields()["citations"]
    if not cited:
        yield kept
    for each in cited:
        yield {**kept, **_row(each), "notes": " ".join((*answer.facts, *answer.notes, *each["notes"]))}


def _row(each: Mapping[str, Any]) -> dict[str, Any]:
    resolved, standing = each["resolved"] or {}, each["standing"]
    row = {
        "citation": each["text"],
        **{name: each[name] or "" for name in ("kind", "type", "number", "revision", "date")},
        "chapter_number": each["chapter_number"]["text"] if each["chapter_number"] else "",
        **{name: each[name] for name in ("page", "figure", "paragraph", "wording")},
        "document": resolved.get("name", ""),
        "document_revision": resolved.get("revision", ""),
        "pdf_pages": " ".join(map(str, resolved.get("pdf_pages", ()))),
        "candidates": "; ".join(_candidate_words(one) for one in each["candidates"]),
        "current": each["current"]["state"],
        "current_why": each["current"]["why"],
        "applies": each["applies"]["answer"],
        "applies_why": each["applies"]["why"],
        "standing": standing["value"],
        "usual": standing["usual"],
        "basis": standing["basis"],
        "quote": standing["quote"],
        "quote_pdf_page": standing["pdf_page"] or "",
        "conditions": " ".join(standing["conditions"]),
        "mandatory": standing["mandatory"],
        "directives": "; ".join(
            f"{one['number']} {one['says'] or one['level']} ({one['status']}) {one['note']}".strip()
            for one in each["directives"]
        )
        or each["directives_note"],
        "missing": "; ".join(each["missing"]),
        "ask": " ".join(each["ask"]),
    }
    for work, one in each["enough"].items():
        row[f"enough_{work}"], row[f"enough_{work}_why"] = one["answer"], one["why"]
    return row


def _candidate_words(candidate: Mapping[str, str]) -> str:
    """ "MAINTENANCE MANUAL, revision 6: narrowed by the aircraft chosen": name, revision and reason apart."""
    revision = f", revision {candidate['revision']}" if candidate["revision"] else ", no revision printed"
    why = candidate["why"].strip().rstrip(".")
    return f"{candidate['name']}{revision}{f': {why}' if why else ''}"
