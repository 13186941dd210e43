"""The pages about what is held: the list, one publication, one page of it, the status, the cautions."""

from collections.abc import Mapping
from typing import Annotated, Any
from urllib.parse import urlencode

from fastapi import APIRouter, Path, Query, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from indexer.library.list_check_records import ListCheck, PageState
from indexer.library.ocr_pages import debt_by_publication, not_placed_by_publication, unread_pages_of
from indexer.library.ocr_records import PublicationDebt
from indexer.library.ocr_state import last_state
from indexer.library.records import PublicationRecord
from server import shelf
from server.applies_words import applies_words
from server.applying import Applying
from server.contents import contents, pages_named
from server.currency import Currency
from server.current import Current, kept_list_check, list_problems
from server.ocr_debt import owed, wanted, why_not_placed
from server.ocr_words import unread_or_not_placed
from server.opened import OpenedLibrary
from server.question import NO_NUMBER
from server.routes.addresses import Asked, Chip, page_address, publication_address
from server.routes.in_hand import in_hand
from server.routes.page_templates import moment
from server.routes.page_view import page_view
from server.routes.shown import library_of, shown, state_of
from server.routes.views import PublicationView, identity_facts, publication_view, state_words, usual_words
from server.words import READ_AGAIN, count_of, publication_name

router = APIRouter(default_response_class=HTMLResponse)
PublicationId = Annotated[str, Path(max_length=80)]


@router.get("/publications")
def publications_page(request: Request) -> Response:
    library = library_of(request)
    with library.reading() as status:
        currency = Currency(library.catalogue)
        current = Current(library.catalogue, currency=currency)
        held = library.publications()
        owing = debt_by_publication(library.catalogue)
        placing = not_placed_by_publication(library.catalogue)
        current.prepare(held)
        shelves: dict[str, list[PublicationView]] = {}
        for record in sorted(
            held, key=lambda record: (record.type is None, record.type and record.type.label)
        ):
            title = record.type.label if record.type else "Type of publication not determined"
            view = publication_view(
                record,
                currency.of_publication(record),
                current.of_publication(record),
                _owing_words(owing.get(record.id), placing),
            )
            shelves.setdefault(title, []).append(view)
        state = library.state(status)
        owes = owed(library).words
    return shown(
        request,
        "publications.html",
        state,
        total=len(held),
        owed=owes,
        shelves=[
            {"title": title, "publications": sorted(views, key=lambda view: view.name.casefold())}
            for title, views in shelves.items()
        ],
    )


@router.get("/publications/{publication_id}")
def publication_page(request: Request, publication_id: PublicationId) -> Response:
    library = library_of(request)
    hand = in_hand(request, library)
    with library.reading() as status:
        record = library.publication(publication_id)
        applying = Applying(library.catalogue, hand.row) if hand.row else None
        currency = Currency(library.catalogue)
        pages = shelf.pages_of(library, record)
        unread = set(unread_pages_of(library.catalogue, record.id))
        owes = owed(library, [record.id])
        view = {
            "publication": publication_view(
                record,
                currency.of_publication(record),
                Current(library.catalogue, currency=currency).of_publication(record),
            ),
            "list_check": _list_check(kept_list_check(library.catalogue, record), record),
            "register": f"/register?{urlencode({'publication': record.id})}#record",
            "effective": f"{publication_address(record.id)}/effective",
            "first_page": page_address(record.id, record.first_page),
            "facts": identity_facts(record),
            "applies": applies_words(applying and applying.of_publication(record), hand.registration),
            "usual": usual_words(record),
            "file": record.file,
            "file_pages": _pages_words(record.first_page, record.last_page),
            "lists": _lists(currency, record),
            "chapters": [
                Chip(
                    f"{found['chapter'] or ''} {found['title']}".strip(),
                    Asked(chapter=(found["chapter"] or NO_NUMBER,), publication=(record.id,)).address,
                    found["count"],
                )
                for found in shelf.chapter_counts(library, record)
            ],
            "owed": " ".join(
                part
                for part in (
                    f"{unread_or_not_placed(owes.unread, owes.not_placed)}." if owes.unread else "",
                    owes.failed_words,
                    owes.progress,
                )
                if part
            )
            if unread
            else "",
            "unread": [
                {"address": page_address(record.id, page.pdf_page), "words": f"PDF page {page.pdf_page}"}
                for page in pages
                if page.pdf_page in unread
            ],
            "unsearched": [
                {
                    "address": page_address(record.id, page.pdf_page),
                    "words": f"PDF page {page.pdf_page}: {words}",
                }
                for page in pages
                if page.pdf_page not in unread and (words := state_words(page.state, page.problem))
            ],
        }
        state = library.state(status)
    return shown(request, "publication.html", state, view=view)


def _name_of(library: OpenedLibrary, publication_id: str) -> str:
    return publication_name(library.publication(publication_id))


def _owing_words(owing: PublicationDebt | None, placing: Mapping[str, int]) -> str:
    """ "12 pages not yet read, 1 page could not be read by OCR"; "" when nothing is owed."""
    if owing is None:
        return ""
    failed = f"{count_of(owing.pages_failed, 'page')} could not be read by OCR" if owing.pages_failed else ""
    not_placed = placing.get(owing.publication_id, 0)
    unread = unread_or_not_placed(owing.pages_unread, not_placed) if owing.pages_unread else ""
    return ", ".join(part for part in (unread, failed) if part)


def _pages_words(first: int, last: int) -> str:
    return f"PDF pages {first} to {last}" if last > first else f"PDF page {first}"


def _list_check(check: ListCheck | None, record: PublicationRecord) -> dict[str, Any] | None:
    """The list of effective pages held against the pages; None = no list was read."""
    return check and {
        "summary": f"{count_of(check.count(PageState.RIGHT), 'page')} of {check.listed} as listed"
        + (f"; {problems}." if (problems := list_problems(check)) else "."),
        "notes": check.notes,
        "pages": [
            {
                "words": f"{finding.name}: {finding.why}.",
                "address": page_address(record.id, finding.pdf_page) if finding.pdf_page else "",
                "evidence": finding.listed.evidence if finding.listed else None,
            }
            for finding in check.findings
            if finding.state is not PageState.RIGHT
        ],
    }


def _lists(currency: Currency, record: PublicationRecord) -> list[dict[str, Any]]:
    """How the publication stands to others held here, and what it says of others that are not."""
    return [
        {
            "title": "How it stands to other documents held here",
            "note": "None listed means none among the documents held here, not that there is none.",
            "entries": [
                {
                    "words": relation.words,
                    "address": publication_address(relation.publication),
                    "evidence": relation.evidence,
                }
                for relation in currency.relations(record)
            ],
        },
        {
            "title": "Named in it, and not held here or not told apart",
            "note": "",
            "entries": [
                {"words": currency.unresolved_words(claim), "address": "", "evidence": claim.evidence}
                for claim in currency.unresolved(record)
            ],
        },
    ]


@router.get("/publications/{publication_id}/pages/{pdf_page}")
def page_page(
    request: Request,
    publication_id: PublicationId,
    pdf_page: Annotated[int, Path(ge=1, le=2**62)],
    passage: Annotated[str, Query(max_length=120)] = "",
    q: Annotated[str, Query(max_length=500)] = "",
    zoom: Annotated[int, Query()] = 100,
    back: Annotated[str, Query(max_length=2000)] = "",
) -> Response:
    library = library_of(request)
    hand = in_hand(request, library)
    with library.reading() as status:
        view = page_view(library, publication_id, pdf_page, passage, q, zoom, back, hand.row)
        state = library.state(status)
    if view.unread:
        wanted(library, library.publication(publication_id).copy_id, pdf_page)
    return shown(request, "page.html", state, view=view, wide=True)


@router.get("/publications/{publication_id}/contents")
def contents_page(
    request: Request, publication_id: PublicationId, page: Annotated[str, Query(max_length=40)] = ""
) -> Response:
    """The headings with their pages; with `page`, straight to the page of that printed or PDF number."""
    library = library_of(request)
    with library.reading() as status:
        record = library.publication(publication_id)
        named = pages_named(library, record, page)
        found = contents(library, record) if len(named) != 1 else None
        state = library.state(status)
    if found is None:
        return RedirectResponse(page_address(record.id, named[0].pdf_page), status_code=303)
    return shown(
        request,
        "contents.html",
        state,
        publication=publication_view(record),
        asked=page.strip(),
        named=[(each, page_address(record.id, each.pdf_page)) for each in named],
        headings=[(each, page_address(record.id, each.pdf_page)) for each in found.headings],
        left_out=found.left_out,
        pages=_pages_words(record.first_page, record.last_page),
        first_page=page_address(record.id, record.first_page),
    )


@router.get("/status")
def status_page(request: Request) -> Response:
    library = library_of(request)
    with library.reading() as held:
        state = library.state(held)
        owes = owed(library)
        facts = [
            ("State", f"{held.generation}, last changed {moment(held.changed_at)}"),
            ("Search", "covers all of it" if state.up_to_date else "is being brought up to date"),
            ("Publications", count_of(held.publications, "publication")),
            ("Files", count_of(held.copies, "file")),
            ("Replaced files kept", count_of(held.replaced_copies, "file")),
            ("Pages", count_of(held.pages, "page")),
            ("Not yet read by OCR", count_of(owes.unread - owes.not_placed, "page")),
            *(
                [("Read by OCR but not in place", count_of(owes.not_placed, "page"))]
                if owes.not_placed
                else ()
            ),
            ("Could not be read by OCR", count_of(owes.failed, "page")),
            ("Other pages without text", count_of(owes.without_text, "page")),
            ("Passages", count_of(held.passages, "passage")),
            ("Without a chapter number", count_of(held.passages_not_numbered, "passage")),
            ("Named but not held here", count_of(held.unresolved_claims, "document reference")),
        ]
        if held.copies_read_by_older_rules:
            older = count_of(held.copies_read_by_older_rules, "file")
            facts.append(("Read by older rules", f"{older}; {READ_AGAIN}"))
        if owes.progress:
            facts.append(("OCR", owes.progress))
        facts += [
            ("Why not in place", said) for said in why_not_placed(owes.not_placed, last_state(library.folder))
        ]
        placing = not_placed_by_publication(library.catalogue)
        unread = [
            {
                "address": publication_address(each.publication_id),
                "words": f"{_name_of(library, each.publication_id)}: {_owing_words(each, placing)}",
            }
            for each in debt_by_publication(library.catalogue).values()
        ]
        unsearched = [
            {
                "address": page_address(line["publication"]["id"], line["pdf_page"]),
                "words": f"{line['publication']['file']}, PDF page {line['pdf_page']}: {line['state']}",
            }
            for line in shelf.not_searched(library)
        ]
    return shown(
        request,
        "status.html",
        state,
        facts=facts,
        unread=unread,
        unsearched=unsearched,
        refused=held.refused,
    )


@router.get("/about")
def about_page(request: Request) -> Response:
    return shown(request, "about.html", state_of(library_of(request)))
