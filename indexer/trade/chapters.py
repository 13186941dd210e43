"""Chapter-section-subject numbers: parse, print, order, and find in text."""

from dataclasses import dataclass
from enum import StrEnum


class Scheme(StrEnum):
    """Which numbering a number belongs to; the same digits mean different things in each."""

    ATA = "ATA"
    JASC = "JASC"
    SNS = "SNS"
    OWN = "OWN"


@dataclass(frozen=True, slots=True, order=True)
class ChapterNumber:
    """A system number. Parts are text of two digits ("04"), None when not given."""

    chapter: str
    section: str | None = None
    subject: str | None = None
    scheme: Scheme = Scheme.ATA
