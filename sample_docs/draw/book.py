"""One PDF: places topics page by page, draws running lines, keeps page facts, labels and bookmarks."""

from dataclasses import dataclass, replace
from pathlib import Path
from typing import BinaryIO

from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable, Frame, Spacer

from sample_docs.draw.facts import PageFacts, next_page
from sample_docs.draw.flow import NextPage, ToBottom, flowables
from sample_docs.draw.looks import Look
from sample_docs.draw.markup import blocks

CONTINUES = "+"


@dataclass(frozen=True)
class Topic:
    """A run of pages on one subject: its text in the markup, and the facts of its first page.

    facts.printed_page may be CONTINUES: the page number after that of the topic before
    bookmark      (level, title) of a bookmark at its first page; None for no bookmark
    later_pages   changes to the facts of its 2nd, 3rd ... page, by position (1 = second page)
    """

    facts: PageFacts
    text: str
    look: Look
    bookmark: tuple[int, str] | None = None
    later_pages: tuple[tuple[int, dict], ...] = ()


def draw_book(target: Path | BinaryIO, topics: list[Topic], labels: bool = True) -> list[PageFacts]:
    """Write the PDF; returns the facts of its pages in order. The same topics give the same bytes."""
    first = topics[0].facts.publication
    canvas = Canvas(
        str(target) if isinstance(target, Path) else target,
        pagesize=topics[0].look.page_size,
        invariant=1,
        pageCompression=0,
    )
    if topics[0].facts.text_state == "text":  # a scanner knows neither
        canvas.setTitle(f"{first.title} {first.number}".strip())
        canvas.setAuthor(first.maker)
    canvas.setSubject("Fictitious sample, invented aircraft")
    canvas.setProducer("sample_docs.draw")
    canvas.setCreator("sample_docs.draw")
    pages: list[PageFacts] = []
    for topic in topics:
        if topic.facts.printed_page == CONTINUES:
            topic = replace(topic, facts=topic.facts.with_page(next_page(pages[-1].printed_page)))
        pages += _draw_topic(canvas, topic, len(pages))
    for position, facts in enumerate(pages):
        if labels and facts.printed_page:
            number = facts.number if facts.number.count("-") == 2 else ""
            canvas.addPageLabel(position, prefix=f"{number} {facts.printed_page}".strip())
    if any(topic.bookmark for topic in topics):
        canvas.showOutline()
    canvas.save()
    return pages


def _draw_topic(canvas: Canvas, topic: Topic, pages_before: int) -> list[PageFacts]:
    look = topic.look
    width = (look.page_size[0] - look.left - look.right - (look.columns - 1) * look.gutter) / look.columns
    waiting = flowables(blocks(topic.text), look, width)
    facts = topic.facts
    drawn: list[PageFacts] = []
    while waiting or not drawn:
        changes = dict(topic.later_pages).get(len(drawn), {})
        facts = replace(facts, **changes)
        pdf_page = pages_before + len(drawn) + 1
        canvas.setPageSize(look.page_size)
        if not drawn and topic.bookmark:
            key = f"p{pdf_page}"
            canvas.bookmarkPage(key)
            canvas.addOutlineEntry(topic.bookmark[1], key, topic.bookmark[0] - 1, 0)
        canvas.saveState()
        look.furniture(canvas, facts, pdf_page)
        canvas.restoreState()
        top = look.first_top if look.first_top and not drawn else look.top
        waiting = _fill_page(canvas, look, width, top, waiting)
        canvas.showPage()
        drawn.append(facts)
        facts = facts.with_page(next_page(facts.printed_page))
        if len(drawn) > 100:
            raise ValueError(f"{facts.publication.file}: a block is higher than a page")
    return drawn


def _fill_page(
    canvas: Canvas, look: Look, width: float, top: float, waiting: list[Flowable]
) -> list[Flowable]:
    """Place what fits on this page; returns what is left."""
    height = look.page_size[1] - top - look.bottom
    for column in range(look.columns):
        x = look.left + column * (width + look.gutter)
        frame = Frame(
            x, look.bottom, width, height, leftPadding=0, rightPadding=0, topPadding=0, bottomPadding=0
        )
        while waiting:
            item, *rest = waiting
            if isinstance(item, NextPage):
                return rest
            if isinstance(item, ToBottom):
                waiting = [_filler(frame, canvas, rest, width), *rest]
                continue
            if getattr(item, "keepWithNext", 0) or getattr(getattr(item, "style", None), "keepWithNext", 0):
                needed = sum(part.wrapOn(canvas, width, height)[1] for part in waiting[:2]) + 12
                if needed > frame._y - look.bottom and frame._y < look.bottom + height - 1:
                    break
            if frame.add(item, canvas):
                waiting = rest
                continue
            parts = frame.split(item, canvas)
            if parts:
                frame.add(parts[0], canvas)
                waiting = [*parts[1:], *rest]
            break
    return waiting


def _filler(frame: Frame, canvas: Canvas, following: list[Flowable], width: float) -> Spacer:
    """White space that brings the next block down to the foot of the frame."""
    block = following[0]
    height = block.wrapOn(canvas, width, 1000)[1] + block.getSpaceBefore() + block.getSpaceAfter()
    return Spacer(1, max(0, frame._y - frame._y1 - height - 2))
