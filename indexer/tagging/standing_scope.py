"""Data standing of each passage: which quoted words reach it, from the narrowest place to the widest.

Order: a notice that blocks the whole document; the passage's own words; its page's stamp; its section's
statement; the bulletin's approval paragraph or the document's own statement. Usual standing by type stands
beside, never inside.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from indexer.reading.page import Page, Passage
from indexer.tagging.approval_page import ApprovalPage, page_date
from indexer.tagging.approval_papers import to_be_read
from indexer.tagging.bulletins import BULLETINS, BulletinReading
from indexer.tagging.document_notice import blocking_notice, draft_mark
from indexer.tagging.flow import plain
from indexer.tagging.limitations_section import limitations_pages
from indexer.tagging.named_papers import beside_another_title, names_other_number
from indexer.tagging.placed_words import PlacedWords, Reach, placed_words
from indexer.tagging.standing import (
    CONFLICT_CONDITION,
    NEVER_APPROVED_BY_WORDS,
    PARTIAL_CONDITION,
    standing_in,
    value_of,
)
from indexer.tagging.tags import Standing, StandingValue
from indexer.trade.approval_words import ApprovalKind
from indexer.trade.chapters import ChapterNumber
from indexer.trade.evidence import Answer, Evidence
from indexer.trade.publication_types import PublicationType as Type
from indexer.trade.revisions import same_revision

BULLETIN_CONDITION = (
    "Reaches only as far as the quoted words say, at this revision, for the products it lists."
)
DRAFT_CONDITION = "Marked as a draft: its words of approval are not yet said."
SRM_CONDITION = "Only for damage inside the printed limits, on structure that has not been repaired before."
LIMITATIONS_CONDITION = (
    "To be done as printed, unless an alternative has been FAA approved (14 CFR 43.16, 91.403(c))."
)
_FRONT_PAGES = 3
_CONTENTS = re.compile(r"^\W*(?:table of )?contents\b", re.IGNORECASE)
_OWN_REVISION = re.compile(
    r"\bthis\s[^.;]{0,60}?,?\s\(?(?:revision|rev\.?|issue)\s(?!(?:is|has|are|was)\b)"
    r"(?P<mark>(?-i:[A-Z0-9]{1,4}))\b",
    re.IGNORECASE,
)
_MANUAL = re.compile(
    r"\bthis\s[^.;]{0,40}?\b(?:manual|supplement|catalog(?:ue)?|handbook|book)\b", re.IGNORECASE
)
_PENDING = re.compile(r"\b(?:pending|await\w*|not yet|will be|to be|expected|proposed)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class _Scoped:
    """One finding and the pages it reaches; `passages`: ordinals, None = every passage of those pages."""

    standing: Standing
    pages: frozenset[int]
    passages: frozenset[int] | None = None


def usual_standing(kind: Type | None) -> StandingValue:
    """What the type usually is; UNDETERMINED when the type is not known."""
    return StandingValue(kind.usual_standing) if kind else StandingValue.UNDETERMINED


def word_standings(
    kind: Type | None,
    pages: Sequence[Page],
    passages: Sequence[Passage],
    numbers: Mapping[int, ChapterNumber],
    bulletin: BulletinReading | None,
    approval: ApprovalPage | None,
    revision: str | None = None,
) -> dict[int, Standing]:
    """Standing by quoted words, per passage ordinal, for every passage of the work.

    numbers   per page the chapter number it is filed under, where it has one
    revision  the work's own, as printed; words about another revision of it grant nothing
    """
    usual = usual_standing(kind)
    placed = {page.pdf_page: placed_words(page) for page in pages}
    notice = blocking_notice(kind, pages, placed)
    if notice:
        blocked = Standing(StandingValue.BLOCKED, usual, notice.evidence, scope="document")
        return {passage.ordinal: blocked for passage in passages}
    everywhere = frozenset(page.pdf_page for page in pages)
    levels: dict[Reach, list[_Scoped]] = {reach: [] for reach in Reach}
    if approval:
        levels[Reach.SECTION].extend(_listed(approval, pages, numbers, usual))
        own = Standing(StandingValue.APPROVED, usual, approval.evidence, "page", conditions=(SRM_CONDITION,))
        levels[Reach.PAGE].append(_Scoped(own, frozenset({approval.pdf_page})))
    if kind in BULLETINS and bulletin:
        levels[Reach.DOCUMENT].extend(_of_approval_paragraph(bulletin, kind, everywhere, revision, pages[0]))
    for page in pages:
        for words in placed[page.pdf_page]:
            if words.words.kind.grants and (
                _of_another_paper(words, kind, page, revision)
                or names_other_number(words.words.quote, pages[0])
                or page is not pages[0]
                and beside_another_title(words, kind, page)
            ):
                continue
            scoped = _scoped(words, kind, pages, passages, numbers, everywhere)
            if scoped:
                levels[scoped[0]].append(scoped[1])
    draft = draft_mark(pages)
    silent = Standing(StandingValue.UNDETERMINED, usual, conditions=to_be_read(kind))
    found = {passage.ordinal: _narrowest(passage, levels, silent) for passage in passages}
    return {ordinal: _of_draft(each, draft) for ordinal, each in found.items()} if draft else found


def _of_draft(standing: Standing, draft: Evidence) -> Standing:
    """What a draft says of its own approval is what it will say when it is issued."""
    if standing.value is not StandingValue.APPROVED:
        return standing
    return Standing(StandingValue.UNDETERMINED, standing.usual, draft, "document", False, (DRAFT_CONDITION,))


def _of_another_paper(words: PlacedWords, kind: Type | None, page: Page, revision: str | None) -> bool:
    """Whether words that grant belong to another kind of publication, to another revision, or to a manual
    whose limitations a bulletin or a table of contents only repeats."""
    if not words.may_speak_of(kind) or names_other_revision(words.words.quote, revision):
        return True
    contents = any(_CONTENTS.search(line.text) for line in page.body[:6])
    return words.words.kind is ApprovalKind.LIMITATIONS and (kind in BULLETINS or contents)


def names_other_revision(quote: str, revision: str | None) -> bool:
    """Whether a grant names a revision of its paper that is not, or may not be, this one."""
    found = _OWN_REVISION.search(plain(quote))
    if found is None:
        return False
    return revision is None or same_revision(found["mark"], revision) is not Answer.YES


def _scoped(
    words: PlacedWords,
    kind: Type | None,
    pages: Sequence[Page],
    passages: Sequence[Passage],
    numbers: Mapping[int, ChapterNumber],
    everywhere: frozenset[int],
) -> tuple[Reach, _Scoped] | None:
    """One finding with its reach; None for words that say nothing about this paper."""
    usual = usual_standing(kind)
    own_page = frozenset({words.pdf_page})
    if words.words.kind is ApprovalKind.BLOCKS:
        return _blocks_less(words, usual)
    if _denies(words):
        return None if kind in NEVER_APPROVED_BY_WORDS else _denial(words, usual, passages, everywhere)
    said = value_of(words.words, kind)
    if not said.quote:
        return None
    reach = _reach(words, kind, pages)
    conditions, mandatory, reached, scope = said.conditions, False, own_page, reach.value
    if words.words.kind is ApprovalKind.LIMITATIONS:
        mandatory = said.value is StandingValue.APPROVED
        reached = limitations_pages(words.pdf_page, kind, pages, numbers, passages)
        conditions = (LIMITATIONS_CONDITION,)
    elif reach is Reach.SECTION:
        reached = own_page  # how far another section goes cannot be told from its words
    elif reach is Reach.DOCUMENT:
        reached = everywhere
        if kind in BULLETINS:
            scope = "bulletin revision"
            if said.value is StandingValue.APPROVED:
                conditions = (*conditions, BULLETIN_CONDITION)
    standing = Standing(said.value, usual, words.evidence, scope, mandatory, conditions)
    if reach is Reach.PASSAGE:
        own = frozenset(passage.ordinal for passage in passages if words.within(passage))
        return reach, _Scoped(standing, own_page, own)
    return reach, _Scoped(standing, reached)


def _reach(words: PlacedWords, kind: Type | None, pages: Sequence[Page]) -> Reach:
    """How far the words may be taken to reach: what they name, but a whole manual only from its front
    pages, and a bulletin by "this document" only from its first."""
    if words.of_technical_content and words.pdf_page == pages[0].pdf_page and words.zone == "body":
        return Reach.DOCUMENT
    far_in = words.pdf_page > pages[0].pdf_page + _FRONT_PAGES - 1
    if words.reach is Reach.DOCUMENT and kind not in BULLETINS and (far_in or kind is None):
        return Reach.PAGE
    attached = kind in BULLETINS and words.pdf_page != pages[0].pdf_page and words.names_any_paper
    if attached and words.words.kind.grants:
        return Reach.PAGE
    return words.reach


def _of_approval_paragraph(
    bulletin: BulletinReading, kind: Type, everywhere: frozenset[int], revision: str | None, first_page: Page
) -> list[_Scoped]:
    """What the bulletin's own paragraph headed "Approval" says of the bulletin at this revision.

    Read without its item marks and with its heading before it, as in "Approval: Not applicable."
    """
    approval = bulletin.facts.approval
    if approval is None:
        return []
    items = re.sub(
        r"(?:^|(?<=\s))\(?(?:\d{1,2}|[a-z])[.)]\s+", "\n\n", approval.value, flags=re.IGNORECASE
    ).strip()
    said = standing_in(f"Approval: {items}", kind)
    if said.value is StandingValue.BLOCKED or not said.quote:
        return []
    conditions = said.conditions
    if said.value is StandingValue.APPROVED:
        if names_other_revision(said.quote, revision) or names_other_number(said.quote, first_page):
            return []
        if _MANUAL.search(plain(said.quote)):
            return []
        conditions = (*conditions, BULLETIN_CONDITION)
    standing = Standing(
        said.value, usual_standing(kind), approval.evidence, "bulletin revision", False, conditions
    )
    return [_Scoped(standing, everywhere)]


def _listed(
    approval: ApprovalPage, pages: Sequence[Page], numbers: Mapping[int, ChapterNumber], usual: StandingValue
) -> list[_Scoped]:
    """The pages that a row of the approval page covers, each with that row beside it."""
    found = []
    for page in pages:
        number = numbers.get(page.pdf_page)
        if number is None:
            continue
        for row in approval.rows:
            if row.covers(number, plain(page.printed_page).strip(), page_date(page)):
                listed = f"Listed on the approval page: {row.row}"
                standing = Standing(
                    StandingValue.APPROVED,
                    usual,
                    approval.evidence,
                    "section",
                    False,
                    (listed, SRM_CONDITION),
                )
                found.append(_Scoped(standing, frozenset({page.pdf_page})))
                break
    return found


def _blocks_less(words: PlacedWords, usual: StandingValue) -> tuple[Reach, _Scoped] | None:
    """A notice that is not the document's: it blocks its page from head or foot or where it names the page.

    "This page is not FAA approved" takes an approval back from the page; it does not forbid the page's use.
    """
    if words.reach is Reach.PAGE and re.search(r"\bapproved\b", words.words.quote, re.IGNORECASE):
        unsure = Standing(StandingValue.UNDETERMINED, usual, words.evidence, scope="page")
        return Reach.PAGE, _Scoped(unsure, frozenset({words.pdf_page}))
    if words.zone == "body" and not words.speaks_of_this:
        return None  # "reference only" on a drawing or beside a dimension
    standing = Standing(StandingValue.BLOCKED, usual, words.evidence, scope="page")
    return Reach.PAGE, _Scoped(standing, frozenset({words.pdf_page}))


def _denial(
    words: PlacedWords, usual: StandingValue, passages: Sequence[Passage], everywhere: frozenset[int]
) -> tuple[Reach, _Scoped]:
    """ "Not FAA approved" takes a wider grant back: of the document it names, of its page when it stands as a
    stamp or names the page, else of its passage."""
    own_page = frozenset({words.pdf_page})
    if words.speaks_of_this and words.reach is Reach.DOCUMENT:
        standing = Standing(StandingValue.UNDETERMINED, usual, words.evidence, "document")
        return Reach.DOCUMENT, _Scoped(standing, everywhere)
    if _stands_as_stamp(words) or (words.speaks_of_this and words.reach is not Reach.PASSAGE):
        standing = Standing(StandingValue.UNDETERMINED, usual, words.evidence, "page")
        return Reach.PAGE, _Scoped(standing, own_page)
    own = frozenset(passage.ordinal for passage in passages if words.within(passage))
    standing = Standing(StandingValue.UNDETERMINED, usual, words.evidence, "passage")
    return Reach.PASSAGE, _Scoped(standing, own_page, own)


def _denies(words: PlacedWords) -> bool:
    """Whether words say that an approval is not there: denied, or said to be still to come."""
    if words.words.kind is ApprovalKind.NEGATED:
        return True
    pending = words.words.kind is ApprovalKind.HOPE and _PENDING.search(words.words.quote)
    return bool(pending) and (words.speaks_of_this or _stands_as_stamp(words))


def _stands_as_stamp(words: PlacedWords) -> bool:
    return words.zone != "body" or len(words.words.quote.split()) <= 7


def _narrowest(passage: Passage, levels: Mapping[Reach, list[_Scoped]], silent: Standing) -> Standing:
    """The finding of the narrowest reach. A grant must reach every page the passage runs over; a denial or a
    block on one of them is enough.

    A denial inside the passage ("substitutes are not FAA approved") matters only where a wider grant reaches
    it. `silent`: the standing where no words reach the passage.
    """
    pages = {box.pdf_page for box in passage.boxes} or {passage.pdf_page}
    here = {
        reach: [each.standing for each in levels[reach] if _reaches(each, passage, pages)] for reach in Reach
    }
    wider = [each for reach in (Reach.PAGE, Reach.SECTION, Reach.DOCUMENT) for each in here[reach]]
    for reach in (Reach.PASSAGE, Reach.PAGE, Reach.SECTION, Reach.DOCUMENT):
        found = here[reach]
        if reach is Reach.PASSAGE and not any(each.value is StandingValue.APPROVED for each in wider):
            found = [each for each in found if not _only_denies(each)]
        if found:
            return _combined(found, silent.usual)
    return silent


def _reaches(scoped: _Scoped, passage: Passage, pages: set[int]) -> bool:
    if scoped.passages is not None:
        return passage.ordinal in scoped.passages
    if scoped.standing.value is StandingValue.BLOCKED or _only_denies(scoped.standing):
        return bool(pages & scoped.pages)
    return pages <= scoped.pages


def _only_denies(standing: Standing) -> bool:
    return standing.value is StandingValue.UNDETERMINED and not standing.conditions


def _combined(found: list[Standing], usual: StandingValue) -> Standing:
    """Several findings of one reach: blocked wins; a grant beside a denial cannot be told; else the first
    that says."""
    by_value = {value: [each for each in found if each.value is value] for value in StandingValue}
    if by_value[StandingValue.BLOCKED]:
        return by_value[StandingValue.BLOCKED][0]
    granted, unsure = by_value[StandingValue.APPROVED], by_value[StandingValue.UNDETERMINED]
    denied = [each for each in unsure if _only_denies(each) or PARTIAL_CONDITION in each.conditions]
    if granted and denied:
        return Standing(
            StandingValue.UNDETERMINED,
            usual,
            denied[0].evidence,
            denied[0].scope,
            False,
            (CONFLICT_CONDITION,),
        )
    if granted:
        return max(granted, key=lambda each: each.mandatory)
    return (by_value[StandingValue.ACCEPTABLE] or unsure or found)[0]
