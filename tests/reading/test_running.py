"""Running heads and feet are told from the body: by repetition, else by place and form."""

import pytest
from paper import HEIGHT, Paper, prose

from indexer.reading.document import read_document
from indexer.reading.printed_page import is_page_line
from indexer.settings import Settings

SETTINGS = Settings()
FOOT = HEIGHT - 50


def _pages(paper):
    return read_document(paper.save(), SETTINGS).pages


def _joined(lines):
    return " | ".join(line.text for line in lines)


def _manual(path, count, draw_margins):
    paper = Paper(path)
    for number in range(count):
        for row, line in enumerate(prose(200, 10, start=7 * number)):
            paper.text(72, 110 + 14 * row, line)
        draw_margins(paper, number)
        paper.next_page()
    return paper


def test_a_foot_whose_numbers_and_dates_change(tmp_path):
    dates = ["Jun 02/2028", "Mar 14/2031", "Nov 08/2029", "Jul 19/2030", "Feb 20/2029"]

    def draw(paper, number):
        paper.text(72, 40, "WRENFIELD MODEL 9 MAINTENANCE MANUAL", size=9, bold=True)
        paper.text(490, FOOT - 12, "24-31-00", bold=True)
        paper.text(490, FOOT, f"Page {401 + number}", size=9)
        paper.text(490, FOOT + 11, dates[number], size=9)

    pages = _pages(_manual(tmp_path / "a.pdf", 5, draw))
    assert [page.printed_page for page in pages] == ["401", "402", "403", "404", "405"]
    for number, page in enumerate(pages):
        assert _joined(page.head) == "WRENFIELD MODEL 9 MAINTENANCE MANUAL"
        assert _joined(page.foot) == f"24-31-00 | Page {401 + number} | {dates[number]}"
        assert [line.text for line in page.body] == prose(200, 10, start=7 * number)


def test_left_and_right_pages_mirror_each_other(tmp_path):
    def draw(paper, number):
        ends = [("EFFECTIVITY: ALL", 72), (f"Page {number + 1}", 500)]
        if number % 2:
            ends = [("EFFECTIVITY: ALL", 450), (f"Page {number + 1}", 72)]
        for text, x in ends:
            paper.text(x, FOOT, text, size=9)

    pages = _pages(_manual(tmp_path / "a.pdf", 8, draw))
    assert [page.printed_page for page in pages] == [str(number) for number in range(1, 9)]
    assert all(len(page.body) == 20 for page in pages)


def test_each_chapter_has_its_own_head(tmp_path):
    chapters = ["FUEL SYSTEM"] * 4 + ["LANDING GEAR"] * 4

    def draw(paper, number):
        paper.text(230, 36, chapters[number], size=10, bold=True)

    pages = _pages(_manual(tmp_path / "a.pdf", 8, draw))
    assert [_joined(page.head) for page in pages] == chapters


def test_a_page_number_of_another_form_stays_with_its_foot(tmp_path):
    """Front matter counts T-1, LEP-1: no two pages alike, over a line that runs."""
    labels = ["T-1", "LEP-1", "TC-1", "1", "2", "3"]

    def draw(paper, number):
        paper.text(490, FOOT, f"Page {labels[number]}", size=9)
        paper.text(490, FOOT + 11, "Jun 02/2028", size=9)

    pages = _pages(_manual(tmp_path / "a.pdf", 6, draw))
    assert [page.printed_page for page in pages] == labels


def test_a_single_page_goes_by_place_and_form(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.lines(72, 110, prose(120, 10))
    paper.text(72, FOOT, "24-31-00", size=9)
    paper.text(500, FOOT, "Page 201", size=9)
    (page,) = _pages(paper)
    assert page.printed_page == "201"
    assert _joined(page.foot) == "24-31-00 | Page 201"
    assert len(page.body) == 12


@pytest.mark.parametrize("top", [32, FOOT])
def test_a_bare_number_at_the_edge_of_a_single_page(tmp_path, top):
    paper = Paper(tmp_path / "a.pdf")
    paper.lines(72, 110, prose(120, 10))
    paper.text(72, top, "47701", size=9)
    (page,) = _pages(paper)
    assert page.printed_page == "47701"
    assert len(page.body) == 12


def test_a_last_paragraph_is_no_foot(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    for row, line in enumerate(prose(460, 10)):
        paper.text(72, 90 + 14 * row, line)
    (page,) = _pages(paper)
    assert page.foot == ()
    assert len(page.body) == 46


def test_a_table_that_goes_on_over_pages_is_no_head(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    for number in range(5):
        for row in range(40):
            for column in range(3):
                paper.text(72 + 120 * column, 60 + 14 * row, str(100 * number + 3 * row + column))
        paper.next_page()
    pages = _pages(paper)
    assert all(len(page.body) == 40 for page in pages)


def test_a_step_number_at_the_top_of_every_page_is_no_head(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    for number in range(6):
        paper.text(72, 60, f"({number + 1})")
        for row, line in enumerate(prose(90, 9, start=11 * number)):
            paper.text(110, 60 + 14 * row, line)
        paper.next_page()
    pages = _pages(paper)
    assert all(page.head == () for page in pages)
    assert [page.body[0].text.split()[0] for page in pages] == [f"({n})" for n in range(1, 7)]


def test_a_numbered_heading_that_opens_several_pages_is_no_head(tmp_path):
    def draw(paper, number):
        paper.text(72, 30, "WRENFIELD MODEL 9", size=9)
        paper.text(72, 88, f"{number + 2}.4 Tests", size=11, bold=True)

    pages = _pages(_manual(tmp_path / "a.pdf", 5, draw))
    assert [page.body[0].text for page in pages] == [f"{n}.4 Tests" for n in range(2, 7)]


def test_a_warning_that_opens_several_pages_is_no_head(tmp_path):
    def draw(paper, number):
        paper.text(72, 60, "WARNING: RELEASE THE PRESSURE FIRST.", size=10)

    pages = _pages(_manual(tmp_path / "a.pdf", 4, draw))
    assert all(page.head == () for page in pages)
    assert all("WARNING" in page.body[0].text for page in pages)


@pytest.mark.parametrize(
    "labels",
    [
        ["201", "202", "203"],
        ["iv", "v", "vi"],
        ["2-14", "2-15", "2-16"],
        ["A-1", "A-2", "A-3"],
        ["- 7 -", "- 8 -", "- 9 -"],
        ["PAGE 3 OF 12", "PAGE 4 OF 12", "PAGE 5 OF 12"],
        ["Page LEP-1", "Page LEP-2", "Page LEP-3"],
        ["32-41-00 Page 401", "32-41-00 Page 402", "32-41-00 Page 403"],
    ],
)
def test_page_numbers_of_every_form(tmp_path, labels):
    def draw(paper, number):
        paper.text(290, FOOT, labels[number], size=9)

    pages = _pages(_manual(tmp_path / "a.pdf", 3, draw))
    bare = [label.upper().removeprefix("32-41-00 ").removeprefix("PAGE ") for label in labels]
    bare = [label.split(" OF ")[0].strip("- ") for label in bare]
    assert [page.printed_page.upper() for page in pages] == bare


@pytest.mark.parametrize(
    "line", ["March 2031", "2031", "32-41-00", "Revision 6", "May 12/31", "Mar 14/2031", "SB 32-0012"]
)
def test_dates_chapters_and_revisions_are_no_page_numbers(tmp_path, line):
    def draw(paper, number):
        paper.text(290, FOOT, line, size=9)

    pages = _pages(_manual(tmp_path / "a.pdf", 4, draw))
    assert [page.printed_page for page in pages] == [""] * 4
    assert [_joined(page.foot) for page in pages] == [line] * 4


def test_a_stamp_over_the_page_is_kept_apart_from_its_text(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    body = prose(120, 10)
    paper.lines(72, 110, body)
    paper.canvas.translate(150, 200)
    paper.canvas.rotate(45)
    paper.canvas.setFont("Helvetica", 40)
    paper.canvas.drawString(0, 0, "FOR REFERENCE ONLY")
    (page,) = _pages(paper)
    assert _joined(page.head) == "FOR REFERENCE ONLY"
    assert [line.text for line in page.body] == body


def test_revision_marks_in_the_margin_are_no_words_of_the_text(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    body = prose(120, 10)
    paper.lines(72, 110, body)
    for row in (2, 3, 7):
        paper.text(50, 110 + 14 * row, "R", size=9)
    (page,) = _pages(paper)
    assert [line.text for line in page.body] == body
    assert [line.text for line in page.foot] == ["R", "R", "R"]


def test_a_turned_page_keeps_its_upright_foot(tmp_path):
    """A wide figure is set sideways; head and foot stay as on the other pages."""
    paper = Paper(tmp_path / "a.pdf")
    for number in range(4):
        paper.text(500, FOOT, f"Page {401 + number}", size=9)
        if number == 2:
            paper.canvas.rotate(90)
            for row, line in enumerate(prose(100, 12)):
                paper.canvas.drawString(100, -(90 + 14 * row), line)
        else:
            paper.lines(72, 110, prose(100, 10, start=number))
        paper.next_page()
    pages = _pages(paper)
    assert [page.printed_page for page in pages] == ["401", "402", "403", "404"]
    assert [line.text for line in pages[2].body] == prose(100, 12)


@pytest.mark.parametrize(
    "line, lone, names",
    [
        ("Page 201", False, True),
        ("PAGE 3 OF 12", False, True),
        ("3 of 12", False, True),
        ("201", False, False),
        ("201", True, True),
        ("LEP-1", True, True),
        ("2031", True, False),
        ("See the table on the next page", True, False),
        ("age 401", False, True),  # as OCR reads "Page 401" where it loses the P
        ("P age 401", False, True),
        ("average age 401", False, False),
        ("2-14", True, True),
        ("- 2-14 -", True, True),
        ("42-00", True, False),  # the rest of 32-42-00
        ("-42-10", True, False),
        ("32-42-", True, False),
        ("Page 42-00 401", False, False),
        ("Page 42-10 401", False, False),
        ("Page 2-14 Mar 4/31", False, True),
    ],
)
def test_which_lines_name_a_page(line, lone, names):
    assert is_page_line([line], lone) is names


def test_a_first_heading_that_comes_back_under_the_titles_of_sections_is_no_head(tmp_path):
    titles = [
        "SECTION 5. LANDING GEAR AND BRAKES",
        "SECTION 6. FLAPS",
        "SECTION 7. ELEVATOR TRIM",
        "SECTION 8. FUEL",
    ]

    def draw(paper, number):
        paper.text(72, 40, "WRENFIELD MODEL 9", size=9)
        paper.text(200, 72, titles[number], bold=True, size=12)
        paper.text(72, 90, f"{number + 5}-1. Description.", bold=True)
        paper.text(300, FOOT, f"{number + 5}-1", size=9)

    pages = _pages(_manual(tmp_path / "a.pdf", 4, draw))
    for number, page in enumerate(pages):
        assert _joined(page.head) == "WRENFIELD MODEL 9"
        assert [line.text for line in page.body[:2]] == [titles[number], f"{number + 5}-1. Description."]
