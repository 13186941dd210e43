"""What a tablet said to the librarian's desk: a tag is wrong."""

import datetime
from dataclasses import dataclass
from enum import StrEnum


class ReportedTag(StrEnum):
    """Which tag is meant."""

    CHAPTER = "chapter"
    TYPE = "type"
    STANDING = "standing"
    REVISION = "revision"
    APPLIES = "applies"
    TEXT = "text"
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class TagReport:
    """passage_id  "" = the whole page; pdf_page 1-based; who  "" = not said; settled_at  None = open. UTC."""

    id: int
    publication_id: str
    pdf_page: int
    passage_id: str
    quote: str
    tag: ReportedTag
    said: str
    who: str
    at: datetime.datetime
    settled_at: datetime.datetime | None = None
    settled_by: str = ""
    settled_why: str = ""
