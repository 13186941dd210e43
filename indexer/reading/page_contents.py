"""Whether the contents of a page that shows nothing can be unpacked at all. Alone in importing pdfminer.

pdfium shows a page whose packed contents are damaged as an empty one. An empty page counts as searched, a
damaged one must not.
"""

import zlib
from collections.abc import Collection
from itertools import islice
from pathlib import Path

from pdfminer.pdfdocument import PDFDocument
from pdfminer.pdfpage import PDFPage
from pdfminer.pdfparser import PDFParser
from pdfminer.pdftypes import PDFStream, resolve1
from pdfminer.psexceptions import PSException

DAMAGED = "the page's contents are damaged and cannot be unpacked"
UNCERTAIN = "the page shows nothing, and its contents cannot be looked into"


def unreadable_contents(path: Path, pdf_pages: Collection[int]) -> dict[int, str]:
    """Of these pages (1-based) those whose contents cannot be unpacked, each with the reason for a person."""
    if not pdf_pages:
        return {}
    problems = dict.fromkeys(pdf_pages, UNCERTAIN)
    with path.open("rb") as file:
        try:
            document = PDFDocument(PDFParser(file))
            for number, page in enumerate(islice(PDFPage.create_pages(document), max(pdf_pages)), start=1):
                if number in problems and not any(_is_damaged(stream) for stream in page.contents):
                    del problems[number]
                elif number in problems:
                    problems[number] = DAMAGED
        except (PSException, ValueError, TypeError, KeyError, RecursionError, AssertionError):
            return problems  # what could not be looked into stays uncertain, which is never called empty
    return problems


def _is_damaged(reference: object) -> bool:
    stream = resolve1(reference)
    if not isinstance(stream, PDFStream):
        return False
    data = stream.get_rawdata() or b""
    if stream.decipher:
        data = stream.decipher(stream.objid, stream.genno, data, stream.attrs)
    filters = stream.get_filters()
    if not filters or getattr(filters[0][0], "name", "") not in ("FlateDecode", "Fl"):
        return False  # what is not packed, or packed as pictures are, has no checksum to fail
    try:
        zlib.decompressobj().decompress(data)
    except zlib.error:
        return True
    return False
