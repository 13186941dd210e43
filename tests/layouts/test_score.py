"""The scoring itself: a reader that tells the truth scores full marks, and each kind of mistake is seen."""

import random
from dataclasses import replace

import pytest
from score import TRUTH, longest_common, score_layout

from indexer.reading.page import Document, Line, Page, Passage, PassageKind, Table, TextState, Word
from indexer.trade.evidence import Box, PageBox

BOX = Box(0, 0, 1, 1)


def line(text: str, level: int = 0) -> tuple[Line, ...]:
    words = tuple(Word(word, BOX, 10.0, False) for word in text.split())
    return (Line(words, BOX, heading_level=level),) if words else ()


def told(truth: dict) -> Document:
    """A document that says exactly what the truth says, headings and warnings in passages of their own."""
    pages, passages = [], []

    def passage(page: int, text: str, path: tuple[str, ...] = ()) -> None:
        boxes = (PageBox(page, BOX),)
        passages.append(Passage(len(passages), page, boxes, path, text, PassageKind.TEXT))

    for page in truth["pages"]:
        number = page["pdf_page"]
        body = line(page["body"]) + line(page["aside"]) + line(page["either"])
        tables = tuple(Table(BOX, tuple(map(tuple, rows))) for rows in page["tables"])
        pages.append(
            Page(
                number, 612, 792, page["rotation"], TextState.TEXT, printed_page=page["printed_page"],
                head=line(page["head"]), foot=line(page["foot"]), body=body, tables=tables,
            )
        )  # fmt: skip
        passage(number, page["body"], tuple(page["headings"]))
    for warning in truth["warnings"]:
        passage(warning["pdf_page"], f"{warning['kind']} {warning['text']} (1) {warning['step']}")
    passage(1, " ".join(truth["joined"]))
    return Document(truth["file"], "", {}, (), tuple(pages), tuple(passages))


@pytest.mark.parametrize("truth", TRUTH, ids=[truth["file"][:-4] for truth in TRUTH])
def test_the_truth_itself_scores_full_marks(truth):
    score = score_layout(told(truth), truth)
    assert (score.words, score.order, score.headings, score.warnings, score.rows) == (1, 1, 1, 1, 1)
    assert (score.wrong("head"), score.wrong("foot"), score.wrong("printed_page")) == ([], [], [])
    assert (score.passages, score.joined, score.false_headings) == (1, 1, 0)
    assert score.faults == []


def spoilt(**change) -> tuple[Document, dict]:
    """The first layout with one thing wrong on its second page."""
    truth = TRUTH[0]
    document = told(truth)
    pages = list(document.pages)
    pages[1] = replace(pages[1], **change)
    return replace(document, pages=tuple(pages)), truth


def test_a_foot_left_in_the_body_is_seen():
    page = told(TRUTH[0]).pages[1]
    score = score_layout(*spoilt(foot=(), body=page.body + page.foot))
    assert score.wrong("foot") == [2]
    assert score.words == 1
    assert score.order < 1


def test_a_body_line_in_the_head_is_seen():
    page = told(TRUTH[0]).pages[1]
    score = score_layout(*spoilt(head=page.head + line("Remove the wheel")))
    assert score.wrong("head") == [2]


def test_halves_of_the_page_in_the_wrong_order_are_seen():
    words = told(TRUTH[0]).pages[1].body[0].text.split()
    half = len(words) // 2
    score = score_layout(*spoilt(body=line(" ".join(words[half:] + words[:half]))))
    assert score.order < 0.8


def test_lost_words_and_a_wrong_page_number_are_seen():
    score = score_layout(*spoilt(body=line("Removal"), printed_page="2"))
    assert score.words < 0.2
    assert score.wrong("printed_page") == [2]


def test_a_warning_cut_from_its_step_is_seen():
    truth = TRUTH[0]
    document = told(truth)
    bodies = document.passages[: len(document.pages)]
    assert (
        score_layout(replace(document, passages=bodies), truth).warnings == 1
    )  # a page-long passage holds both
    cut = tuple(
        replace(passage, text=text) for passage in bodies for text in passage.text.split(" can kill. ")
    )
    assert score_layout(replace(document, passages=cut), truth).warnings < 1


def test_longest_common_subsequence_agrees_with_the_plain_table():
    """Oracle: the textbook table of prefixes."""
    dice = random.Random(7)
    for _ in range(200):
        first, second = (dice.choices("abcde", k=dice.randint(0, 30)) for _ in range(2))
        row = [0] * (len(second) + 1)
        for letter in first:
            row = next_row(row, letter, second)
        assert longest_common(first, second) == row[-1]


def next_row(row: list[int], letter: str, second: list[str]) -> list[int]:
    fresh = [0]
    for n, other in enumerate(second):
        fresh.append(row[n] + 1 if letter == other else max(row[n + 1], fresh[-1]))
    return fresh
