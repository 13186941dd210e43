"""A library with parts lists drawn by hand, so that what is shown can be compared with what is printed.

catalogue   figure 1: a small tree with every kind of row; figure 2: 400 rows; the number index names one more
scan        a parts list that OCR read; one page of it is not read yet
Makers, models and numbers are our own fiction.
"""

import datetime
import hashlib
from dataclasses import dataclass
from pathlib import Path

import small_library
from reportlab.pdfgen import canvas

from indexer.library.catalogue import Catalogue
from indexer.reading.page import Document, OcrReason, Page, TextState
from indexer.tagging.parts_rows import (
    IndexedNumber,
    PartNote,
    PartNoteKind,
    PartsFigure,
    PartsList,
    PartsRow,
    RowFlag,
    UsageCode,
)
from indexer.tagging.tags import TaggedPublication
from indexer.trade.evidence import Box, Origin, PageBox
from indexer.trade.publication_types import PublicationType

WIDTH, HEIGHT = 612.0, 792.0
HOSTILE = '<b onclick="x()">BRACKET</b> & "CLIP"'
LONG_NUMBER = "QZ32-4421-30017-REWORKED-AND-PLATED-0000000000019A"
LONG_NAME = "VALVE ASSEMBLY, SHUTTLE, EMERGENCY NITROGEN BLOWDOWN, MAIN LANDING GEAR, LEFT HAND, " * 3
MANY = 400
A, B = UsageCode("A", "Model OW-12", 2), UsageCode("B", "")
CALLOUTS = {"1": (120, 160), "2": (420, 160), "2A": (460, 200), "5": (300, 420)}  # item: left and top, points


def _top(at):
    return 150 + 22 * at


def row(ordinal, item, number, name, dots=0, units="1", pdf_page=4, at=None, **more):
    """One row as drawn on its page; `at` = its line there."""
    top = _top(ordinal if at is None else at)
    places = CALLOUTS.get(item, ()) if more.get("figure", 0) == 0 else ()
    callouts = (PageBox(3, Box(places[0], places[1], places[0] + 14, places[1] + 11)),) if places else ()
    given = {
        "figure": 0,
        "item": item,
        "part_number": number,
        "nomenclature": name,
        "indenture": dots,
        "units": units,
        "pdf_page": pdf_page,
        "boxes": (PageBox(pdf_page, Box(60, top, 560, top + 14)),),
        "quote": " ".join(part for part in (item, number, ". " * (dots or 0) + name, units) if part),
        "number_box": Box(110, top, 230, top + 14) if number else None,
        "callouts": callouts,
    }
    return PartsRow(ordinal, **{**given, **more})


def tree():
    """Figure 1: the rows of a small tree, and every kind of thing that a row can say."""
    by = PartNote(PartNoteKind.SUPERSEDED_BY, "SUPSD BY QZ32-4421-5", "QZ32-4421-5")
    of = PartNote(PartNoteKind.SUPERSEDES, "SUPSDS QZ32-4421-3", "QZ32-4421-3")
    pre = PartNote(PartNoteKind.PRE_BULLETIN, "PRE SB 32-0012", "SB 32-0012")
    see = PartNote(PartNoteKind.SEE_FIGURE, "SEE FIG 2 FOR BKDN", "2")
    return (
        row(0, "1", "QZ32-4400-1", "WHEEL AND BRAKE ASSEMBLY", units="REF", usage=(A,)),
        row(1, "2", "QZ32-4421-3", "DISC, BRAKE", 1, "2", above=0, notes=(by, pre), usage=(A, B)),
        row(2, "2A", "QZ32-4421-5", "DISC, BRAKE", 1, "2", above=0, notes=(of,), stock_number="0044-17"),
        row(3, "3", "AN4-12A", "BOLT", 1, "4", above=0, attaching=True, attaches=2, attaches_also=(1,)),
        row(4, "4", "AN960-416", "WASHER", 1, "A/R", above=0, attaching=True, attaches=2, illustrated=False),
        row(5, "5", "QZ32-4450-1", "CALIPER ASSEMBLY", 1, above=0, notes=(see,), supplier="0QX7"),
        row(6, "6", "AN4-12", "BOLT", 2, "4", above=5, effectivity="S/N 0012 THRU 0040"),
        row(7, "7", LONG_NUMBER, LONG_NAME, 2, "1", above=5),
        row(8, "8", "QZ32-4460-1", HOSTILE, 3, "1", above=7),
        row(9, "9", "QZ32-4461-1", "SPRING", 7, "1", above=8, flags=(RowFlag.INDENTURE,)),
        row(10, "", "", "", None, "", flags=(RowFlag.PART_NUMBER, RowFlag.ITEM, RowFlag.UNITS)),
    )


def many():
    """Figure 2: as many rows as a large figure has."""
    return tuple(
        row(
            11 + at,
            str(at + 1),
            f"QZ52-{7000 + at}-{at % 9}",
            f"PANEL, FLOOR, STATION {at}",
            at % 8,
            pdf_page=5 + at // 25,
            at=at % 25,
            figure=1,
            above=None if at % 8 == 0 else 10 + at,
        )
        for at in range(MANY)
    )


def catalogue():
    figures = (
        PartsFigure(0, "1", "32-42-00", "Wheel and brake", (3,), (4,)),
        PartsFigure(1, "2", "53-10-00", "Floor panels", (), tuple(range(5, 5 + MANY // 25))),
    )
    index = (IndexedNumber("QZ99-1000-1", "3-7", "2", 21, Box(60, 150, 300, 162)),)
    identity = small_library._identity(
        PublicationType.PARTS_CATALOG, "OW12-IPC", "OW-12 Parts Catalog", "4", datetime.date(2031, 1, 20)
    )
    return TaggedPublication(1, 21, identity, (), (), parts=PartsList(figures, (*tree(), *many()), index))


def scan():
    """A parts list that OCR read: the same bolt, a doubtful number, and a page that is still to be read."""
    rows = (
        row(0, "1", "AN4-12A", "BOLT, DRILLED HEAD", pdf_page=2, origin=Origin.OCR, confidence=0.95),
        row(
            1,
            "2",
            "QZ32-442I-5",
            "DISC",
            None,
            "?",
            pdf_page=2,
            origin=Origin.OCR,
            confidence=0.41,
            flags=(RowFlag.DOUBTFUL_NUMBER, RowFlag.INDENTURE),
        ),
    )
    figures = (PartsFigure(0, "5-2", "", "Wheels", (1,), (2,)),)
    identity = small_library._identity(PublicationType.PARTS_CATALOG, "", "OW-9 Parts List", "", None)
    return TaggedPublication(1, 3, identity, (), (), parts=PartsList(figures, rows))


def _draw(path, publication):
    sheet = canvas.Canvas(str(path), pagesize=(WIDTH, HEIGHT), invariant=1)
    for pdf_page in range(1, publication.last_page + 1):
        sheet.setFont("Helvetica", 12)
        sheet.drawString(60, HEIGHT - 60, f"{path.stem}: fictitious, not for flight. Page {pdf_page}")
        for figure in publication.parts.figures:
            if pdf_page in figure.art_pages:
                sheet.drawString(60, HEIGHT - 90, f"Figure {figure.figure}. {figure.title}")
                sheet.roundRect(150, 340, 280, 240, 30)
                sheet.circle(290, 460, 70)
                for item, (left, top) in CALLOUTS.items():
                    sheet.drawString(left, HEIGHT - top - 10, item)
                    sheet.line(left + 5, HEIGHT - top - 14, 290, 460)
        for each in publication.parts.rows:
            if each.pdf_page == pdf_page:
                base = HEIGHT - each.boxes[0].box.bottom + 3
                sheet.setFont("Helvetica", 9)
                sheet.drawString(70, base, each.item if each.illustrated else f"-{each.item}")
                sheet.drawString(110, base, each.part_number[:24])
                sheet.drawString(250, base, (". " * (each.indenture or 0) + each.nomenclature)[:52])
                sheet.drawString(530, base, each.units)
        sheet.showPage()
    sheet.save()
    return hashlib.sha256(path.read_bytes()).hexdigest()


def _take(held, folder, name, publication, not_read=()):
    path = folder / f"{name}.pdf"
    sha256 = _draw(path, publication)
    pages = tuple(
        Page(
            pdf_page,
            WIDTH,
            HEIGHT,
            0,
            TextState.NO_TEXT if pdf_page in not_read else TextState.TEXT,
            printed_page=str(pdf_page - 2) if pdf_page > 2 else "",
            ocr_reason=OcrReason.NO_TEXT if pdf_page in not_read else None,
        )
        for pdf_page in range(1, publication.last_page + 1)
    )
    return held.take(path, Document(path.name, sha256, {}, (), pages, ()), [publication]).publications[0]


@dataclass(frozen=True, slots=True)
class Drawn:
    """Ids of the publications; rows and figures by their place in the catalogue."""

    catalogue: str
    scan: str

    def part(self, ordinal):
        return f"{self.catalogue}-part-{ordinal}"

    def figure(self, ordinal):
        return f"{self.catalogue}-figure-{ordinal}"


def make(library: Path, folder: Path) -> Drawn:
    """A new library with both lists."""
    folder.mkdir(parents=True, exist_ok=True)
    with Catalogue.open(library, create=True) as held:
        return Drawn(
            _take(held, folder, "ow12-ipc", catalogue()),
            _take(held, folder, "ow9-parts", scan(), not_read=(3,)),
        )
