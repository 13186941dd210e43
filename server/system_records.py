"""What the listing of a system is made of. Values only."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from indexer.library.fleet_records import Aircraft
from indexer.library.records import PublicationRecord, ReferenceState
from indexer.library.register_records import CurrencyFinding
from indexer.tagging.tags import Standing
from indexer.trade.applies import ApplicabilityAnswer
from indexer.trade.chapters import ChapterNumber
from indexer.trade.evidence import Evidence
from server.currency import Relation
from server.ocr_words import HowRead, Owed
from server.opened import LibraryState
from server.system_order import GroupKind


class How(StrEnum):
    """How we know that a page is on the system, the surest first."""

    PRINTED = "printed"
    SHOP_ENTRY = "shop entry"
    MAPPED = "mapped"
    LIKELY = "likely"
    POSSIBLE = "possible"
    REFERRED = "referred to"
    TIED = "tied"


class Part(StrEnum):
    """On what was asked for, or filed so widely that it may be."""

    ON = "on the system"
    MAY_BE = "may concern it"


@dataclass(frozen=True, slots=True)
class PagePlace:
    pdf_page: int  # 1-based
    printed_page: str  # "" = none found


@dataclass(frozen=True, slots=True)
class PassagePlace:
    passage_id: str
    pdf_page: int  # it begins on
    heading: str  # the last heading above it; "" = none


@dataclass(frozen=True, slots=True)
class Mention:
    """A reference between two places, seen from one of them.

    words     as printed ("SB 32-0099", "refer to 32-41-00")
    other     id of the publication at the other end; "" when it is not held here or cannot be told
    pdf_page  at the other end; None = the whole publication
    here      the PDF page of this line that the reference stands on or leads to; None = the whole
    """

    words: str
    kind: str
    state: ReferenceState
    other: str
    pdf_page: int | None
    here: int | None
    reason: str = ""
    read_by_ocr: bool = False  # the words were


@dataclass(frozen=True, slots=True)
class Line:
    """One publication and one run of its pages, with all that is known of them alike.

    number       filed under: another system's where the line only refers to this one or is tied to it; None =
                 not numbered
    wider        for a line that may concern the system: why
    own          section of a manual with its own order: the number to cite ("5-12", "5-12 to 5-20")
    subject      first figure of a parts catalog's pages, else the last heading above all passages; "" = none
    headings     below the subject; distinct, in order of place
    also_read    what readings that disagree would file it under
    ties         how it stands to other documents held here, without what `currency` says
    requirements those of them by which a directive in force or proposed reaches this very revision
    standings    distinct; more than one = not the same over these pages
    passages     in reading order
    holds_words  how many of them hold the words asked for; None when a number was asked for
    applies      to the aircraft in hand; None = none is
    read         those of the passages that OCR read
    """

    group: GroupKind
    block: str
    publication: PublicationRecord
    how: How
    number: ChapterNumber | None
    own: str
    pages: tuple[PagePlace, ...]
    subject: str
    headings: tuple[str, ...]
    evidence: Evidence | None
    also_read: tuple[ChapterNumber, ...]
    standings: tuple[Standing, ...]
    currency: tuple[str, ...]
    current: CurrencyFinding  # of its pages
    ties: tuple[Relation, ...]
    requirements: tuple[Relation, ...]
    refers_to: tuple[Mention, ...]
    referred_from: tuple[Mention, ...]
    passages: tuple[PassagePlace, ...]
    wider: str = ""
    holds_words: int | None = None
    applies: ApplicabilityAnswer | None = None
    read: tuple[HowRead, ...] = ()


@dataclass(frozen=True, slots=True)
class Counts:
    """Passages are counted once, under the surest way they are known; lines and publications as they are."""

    lines: int
    publications: int
    passages: int
    by_how: Mapping[How, int]  # passages; adds up to `passages`
    by_group: Mapping[str, int]  # passages; adds up to `passages`


@dataclass(frozen=True, slots=True)
class Section:
    """One part of the listing: its lines in order."""

    part: Part
    lines: tuple[Line, ...]
    counts: Counts


class NotHereKind(StrEnum):
    """What is named, in the order shown."""

    DOCUMENT = "document"  # not held here, or not at the revision named
    RULE = "rule"
    PLACE = "place"  # could not be told apart in what is held


@dataclass(frozen=True, slots=True)
class NotHere:
    """A document or place that listed pages name and that is not held here or cannot be told apart.

    key   the same for every way of writing one document's number, and for all its revisions
    """

    kind: NotHereKind
    key: str
    document: str  # as printed
    revision: str  # that is named; "" = none
    state: str
    reason: str
    named_by: tuple[tuple[str, int | None], ...]  # publication id, pdf page


@dataclass(frozen=True, slots=True)
class Meaning:
    """One system that the question can mean, and why."""

    number: ChapterNumber
    title: str
    reason: str


@dataclass(frozen=True, slots=True)
class Cause:
    """Passages or pages that no chapter lists, for one reason.

    key     "own-section", "no-number", "not read", "not readable", "no text", "garbled text", ...
    unit    "passage" or "page"
    counts  publication id -> how many
    """

    key: str
    words: str
    unit: str
    counts: Mapping[str, int]

    @property
    def total(self) -> int:
        return sum(self.counts.values())


@dataclass(frozen=True, slots=True)
class WordCounts:
    """Passages that hold the words asked for, over the whole library.

    also          what else was looked for in their place
    listed        in this listing
    elsewhere     filed, and not in this listing
    not_numbered  without a chapter number, and not in this listing
    """

    words: str
    also: tuple[str, ...]
    total: int
    listed: int
    elsewhere: int
    not_numbered: int


@dataclass(frozen=True, slots=True)
class Hidden:
    """Ids of what was left out of a listing because it does not apply to the aircraft in hand."""

    passages: frozenset[str]
    publications: frozenset[str]
    directives: tuple[str, ...]  # names of those publications that are directives or proposals, each once


@dataclass(frozen=True, slots=True)
class SystemAnswer:
    """Everything on a system.

    taken        what the question was taken to mean; `could_mean` are the others, best first
    elsewhere    passages filed in other sections of the chapter, which are not listed
    refused      files that were not taken at all
    left_out     words that only frame the question, as typed
    no_systems   meanings of an abbreviation that are no system: words to search for
    aircraft     in hand, for which each line is marked; None = none is
    hidden       what does not apply to it and was left out; None = nothing was to be hidden
    owed         by OCR, of the publications listed
    """

    asked: str
    words: str  # "" when a number was asked for
    taken: Meaning
    could_mean: tuple[Meaning, ...]
    warnings: tuple[str, ...]
    state: LibraryState
    on: Section
    may_be: Section
    elsewhere: Mapping[str, int]
    word_counts: WordCounts | None
    not_here: tuple[NotHere, ...]
    remainder: tuple[Cause, ...]
    refused: int
    look_for: str  # words for a search in the remainder
    left_out: tuple[str, ...] = ()
    no_systems: tuple[str, ...] = ()
    aircraft: Aircraft | None = None
    hidden: Hidden | None = None
    owed: Owed = Owed()

    @property
    def sections(self) -> tuple[Section, Section]:
        return self.on, self.may_be
