"""What the library holds, as plain data: the list of publications, one of them, the status.

The JSON API and the command line hand these out as they are.
"""

import re
from collections import Counter
from collections.abc import Sequence
from typing import Any

from indexer.errors import LibraryProblem, PublicationUnknown
from indexer.library.filing import chapters_of
from indexer.library.fulltext import NOT_NUMBERED, Filters, FullTextQuery
from indexer.library.list_check_records import ListCheck, PageState
from indexer.library.ocr_pages import debt_by_publication, not_placed_by_publication
from indexer.library.ocr_records import PublicationDebt
from indexer.library.ocr_state import last_state
from indexer.library.records import PageRecord, PublicationRecord
from server.applying import Applying
from server.currency import Currency
from server.current import Current, current_fields, kept_list_check
from server.fleet import chosen, in_hand_fields
from server.ocr_debt import owed, why_not_placed
from server.opened import OpenedLibrary
from server.page_lookup import pages_not_searched
from server.search import publication_fields
from server.tag_fields import applies_fields, evidence_fields, identity_fields, tag_fields
from server.words import chapter_words, publication_kind, publication_name


class SeveralMeant(LibraryProblem):
    """A number, a title or a file name that more than one publication has."""

    slug = "several-meant"

    def __init__(self, given: str, found: Sequence[PublicationRecord]):
        lines = "; ".join(
            f"{record.id} ({publication_name(record)}, "
            f"{publication_kind(record.type, record.revision, record.date, record.entered)}, {record.file}, "
            f"from PDF page {record.first_page})"
            for record in found
        )
        super().__init__(
            f"«{given}» is {len(found)} publications of this library.", f"Name one by its id: {lines}"
        )


def publications(library: OpenedLibrary) -> dict[str, Any]:
    """Every publication on the shelf."""
    with library.reading() as status:
        currency = Currency(library.catalogue)
        current = Current(library.catalogue, currency=currency)
        owing = debt_by_publication(library.catalogue)
        held = library.publications()
        current.prepare(held)
        return {
            "library_state": library.state(status).fields(),
            "ocr": owed(library).fields(),
            "total": len(held),
            "publications": [_summary(record, currency, current, owing.get(record.id)) for record in held],
        }


def _summary(
    record: PublicationRecord, currency: Currency, current: Current, owing: PublicationDebt | None
) -> dict[str, Any]:
    return {
        **publication_fields(record),
        "date": record.date.isoformat() if record.date else None,
        "usual_standing": record.type.usual_standing if record.type else "undetermined",
        "first_page": record.first_page,
        "last_page": record.last_page,
        "passages": record.passages,
        "passages_not_numbered": record.not_numbered,
        "pages_not_read": owing.pages_unread if owing else 0,
        "pages_could_not_be_read": owing.pages_failed if owing else 0,
        "currency": list(currency.of_publication(record)),
        "current": current_fields(current.of_publication(record)),
    }


def named(library: OpenedLibrary, given: str) -> PublicationRecord:
    """The publication that a person means: by id, by number, or by file name with or without its ending.

    Raises PublicationUnknown, or SeveralMeant when a number or a file name fits more than one.
    """
    found = named_all(library, given)
    if len(found) > 1:
        raise SeveralMeant(given, found)
    if not found:
        raise PublicationUnknown(given)
    return found[0]


def named_all(library: OpenedLibrary, given: str) -> list[PublicationRecord]:
    """All that a person may mean by it, those on the shelf before replaced ones; [] = none."""
    held = library.every_publication()
    wanted = _folded(given)
    for fits in (
        lambda record: record.id == given,
        lambda record: record.number and _folded(record.number) == wanted and not record.replaced,
        lambda record: _folded(record.file) in (wanted, f"{wanted}pdf") and not record.replaced,
        lambda record: record.number and _folded(record.number) == wanted,
        lambda record: _folded(record.file) in (wanted, f"{wanted}pdf"),
    ):
        if found := [record for record in held if fits(record)]:
            return found
    return []


def _folded(text: str) -> str:
    return re.sub(r"[\W_]+", "", text).casefold()


def publication(library: OpenedLibrary, publication_id: str, aircraft: str = "") -> dict[str, Any]:
    """One publication with its tags, what disagrees with them, and its pages.

    aircraft   registration: it says whether the publication applies
    Raises PublicationUnknown, AircraftUnknown.
    """
    with library.reading() as status:
        record = library.publication(publication_id)
        row = chosen(library, aircraft)
        applies = Applying(library.catalogue, row).of_publication(record) if row else None
        currency = Currency(library.catalogue)
        owing = debt_by_publication(library.catalogue).get(record.id)
        return {
            "library_state": library.state(status).fields(),
            **_summary(record, currency, Current(library.catalogue, currency=currency), owing),
            "ocr": owed(library, [record.id]).fields(),
            "aircraft": in_hand_fields(row),
            "applies": applies_fields(applies),
            "tags": identity_fields(record.identity),
            "directive": _directive(record),
            "bulletin": _bulletin(record),
            "list_check": list_check_fields(kept_list_check(library.catalogue, record)),
            "relations": [relation.fields() for relation in currency.relations(record)],
            "not_held": [
                {
                    "kind": claim.kind.value,
                    "document": claim.document,
                    "revision": claim.revision,
                    "reason": claim.reason,
                    "evidence": evidence_fields(claim.evidence),
                }
                for claim in currency.unresolved(record)
            ],
            "chapters": chapter_counts(library, record),
            "pages": [
                {"pdf_page": page.pdf_page, "printed_page": page.printed_page, "state": page.state.value}
                for page in pages_of(library, record)
            ],
        }


def list_check_fields(check: ListCheck | None) -> dict[str, Any] | None:
    """The list of effective pages held against the pages; None = no list was read."""
    return check and {
        "listed": check.listed,
        "date": check.date.isoformat() if check.date else None,
        "whole": check.whole,
        "complete": check.complete,
        "notes": list(check.notes),
        "counts": {state.value: check.count(state) for state in PageState},
        "pages": [
            {
                "state": finding.state.value,
                "number": finding.number or None,
                "printed_page": finding.printed_page,
                "pdf_page": finding.pdf_page,
                "why": finding.why,
                "line": evidence_fields(finding.listed.evidence if finding.listed else None),
                "page": evidence_fields(
                    finding.mark.date.evidence if finding.mark and finding.mark.date else None
                ),
            }
            for finding in check.findings
            if finding.state is not PageState.RIGHT
        ],
    }


def _directive(record: PublicationRecord) -> dict[str, Any] | None:
    facts = record.directive
    return facts and {
        "number": tag_fields(facts.number),
        "amendment": tag_fields(facts.amendment),
        "effective": tag_fields(facts.effective),
        "subjects": [tag_fields(subject) for subject in facts.subjects],
        "applicability": tag_fields(facts.applicability),
        "is_rule": facts.is_rule,
    }


def _bulletin(record: PublicationRecord) -> dict[str, Any] | None:
    facts = record.bulletin
    return facts and {
        "compliance": tag_fields(facts.compliance),
        "approval": tag_fields(facts.approval),
        "affected": tag_fields(facts.affected),
    }


def chapter_counts(library: OpenedLibrary, record: PublicationRecord) -> list[dict[str, Any]]:
    """How many passages of a publication stand under each chapter, in order; "" = without a number."""
    if record.replaced:  # the index holds what is on the shelf
        passages = library.catalogue.passages_of(record.id)
        counted = Counter((chapters_of(passage.numbers) or (NOT_NUMBERED,))[0] for passage in passages)
    else:
        query = FullTextQuery(filters=Filters(publications=(record.id,)))
        found = library.engine.search(query, 0, 0).chapters
        counted = {chapter.chapter: chapter.count for chapter in found}
    return [
        {"chapter": chapter or None, "title": chapter_words(chapter), "count": counted[chapter]}
        for chapter in sorted(counted, key=lambda chapter: (not chapter, chapter))
    ]


def pages_of(library: OpenedLibrary, record: PublicationRecord) -> list[PageRecord]:
    """The pages of one publication, which may be a part of its file."""
    return [
        page
        for page in library.catalogue.pages(record.copy_id)
        if record.first_page <= page.pdf_page <= record.last_page
    ]


def status(library: OpenedLibrary) -> dict[str, Any]:
    """What is held, what search cannot find, and what was refused."""
    with library.reading() as held:
        owes, not_placed = owed(library), not_placed_by_publication(library.catalogue)
        return {
            "library_state": library.state(held).fields(),
            "folder": str(library.folder),
            "copies": held.copies,
            "replaced_copies": held.replaced_copies,
            "publications": held.publications,
            "shelf": [
                {
                    "id": record.id,
                    "name": publication_name(record),
                    "kind": publication_kind(record.type, record.revision, record.date, record.entered),
                    "file": record.file,
                }
                for record in library.publications()
            ],
            "publications_by_type": dict(held.publications_by_type),
            "pages": held.pages,
            "pages_by_state": dict(held.pages_by_state),
            "pages_without_text": owes.without_text,
            "ocr": {
                **owes.fields(),
                "not_in_place": why_not_placed(owes.not_placed, last_state(library.folder)),
                "publications": [
                    {
                        "publication": publication_fields(library.publication(each.publication_id)),
                        "pages_not_read": each.pages_unread,
                        "pages_not_in_place": not_placed.get(each.publication_id, 0),
                        "pages_could_not_be_read": each.pages_failed,
                    }
                    for each in debt_by_publication(library.catalogue).values()
                ],
            },
            "not_searched": not_searched(library),
            "passages": held.passages,
            "passages_not_numbered": held.passages_not_numbered,
            "unresolved_claims": held.unresolved_claims,
            "copies_read_by_older_rules": held.copies_read_by_older_rules,
            "index_generation": library.engine.generation(),
            "refused": [
                {
                    "path": refused.path,
                    "slug": refused.slug,
                    "what": refused.what,
                    "remedy": refused.remedy,
                    "refused_at": refused.refused_at.isoformat(),
                }
                for refused in held.refused
            ],
        }


def not_searched(library: OpenedLibrary) -> list[dict[str, Any]]:
    """Every page that shows something and holds no text that can be searched, and that OCR does not owe."""
    return [
        {
            "publication": publication_fields(library.publication(publication_id)),
            "pdf_page": sheet.pdf_page,
            "printed_page": sheet.printed_page,
            "state": sheet.state.value,
            "problem": sheet.problem,
        }
        for publication_id, sheet in pages_not_searched(library.catalogue)
    ]
