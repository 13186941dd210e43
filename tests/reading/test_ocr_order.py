"""What an engine gives, put into words and lines. No engine is needed."""

from indexer.reading.ocr_engine import PictureWord
from indexer.reading.ocr_rapid import words_of as rapid_words
from indexer.reading.ocr_tesseract import words_of as tesseract_words
from indexer.reading.reading_order import in_reading_order
from indexer.reading.second_look import with_second_look
from indexer.trade.evidence import Box

# as tesseract 5.3.0 prints it (tesseract(1), "tsv")
TSV = """level\tpage_num\tblock_num\tpar_num\tline_num\tword_num\tleft\ttop\twidth\theight\tconf\ttext
1\t1\t0\t0\t0\t0\t0\t0\t2550\t3300\t-1\t
4\t1\t1\t1\t1\t0\t250\t250\t400\t40\t-1\t
5\t1\t1\t1\t1\t1\t250\t250\t90\t40\t96.5\tTORQUE
5\t1\t1\t1\t1\t2\t360\t250\t60\t40\t31\t"5O"
5\t1\t1\t1\t2\t1\t250\t310\t60\t40\t95\t
5\t1\t1\t2\t1\t1\t250\t370\t60\t40\t88.25\tNUTS
"""


def test_tesseract_s_table_gives_words_lines_and_confidence():
    words = tesseract_words(TSV)
    assert [(word.text, word.line, word.confidence) for word in words] == [
        ("TORQUE", 0, 0.965),
        ('"5O"', 0, 0.31),
        ("NUTS", 1, 0.8825),
    ]
    assert (words[0].x0, words[0].top, words[0].x1, words[0].bottom) == (250, 250, 340, 290)


def line(x0: float, top: float, x1: float) -> Box:
    return Box(x0, top, x1, top + 10)


def test_columns_are_read_one_after_the_other_under_their_heading():
    heading = line(50, 10, 550)
    left = [line(50, top, 280) for top in (40, 54, 68, 82)]
    right = [line(320, top, 550) for top in (40, 54, 68, 82)]
    foot = line(250, 150, 350)
    mixed = [right[1], foot, left[0], right[3], left[3], heading, left[1], right[0], left[2], right[2]]
    assert [mixed[index] for index in in_reading_order(mixed)] == [heading, *left, *right, foot]


def test_a_heading_right_on_its_columns_does_not_run_them_together():
    heading = line(50, 28, 550)
    left = [line(50, top, 280) for top in (40, 54, 68)]
    right = [line(320, top, 550) for top in (40, 54, 68)]
    mixed = [right[1], left[0], heading, left[1], right[0], left[2], right[2]]
    assert [mixed[index] for index in in_reading_order(mixed)] == [heading, *left, *right]


def test_one_column_is_read_downward_and_nothing_is_no_order():
    lines = [line(50, 70, 300), line(50, 30, 200), line(60, 50, 320)]
    assert in_reading_order(lines) == [1, 2, 0]
    assert in_reading_order([]) == []


def test_rapidocr_s_lines_are_shared_out_to_their_words_by_characters():
    corners = [[100, 50], [300, 50], [300, 70], [100, 70]]
    words = rapid_words([(corners, "AN4-12A  bolt 12A", 0.91)])  # 17 characters over 200 pixels
    assert [(word.text, round(word.x0), round(word.x1)) for word in words] == [
        ("AN4-12A", 100, 183),
        ("bolt", 206, 253),
        ("12A", 265, 300),
    ]
    assert {(word.line, word.confidence, word.top, word.bottom) for word in words} == {(0, 0.91, 50, 70)}


def word(text: str, x0: float, top: float, confidence: float, line: int, height: float = 10) -> PictureWord:
    return PictureWord(text, x0, top, x0 + 30, top + height, confidence, line)


def test_a_second_look_replaces_only_unlikely_words_and_adds_what_was_missed():
    first = [word("BOLT", 100, 10, 0.95, 0), word("l2", 140, 10, 0.3, 0), word("NUT", 100, 30, 0.9, 1)]
    more = [word("12", 141, 10, 0.9, 0), word("dust", 300, 200, 0.2, 1), word("7", 20, 30, 0.8, 2)]
    more.append(word("|", 60, 30, 0.95, 3))  # what is left of a rule
    assert [(each.text, each.line) for each in with_second_look(first, more)] == [
        ("BOLT", 0),
        ("12", 0),
        ("7", 1),  # a line of its own, before the row it stands in
        ("NUT", 2),
    ]


def test_a_line_of_a_column_that_was_missed_comes_back_under_the_line_above_it():
    left = [word(text, 20, 10 + 14 * row, 0.9, row) for row, text in enumerate(("one", "two", "four"))]
    left[2] = word("four", 20, 52, 0.9, 2)
    right = [word(text, 90, 10 + 14 * row, 0.9, 3 + row) for row, text in enumerate(("a", "b", "c", "d"))]
    read = with_second_look([*left, *right], [word("three", 20, 38, 0.8, 0), word("far", 300, 400, 0.8, 1)])
    assert [each.text for each in read] == ["one", "two", "three", "four", "a", "b", "c", "d", "far"]
    assert [each.line for each in read] == list(range(9))


def test_a_column_of_items_taken_for_one_tall_word_comes_back_as_lines():
    first = [word("FFWN", 20, 10, 0.2, 0, height=90), word("BOLT", 100, 10, 0.95, 1)]
    more = [word("1", 22, 12, 0.9, 0), word("2", 22, 32, 0.9, 1)]
    assert [(each.text, each.line) for each in with_second_look(first, more)] == [
        ("1", 0),
        ("BOLT", 1),
        ("2", 2),
    ]


def test_one_word_of_a_second_look_takes_the_place_of_all_that_it_covers():
    """Tesseract 5.3.0 on a worn line: "engine" 0.5 and "is" 0.57, then "engineis" 0.88 in their place."""
    first = [word("engine", 100, 10, 0.5, 0), word("is", 135, 10, 0.57, 0), word("driven", 170, 10, 0.9, 0)]
    more = [PictureWord("engineis", 100, 10, 165, 20, 0.88, 0)]
    assert [each.text for each in with_second_look(first, more)] == ["engineis", "driven"]


def test_what_is_left_of_the_edges_of_a_likely_word_is_no_word():
    """Tesseract 5.3.0 on a page of white letters: "or" 0.96, and "Cl" 0.9 from the edges that stayed."""
    first = [word("or", 100, 10, 0.96, 0), word("cracked", 140, 10, 0.95, 0)]
    more = [word("Cl", 101, 11, 0.9, 0, height=9), word("7", 20, 10, 0.8, 1)]
    assert [each.text for each in with_second_look(first, more)] == ["7", "or", "cracked"]
