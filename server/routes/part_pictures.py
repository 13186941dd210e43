"""Pictures of a parts list's pages, with what is to be marked on them."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from indexer.library.records import PublicationRecord
from server.opened import OpenedLibrary
from server.routes.addresses import picture_address
from server.routes.page_view import ZOOMS, Rectangle, Zoom

# Points. An item number is small, and its mark must be seen at arm's length.
_AROUND_ROW, _AROUND_ITEM = 2.0, 5.0
Fields = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class MarkedPage:
    """One page as a picture; words = filled marks, boxes = outlines."""

    address: str
    width: float  # points
    height: float
    alt: str
    pdf_page: int
    caption: str
    boxes: tuple[Rectangle, ...] = ()
    words: tuple[Rectangle, ...] = ()
    boxes_label: str = ""


def marked_page(
    library: OpenedLibrary,
    owner: PublicationRecord,
    pdf_page: int,
    caption: str,
    zoom: int = 100,
    outlined: Sequence[Rectangle] = (),
    filled: Sequence[Rectangle] = (),
    label: str = "",
) -> MarkedPage:
    """Raises PageUnknown."""
    sheet = library.catalogue.page(owner.copy_id, pdf_page)
    return MarkedPage(
        picture_address(owner.id, pdf_page, ZOOMS[zoom]),
        sheet.width,
        sheet.height,
        f"Picture of PDF page {pdf_page}",
        pdf_page,
        caption,
        tuple(outlined),
        tuple(filled),
        label,
    )


def row_marks(boxes: Iterable[Fields], pdf_page: int) -> list[Rectangle]:
    """Outlines of a row on one page; a box without a page of its own is on that page."""
    return [_around(box, _AROUND_ROW) for box in boxes if box.get("pdf_page", pdf_page) == pdf_page]


def item_marks(boxes: Iterable[Fields]) -> list[Rectangle]:
    return [_around(box, _AROUND_ITEM) for box in boxes]


def number_marks(box: Fields | None) -> list[Rectangle]:
    return [_around(box, 0)] if box else []


def zooms(zoom: int, address: str) -> tuple[Zoom, ...]:
    """The sizes to choose from; `address` of the page at its usual size, with what is asked of it."""
    join = "&" if "?" in address else "?"
    return tuple(
        Zoom(
            "Page width" if size == 100 else f"{size} %",
            address if size == 100 else f"{address}{join}zoom={size}",
            size == zoom,
        )
        for size in ZOOMS
    )


def zoom_class(zoom: int) -> str:
    return "" if zoom == 100 else f" zoom-{zoom}"


def _around(box: Fields, margin: float) -> Rectangle:
    return Rectangle(
        round(box["x0"] - margin, 1),
        round(box["top"] - margin, 1),
        round(box["x1"] - box["x0"] + 2 * margin, 1),
        round(box["bottom"] - box["top"] + 2 * margin, 1),
    )
