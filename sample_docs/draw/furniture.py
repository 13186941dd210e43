"""Running heads and feet, one function per kind of publication. Each draws the fictitious line."""

from dataclasses import replace
from io import BytesIO
from pathlib import Path

from reportlab.lib.colors import Color
from reportlab.lib.utils import ImageReader

from sample_docs.draw.facts import FICTITIOUS_LINE, PageFacts
from sample_docs.draw.fleet import (
    MAKER_RETRACTABLE,
    MAKER_SINGLE,
    MAKER_TWIN,
    OFFICE,
    RETRACTABLE,
    RETRACTABLE_NAME,
    SINGLE,
    SINGLE_NAME,
    TWIN,
    TWIN_NAME,
    TWIN_SURVEY,
)

YELLOW = Color(1, 0.96, 0.62)


def fictitious(canvas, width: float, y: float = 24, font: str = "Helvetica") -> None:
    canvas.setFont(font, 7)
    canvas.drawCentredString(width / 2, y, FICTITIOUS_LINE)


def twin_manual(canvas, facts: PageFacts, pdf_page: int) -> None:
    """Maker and manual at the head; at the foot the number, page and date at the outer edge."""
    width, height = canvas._pagesize
    canvas.setLineWidth(0.8)
    canvas.setFont("Helvetica-Bold", 9)
    canvas.drawString(72, height - 48, MAKER_TWIN.upper())
    canvas.drawRightString(width - 54, height - 48, f"{TWIN} {TWIN_NAME.upper()}")
    canvas.setFont("Helvetica", 9)
    canvas.drawString(72, height - 60, facts.publication.title.upper())
    canvas.drawRightString(width - 54, height - 60, facts.publication.number)
    canvas.line(72, height - 66, width - 54, height - 66)
    canvas.line(72, 82, width - 54, 82)
    if facts.effectivity:
        canvas.rect(width / 2 - 75, 44, 150, 30)
        canvas.setFont("Helvetica", 7)
        canvas.drawString(width / 2 - 71, 64, "EFFECTIVITY:")
        canvas.setFont("Helvetica", 9)
        canvas.drawString(width / 2 - 71, 51, facts.effectivity)
    outer_right = pdf_page % 2 == 1
    x = width - 54 if outer_right else 72
    put = canvas.drawRightString if outer_right else canvas.drawString
    canvas.setFont("Helvetica-Bold", 11)
    if facts.number:
        put(x, 68, facts.number)
    canvas.setFont("Helvetica", 9)
    if facts.printed_page:
        figure = f"{facts.figure}   " if facts.figure else ""
        put(x, 56, f"{figure}Page {facts.printed_page}")
    if facts.page_date:
        put(x, 45, facts.page_date)
    fictitious(canvas, width)


def flight_supplement(canvas, facts: PageFacts, pdf_page: int) -> None:
    """A smaller page; approved pages say so, with the date, at the left of the foot."""
    width, height = canvas._pagesize
    canvas.setFont("Times-Bold", 9)
    canvas.drawString(48, height - 36, f"{TWIN_SURVEY} {TWIN_NAME.upper()}")
    canvas.drawRightString(width - 40, height - 36, "AIRPLANE FLIGHT MANUAL SUPPLEMENT No. 4")
    canvas.line(48, height - 41, width - 40, height - 41)
    canvas.line(48, 62, width - 40, 62)
    if facts.data_standing == "approved":
        canvas.drawString(48, 50, "FAA APPROVED")
    canvas.setFont("Times-Roman", 9)
    canvas.drawString(48, 39, facts.page_date)
    canvas.drawCentredString(width / 2, 39, facts.publication.number)
    canvas.drawRightString(width - 40, 39, f"Page {facts.printed_page}")
    fictitious(canvas, width, y=20, font="Times-Roman")


def temporary_revision(canvas, facts: PageFacts, pdf_page: int) -> None:
    """A yellow page with the manual's head and a foot of its own."""
    width, height = canvas._pagesize
    canvas.setFillColor(YELLOW)
    canvas.rect(0, 0, width, height, stroke=0, fill=1)
    canvas.setFillGray(0)
    changed = replace(facts.publication, title="Maintenance Manual", number="QZM-62-2")
    twin_manual(canvas, replace(facts, publication=changed), pdf_page)


def twin_bulletin(canvas, facts: PageFacts, pdf_page: int) -> None:
    """A plain head with the bulletin's number and revision; page number in the middle of the foot."""
    width, height = canvas._pagesize
    publication = facts.publication
    canvas.setFont("Helvetica-Bold", 13)
    canvas.drawString(60, height - 50, MAKER_TWIN.upper())
    kind = "SERVICE LETTER" if publication.type == "service-letter" else "SERVICE BULLETIN"
    canvas.drawRightString(width - 54, height - 50, kind)
    canvas.setLineWidth(1.5)
    canvas.line(60, height - 58, width - 54, height - 58)
    canvas.setLineWidth(0.6)
    canvas.line(60, 66, width - 54, 66)
    canvas.setFont("Helvetica", 8.5)
    issue = "Original issue" if publication.revision == "original" else f"Rev {publication.revision}"
    left = f"{publication.number}   {issue}" if publication.revision else publication.number
    canvas.drawString(60, 54, left)
    canvas.drawCentredString(width / 2, 54, f"Page {facts.printed_page}")
    canvas.drawRightString(width - 54, 54, facts.page_date)
    fictitious(canvas, width)


def directive(canvas, facts: PageFacts, pdf_page: int) -> None:
    """Times, a number at the head of each page after the first, a page number below."""
    width, height = canvas._pagesize
    canvas.setFont("Times-Roman", 9)
    if pdf_page > 1:
        canvas.drawString(72, height - 46, facts.publication.number)
        canvas.drawRightString(width - 72, height - 46, facts.publication.maker)
    canvas.drawCentredString(width / 2, 48, facts.printed_page)
    fictitious(canvas, width, font="Times-Roman")


def typewriter(canvas, facts: PageFacts, pdf_page: int) -> None:
    """The 1950s single: typed head and foot, the section number before the page number."""
    width, height = canvas._pagesize
    canvas.setFont("Courier", 9)
    canvas.drawString(80, height - 46, f"{SINGLE_NAME.upper()} MODEL {SINGLE}")
    canvas.drawRightString(width - 60, height - 46, MAKER_SINGLE.upper())
    canvas.setDash(1, 2)
    canvas.line(80, height - 52, width - 60, height - 52)
    canvas.setDash()
    if facts.page_date:
        canvas.drawString(80, 50, facts.page_date)
    if facts.printed_page:
        canvas.drawRightString(width - 60, 50, f"Page {facts.printed_page}")
    fictitious(canvas, width, font="Courier")


def shop_book(canvas, facts: PageFacts, pdf_page: int) -> None:
    """The retractable single of 1961: a printed book, pages counted by section in the middle of the foot."""
    width, height = canvas._pagesize
    canvas.setFont("Times-Italic", 9)
    canvas.drawString(72, height - 48, f"{RETRACTABLE_NAME} {RETRACTABLE}")
    canvas.drawRightString(width - 60, height - 48, MAKER_RETRACTABLE)
    canvas.line(72, height - 53, width - 60, height - 53)
    canvas.setFont("Times-Roman", 10)
    canvas.drawCentredString(width / 2, 46, facts.printed_page)
    fictitious(canvas, width, font="Times-Roman")


def single_bulletin(canvas, facts: PageFacts, pdf_page: int) -> None:
    """A letterhead, typed text below; the bulletin's number and page in the foot."""
    width, height = canvas._pagesize
    canvas.setFont("Times-BoldItalic", 20)
    canvas.drawCentredString(width / 2, height - 56, MAKER_SINGLE)
    canvas.setFont("Times-Italic", 10)
    canvas.drawCentredString(width / 2, height - 70, f"Makers of the {SINGLE_NAME}")
    canvas.line(90, height - 78, width - 90, height - 78)
    canvas.setFont("Courier", 9)
    canvas.drawString(80, 50, f"Service Bulletin No. {facts.publication.number}")
    canvas.drawRightString(width - 60, 50, f"Page {facts.printed_page}")
    fictitious(canvas, width, font="Courier")


def register(canvas, facts: PageFacts, pdf_page: int) -> None:
    """Three narrow columns under a ruled head, as an official gazette prints a proposal."""
    width, height = canvas._pagesize
    canvas.setFont("Times-Roman", 8.5)
    canvas.drawString(48, height - 40, facts.printed_page)
    canvas.drawRightString(width - 48, height - 40, "Proposed Rules")
    canvas.line(48, height - 46, width - 48, height - 46)
    fictitious(canvas, width, font="Times-Roman")


def letter_paper(canvas, facts: PageFacts, pdf_page: int) -> None:
    """An office's letterhead."""
    width, height = canvas._pagesize
    canvas.setFont("Times-Bold", 12)
    canvas.drawString(84, height - 56, "U.S. Department of Transportation")
    canvas.drawString(84, height - 71, "Federal Aviation Administration")
    canvas.setFont("Times-Roman", 10)
    canvas.drawRightString(width - 72, height - 56, OFFICE)
    canvas.line(84, height - 80, width - 72, height - 80)
    fictitious(canvas, width, font="Times-Roman")


def handbook(canvas, facts: PageFacts, pdf_page: int) -> None:
    """A two-column handbook: title at the head, page number at the outer edge of the foot."""
    width, height = canvas._pagesize
    canvas.setFont("Times-Italic", 9)
    canvas.drawString(54, height - 42, facts.publication.title)
    canvas.drawRightString(
        width - 54, height - 42, f"{facts.publication.number}, Edition {facts.publication.revision}"
    )
    canvas.line(54, height - 47, width - 54, height - 47)
    canvas.setFont("Times-Roman", 9)
    x = width - 54 if pdf_page % 2 else 54
    put = canvas.drawRightString if pdf_page % 2 else canvas.drawString
    put(x, 44, facts.printed_page)
    fictitious(canvas, width, font="Times-Roman")
    if pdf_page == 1:
        _handbook_title(canvas, facts, width, height)


def _handbook_title(canvas, facts: PageFacts, width: float, height: float) -> None:
    """Title and notice across both columns."""
    canvas.setFont("Times-Bold", 18)
    canvas.drawCentredString(width / 2, height - 78, facts.publication.title)
    canvas.setFont("Times-Roman", 11)
    publication = facts.publication
    edition = f"Handbook {publication.number}, Edition {publication.revision}, February 1, 2030"
    edition = f"{publication.maker}: {edition}"
    canvas.drawCentredString(width / 2, height - 95, edition)
    canvas.rect(100, height - 146, width - 200, 40)
    canvas.setFont("Times-Bold", 11)
    canvas.drawCentredString(width / 2, height - 120, "FOR REFERENCE ONLY")
    canvas.setFont("Times-Roman", 10)
    notice = "This handbook has not been FAA approved. Use the current manual of the maker for all work."
    canvas.drawCentredString(width / 2, height - 136, notice)


def scanned(canvas, facts: PageFacts, pdf_page: int) -> None:
    """The picture of a sheet of paper, the whole page over; no text at all."""
    width, height = canvas._pagesize
    canvas.drawImage(ImageReader(BytesIO(picture(pdf_page).read_bytes())), 0, 0, width, height)


def scanned_paper(canvas, facts: PageFacts, pdf_page: int) -> None:
    """The sheet of paper before it is scanned: a component manual with large feet."""
    width, height = canvas._pagesize
    canvas.setFont("Times-Bold", 12)
    canvas.drawString(70, height - 50, facts.publication.maker.upper())
    canvas.setFont("Times-Roman", 10)
    canvas.drawString(70, height - 64, f"{facts.publication.title.upper()}  {facts.publication.number}")
    canvas.line(70, height - 70, width - 56, height - 70)
    canvas.setFont("Times-Bold", 13)
    canvas.drawRightString(width - 56, 66, facts.number)
    canvas.setFont("Times-Roman", 11)
    canvas.drawRightString(width - 56, 52, f"Page {facts.printed_page}")
    canvas.drawString(70, 52, facts.page_date)
    canvas.setFont("Helvetica", 10)
    canvas.drawCentredString(width / 2, 28, FICTITIOUS_LINE)


def picture(pdf_page: int) -> Path:
    """Where the picture of a scanned page is kept."""
    return Path(__file__).parent / "scans" / f"brake-component-manual-{pdf_page}.jpg"
