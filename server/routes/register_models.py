"""The shapes of the JSON of the revision register and of what was effective on a day."""

import datetime

from pydantic import Field

from server.routes import models
from server.routes.list_models import Who
from server.routes.models import Shape


class CurrencyState(Shape):
    state: str = Field(examples=["current as checked"])
    why: str


class HeldRevision(Shape):
    publication: str
    name: str
    kind: str
    revision: str | None
    date: datetime.date | None


class HeldWithState(HeldRevision):
    current: CurrencyState


class RegisterCheck(Shape):
    id: int
    publication: str = Field(description="What the work was called when it was checked.")
    revision: str | None
    date: datetime.date | None
    source: str
    checked_on: datetime.date
    who: str
    recheck_days: int
    review_due: datetime.date = Field(description="The first day on which the check no longer counts.")
    note: str
    state: str = Field(examples=["stands", "overdue", "a later check stands", "taken back"])
    undone_by: str | None
    undone_why: str | None
    words: str
    held: list[HeldWithState] = Field(description="The publications of the work on the shelf.")


class Register(Shape):
    library_state: models.State
    on: datetime.date
    overdue: list[RegisterCheck]
    checks: list[RegisterCheck]
    never_checked: list[HeldRevision]


class NewCheck(Shape):
    publication: str = Field(max_length=300, description="Its id, number, title or file.")
    revision: str = Field("", max_length=60)
    date: str = Field("", max_length=10, description="Of the revision, year-month-day.")
    source: str = Field(max_length=500)
    checked_on: str = Field("", max_length=10, description="Year-month-day; empty = today.")
    who: str = Who
    recheck_days: int | None = Field(None, description="Days until the next check is due.")
    note: str = Field("", max_length=1000)


class ChecksToImport(Shape):
    csv: str = Field(
        description="Columns publication, revision, date, source, checked_on, who, recheck_days, note."
    )
    who: str = Who


class Edition(Shape):
    publication: str
    revision: str | None
    date: datetime.date | None
    file: str
    replaced: bool


class TemporaryOn(Shape):
    publication: str
    pdf_page: int
    in_force: str = Field(examples=["yes", "cannot tell"])
    words: str


class PageOn(Shape):
    number: str | None
    printed_page: str
    answer: str = Field(examples=["effective", "cannot tell"])
    why: str
    publication: str | None
    revision: str | None
    pdf_page: int | None
    date: datetime.date | None
    temporary: list[TemporaryOn]


class EffectiveAnswer(Shape):
    publication: str
    name: str
    on: datetime.date
    revision: Edition | None = Field(description="The newest held that is of that day or before it.")
    held: list[Edition]
    notes: list[str]
    counts: dict[str, int]
    pages: list[PageOn]
