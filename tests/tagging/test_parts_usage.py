"""Usage codes: the codes of a cell, and the words that explain them.

Verified in printed introductions: letters tie parts to variants of the assembly, blank = all; codes hold
in their figure alone; three-letter codes under "Code Used On" (US Army TM 1-2835-209-23P, read). The forms of
the footnotes: common practice, no source.
"""

import pytest

from indexer.reading.page import Line, Page, TextState, Word
from indexer.tagging.parts_rows import PartsFigure, PartsRow, UsageCode
from indexer.tagging.parts_usage import explained_codes, read_usage, with_usage
from indexer.trade.evidence import Box


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("A", ["A"]),
        ("AB", ["A", "B"]),
        ("ABD", ["A", "B", "D"]),
        ("A,B", ["A", "B"]),
        ("A/B", ["A", "B"]),
        ("A B", ["A", "B"]),
        ("A, C AND D", ["A", "C", "D"]),
        ("(A)", ["A"]),
        ("A-D", ["A", "B", "C", "D"]),
        ("G THRU K", ["G", "H", "J", "K"]),  # I is no code
        ("A,\nB", ["A", "B"]),
        ("A,A", ["A"]),
        ("BA", ["BA"]),  # letters that do not rise are one code
        ("PAA", ["PAA"]),
        ("QZ62", ["QZ62"]),
        ("QZ62, QZ62A", ["QZ62", "QZ62A"]),
        ("H-14B", ["H-14B"]),
        ("172RG/R182", ["172RG", "R182"]),
        ("12", ["12"]),
        ("", []),
        ("-", []),
        ("\u2014", []),
    ],
)
def test_codes_of_a_cell(text, codes):
    assert list(read_usage(text)) == codes


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        (["A MODEL QZ62 S/N 001-050"], {"A": "MODEL QZ62 S/N 001-050"}),
        (["CODE A: S/N 001 THRU 050"], {"A": "S/N 001 THRU 050"}),
        (["Code A S/N 001 thru 050"], {"A": "S/N 001 thru 050"}),
        (["USAGE CODE A - S/N 001 THRU 050"], {"A": "S/N 001 THRU 050"}),
        (["EFFECTIVITY CODE A = QZ62-100-1"], {"A": "QZ62-100-1"}),
        (["A = S/N 001-050"], {"A": "S/N 001-050"}),
        (["A: P/N QZ62-100-1"], {"A": "P/N QZ62-100-1"}),
        (["A - S/N 001-050"], {"A": "S/N 001-050"}),
        (["(A) S/N 001-050"], {"A": "S/N 001-050"}),
        (["* A \u2013 S/N 001-050"], {"A": "S/N 001-050"}),
        (["CODE 2: S/N 001-050"], {"2": "S/N 001-050"}),
        (["A = QZ62; B = QZ62A"], {"A": "QZ62", "B": "QZ62A"}),
        (["A: S/N 001-050 B: S/N 051 AND ON"], {"A": "S/N 001-050", "B": "S/N 051 AND ON"}),
        (["C = S/N 100 THRU", "200 EXCEPT", "150"], {"C": "S/N 100 THRU 200 EXCEPT 150"}),
        (["C = S/N 100", "AND ON"], {"C": "S/N 100"}),  # the line above is not unfinished
        (["USAGE CODES", "A QZ62 001-050", "B QZ62A 051-099"], {"A": "QZ62 001-050", "B": "QZ62A 051-099"}),
        (["Code Used On", "PAA 3800480-1", "PAB 3800480-2"], {"PAA": "3800480-1", "PAB": "3800480-2"}),
        (["A = S/N 1-50", "A = S/N 1 - 50"], {"A": "S/N 1-50"}),  # the same twice
        (["A = S/N 1-50", "A = S/N 51-99"], {}),  # two meanings: neither
        # no explanation
        (["A BOLT IS USED 4 TIMES"], {}),
        (["A QZ62 001-050"], {}),  # no heading above, no sign
        (["AR = AS REQUIRED"], {}),  # an abbreviation
        (["1 KT28-1400-1 VALVE, A: 12"], {}),
        (["TORQUE A = 12"], {}),
        (["A part number in this catalog does not show that the part can be installed."], {}),
        (["A model 62 airplane has 2 of them."], {}),
        (["A Model QZ62, serials 1 thru 40"], {"A": "Model QZ62, serials 1 thru 40"}),
        (["A = 1.25 IN.", "B = 12 MM"], {}),  # sizes
        (["I = S/N 1-50"], {}),  # I is no code; it may be a 1
        (["A ="], {}),
    ],
)
def test_words_of_the_codes(lines, words):
    found, _ = explained_codes([(7, line) for line in lines])
    assert {code: usage.words for code, usage in found.items()} == words
    assert all(usage.pdf_page == 7 and usage.code == code for code, usage in found.items())


def page(number, *lines):
    """A page with these lines; "|" in a line stands for a gap between two pieces."""
    made = []
    for place, text in enumerate(lines):
        words, x, top = [], 50.0, 100.0 + 14 * place
        for piece in text.split("|"):
            for word in piece.split():
                words.append(Word(word, Box(x, top, x + 5 * len(word), top + 9), 9.0, False))
                x += 5 * len(word) + 4
            x += 40
        made.append(
            Line(tuple(words), Box(words[0].box.x0, words[0].box.top, words[-1].box.x1, words[-1].box.bottom))
        )
    return Page(number, 612, 792, 0, TextState.TEXT, body=tuple(made))


def rows_with(*cells, figure=0):
    return [
        PartsRow(n, figure, "1", "QZ1", "BOLT", 0, "1", 3, (), "", usage=tuple(map(UsageCode, read_usage(c))))
        for n, c in enumerate(cells)
    ]


FIGURES = [PartsFigure(0, "1", "", "", (3,), (4,)), PartsFigure(1, "2", "", "", (5,), (6,))]


def test_a_code_takes_the_words_of_its_figure_before_those_of_the_front_pages():
    pages = [
        page(1, "USAGE CODES", "A = S/N 900 AND ON", "B = S/N 800 AND ON"),
        page(4, "1|QZ1|BOLT|A|1", "A|S/N 001-050"),
        page(6, "C = S/N 1"),
    ]
    first, second = with_usage(rows_with("A,B", "C"), FIGURES, pages)
    assert first.usage == (UsageCode("A", "S/N 001-050", 4), UsageCode("B", "S/N 800 AND ON", 1))
    assert second.usage == (UsageCode("C"),)  # explained for another figure only


def test_a_code_explained_twice_for_its_figure_takes_no_words_from_the_front_pages_either():
    pages = [page(1, "A = S/N 900 AND ON"), page(4, "A = S/N 1-50", "A = S/N 51-99")]
    assert with_usage(rows_with("A"), FIGURES, pages)[0].usage == (UsageCode("A"),)


def test_two_letters_are_one_code_where_the_catalog_explains_them_as_one():
    pages = [page(4, "AB = S/N 1-50")]
    assert with_usage(rows_with("AB"), FIGURES, pages)[0].usage == (UsageCode("AB", "S/N 1-50", 4),)
    pages = [page(4, "AB = S/N 1-50", "A = S/N 51-99")]
    assert [u.code for u in with_usage(rows_with("AB"), FIGURES, pages)[0].usage] == ["A", "B"]


def test_letters_of_a_procedure_in_the_front_pages_explain_no_code():
    pages = [
        page(1, "A: REMOVE THE 4 BOLTS", "B = 12 PLACES", "C = S/N 1-50", "D = QZ62, QZ62A AND ON"),
        page(3, "E = VIEW LOOKING AFT"),
    ]
    words = {u.code: u.words for u in with_usage(rows_with("A,B,C,D,E"), FIGURES, pages)[0].usage}
    assert words == {"A": "", "B": "", "C": "S/N 1-50", "D": "QZ62, QZ62A AND ON", "E": ""}
    pages = [page(1, "A PART NUMBER OF 2 LETTERS DOES NOT SHOW", "B AIRPLANES 1 THRU 40", "C FOR 2 SEATS")]
    words = {u.code: u.words for u in with_usage(rows_with("A,B,C"), FIGURES, pages)[0].usage}
    assert words == {"A": "", "B": "AIRPLANES 1 THRU 40", "C": ""}
    pages = [page(1, "USAGE CODES", "A = LEFT-HAND DRIVE"), page(4, "E = DELUXE SEAT")]
    usage = with_usage(rows_with("A,E"), FIGURES, pages)[0].usage
    assert [code.words for code in usage] == ["LEFT-HAND DRIVE", "DELUXE SEAT"]


def test_a_model_is_its_own_words():
    assert with_usage(rows_with("H-14B"), FIGURES, [])[0].usage == (UsageCode("H-14B", "H-14B"),)


def test_words_stop_where_a_row_of_the_table_beside_them_begins():
    pages = [page(4, "A = S/N 1-50|5|AN4-12A|BOLT", "7 KT28-1400-1 VALVE|CODE B: S/N 51-99")]
    usage = with_usage(rows_with("A,B"), FIGURES, pages)[0].usage
    assert [code.words for code in usage] == ["S/N 1-50", "S/N 51-99"]


def test_rows_without_codes_are_left_alone():
    rows = rows_with("", "")
    assert with_usage(rows, FIGURES, [page(4, "A = S/N 1-50")]) == tuple(rows)
    assert with_usage([], [], []) == ()
