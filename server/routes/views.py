"""Records of the catalogue -> what the pages show. No catalogue is read here."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from indexer.library.records import PassageRecord, PublicationRecord
from indexer.library.register_records import CurrencyFinding
from indexer.reading.page import PassageKind, TextState
from indexer.tagging.tags import StandingValue
from indexer.trade.chapters import ChapterNumber
from indexer.trade.evidence import Evidence, Tag
from indexer.trade.publication_types import PublicationType, type_row
from server.applies_words import AppliesWords, applies_words
from server.current import CurrentWords, current_words
from server.ocr_words import ReadWords, read_words
from server.routes.addresses import page_address, publication_address, why_address, wrong_address
from server.search import Hit, heading
from server.snippet import Snippet
from server.words import (
    StandingWords,
    basis_words,
    date_words,
    publication_kind,
    publication_name,
    standing_words,
)

_KINDS = {
    PassageKind.TEXT: "Text",
    PassageKind.STEP: "Step",
    PassageKind.WARNING: "Warning",
    PassageKind.CAUTION: "Caution",
    PassageKind.NOTE: "Note",
    PassageKind.TABLE: "Table",
    PassageKind.PARTS_ROW: "Part",
    PassageKind.FIGURE_TITLE: "Figure",
}
_TITLE_LENGTH = 70  # characters
_STATES = {
    TextState.NO_TEXT: "This page has no text that can be searched; most often it is a scan.",
    TextState.GARBLED: "The text of this page is not words and cannot be searched.",
    TextState.FAILED: "The text of this page could not be read.",
}


@dataclass(frozen=True, slots=True)
class PublicationView:
    id: str
    name: str
    kind: str
    address: str
    currency: tuple[str, ...] = ()
    pages: int = 0
    now: CurrentWords | None = None
    owed: str = ""  # by OCR, in words


@dataclass(frozen=True, slots=True)
class HitView:
    address: str
    name: str
    kind: str
    printed_page: str
    pdf_page: int
    number: str
    page_block: str
    read: ReadWords | None  # None = born digital
    misread: tuple[str, ...]  # by which misreadings of OCR it was found
    heading: str
    currency: tuple[str, ...]
    now: CurrentWords
    snippet: Snippet
    standing: StandingWords
    why_address: str  # "" where no words were asked for
    applies: AppliesWords | None = None  # to the aircraft in hand; None = none is
    passage_id: str = ""
    publication_id: str = ""


@dataclass(frozen=True, slots=True)
class Reading:
    """One reading of a fact, in words, with its evidence."""

    words: str
    evidence: Evidence | None = None


@dataclass(frozen=True, slots=True)
class Fact:
    """What a publication or a passage says; `words` "" = not found; `others` are readings that disagree."""

    name: str
    words: str
    evidence: Evidence | None = None
    others: tuple[Reading, ...] = ()


@dataclass(frozen=True, slots=True)
class PassageView:
    ordinal: int
    here: bool
    title: str
    address: str
    heading: str
    text: Snippet
    read: ReadWords | None
    facts: tuple[Fact, ...]
    standing: StandingWords
    wrong: str  # where to say that a tag of it is wrong
    applies: AppliesWords | None = None  # to the aircraft in hand; None = none is


def publication_view(
    record: PublicationRecord,
    currency: tuple[str, ...] = (),
    current: CurrencyFinding | None = None,
    owed: str = "",
) -> PublicationView:
    return PublicationView(
        record.id,
        publication_name(record),
        publication_kind(record.type, record.revision, record.date, record.entered),
        publication_address(record.id),
        currency,
        record.last_page - record.first_page + 1,
        current_words(current, currency) if current else None,
        owed,
    )


def hit_view(hit: Hit, question: str, back: str, registration: str = "") -> HitView:
    passage, owner = hit.passage, publication_view(hit.publication)
    return HitView(
        page_address(owner.id, passage.pdf_page, passage=passage.id, q=question, back=back),
        owner.name,
        owner.kind,
        passage.printed_page,
        passage.pdf_page,
        number_words(passage.numbers[0]) if passage.numbers else "",
        passage.page_block.value if passage.page_block else "",
        read_words([passage]),
        tuple(each.words for each in hit.misread),
        heading(passage),
        hit.currency,
        current_words(hit.current, hit.currency),
        hit.snippet,
        standing_words(passage.standing),
        why_address(passage.id, back) if question else "",
        applies_words(hit.applies, registration),
        passage.id,
        owner.id,
    )


def passage_view(
    passage: PassageRecord,
    marks: Sequence[tuple[int, int]],
    here: bool,
    address: str,
    applies: AppliesWords | None = None,
) -> PassageView:
    facts = [
        Fact("Chapter number" if rank == 0 else "Also carries", number_words(tag), tag.evidence)
        for rank, tag in enumerate(passage.numbers)
    ]
    if passage.page_block:
        facts.append(Fact("Page block", passage.page_block.value, passage.page_block.evidence))
    return PassageView(
        passage.ordinal,
        here,
        passage_title(passage),
        address,
        heading(passage),
        Snippet(passage.text, tuple(marks)),
        read_words([passage]),
        tuple(facts),
        standing_words(passage.standing),
        wrong_address(passage.publication_id, passage.pdf_page, passage.id),
        applies,
    )


def passage_title(passage: PassageRecord) -> str:
    """The kind and the first words of a passage."""
    words = " ".join(passage.text.split())
    if len(words) > _TITLE_LENGTH:
        words = f"{words[:_TITLE_LENGTH].rsplit(' ', 1)[0]} …"
    kind = _KINDS[passage.kind]
    return words if words.casefold().startswith(kind.casefold()) else f"{kind}: {words}"


def number_words(tag: Tag[ChapterNumber]) -> str:
    """ "32-41-05 (printed)"; another scheme than ATA is named."""
    scheme = {"ATA": "", "JASC": "JASC ", "SNS": "data module ", "OWN": "own number "}[tag.value.scheme.value]
    return f"{scheme}{tag.value} ({basis_words(tag.evidence)})"


def one_standing(passages: Iterable[PassageRecord]) -> StandingWords | None:
    """The standing of a whole page: that of its passages, or that they differ; None without any."""
    found = {standing_words(passage.standing) for passage in passages}
    if len(found) == 1:
        return found.pop()
    if not found:
        return None
    return StandingWords(
        StandingValue.UNDETERMINED, "Not the same over this page", "See the standing of each passage below."
    )


def warnings_words(passages: Iterable[PassageRecord]) -> str:
    """ "2 warnings and 1 caution on this page"; "" when there are none."""
    kinds = [passage.kind for passage in passages]
    parts = [
        f"{kinds.count(kind)} {noun}{'s' if kinds.count(kind) > 1 else ''}"
        for kind, noun in ((PassageKind.WARNING, "warning"), (PassageKind.CAUTION, "caution"))
        if kind in kinds
    ]
    return f"{' and '.join(parts)} on this page" if parts else ""


def state_words(state: TextState, problem: str) -> str:
    """Why a page cannot be searched; "" when it can."""
    words = _STATES.get(state, "")
    return f"{words} ({problem})" if words and problem else words


def fact(name: str, tag: Tag | None) -> Fact:
    if tag is None:
        return Fact(name, "")
    return Fact(
        name,
        value_words(tag.value),
        tag.evidence,
        tuple(Reading(value_words(other.value), other.evidence) for other in tag.others),
    )


def value_words(value: Any) -> str:
    """A tag's value for the screen."""
    if isinstance(value, PublicationType):
        return value.label
    return date_words(value) if hasattr(value, "isoformat") else str(value)


def identity_facts(record: PublicationRecord) -> list[Fact]:
    """What a publication says of itself; what it does not say is listed as not found."""
    identity = record.identity
    facts = [
        fact("Type", identity.type),
        fact("Number", identity.number),
        fact("Title", identity.title),
        fact("Maker", identity.maker),
        *([fact("Model", model) for model in identity.models] or [fact("Models", None)]),
        fact("Revision", identity.revision),
        fact("Date", identity.date),
    ]
    if directive := record.directive:
        facts += [
            fact("Amendment", directive.amendment),
            fact("Effective", directive.effective),
            *(fact("Subject", subject) for subject in directive.subjects),
            fact("Applies to, as printed", directive.applicability),
        ]
        if not directive.is_rule:
            facts.append(Fact("A rule?", "No: a proposal. Information only."))
    if bulletin := record.bulletin:
        facts += [
            fact("Compliance, as the maker prints it", bulletin.compliance),
            fact("Approval, as printed", bulletin.approval),
            fact("Affected, as printed", bulletin.affected),
        ]
    return facts


def usual_words(record: PublicationRecord) -> str:
    """The habit of the type, never a finding about this copy."""
    if record.type is None:
        return "Cannot tell: the type of publication was not found."
    row = type_row(record.type)
    usual = {
        "approved": "Usually approved, where the page itself says so.",
        "acceptable": "Usually acceptable.",
        "information": "Usually information only.",
    }.get(row.usual_standing, "The type does not say.")
    note = f" {row.standing_note}." if row.standing_note else ""
    return f"{usual}{note} This is the habit of the type, not a finding about this copy."
