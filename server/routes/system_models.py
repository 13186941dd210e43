"""The shapes of the JSON answers about systems, for /api/openapi.json.

The answers themselves are built in server/system_fields.py; the tests hold each of them to its model.
"""

import datetime
from typing import Literal

from pydantic import Field

from server.routes.models import (
    AircraftInHand,
    Applies,
    Current,
    Evidence,
    OcrOwed,
    Publication,
    Relation,
    SchemeWord,
    Shape,
    Standing,
    State,
)

HowWord = Literal["printed", "shop entry", "mapped", "likely", "possible", "referred to", "tied"]
PartWord = Literal["on the system", "may concern it"]


class SystemNumber(Shape):
    text: str = Field(examples=["32-41"])
    scheme: SchemeWord


class SystemMeaning(Shape):
    """One system that the question can mean."""

    number: SystemNumber
    asked_as: str = Field(examples=["JASC 3245"], description="Ask with this to get it and nothing else.")
    title: str = Field(examples=["Landing gear"])
    reason: str


class DatedPublication(Publication):
    date: datetime.date | None


class LinePage(Shape):
    pdf_page: int = Field(description="1-based, as a viewer counts.")
    printed_page: str


class LinePassage(Shape):
    passage: str
    pdf_page: int
    heading: str


class SystemMention(Shape):
    """A reference from or to the pages of a line."""

    words: str = Field(examples=["SB 32-0099"], description="As printed.")
    kind: str
    state: str = Field(examples=["resolved", "refers to a document not in this library"])
    publication: str | None = Field(description="Id at the other end; null when it is not held here.")
    pdf_page: int | None = Field(description="At the other end; null = the whole publication.")
    here: int | None = Field(description="The page of this line that is referred to.")
    reason: str
    read_by_ocr: bool = Field(description="Whether the words of the reference were.")


class SystemLine(Shape):
    """One publication and one run of its pages."""

    publication: DatedPublication
    page_block: str | None
    how: HowWord = Field(description="How we know that it is on the system.")
    how_words: str
    number: SystemNumber | None = Field(
        description="Filed under; another system where the line only refers to this one. null = not numbered."
    )
    own_section: str | None = Field(description="Section of a manual with its own order: cite this.")
    subject: str
    headings: list[str]
    pages: list[LinePage]
    evidence: Evidence | None
    also_read_as: list[SystemNumber] = Field(description="What readings that disagree would file it under.")
    standings: list[Standing] = Field(description="More than one = not the same over these pages.")
    currency: list[str]
    current: Current
    applies: Applies | None = Field(description="null when no aircraft was named.")
    ties: list[Relation]
    refers_to: list[SystemMention]
    referred_from: list[SystemMention]
    passages: list[LinePassage]
    read_by_ocr: bool = Field(description="Whether any of its passages was.")
    doubtful: list[str] = Field(description="What OCR was not certain of and somebody may act on.")
    cannot_tell: str | None
    why_here: str = Field(description="Why a line filed more widely than asked is listed.")
    holds_words: int | None = Field(description="Passages with the words asked for; null for a number.")


class SystemCounts(Shape):
    """A passage is counted once, under the surest way it is known; each table adds up to `passages`."""

    lines: int
    publications: int
    passages: int
    by_how: dict[str, int]
    by_group: dict[str, int]


class SystemGroup(Shape):
    """Groups come in the order a technician needs: directives first."""

    group: str = Field(examples=["directives"])
    title: str
    passages: int
    lines: list[SystemLine]


class SystemPart(Shape):
    part: PartWord
    counts: SystemCounts
    groups: list[SystemGroup]


class NamedBy(Shape):
    publication: Publication
    pdf_page: int | None


class NotInLibrary(Shape):
    kind: Literal["document", "rule", "place"]
    key: str = Field(description="The same for every way of writing one document's number.")
    document: str
    revision: str = Field(description='The revision named; "" when none is.')
    state: str
    reason: str
    named_by: list[NamedBy]


class CountedPublication(Shape):
    publication: Publication
    count: int


class NotListed(Shape):
    """Passages or pages of the whole library that stand in no listing, for one reason."""

    cause: str = Field(examples=["own-section", "no-number", "no text"])
    words: str
    unit: Literal["passage", "page"]
    total: int
    publications: list[CountedPublication]


class SystemWords(Shape):
    """Passages of the whole library that hold the words asked for."""

    words: str
    also_looked_for: list[str] = Field(examples=[["cylinder assembly"]])
    total: int
    listed: int
    elsewhere: int
    not_numbered: int


class SystemAnswer(Shape):
    asked: str
    library_state: State
    aircraft: AircraftInHand | None
    hidden_not_applying: int | None = Field(
        description="Passages left out of the listing; null = nothing was to be hidden."
    )
    taken: SystemMeaning
    could_mean: list[SystemMeaning] = Field(description="Other systems the question can mean.")
    no_systems: list[str] = Field(
        examples=[["temporary revision"]],
        description="Meanings of an abbreviation that are no system: words to search for.",
    )
    left_out: list[str] = Field(
        examples=[["on this aircraft"]], description="Words that only frame the question and were left out."
    )
    warnings: list[str]
    parts: list[SystemPart]
    elsewhere_in_chapter: dict[str, int] = Field(description="Passages filed in other parts of the chapter.")
    words: SystemWords | None
    not_in_library: list[NotInLibrary]
    not_listed: list[NotListed]
    ocr: OcrOwed
    files_refused: int
    look_for: str = Field(description="Words to search for among what has no number.")
    cautions: list[str]


class HeldSystem(Shape):
    number: SystemNumber
    asked_as: str
    title: str
    passages: int


class SystemList(Shape):
    library_state: State
    systems: list[HeldSystem]
    not_listed: list[NotListed]
