"""Reports that a tag is wrong: kept, read, settled.

None of it changes what search finds, so none makes a generation; what a report leads to is an entry of its
own.
"""

import datetime
import sqlite3

from indexer.errors import LibraryProblem
from indexer.library import rows
from indexer.library.catalogue import Catalogue
from indexer.library.persons import named
from indexer.library.problems import EntryRefused
from indexer.library.report_records import ReportedTag, TagReport

MOST_SAID = 500  # characters
MOST_WHO = 120
MOST_OPEN_ON_PAGE = 20
MOST_OPEN = 1000
_QUOTE_LENGTH = 200


class ReportUnknown(LibraryProblem):
    slug = "report-unknown"

    def __init__(self, number: int):
        super().__init__(f"No open report {number}.", "Open the desk again: it may have been answered.")


def report(
    catalogue: Catalogue,
    publication_id: str,
    pdf_page: int,
    tag: ReportedTag,
    said: str,
    who: str = "",
    passage_id: str = "",
) -> TagReport:
    """Keep that a tag of a page, or of one passage on it, is wrong. The same said twice is kept once.

    Raises EntryRefused; PassageUnknown, PublicationUnknown for places that are not in the library.
    """
    said, who = " ".join(said.split()), " ".join(who.split())
    if not any(letter.isalnum() for letter in said):
        raise EntryRefused("nothing is said", "Say in a few words what is wrong.")
    if len(said) > MOST_SAID or len(who) > MOST_WHO:
        raise EntryRefused("too much is said", f"Use at most {MOST_SAID} letters, and {MOST_WHO} for a name.")
    publication = catalogue.publication(publication_id)
    if not publication.first_page <= pdf_page <= publication.last_page:
        raise EntryRefused(f"the publication has no PDF page {pdf_page}", "Report it from the page itself.")
    quote = ""
    if passage_id:
        passage = catalogue.passage(passage_id)
        if passage.publication_id != publication_id:
            raise EntryRefused("the passage stands in another publication", "Report it from the page itself.")
        quote = " ".join(passage.text.split())[:_QUOTE_LENGTH]
    key = (publication.copy_id, publication_id, pdf_page, passage_id, quote, tag.value, said, who)
    with catalogue.database.writing() as connection:
        _refuse_too_many(connection, publication_id, pdf_page)
        same = connection.execute(
            "SELECT * FROM tag_report WHERE settled_at = '' AND publication = ? AND pdf_page = ?"
            " AND passage_id = ? AND tag = ? AND said = ?",
            (publication_id, pdf_page, passage_id, tag.value, said),
        ).fetchone()
        if same is not None:
            return _report(same)
        made = connection.execute(
            "INSERT INTO tag_report (copy_id, publication, pdf_page, passage_id, quote, tag, said, who, at,"
            " settled_at, settled_by, settled_why) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, '', '', '')",
            (*key, rows.now()),
        )
        return _report(_row(connection, made.lastrowid))


def _refuse_too_many(connection: sqlite3.Connection, publication_id: str, pdf_page: int) -> None:
    (everywhere, here), *_ = connection.execute(
        "SELECT COUNT(*), TOTAL(publication = ? AND pdf_page = ?) FROM tag_report WHERE settled_at = ''",
        (publication_id, pdf_page),
    )
    if here >= MOST_OPEN_ON_PAGE or everywhere >= MOST_OPEN:
        where = "of this page" if here >= MOST_OPEN_ON_PAGE else "of the library"
        raise EntryRefused(f"too many reports {where} wait for an answer", "Tell the librarian directly.")


def open_reports(
    catalogue: Catalogue, publication_id: str = "", pdf_page: int | None = None
) -> list[TagReport]:
    """What waits for an answer, the oldest first; of one publication or of one page of it only."""
    with catalogue.reading() as connection:
        found = connection.execute(
            "SELECT * FROM tag_report WHERE settled_at = '' AND (?1 = '' OR publication = ?1)"
            " AND (?2 IS NULL OR pdf_page = ?2) ORDER BY id",
            (publication_id, pdf_page),
        )
        return [_report(row) for row in found]


def settled_reports(catalogue: Catalogue, most: int = 50) -> list[TagReport]:
    """The last that were answered, the latest first."""
    with catalogue.reading() as connection:
        found = connection.execute(
            "SELECT * FROM tag_report WHERE settled_at <> '' ORDER BY settled_at DESC, id DESC LIMIT ?",
            (most,),
        )
        return [_report(row) for row in found]


def settle(catalogue: Catalogue, number: int, who: str, why: str) -> TagReport:
    """A person answers a report: with an entry made, or because the tag is right. It stays readable.

    Raises EntryRefused without name or reason, ReportUnknown.
    """
    name, reason = named(who, why)
    with catalogue.database.writing() as connection:
        row = _row(connection, number)
        if row is None or row["settled_at"]:
            raise ReportUnknown(number)
        connection.execute(
            "UPDATE tag_report SET settled_at = ?, settled_by = ?, settled_why = ? WHERE id = ?",
            (rows.now(), name, reason, number),
        )
        return _report(_row(connection, number))


def _row(connection: sqlite3.Connection, number: int | None) -> sqlite3.Row | None:
    return connection.execute("SELECT * FROM tag_report WHERE id = ?", (number,)).fetchone()


def _report(row: sqlite3.Row) -> TagReport:
    settled: datetime.datetime | None = rows.moment(row["settled_at"]) if row["settled_at"] else None
    return TagReport(
        row["id"],
        row["publication"],
        row["pdf_page"],
        row["passage_id"],
        row["quote"],
        ReportedTag(row["tag"]),
        row["said"],
        row["who"],
        rows.moment(row["at"]),
        settled,
        row["settled_by"],
        row["settled_why"],
    )
