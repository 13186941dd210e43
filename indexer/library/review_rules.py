"""Doubts about single passages and pages -> questions for the librarian, the most useful first. Pure.

Neighbours with one doubt are one question, so that one decision covers them. A question is worth more the
more passages it covers, the more the publication is worked from, and the surer the suggestion is:

    usefulness = type of publication x cause x square root of passages x (1 + sure) / 2

Entries of the shop that wait for somebody come before all others. Passages that no chapter fits (front
matter, contents, rules, circulars) are not asked about; they are counted and can be listed.
"""

import hashlib
import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from math import sqrt

from indexer.library.records import ReviewCause
from indexer.trade.publication_types import PublicationType as Type

_OF_PASSAGES = (ReviewCause.LIKELY_ONLY, ReviewCause.NOT_NUMBERED)
_ONE_READING = 0.8  # of a section's worked-out chapters, for the section to be asked about as a whole
_PAGES_OF_A_LETTER = 6
_MOSTLY_READ = 0.5  # of a section's passages, for its reading to speak for all of it

# Common practice, no source: what a mechanic works from, what may bind him, what he looks up now and then.
_TYPE_WEIGHTS = {
    Type.AIRWORTHINESS_DIRECTIVE: 1.0,
    Type.MAINTENANCE_MANUAL: 1.0,
    Type.SERVICE_MANUAL: 1.0,
    Type.INSTRUCTIONS_FOR_CONTINUED_AIRWORTHINESS: 1.0,
    Type.AIRWORTHINESS_LIMITATIONS: 1.0,
    Type.COMPONENT_MAINTENANCE_MANUAL: 1.0,
    Type.ENGINE_MANUAL: 1.0,
    Type.PROPELLER_MANUAL: 1.0,
    Type.STRUCTURAL_REPAIR_MANUAL: 1.0,
    Type.PARTS_CATALOG: 0.9,
    Type.WIRING_DIAGRAM_MANUAL: 0.9,
    Type.TEMPORARY_REVISION: 0.9,
    Type.SERVICE_BULLETIN: 0.8,
    Type.STANDARD_PRACTICES_MANUAL: 0.6,
    Type.SERVICE_LETTER: 0.6,
    Type.AMOC_LETTER: 0.6,
    Type.FLIGHT_MANUAL: 0.4,
    Type.FLIGHT_MANUAL_SUPPLEMENT: 0.4,
    Type.MINIMUM_EQUIPMENT_LIST: 0.4,
    Type.ADVISORY_CIRCULAR: 0.1,
    Type.REGULATION: 0.1,
    Type.ORDER_OR_HANDBOOK: 0.1,
    Type.CODE_TABLE: 0.1,
    Type.ACCIDENT_REPORT: 0.1,
    Type.RELEASE_CERTIFICATE: 0.1,
}
_OTHER_TYPE, _NO_TYPE = 0.3, 0.7
_CAUSE_WEIGHTS = {
    ReviewCause.RUNGS_DISAGREE: 1.5,  # it may stand in a wrong place now
    ReviewCause.TYPE_UNCLEAR: 1.0,  # its standing hangs on it
    ReviewCause.REVISION_UNCLEAR: 0.5,
    ReviewCause.LIKELY_ONLY: 1.0,
    ReviewCause.NOT_NUMBERED: 0.8,
    ReviewCause.NO_TEXT: 0.4,  # a decision does not make it found; reading it anew does
}
_WAITING = (ReviewCause.CHECK_AGAIN, ReviewCause.WAITING)
# Types whose pages belong to no one system: nobody is asked for a chapter of theirs.
NO_CHAPTER_FITS = frozenset(
    {
        Type.ADVISORY_CIRCULAR,
        Type.REGULATION,
        Type.ORDER_OR_HANDBOOK,
        Type.CODE_TABLE,
        Type.ACCIDENT_REPORT,
        Type.RELEASE_CERTIFICATE,
        Type.REPAIR_ALTERATION_RECORD,
    }
)
OF_NO_CHAPTER = "publications that belong to no chapter"
FRONT_MATTER = "title pages, contents, lists and other front matter"
_FRONT = re.compile(
    r"\b(?:table of contents|contents"
    r"|list of (?:effective pages|illustrations|figures|tables|revisions|chapters)"
    r"|effective pages|record of (?:temporary )?revisions|revision (?:record|summary|history)|highlights"
    r"|foreword|preface|index|title page|copyright|list of abbreviations|abbreviations|glossary"
    r"|distribution|how to use)\b",
    re.IGNORECASE,
)
_LETTERED_PAGE = re.compile(
    r"(?:[ivxl]+|(?:T|RR|RTR|HL|LEP|LOEP|TC|TOC|INTRO|INDEX)[- ]?[0-9]*)", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class Doubt:
    """Neighbouring passages, or pages, or a publication, that the machine is unsure of in one way.

    first, last  ordinals of passages in the file; of pages, their numbers
    own          the section of a manual with its own order, as printed ("V", "5"); "" = none
    reading      what the machine makes of it, in one line ("32", "32-41-00 or 32-42-00"); "" = nothing
    sure         0.0 to 1.0, the mean
    left_out     why nobody is asked about it; "" = somebody is
    settled      what dismissals of the shop say of it, as `settled_value` writes it
    """

    cause: ReviewCause
    publication_id: str
    copy_id: str
    type: Type | None
    first: int
    last: int
    pdf_page: int
    last_page: int
    passages: int
    own: str = ""
    reading: str = ""
    sure: float = 0.0
    left_out: str = ""
    settled: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Question:
    """Neighbouring doubts that one decision settles. `readings`: what the machine makes of them, best first.

    section   the own section they are all of, when nothing else stands in it; "" = by page
    """

    cause: ReviewCause
    doubts: tuple[Doubt, ...]
    readings: tuple[str, ...]
    section: str = ""
    entry_id: int | None = None

    @property
    def first(self) -> Doubt:
        return self.doubts[0]

    @property
    def last_page(self) -> int:
        return max(doubt.last_page for doubt in self.doubts)

    @property
    def passages(self) -> int:
        return sum(doubt.passages for doubt in self.doubts)

    @property
    def id(self) -> str:
        """Stays the same while the doubt stays: of the copy, the cause and the place."""
        place = (self.cause.name, self.first.first, self.first.pdf_page, self.section, self.entry_id)
        return f"{self.first.copy_id}-{hashlib.sha1(repr(place).encode()).hexdigest()[:10]}"

    @property
    def sure(self) -> float:
        if not self.readings:
            return 0.0
        best = (doubt.sure * doubt.passages for doubt in self.doubts if doubt.reading == self.readings[0])
        return sum(best) / self.passages

    @property
    def settled_as(self) -> str:
        return settled_value(self.cause, self.readings[0] if self.readings else "")

    @property
    def is_settled(self) -> bool:
        return all(self.settled_as in doubt.settled for doubt in self.doubts)


def settled_value(cause: ReviewCause, reading: str) -> str:
    """What a dismissal says was dismissed. Another reading later is another doubt, and is asked anew."""
    return f"{cause.value}: {reading}" if reading else cause.value


def usefulness(question: Question) -> float:
    kind = question.first.type
    of_type = _NO_TYPE if kind is None else _TYPE_WEIGHTS.get(kind, _OTHER_TYPE)
    of_cause = _CAUSE_WEIGHTS.get(question.cause, 1.0)
    return of_type * of_cause * sqrt(question.passages) * (1 + question.sure) / 2


def in_order(questions: Iterable[Question]) -> list[Question]:
    """The most useful first; the order does not depend on the order they come in."""

    def rank(question: Question) -> tuple:
        waiting = question.cause not in _WAITING
        return (waiting, -round(usefulness(question), 9), question.first.publication_id, question.id)

    return sorted(questions, key=rank)


def left_out_as(kind: Type | None, pages: int, on_first: bool, headings: str, printed_page: str) -> str:
    """Why nobody is asked about a passage without a number; "" = somebody is.

    pages     of its publication; on_first = it stands on the first of them
    headings  it stands under, in any form that holds their words
    """
    if kind in NO_CHAPTER_FITS:
        return OF_NO_CHAPTER
    if on_first and is_book(pages):
        return FRONT_MATTER
    if _FRONT.search(headings) or _LETTERED_PAGE.fullmatch(printed_page.strip()):
        return FRONT_MATTER
    return ""


def is_book(pages: int) -> bool:
    """Whether a publication has a title page and parts, and is no letter about one thing."""
    return pages > _PAGES_OF_A_LETTER


def questions(doubts: Iterable[Doubt], section_sizes: Mapping[tuple[str, str], int]) -> list[Question]:
    """Doubts, in order of publication and place, as questions.

    section_sizes   (publication id, own section) -> how many passages stand in it, doubtful or not
    """
    found = []
    for publication_id, group in groupby(doubts, key=lambda doubt: doubt.publication_id):
        rest = list(group)
        for section, members in _by_section(rest).items():
            whole = section_sizes.get((publication_id, section)) == sum(each.passages for each in members)
            if whole and (question := _of_section(section, members)):
                found.append(question)
                rest = [doubt for doubt in rest if doubt.own != section or doubt.cause not in _OF_PASSAGES]
        found += [Question(each.cause, (each,), (each.reading,) if each.reading else ()) for each in rest]
    return found


def _by_section(doubts: Sequence[Doubt]) -> dict[str, list[Doubt]]:
    sections: dict[str, list[Doubt]] = {}
    for doubt in doubts:
        if doubt.own and doubt.cause in _OF_PASSAGES:
            sections.setdefault(doubt.own, []).append(doubt)
    return sections


def _of_section(section: str, members: Sequence[Doubt]) -> Question | None:
    """The section as one question, where one reading speaks for it or none does; None when it is mixed."""
    counted: Counter[str] = Counter()
    for doubt in members:
        if doubt.reading:
            counted[doubt.reading] += doubt.passages
    read = counted.total()
    if not read:
        return Question(ReviewCause.NOT_NUMBERED, tuple(members), (), section)
    readings = tuple(sorted(counted, key=lambda reading: (-counted[reading], reading)))
    all_of_it = sum(doubt.passages for doubt in members)
    if counted[readings[0]] < _ONE_READING * read or read < _MOSTLY_READ * all_of_it:
        return None
    return Question(ReviewCause.LIKELY_ONLY, tuple(members), readings, section)
