"""Hand-made documents and publications for tests of the library: small, and without a PDF reader."""

import datetime
import hashlib
from dataclasses import dataclass, field
from pathlib import Path

from indexer.reading.page import Document, Page, Passage, PassageKind, TextState
from indexer.tagging.parts_rows import PartsList
from indexer.tagging.references import passage_citations
from indexer.tagging.tags import (
    Claim,
    DirectiveFacts,
    Identity,
    ListedPage,
    PageMark,
    Standing,
    StandingValue,
    StatedApplicability,
    TaggedPassage,
    TaggedPublication,
)
from indexer.trade.chapters import ChapterNumber
from indexer.trade.evidence import Basis, Box, Evidence, Origin, PageBox, Tag
from indexer.trade.publication_types import PublicationType


def evidence(quote: str = "as printed", pdf_page: int = 1) -> Evidence:
    return Evidence(Basis.PRINTED, "test", quote, pdf_page, Box(10, 10, 200, 24))


def tag(value):
    return None if value is None else Tag(value, evidence(str(value)))


@dataclass
class Text:
    """One passage to make."""

    text: str = "Words of a passage."
    headings: tuple[str, ...] = ()
    page: int = 1
    number: ChapterNumber | None = None
    inferred: bool = False  # the number is worked out from the text, not printed
    value: StandingValue = StandingValue.UNDETERMINED
    kind: PassageKind = PassageKind.TEXT
    origin: Origin = Origin.DIGITAL


def _number(text: Text) -> Tag[ChapterNumber]:
    if text.inferred:
        return Tag(text.number, Evidence(Basis.INFERRED, "test", "", text.page, confidence=0.99))
    return tag(text.number)


@dataclass
class Made:
    """One publication to make; `document()` and `publications()` are what reading and tagging would give."""

    file: str
    type: PublicationType | None = None
    number: str | None = None
    revision: str | None = None
    date: datetime.date | None = None
    maker: str | None = None
    title: str | None = None
    models: tuple[str, ...] = ()
    texts: list[Text] = field(default_factory=lambda: [Text()])
    claims: tuple[Claim, ...] = ()
    directive: DirectiveFacts | None = None
    pages: int = 1
    printed: dict[int, str] = field(default_factory=dict)
    content: bytes | None = None
    applicability: tuple[StatedApplicability, ...] = ()
    page_marks: tuple[PageMark, ...] = ()
    listed_pages: tuple[ListedPage, ...] = ()
    parts: PartsList = PartsList()

    @property
    def bytes(self) -> bytes:
        return self.content or b"%PDF-1.4 " + repr(self).encode()

    def document(self) -> Document:
        pages = tuple(
            Page(number, 612.0, 792.0, 0, TextState.TEXT, printed_page=self.printed.get(number, ""))
            for number in range(1, self.pages + 1)
        )
        sha256 = hashlib.sha256(self.bytes).hexdigest()
        return Document(self.file, sha256, {"Title": self.title or ""}, (), pages, ())

    def publications(self) -> tuple[TaggedPublication, ...]:
        identity = Identity(
            tag(self.type),
            tag(self.number),
            tag(self.title),
            tag(self.maker),
            tuple(tag(model) for model in self.models),
            tag(self.revision),
            tag(self.date),
        )
        passages = tuple(self._passage(ordinal, text) for ordinal, text in enumerate(self.texts))
        said = {
            "applicability": self.applicability,
            "page_marks": self.page_marks,
            "listed_pages": self.listed_pages,
            "parts": self.parts,
        }
        return (TaggedPublication(1, self.pages, identity, passages, self.claims, self.directive, **said),)

    def _passage(self, ordinal: int, text: Text) -> TaggedPassage:
        boxes = (PageBox(text.page, Box(10, 10, 200, 24)),)
        passage = Passage(ordinal, text.page, boxes, text.headings, text.text, text.kind, text.origin)
        usual = StandingValue(self.type.usual_standing) if self.type else StandingValue.UNDETERMINED
        said = None if text.value is StandingValue.UNDETERMINED else evidence(text.text, text.page)
        standing = Standing(text.value, usual, said, "passage" if said else "")
        numbers = (_number(text),) if text.number else ()
        cited = passage_citations(passage, [text.number] if text.number else [], self.number or "")
        return TaggedPassage(passage, numbers, None, standing, cited)

    def write(self, folder: Path) -> Path:
        folder.mkdir(parents=True, exist_ok=True)
        path = folder / self.file
        path.write_bytes(self.bytes)
        return path


def take(catalogue, folder: Path, made: Made):
    """Write the file and take it; gives what the catalogue says of it."""
    return catalogue.take(made.write(folder), made.document(), made.publications())
