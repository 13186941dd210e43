"""Words on the screen: standing, tags' bases and the cautions, in plain trade words. Pure.

The usual standing of a type is always worded as a habit of the type, never as a finding about the page.
"""

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Protocol

from indexer.tagging.inference import LIKELY
from indexer.tagging.tags import Standing, StandingValue
from indexer.trade.approval_words import ApprovalKind, find_approval_words
from indexer.trade.chapters import chapter_title
from indexer.trade.evidence import Basis, Evidence, Origin
from indexer.trade.publication_titles import says_kind_alone
from indexer.trade.publication_types import PublicationType, type_row

CAUTIONS = (
    "Use this as a guide to where things are written, nothing more. It approves no work, no data and no "
    "part, and it does not say whether a job is major or minor.",
    "It knows only the copies it was given. Before use, check the revision and any temporary revisions "
    "with whoever holds the type certificate, the supplemental type certificate or the article's "
    "approval.",
    "The regulations, the authority and the person who signs decide: the holder of an inspection "
    "authorization, the repair station under its manual, or the air carrier. Where they differ from what "
    "is shown here, they are right.",
    "When no airworthiness directive is listed, that means none among the documents held here. It does "
    "not mean that none applies.",
    "A standing belongs to the passage shown with it and rests on the words quoted. Acceptable data is "
    "not approved data.",
    "The work is for people licensed to do it, within their privileges. Text read from scans can hold "
    "wrong figures: read the page itself before you cut, torque or sign.",
    "It is made for civil aircraft registered in the United States, under FAA rules. Other authorities "
    "give the same words other meanings.",
    "Publications belong to their publishers. Work from the copies your shop is licensed to use.",
)
SHORT_CAUTION = (
    "A guide to the page, not an approval. Check revision and temporary revisions with the holder before "
    "use; the regulations and the signer decide."
)

READ_AGAIN = "read again with: hangarleaf ingest --read-again"

STANDING_LABELS = {
    StandingValue.APPROVED: "Approved data",
    StandingValue.ACCEPTABLE: "Acceptable data",
    StandingValue.INFORMATION: "Information only",
    StandingValue.BLOCKED: "Blocked",
    StandingValue.UNDETERMINED: "Not determined",
}
_USUALLY = {
    StandingValue.APPROVED: "usually approved",
    StandingValue.ACCEPTABLE: "usually acceptable",
    StandingValue.INFORMATION: "usually information only",
}
_SCOPES = {
    "passage": "for this passage",
    "page": "for this page",
    "section": "for this section",
    "bulletin revision": "for this revision of the bulletin",
    "document": "for the whole document",
}
BY_THE_SHOP = "entered by the shop"
_BASES = {
    Basis.PRINTED: "printed",
    Basis.DOCUMENT_PROPERTIES: "from the file's properties",
    Basis.OUTLINE: "from the file's bookmarks",
    Basis.TYPE_RULE: "by type of publication",
    Basis.LINKED_DIRECTIVE: "by a directive held here",
    Basis.SHOP_ENTRY: BY_THE_SHOP,
    Basis.INFERRED: "worked out from the text, not printed",
}
_ORIGINS = {
    Origin.DIGITAL: "",
    Origin.OCR: "read by OCR",
    Origin.HIDDEN_OCR: "read by OCR, from a hidden text layer",
}


@dataclass(frozen=True, slots=True)
class StandingWords:
    """A standing for the screen: the finding, its reason, and what else must be known."""

    value: StandingValue
    lead: str
    why: str
    quote: str = ""
    quote_place: str = ""  # "PDF page 2", or "PDF page 2 of AD 2031-04-07"; "" without a quote
    notes: tuple[str, ...] = ()


def standing_words(standing: Standing) -> StandingWords:
    """What to say of a passage's standing, and why."""
    evidence, value = standing.evidence, standing.value
    notes = list(standing.conditions)
    if standing.mandatory:
        notes.insert(0, _required_by(evidence))
    if value is StandingValue.UNDETERMINED:
        lead, why = _undetermined(standing.usual)
        if evidence and evidence.quote and _denies(evidence.quote):
            why = "The words printed here speak against approval:"
        elif evidence and evidence.quote:
            why = f"{why} These words were looked at and do not settle it:"
    else:
        lead = STANDING_LABELS[value]
        why = _why(standing, evidence)
    if evidence is not None and evidence.basis is Basis.SHOP_ENTRY:
        return StandingWords(value, f"{lead} ({BY_THE_SHOP})", entered_words(evidence), notes=tuple(notes))
    return StandingWords(
        value,
        lead,
        why,
        evidence.quote if evidence else "",
        _place(evidence) if evidence and evidence.quote else "",
        tuple(notes),
    )


def entered_words(evidence: Evidence) -> str:
    """Who entered it and why, of a shop entry: its quote is the reason typed, and no words in print."""
    first, _, second = evidence.source.partition("; ")
    who = f"{first}, agreed by {second}" if second else first
    return f"Entered by {who}; reason: {evidence.quote.rstrip('. ')}. No printed words are quoted."


def entered_lead(standing: Mapping[str, Any], lead: str) -> str:
    """The lead of a source check's standing, given as JSON fields: a shop's entry is told from print."""
    return f"{lead} ({BY_THE_SHOP})" if standing["basis"].endswith(BY_THE_SHOP) else lead


def _denies(quote: str) -> bool:
    return any(
        found.kind in (ApprovalKind.NEGATED, ApprovalKind.BLOCKS) for found in find_approval_words(quote)
    )


def _place(evidence: Evidence) -> str:
    if evidence.pdf_page is None:
        return evidence.source
    return f"PDF page {evidence.pdf_page}{f' of {evidence.source}' if evidence.source else ''}"


def _undetermined(usual: StandingValue) -> tuple[str, str]:
    if usual not in _USUALLY:
        return (
            "Not determined",
            "No approval words found here, and the type of publication does not say either.",
        )
    return "Not determined", f"{_USUALLY[usual].capitalize()} (by type); no approval words found here."


def _why(standing: Standing, evidence: Evidence | None) -> str:
    scope = _SCOPES.get(standing.scope, "")
    if evidence is None or evidence.basis is Basis.TYPE_RULE:
        return "By type of publication."
    if evidence.basis is Basis.LINKED_DIRECTIVE:
        source = evidence.source or "a directive held here"
        return f"Because {source} says so{_comma(scope)}:"
    if evidence.basis is Basis.PRINTED:
        read = _ORIGINS[evidence.origin]
        return f"{'Printed' if not read else 'Printed, ' + read}{_comma(scope)}:"
    return f"{basis_words(evidence)[:1].upper()}{basis_words(evidence)[1:]}{_comma(scope)}:"


def _comma(scope: str) -> str:
    return f", {scope}" if scope else ""


def _required_by(evidence: Evidence | None) -> str:
    if evidence is not None and evidence.basis is Basis.LINKED_DIRECTIVE and evidence.source:
        return f"Required by {evidence.source}."
    return "Required by a rule in force, as quoted."


def basis_words(evidence: Evidence) -> str:
    """How a value is known: "printed", "printed, read by OCR", "by type of publication" ..."""
    words = _BASES[evidence.basis]
    read = _ORIGINS[evidence.origin]
    if read and evidence.basis in (Basis.PRINTED, Basis.OUTLINE, Basis.INFERRED):
        words = f"{words}, {read}"
    if evidence.basis is Basis.INFERRED and evidence.confidence is not None:
        words = f"{words} ({confidence_words(evidence.confidence)})"
    return words


def confidence_words(confidence: float) -> str:
    """A confidence of 0.0 to 1.0 in words, with the measured meaning that MODEL_CARD.md gives them."""
    return "likely" if confidence >= LIKELY else "possible; check it"


_NAMED_BY_NUMBER = {  # types whose number says little without the short word before it
    PublicationType.SERVICE_BULLETIN,
    PublicationType.SERVICE_LETTER,
    PublicationType.AIRWORTHINESS_DIRECTIVE,
    PublicationType.PROPOSED_DIRECTIVE,
    PublicationType.AIRWORTHINESS_BULLETIN,
    PublicationType.ADVISORY_CIRCULAR,
    PublicationType.TEMPORARY_REVISION,
    PublicationType.TYPE_CERTIFICATE_DATA_SHEET,
    PublicationType.SUPPLEMENTAL_TYPE_CERTIFICATE,
}


def numbered(kind: PublicationType | None, number: str) -> str:
    """ "SB 32-0012", "AD 2031-04-07": the number with the short word of its type before it."""
    if not number or kind not in _NAMED_BY_NUMBER:
        return number
    row = type_row(kind)
    words = [row.short, *(word for word in row.also if word.isupper())]
    has_word = any(number.upper().startswith(word) for word in words)
    return number if has_word else f"{row.short} {number}"


_MOST_MODELS = 3


class Named(Protocol):
    """What a publication is called by; "" and () = not found."""

    @property
    def type(self) -> PublicationType | None: ...
    @property
    def number(self) -> str: ...
    @property
    def title(self) -> str: ...
    @property
    def file(self) -> str: ...
    @property
    def models(self) -> tuple[str, ...]: ...


def publication_name(named: Named) -> str:
    """What to call a publication: number and title, whichever it has, else its file.

    A title that only says what kind of book it is is told from others by the models, "SERVICE MANUAL, H-14",
    or, where they are not known or more than three, by the file: "SERVICE MANUAL (h-14.pdf)".
    """
    number, title = named.number, named.title
    if not number and says_kind_alone(title):
        known = 0 < len(named.models) <= _MOST_MODELS
        return f"{title}, {', '.join(named.models)}" if known else f"{title} ({named.file})"
    if number and title and number.casefold() not in title.casefold():
        return f"{numbered(named.type, number)}: {title}"
    return title or numbered(named.type, number) or named.file


def publication_kind(
    kind: PublicationType | None, revision: str, date: datetime.date | None, entered: Sequence[str] = ()
) -> str:
    """ "Service bulletin, revision 2, 4 March 2031"; says what is not known.

    entered  what of its identity the shop entered: "... (revision and date entered by the shop)"
    """
    parts = [kind.label if kind else "Type of publication not determined"]
    if revision:
        parts.append(revision if revision[:1].isalpha() and len(revision) > 2 else f"revision {revision}")
    else:
        parts.append("no revision found")
    if date:
        parts.append(date_words(date))
    *first, last = entered or [""]
    said = f"{', '.join(first)} and {last}" if first else last
    return f"{', '.join(parts)} ({said} entered by the shop)" if said else ", ".join(parts)


def count_of(number: int, noun: str) -> str:
    """ "1 passage", "1,204 passages", "no pages"."""
    if number == 1:
        return f"1 {noun}"
    return f"{number:,} {noun}s" if number else f"no {noun}s"


def shortened(quote: str, length: int = 220) -> str:
    """A long quote cut at a space, with a sign that it goes on."""
    return quote if len(quote) <= length else f"{quote[:length].rsplit(' ', 1)[0]} …"


def date_words(date: datetime.date) -> str:
    """ "4 March 2031": the month as a word, so that day and month cannot be taken for one another."""
    return f"{date.day} {date:%B %Y}"


def chapter_words(chapter: str) -> str:
    """The title of a chapter; "Not numbered" for the passages without a chapter number."""
    return chapter_title(chapter) if chapter else "Not numbered"


def not_searched_words(
    pages_without_text: int, passages_not_numbered: int, by_chapter: bool, ocr: str = ""
) -> str:
    """What a search could not look at; "" when it looked at everything.

    by_chapter   a chapter was asked for, so that passages without a number were left out
    ocr          what OCR owes, in words
    """
    parts = [ocr] if ocr else []
    if pages_without_text:
        pages = "1 page has" if pages_without_text == 1 else f"{pages_without_text:,} pages have"
        parts.append(f"{pages} no text that can be searched.")
    if passages_not_numbered and by_chapter:
        passages = (
            "1 passage has" if passages_not_numbered == 1 else f"{passages_not_numbered:,} passages have"
        )
        parts.append(f"{passages} no chapter number and cannot come up under a chapter.")
    return f"Not searched: {' '.join(parts)}" if parts else ""
