"""How a publication looks: fonts, page size, text area, and who draws the running lines."""

from collections.abc import Callable
from dataclasses import dataclass, field

from reportlab.lib.enums import TA_CENTER, TA_LEFT
from reportlab.lib.pagesizes import letter
from reportlab.lib.styles import ParagraphStyle


@dataclass(frozen=True)
class Look:
    """`furniture(canvas, page_facts, pdf_page)` draws head, foot and any page colour before the text."""

    font: str
    bold: str
    size: float
    furniture: Callable
    page_size: tuple[float, float] = letter
    left: float = 72
    right: float = 54
    top: float = 84
    bottom: float = 96
    columns: int = 1
    gutter: float = 18
    title_align: int = TA_LEFT
    leading: float = 1.25
    first_top: float = 0  # margin above the text on the first page of a topic; 0 = as `top`
    table_size: float = field(default=0)  # 0 = one point under the text

    def style(self, name: str, **changes) -> ParagraphStyle:
        base = {
            "fontName": self.font,
            "fontSize": self.size,
            "leading": self.size * self.leading,
            "spaceAfter": self.size * 0.55,
            "bulletFontName": self.font,
            "bulletFontSize": self.size,
        }
        return ParagraphStyle(name, **{**base, **changes})

    @property
    def styles(self) -> dict[str, ParagraphStyle]:
        step = 22 if self.columns == 1 else 14
        return {
            "text": self.style("text"),
            "title": self.style(
                "title",
                fontName=self.bold,
                fontSize=self.size + 3,
                leading=(self.size + 3) * 1.25,
                alignment=TA_CENTER if self.columns == 1 else TA_LEFT,
                spaceAfter=self.size,
            ),
            "heading": self.style("heading", fontName=self.bold, spaceBefore=self.size * 0.6, keepWithNext=1),
            "centre": self.style("centre", alignment=TA_CENTER),
            "big": self.style(
                "big",
                fontName=self.bold,
                fontSize=self.size * 2,
                leading=self.size * 2.5,
                alignment=TA_CENTER,
            ),
            "step1": self.style("step1", leftIndent=step, bulletIndent=0),
            "step2": self.style("step2", leftIndent=step * 2, bulletIndent=step),
            "step3": self.style("step3", leftIndent=step * 3, bulletIndent=step * 2),
            "alert": self.style("alert", leftIndent=step * 2 + 58, rightIndent=20, bulletIndent=step * 2),
            "alert_word": self.style("alert_word", fontName=self.bold),
            "caption": self.style(
                "caption", fontName=self.bold, alignment=TA_CENTER, spaceBefore=4, spaceAfter=self.size
            ),
            "cell": self.style(
                "cell", fontSize=self.table_font_size, leading=self.table_font_size * 1.2, spaceAfter=0
            ),
            "cell_head": self.style(
                "cell_head",
                fontName=self.bold,
                fontSize=self.table_font_size,
                leading=self.table_font_size * 1.2,
                spaceAfter=0,
            ),
            "small": self.style("small", fontSize=self.size - 1.5, leading=(self.size - 1.5) * self.leading),
        }

    @property
    def table_font_size(self) -> float:
        return self.table_size or self.size - 1
