"""Which pages need OCR, and which do not although they look it.

Real pages: FAA AC 43-2B page 6 (a scan over a poor layer of OCR text), the FAA's Major Repair and
Alteration Data Approval Job Aid, revision 5, PDF page 61 (a scan over a digital foot), appendix F
of CCAR-43 (a form whose letters are outlines), AC 43-14 (a scan over a layer that reads well). See
tests/data/SOURCES.md.
"""

from io import BytesIO
from pathlib import Path

import pytest
from paper import HEIGHT, WIDTH, Paper, prose
from PIL import Image, ImageDraw, ImageFont
from reportlab.lib.utils import ImageReader

from indexer.reading.document import read_document
from indexer.reading.page import TextState
from indexer.reading.recognized import OcrReason
from indexer.reading.well_read import is_plausible, quality
from indexer.settings import Settings
from indexer.trade.evidence import Origin

DATA = Path(__file__).parent.parent / "data"
SETTINGS = Settings()


def _picture(lines, size=26, shapes=False):
    """A page at 150 dpi with lines of text, or with the shapes of a drawing."""
    picture = Image.new("L", (1275, 1650), 255)
    draw = ImageDraw.Draw(picture)
    font = ImageFont.load_default(size)
    for index, line in enumerate(lines):
        draw.text((150, 150 + index * 36), line, 0, font)
    if shapes:
        for index in range(40):
            draw.ellipse(
                (200 + 15 * index, 300 + 9 * index, 500 + 15 * index, 420 + 25 * index), outline=0, width=2
            )
            draw.line((150, 1500 - 30 * index, 1100, 400 + 20 * index), 0, 2)
    return picture


def _put(paper, picture):
    data = BytesIO()
    picture.save(data, "PNG")
    paper.canvas.drawImage(ImageReader(data), 0, 0, WIDTH, HEIGHT)


def _layer(paper, lines, mode=3):
    """Lines where `_picture` draws them, invisible unless told otherwise."""
    text = paper.canvas.beginText()
    text.setFont("Helvetica", 12)
    text.setTextRenderMode(mode)
    for index, line in enumerate(lines):
        text.setTextOrigin(72, HEIGHT - 72 - 12 - index * 36 * 72 / 150)
        text.textOut(line)
    paper.canvas.drawText(text)


def _read(paper):
    return read_document(paper.save(), SETTINGS).pages[0]


@pytest.fixture
def paper(tmp_path):
    return Paper(tmp_path / "a.pdf")


def test_a_picture_without_text(paper):
    _put(paper, _picture(prose(200, 9)))
    page = _read(paper)
    assert (page.ocr_reason, page.state) == (OcrReason.NO_TEXT, TextState.NO_TEXT)


def test_a_scan_under_a_stamp_or_a_digital_foot(paper):
    _put(paper, _picture(prose(200, 9)))
    paper.text(72, 740, "Taken from the library on 3 March 2031. Uncontrolled copy.", 8)
    assert _read(paper).ocr_reason is OcrReason.MISMATCH


def test_a_hidden_layer_that_belongs_to_another_page(paper):
    _put(paper, _picture([]))
    _layer(paper, prose(120, 9))
    assert _read(paper).ocr_reason is OcrReason.MISMATCH


def test_text_off_the_page_over_a_scan(paper):
    _put(paper, _picture(prose(200, 9)))
    paper.lines(WIDTH + 100, 100, prose(200, 9))
    assert _read(paper).ocr_reason is OcrReason.OUTSIDE


def test_a_hidden_layer_that_fits(paper):
    lines = prose(200, 9)
    _put(paper, _picture(lines))
    _layer(paper, lines)
    page = _read(paper)
    assert (page.ocr_reason, page.origin) == (None, Origin.HIDDEN_OCR)


def test_a_hidden_layer_of_misread_words(paper):
    lines = prose(200, 9)
    _put(paper, _picture(lines))
    misread = str.maketrans({"e": "c", "h": "b", "n": "u", "i": "!", "l": "1"})
    _layer(paper, [line.translate(misread) for line in lines])
    page = _read(paper)
    assert (page.ocr_reason, page.state) == (OcrReason.POOR_LAYER, TextState.TEXT)


def test_text_laid_under_a_picture_is_a_hidden_layer(paper):
    """Some programs draw their OCR text first, in black, and the scan over it."""
    lines = prose(200, 9)
    _layer(paper, lines, mode=0)
    _put(paper, _picture(lines))
    assert _read(paper).origin is Origin.HIDDEN_OCR


def test_text_beside_a_large_picture_drawn_after_it_is_digital(paper):
    paper.lines(72, 40, prose(30, 10))
    data = BytesIO()
    _picture([], shapes=True).save(data, "PNG")
    paper.canvas.drawImage(ImageReader(data), 20, 20, WIDTH - 40, HEIGHT - 130)
    assert _read(paper).origin is Origin.DIGITAL


def test_text_over_a_background_picture_is_digital(paper):
    _put(paper, _picture([]))
    _layer(paper, prose(200, 9), mode=0)
    page = _read(paper)
    assert (page.ocr_reason, page.origin) == (None, Origin.DIGITAL)


def test_a_figure_page_with_its_callouts(paper):
    """A drawing with a title and item numbers holds all its text."""
    _put(paper, _picture([], shapes=True))
    for item in range(1, 12):
        paper.text(60 + 40 * item, 150 + 40 * item, str(item), 9)
    paper.text(200, 720, "Figure 14. Brake assembly", 11, bold=True)
    assert _read(paper).ocr_reason is None


def test_a_drawing_of_lines_with_its_callouts(paper):
    for step in range(200):
        paper.canvas.line(100 + step, 200 + 2 * step % 90, 400 - step, 600 - step)
        paper.canvas.circle(300 + step % 50, 400, 5 + step)
    for item in range(1, 12):
        paper.text(60 + 40 * item, 150 + 40 * item, str(item), 9)
    assert _read(paper).ocr_reason is None


def test_a_blank_page(paper):
    paper.canvas.showPage()
    page = _read(paper)
    assert (page.ocr_reason, page.state) == (None, TextState.BLANK)


@pytest.mark.parametrize(
    "file, pdf_page, reason",
    [
        ("scans/AC-43-2B_page_6.pdf", 1, OcrReason.POOR_LAYER),
        ("scans/Job_Aid_R5_page_61.pdf", 1, OcrReason.MISMATCH),
        ("scans/CCAR_43_Appendix-F_page_1.pdf", 1, OcrReason.MISMATCH),
        ("scans/2020-17221_page_8.pdf", 1, OcrReason.MISMATCH),  # a page of a flight manual set as a picture
        ("real/NTSB_coding_manual_1998_pages_7_8_19_35_36.pdf", 3, OcrReason.GARBLED),
        ("robustness/ocrmypdf__vector.pdf", 1, OcrReason.NO_TEXT),  # letters drawn as outlines
        ("real/AC-43-14_pages_1_2.pdf", 1, None),
        ("real/AC-43-14_pages_1_2.pdf", 2, None),
    ],
)
def test_real_pages(file, pdf_page, reason):
    assert read_document(DATA / file, SETTINGS).pages[pdf_page - 1].ocr_reason is reason


@pytest.mark.parametrize("path", sorted((DATA / "real").glob("*.pdf")), ids=lambda path: path.stem)
def test_no_born_digital_page_is_marked(path):
    pages = read_document(path, SETTINGS).pages
    marked = [page.pdf_page for page in pages if page.ocr_reason not in (None, OcrReason.GARBLED)]
    assert marked == []


RULE = (DATA / "text" / "14cfr_part43_2015.txt").read_text(encoding="utf-8").split()[:400]

# What tesseract 5.3.0 reads of AC 43-2B and AC 43-9C drawn at 300 dpi, and at 80 and 60 dpi with grain.
GOOD = (
    "This advisory circular provides guidance material which may be used to determine the adequacy of"
    " barometers used in the calibration of aircraft static instruments. It explains the accuracy required"
)
BLURRED = (
    "material shich ray Te Gel bs determine the alequacy of barmeters used in the calibration OPalrcraft"
    " static mstrusnts, {i explai and provides teneral intormation pertaming to altitade nd atmospberie "
)
LOST = (
    "lities nhich mintoty Spe wrvine ntlvtary.atrimente or Sarometric equipment shoes vange ecards ‘ove"
    " €2,0f0 Tee. Siuld sule che appr of the ofthe nd in amoopberie tequlrenses barmeurie arurccy eltitale "
)


@pytest.mark.parametrize(
    "text, least, most",
    [
        (" ".join(RULE), 0.95, 1.0),
        (GOOD, 0.9, 1.0),
        (BLURRED * 2, 0.0, 0.7),
        (LOST * 2, 0.0, 0.5),
        ("QZ-114 AN4-7A MS20470AD4-6 NAS1149F0432P 24-31-00 0.290 92 98 A/R REF " * 4, 0.9, 1.0),
        ("BRG BRKT ASSY LH FWD STA 214.5 WL 88 RBL 22.5 THK .040 2024-T3 ALCLD " * 4, 0.9, 1.0),
        ("Prüfe die Klemmung der Lichtmaschine und schreibe den Wert in das Bordbuch ein. " * 3, 0.9, 1.0),
        ("Vérifier la tension de la courroie de l'alternateur et noter la valeur. " * 3, 0.9, 1.0),
        ("Проверьте натяжение ремня генератора и запишите значение в журнал " * 4, 0.9, 1.0),
        ("1. Aircraft Make Model Serial No. Nationality and Registration Mark 2. Owner " * 3, 0.9, 1.0),
    ],
)  # fmt: skip
def test_how_well_text_was_read(text, least, most):
    assert least <= quality(text.split()) <= most


@pytest.mark.parametrize(
    "word, plausible",
    [
        ("calibration", True), ("Calibration,", True), ("ADs", True), ("holder's", True), ("part(s)", True),
        ("MS20470AD4-6", True), ("1,234.5", True), ("(b)", True), ("c.", True), ("BRKT", True), ("·", True),
        ("Lichtmaschine", True), ("натяжение", True), ("http://www.faa.gov/", True), ("±0.005", True),
        ("DEPAl<TI\\IEST", False), ("tePnperature", False), ("jfcVTi?(23»t.'", False), ("@thin", False),
        ("mfgrtbwc", False), ("j", False), ("*\"", False),
    ],
)  # fmt: skip
def test_the_form_of_a_word(word, plausible):
    assert is_plausible(word) is plausible


def test_too_little_to_judge():
    assert quality("5 bolt AN4 7".split()) is None
