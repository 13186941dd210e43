"""The shapes of the JSON of the librarian's desk and of the shop's map, for /api/openapi.json."""

import datetime
from typing import Any, Literal

from pydantic import Field

from server.routes.models import Publication, Shape, State

CauseWord = Literal[
    "check-again", "waiting", "disagree", "type", "revision", "likely", "not-numbered", "no-text"
]
KindWord = Literal["chapters", "type", "number", "title", "revision", "date", "standing", "settled", "note"]
StateWord = Literal["in force", "waits for a second person", "check again", "undone"]

Who = Field(
    "",
    examples=["R. Quill"],
    max_length=120,
    description="The person's name; it is kept with the entry. May be left out by who is signed in.",
)
Why = Field(examples=["read on the page"], max_length=500, description="The reason, in a few words.")


class CauseCount(Shape):
    cause: CauseWord
    words: str = Field(examples=["not numbered"])
    questions: int
    passages: int


class LeftOut(Shape):
    words: str = Field(examples=["title pages, contents, lists and other front matter"])
    passages: int


class Question(Shape):
    """Neighbouring passages or pages with one doubt. A decision covers all of them."""

    id: str
    cause: CauseWord
    cause_words: str
    publication: Publication | None = Field(description="null = an entry whose file is not held any more")
    first_page: int = Field(description="PDF page, 1-based")
    last_page: int
    section: str = Field(examples=["V"], description='Of a manual with its own order; "" = by page')
    passages: int
    covers: list[str] = Field(
        examples=[["16-1 Panel", "16-2 Altimeter"]], description="The headings that its passages stand under"
    )
    quote: str = Field(description="How the first passage begins")
    now: str = Field(description="What holds now, in words")
    filed: list[str] = Field(
        examples=[["34", "37"]], description="The numbers that each of its passages carries now"
    )
    suggestions: list[dict[str, Any]] = Field(description="Numbers with their evidence, best first")
    entry: int | None = Field(description="check-again and waiting: the entry it is about")


class QueueAnswer(Shape):
    library_state: State
    total: int = Field(description="Questions of the causes asked for")
    counts: list[CauseCount]
    left_out: list[LeftOut] = Field(description="What nobody is asked about, and how much of it there is")
    items: list[Question]


class Decision(Shape):
    """Either `dismiss`, or a kind and its value."""

    dismiss: bool = False
    kind: KindWord = "chapters"
    value: str = Field(
        "",
        max_length=500,
        examples=["32", "32-41;24"],
        description='Chapters parted by ";" ("" = no chapter), a type, a revision, a date as 2031-05-12',
    )
    who: str = Who
    why: str = Why


class NewEntry(Shape):
    """An entry about a place that nobody asked about."""

    publication: str = Field(examples=["5c0f2a9d31b7e844-1"], max_length=80)
    pdf_page: int = Field(ge=1)
    last_page: int | None = Field(None, ge=1, description="null = one page")
    section: str = Field("", max_length=40, description="Every passage of that own section")
    passage: str = Field("", max_length=120, description="The id of one passage; empty = all of the pages")
    kind: KindWord = "chapters"
    value: str = Field("", max_length=500)
    who: str = Who
    why: str = Why


class Undo(Shape):
    who: str = Who
    why: str = Why


class Agreement(Shape):
    who: str = Who


class Entry(Shape):
    id: int
    publication: Publication | None
    pdf_page: int
    last_page: int
    section: str
    quote: str
    box: dict[str, float] | None
    kind: KindWord
    value: str
    before: str = Field(description='What held before, in words; "" when it is not known')
    who: str
    made_at: datetime.datetime
    why: str
    state: StateWord
    reason: str
    second: str
    undone_by: str
    undone_why: str
    undo_waits: bool


class EntryList(Shape):
    library_state: State
    entries: list[Entry]


class MapLine(Shape):
    id: int
    publication: str = Field(examples=["H-14 SM"])
    first: str = Field(examples=["V"])
    last: str = Field(examples=["V"])
    chapters: list[str] = Field(examples=[["32"]])
    who: str
    made_at: datetime.datetime
    why: str


class NewMapLine(Shape):
    publication: str = Field(
        max_length=200,
        description="The number, title, model and title, file name or id of a manual held here",
    )
    first: str = Field(examples=["5-12"], max_length=40)
    last: str = Field("", max_length=40, description="empty = the first alone")
    chapters: str = Field(examples=["32", "32;32-41"], max_length=200)
    who: str = Who
    why: str = Why


class MapCsv(Shape):
    csv: str = Field(description="Columns: publication, first, last, chapters, who, date, why")
    who: str = Who


class Imported(Shape):
    added: int
    already: int = Field(description="Lines that say what the map says already")
    not_held: list[str] = Field(description="Manuals named in lines added that are not held yet")


class WorkedOut(Shape):
    chapter: str
    passages: int
    confidence: float


class Filed(Shape):
    chapter: str
    passages: int


class Section(Shape):
    number: str = Field(examples=["V"])
    title: str
    first_page: int
    last_page: int
    passages: int
    not_numbered: int
    worked_out: list[WorkedOut]
    filed: list[Filed]
    mapped: list[MapLine]


class SectionList(Shape):
    publication: Publication
    map_name: str = Field(description="What a line of the map calls it")
    sections: list[Section]
    lines: list[MapLine]
