"""Words come with the text, place, size and weight that a reader sees."""

import pypdfium2
import pytest
from paper import HEIGHT, WIDTH, Paper
from reportlab.lib.utils import ImageReader

from indexer.reading.characters import cleaned
from indexer.reading.document import read_document
from indexer.reading.page import TextState
from indexer.settings import Settings
from indexer.trade.evidence import Origin

SETTINGS = Settings()


def _pages(paper):
    return read_document(paper.save(), SETTINGS).pages


def _words(page):
    return [word for part in (page.head, page.body, page.foot) for line in part for word in line.words]


def _text(page):
    return " ".join(word.text for word in _words(page))


@pytest.mark.parametrize(
    "found, typed",
    [
        ("ﬁlter", "filter"),
        ("oﬀ", "off"),
        ("ﬄ", "ffl"),
        ("hydrau\xadlic", "hydraulic"),
        ("32‑41‑00", "32-41-00"),
        ("\uf0b7", "•"),
        ("5\uf0b0", "5°"),
        ("a\x00b", "ab"),
        ("\u200bbolt", "bolt"),
        ("Ageˆncia", "Agência"),
        ("维修", "维修"),
        ("Prüfung", "Prüfung"),
        ("MS20470-4", "MS20470-4"),
    ],
)
def test_characters_as_a_person_would_type_them(found, typed):
    assert cleaned(found) == typed


def test_a_word_has_its_place_size_and_weight(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.text(100, 200, "Torque", size=12)
    paper.text(300, 200, "LOCKWIRE", size=16, bold=True)
    torque, lockwire = _words(_pages(paper)[0])
    assert (torque.text, torque.font_size, torque.bold) == ("Torque", 12.0, False)
    assert (lockwire.text, lockwire.font_size, lockwire.bold) == ("LOCKWIRE", 16.0, True)
    # Widths in Adobe's metrics of Helvetica: T 611, o 556, r 333, q 556, u 556, e 556, in 1/1000 of the size.
    assert torque.box.x0 == pytest.approx(100, abs=0.2)
    assert torque.box.width == pytest.approx(12 * (611 + 556 + 333 + 556 + 556 + 556) / 1000, abs=0.2)
    assert torque.box.top < 212 < torque.box.bottom + 1  # the baseline lies 12 points below 200
    assert 10 < torque.box.height < 16


@pytest.mark.parametrize("rotation", [0, 90, 180, 270])
def test_boxes_are_those_of_the_page_as_displayed(tmp_path, rotation):
    """The same sheet, turned for display: the word must be where a viewer shows it."""
    paper = Paper(tmp_path / "a.pdf")
    paper.text(100, 200, "Trim")
    with pypdfium2.PdfDocument(paper.save()) as document:
        document[0].set_rotation(rotation)
        document.save(tmp_path / "turned.pdf")
    page = read_document(tmp_path / "turned.pdf", SETTINGS).pages[0]
    assert page.rotation == rotation
    assert (page.width, page.height) == ((HEIGHT, WIDTH) if rotation in (90, 270) else (WIDTH, HEIGHT))
    box = _words(page)[0].box
    x, y = (box.x0 + box.x1) / 2, (box.top + box.bottom) / 2
    unturned_x, unturned_y = 111, 206  # the middle of the word on the sheet as drawn
    expected = {
        0: (unturned_x, unturned_y),
        90: (HEIGHT - unturned_y, unturned_x),
        180: (WIDTH - unturned_x, HEIGHT - unturned_y),
        270: (unturned_y, WIDTH - unturned_x),
    }[rotation]
    assert (x, y) == pytest.approx(expected, abs=4)


def test_a_crop_box_moves_the_origin_and_hides_what_lies_outside(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.canvas.setCropBox((50, 92, 562, 742))  # left, bottom, right, top
    paper.text(100, 200, "Inside")
    paper.text(100, 10, "Above")
    paper.text(570, 200, "Right")
    page = _pages(paper)[0]
    assert (page.width, page.height) == (512, 650)
    assert _text(page) == "Inside"
    assert _words(page)[0].box.x0 == pytest.approx(50, abs=0.2)
    assert _words(page)[0].box.top == pytest.approx(150, abs=4)


def test_text_that_runs_sideways_is_read_in_order(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.canvas.rotate(90)
    lines = ["Remove the cotter pin first", "and keep the washers together", "in a bag."]
    for number, line in enumerate(lines):
        paper.canvas.drawString(100, -(200 + 14 * number), line)
    page = _pages(paper)[0]
    assert [line.text for line in page.body] == lines
    assert all(line.box.height > line.box.width for line in page.body)
    assert page.body[0].box.x0 < page.body[1].box.x0 < page.body[2].box.x0


def test_upright_text_is_read_before_a_few_sideways_words(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    upright = ["Bleed the left brake", "then the right brake"]
    paper.lines(100, 300, upright)
    paper.canvas.rotate(90)
    paper.canvas.drawString(300, -40, "EFFECTIVE ALL")
    page = _pages(paper)[0]
    assert [line.text for line in page.body] == [*upright, "EFFECTIVE ALL"]


def test_a_word_printed_twice_to_look_bold_is_one_word(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.text(100, 200, "CAUTION")
    paper.text(100.4, 200, "CAUTION")
    paper.text(100, 230, "CAUTION")
    assert _text(_pages(paper)[0]) == "CAUTION CAUTION"


def test_letters_set_wide_apart_are_words(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.canvas.setFont("Helvetica", 12)
    paper.canvas.drawString(100, 600, "WARNING SIGNS", charSpace=6)
    paper.text(100, 300, "Classes A B C D are listed.")
    page = _pages(paper)[0]
    assert [line.text for line in page.body] == ["WARNING SIGNS", "Classes A B C D are listed."]


def test_dots_that_lead_to_a_page_number_are_no_part_of_a_word(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.text(100, 200, "Brakes.........................................12")
    assert _text(_pages(paper)[0]) == "Brakes .... 12"


def test_a_raised_figure_is_a_note_mark(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.text(100, 200, "transponder")
    width = paper.canvas.stringWidth("transponder", "Helvetica", 11)
    paper.text(100 + width, 196, "1", size=7)
    paper.text(300, 200, "V")
    paper.text(300 + paper.canvas.stringWidth("V", "Helvetica", 11), 206, "NE", size=7)
    assert _text(_pages(paper)[0]) == "transponder 1 VNE"


def test_a_note_mark_inside_what_is_printed_without_a_space(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    x = 100
    for text, top, size in (("transponder", 200, 11), ("1", 196, 7), (",", 200, 11)):
        paper.text(x, top, text, size=size)
        x += paper.canvas.stringWidth(text, "Helvetica", size)
    assert _text(_pages(paper)[0]).split()[0] == "transponder"


def _picture(tmp_path):
    from PIL import Image

    path = tmp_path / "scan.png"
    Image.new("L", (300, 400), 200).save(path)
    return ImageReader(str(path))


def test_invisible_text_over_a_picture_is_a_hidden_layer(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.canvas.drawImage(_picture(tmp_path), 0, 0, WIDTH, HEIGHT)
    text = paper.canvas.beginText(100, 600)
    text.setTextRenderMode(3)
    text.textLine("Replace the shock strut packing")
    paper.canvas.drawText(text)
    document = read_document(paper.save(), SETTINGS)
    assert document.pages[0].origin is Origin.HIDDEN_OCR
    assert document.pages[0].state is TextState.TEXT
    assert document.passages[0].origin is Origin.HIDDEN_OCR


def test_invisible_words_on_a_page_of_visible_ones_are_nobodys_evidence(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.text(100, 200, "This repair is not in the manual")
    text = paper.canvas.beginText(100, 500)
    text.setTextRenderMode(3)
    text.textLine("FAA APPROVED")
    paper.canvas.drawText(text)
    page = _pages(paper)[0]
    assert _text(page) == "This repair is not in the manual"
    assert page.origin is Origin.DIGITAL


def test_a_page_without_words(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.canvas.drawImage(_picture(tmp_path), 50, 50, 500, 600)
    paper.next_page()
    paper.next_page()
    paper.canvas.circle(300, 400, 100)
    paper.next_page()
    paper.canvas.setFillColorRGB(1, 1, 1)
    paper.canvas.rect(0, 0, WIDTH, HEIGHT, stroke=0, fill=1)
    paper.next_page()
    states = [page.state for page in _pages(paper)]
    assert states == [TextState.NO_TEXT, TextState.BLANK, TextState.NO_TEXT, TextState.BLANK]


def test_a_filled_field_is_read_as_printed(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.text(100, 200, "Serial number")
    paper.canvas.acroForm.textfield(value="QZ-0117", x=200, y=570, width=120, height=20, fontSize=11)
    assert "QZ-0117" in _text(_pages(paper)[0])
