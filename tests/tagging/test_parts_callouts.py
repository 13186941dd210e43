"""Callouts: item numbers on the pages that show a figure. Common practice, no source."""

from indexer.reading.page import Line, Page, TextState, Word
from indexer.tagging.parts_callouts import with_callouts
from indexer.tagging.parts_rows import PartsFigure, PartsRow
from indexer.trade.evidence import Box, PageBox


def line(text, x, top):
    words = []
    for word in text.split(" "):
        words.append(Word(word, Box(x, top, x + 5.0 * len(word), top + 9), 9.0, False))
        x += 5.0 * len(word) + 3
    return Line(tuple(words), Box(words[0].box.x0, top, words[-1].box.x1, top + 9))


def page(number, *placed, head=(), foot=()):
    """placed: (words, x, top) in points."""
    return Page(
        number,
        612,
        792,
        0,
        TextState.TEXT,
        head=tuple(line(*one) for one in head),
        foot=tuple(line(*one) for one in foot),
        body=tuple(line(*one) for one in placed),
    )


def rows(*items, figure=0, start=0, boxes=()):
    """Rows of one figure; a dash before an item: not illustrated."""
    return [
        PartsRow(
            start + n, figure, item.lstrip("-"), "QZ1", "BOLT", 0, "1", 4, boxes, "", not item.startswith("-")
        )
        for n, item in enumerate(items)
    ]


FIGURE = PartsFigure(0, "14", "28-22-00", "Selector", (3,), (4,))
OTHER = PartsFigure(1, "15", "28-22-00", "Line", (3,), (4,))


def callouts(art, made, figures=(FIGURE,)):
    """{item: [(page, x, top)]} of the rows that have callouts."""
    return {
        row.item: [(place.pdf_page, place.box.x0, place.box.top) for place in row.callouts]
        for row in with_callouts(figures, made, art)
        if row.callouts
    }


def test_numbers_that_stand_alone_are_callouts_and_all_places_are_kept():
    art = page(3, ("15", 100, 100), ("15A", 300, 100), ("15", 200, 300), ("7", 400, 400))
    assert callouts([art], rows("15", "15A", "8")) == {
        "15": [(3, 100, 100), (3, 200, 300)],
        "15A": [(3, 300, 100)],
    }


def test_the_box_is_that_of_the_number():
    art = page(3, ("15", 100, 100))
    assert with_callouts([FIGURE], rows("15"), [art])[0].callouts == (PageBox(3, Box(100, 100, 110, 109)),)


def test_numbers_among_words_are_no_callouts():
    art = page(
        3,
        ("12 IN.", 100, 100),
        ("FIGURE 14", 100, 140),
        ("SHEET 2 OF 3", 100, 180),
        ("SEE ITEM 5", 100, 220),
        ("1.25", 100, 260),
        ("1/4", 100, 300),
        ("2 1/2", 100, 340),
        ("10 20 30", 100, 380),
    )
    assert callouts([art], rows("1", "2", "3", "4", "5", "10", "12", "14", "20", "25", "30")) == {}


def test_running_heads_and_feet_hold_no_callouts():
    art = page(3, ("5", 300, 300), head=[("28", 300, 20)], foot=[("12", 300, 770)])
    assert callouts([art], rows("5", "12", "28")) == {"5": [(3, 300, 300)]}


def test_other_pages_hold_no_callouts():
    assert callouts([page(2, ("5", 300, 300)), page(4, ("5", 300, 300))], rows("5")) == {}


def test_a_part_that_is_not_illustrated_has_no_callout():
    assert callouts([page(3, ("5", 300, 300))], rows("-5")) == {}


def test_several_items_at_one_place():
    art = page(3, ("3,4", 100, 100), ("5 AND 6", 100, 200), ("7 THRU 10", 100, 300), ("11, 12", 100, 400))
    found = callouts([art], rows(*(str(n) for n in range(1, 14))))
    assert sorted(found, key=int) == ["3", "4", "5", "6", "7", "8", "9", "10", "11", "12"]
    assert found["8"] == found["9"] == [(3, 108, 300)]


def test_a_remark_behind_the_number():
    art = page(
        3, ("15 (2 PLACES)", 100, 100), ("16 (REF)", 100, 200), ("17 TYP", 100, 300), ("18 MM", 100, 400)
    )
    assert list(callouts([art], rows("15", "16", "17", "18"))) == ["15", "16", "17"]


def test_a_figure_printed_before_the_item():
    art = page(3, ("14-7", 100, 100), ("15-8", 200, 100))
    assert list(callouts([art], rows("7", "8"))) == ["7"]


def test_a_list_on_the_same_page_holds_no_callouts():
    box = (PageBox(3, Box(50, 500, 560, 512)),)
    art = page(3, ("5", 300, 300), ("1 2 3 4 5 6 7", 200, 480), ("5", 52, 500), ("6", 540, 500))
    assert callouts([art], rows("5", "6", boxes=box)) == {"5": [(3, 300, 300)]}


def test_of_a_page_with_two_figures_only_items_of_one_of_them_are_told():
    art = page(3, ("5", 300, 300), ("6", 300, 400))
    made = [*rows("5", "6"), *rows("5", figure=1, start=2)]
    found = with_callouts([FIGURE, OTHER], made, [art])
    assert [len(row.callouts) for row in found] == [0, 1, 0]


def test_two_rows_of_one_item_share_its_callouts():
    found = with_callouts([FIGURE], rows("4", "4"), [page(3, ("4", 300, 300))])
    assert [len(row.callouts) for row in found] == [1, 1]


def test_nothing_to_find():
    assert with_callouts([], [], []) == ()
    assert callouts([page(3, ("5", 300, 300))], rows("")) == {}
