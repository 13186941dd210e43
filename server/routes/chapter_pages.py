"""The picture of the library by chapters: a table with bars, each chapter leading to its listing."""

from collections import Counter
from dataclasses import dataclass
from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response

from indexer.trade.chapters import chapter_title, is_chapter
from server.chapter_picture import ChapterPages, Counted, chapter_picture
from server.opened import OpenedLibrary
from server.routes.addresses import page_address
from server.routes.shown import library_of, shown
from server.routes.system_view import system_address
from server.words import count_of, publication_name

router = APIRouter(default_response_class=HTMLResponse)
BAR_WIDTH = 300  # units of the picture, for the chapter with the most pages


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a bar: `pattern` tells it apart without colour."""

    pattern: str
    x: float
    width: float


@router.get("/chapters")
def chapters_page(request: Request) -> Response:
    library = library_of(request)
    with library.reading() as status:
        picture = chapter_picture(library)
        most = max((each.counted.pages for each in picture.chapters), default=0)
        view = {
            "rows": [_row(library, each, most) for each in picture.chapters],
            "pages": picture.pages,
            "filed": picture.filed,
            "filed_words": _words(picture.filed),
            "not_numbered": picture.not_numbered,
            "not_read": picture.not_read,
            "empty": picture.empty,
        }
        state = library.state(status)
    return shown(request, "chapters.html", state, view=view, bar_width=BAR_WIDTH)


def _row(library: OpenedLibrary, chapter: ChapterPages, most: int) -> dict[str, Any]:
    types: Counter[str] = Counter()
    publications = []
    for each in chapter.publications:
        record = library.publication(each.publication_id)
        types[record.type.label if record.type else "Type not determined"] += each.counted.pages
        publications.append(
            {
                "name": publication_name(record),
                "address": page_address(record.id, each.first_page),
                "pages": each.counted.pages,
                "words": _words(each.counted),
            }
        )
    return {
        "number": chapter.chapter,
        "name": _name(chapter.chapter),
        "address": system_address(chapter.chapter),
        "pages": chapter.counted.pages,
        "words": _words(chapter.counted),
        "parts": _parts(chapter.counted, most),
        "types": [f"{label}: {count_of(pages, 'page')}" for label, pages in types.most_common()],
        "publications": publications,
    }


def _name(chapter: str) -> str:
    """ "32 Landing gear"; the bare number where the list of chapters has none such."""
    return f"{chapter} {chapter_title(chapter)}" if is_chapter(chapter) else chapter


def _parts(counted: Counted, most: int) -> list[Part]:
    parts, x = [], 0.0
    for pattern, pages in (
        ("printed", counted.printed),
        ("inferred", counted.inferred),
        ("entered", counted.entered),
    ):
        if pages:
            width = BAR_WIDTH * pages / most
            parts.append(Part(pattern, round(x, 1), round(width, 1)))
            x += width
    return parts


def _words(counted: Counted) -> str:
    """ "12 printed, 3 worked out from the text, 1 entered by the shop"; what is none is left out."""
    told = (
        (counted.printed, "printed"),
        (counted.inferred, "worked out from the text"),
        (counted.entered, "entered by the shop"),
    )
    return ", ".join(f"{pages:,} {words}" for pages, words in told if pages)
