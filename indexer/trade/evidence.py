"""A value and the reason to believe it: Answer, Basis, Origin, Box, Evidence, Tag."""

from dataclasses import dataclass
from enum import Enum, StrEnum
from typing import Generic, TypeVar

T = TypeVar("T")


class Answer(Enum):
    """Three answers, so that "the page does not say" is never read as "no"."""

    YES = "yes"
    NO = "no"
    CANNOT_TELL = "cannot tell"

    def __bool__(self) -> bool:
        raise TypeError(f"{self} is neither true nor false; compare it, as in `x is Answer.YES`")


class Basis(StrEnum):
    """How a value is known. The words are shown on screen as they stand."""

    PRINTED = "printed"
    DOCUMENT_PROPERTIES = "document properties"
    OUTLINE = "outline"
    TYPE_RULE = "type rule"
    LINKED_DIRECTIVE = "linked directive"
    SHOP_ENTRY = "shop entry"
    INFERRED = "inferred"


class Origin(StrEnum):
    """Where the text itself came from; "printed" read by OCR is said to be OCR."""

    DIGITAL = "digital"
    OCR = "ocr"
    HIDDEN_OCR = "hidden ocr layer"


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle on a page as displayed: points (1/72 inch), origin at the top left, y downward."""

    x0: float
    top: float
    x1: float
    bottom: float

    def __post_init__(self) -> None:
        if self.x1 < self.x0 or self.bottom < self.top:
            raise ValueError(f"a box runs from top left to bottom right: {self}")

    @property
    def width(self) -> float:
        return self.x1 - self.x0

    @property
    def height(self) -> float:
        return self.bottom - self.top

    def union(self, other: "Box") -> "Box":
        return Box(
            min(self.x0, other.x0),
            min(self.top, other.top),
            max(self.x1, other.x1),
            max(self.bottom, other.bottom),
        )


@dataclass(frozen=True, slots=True)
class PageBox:
    """A box and the page it lies on (pdf_page is 1-based)."""

    pdf_page: int
    box: Box


@dataclass(frozen=True, slots=True)
class Evidence:
    """Why a tag is believed."""

    basis: Basis
    rule: str  # name of the rule that decided, so that a wrong tag leads straight to its line
    quote: str = ""  # the words as printed, never paraphrased; empty only for type rules and inference
    pdf_page: int | None = None  # 1-based; None when the value is about the file (document properties)
    box: Box | None = None  # None when the quote has no one place
    source: str = ""  # number or title of the publication quoted, when it is another than the tagged one
    origin: Origin = Origin.DIGITAL
    confidence: float | None = None  # 0.0 to 1.0; only for inferred chapters and OCR


@dataclass(frozen=True, slots=True)
class Tag(Generic[T]):
    """A value with its evidence; `others` keeps every disagreeing reading, best first."""

    value: T
    evidence: Evidence
    others: tuple["Tag[T]", ...] = ()
