"""Pages read by OCR go through reading like any other, and their boxes come back to the page as displayed."""

from dataclasses import replace
from io import BytesIO
from math import cos, radians, sin
from pathlib import Path

import pytest
from paper import HEIGHT, WIDTH, Paper, prose
from PIL import Image, ImageDraw, ImageFont
from reportlab.lib.utils import ImageReader

from indexer.reading.document import read_document
from indexer.reading.own_layer import says_something_else
from indexer.reading.page import PassageKind, TextState
from indexer.reading.recognized import OcrReason, RecognizedPage, RecognizedWord
from indexer.reading.recognized_page import KEPT, NO_WORDS_READ, NOTHING_READ, SAYS_OTHERWISE
from indexer.reading.straightened import Straightening
from indexer.settings import Settings
from indexer.trade.evidence import Box, Origin

DATA = Path(__file__).parent.parent / "data"
SAMPLES = Path(__file__).parent.parent.parent / "sample_docs" / "pdf"
SETTINGS = Settings()


def _scan(path, pages=1):
    """Pages that show a picture and hold no text."""
    paper = Paper(path)
    data = BytesIO()
    Image.new("L", (850, 1100), 200).save(data, "PNG")
    for _ in range(pages):
        paper.canvas.drawImage(ImageReader(data), 0, 0, WIDTH, HEIGHT)
        paper.next_page()
    return paper.save()


def _words(lines, confidence=0.95):
    """(x, top, size, text) a line -> words with boxes that fit the ink of Helvetica, roughly."""
    found = []
    for number, (x, top, size, text) in enumerate(lines):
        for word in text.split():
            wide = 0.5 * size * len(word)
            tall = any(letter.isupper() or letter.isdigit() or letter in "bdfhklt" for letter in word)
            above, below = (0.7 if tall else 0.49) * size, (0.21 if set(word) & set("gjpqy") else 0) * size
            baseline = top + 0.78 * size
            box = Box(x, baseline - above, x + wide, baseline + below)
            found.append(RecognizedWord(word, box, confidence, number))
            x += wide + 0.28 * size
    return tuple(found)


def _page(words, pdf_page=1, turned=0, skew=0.0, width=WIDTH, height=HEIGHT):
    return RecognizedPage(pdf_page, width, height, turned, skew, tuple(words), "by hand", 300, 0.95, 1.0)


LINES = [
    (72, 72, 16, "DISASSEMBLY OF THE BRAKE"),
    (72, 110, 11, "A. Keep the linings away from oil and fluid at all times, on the bench and on the"),
    (72, 124, 11, "aircraft, and take a new pair when you find any."),
    (72, 160, 11, "WARNING: HOLD THE PISTONS WITH A BLOCK OF WOOD WHEN YOU USE AIR."),
    (72, 174, 11, "A PISTON THAT COMES OUT CAN BREAK A HAND."),
    (72, 200, 11, "(1) Apply air, not more than 20 psi, at the fluid port until the pistons come out."),
]


def test_a_scan_becomes_passages_with_their_kinds(tmp_path):
    path = _scan(tmp_path / "a.pdf")
    assert read_document(path, SETTINGS).passages == ()
    document = read_document(path, SETTINGS, {1: _page(_words(LINES))})
    page = document.pages[0]
    assert (page.state, page.origin, page.ocr_reason) == (TextState.TEXT, Origin.OCR, OcrReason.NO_TEXT)
    assert [passage.heading_path for passage in document.passages] == [("DISASSEMBLY OF THE BRAKE",)] * len(
        document.passages
    )
    warning = next(each for each in document.passages if each.kind is PassageKind.WARNING)
    assert "HOLD THE PISTONS" in warning.text and "not more than 20 psi" in warning.text
    assert all(passage.origin is Origin.OCR for passage in document.passages)


@pytest.mark.parametrize("turned", [0, 90, 180, 270])
@pytest.mark.parametrize("skew", [0.0, 1.5, -2.0])
def test_boxes_lie_on_the_page_as_displayed(tmp_path, turned, skew):
    width, height = (WIDTH, HEIGHT) if turned in (0, 180) else (HEIGHT, WIDTH)
    paper = Paper(tmp_path / "a.pdf", width, height)
    data = BytesIO()
    Image.new("L", (850, 1100), 200).save(data, "PNG")
    paper.canvas.drawImage(ImageReader(data), 0, 0, width, height)
    words = _words(LINES)
    read = _page(words, turned=turned, skew=skew, width=width, height=height)
    document = read_document(paper.save(), SETTINGS, {1: read})
    page = document.pages[0]
    assert (page.width, page.height, page.skew) == (width, height, skew)
    assert document.passages[0].heading_path == ("DISASSEMBLY OF THE BRAKE",)
    found = {word.text: word.box for line in page.body for word in line.words}
    for word in words:
        if sum(each.text == word.text for each in words) > 1:
            continue
        x, y = _by_hand((word.box.x0 + word.box.x1) / 2, (word.box.top + word.box.bottom) / 2, read)
        box = found[word.text]
        assert box.x0 - 1 <= x <= box.x1 + 1 and box.top - 1 <= y <= box.bottom + 1, word.text
    for passage in document.passages:
        for place in passage.boxes:
            assert 0 <= place.box.x0 <= place.box.x1 <= width
            assert 0 <= place.box.top <= place.box.bottom <= height


def _by_hand(x, y, read):
    """The place on the displayed page: the skew put back about the middle, then the turn."""
    wide, high = (read.width, read.height) if read.turned in (0, 180) else (read.height, read.width)
    a, b, angle = x - wide / 2, y - high / 2, radians(read.skew)
    x, y = wide / 2 + a * cos(angle) - b * sin(angle), high / 2 + a * sin(angle) + b * cos(angle)
    return {
        0: (x, y),
        90: (read.width - y, x),  # text that runs downward: its left is the page's top
        180: (read.width - x, read.height - y),
        270: (y, read.height - x),
    }[read.turned]


def test_words_read_below_the_floor_are_the_passages_doubtful_ones(tmp_path):
    words = [
        replace(word, confidence=0.4, text="2O") if word.text == "20" else word for word in _words(LINES)
    ]
    document = read_document(_scan(tmp_path / "a.pdf"), SETTINGS, {1: _page(words)})
    assert [passage.doubtful for passage in document.passages if passage.doubtful] == [("2O",)]
    low = replace(SETTINGS, ocr_floor=0.3)
    document = read_document(_scan(tmp_path / "a.pdf"), low, {1: _page(words)})
    assert not any(passage.doubtful for passage in document.passages)


def test_a_plus_sign_is_doubtful_however_sure_the_engine_is(tmp_path):
    """Printed "within ± 10° Fahrenheit" in FAA AC 43-2B, page 3; tesseract 5.3.0 reads + with 0.97."""
    lines = [(72, 72, 11, "The barometer is kept within + 10° Fahrenheit.")]
    document = read_document(_scan(tmp_path / "a.pdf"), SETTINGS, {1: _page(_words(lines, 0.97))})
    assert document.passages[0].doubtful == ("+",)


def test_specks_are_no_lines_and_dots_of_a_parts_list_stay(tmp_path):
    lines = [*LINES, (72, 240, 11, "5 68-3204 . BRACKET ASSY 2"), (72, 254, 11, "6 68-3205 . . BOLT 4")]
    dust = [
        RecognizedWord(".", Box(40, 500, 41, 501), 0.2, 90),
        RecognizedWord("|", Box(500, 300, 501, 420), 0.9, 91),  # a line of the drawing
        RecognizedWord("~", Box(300, 600, 303, 602), 0.3, 92),
    ]
    words = [replace(word, confidence=0.2) if word.text == "." else word for word in _words(lines)]
    document = read_document(_scan(tmp_path / "a.pdf"), SETTINGS, {1: _page([*words, *dust])})
    text = [line.text for line in document.pages[0].body]
    assert "5 68-3204 . BRACKET ASSY 2" in text and "6 68-3205 . . BOLT 4" in text
    assert not {".", "|", "~"} & set(text)


def test_words_beside_the_page_are_left_out_and_those_over_its_edge_are_cut(tmp_path):
    """As the dark edges of a photographed page are read. The box beside the page is one that was measured."""
    path = _scan(tmp_path / "a.pdf")
    beside = [
        RecognizedWord("gone", Box(-12.0, 638.2, -3.6, 648.7), 0.9, 90),
        RecognizedWord("below", Box(72.0, HEIGHT + 1, 90.0, HEIGHT + 9), 0.9, 91),
        RecognizedWord("over", Box(-4.0, 600.0, 14.0, 610.0), 0.9, 92),
    ]
    page = read_document(path, SETTINGS, {1: _page((*_words(LINES), *beside))}).pages[0]
    boxes = {word.text: word.box for line in page.body for word in line.words}
    assert "DISASSEMBLY" in boxes and "gone" not in boxes and "below" not in boxes
    assert boxes["over"].x0 == 0.0
    slanted = read_document(path, SETTINGS, {1: _page((*_words(LINES), *beside), skew=-1.3)}).pages[0]
    shown = {word.text: word.box for line in slanted.body for word in line.words}
    assert 0.0 <= shown["gone"].x0 < shown["gone"].x1 < 20.0, "in the corner of the slanted page it shows"


def test_running_heads_and_page_numbers_of_a_scanned_manual(tmp_path):
    pages = {}
    for number in range(1, 5):
        lines = [(72, 30, 9, "MARRABLE WHEEL AND BRAKE WORKS"), (420, 740, 9, f"Page {200 + number}")]
        lines += [(72, 100 + 14 * row, 11, text) for row, text in enumerate(prose(120, 10, 13 * number))]
        pages[number] = _page(_words(lines), number, skew=0.4 * number)
    document = read_document(_scan(tmp_path / "a.pdf", 4), SETTINGS, pages)
    assert [page.printed_page for page in document.pages] == ["201", "202", "203", "204"]
    assert all(
        [line.text for line in page.head] == ["MARRABLE WHEEL AND BRAKE WORKS"] for page in document.pages
    )
    assert not any("MARRABLE" in passage.text for passage in document.passages)


def test_two_columns_are_read_one_after_the_other(tmp_path):
    left, right = prose(160, 5), prose(160, 5, 40)
    # The engine gives both columns line by line, as it does when it takes them for one.
    lines = [
        each
        for row, pair in enumerate(zip(left, right, strict=True))
        for each in ((60, 80 + 14 * row, 10, pair[0]), (330, 80 + 14 * row, 10, pair[1]))
    ]
    document = read_document(_scan(tmp_path / "a.pdf"), SETTINGS, {1: _page(_words(lines), skew=-1.0)})
    assert [line.text for line in document.pages[0].body] == [*left, *right]


def test_sizes_that_differ_by_the_way_of_reading_are_one(tmp_path):
    """Boxes of OCR differ by a tenth; two pages of one manual must not have two levels of headings."""
    pages = {}
    titles = ("INSPECTION OF DISCS", "REPAIR OF HOUSINGS")
    for number, factor in ((1, 0.97), (2, 1.03)):
        lines = [(72, 80, 14 * factor, titles[number - 1])]
        lines += [(72, 120 + 14 * row, 10 * factor, text) for row, text in enumerate(prose(100, 10))]
        pages[number] = _page(_words(lines), number)
    document = read_document(_scan(tmp_path / "a.pdf", 2), SETTINGS, pages)
    levels = [line.heading_level for page in document.pages for line in page.body if line.text in titles]
    assert levels == [1, 1]
    assert len({passage.heading_path for passage in document.passages}) == 2


class _Fetched(dict):
    """A mapping that counts how often each page is fetched."""

    def __init__(self, pages):
        super().__init__(pages)
        self.fetched = []

    def __getitem__(self, number):
        self.fetched.append(number)
        return super().__getitem__(number)


def test_each_page_is_fetched_once_in_order(tmp_path):
    pages = _Fetched({number: _page(_words(LINES), number) for number in (1, 2, 3)})
    read_document(_scan(tmp_path / "a.pdf", 3), SETTINGS, pages)
    assert pages.fetched == [1, 2, 3]


def test_a_page_whose_own_text_will_do_is_left_alone(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.lines(72, 100, prose(100, 10))
    document = read_document(paper.save(), SETTINGS, {1: _page(_words(LINES))})
    assert document.pages[0].origin is Origin.DIGITAL
    assert "alternator" in document.passages[0].text


@pytest.mark.parametrize("skew, head", [(0.1, "AC 43-210A"), (2.0, "AC 43-21OA")])
def test_the_files_own_words_over_a_scan_stay_as_they_are(tmp_path, skew, head):
    """The head is digital, the page under it a picture; OCR read both."""
    path = _scan_under_a_head(tmp_path / "a.pdf", "AC 43-210A")
    lines = [
        (72, 40, 11, "AC 43-21OA"),
        *((72, 100 + 14 * row, 11, text) for row, text in enumerate(prose(90, 9))),
    ]
    page = read_document(path, SETTINGS, {1: _page(_words(lines), skew=skew)}).pages[0]
    text = [line.text for line in (*page.head, *page.body)]
    assert page.ocr_reason is OcrReason.MISMATCH
    assert page.origin is Origin.OCR
    assert [line for line in text if line.startswith("AC")] == [head]


def _scan_under_a_head(path, head):
    paper = Paper(path)
    picture = Image.new("L", (1275, 1650), 255)
    draw = ImageDraw.Draw(picture)
    for row, text in enumerate(prose(300, 9)):
        draw.text((150, 208 + 29 * row), text, 0, ImageFont.load_default(22))
    data = BytesIO()
    picture.save(data, "PNG")
    paper.canvas.drawImage(ImageReader(data), 0, 0, WIDTH, HEIGHT)
    paper.text(72, 40, head)
    return paper.save()


def test_a_page_on_which_nothing_was_read(tmp_path):
    document = read_document(_scan(tmp_path / "a.pdf"), SETTINGS, {1: _page([])})
    page = document.pages[0]
    assert (page.state, page.problem, page.ocr_reason) == (TextState.NO_TEXT, NOTHING_READ, OcrReason.NO_TEXT)


def test_noise_read_as_words_is_not_searched(tmp_path):
    noise = (
        "|. jfcVTi?( ;» i\\ir* .-r- ^~ 8yst\\. tfLnv-. ]] {;: TI\\IEST @thX \"' ,.- Jj;l <- Sgg||".split() * 3
    )
    lines = [(72, 72 + 14 * row, 10, word) for row, word in enumerate(noise)]
    document = read_document(_scan(tmp_path / "a.pdf"), SETTINGS, {1: _page(_words(lines))})
    assert document.pages[0].state is TextState.GARBLED and document.passages == ()


# The first lines of what tesseract 5.3.0 with its English data read of the Chinese form CCAR-43 appendix F.
CHINESE_READ_AS_ENGLISH = (
    (0.36, "e485"), (0.58, "A"), (0.54, "BE"), (0.88, "—"), (0.12, "GAN"), (0.27, "MI"), (0.0, "RURABH"),
    (0.89, "159"), (0.67, "5"), (0.63, "WHF"), (0.0, "BRB"), (0.0, "MRICR"), (0.0, "Ss"), (0.35, "+tHRAMZAR"),
    (0.55, "Hh"), (0.0, "4Itbe"), (0.94, "(100710)"), (0.91, "CAAC"), (0.44, "BECERURCR"), (0.51, "OA"),
    (0.79, "155#"), (0.0, "(A,"), (0.64, "WARE."), (0.0, "MRRMXSRE)|"), (0.27, "EH"), (0.9, "86-10-64030987"),
    (0.89, "1."), (0.0, "isa"), (0.0, "Hilt)"), (0.62, "Be"), (0.56, "Fil"), (0.47, "5"), (0.56, "Fre"),
)  # fmt: skip


def test_a_page_in_a_language_the_engine_does_not_know_keeps_its_own_few_words():
    """The form's letters are outlines, its figures digital text. Mean confidence of the reading: 0.33."""
    path = DATA / "scans" / "CCAR_43_Appendix-F_page_1.pdf"
    words = [
        RecognizedWord(text, Box(60, 40 + 15 * row, 160, 52 + 15 * row), confidence, row)
        for row, (confidence, text) in enumerate(CHINESE_READ_AS_ENGLISH)
    ]
    before = read_document(path, SETTINGS)
    after = read_document(path, SETTINGS, {1: replace(_page(words), confidence=0.33)})
    page = after.pages[0]
    assert (page.problem, page.ocr_reason, page.origin) == (
        NO_WORDS_READ,
        OcrReason.MISMATCH,
        Origin.DIGITAL,
    )
    assert [passage.text for passage in after.passages] == [passage.text for passage in before.passages]
    assert "CAAC 155#" in after.passages[0].text and "WARE" not in after.passages[0].text


def test_a_scan_in_a_language_the_engine_does_not_know_is_not_searched(tmp_path):
    lines = [(72, 72 + 14 * row, 10, text) for row, (_, text) in enumerate(CHINESE_READ_AS_ENGLISH)]
    read = replace(_page(_words(lines, confidence=0.33)), confidence=0.33)
    document = read_document(_scan(tmp_path / "a.pdf"), SETTINGS, {1: read})
    page = document.pages[0]
    assert (page.state, page.problem, document.passages) == (TextState.GARBLED, NO_WORDS_READ, ())


def test_the_poor_layer_of_a_real_scan_gives_way_to_a_better_reading():
    """FAA AC 43-2B, page 6; the better reading is made up."""
    path = DATA / "scans" / "AC-43-2B_page_6.pdf"
    before = read_document(path, SETTINGS)
    assert before.pages[0].origin is Origin.HIDDEN_OCR
    text = "Cleanliness of the test equipment is required at all times when the readings are taken"
    lines = [(72, 72 + 14 * row, 11, text) for row in range(12)]
    read = _page(_words(lines), width=before.pages[0].width, height=before.pages[0].height)
    assert read_document(path, SETTINGS, {1: read}).pages[0].origin is Origin.OCR


def test_a_layer_that_is_better_than_what_was_read_is_kept():
    path = DATA / "scans" / "AC-43-2B_page_6.pdf"
    text = "lities nhich mintoty wrvine atrimente Sarometric equipment shoes vange ecards sule the of in"
    read = _page(_words([(72, 72 + 14 * row, 11, text) for row in range(4)]))
    page = read_document(path, SETTINGS, {1: read}).pages[0]
    assert (page.origin, page.problem, page.ocr_reason) == (Origin.HIDDEN_OCR, KEPT, OcrReason.POOR_LAYER)


def test_a_layer_that_says_something_else_than_its_picture_gives_way(tmp_path):
    """The layer holds more that is words than what was read, and none of it stands in the picture."""
    lie = (
        "APPROVED DATA. The technical content of this document is approved. Torque bolts to 500 inch-pounds."
    )
    truth = [text for _, _, _, text in LINES]
    path = _layer_under_a_picture(tmp_path / "a.pdf", [lie] * 30)
    page = read_document(path, SETTINGS, {1: _page(_words(LINES))}).pages[0]
    assert (page.state, page.origin, page.problem) == (TextState.TEXT, Origin.OCR, SAYS_OTHERWISE)
    said = " ".join(line.text for line in page.body)
    assert "HOLD THE PISTONS" in said and "APPROVED DATA" not in said
    path = _layer_under_a_picture(tmp_path / "b.pdf", truth * 2)
    page = read_document(path, SETTINGS, {1: _page(_words(LINES))}).pages[0]
    assert page.problem != SAYS_OTHERWISE


def _layer_under_a_picture(path, lines):
    paper = Paper(path)
    for row, text in enumerate(lines):
        paper.canvas.drawString(50, HEIGHT - 60 - 14 * row, text)
    data = BytesIO()
    Image.new("L", (850, 1100), 255).save(data, "PNG")
    paper.canvas.drawImage(ImageReader(data), 0, 0, WIDTH, HEIGHT)
    return paper.save()


def _texts(said):
    return [word for text in said for word in text.split()]


def test_two_readings_of_one_page_agree_however_poor_one_is():
    """FAA AC 43-2B, page 6: its own layer, the same misread and in part, and another page."""
    document = read_document(DATA / "scans" / "AC-43-2B_page_6.pdf", SETTINGS)
    own = _texts(line.text for line in document.pages[0].body)
    misread = [word[:-1] + "x" if index % 3 == 0 else word for index, word in enumerate(own)]
    for poor in (own, misread, own[: len(own) // 4], misread[len(own) // 2 :]):
        assert not says_something_else(poor, own, 0.95)
    other = _texts(text for _, _, _, text in LINES)
    assert says_something_else(own, other, 0.95)
    assert not says_something_else(own, other, 0.5), "OCR itself was not sure"


def test_where_a_straightened_page_stood():
    """The mapping itself, at a corner: text that runs upward, no skew."""
    assert Straightening(100, 200, 270).displayed(Box(0, 0, 10, 5)) == Box(0, 190, 5, 200)
