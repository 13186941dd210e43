"""Papers for the worked questions, drawn with the sample library's own drawing code. All of it is
invented.
"""

import datetime

from sample_docs.draw.book import CONTINUES, Topic
from sample_docs.draw.facts import PageFacts, PublicationFacts
from sample_docs.draw.furniture import fictitious
from sample_docs.draw.looks import Look


def running(canvas, facts: PageFacts, pdf_page: int) -> None:
    """Maker and model at the head; number, page and date in the foot, as a manual prints them."""
    width, height = canvas._pagesize
    publication = facts.publication
    canvas.setFont("Helvetica-Bold", 9)
    canvas.drawString(72, height - 48, publication.maker.upper())
    canvas.drawRightString(width - 54, height - 48, " ".join(publication.models))
    canvas.setFont("Helvetica", 9)
    canvas.drawString(72, height - 60, publication.title.upper())
    canvas.drawRightString(width - 54, height - 60, publication.number)
    canvas.line(72, height - 66, width - 54, height - 66)
    canvas.line(72, 82, width - 54, 82)
    canvas.setFont("Helvetica-Bold", 11)
    if facts.number:
        canvas.drawRightString(width - 54, 68, facts.number)
    canvas.setFont("Helvetica", 9)
    canvas.drawRightString(width - 54, 56, f"Page {facts.printed_page}")
    canvas.drawRightString(width - 54, 45, facts.page_date)
    fictitious(canvas, width)


def bulletin(canvas, facts: PageFacts, pdf_page: int) -> None:
    """Maker and kind at the head; number, revision, page and date in the foot."""
    width, height = canvas._pagesize
    publication = facts.publication
    canvas.setFont("Helvetica-Bold", 13)
    canvas.drawString(60, height - 50, publication.maker.upper())
    canvas.drawRightString(width - 54, height - 50, "SERVICE BULLETIN")
    canvas.line(60, height - 58, width - 54, height - 58)
    canvas.line(60, 66, width - 54, 66)
    canvas.setFont("Helvetica", 8.5)
    issue = "Original issue" if publication.revision == "original" else f"Rev {publication.revision}"
    canvas.drawString(60, 54, f"{publication.number}   {issue}")
    canvas.drawCentredString(width / 2, 54, f"Page {facts.printed_page}")
    canvas.drawRightString(width - 54, 54, facts.page_date)
    fictitious(canvas, width)


def plain_sheet(canvas, facts: PageFacts, pdf_page: int) -> None:
    """A letter or form: nothing but the line that it is invented."""
    fictitious(canvas, canvas._pagesize[0])


MANUAL = Look("Helvetica", "Helvetica-Bold", 10, running)
BULLETIN = Look("Helvetica", "Helvetica-Bold", 9.5, bulletin, left=60, top=76, bottom=78)
SHEET = Look("Times-Roman", "Times-Bold", 11, plain_sheet, top=64, bottom=72)


def publication(
    file: str, type: str, number: str, title: str, maker: str, models: str, revision: str, date: str
) -> PublicationFacts:
    """`date` as ISO, "" = none."""
    return PublicationFacts(
        file,
        type,
        number,
        title,
        maker,
        tuple(models.split()),
        revision,
        datetime.date.fromisoformat(date) if date else None,
    )


def long_date(of: PublicationFacts) -> str:
    return f"{of.date:%B} {of.date.day}, {of.date.year}" if of.date else ""


def pages(of: PublicationFacts, look: Look, *texts: str) -> list[Topic]:
    """A paper without chapter numbers in its running lines; each text begins a page, the first is page 1."""
    made = []
    for position, text in enumerate(texts):
        facts = PageFacts(of, printed_page=CONTINUES if position else "1", page_date=long_date(of))
        made.append(Topic(facts, text, look))
    return made


def manual(of: PublicationFacts, title_page: str, *sections: tuple[str, str, str, str]) -> list[Topic]:
    """A manual: its title page, then sections as (number, first printed page, date in the foot, text)."""
    made = [Topic(PageFacts(of, printed_page="T-1", page_date=sections[0][2]), title_page, MANUAL)]
    for number, page, date, text in sections:
        facts = PageFacts(
            of, printed_page=page, number=number, scheme="ATA" if number else "", page_date=date
        )
        made.append(Topic(facts, text, MANUAL))
    return made
