"""The shapes of the source check's answers, for the API's description."""

from pydantic import BaseModel, Field

from server.routes.models import State


class CheckAsked(BaseModel):
    """An entry to check."""

    text: str = Field(description="The entry, or a line of a work card.", max_length=20_000)
    aircraft: str = Field("", description="Registration of the fleet list.", max_length=40)
    work: str = Field(
        "", description="minor, major, directive or inspection; empty = not said.", max_length=20
    )
    on: str = Field("", description="The day the work was done, as 2031-03-14.", max_length=10)


class Chapter(BaseModel):
    text: str
    scheme: str


class Resolved(BaseModel):
    """The publication meant. No pages = the whole of it."""

    publication: str
    name: str
    revision: str
    pdf_pages: list[int]
    passages: list[str]


class Candidate(BaseModel):
    publication: str
    name: str
    revision: str
    why: str


class Currency(BaseModel):
    state: str
    why: str
    review_due: str | None


class Applicability(BaseModel):
    answer: str
    why: str
    quote: str


class FoundStanding(BaseModel):
    """`usual` is what the type usually has, and no finding."""

    value: str
    usual: str
    scope: str
    basis: str
    quote: str
    pdf_page: int | None
    source: str
    conditions: list[str]
    mandatory: str


class FoundDirective(BaseModel):
    number: str
    publication: str
    level: str
    status: str
    quote: str
    pdf_page: int | None
    note: str
    reaches: str
    says: str = ""  # kept checks of earlier days have none


class Enough(BaseModel):
    answer: str
    why: str


class Finding(BaseModel):
    """One source cited."""

    text: str
    start: int
    end: int
    kind: str
    type: str | None
    number: str
    revision: str
    date: str | None
    chapter_number: Chapter | None
    page: str
    figure: str
    paragraph: str
    item: str
    resolved: Resolved | None
    candidates: list[Candidate]
    current: Currency
    applies: Applicability
    standing: FoundStanding
    read_by_ocr: bool = False
    doubtful: list[str] = []
    cannot_tell: str | None = None
    directives: list[FoundDirective]
    directives_note: str
    enough: dict[str, Enough]
    ask: list[str]
    missing: list[str]
    notes: list[str]
    wording: str


class CheckAnswer(BaseModel):
    """One check as it was answered; `id` in the audit trail."""

    id: int
    at: str
    text: str
    aircraft: str
    work: str
    on: str | None
    library_state: State
    facts: list[str]
    notes: list[str]
    citations: list[Finding]
    reminders: list[str]
    cautions: list[str]


class ShortFinding(BaseModel):
    text: str
    standing: str
    current: str
    enough: dict[str, str]


class ShortCheck(BaseModel):
    id: int
    at: str
    text: str
    aircraft: str
    work: str
    generation: int
    citations: list[ShortFinding]


class CheckList(BaseModel):
    total: int
    offset: int
    checks: list[ShortCheck]


class AgainAnswer(BaseModel):
    """A kept check, today's answer to the same question, and in what they differ."""

    kept: CheckAnswer
    now: CheckAnswer
    differences: list[str]
