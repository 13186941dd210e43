"""What the catalogue hands out: one frozen record per thing kept. Values only."""

import datetime
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from indexer.reading.page import PassageKind, TextState
from indexer.tagging.tags import BulletinFacts, Citation, ClaimKind, DirectiveFacts, Identity, Standing
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.evidence import Basis, Box, Evidence, Origin, PageBox, Tag
from indexer.trade.publication_types import PublicationType


@dataclass(frozen=True, slots=True)
class Replacement:
    """The newer file that lies where a copy used to lie."""

    copy_id: str
    since: datetime.datetime  # UTC


@dataclass(frozen=True, slots=True)
class CopyRecord:
    """One file, by its content."""

    id: str
    sha256: str
    file: str  # file name, without the folder
    paths: tuple[str, ...]  # every place it was seen at, in order
    size: int  # bytes
    pages: int
    properties: Mapping[str, str]
    notes: tuple[str, ...]
    taken_at: datetime.datetime  # UTC
    replaced: Replacement | None  # None = still on the shelf


@dataclass(frozen=True, slots=True)
class PublicationRecord:
    """One work's revision as bound in one copy: pages first_page to last_page (1-based, both included)."""

    id: str
    copy_id: str
    work_id: str
    revision_id: str
    file: str
    first_page: int
    last_page: int
    identity: Identity
    directive: DirectiveFacts | None
    bulletin: BulletinFacts | None
    passages: int
    not_numbered: int  # passages without a chapter number
    replaced: Replacement | None  # of its copy

    @property
    def type(self) -> PublicationType | None:
        return self.identity.type.value if self.identity.type else None

    @property
    def number(self) -> str:
        """As printed; "" when the file does not say."""
        return self.identity.number.value if self.identity.number else ""

    @property
    def title(self) -> str:
        return self.identity.title.value if self.identity.title else ""

    @property
    def models(self) -> tuple[str, ...]:
        """As printed, each once; () when the file does not say."""
        return tuple(dict.fromkeys(tag.value for tag in self.identity.models))

    @property
    def revision(self) -> str:
        """As printed, without the word; "" when the file does not say."""
        return self.identity.revision.value if self.identity.revision else ""

    @property
    def date(self) -> datetime.date | None:
        return self.identity.date.value if self.identity.date else None

    @property
    def entered(self) -> tuple[str, ...]:
        """What of it the shop entered: of type, number, title, revision and date."""
        names = ("type", "number", "title", "revision", "date")
        tags = ((name, getattr(self.identity, name)) for name in names)
        return tuple(name for name, tag in tags if tag and tag.evidence.basis is Basis.SHOP_ENTRY)


@dataclass(frozen=True, slots=True)
class PageRecord:
    copy_id: str
    pdf_page: int  # 1-based
    state: TextState
    label: str
    printed_page: str
    width: float  # points, as displayed
    height: float
    rotation: int  # degrees: 0, 90, 180, 270
    origin: Origin
    problem: str


@dataclass(frozen=True, slots=True)
class PassageRecord:
    """A passage with its tags. `standing` is what holds now; `own_standing` is from the publication alone."""

    id: str
    publication_id: str
    copy_id: str
    ordinal: int  # 0-based in the file
    pdf_page: int  # 1-based; the page it begins on
    printed_page: str
    boxes: tuple[PageBox, ...]
    heading_path: tuple[str, ...]
    text: str
    kind: PassageKind
    origin: Origin
    numbers: tuple[Tag[ChapterNumber], ...]  # the first is the one it is filed under; () = not numbered
    page_block: Tag[str] | None
    standing: Standing
    own_standing: Standing
    doubtful: tuple[str, ...] = ()  # words of the text that OCR read below the floor of confidence

    @property
    def own_number(self) -> Tag[ChapterNumber] | None:
        """The section of a manual with its own order: the number to cite, whatever it is filed under."""
        return next((tag for tag in self.numbers if tag.value.scheme is Scheme.OWN), None)


class SupersessionKind(StrEnum):
    DIRECTIVE = "superseded by a directive"
    STATED = "superseded as printed"
    NEWER_REVISION = "newer revision"
    CANNOT_TELL = "cannot tell which is newer"


@dataclass(frozen=True, slots=True)
class Supersession:
    """`older_id` gives way to `newer_id`. With CANNOT_TELL they are two states of one work, in no order."""

    older_id: str
    newer_id: str
    kind: SupersessionKind
    reason: str  # in words for a person
    evidence: Evidence | None = None  # None when it follows from the dates of two revisions


class RevisionMatch(StrEnum):
    """How the revision held here stands to the one a claim names."""

    EXACT = "the revision named"
    LATER_ALLOWED = "a later revision, which the words allow"
    NOT_NAMED = "no revision is named"
    OTHER = "another revision"
    CANNOT_TELL = "cannot tell"


@dataclass(frozen=True, slots=True)
class Tie:
    """What a publication says of another one held here. Raises standing only where `raises` is True."""

    source_id: str
    claim: int  # ordinal of the source's claim
    target_id: str
    level: ClaimKind
    match: RevisionMatch
    paragraphs: tuple[str, ...]  # () = the whole
    evidence: Evidence
    in_force: bool  # the source is a directive in force
    raises: bool
    reason: str = ""  # why it does not raise, in words for a person


class OverrideState(StrEnum):
    IN_FORCE = "in force"
    SUPERSEDED = "superseded by a later temporary revision"
    CANNOT_TELL = "cannot tell whether the manual already includes it"


@dataclass(frozen=True, slots=True)
class PageOverride:
    """A page of a temporary revision that is read before a page of its manual."""

    target_id: str
    pdf_page: int  # of the manual, 1-based
    source_id: str
    source_pdf_page: int  # of the temporary revision, 1-based
    state: OverrideState
    evidence: Evidence


@dataclass(frozen=True, slots=True)
class UnresolvedClaim:
    """A claim whose document, revision or page is not held here or cannot be told apart."""

    publication_id: str
    claim: int
    kind: ClaimKind
    document: str
    revision: str
    reason: str
    evidence: Evidence


class ReferenceState(StrEnum):
    RESOLVED = "resolved"
    NOT_HELD = "refers to a document not in this library"
    NO_SUCH_PLACE = "the document is here, the place named in it is not"
    CANNOT_TELL = "cannot tell which is meant"


@dataclass(frozen=True, slots=True)
class Reference:
    """What a passage refers to, and where that stands among the publications held here.

    targets   (publication id, pdf_page, passage id); page and passage are None when the whole publication is
              meant. Several when the words fit several places and all are meant or none can be chosen
    reason    in words for a person, when the state is not RESOLVED
    """

    passage_id: str
    ordinal: int  # of the citation in its passage, 0-based
    publication_id: str
    citation: Citation
    state: ReferenceState
    targets: tuple[tuple[str, int | None, str | None], ...] = ()
    reason: str = ""


class EntryKind(StrEnum):
    """What a shop entry says. Whatever would raise a standing waits for a second person."""

    CHAPTERS = "chapters"  # value: numbers as text ("32", "32-41"), several joined by ";"; "" = no chapter
    TYPE = "type"  # value: a PublicationType value
    NUMBER = "number"
    TITLE = "title"
    REVISION = "revision"
    DATE = "date"  # value: ISO 8601
    STANDING = "standing"  # value: a StandingValue value
    SETTLED = "settled"  # a doubt was dismissed; value: its cause, and after ": " the reading dismissed
    NOTE = "note"


class EntryState(StrEnum):
    IN_FORCE = "in force"
    WAITING = "waits for a second person"
    CHECK_AGAIN = "check again"  # its place was not found for sure in what is held now
    UNDONE = "undone"


@dataclass(frozen=True, slots=True)
class ShopEntry:
    """What a named person of the shop says about a place. Kept apart from derived tags; beats them.

    The place is anchored by copy, pages, quote and box; a section of an own-order manual also by its number.
    """

    id: int
    copy_id: str
    pdf_page: int  # first page, 1-based
    last_page: int  # = pdf_page for one page
    section: str  # "V" or "5-12": every passage of that own section; "" = by page
    quote: str  # of the passage meant; "" = all passages of the pages
    box: Box | None
    kind: EntryKind
    value: str
    who: str
    made_at: datetime.datetime  # UTC
    why: str
    state: EntryState
    second: str = ""  # the second person, for what takes one
    undone_by: str = ""
    undone_why: str = ""
    undone_second: str | None = (
        None  # who agreed to undoing; "" = awaited, None = undoing takes no second person
    )
    reason: str = ""  # of the state, in words for a person

    @property
    def undo_waits(self) -> bool:
        """True while it stays in force because undoing it would raise standing and takes a second person."""
        return bool(self.undone_by) and self.undone_second == ""


class ReviewCause(StrEnum):
    """Why the librarian should look."""

    CHECK_AGAIN = "an entry of the shop no longer finds its place"
    WAITING = "waits for a second person"
    RUNGS_DISAGREE = "readings of the number disagree"
    TYPE_UNCLEAR = "type of publication not determined"
    REVISION_UNCLEAR = "revision not determined"
    LIKELY_ONLY = "chapter worked out from the text, not printed"
    NOT_NUMBERED = "not numbered"
    NO_TEXT = "pages without text"


@dataclass(frozen=True, slots=True)
class ReviewItem:
    """One question for the librarian: neighbouring passages or pages with the same doubt are one item.

    id           stays the same while the doubt stays: made from copy, cause and place
    suggestions  values the machine would give, best first, with their evidence
    covers       the headings its passages stand under, as printed ("16-2 Altimeter")
    filed        the numbers that each of them carries now, all together; () = none
    """

    id: str
    cause: ReviewCause
    publication_id: str
    copy_id: str
    first_page: int  # pdf pages, 1-based
    last_page: int
    section: str  # own section, "" = none
    passages: int  # that a decision would cover
    quote: str  # the opening words of the first passage
    now: str  # what holds now, in words for a person
    suggestions: tuple[Tag[ChapterNumber], ...]
    entry_id: int | None = None  # CHECK_AGAIN and WAITING: the entry
    covers: tuple[str, ...] = ()
    filed: tuple[ChapterNumber, ...] = ()


@dataclass(frozen=True, slots=True)
class MapRow:
    """A line of the shop's map: a range of a manual's own order and the chapters it is filed under.

    publication  the manual's number, its title as printed, or its file: see map_names; it speaks of every
                 revision of that work
    first, last  sections or paragraphs as printed, both included ("V"; "5-12" to "5-20"); equal for one
    """

    id: int
    publication: str
    first: str
    last: str
    chapters: tuple[str, ...]  # "32", "32-41"
    who: str
    made_at: datetime.datetime  # UTC
    why: str


@dataclass(frozen=True, slots=True)
class ShopWord:
    """A line of the shop's own word list: what people here say, and what manuals print."""

    id: int
    term: str
    manual_terms: tuple[str, ...]
    note: str
    who: str
    made_at: datetime.datetime  # UTC


@dataclass(frozen=True, slots=True)
class RefusedRecord:
    path: str
    slug: str
    what: str
    remedy: str
    sha256: str  # "" when the file could not be read at all
    refused_at: datetime.datetime  # UTC


@dataclass(frozen=True, slots=True)
class HistoryEntry:
    at: datetime.datetime  # UTC
    event: str
    copy_id: str
    path: str
    detail: str


@dataclass(frozen=True, slots=True)
class Status:
    """The state of the library. Counts are of what is on the shelf; replaced copies are counted apart."""

    generation: int
    changed_at: datetime.datetime  # UTC
    relations_pending: bool  # documents were added or removed since relations were last worked out
    copies: int
    replaced_copies: int
    publications: int
    publications_by_type: Mapping[str, int]
    pages: int
    pages_by_state: Mapping[str, int]
    pages_without_text: int  # every state but text and blank: not searched
    passages: int
    passages_not_numbered: int
    unresolved_claims: int
    refused: tuple[RefusedRecord, ...]
    copies_read_by_older_rules: int = 0  # replaced ones among them; reading them again gives better tags
