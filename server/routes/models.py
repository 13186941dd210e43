"""The shapes of the JSON answers, for /api/openapi.json.

The answers themselves are built in search.py and shelf.py; the tests hold each of them to its model.
"""

import datetime
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field

StandingWord = Literal["approved", "acceptable", "information", "blocked", "undetermined"]
BasisWord = Literal[
    "printed", "document properties", "outline", "type rule", "linked directive", "shop entry", "inferred"
]
OriginWord = Literal["digital", "ocr", "hidden ocr layer"]
SchemeWord = Literal["ATA", "JASC", "SNS", "OWN"]


class Shape(BaseModel):
    model_config = ConfigDict(extra="forbid")


class Problem(Shape):
    slug: str = Field(examples=["unknown-chapter"])
    what: str = Field(examples=["«99x» is not a chapter number."])
    remedy: str = Field(examples=["Write a chapter as 32, or a chapter and section as 32-41."])


class ProblemAnswer(Shape):
    """Every failure has this shape."""

    error: Problem


class State(Shape):
    library: str | None = Field(
        None, examples=["5c0f2a9d31b7e844"], description="Which library answers: a random name, given once."
    )
    mark: str | None = Field(
        None, description="Library, generation, last change and day in one word: another = ask anew."
    )
    generation: int = Field(examples=[12], description="Grows with every change of the library.")
    changed_at: datetime.datetime
    publications: int = Field(examples=[16])
    shown_at: datetime.datetime
    up_to_date: bool = Field(description="False while an ingest is at work.")
    day: datetime.date | None = Field(
        None, description="The day that the answer is given for, where none was asked for."
    )
    demonstration: str | None = Field(
        None, description="That the library is the demonstration; null = it is not."
    )


class Publication(Shape):
    id: str = Field(examples=["5c0f2a9d31b7e844-1"])
    number: str | None = Field(examples=["SB 32-0012"])
    type: str | None = Field(examples=["service-bulletin"], description="null = cannot tell")
    title: str | None = Field(examples=["Brake lining inspection"])
    revision: str | None = Field(examples=["2"])
    entered: list[Literal["type", "number", "title", "revision", "date"]] = Field(
        description="What of it the shop entered."
    )
    file: str = Field(examples=["sb-32-0012.pdf"])


class Number(Shape):
    text: str = Field(examples=["32-41-05"])
    scheme: SchemeWord
    basis: BasisWord


class Standing(Shape):
    value: StandingWord = Field(description="What words quoted in scope make of the passage; never a guess.")
    usual: StandingWord = Field(description="What this type of publication usually is: not a finding.")
    basis: BasisWord | None
    quote: str = Field(examples=["FAA APPROVED 12 May 2031"])
    pdf_page: int | None = Field(description="Where the quote stands; 1-based.")
    conditions: list[str] = Field(description="What must also be true before the value may be used.")


class Applies(Shape):
    """Whether it reaches the aircraft that was named. "Does not apply" rests on quoted words."""

    answer: Literal["applies", "does not apply", "cannot tell"]
    why: str
    quote: str = Field(examples=["serial numbers QZ-001 through QZ-188, except QZ-151"])


class AircraftInHand(Shape):
    """The aircraft that an answer was marked for, as the fleet list had it."""

    registration: str = Field(examples=["QX-1AB"])
    model: str = Field(examples=["QZ62"])
    serial: str | None = Field(examples=["QZ-077"], description="Of the airframe; null = not known.")
    confirmed_on: datetime.date | None = Field(description="null = never confirmed")
    confirmed_by: str


class Current(Shape):
    state: str = Field(examples=["current as checked", "superseded", "the check has expired", "unknown"])
    why: str = Field(examples=["Nobody has checked which revision is current."])


class HowRead(Shape):
    """How the text was read: born digital, or by OCR from its picture."""

    origin: OriginWord
    read_by_ocr: bool
    doubtful: list[str] = Field(
        examples=[["175", "68-3204"]], description="What OCR was not certain of and somebody may act on."
    )
    cannot_tell: str | None = Field(
        examples=["Cannot tell: read the page. OCR was not certain of: 175, 68-3204."],
        description="null = OCR was certain, or read nothing here.",
    )


class Misread(Shape):
    """What OCR may have made of a word that was asked for."""

    read: str = Field(examples=["t0rque"], description="As it stands in the text.")
    word: str = Field(examples=["torque"])


class Hit(HowRead):
    passage: str = Field(examples=["5c0f2a9d31b7e844-1-37"])
    publication: Publication
    pdf_page: int = Field(examples=[37], description="1-based, as a viewer counts.")
    printed_page: str = Field(examples=["401"], description="As printed; empty when none was found.")
    number: Number | None
    page_block: str | None = Field(examples=["Removal/installation"])
    standing: Standing
    currency: list[str] = Field(examples=[["Superseded by AD 2031-04-07."]])
    current: Current
    applies: Applies | None = Field(description="null when no aircraft was named.")
    heading: str
    snippet: str = Field(examples=["Remove the brake lining and examine it for wear."])
    marks: list[tuple[int, int]] = Field(examples=[[[11, 16]]], description="Ranges in the snippet.")
    misread: list["Misread"] = Field(description="Readings of OCR by which it was found.")
    score: float


class Group(Shape):
    chapter: str | None = Field(examples=["32"], description="null = without a chapter number")
    title: str = Field(examples=["Landing gear"])
    count: int = Field(description="All hits of the chapter, also those not handed out.")
    hits: list[Hit] = Field(
        description="Those that are superseded, blocked or do not apply stand after the others."
    )


class NotSearched(Shape):
    pages_without_text: int
    passages_not_numbered: int


class OcrOwed(Shape):
    """What OCR still owes of the pages that an answer is about."""

    pages_not_read: int = Field(description="Scanned pages that no search finds yet.")
    pages_not_read_in_library: int
    pages_not_in_place: int = Field(description="Of those not read: read, while their file awaits its place.")
    pages_could_not_be_read: int = Field(description="OCR tried and could not read them.")
    running: bool = Field(description="They are being read now.")
    seconds_left: float | None = Field(description="At the present speed; null = not known.")
    words: str = Field(examples=["1,204 pages not yet read."])


class Counts(Shape):
    """Over all hits. Chapter "" = passages without a number, type "" = those of no known type."""

    chapter: dict[str, int]
    type: dict[str, int]
    standing: dict[str, int]


class AlsoLooked(Shape):
    """Other words that were looked for beside some of those typed."""

    words: list[str] = Field(examples=[["jug"]])
    others: list[str] = Field(examples=[["cylinder assembly"]])
    source: Literal["shop list", "thesaurus", "word form", "misread by OCR"]


class CouldMean(Shape):
    """An abbreviation that means several things."""

    word: str = Field(examples=["TR"])
    meanings: list[str] = Field(examples=[["temporary revision", "thrust reverser"]])
    taken: str | None = Field(description="null = not told apart; all meanings were looked for.")
    why: str = Field(examples=["a number follows it"])


class OtherWay(Shape):
    """Another way to read a number, and the question that asks for it."""

    as_: str = Field(alias="as", examples=["JASC code 3241 (brake anti-skid section)"])
    query: str = Field(examples=["JASC 3241"])
    as_typed: bool = Field(description="Whether to ask it with as_typed.")


class NumberTaken(Shape):
    """What a number was taken for, where it is read otherwise than it stands or could be."""

    text: str = Field(examples=["3241"])
    as_: str = Field(alias="as", examples=["ATA 32-41"])
    why: str
    other: list[OtherWay]


class Slip(Shape):
    """A word that stands nowhere in the library, and the library's word looked for instead."""

    typed: str = Field(examples=["caliber"])
    looked_for: str = Field(examples=["caliper"])
    others: list[str]


class SystemNamed(Shape):
    """A system that the question names, by number or in words."""

    number: str = Field(examples=["32-40"])
    title: str = Field(examples=["Landing gear: brake system"])
    why: str
    listing: str = Field(
        examples=["/system/32-40"], description="Everything that touches it; as JSON with /api before it."
    )


class SearchAnswer(Shape):
    query: str = Field(examples=["brake lining"])
    library_state: State
    total: int
    aircraft: AircraftInHand | None
    hidden_not_applying: int | None = Field(
        description="Passages found and left out of all counts; null = nothing was to be hidden."
    )
    left_out_not_current: int | None = Field(
        description="Passages found that are not current and were left out; null = they were not to be."
    )
    any_word: bool = Field(
        description="True when nothing or hardly anything holds all the words and any of them was enough."
    )
    with_all_words: int = Field(description="Of the hits, how many hold all the words. They stand first.")
    as_typed: bool = Field(description="True when nothing was looked for but what was typed.")
    with_misreadings: bool = Field(
        description="Whether what OCR may have made of the words was looked for too."
    )
    misreadings: list[Misread]
    also_looked_for: list[AlsoLooked]
    could_mean: list[CouldMean]
    number_taken: list[NumberTaken]
    slips: list[Slip]
    left_out: list[str] = Field(
        examples=[["on this aircraft"]], description="Words that only frame the question and were left out."
    )
    systems: list[SystemNamed]
    not_searched: NotSearched
    ocr: OcrOwed
    groups: list[Group]
    counts: Counts


class ScorePart(Shape):
    name: str = Field(examples=["cylinder assembly, looked for with jug"])
    score: float = Field(description="The parts add up to the score.")
    percent: int


class PublicationSummary(Publication):
    date: datetime.date | None
    usual_standing: StandingWord
    first_page: int
    last_page: int
    passages: int
    passages_not_numbered: int
    pages_not_read: int = Field(description="Scanned pages that no search finds yet.")
    pages_could_not_be_read: int = Field(description="OCR tried and could not read them.")
    currency: list[str]
    current: Current


class PublicationList(Shape):
    library_state: State
    ocr: OcrOwed
    total: int
    publications: list[PublicationSummary]


class Box(Shape):
    """Points (1/72 inch), origin at the page's top left, y downward."""

    x0: float
    top: float
    x1: float
    bottom: float


class PageBox(Box):
    pdf_page: int


class Evidence(Shape):
    basis: BasisWord
    rule: str
    quote: str
    pdf_page: int | None
    box: Box | None
    source: str
    origin: OriginWord
    confidence: float | None


class Tag(Shape):
    value: Any
    evidence: Evidence
    others: list["Tag"] = Field(description="Readings that disagree, best first.")


class Identity(Shape):
    type: Tag | None
    number: Tag | None
    title: Tag | None
    maker: Tag | None
    models: list[Tag]
    revision: Tag | None
    date: Tag | None


class Directive(Shape):
    number: Tag | None
    amendment: Tag | None
    effective: Tag | None
    subjects: list[Tag]
    applicability: Tag | None
    is_rule: bool


class Bulletin(Shape):
    compliance: Tag | None
    approval: Tag | None
    affected: Tag | None


class NotHeld(Shape):
    """What it says of a document, revision or page that is not held here or cannot be told apart."""

    kind: str
    document: str
    revision: str
    reason: str
    evidence: Evidence


class Relation(Shape):
    """How this publication stands to another one held here."""

    kind: str = Field(examples=["superseded by a directive"])
    publication: str = Field(description="Id of the other publication.")
    words: str = Field(examples=["Superseded by AD 2031-04-07."])
    evidence: Evidence | None


class ChapterCount(Shape):
    chapter: str | None
    title: str
    count: int


class PageLine(Shape):
    pdf_page: int
    printed_page: str
    state: str


class ListedPageFinding(Shape):
    state: str = Field(examples=["another date than listed"])
    number: str | None
    printed_page: str
    pdf_page: int | None = Field(description="1-based; null when the page is not in the file.")
    why: str
    line: Evidence | None = Field(description="The line of the list.")
    page: Evidence | None = Field(description="The date that the page prints.")


class ListCheck(Shape):
    """The list of effective pages held against the pages."""

    listed: int
    date: datetime.date | None
    whole: bool = Field(description="False for the chart of a change, which lists only the pages it puts in.")
    complete: bool
    notes: list[str]
    counts: dict[str, int]
    pages: list[ListedPageFinding] = Field(description="All but those that are as listed.")


class PublicationAnswer(PublicationSummary):
    library_state: State
    ocr: OcrOwed
    aircraft: AircraftInHand | None
    applies: Applies | None = Field(description="null when no aircraft was named.")
    tags: Identity
    directive: Directive | None
    bulletin: Bulletin | None
    list_check: ListCheck | None = Field(description="null when no list of effective pages was read.")
    relations: list[Relation]
    not_held: list[NotHeld]
    chapters: list[ChapterCount]
    pages: list[PageLine]


class NumberWithOthers(Number):
    others: list[Any]


class LongStanding(Standing):
    scope: str
    mandatory: bool


class TagEvidence(Shape):
    numbers: list[Evidence]
    page_block: Evidence | None
    standing: Evidence | None


class TaggedPassage(HowRead):
    passage: str
    publication: Publication
    pdf_page: int
    printed_page: str
    number: Number | None
    numbers: list[NumberWithOthers]
    page_block: str | None
    standing: LongStanding
    heading: str
    kind: str
    text: str
    evidence: TagEvidence


class WhyAnswer(Shape):
    """Why a passage is among the hits of a search, and why there."""

    query: str
    library_state: State
    passage: str
    publication: Publication
    pdf_page: int
    is_hit: bool = Field(
        description="False when the passage does not hold what was asked for; no parts then."
    )
    any_word: bool
    score: float
    parts: list[ScorePart]
    number: Number | None
    how_known: Evidence | None = Field(description="How the number it is filed under is known.")


class PageSize(Shape):
    pdf_page: int
    width: float
    height: float


class PassageAnswer(TaggedPassage):
    library_state: State
    currency: list[str]
    current: Current
    boxes: list[PageBox]
    pages: list[PageSize] = Field(description="Sizes in points of the pages that the boxes lie on.")


class PassageOnPage(TaggedPassage):
    applies: Applies | None = Field(description="null when no aircraft was named.")
    hit: bool = Field(description="Whether the words asked for stand in it.")
    boxes: list[PageBox]


class Override(Shape):
    """A page of a temporary revision that is read before this one."""

    publication: str
    pdf_page: int
    state: str
    words: str
    evidence: Evidence


class ReferenceTarget(Shape):
    publication: str
    pdf_page: int | None = Field(description="null = the whole publication is meant.")
    passage: str | None


class RefersTo(Shape):
    """What a passage on this page refers to, as printed, and where that leads among what is held."""

    passage: str
    text: str
    kind: str
    state: str
    reason: str
    read_by_ocr: bool = Field(description="Whether the words of the reference were.")
    targets: list[ReferenceTarget]


class ReferredToFrom(Shape):
    """A passage that refers to this page."""

    publication: str
    pdf_page: int
    passage: str
    text: str
    kind: str
    state: str
    read_by_ocr: bool


class PageAnswer(Shape):
    library_state: State
    publication: Publication
    pdf_page: int
    printed_page: str
    width: float
    height: float
    state: str
    problem: str
    currency: list[str]
    current: Current
    aircraft: AircraftInHand | None
    applies: Applies | None = Field(description="Of the whole page; null when no aircraft was named.")
    overridden_by: list[Override]
    refers_to: list[RefersTo]
    referred_to_from: list[ReferredToFrom]
    words: list[Box] = Field(description="Where the words asked for stand on the page.")
    origin: OriginWord
    read_by_ocr: bool
    not_read: str | None = Field(
        examples=["This page is a scan that has not been read yet, and search cannot find it."],
        description="In words, that OCR owes it; null = it does not.",
    )
    doubtful_words: list[Box] = Field(description="Where words stand that OCR was not certain of.")
    passages: list[PassageOnPage]


class NotSearchedPage(Shape):
    publication: Publication
    pdf_page: int
    printed_page: str
    state: str
    problem: str


class RefusedFile(Shape):
    path: str
    slug: str
    what: str
    remedy: str
    refused_at: datetime.datetime


class Shelved(Shape):
    id: str
    name: str = Field(examples=["SB 32-0012: Brake tie bolts"])
    kind: str = Field(examples=["Service bulletin, revision 2, 4 March 2031"])
    file: str


class OwingPublication(Shape):
    publication: Publication
    pages_not_read: int
    pages_not_in_place: int
    pages_could_not_be_read: int


class OcrStatus(OcrOwed):
    not_in_place: list[str] = Field(description="Why files could not be put in place, and what to do.")
    publications: list[OwingPublication]


class StatusAnswer(Shape):
    library_state: State
    ocr: OcrStatus
    folder: str
    copies: int
    replaced_copies: int
    publications: int
    shelf: list[Shelved]
    publications_by_type: dict[str, int]
    pages: int
    pages_by_state: dict[str, int]
    pages_without_text: int
    not_searched: list[NotSearchedPage]
    passages: int
    passages_not_numbered: int
    unresolved_claims: int
    copies_read_by_older_rules: int
    index_generation: int | None
    refused: list[RefusedFile]
