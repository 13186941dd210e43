"""Passages: one subject each, a warning with the step it guards, every word in one place."""

from collections import Counter
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from paper import HEIGHT, Paper, prose

from indexer.reading.document import read_document
from indexer.reading.hyphens import Hyphenation
from indexer.reading.page import Line, Page, PassageKind, TextState, Word
from indexer.reading.passages import cut_passages
from indexer.settings import Settings
from indexer.trade.evidence import Box

SETTINGS = Settings()
DATA = Path(__file__).parent.parent / "data"


def _read(paper):
    return read_document(paper.save(), SETTINGS)


# --- hyphens ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "lines, joined",
    [
        (["Check the hydrau-", "lic line"], "Check the hydraulic\nline"),
        (["see chapter 32-", "41-00 first"], "see chapter 32-41-00\nfirst"),
        (["part MS20470-", "4 and its nut"], "part MS20470-4\nand its nut"),
        (["TSO-", "C194 units"], "TSO-C194\nunits"),
        (["a One-", "Time repair"], "a One-Time\nrepair"),
        (["a non-", "metallic seal"], "a non-metallic\nseal"),
        (["torque -", "then lockwire"], "torque -\nthen lockwire"),
        (["the last line-"], "the last line-"),
        (["pages 5-", "7 only"], "pages 5-7\nonly"),
        (["end of hydrau-", "lic"], "end of hydraulic"),
    ],
)
def test_words_broken_over_a_line_end(lines, joined):
    assert Hyphenation(lines).joined(lines) == joined


def test_the_file_itself_says_whether_a_hyphen_belongs_to_the_word():
    lines = ["a cross-", "feed valve"]
    assert Hyphenation([*lines, "the crossfeed valve"]).joined(lines) == "a crossfeed\nvalve"
    assert Hyphenation([*lines, "the cross-feed valve"]).joined(lines) == "a cross-feed\nvalve"


# --- warnings --------------------------------------------------------------------------------------


def _steps(paper, top, first, count):
    for number in range(first, first + count):
        paper.text(72, top, f"({number})")
        top = paper.lines(100, top, prose(22, 11, start=13 * number)) + 8
    return top


@pytest.mark.parametrize("word, kind", [("WARNING", PassageKind.WARNING), ("CAUTION", PassageKind.CAUTION)])
def test_a_warning_goes_with_the_step_after_it(tmp_path, word, kind):
    paper = Paper(tmp_path / "a.pdf")
    top = _steps(paper, 80, 1, 9)
    paper.text(110, top, f"{word}: RELEASE THE PRESSURE IN THE ACCUMULATOR BEFORE YOU")
    paper.text(180, top + 14, "OPEN THE LINE. THE OIL CAN CUT THE SKIN.")
    top = _steps(paper, top + 40, 10, 8)
    guarded = [passage for passage in _read(paper).passages if passage.kind is kind]
    assert len(guarded) == 1
    text = guarded[0].text
    assert text.index(f"{word}: RELEASE") < text.index("THE OIL CAN CUT") < text.index("(10)")


def test_a_warning_at_the_foot_of_a_page_takes_the_step_from_the_next(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    _steps(paper, 80, 1, 16)
    paper.text(110, 690, "WARNING: DO NOT TURN THE PROPELLER WITH THE MAGNETOS ON.")
    paper.next_page()
    _steps(paper, 80, 17, 4)
    document = _read(paper)
    warning = next(passage for passage in document.passages if passage.kind is PassageKind.WARNING)
    assert warning.pdf_page == 1
    assert "DO NOT TURN THE PROPELLER" in warning.text and "(17)" in warning.text
    assert {box.pdf_page for box in warning.boxes} == {1, 2}


def test_a_warning_over_the_page_break_with_heads_and_feet_between(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    for number in range(4):
        paper.text(72, 30, "WRENFIELD MODEL 9 MAINTENANCE MANUAL", size=9)
        paper.text(500, HEIGHT - 40, f"Page {number + 201}", size=9)
        _steps(paper, 80, 1 + 20 * number, 15)
        if number == 1:
            paper.text(110, 670, "CAUTION: DO NOT USE SOLVENT ON THE SEAL.")
        paper.next_page()
    caution = next(p for p in _read(paper).passages if p.kind is PassageKind.CAUTION)
    assert "DO NOT USE SOLVENT" in caution.text and "(41)" in caution.text
    assert "Page" not in caution.text and "WRENFIELD" not in caution.text


def test_several_warnings_in_a_row_go_with_the_same_step(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    top = _steps(paper, 80, 1, 5)
    paper.text(110, top, "WARNING: WEAR GOGGLES.")
    paper.text(110, top + 24, "WARNING: KEEP FLAMES AWAY.")
    paper.text(110, top + 48, "CAUTION: THE FLUID SPOILS PAINT.")
    paper.text(110, top + 72, "NOTE: A second person is of help.")
    _steps(paper, top + 100, 6, 3)
    warned = [p for p in _read(paper).passages if p.kind is PassageKind.WARNING]
    assert len(warned) == 1
    for part in ("WEAR GOGGLES", "KEEP FLAMES", "SPOILS PAINT", "second person", "(6)"):
        assert part in warned[0].text


def test_the_word_alone_on_a_line_takes_the_paragraph_below_it_and_the_step(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.text(280, 100, "WARNING", bold=True)
    paper.text(150, 124, "Oxygen and oil make fire.")
    paper.text(72, 160, "1. Open the valve by a quarter of a turn.")
    paper.text(72, 180, "2. Wait until the gauge stops.")
    passages = _read(paper).passages
    assert passages[0].kind is PassageKind.WARNING
    assert "make fire" in passages[0].text and "Open the valve" in passages[0].text


def test_a_warning_before_a_heading_goes_with_what_stands_under_it(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.text(72, 100, "1. General", bold=True)
    paper.lines(72, 120, prose(80, 10))
    paper.text(110, 260, "WARNING: THE WHEEL HALVES CAN COME APART UNDER PRESSURE.")
    paper.text(72, 290, "2. Removal", bold=True)
    _steps(paper, 310, 1, 3)
    warned = next(p for p in _read(paper).passages if p.kind is PassageKind.WARNING)
    assert warned.heading_path == ("2. Removal",)
    assert "COME APART" in warned.text and "(1)" in warned.text


@pytest.mark.parametrize(
    "line", ["WARNING LIGHT ON", "CAUTION LAMP TEST", "NOTE BOOK", "The WARNING: text", "Warning systems"]
)
def test_the_names_of_lamps_are_no_warnings(tmp_path, line):
    paper = Paper(tmp_path / "a.pdf")
    paper.lines(72, 100, [line, *prose(60, 10)])
    kinds = {passage.kind for passage in _read(paper).passages}
    assert not kinds & {PassageKind.WARNING, PassageKind.CAUTION, PassageKind.NOTE}


# --- subjects and sizes ----------------------------------------------------------------------------


def test_a_passage_never_crosses_a_heading(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    top = 80
    for number in range(1, 5):
        paper.text(72, top, f"{number}. Subject {number}", bold=True)
        top = paper.lines(72, top + 20, [f"marker{number} " + line for line in prose(30, 10)]) + 12
    document = _read(paper)
    assert len(document.passages) == 4
    for number, passage in enumerate(document.passages, start=1):
        assert passage.heading_path == (f"{number}. Subject {number}",)
        assert {word for word in passage.text.split() if word.startswith("marker")} == {f"marker{number}"}


def test_a_heading_with_nothing_under_it_can_be_found(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.text(72, 100, "1. Special tools", bold=True)
    paper.text(72, 130, "2. Removal", bold=True)
    paper.lines(72, 150, prose(40, 10))
    passages = _read(paper).passages
    assert passages[0].text == "1. Special tools"
    assert passages[1].heading_path == ("2. Removal",)


def test_short_steps_share_a_passage_and_long_text_is_cut(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    for number in range(1, 13):
        paper.text(72, 60 + 18 * number, f"({number}) Remove screw number {number} of the access panel.")
    paper.next_page()
    for row, line in enumerate(prose(500, 11)):
        paper.text(72, 60 + 14 * row, line)
    sizes = [len(passage.text.split()) for passage in _read(paper).passages]
    assert sum(sizes) == 12 * 9 + 500
    assert max(sizes) <= 260 and len(sizes) <= 6


def test_a_sentence_that_runs_over_the_page_stays_in_one_passage(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.lines(72, 80, prose(440, 10))
    paper.text(72, 710, "Turn the crankshaft slowly until the timing mark of the")
    paper.next_page()
    paper.text(72, 80, "flange lines up with the split of the case.")
    paper.text(72, 120, "This is another paragraph and it begins on the second page.")
    passages = _read(paper).passages
    running = next(p for p in passages if "timing mark of the\nflange lines up" in p.text)
    assert [box.pdf_page for box in running.boxes] == [1, 2]
    assert "another paragraph" not in running.text


def test_a_new_paragraph_on_a_new_page_begins_a_passage(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.text(72, 80, "The first page holds this sentence.")
    paper.next_page()
    paper.text(72, 80, "The second page holds that one.")
    assert [passage.pdf_page for passage in _read(paper).passages] == [1, 2]


def test_figure_titles_are_known(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.text(200, 400, "Figure 201. Brake Assembly", bold=True)
    (passage,) = _read(paper).passages
    assert passage.kind is PassageKind.FIGURE_TITLE


# --- every word in one place -----------------------------------------------------------------------


def _accounted(document):
    """Letters of the body lines, and letters of the passages plus the headings that only paths hold."""
    pages = [page for page in document.pages if page.state is TextState.TEXT]
    in_bodies = Counter()
    in_headings = Counter()
    for page in pages:
        for line in page.body:
            words = line.text.replace("-", "").split()
            (in_headings if line.heading_level else in_bodies).update("".join(words))
    in_passages = Counter()
    for passage in document.passages:
        in_passages.update("".join(passage.text.replace("-", "").split()))
    return in_bodies, in_headings, in_passages


@pytest.mark.parametrize("path", sorted((DATA / "real").glob("*.pdf")), ids=lambda path: path.stem)
def test_no_letter_of_a_real_document_is_lost_or_doubled(path):
    bodies, headings, passages = _accounted(read_document(path, SETTINGS))
    assert not bodies - passages  # nothing lost
    assert not passages - bodies - headings  # nothing twice; a bare heading is a passage of its own


WORDS = st.sampled_from(
    ["bolt", "the", "hydrau-", "lic", "32-", "41-00", "WARNING:", "CAUTION", "NOTE:", "(1)", "A.", "1.", "•"]
    + ["ends.", "Figure", "201", "TORQUE", "Remove", "-", "Table", "seal,"]
)
LINES = st.lists(
    st.tuples(
        st.lists(WORDS, min_size=1, max_size=14),
        st.integers(0, 3),  # indent
        st.integers(0, 3),  # white above
        st.integers(0, 3),  # heading level
        st.integers(0, 1),  # column
    ),
    max_size=40,
)


def _page(number, lines):
    laid, top = [], 60.0
    for texts, indent, white, level, column in lines:
        top += 12 + 8 * white
        x = 72.0 + 20 * indent + 250 * column
        words = []
        for text in texts:
            words.append(Word(text, Box(x, top, x + 6 * len(text), top + 11), 11.0, False))
            x += 6 * len(text) + 3
        box = Box(words[0].box.x0, top, words[-1].box.x1, top + 11)
        laid.append(Line(tuple(words), box, column, level))
    return Page(number, 612.0, 792.0, 0, TextState.TEXT, body=tuple(laid))


@settings(max_examples=60, deadline=None)
@given(st.lists(LINES, min_size=1, max_size=4))
def test_every_word_lands_in_one_passage_or_heading_path(sheets):
    pages = [_page(number, lines) for number, lines in enumerate(sheets, start=1)]
    passages = cut_passages(pages)
    body = Counter(
        "".join(line.text for page in pages for line in page.body if not line.heading_level).replace("-", "")
    )
    headings = Counter(
        "".join(line.text for page in pages for line in page.body if line.heading_level).replace("-", "")
    )
    found = Counter("".join(passage.text for passage in passages).replace("-", "").replace("\n", " "))
    for counter in (body, headings, found):
        del counter[" "]
    assert not body - found
    assert not found - body - headings
    assert [passage.ordinal for passage in passages] == list(range(len(passages)))
    for page in pages:
        for line in page.body:
            if line.heading_level:
                assert any(
                    line.words[0].text.rstrip("-") in " ".join((*passage.heading_path, passage.text))
                    for passage in passages
                )


@settings(max_examples=60, deadline=None)
@given(st.lists(LINES, min_size=1, max_size=4))
def test_a_warning_is_never_the_last_thing_in_a_passage_but_the_last(sheets):
    pages = [_page(number, lines) for number, lines in enumerate(sheets, start=1)]
    passages = cut_passages(pages)
    for passage in passages[:-1]:
        last_line = passage.text.rstrip().rsplit("\n", 1)[-1]
        assert last_line not in ("CAUTION", "WARNING:"), passage
