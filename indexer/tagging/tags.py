"""What tagging gives: one file's publications and passages with their tags. Values only."""

import datetime
from dataclasses import dataclass
from enum import StrEnum

from indexer.reading.page import Passage
from indexer.tagging.parts_rows import PartsList
from indexer.trade.chapters import ChapterNumber
from indexer.trade.evidence import Evidence, Tag
from indexer.trade.publication_types import PublicationType


class StandingValue(StrEnum):
    """What these words, in scope, make of the data. Never a probability."""

    APPROVED = "approved"
    ACCEPTABLE = "acceptable"
    INFORMATION = "information"
    BLOCKED = "blocked"
    UNDETERMINED = "undetermined"


@dataclass(frozen=True, slots=True)
class Standing:
    """Data standing of one passage, apart from the usual standing of its publication type.

    value       from quoted words in scope, or a directive in force; UNDETERMINED without them
    scope       how far the quoted words reach: "passage", "page", "section", "bulletin revision", "document"
    usual       the type's usual standing; shown as "usually", never as a finding of approval
    mandatory   True only where a rule in force reaches the passage (a directive, a limitations section)
    conditions  what must also be true before the value may be used, in words for a person
    """

    value: StandingValue
    usual: StandingValue
    evidence: Evidence | None = None
    scope: str = ""
    mandatory: bool = False
    conditions: tuple[str, ...] = ()

    @property
    def quote(self) -> str:
        return self.evidence.quote if self.evidence else ""


class ClaimKind(StrEnum):
    """What one document says of another. The first two of the directive levels may raise standing."""

    REQUIRES = "required"
    INCORPORATES = "incorporated"
    CREDITS = "credit"
    ALTERNATIVE = "alternative"
    MENTIONS = "mentioned"
    SUPERSEDES = "supersedes"
    SUPERSEDED_BY = "superseded by"
    CHANGES_PAGE = "changes page"  # a temporary revision and the page it overrides


@dataclass(frozen=True, slots=True)
class Claim:
    """One statement about another document, as printed; resolved in the catalogue, never here.

    document      the other document's number as printed ("SB 32-0012", "2031-04-07", "D4410-1")
    type          its type when the words say so
    revision      as printed without the word ("3", "B", "original"); "" when no revision is named
    date          of the named revision
    paragraphs    what of it is meant ("Part 3", "paragraphs 2.A through 2.C"); () = the whole
    pages         CHANGES_PAGE only: (chapter-section-subject as printed or "", printed page)
    later_allowed True where the words also allow later approved revisions
    before        CREDITS only: work done with it counts only if done before this day; None = not printed
    """

    kind: ClaimKind
    document: str
    evidence: Evidence
    type: PublicationType | None = None
    revision: str = ""
    date: datetime.date | None = None
    paragraphs: tuple[str, ...] = ()
    pages: tuple[tuple[str, str], ...] = ()
    later_allowed: bool = False
    before: datetime.date | None = None


@dataclass(frozen=True, slots=True)
class Identity:
    """Which publication this is. A field is None when the file does not say: never guessed."""

    type: Tag[PublicationType] | None
    number: Tag[str] | None
    title: Tag[str] | None
    maker: Tag[str] | None
    models: tuple[Tag[str], ...]
    revision: Tag[str] | None  # as printed without the word: "3", "B", "original"
    date: Tag[datetime.date] | None  # of the revision


@dataclass(frozen=True, slots=True)
class DirectiveFacts:
    """What an airworthiness directive of any era says of itself.

    number     "2031-04-07"; None for a proposal without a number
    amendment  "39-22419"; None before amendments were numbered so
    on_receipt the words that make it effective upon receipt, where no day is printed
    issued     the day it was issued
    is_rule    False for a proposal, a correction, a rule put off or taken back, and another authority's
    replaces   directives it supersedes or revises; for a proposal, those it would
    withdraws  directives that it takes out of force and puts nothing in place of
    put_off    it delays or stays the directive of its number
    """

    number: Tag[str] | None
    amendment: Tag[str] | None
    effective: Tag[datetime.date] | None
    subjects: tuple[Tag[ChapterNumber], ...]
    applicability: Tag[str] | None  # the paragraph as printed
    is_rule: bool
    on_receipt: Tag[str] | None = None
    issued: Tag[datetime.date] | None = None
    emergency: bool = False
    proposal: bool = False
    correction: bool = False
    put_off: bool = False
    replaces: tuple[Tag[str], ...] = ()
    withdraws: tuple[Tag[str], ...] = ()
    alternative: Tag[str] | None = None  # who may approve another method of compliance, as printed


@dataclass(frozen=True, slots=True)
class BulletinFacts:
    """What a bulletin or letter says of itself."""

    compliance: Tag[str] | None  # the maker's urgency as printed; not law
    approval: Tag[str] | None  # the approval paragraph as printed
    affected: Tag[str] | None  # models and serials as printed


class ApplicabilityScope(StrEnum):
    """How far words about models and serials reach, from the narrowest place to the widest."""

    PASSAGE = "passage"
    PAGE = "page"
    PUBLICATION = "publication"


@dataclass(frozen=True, slots=True)
class StatedApplicability:
    """Models, serials or conditions that the print gives for a place, as printed: read by
    applicability.read_applicability when an aircraft is asked for.

    words     the words that say it; the evidence names page, box and rule
    pdf_page  of PAGE and PASSAGE, 1-based; None for PUBLICATION
    passage   ordinal in the file, PASSAGE only
    """

    scope: ApplicabilityScope
    words: Tag[str]
    pdf_page: int | None = None
    passage: int | None = None


@dataclass(frozen=True, slots=True)
class PageMark:
    """What one page prints of its own state in head or foot.

    number        chapter-section-subject or section as printed; "" = none
    printed_page  as printed; "" = none
    revision      as printed without the word ("6", "B"), None = none
    """

    pdf_page: int  # 1-based
    number: str
    printed_page: str
    date: Tag[datetime.date] | None = None
    revision: Tag[str] | None = None


@dataclass(frozen=True, slots=True)
class ListedPage:
    """One line of a list of effective pages.

    number, printed_page  as printed; a range of pages on one line is one ListedPage each
    date, revision        that the list gives for the page; None, "" = none
    evidence              the line, and where it stands
    """

    number: str
    printed_page: str
    date: datetime.date | None
    revision: str
    evidence: Evidence


class CitationKind(StrEnum):
    """What a reference in running text names."""

    CHAPTER = "chapter number"  # "see 32-41-00", "refer to ATA 32"
    TASK = "task"  # "do task 32-41-00-400-801"
    FIGURE = "figure"  # "figure 202", "fig. 14 item 7"
    OWN_SECTION = "section"  # "section V, paragraph 5-12": a manual's own order
    PARAGRAPH = "paragraph"  # "paragraph 2.B of this bulletin"
    PAGE = "page"  # "see page 5-14"
    DOCUMENT = "document"  # a publication by type, number or title: bulletin, directive, manual, circular
    REGULATION = "regulation"  # "14 CFR 43.13(b)", "\u00a7 43.9"


@dataclass(frozen=True, slots=True)
class Citation:
    """One reference in running text, as printed; resolved in the catalogue, never here.

    text            text[start:end] of the passage (or of what was given), as printed
    type            the other publication's type, when the words say so
    number          its number as printed, dashes plain ("SB 32-0012", "2031-04-07", "43.13(b)"); "" = none
    revision        as printed without the word; "" when none is named
    chapter_number  ATA, JASC or SNS number named; or the section of an own order (scheme OWN: "V", "5-12")
    page            as printed ("202", "5-14"); "" = none; likewise figure ("14-7"), paragraph and item of a
                    figure; a range is one text: "5-12 through 5-15"

    Of an entry in a record only (references.find_citations):
    named           the words that tell which of its kind: maker, model, form ("Pellworth H-14", "DER")
    claims_current  whether the entry says that it is the latest revision, in place of naming one
    date_words      the date as written; `date` reads 4-3-56 as a US mechanic writes it, month first
    """

    kind: CitationKind
    text: str
    start: int
    end: int
    type: PublicationType | None = None
    number: str = ""
    revision: str = ""
    date: datetime.date | None = None
    chapter_number: ChapterNumber | None = None
    page: str = ""
    figure: str = ""
    paragraph: str = ""
    item: str = ""
    named: str = ""
    claims_current: bool = False
    date_words: str = ""


@dataclass(frozen=True, slots=True)
class TaggedPassage:
    """A passage with its tags.

    numbers     ATA, JASC or SNS numbers first: numbers[0] is the one it is filed under, the rest it also
                carries. A manual's own section (scheme OWN, the number to cite) stands last; alone when
                nothing files the passage under a chapter.
    references  what its running text refers to, in order of place
    """

    passage: Passage
    numbers: tuple[Tag[ChapterNumber], ...]
    page_block: Tag[str] | None  # "Removal/installation": depends on the manual type
    standing: Standing
    references: tuple[Citation, ...] = ()


@dataclass(frozen=True, slots=True)
class TaggedPublication:
    """One work as bound in one file: pages first_page to last_page (1-based, both included)."""

    first_page: int
    last_page: int
    identity: Identity
    passages: tuple[TaggedPassage, ...]
    claims: tuple[Claim, ...]
    directive: DirectiveFacts | None = None
    bulletin: BulletinFacts | None = None
    applicability: tuple[StatedApplicability, ...] = ()
    page_marks: tuple[PageMark, ...] = ()
    listed_pages: tuple[ListedPage, ...] = ()
    parts: PartsList = PartsList()
