"""The shapes of the JSON about reports that a tag is wrong, for /api/openapi.json."""

import datetime
from typing import Any

from pydantic import BaseModel, ConfigDict, Field

from indexer.library.report_records import ReportedTag
from indexer.library.tag_reports import MOST_SAID, MOST_WHO


class NewReport(BaseModel):
    """What is wrong with a tag of a page."""

    model_config = ConfigDict(extra="forbid")
    publication: str = Field(max_length=80)
    pdf_page: int = Field(ge=1, description="1-based.")
    passage: str = Field("", max_length=120, description='"" = the whole page.')
    tag: ReportedTag
    said: str = Field(min_length=1, max_length=MOST_SAID)
    who: str = Field("", max_length=MOST_WHO, description="Need not be said.")


class Settlement(BaseModel):
    """A person's answer to a report."""

    model_config = ConfigDict(extra="forbid")
    who: str = ""
    why: str = Field(max_length=500)


class Report(BaseModel):
    report: int
    publication: str
    name: str = Field(description='"" when the publication is not in the library any more.')
    pdf_page: int
    passage: str | None
    quote: str
    tag: ReportedTag
    tag_words: str
    said: str
    who: str
    at: datetime.datetime
    settled_at: datetime.datetime | None
    settled_by: str
    settled_why: str


class ReportList(BaseModel):
    library_state: dict[str, Any]
    open: list[Report]
    settled: list[Report]
