"""Headings, their levels, and the outline."""

from pathlib import Path

from paper import Paper, prose

from indexer.reading.document import read_document
from indexer.settings import Settings

SETTINGS = Settings()
DATA = Path(__file__).parent.parent / "data"


def _headings(document):
    return [
        (line.heading_level, line.text) for page in document.pages for line in page.body if line.heading_level
    ]


def _manual(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.text(200, 80, "ALTERNATOR - MAINTENANCE PRACTICES", size=13, bold=True)
    top = 120
    for number, title in enumerate(["General", "Removal", "Installation"], start=1):
        paper.text(72, top, f"{number}. {title}", bold=True)
        top = paper.lines(72, top + 22, prose(40, 10, start=9 * number)) + 6
        paper.text(72, top, f"A. {title} of the belt", bold=True)
        top = paper.lines(94, top + 22, prose(40, 10, start=5 * number)) + 10
    return read_document(paper.save(), SETTINGS)


def test_levels_follow_size_capitals_and_number(tmp_path):
    document = _manual(tmp_path)
    assert _headings(document) == [
        (1, "ALTERNATOR - MAINTENANCE PRACTICES"),
        (2, "1. General"),
        (3, "A. General of the belt"),
        (2, "2. Removal"),
        (3, "A. Removal of the belt"),
        (2, "3. Installation"),
        (3, "A. Installation of the belt"),
    ]


def test_the_heading_path_runs_from_the_strongest_down(tmp_path):
    paths = [passage.heading_path for passage in _manual(tmp_path).passages]
    title = "ALTERNATOR - MAINTENANCE PRACTICES"
    assert paths[0] == (title, "1. General")
    assert paths[1] == (title, "1. General", "A. General of the belt")
    assert paths[2] == (title, "2. Removal")


def _titled(tmp_path, titles):
    paper = Paper(tmp_path / "a.pdf")
    top = 80
    for number, title in enumerate(titles):
        paper.text(72, top, title, bold=True)
        top = paper.lines(72, top + 20, prose(20, 10, start=7 * number)) + 8
    return [level for level, _ in _headings(read_document(paper.save(), SETTINGS))]


def test_a_title_after_which_the_count_restarts_stands_above(tmp_path):
    titles = ["BRAKES", "1. GENERAL", "2. TEST", "WHEELS", "1. GENERAL", "2. CLEANING"]
    assert _titled(tmp_path, titles) == [1, 2, 2, 1, 2, 2]


def test_a_title_over_which_the_count_goes_on_stands_beside(tmp_path):
    titles = ["4. RECORDS", "CONTROL CHART", "5. ENTRIES", "6. FORMS"]
    assert _titled(tmp_path, titles) == [1, 1, 1, 1]


def test_a_typewritten_manual_all_in_capitals(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.canvas.setFont("Courier", 10)

    def typed(x, top, text):
        paper.canvas.drawString(x, paper.height - top, text)

    typed(265, 80, "SECTION V")
    typed(72, 120, "5-1.")
    typed(120, 120, "REMOVAL OF WHEEL.")
    typed(120, 144, "JACK THE AIRPLANE AND TAKE OFF THE HUB CAP. DRAW THE COTTER PIN")
    typed(120, 168, "AND UNSCREW THE AXLE NUT. PULL THE WHEEL STRAIGHT OFF THE AXLE.")
    typed(72, 192, "5-2.")
    typed(120, 192, "CLEANING.")
    typed(120, 216, "WASH THE BEARINGS IN NAPHTHA AND DRY THEM WITH A CLEAN CLOTH ONLY.")
    assert _headings(read_document(paper.save(), SETTINGS)) == [
        (1, "SECTION V"),
        (2, "5-1. REMOVAL OF WHEEL."),
        (2, "5-2. CLEANING."),
    ]


def test_bold_paragraphs_steps_and_lists_are_no_headings(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.lines(72, 100, prose(60, 10))
    paper.lines(72, 200, prose(50, 10, start=3), bold=True)
    paper.text(72, 300, "(1) Remove the two bolts.")
    paper.text(72, 320, "(2) Remove the housing.")
    paper.text(72, 340, "• bolt, nut and washer")
    paper.text(72, 360, "See the table")
    assert _headings(read_document(paper.save(), SETTINGS)) == []


def test_names_in_a_drawing_are_no_headings(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.lines(72, 100, prose(60, 10))
    for number, name in enumerate(["PRESSURE PLATE", "BACK PLATE", "TIE BOLT", "DISC"]):
        paper.text(150 + 70 * number, 300 + 40 * number, name)
    assert _headings(read_document(paper.save(), SETTINGS)) == []


def test_a_title_over_two_lines_is_one_heading(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.text(90, 100, "ELECTRICAL POWER - ALTERNATOR - INSPECTION OF THE", size=13, bold=True)
    paper.text(200, 116, "ADJUSTING ARM", size=13, bold=True)
    paper.lines(72, 150, prose(60, 10))
    document = read_document(paper.save(), SETTINGS)
    assert document.passages[0].heading_path == (
        "ELECTRICAL POWER - ALTERNATOR - INSPECTION OF THE ADJUSTING ARM",
    )


def test_headings_of_a_real_circular():
    """FAA AC 43-9C names its paragraphs in its own bookmarks, which are not read for headings.

    Paragraphs that begin on the line of their title ("1. PURPOSE. This circular ...") are no headings to us;
    in the bookmarks they carry the whole paragraph.
    """
    document = read_document(DATA / "real" / "AC-43-9C_CHG_1.pdf", SETTINGS)
    titles = [entry.title for entry in document.outline if entry.title[:1].isdigit()]
    titles = [title for title in titles if title.isupper() and len(title) < 60]
    assert len(titles) >= 8
    found = [text for _, text in _headings(document)]
    assert [title for title in titles if title not in found] == []
    levels = {level for level, text in _headings(document) if text in titles}
    assert len(levels) == 1


def test_the_outline_of_a_real_circular():
    document = read_document(DATA / "real" / "AC-43-9C_CHG_1.pdf", SETTINGS)
    assert len(document.outline) == 70  # as `pdfinfo` and other readers count them
    assert all(entry.level >= 1 and 1 <= entry.pdf_page <= 12 for entry in document.outline)


def test_bookmarks_that_lead_nowhere_have_no_page():
    """py-pdf/pypdf made this file so: some of its nine bookmarks point at pages that do not exist."""
    document = read_document(DATA / "robustness" / "pypdf__outlines-with-invalid-destinations.pdf", SETTINGS)
    assert len(document.outline) == 9
    assert any(entry.pdf_page is None for entry in document.outline)
    assert any(entry.pdf_page is not None for entry in document.outline)


def test_levels_of_bookmarks(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.canvas.bookmarkPage("one")
    paper.canvas.addOutlineEntry("Chapter 24", "one", level=0)
    paper.text(72, 100, "first page")
    paper.next_page()
    paper.canvas.bookmarkPage("two")
    paper.canvas.addOutlineEntry("24-31 Alternators", "two", level=1)
    paper.text(72, 100, "second page")
    outline = read_document(paper.save(), SETTINGS).outline
    assert [(entry.level, entry.title, entry.pdf_page) for entry in outline] == [
        (1, "Chapter 24", 1),
        (2, "24-31 Alternators", 2),
    ]
