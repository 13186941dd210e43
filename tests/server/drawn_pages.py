"""A PDF of three drawn pages: letter, a foldout of 34 by 11 inches, and a letter page that the file turns."""

from pathlib import Path

from reportlab.lib.units import inch
from reportlab.pdfgen import canvas

LETTER = (8.5 * inch, 11 * inch)
FOLDOUT = (34 * inch, 11 * inch)


def draw_pages(path: Path) -> Path:
    """Each page is full of numbered marks, so that every part of it differs from every other."""
    sheet = canvas.Canvas(str(path), pagesize=LETTER, invariant=1)
    for pdf_page, (size, turned) in enumerate(((LETTER, 0), (FOLDOUT, 0), (LETTER, 90)), 1):
        sheet.setPageSize(size)
        sheet.setPageRotation(turned)
        _marks(sheet, size, pdf_page)
        sheet.showPage()
    sheet.save()
    return path


def _marks(sheet: canvas.Canvas, size: tuple[float, float], pdf_page: int) -> None:
    width, height = size
    sheet.setFont("Helvetica", 9)
    across, down = int(width // 36), int(height // 36)
    for column in range(across):
        for row in range(down):
            x, y = column * 36 + 4, row * 36 + 4
            sheet.rect(
                x, y, 6 + (column * 7 + row * 3) % 22, 6 + (column * 5 + row * 11) % 14, stroke=1, fill=0
            )
            sheet.drawString(x, y + 22, f"{pdf_page}.{column}.{row}")
    sheet.setLineWidth(2)
    sheet.line(0, 0, width, height)
