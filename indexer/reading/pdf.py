"""PDF file -> raw pages, outline, properties. Opening it, and saying why when it cannot be opened."""

from collections.abc import Mapping
from pathlib import Path

import pypdfium2
import pypdfium2.raw as pdfium

from indexer.errors import (
    DamagedPdf,
    EmptyFile,
    FileNotReadable,
    FileVanished,
    NoPages,
    NotAPdf,
    PasswordNeeded,
    TooLarge,
)
from indexer.reading.characters import cleaned
from indexer.reading.page import OutlineEntry
from indexer.reading.pdf_page import read_page
from indexer.reading.raw_page import RawPage
from indexer.settings import Settings

_HEADER = b"%PDF-"
_HEADER_WITHIN = 1024  # bytes; readers accept junk before the header up to here
_END_MARK = b"%%EOF"
_END_MARK_WITHIN = 2048
_MOST_BOOKMARKS = 50_000
_REOPEN_AFTER = 100  # pages; pdfium keeps every font it has met until the document is closed


class PdfFile:
    """An open PDF. Use as a context manager; close it before the file is moved (Windows holds it open)."""

    def __init__(self, path: Path, settings: Settings):
        """Raises the FileRefused that fits when the file cannot be opened or is over a limit."""
        self.path = path
        self.cut_short = _check_bytes(path, settings)
        self._document = _open(path)
        self._pages_read = 0
        self.page_count = len(self._document)
        if self.page_count > settings.max_pages:
            self.close()
            raise TooLarge(
                str(path), f"{self.page_count} pages", f"{settings.max_pages} pages", "HANGARLEAF_MAX_PAGES"
            )
        if self.page_count == 0:
            self.close()
            raise NoPages(str(path))

    def __enter__(self) -> "PdfFile":
        return self

    def __exit__(self, *exc: object) -> None:
        self.close()

    def close(self) -> None:
        self._document.close()

    def properties(self) -> Mapping[str, str]:
        """Title, Author, Subject, CreationDate ... as in the file; only those that say something."""
        return {
            name: cleaned(value).strip()
            for name, value in self._document.get_metadata_dict().items()
            if value and value.strip()
        }

    def outline(self) -> tuple[OutlineEntry, ...]:
        """The bookmarks in order. A target in another file, or that does not exist, gives pdf_page None."""
        entries = []
        for bookmark in self._document.get_toc():
            if len(entries) == _MOST_BOOKMARKS:
                break
            title = " ".join(cleaned(bookmark.get_title()).split())
            entries.append(OutlineEntry(bookmark.level + 1, title, self._target(bookmark)))
        return tuple(entries)

    def _target(self, bookmark: pypdfium2.PdfBookmark) -> int | None:
        action = pdfium.FPDFBookmark_GetAction(bookmark.raw)
        if action and pdfium.FPDFAction_GetType(action) != pdfium.PDFACTION_GOTO:
            return None
        destination = bookmark.get_dest()
        index = destination.get_index() if destination else None
        return index + 1 if index is not None and 0 <= index < self.page_count else None

    def label(self, pdf_page: int) -> str:
        """The file's own label of a page, "" when it has none."""
        return cleaned(self._document.get_page_label(pdf_page - 1) or "").strip()

    def raw_page(self, pdf_page: int) -> RawPage:
        """Read one page (1-based). Raises PageFailed when pdfium cannot parse it."""
        self._pages_read += 1
        if self._pages_read % _REOPEN_AFTER == 0:
            self._document.close()
            self._document = _open(self.path)
        return read_page(self._document.raw, pdf_page, self.label(pdf_page))


def _check_bytes(path: Path, settings: Settings) -> bool:
    """Whether the file lacks its end mark. Raises the FileRefused that fits what is wrong with its bytes."""
    try:
        with path.open("rb") as file:
            size = file.seek(0, 2)
            if size == 0:
                raise EmptyFile(str(path))
            if size > settings.max_file_mb * 1_000_000:
                limit = f"{settings.max_file_mb} MB"
                raise TooLarge(str(path), f"{size / 1e6:.0f} MB", limit, "HANGARLEAF_MAX_FILE_MB")
            file.seek(0)
            if _HEADER not in file.read(_HEADER_WITHIN):
                raise NotAPdf(str(path))
            file.seek(max(0, size - _END_MARK_WITHIN))
            return _END_MARK not in file.read()
    except FileNotFoundError:
        raise FileVanished(str(path)) from None
    except OSError as problem:
        raise FileNotReadable(str(path), problem.strerror or type(problem).__name__) from None


def _open(path: Path) -> pypdfium2.PdfDocument:
    # pdfium keeps the code of the last failure, and sets none for a document without pages. A first failure
    # of a known kind makes "none set" tell itself apart from a code left by an earlier file.
    pdfium.FPDF_LoadDocument(b"", None)
    try:
        return pypdfium2.PdfDocument(path)
    except pypdfium2.PdfiumError as problem:
        code = problem.err_code
    except FileNotFoundError:
        raise FileVanished(str(path)) from None
    if code in (pdfium.FPDF_ERR_PASSWORD, pdfium.FPDF_ERR_SECURITY):
        raise PasswordNeeded(str(path))
    if code == pdfium.FPDF_ERR_FILE:
        raise NoPages(str(path)) if path.is_file() else FileVanished(str(path))
    raise DamagedPdf(str(path), "its cross-reference table cannot be found or rebuilt")
