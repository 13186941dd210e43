"""Text over a picture of the page: read from the picture it is no digital text, over a background it is."""

from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from paper import HEIGHT, WIDTH, Paper, prose
from PIL import Image, ImageDraw, ImageFilter, ImageFont
from reportlab.lib.utils import ImageReader

from indexer.reading.document import read_document
from indexer.reading.recognized import OcrReason
from indexer.settings import Settings
from indexer.trade.evidence import Origin

DATA = Path(__file__).parent.parent / "data"
LINES = prose(200, 9)
OTHERS = prose(200, 9, start=40)


@pytest.fixture
def paper(tmp_path):
    return Paper(tmp_path / "a.pdf")


def _sheet(lines=(), shade=0, grain=0.0, tint=255):
    """A page at 150 dpi: lines of text in a shade of gray on paper with grain."""
    picture = Image.new("L", (1275, 1650), tint)
    draw = ImageDraw.Draw(picture)
    font = ImageFont.load_default(24)
    for index, line in enumerate(lines):
        draw.text((150, 153 + index * 36), line, shade, font)
    noise = np.random.default_rng(7).normal(0, grain, (1650, 1275)) if grain else 0.0
    return Image.fromarray(np.clip(np.asarray(picture, float) + noise, 0, 255).astype("uint8"))


def _put(paper, picture, x=0, y=0, width=WIDTH, height=HEIGHT):
    data = BytesIO()
    picture.save(data, "PNG")
    paper.canvas.drawImage(ImageReader(data), x, y, width, height)


def _write(paper, lines, size=12.0, gray=0.0):
    """Lines where `_sheet` draws its own."""
    paper.canvas.setFillGray(gray)
    for index, line in enumerate(lines):
        paper.text(72, 72 + index * 36 * 72 / 150, line, size)


def _read(paper):
    return read_document(paper.save(), Settings()).pages[0]


def test_black_text_over_the_words_it_was_read_from(paper):
    _put(paper, _sheet(LINES))
    _write(paper, LINES)
    assert _read(paper).origin is Origin.HIDDEN_OCR


def test_letters_redrawn_over_what_their_removal_left_of_them(paper):
    """Some programs put type of their own in the place of a scan's letters, which leaves faint traces."""
    left = Image.blend(_sheet(LINES).filter(ImageFilter.GaussianBlur(2)), _sheet(), 0.8)
    _put(paper, left)
    _write(paper, LINES)
    assert _read(paper).origin is Origin.HIDDEN_OCR


def test_a_real_page_with_its_letters_redrawn():
    """The FAA's Major Repair and Alteration Data Approval Job Aid, revision 5, PDF page 69."""
    page = read_document(DATA / "scans" / "Job_Aid_R5_page_69.pdf", Settings()).pages[0]
    assert page.origin is Origin.HIDDEN_OCR


def test_white_text_over_a_scan(paper):
    _put(paper, _sheet(LINES))
    _write(paper, LINES, gray=1.0)
    assert _read(paper).origin is Origin.HIDDEN_OCR


def test_white_text_over_the_white_of_a_scan_belongs_to_another_page(paper):
    _put(paper, _sheet())
    _write(paper, LINES, gray=1.0)
    page = _read(paper)
    assert (page.origin, page.ocr_reason) == (Origin.HIDDEN_OCR, OcrReason.MISMATCH)


def test_type_too_small_to_be_read_over_a_scan(paper):
    _put(paper, _sheet(OTHERS))
    _write(paper, LINES, size=1.0)
    assert _read(paper).origin is Origin.HIDDEN_OCR


def test_words_that_differ_from_those_of_the_scan_under_them(paper):
    _put(paper, _sheet(OTHERS))
    _write(paper, LINES)
    assert _read(paper).origin is Origin.HIDDEN_OCR


def test_text_and_the_picture_that_covers_it_in_one_form(paper):
    paper.canvas.beginForm("sheet")
    _write(paper, LINES)
    _put(paper, _sheet(OTHERS))
    paper.canvas.endForm()
    paper.canvas.doForm("sheet")
    assert _read(paper).origin is Origin.HIDDEN_OCR


def test_a_scan_of_a_third_of_the_page_with_its_text_over_it(paper):
    _put(paper, _sheet(LINES[:8]).crop((0, 0, 1275, 550)), 0, HEIGHT - 264, WIDTH, 264)
    _write(paper, LINES[:8])
    assert _read(paper).origin is Origin.HIDDEN_OCR


@pytest.mark.parametrize("words", [["NOT APPROVED"], LINES[:1], LINES[:3]])
def test_a_stamp_over_a_scan_that_says_little(paper, words):
    _put(paper, _sheet(words))
    paper.text(300, 700, "FAA APPROVED  J. Doe  12 May 2004")
    assert _read(paper).ocr_reason is OcrReason.MISMATCH


def _wash():
    """A colour that runs from top to bottom, with bands of another behind the headings."""
    rows = np.linspace(250, 205, 1650)[:, None].repeat(1275, 1)
    rows[300:360] = 180
    rows[900:960] = 180
    return Image.fromarray(rows.astype("uint8"))


def _photograph():
    """Light and shade of every size, as clouds have."""
    random = np.random.default_rng(11)
    field = np.zeros((1650, 1275))
    for size in (4, 12, 40, 120, 400):
        cells = Image.fromarray((random.random((size, size)) * 255).astype("uint8"))
        field += np.asarray(cells.resize((1275, 1650), Image.BICUBIC), float) / size**0.25
    return Image.fromarray((150 + 100 * (field - field.min()) / np.ptp(field)).astype("uint8"))


def _letterhead():
    picture = _sheet()
    draw = ImageDraw.Draw(picture)
    draw.ellipse((100, 30, 220, 120), fill=90)
    draw.text((260, 40), "Pellworth Aero Works", 0, ImageFont.load_default(40))
    draw.text((260, 95), "14 Hangar Lane, Pellworth, telephone 555 0114", 0, ImageFont.load_default(20))
    return picture


def _form():
    """A form set as a picture: rules and labels, with white where it is to be filled in."""
    picture = _sheet()
    draw = ImageDraw.Draw(picture)
    for row in range(20):
        draw.line((120, 132 + 72 * row, 1155, 132 + 72 * row), 0, 2)
    return picture


@pytest.mark.parametrize(
    "background",
    [_sheet, lambda: _sheet(grain=6.0, tint=235), _wash, _photograph, _letterhead, _form],
    ids=["white", "grain", "wash", "photograph", "letterhead", "form"],
)
def test_text_over_a_background_is_digital(paper, background):
    _put(paper, background())
    _write(paper, LINES)
    page = _read(paper)
    assert (page.origin, page.ocr_reason) == (Origin.DIGITAL, None)


@pytest.mark.parametrize("background", [_sheet, _wash, _photograph, _form])
def test_a_few_words_over_a_background_are_digital(paper, background):
    _put(paper, background())
    paper.text(300, 700, "FAA APPROVED  J. Doe  12 May 2004")
    page = _read(paper)
    assert (page.origin, page.ocr_reason) == (Origin.DIGITAL, None)


def test_gray_and_light_text_over_dark_paper_is_digital(paper):
    _put(paper, _sheet(tint=60))
    _write(paper, LINES, gray=0.95)
    assert _read(paper).origin is Origin.DIGITAL


def test_small_print_beside_a_large_picture_is_digital(paper):
    _put(paper, _photograph(), 72, 72, 468, 500)
    _write(paper, LINES[:5], size=6)
    assert _read(paper).origin is Origin.DIGITAL
