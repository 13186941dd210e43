"""The shapes of the JSON answers about parts lists, for /api/openapi.json."""

import datetime
from typing import Literal

from pydantic import Field

from server.routes.models import AircraftInHand, Box, Current, PageBox, Shape, State

AnswerWord = Literal["applies", "does not apply", "cannot tell"]
MatchWord = (
    Literal["exact", "normalised", "loose", "named", "figure and item"]
    | Literal["words", "other words", "assembly words"]
)


class PartsPublication(Shape):
    """The publication of a row, and what speaks here against its being current."""

    id: str
    name: str
    number: str
    revision: str
    date: datetime.date | None
    type: str | None
    kind: str = Field(examples=["Illustrated parts catalog, revision 4, 1 May 2031"])
    superseded: bool = Field(description="By something held or the register. False never means current.")
    currency: list[str]
    current: Current
    address: str


class FigureShort(Shape):
    id: str
    figure: str = Field(examples=["14"], description="As printed.")
    number: str = Field(
        examples=["32-42-00"], description="Chapter-section-subject of its pages; empty = none."
    )
    title: str
    place: str = Field(examples=["32-42-00 figure 14"], description="The figure with its chapter number.")
    address: str = Field(description="Its page; with /api before it, the same as JSON.")


class Usage(Shape):
    code: str
    words: str = Field(description="What the list says that it means; empty = not found.")


class Note(Shape):
    """What the words beside a part say of it: from the row's part to `number`."""

    kind: str = Field(examples=["superseded by"])
    words: str = Field(examples=["SUPSD BY QZ28-2210-3"], description="As printed.")
    number: str = Field(description="The part, figure or bulletin named; empty = none.")


class RowApplies(Shape):
    """Whether the row applies to the aircraft; "cannot tell" is not "no"."""

    answer: AnswerWord
    words: str = Field(examples=["Applies to QX-1AB:"])
    why: str
    quote: str


class Row(Shape):
    """One row of a parts list. Cells are as printed; empty = empty or not read, which `flags` then say."""

    id: str
    address: str
    publication: PartsPublication
    figure: FigureShort
    item: str = Field(examples=["15A"])
    place: str = Field(examples=["32-42-00 figure 1, item 15A"])
    illustrated: bool
    part_number: str
    nomenclature: str
    indenture: int | None = Field(description="Dots: 0 = an assembly of the figure; null = not read.")
    units: str = Field(examples=["2", "A/R", "REF"], description="Per next higher assembly.")
    stock_number: str
    usage: list[Usage]
    effectivity: str
    supplier: str = Field(description="Code after V; empty = none printed, or not read.")
    attaching: bool
    notes: list[Note]
    flags: list[str] = Field(description="What of it could not be read.")
    origin: Literal["digital", "ocr", "hidden ocr layer"]
    read_by_ocr: bool
    confidence_words: str
    quote: str
    pdf_page: int
    printed_page: str
    page_address: str
    applies: RowApplies | None = Field(description="null = no aircraft was named.")
    why: str = Field(description="Why it is in its group; empty = it says so itself.")


class Group(Shape):
    match: MatchWord
    label: str
    count: int = Field(description="Of all rows of the group; `rows` holds the first.")
    rows: list[Row]


class Choice(PartsPublication):
    """A publication that has the figure asked for."""

    rows: int


class Asked(Shape):
    q: str
    kind: Literal["number", "words", "figure and item"]
    catalogue: str
    figure: str
    item: str
    aircraft: str
    said: list[str] = Field(description="How the question was understood, and close numbers that are others.")
    choices: list[Choice]


class IndexLine(Shape):
    """A line of a number index for which no row was read."""

    match: Literal["exact", "normalised", "loose"]
    publication: PartsPublication
    part_number: str
    figure_item: str
    quantity: str
    stock_number: str
    origin: str
    read_by_ocr: bool
    pdf_page: int
    printed_page: str
    box: Box
    page_address: str
    words: str


class NotRead(Shape):
    """What no search of the parts lists can find."""

    pages: int
    rows: int
    words: str


class NamedPassage(Shape):
    """A passage of a publication, other than a parts list, that prints the part number."""

    publication: PartsPublication
    short: str = Field(examples=["AD 2031-07-11 (in force, effective 12 May 2031)"])
    standing: str = Field(description="Of a directive on the library's day; else superseded, or empty.")
    directive: bool = Field(description="A directive, or a letter about one.")
    in_force: bool
    paragraph: str = Field(examples=["(h)"], description="Of a directive; empty = not known.")
    quote: str
    read_by_ocr: bool
    pdf_page: int
    printed_page: str
    page_address: str


class NamedIn(Shape):
    """What else held here prints the part number: directives in force first, then other papers."""

    number: str
    directives: list[str] = Field(description="In force and naming it; empty never means that none applies.")
    words: list[str] = Field(description="To be read before the part is used.")
    passages: list[NamedPassage]
    count: int = Field(description="Of all passages; `passages` holds the first.")
    more: bool = Field(description="There may be more than were counted: search.")
    search_address: str


class PartsAnswer(Shape):
    library_state: State
    asked: Asked
    aircraft: AircraftInHand | None
    named_in: NamedIn | None = Field(description="null = no number was asked for.")
    groups: list[Group] = Field(description="The surest first; empty groups are left out.")
    index_only: list[IndexLine]
    not_read: NotRead
    cautions: list[str]


class Link(Shape):
    """What one row says of the part asked about, or of one that it leads to."""

    number: str
    words: str
    said: str
    after: str = Field(description="The number that it leads on from.")
    step: int = Field(description="1 = said of the part itself.")
    read_by_ocr: bool
    count: int = Field(description="Rows here that have the number.")
    rows: list[Row]
    from_row: Row = Field(alias="from")


class Supersession(Shape):
    """With direction: a row that says "superseded by" says nothing of the way back."""

    replaced_by: list[Link]
    replaces: list[Link]
    either_way: list[Link] = Field(description="Optional and alternate parts; the words give the direction.")
    order: list[Link]


class HeldBulletin(Shape):
    id: str
    name: str
    kind: str
    address: str


class NamedBulletin(Shape):
    mark: Literal["before the bulletin", "after the bulletin"]
    words: str
    number: str
    publications: list[HeldBulletin]
    said: str


class NamedFigures(Shape):
    kind: str
    words: str
    number: str
    figures: list[FigureShort]
    said: str


class Art(Shape):
    """A page that shows the figure, and where the item's number stands on it."""

    pdf_page: int
    page_address: str
    callouts: list[Box]


class Marks(Shape):
    list_page: int
    row: list[PageBox]
    number: Box | None
    art: list[Art]


class FleetRow(RowApplies):
    registration: str
    model: str


class AboveRow(Row):
    """An assembly above a row."""

    variants: list[Row] = Field(
        description="Its other variants (item 1 of items 1 and 1A) that the row belongs to as well."
    )


class PartAnswer(Row):
    library_state: State
    aircraft: AircraftInHand | None
    named_in: NamedIn | None = Field(description="null = the number is too short, or was not read.")
    above: list[AboveRow] = Field(description="The nearest first.")
    below: list[Row]
    attaching_parts: list[Row]
    attaches: Row | None
    attaches_also: list[Row] = Field(description="Other variants of that part which it attaches as well.")
    used_elsewhere: list[Row]
    used_elsewhere_count: int
    may_be_used_elsewhere: list[Row] = Field(description="Numbers that look alike, or were read by OCR.")
    may_be_used_elsewhere_count: int
    supersession: Supersession
    bulletins: list[NamedBulletin]
    figures: list[NamedFigures]
    marks: Marks
    fleet: list[FleetRow]
    fleet_counts: dict[str, int]
    not_read: NotRead
    cautions: list[str]


class ListPage(Shape):
    pdf_page: int
    page_address: str


class FigureAnswer(FigureShort):
    library_state: State
    aircraft: AircraftInHand | None
    publication: PartsPublication
    art: list[ListPage]
    lists: list[ListPage]
    count: int
    flagged: int
    rows: list[Row]
    not_read: NotRead
    cautions: list[str]
