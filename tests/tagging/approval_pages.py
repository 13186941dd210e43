"""Sentences in context (data/approval_sentences.csv) -> documents of made pages, each in the place it names.

In the file " | " is a line's end and " || " a blank line.
"""

import csv
import textwrap
from dataclasses import dataclass, replace
from pathlib import Path

from made_documents import document, line, page

from indexer.reading.page import Document, Line, Page

DATA = Path(__file__).parent / "data" / "approval_sentences.csv"

TITLE_PAGES = {
    "SRM": "# STRUCTURAL REPAIR MANUAL || Manual No. D88-3 | Revision 2: May 17, 2030",
    "AMM": "# MAINTENANCE MANUAL || Manual No. D88-2 | Revision 6: May 17, 2030",
    "IPC": "# ILLUSTRATED PARTS CATALOG || Catalog No. D88-4 | Revision 6: May 17, 2030",
    "CMM": "# COMPONENT MAINTENANCE MANUAL || Main Wheel 4410-1 | Revision 1: May 17, 2030",
    "ENGINE": "# ENGINE MANUAL || Manual No. E9-2 | Revision 1: May 17, 2030",
    "PROPELLER": "# PROPELLER OWNER'S MANUAL || Manual No. P7-1 | Revision 1: May 17, 2030",
    "ICA": "# INSTRUCTIONS FOR CONTINUED AIRWORTHINESS || Document No. ICA-77 | Revision A",
    "ALS": "# AIRWORTHINESS LIMITATIONS || Document No. D88-9 | Revision 3: May 17, 2030",
    "AFM": "# AIRPLANE FLIGHT MANUAL || Manual No. D88-1 | Revision 2: May 17, 2030",
    "AFMS": "# AIRPLANE FLIGHT MANUAL SUPPLEMENT || Supplement No. 14 | Revision A",
    "TR": "# TEMPORARY REVISION No. 32-1 || Maintenance Manual D88-2 | Insert facing 32-41-00 page 401",
    "SL": "# SERVICE LETTER No. SL-88-07 || Subject: Bolts",
    "SI": "# SERVICE INSTRUCTION No. 1422 || Subject: Bolts",
    "TCDS": "# TYPE CERTIFICATE DATA SHEET No. A9XX || Revision 12 | Exemplar Aircraft Model C88",
    "STC": "# SUPPLEMENTAL TYPE CERTIFICATE || Number SA99999CE",
    "AC": "# ADVISORY CIRCULAR || AC No: 43-99 | Subject: Repairs",
    "ORDER": "# FEDERAL AVIATION ADMINISTRATION || ORDER 8300.99 | Subject: Data",
    "AMOC": "Federal Aviation Administration || Subject: Alternative Method of Compliance to AD 2031-04-07",
    "SAIB": "# SPECIAL AIRWORTHINESS INFORMATION BULLETIN || SAIB: CE-31-07 | Subject: Bolts",
    "8110-3": "# STATEMENT OF COMPLIANCE WITH AIRWORTHINESS STANDARDS || FAA Form 8110-3",
    "337": "# MAJOR REPAIR AND ALTERATION || FAA Form 337",
    "8130-3": "# AUTHORIZED RELEASE CERTIFICATE || FAA Form 8130-3, AIRWORTHINESS APPROVAL TAG",
    "NOTES": "# Shop notes",
}  # fmt: skip
_BULLETIN = (
    "# SERVICE BULLETIN No. C88-32-0012 || Revision C: May 17, 2030 | Subject: Brake bolts{title} || "
    "1. PLANNING INFORMATION | A. Effectivity | (1) C88 airplanes, serial numbers 1 through 40. | "
    "E. Compliance | (1) MANDATORY, within 10 hours. | F. Approval | {approval} | G. Manpower | (1) 2 hours."
)
_WIDEST = 90  # characters of a line: what fits on a drawn page
_PLAIN = "Clean the parts and lay them out on the bench."


@dataclass(frozen=True)
class Case:
    """One row. `type`: a key of TITLE_PAGES, or "SB". `reach`: the pages a grant reaches, "" = none."""

    group: str
    type: str
    where: str
    before: str
    sentence: str
    after: str
    reach: str
    why: str
    source: str

    @property
    def words(self) -> str:
        """The sentence with the lines around it."""
        return " ".join(part for part in (self.before, self.sentence, self.after) if part)

    def __str__(self) -> str:
        return f"{self.type}, {self.where}: {self.words}"


def cases() -> list[Case]:
    with DATA.open(encoding="utf-8", newline="") as file:
        return [Case(**row) for row in csv.DictReader(file)]


def printed(text: str) -> str:
    """The words with the line ends that " | " and " || " stand for."""
    return text.replace(" || ", "\n\n").replace(" | ", "\n").strip(" |")


def page_of(number: int, text: str, head: str = "", foot: str = "", printed_page: str = "") -> Page:
    """A page whose blank lines are white space between its lines."""
    made = page(number, head=_rows(head), foot=_rows(foot), printed_page=printed_page)
    body: list[Line] = []
    top = 72.0
    for row in printed(text).splitlines():
        top += 14 if not row.strip() else 0
        for part in textwrap.wrap(row, _WIDEST):
            top += 14
            body.append(line(part, top))
    return replace(made, body=tuple(body), state=page(number, "x").state)


def _rows(text: str) -> list[str]:
    return [row for row in printed(text).splitlines() if row.strip()] if text else []


def made_for(case: Case) -> Document:
    """The document in which the sentence stands where the case says."""
    title = TITLE_PAGES.get(case.type, "")
    if case.type == "SB":
        title = _BULLETIN.format(
            title=f" || {case.words}" if case.where == "title" else "",
            approval=case.words if case.where == "approval" else "(1) See the index.",
        )
    elif case.where == "title":
        title = f"{title} || {case.words}"
    words = case.words if case.where not in ("title", "approval", "foot", "head", "every foot") else _PLAIN
    foot = case.words if case.where in ("foot", "every foot") else "Page 2"
    head = case.words if case.where == "head" else ""
    every = case.words if case.where == "every foot" else ""
    if case.where == "limitations":
        return document(
            page_of(1, title),
            page_of(2, f"# AIRWORTHINESS LIMITATIONS || {words}", foot="04-00-00 Page 1", printed_page="1"),
            page_of(3, "Main fitting: 8000 landings.", foot="04-00-00 Page 2", printed_page="2"),
            page_of(4, _PLAIN, foot="32-41-00 Page 401", printed_page="401"),
        )
    if case.where == "approval page":
        return document(
            page_of(1, title),
            page_of(2, f"# APPROVAL PAGE || {words}"),
            page_of(3, _PLAIN, foot="53-10-00 Page 201 | May 17, 2030", printed_page="201"),
            page_of(4, _PLAIN, foot="53-60-00 Page 201 | May 17, 2030", printed_page="201"),
        )
    if case.where == "far":
        between = [page_of(number, _PLAIN, foot=f"Page {number}") for number in (2, 3, 4, 5)]
        return document(page_of(1, title), *between, page_of(6, words, foot="Page 6"))
    if case.where == "contents":
        words = f"# CONTENTS || {words}"
    return document(
        page_of(1, title, foot=every),
        page_of(2, words, head=head, foot=foot),
        page_of(3, _PLAIN, foot=every or "Page 3"),
    )


def pages_reached(case: Case) -> frozenset[int]:
    """The pages (1-based) of made_for(case) that a grant of this reach approves."""
    last = {"limitations": 4, "approval page": 4, "far": 6}.get(case.where, 3)
    return {
        "": frozenset(),
        "page": frozenset({6 if case.where == "far" else 2}),
        "title page": frozenset({1}),
        "section": frozenset({2, 3}),
        "listed": frozenset({2, 3}),
        "listed chapter": frozenset({2, 3, 4}),
        "document": frozenset(range(1, last + 1)),
        "bulletin revision": frozenset(range(1, last + 1)),
    }[case.reach]
