"""Doubts about single passages and pages -> questions for the librarian, the most useful first. Pure.

A question covers passages with one doubt and one reading, so that one decision is right for all of them: in
a section of a manual's own order those of the whole section, elsewhere neighbours. A passage that is read as
one more chapter is a question of its own, so that no decision takes that chapter away unsaid.

What is wrong in a listing or missing from it comes before what is only to be confirmed, by steps:

    0 entries to check again, or that wait for somebody    4 pages without text
    1 readings that disagree                               5 worked out, and in part only possible
    2 type or revision not determined                      6 worked out, and likely throughout
    3 not numbered

Within a step the worth counts: type of publication x square root of passages. Front matter and publications
that no chapter fits are not asked about; they are counted and can be listed.
"""

import hashlib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from math import sqrt

from indexer.library.records import ReviewCause
from indexer.tagging.inference import LIKELY
from indexer.trade.publication_types import PublicationType as Type

_OF_PASSAGES = (ReviewCause.LIKELY_ONLY, ReviewCause.NOT_NUMBERED)

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
_STEPS = {
    ReviewCause.CHECK_AGAIN: 0,
    ReviewCause.WAITING: 0,
    ReviewCause.RUNGS_DISAGREE: 1,  # it may stand in a wrong place now
    ReviewCause.TYPE_UNCLEAR: 2,  # its standing hangs on it
    ReviewCause.REVISION_UNCLEAR: 2,
    ReviewCause.NOT_NUMBERED: 3,  # in no listing
    ReviewCause.NO_TEXT: 4,  # a decision does not make it found; reading it anew does
    ReviewCause.LIKELY_ONLY: 5,
}
_LIKELY_THROUGHOUT = 6


@dataclass(frozen=True, slots=True)
class Doubt:
    """Neighbouring passages, or pages, or a publication, that the machine is unsure of in one way.

    first, last  ordinals of passages in the file; of pages, their numbers
    own          the section of a manual with its own order, as printed ("V", "5"); "" = none
    reading      what the machine makes of it, in one line ("32", "34;37", "32-41-00 or 32-42-00");
                 "" = nothing
    sure         0.0 to 1.0, of the passage that is least sure
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
    """Doubts that one decision settles.

    reading   what the machine makes of every one of them that it makes anything of
    section   the own section they are all of, when nothing else stands in it; "" = by page
    """

    cause: ReviewCause
    doubts: tuple[Doubt, ...]
    reading: str = ""
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
        """Of the passage that is least sure; 0.0 when one has no reading."""
        return min(doubt.sure for doubt in self.doubts)

    @property
    def settled_as(self) -> str:
        return settled_value(self.cause, self.reading)

    @property
    def is_settled(self) -> bool:
        return all(self.settled_as in doubt.settled for doubt in self.doubts)


def settled_value(cause: ReviewCause, reading: str) -> str:
    """What a dismissal says was dismissed. Another reading later is another doubt, and is asked anew."""
    return f"{cause.value}: {reading}" if reading else cause.value


def step(question: Question) -> int:
    """Which questions come first, whatever they cover: 0 to 6, as the head of this file lists them."""
    if question.cause is ReviewCause.LIKELY_ONLY and question.sure >= LIKELY:
        return _LIKELY_THROUGHOUT
    return _STEPS[question.cause]


def worth(question: Question) -> float:
    """Of a question among those of its step."""
    kind = question.first.type
    of_type = _NO_TYPE if kind is None else _TYPE_WEIGHTS.get(kind, _OTHER_TYPE)
    return of_type * sqrt(question.passages)


def in_order(questions: Iterable[Question]) -> list[Question]:
    """The most useful first; the order does not depend on the order they come in."""

    def rank(question: Question) -> tuple:
        place = (question.first.publication_id, question.first.first, question.id)
        return (step(question), -round(worth(question), 9), *place)

    return sorted(questions, key=rank)


def questions(doubts: Iterable[Doubt], section_sizes: Mapping[tuple[str, str], int]) -> list[Question]:
    """Doubts, in order of publication and place, as questions.

    section_sizes   (publication id, own section) -> how many passages stand in it, doubtful or not
    """
    found = []
    for publication_id, group in groupby(doubts, key=lambda doubt: doubt.publication_id):
        sections: dict[str, list[Doubt]] = {}
        for doubt in group:
            if doubt.own and doubt.cause in _OF_PASSAGES:
                sections.setdefault(doubt.own, []).append(doubt)
            else:
                found.append(Question(doubt.cause, (doubt,), doubt.reading))
        for section, members in sections.items():
            size = section_sizes.get((publication_id, section), 0)
            found += _of_section(section, members, size == sum(each.passages for each in members))
    return found


def _of_section(section: str, members: Sequence[Doubt], is_all_of_it: bool) -> list[Question]:
    """The doubts of a section: one question where nothing in it is read otherwise, or nothing is read at all.

    A mixed section is asked by its likely readings; what is only possible there, or not read, by itself.
    """
    if is_all_of_it and not any(doubt.reading for doubt in members):
        return [Question(ReviewCause.NOT_NUMBERED, tuple(members), "", section)]
    readings = {doubt.reading for doubt in members if doubt.reading}
    if len(readings) != 1:
        by_reading: dict[str, list[Doubt]] = {}
        alone = []
        for doubt in members:
            is_likely = doubt.reading and doubt.sure >= LIKELY
            (by_reading.setdefault(doubt.reading, []) if is_likely else alone).append(doubt)
        likely = (Question(each[0].cause, tuple(each), reading) for reading, each in by_reading.items())
        return [*likely, *(Question(each.cause, (each,), each.reading) for each in alone)]
    places = [place for place, doubt in enumerate(members) if doubt.reading]
    within = members[places[0] : places[-1] + 1]  # what has no reading between those that have the same
    whole = section if is_all_of_it and len(within) == len(members) else ""
    around = (*members[: places[0]], *members[places[-1] + 1 :])
    together = Question(ReviewCause.LIKELY_ONLY, tuple(within), *readings, whole)
    return [together, *(Question(each.cause, (each,)) for each in around)]
