"""Blocks -> things that can be placed on a page (paragraphs, tables, figures), in one publication's look."""

import re
from xml.sax.saxutils import escape

from reportlab.lib import colors
from reportlab.platypus import Flowable, Paragraph, Spacer, Table, TableStyle

from sample_docs.draw.figures.catalogue import FIGURES
from sample_docs.draw.looks import Look
from sample_docs.draw.markup import Block


class NextPage(Flowable):
    """Marks a forced page break; never drawn."""


class ToBottom(Flowable):
    """Marks that what follows stands at the foot of the text area; never drawn."""


class Changed(Flowable):
    """A block with a revision bar at the edge beside it."""

    def __init__(self, inner: Flowable):
        super().__init__()
        self.inner = inner
        self.spaceBefore, self.spaceAfter = inner.getSpaceBefore(), inner.getSpaceAfter()

    def wrap(self, width, height):
        self.width, self.height = self.inner.wrap(width, height)
        return self.width, self.height

    def draw(self):
        self.canv.setLineWidth(2)
        self.canv.line(-12, 0, -12, self.height)
        self.inner.drawOn(self.canv, 0, 0)


class Drawing(Flowable):
    """A line-art figure of sample_docs.draw.figures.catalogue."""

    def __init__(self, name: str, numbers: list[str], width: float):
        super().__init__()
        self.figure = FIGURES[name]
        self.items = {str(count): str(count) for count in range(1, 20)}
        self.items |= {str(count): number for count, number in enumerate(numbers, start=1)}
        self.scale = min(1.0, width / self.figure.width)
        self.width, self.height = width, self.figure.height * self.scale

    def wrap(self, width, height):
        return self.width, self.height

    def draw(self):
        self.canv.saveState()
        self.canv.translate((self.width - self.figure.width * self.scale) / 2, 0)
        self.canv.scale(self.scale, self.scale)
        self.figure.draw(self.canv, self.items)
        self.canv.restoreState()


def flowables(parts: list[Block], look: Look, width: float) -> list[Flowable]:
    """Everything to place, in order."""
    placed: list[Flowable] = []
    for block in parts:
        made = _made(block, look, width)
        placed += [Changed(item) if block.changed else item for item in made]
    return placed


def _made(block: Block, look: Look, width: float) -> list[Flowable]:
    styles = look.styles
    text = re.sub(r"\*\*(.+?)\*\*", r"<b>\1</b>", escape(block.text))
    match block.kind:
        case "break":
            return [NextPage()]
        case "bottom":
            return [ToBottom()]
        case "gap":
            return [Spacer(1, float(block.text))]
        case "figure":
            drawing, _, caption = block.text.partition("|")
            name, *numbers = drawing.split()
            return [Drawing(name, numbers, width), Paragraph(escape(caption.strip()), styles["caption"])]
        case "ruled" | "plain":
            return _table(block, look, width)
        case "sign":
            return [_signature(block, look)]
        case "alert":
            return [Paragraph(text, styles["alert"], bulletText=block.label)]
        case "step1" | "step2" | "step3":
            return [Paragraph(text, styles[block.kind], bulletText=block.label)]
        case "title" | "heading" | "text" | "centre" | "big" | "small":
            return [Paragraph(text, styles[block.kind])]
    raise ValueError(f"unknown block «{block.kind}»")


def _table(block: Block, look: Look, width: float) -> list[Flowable]:
    """A table; its caption may hold "[2 5 3]", the relative widths of the columns."""
    styles = look.styles
    caption, shares = _shares(block)
    head, *rows = block.rows
    cells = [[Paragraph(escape(cell).replace("~", "&nbsp;"), styles["cell_head"]) for cell in head]]
    for row in rows:  # "~" is a space that is kept
        cells.append([Paragraph(escape(cell).replace("~", "&nbsp;"), styles["cell"]) for cell in row])
    widths = [width * share / sum(shares) for share in shares]
    table = Table(cells, colWidths=widths, repeatRows=1, hAlign="CENTER")
    lines = [("VALIGN", (0, 0), (-1, -1), "TOP"), ("LEFTPADDING", (0, 0), (-1, -1), 4)]
    if block.kind == "ruled":
        lines += [("GRID", (0, 0), (-1, -1), 0.6, colors.black)]
        lines += [("TOPPADDING", (0, 0), (-1, -1), 2.5), ("BOTTOMPADDING", (0, 0), (-1, -1), 3.5)]
    else:
        lines += [("TOPPADDING", (0, 0), (-1, -1), 0.5), ("BOTTOMPADDING", (0, 0), (-1, -1), 1.5)]
    table.setStyle(TableStyle(lines))
    title = [Paragraph(escape(caption), styles["caption"])] if caption else []
    return [*title, table, Spacer(1, look.size)]


def _shares(block: Block) -> tuple[str, list[float]]:
    caption = block.text
    if caption.endswith("]"):
        caption, _, numbers = caption[:-1].rpartition("[")
        return caption.strip(), [float(number) for number in numbers.split()]
    return caption, [1.0] * len(block.rows[0])


def _signature(block: Block, look: Look) -> Table:
    name, office, date = (part.strip() for part in block.text.split("|"))
    style = look.styles["cell"]
    cells = [[Paragraph(escape(line), style)] for line in (name, office, f"Date: {date}")]
    table = Table(cells, colWidths=[270], hAlign="LEFT")
    table.setStyle(TableStyle([("LINEABOVE", (0, 0), (-1, 0), 0.8, colors.black)]))
    return table
