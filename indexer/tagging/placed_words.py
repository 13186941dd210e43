"""Words of approval and where they stand on a page: head, body or foot, which lines, and what they speak
of."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from indexer.reading.page import Line, Page, Passage
from indexer.tagging.flow import one_line
from indexer.tagging.printed_evidence import printed_evidence
from indexer.tagging.zone_columns import zone_columns
from indexer.trade.approval_words import ApprovalKind, ApprovalWords, find_approval_words
from indexer.trade.evidence import Box, Evidence
from indexer.trade.publication_types import PublicationType as Type


class Reach(StrEnum):
    """How far the words themselves say they reach."""

    DOCUMENT = "document"
    SECTION = "section"
    PAGE = "page"
    PASSAGE = "passage"


_NOUNS = (
    r"bulletin|letter|instructions?|publication|document|manual|supplement|catalog(?:ue)?|cop(?:y|ies)|book|handbook"
    r"|SB|ASB|SRM|AFM|RFM|section|chapter|appendix|ALS|pages?|revision|repairs?|drawing|data|limits|procedures?|schemes?|figures?"
    r"|notes?"
)
# In "this structural repair manual" the noun is the last.
_SUBJECT = re.compile(
    rf"\b(?:this|these)\s+(?:[\w/-]+\s+){{0,4}}?(?P<noun>{_NOUNS})\b(?!\s+(?:{_NOUNS})\b)", re.IGNORECASE
)
_OF_DOCUMENT = {
    "bulletin", "letter", "instruction", "instructions", "publication", "document", "manual", "supplement",
    "catalog", "catalogue",
    "copy", "copies", "book", "handbook", "sb", "asb", "srm", "afm", "rfm",
}  # fmt: skip
# Nouns that name one kind of publication: in a publication of another kind they speak of a different paper.
_BULLETIN_NOUNS = {"bulletin", "letter", "instruction", "instructions", "sb", "asb"}
_MANUAL_NOUNS = {"manual", "catalog", "catalogue", "book", "handbook"}
_NOUNS_OF_TYPE = {
    "supplement": (Type.FLIGHT_MANUAL_SUPPLEMENT,),
    "srm": (Type.STRUCTURAL_REPAIR_MANUAL,),
    "afm": (Type.FLIGHT_MANUAL, Type.FLIGHT_MANUAL_SUPPLEMENT),
    "rfm": (Type.FLIGHT_MANUAL, Type.FLIGHT_MANUAL_SUPPLEMENT),
}
_BULLETINS = (Type.SERVICE_BULLETIN, Type.SERVICE_LETTER)
_OF_SECTION = {"section", "chapter", "appendix", "als"}
_OF_PAGE = {"page", "pages", "revision", "note", "notes"}
# Every wording of approval_words.py holds one of these; a page without them need not be read sentence by
# sentence.
_STEMS = re.compile(
    r"[a4]ppr|accept|reference|uncontrolled|only|maintenance|training|43\.16|(?:\b\w\s){4}", re.IGNORECASE
)
_UNNAMED_CONTENT = re.compile(
    r"\b(?:technical|engineering)\s+(?:design\s+)?(?:contents?|aspects?|portions?|data)\b", re.IGNORECASE
)
_TAKES_BACK = (
    ApprovalKind.NEGATED,
    ApprovalKind.BLOCKS,
    ApprovalKind.HOPE,
    ApprovalKind.PARTIAL,
    ApprovalKind.INSTRUCTION,
)
_ITEM = re.compile(
    r"\(?(?:\d{1,3}|[A-Za-z])[.)]\s"
)  # "A. ", "(1) ": a new paragraph, however close it stands
_GAP = 0.9  # of a line's height: more white than this between two lines parts two paragraphs


@dataclass(frozen=True, slots=True)
class PlacedWords:
    """Words of approval on one page. `zone`: "head", "body" or "foot"."""

    words: ApprovalWords
    pdf_page: int
    zone: str
    lines: tuple[Line, ...]
    evidence: Evidence

    @property
    def speaks_of_this(self) -> bool:
        """Whether a sentence names what it speaks of ("this bulletin"); False for a stamp."""
        return _SUBJECT.search(self.words.quote) is not None

    @property
    def reach(self) -> Reach:
        """What the words name; a stamp, and a notice that names nothing, reaches its page."""
        if self.words.kind is ApprovalKind.LIMITATIONS:
            return Reach.SECTION
        subject = _SUBJECT.search(self.words.quote)
        if subject is None:
            return Reach.PAGE
        noun = subject["noun"].lower()
        if noun in _OF_DOCUMENT:
            return Reach.DOCUMENT
        if noun in _OF_SECTION:
            return Reach.SECTION
        return Reach.PAGE if noun in _OF_PAGE else Reach.PASSAGE

    @property
    def of_technical_content(self) -> bool:
        """Whether they approve "the technical content" and do not say of what: a bulletin's habit."""
        return self.words.kind in (ApprovalKind.BULLETIN, ApprovalKind.DESIGNEE) and (
            _UNNAMED_CONTENT.search(self.words.quote) is not None and not self.speaks_of_this
        )

    def may_speak_of(self, kind: Type | None) -> bool:
        """False where the words name a kind of publication that this is not: "this supplement" in a manual,
        "this manual" in a bulletin."""
        if self.of_technical_content:
            return kind in _BULLETINS
        subject = _SUBJECT.search(self.words.quote)
        noun = subject["noun"].lower() if subject else ""
        if noun in _NOUNS_OF_TYPE:
            return kind is None or kind in _NOUNS_OF_TYPE[noun]
        if noun in _MANUAL_NOUNS:
            return kind not in _BULLETINS
        if noun in _BULLETIN_NOUNS:
            instructions = kind is Type.INSTRUCTIONS_FOR_CONTINUED_AIRWORTHINESS and noun == "instructions"
            return kind is None or kind in _BULLETINS or instructions
        return True

    @property
    def names_any_paper(self) -> bool:
        """Whether they say only "this document", which an attached paper says of itself too."""
        subject = _SUBJECT.search(self.words.quote)
        return subject is not None and subject["noun"].lower() in ("document", "publication")

    def within(self, passage: Passage) -> bool:
        """Whether the words stand in the passage."""
        if self.zone != "body":
            return False
        middle = self.lines[0].box
        x, y = (middle.x0 + middle.x1) / 2, (middle.top + middle.bottom) / 2
        return any(
            place.pdf_page == self.pdf_page
            and place.box.x0 - 2 <= x <= place.box.x1 + 2
            and place.box.top - 2 <= y <= place.box.bottom + 2
            for place in passage.boxes
        )


def placed_words(page: Page) -> tuple[PlacedWords, ...]:
    """Every word of approval on the page, in reading order: head, body, foot."""
    return (
        *_of_edge(page, "head", page.head),
        *_of_lines(page, "body", page.body),
        *_of_edge(page, "foot", page.foot),
    )


def _of_edge(page: Page, zone: str, lines: Sequence[Line]) -> list[PlacedWords]:
    """Words in a head or foot, read straight across; where that grants and denies nothing, column by column.

    In a foot the date can stand under the stamp, with the page number to its right.
    """
    across = _of_lines(page, zone, lines)
    if not across or any(words.words.kind.grants or words.words.kind in _TAKES_BACK for words in across):
        return across
    columns = [
        words
        for column in zone_columns(lines)
        for words in _of_lines(page, zone, [segment.as_line() for segment in column])
    ]
    return columns or across


def _of_lines(page: Page, zone: str, lines: Sequence[Line]) -> list[PlacedWords]:
    if not any(_STEMS.search(line.text) for line in lines):
        return []
    text, starts = _paragraphs(lines)
    found = []
    for words in find_approval_words(text):
        first = max(place for place, start in enumerate(starts) if start <= words.start)
        last = max(place for place, start in enumerate(starts) if start < words.end)
        taken = tuple(lines[first : last + 1])
        box: Box = taken[0].box
        for line in taken[1:]:
            box = box.union(line.box)
        evidence = printed_evidence(page, box, f"{words.kind} in {zone}", one_line(words.quote))
        found.append(PlacedWords(words, page.pdf_page, zone, taken, evidence))
    return found


def _paragraphs(lines: Sequence[Line]) -> tuple[str, list[int]]:
    """Lines as text with a blank line where white space or a heading parts paragraphs, and each line's
    place."""
    text, starts = "", []
    above: Line | None = None
    for line in lines:
        if above is not None:
            parted = (
                line.box.top - above.box.bottom > _GAP * max(above.box.height, 1.0)
                or line.box.top < above.box.top
                or bool(line.heading_level) != bool(above.heading_level)
                or _ITEM.match(line.text) is not None
            )
            text += "\n\n" if parted else "\n"
        starts.append(len(text))
        text += line.text
        above = line
    return text, starts
