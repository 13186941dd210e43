"""Reports that a tag is wrong, as plain data: what a tablet says and what the desk answers."""

from typing import Any

from indexer.errors import PublicationUnknown, QueryProblem
from indexer.library import tag_reports
from indexer.library.report_records import ReportedTag, TagReport
from server.opened import OpenedLibrary
from server.words import publication_name

TAG_WORDS = {
    ReportedTag.CHAPTER: "Chapter number",
    ReportedTag.TYPE: "Type of publication",
    ReportedTag.STANDING: "Standing",
    ReportedTag.REVISION: "Revision or date",
    ReportedTag.APPLIES: "Which aircraft it applies to",
    ReportedTag.TEXT: "Text as it was read",
    ReportedTag.OTHER: "Something else",
}
MOST_IN_TIME, IN_TIME_S = 10, 60.0  # reports of one device


class TooManyReports(QueryProblem):
    """One device reports faster than a person reads."""

    slug = "too-many-reports"

    def __init__(self) -> None:
        super().__init__(
            f"This device sent {MOST_IN_TIME} reports within a minute.",
            "Wait a minute; the last one was not kept.",
        )


def tag_named(name: str) -> ReportedTag:
    """Raises QueryProblem for a tag there is not."""
    try:
        return ReportedTag(name)
    except ValueError:
        choices = ", ".join(ReportedTag)
        raise QueryProblem(f"«{name[:40]}» is no tag of a page.", f"Choose one of: {choices}.") from None


def report(
    library: OpenedLibrary,
    publication_id: str,
    pdf_page: int,
    tag: str,
    said: str,
    who: str = "",
    passage_id: str = "",
) -> dict[str, Any]:
    """Raises QueryProblem, EntryRefused, PublicationUnknown, PassageUnknown."""
    library.publication(publication_id)
    kept = tag_reports.report(
        library.catalogue, publication_id, pdf_page, tag_named(tag), said, who, passage_id
    )
    return report_fields(library, kept)


def reports(library: OpenedLibrary) -> dict[str, Any]:
    """What waits for an answer, and the last that were answered."""
    with library.reading() as status:
        return {
            "library_state": library.state(status).fields(),
            "open": [report_fields(library, each) for each in tag_reports.open_reports(library.catalogue)],
            "settled": [
                report_fields(library, each) for each in tag_reports.settled_reports(library.catalogue)
            ],
        }


def of_page(library: OpenedLibrary, publication_id: str, pdf_page: int) -> tuple[str, ...]:
    """What is said against the tags of a page and not answered yet, in words for the next reader."""
    found = tag_reports.open_reports(library.catalogue, publication_id, pdf_page)
    return tuple(
        f"Reported as wrong on {each.at:%Y-%m-%d}: {TAG_WORDS[each.tag].casefold()}: {each.said}"
        f"{'' if each.said.endswith('.') else '.'} Not yet answered."
        for each in found
    )


def settle(library: OpenedLibrary, number: int, who: str, why: str) -> dict[str, Any]:
    """Raises EntryRefused, ReportUnknown."""
    return report_fields(library, tag_reports.settle(library.catalogue, number, who, why))


def report_fields(library: OpenedLibrary, report: TagReport) -> dict[str, Any]:
    return {
        "report": report.id,
        "publication": report.publication_id,
        "name": _name(library, report.publication_id),
        "pdf_page": report.pdf_page,
        "passage": report.passage_id or None,
        "quote": report.quote,
        "tag": report.tag.value,
        "tag_words": TAG_WORDS[report.tag],
        "said": report.said,
        "who": report.who,
        "at": report.at.isoformat(),
        "settled_at": report.settled_at.isoformat() if report.settled_at else None,
        "settled_by": report.settled_by,
        "settled_why": report.settled_why,
    }


def _name(library: OpenedLibrary, publication_id: str) -> str:
    """The publication's name; "" when it was taken out of the library."""
    try:
        return publication_name(library.publication(publication_id))
    except PublicationUnknown:
        return ""
