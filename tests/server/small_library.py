"""A library of four small publications with every case the screen must word: our own fiction.

manual     chapter-numbered maintenance manual: approved, undetermined, and not numbered passages;
           a scan page; its number is printed in two ways
bulletin   made mandatory by the directive; carries hostile text
directive  a rule
circular   blocked by a notice; nothing says what type it is
"""

import datetime
import hashlib
from pathlib import Path

from reportlab.pdfgen import canvas

from indexer.library.catalogue import Catalogue
from indexer.reading.page import Document, Page, Passage, PassageKind, TextState
from indexer.tagging.tags import (
    BulletinFacts,
    Claim,
    ClaimKind,
    DirectiveFacts,
    Identity,
    Standing,
    StandingValue,
    TaggedPassage,
    TaggedPublication,
)
from indexer.trade.chapters import ChapterNumber
from indexer.trade.evidence import Basis, Box, Evidence, Origin, PageBox, Tag
from indexer.trade.publication_types import PublicationType

WIDTH, HEIGHT = 612.0, 792.0
HOSTILE = '<script>alert("x")</script> & "quoted"'
UNDETERMINED = Standing(StandingValue.UNDETERMINED, StandingValue.ACCEPTABLE)
APPROVED = Standing(
    StandingValue.APPROVED,
    StandingValue.ACCEPTABLE,
    Evidence(Basis.PRINTED, "approval words", "FAA APPROVED 12 May 2031", 2),
    "page",
)
MANDATORY = Standing(
    StandingValue.APPROVED,
    StandingValue.ACCEPTABLE,
    Evidence(Basis.LINKED_DIRECTIVE, "tie", "do Part 3 of SB 32-0012, Revision 2", 1, source="AD 2031-04-07"),
    "bulletin revision",
    mandatory=True,
)
RULE = Standing(
    StandingValue.APPROVED,
    StandingValue.APPROVED,
    Evidence(Basis.PRINTED, "effective date", "This AD is effective May 1, 2031.", 1),
    "document",
    mandatory=True,
)
BLOCKED = Standing(
    StandingValue.BLOCKED,
    StandingValue.UNDETERMINED,
    Evidence(Basis.PRINTED, "notice", "For training only. Not for maintenance.", 1),
    "document",
)


def tag(value, quote, pdf_page=1, others=(), basis=Basis.PRINTED):
    return Tag(value, Evidence(basis, "test rule", quote, pdf_page), tuple(others))


def number(text, quote=None):
    return tag(ChapterNumber(*text.split("-")), quote or text)


def passage(
    ordinal, pdf_page, text, standing=UNDETERMINED, numbers=(), kind=PassageKind.TEXT, block=None, **more
):
    """A passage drawn as one block; the place on the page follows from the ordinal."""
    top = 100.0 + 90 * (ordinal % 6)
    box = PageBox(pdf_page, Box(72, top, 540, top + 60))
    heading = more.pop("heading", ("Landing gear", "Wheel and brake"))
    return TaggedPassage(
        Passage(ordinal, pdf_page, (box,), heading, text, kind, **more),
        tuple(number(text) for text in numbers),
        tag(block, "401", pdf_page) if block else None,
        standing,
    )


def _identity(kind, number_text, title, revision, date, others=()):
    return Identity(
        tag(kind, kind.label) if kind else None,
        tag(number_text, number_text, others=others) if number_text else None,
        tag(title, title) if title else None,
        tag("Osprey Works", "Osprey Works"),
        (tag("OW-12", "Model OW-12"),),
        tag(revision, f"Revision {revision}") if revision else None,
        tag(date, date.isoformat()) if date else None,
    )


def manual():
    return TaggedPublication(
        1,
        4,
        _identity(
            PublicationType.MAINTENANCE_MANUAL,
            "OW12-MM",
            "OW-12 Maintenance Manual",
            "3",
            datetime.date(2031, 3, 4),
            others=[tag("OW12-AMM", "OW12-AMM (foot)", 2)],
        ),
        (
            passage(
                0,
                2,
                "Remove the wheel and brake assembly. Examine the brake lining for wear.",
                APPROVED,
                ["32-41-05"],
                PassageKind.STEP,
                "Removal/installation",
            ),
            passage(
                1,
                2,
                "WARNING: release the brake pressure before you open the brake line.\nOpen the brake line.",
                UNDETERMINED,
                ["32-41-05"],
                PassageKind.WARNING,
                "Removal/installation",
            ),
            passage(
                2,
                3,
                "Check the alternator belt tension and the alternator mounting bolts.",
                UNDETERMINED,
                ["24-31-00"],
                heading=("Electrical power",),
            ),
            passage(
                3, 3, "Brake fluid servicing chart, read by machine.", origin=Origin.OCR, heading=("Charts",)
            ),
        ),
        (),
    )


def bulletin():
    return TaggedPublication(
        1,
        1,
        _identity(
            PublicationType.SERVICE_BULLETIN,
            "SB 32-0012",
            "Brake lining inspection",
            "2",
            datetime.date(2031, 2, 1),
        ),
        (
            passage(
                0,
                1,
                "Part 3. Measure each brake lining. Replace a lining thinner than 2.5 mm.",
                MANDATORY,
                ["32-41"],
            ),
            passage(1, 1, f"Brake tooling note {HOSTILE}", UNDETERMINED, ["32-41"], heading=(HOSTILE,)),
        ),
        (),
        bulletin=BulletinFacts(tag("Mandatory", "Mandatory"), None, None),
    )


def directive():
    return TaggedPublication(
        1,
        1,
        _identity(
            PublicationType.AIRWORTHINESS_DIRECTIVE,
            "AD 2031-04-07",
            "Brake linings",
            "",
            datetime.date(2031, 4, 7),
        ),
        (passage(0, 1, "This AD requires inspecting the brake lining.", RULE, ["32-41"]),),
        (
            Claim(
                ClaimKind.REQUIRES,
                "SB 32-0012",
                Evidence(Basis.PRINTED, "required", "do Part 3 of SB 32-0012, Revision 2", 1),
                PublicationType.SERVICE_BULLETIN,
                "2",
            ),
        ),
        directive=DirectiveFacts(
            tag("2031-04-07", "AD 2031-04-07"),
            None,
            tag(datetime.date(2031, 5, 1), "May 1, 2031"),
            (),
            None,
            True,
        ),
    )


def circular():
    return TaggedPublication(
        1,
        1,
        _identity(None, "", "", "", None),
        (passage(0, 1, "Training sheet about the brake system.", BLOCKED),),
        (),
    )


def one_page(text):
    """A publication of one page that says nothing of itself."""
    return TaggedPublication(1, 1, _identity(None, "", "", "", None), (passage(0, 1, text),), ())


def _pdf(path: Path, pages: int, name: str) -> str:
    sheet = canvas.Canvas(str(path), pagesize=(WIDTH, HEIGHT), invariant=1)
    for pdf_page in range(1, pages + 1):
        sheet.setFont("Helvetica", 14)
        sheet.drawString(72, HEIGHT - 60, f"{name}: fictitious, not for flight. Page {pdf_page}")
        sheet.drawString(72, HEIGHT - 130, "Remove the wheel and brake assembly. Examine the brake lining.")
        sheet.showPage()
    sheet.save()
    return hashlib.sha256(path.read_bytes()).hexdigest()


def take(catalogue: Catalogue, folder: Path, name: str, publication: TaggedPublication, scan: int = 0) -> str:
    """Draw a PDF and take it with the given tags; gives its id. `scan` = a page without text."""
    path = folder / f"{name}.pdf"
    sha256 = _pdf(path, publication.last_page, name)
    pages = tuple(
        Page(
            pdf_page,
            WIDTH,
            HEIGHT,
            0,
            TextState.NO_TEXT if pdf_page == scan else TextState.TEXT,
            printed_page=str(399 + pdf_page) if pdf_page > 1 else "",
        )
        for pdf_page in range(1, publication.last_page + 1)
    )
    document = Document(path.name, sha256, {}, (), pages, ())
    return catalogue.take(path, document, [publication]).publications[0]


def make(library: Path, folder: Path) -> dict[str, str]:
    """A new library; returns publication ids by name."""
    folder.mkdir(parents=True, exist_ok=True)
    with Catalogue.open(library, create=True) as catalogue:
        return {
            "manual": take(catalogue, folder, "ow12-mm", manual(), scan=4),
            "bulletin": take(catalogue, folder, "sb-32-0012", bulletin()),
            "directive": take(catalogue, folder, "ad-2031-04-07", directive()),
            "circular": take(catalogue, folder, "training-sheet", circular()),
        }
