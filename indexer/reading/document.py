"""A PDF file -> Document: every page read and laid out, and cut into passages."""

import hashlib
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from types import MappingProxyType

from indexer.errors import DamagedPdf, FileNotReadable, FileVanished
from indexer.reading.as_displayed import displayed_page, displayed_passage
from indexer.reading.layout import lay_out
from indexer.reading.page import Document, Page, TextState
from indexer.reading.page_contents import unreadable_contents
from indexer.reading.passages import cut_passages
from indexer.reading.pdf import PdfFile
from indexer.reading.pdf_page import PageFailed
from indexer.reading.raw_page import RawPage
from indexer.reading.recognized import RecognizedPage
from indexer.reading.recognized_page import recognized_raw, with_common_sizes
from indexer.reading.usable_text import judged
from indexer.settings import Settings

_CUT_SHORT = "The file ends without its end mark: it may be cut short, and pages may be missing."


_NONE: Mapping[int, RecognizedPage] = MappingProxyType({})


def read_document(
    path: Path, settings: Settings, recognized: Mapping[int, RecognizedPage] = _NONE
) -> Document:
    """Read one PDF. A page that fails is kept and marked; the rest of the file is taken.

    recognized  what OCR read, by pdf_page; used for pages whose own text will not do. Each page is asked for
                once, in order, so that a mapping may fetch them one at a time
    Raises the FileRefused that fits when the file cannot be taken at all.
    """
    path = Path(path)
    sha256 = _sha256(path)
    with PdfFile(path, settings) as pdf:
        properties = pdf.properties()
        outline = pdf.outline()
        raw: list[RawPage | Page] = [
            _raw_page(pdf, number, recognized) for number in range(1, pdf.page_count + 1)
        ]
        notes = (_CUT_SHORT,) if pdf.cut_short else ()
    problems = unreadable_contents(path, [page.pdf_page for page in raw if _shows_nothing(page)])
    raw = [
        _failed(page.pdf_page, page.label, problems[page.pdf_page]) if page.pdf_page in problems else page
        for page in raw
    ]
    failed = [page for page in raw if isinstance(page, Page)]
    if len(failed) == len(raw):
        raise DamagedPdf(str(path), f"none of its {len(raw)} pages can be read: {failed[0].problem}")
    with_common_sizes(raw)
    straightened = {page.pdf_page: page.straightening for page in raw if _was_straightened(page)}
    pages = list(lay_out(raw))
    passages = cut_passages(pages, settings.ocr_floor)
    for index, page in enumerate(pages):  # one by one: a long file does not fit in memory twice
        if page.pdf_page in straightened:
            pages[index] = displayed_page(page, straightened[page.pdf_page])
    return Document(
        file=path.name,
        sha256=sha256,
        properties=properties,
        outline=outline,
        pages=tuple(pages),
        passages=tuple(displayed_passage(passage, straightened) for passage in passages),
        notes=notes,
    )


def _sha256(path: Path) -> str:
    try:
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except FileNotFoundError:
        raise FileVanished(str(path)) from None
    except OSError as problem:
        raise FileNotReadable(str(path), problem.strerror or type(problem).__name__) from None


def _raw_page(pdf: PdfFile, number: int, recognized: Mapping[int, RecognizedPage]) -> RawPage | Page:
    """The page as the file holds it, or as OCR read it where its own text will not do; or marked FAILED."""
    try:
        raw = pdf.raw_page(number)
    except PageFailed as problem:
        return _failed(number, pdf.label(number), str(problem))
    raw = replace(raw, judged=judged(raw))
    if raw.judged.ocr_reason is None or number not in recognized:
        return raw
    return recognized_raw(raw, recognized[number])


def _was_straightened(page: RawPage | Page) -> bool:
    return isinstance(page, RawPage) and page.straightening is not None


def _failed(number: int, label: str, problem: str) -> Page:
    return Page(
        pdf_page=number,
        width=0.0,
        height=0.0,
        rotation=0,
        state=TextState.FAILED,
        label=label,
        problem=problem,
    )


def _shows_nothing(page: RawPage | Page) -> bool:
    if isinstance(page, Page):
        return False
    return not (any(page.words.values()) or page.picture_part or page.has_drawing)
