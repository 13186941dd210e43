"""One file's pages and passages -> its publications, every passage with its tags. Pure: no file is opened
here."""

from collections.abc import Sequence

from indexer.reading.page import Document, Page, Passage
from indexer.settings import OCR_FLOOR
from indexer.tagging.amoc_letters import amoc_claims
from indexer.tagging.approval_page import find_approval_page
from indexer.tagging.approval_papers import certificate_standings
from indexer.tagging.bulletins import BULLETINS, BulletinReading, read_bulletin
from indexer.tagging.digital_proof import digital_value, proved_by_digital_text
from indexer.tagging.directive_claims import directive_claims
from indexer.tagging.directive_reading import DirectiveReading, may_be_directive, read_directive_pages
from indexer.tagging.directive_standing import circular_standings, directive_standings
from indexer.tagging.effective_pages import listed_pages
from indexer.tagging.front_pages import front_pages
from indexer.tagging.identity import identify, type_value
from indexer.tagging.numbering import (
    NumberTags,
    WorkNumbering,
    passage_numbers,
    passage_page_block,
    with_lower_rungs,
    work_numbering,
)
from indexer.tagging.own_sections import OwnSection, own_sections
from indexer.tagging.page_dates import written_order
from indexer.tagging.page_marks import page_marks
from indexer.tagging.parts_list import read_parts_list
from indexer.tagging.references import passage_citations
from indexer.tagging.section_votes import inferred_numbers
from indexer.tagging.standing_scope import usual_standing, word_standings
from indexer.tagging.stated_applicability import stated_applicability
from indexer.tagging.tags import Claim, Identity, Standing, TaggedPassage, TaggedPublication
from indexer.tagging.temporary_revisions import ChangedManual, changed_manual, changed_pages
from indexer.tagging.title_block import title_block
from indexer.tagging.works import Work, cut_works
from indexer.trade.chapters import ChapterNumber
from indexer.trade.publication_types import PublicationType as Type

_MANUALS_WITH_APPROVAL_PAGE = (
    Type.STRUCTURAL_REPAIR_MANUAL,
    Type.MAINTENANCE_MANUAL,
    Type.COMPONENT_MAINTENANCE_MANUAL,
)
_DIRECTIVES = (Type.AIRWORTHINESS_DIRECTIVE, Type.PROPOSED_DIRECTIVE)


def tag_document(document: Document, ocr_floor: float = OCR_FLOOR) -> tuple[TaggedPublication, ...]:
    """Every work bound in the file, in page order, with its passages and claims.

    ocr_floor  confidence, 0.0 to 1.0: cells of parts lists that OCR read with less are flagged
    """
    return tuple(_tag_work(document, work, ocr_floor) for work in cut_works(document))


def _tag_work(document: Document, work: Work, ocr_floor: float) -> TaggedPublication:
    pages = tuple(page for page in document.pages if work.first_page <= page.pdf_page <= work.last_page)
    passages = tuple(each for each in document.passages if work.first_page <= each.pdf_page <= work.last_page)
    directive = read_directive_pages(pages) if may_be_directive(pages) else None
    identity = identify(pages, document.properties if work.whole_file else {}, directive)
    kind = type_value(identity)
    directive = directive if kind in _DIRECTIVES else None
    bulletin = read_bulletin(pages, title_block(pages), identity.number) if kind in BULLETINS else None
    changed = _changed_manual(kind, pages, identity)
    numbering = work_numbering(kind, pages, document.outline)
    printed = _printed_numbers(passages, numbering, directive, bulletin)
    numbers = _numbers(kind, pages, passages, numbering, printed)
    found = _standings(identity, pages, passages, printed, directive, bulletin)
    standings = proved_by_digital_text(found, pages, passages)
    manual = changed.type if changed else kind
    month_first = written_order(pages)
    return TaggedPublication(
        first_page=work.first_page,
        last_page=work.last_page,
        identity=identity,
        passages=tuple(
            TaggedPassage(
                passage=passage,
                numbers=numbers[passage.ordinal],
                page_block=passage_page_block(numbering, manual, passage, printed[passage.ordinal]),
                standing=standings[passage.ordinal],
                references=passage_citations(
                    passage,
                    [tag.value for tag in numbers[passage.ordinal]],
                    identity.number.value if identity.number else "",
                    identity.revision.value if identity.revision else "",
                ),
            )
            for passage in passages
        ),
        claims=_claims(kind, pages, directive, bulletin, changed),
        directive=directive.facts if directive else None,
        bulletin=bulletin.facts if bulletin else None,
        applicability=stated_applicability(
            identity,
            pages,
            passages,
            directive.facts if directive else None,
            bulletin.affected if bulletin else (),
        ),
        # The running line of a directive prints its number, which has the form of a date.
        page_marks=page_marks(pages, month_first) if kind not in _DIRECTIVES else (),
        listed_pages=listed_pages(pages, month_first),
        parts=read_parts_list(kind, pages, ocr_floor),
    )


def _numbers(
    kind: Type | None,
    pages: Sequence[Page],
    passages: Sequence[Passage],
    numbering: WorkNumbering,
    printed: dict[int, NumberTags],
) -> dict[int, NumberTags]:
    """Per passage ordinal: what is printed, what the text is about, and the manual's own section."""
    sections: dict[int, OwnSection] = {}
    if not numbering.prints_numbers:
        sections = own_sections(kind, pages, passages, numbering.counted_by_section)
    front = front_pages(pages)
    told = [
        each
        for each in passages
        if each.pdf_page not in front and not _says_its_subject(kind, printed[each.ordinal])
    ]
    inferred = inferred_numbers(kind, told, sections)
    return {
        passage.ordinal: with_lower_rungs(
            printed[passage.ordinal],
            inferred.get(passage.ordinal, ()),
            sections[passage.ordinal].numbers if passage.ordinal in sections else (),
        )
        for passage in passages
    }


def _says_its_subject(kind: Type | None, printed: NumberTags) -> bool:
    """Whether a paper states once what all of it is about: its paragraphs name other systems in passing."""
    return bool(printed) and (kind in BULLETINS or kind in _DIRECTIVES)


def _printed_numbers(
    passages: Sequence[Passage],
    numbering: WorkNumbering,
    directive: DirectiveReading | None,
    bulletin: BulletinReading | None,
) -> dict[int, NumberTags]:
    """Per passage ordinal. A directive's subject line and a bulletin's number speak for all their
    passages."""
    if directive:
        return {passage.ordinal: directive.facts.subjects for passage in passages}
    if bulletin:
        return {passage.ordinal: bulletin.chapters for passage in passages}
    return {passage.ordinal: passage_numbers(numbering, passage) for passage in passages}


def _standings(
    identity: Identity,
    pages: Sequence[Page],
    passages: Sequence[Passage],
    numbers: dict[int, NumberTags],
    directive: DirectiveReading | None,
    bulletin: BulletinReading | None,
) -> dict[int, Standing]:
    kind = type_value(identity)
    revision = digital_value(identity.revision)
    approval = find_approval_page(pages, revision) if kind in _MANUALS_WITH_APPROVAL_PAGE else None
    by_page = _by_page(passages, numbers)
    by_words = word_standings(kind, pages, passages, by_page, bulletin, approval, revision)
    if any(standing.scope == "document" and standing.value == "blocked" for standing in by_words.values()):
        return by_words
    if directive and kind:
        return directive_standings(directive, kind, passages)
    if kind is Type.ADVISORY_CIRCULAR:
        return circular_standings(identity.number.value if identity.number else None, pages, passages)
    certified = certificate_standings(kind, pages, passages, usual_standing(kind))
    return {
        ordinal: certified.get(ordinal, standing) if standing.evidence is None else standing
        for ordinal, standing in by_words.items()
    }


def _by_page(passages: Sequence[Passage], numbers: dict[int, NumberTags]) -> dict[int, ChapterNumber]:
    """The number each page is filed under: that of its first numbered passage."""
    found: dict[int, ChapterNumber] = {}
    for passage in passages:
        tags = numbers[passage.ordinal]
        if tags:
            found.setdefault(passage.pdf_page, tags[0].value)
    return found


def _changed_manual(kind: Type | None, pages: Sequence[Page], identity: Identity) -> ChangedManual | None:
    if kind is not Type.TEMPORARY_REVISION:
        return None
    return changed_manual(pages, identity.number.value if identity.number else "")


def _claims(
    kind: Type | None,
    pages: Sequence[Page],
    directive: DirectiveReading | None,
    bulletin: BulletinReading | None,
    changed: ChangedManual | None,
) -> tuple[Claim, ...]:
    if directive:
        return directive_claims(directive)
    if bulletin:
        return bulletin.claims
    if kind is Type.TEMPORARY_REVISION:
        return changed_pages(pages, changed)
    return amoc_claims(pages) if kind is Type.AMOC_LETTER else ()
