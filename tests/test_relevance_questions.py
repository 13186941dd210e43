"""The relevance benchmark (bench/relevance.py): its measures by hand, and its questions in good order."""

import sys
from math import isclose, log2
from pathlib import Path

import pytest

sys.path.append(str(Path(__file__).parent / "bench"))

from relevance_judged import CLASSES, Passage, grades, read_questions
from relevance_measures import ndcg, recall, reciprocal_rank, right_chapter

QUESTIONS = read_questions()
GRADES = {"a": 2, "b": 2, "c": 1, "d": 0}


def test_measures_are_those_worked_out_by_hand():
    """From the definitions in Manning, Raghavan and Schütze, Introduction to Information Retrieval, 8.4."""
    order = ["x", "a", "c"]
    assert isclose(recall(order, GRADES), 2 / 3)
    assert reciprocal_rank(order, GRADES) == 1 / 2
    best = 3 + 3 / log2(3) + 1 / 2
    assert isclose(ndcg(order, GRADES), (3 / log2(3) + 1 / 2) / best)
    assert ndcg(["a", "b", "c", "d"], GRADES) == 1 and ndcg(["d"], GRADES) == 0


@pytest.mark.parametrize(
    ("chapters", "found"), [(["32", "32", "", "24"], 1.0), (["32", "12", "05", "24"], 0.0), ([], 0.0)]
)
def test_the_right_chapter_is_one_of_the_first_three_not_numbered_among_them(chapters, found):
    assert right_chapter(chapters, "24") == found


def test_there_are_two_hundred_questions_and_thirty_of_each_class_each_with_an_answer():
    assert len({each.text for each in QUESTIONS}) == len(QUESTIONS) >= 200
    assert all(sum(each.kind == kind for each in QUESTIONS) >= 30 for kind in CLASSES)
    for each in QUESTIONS:
        assert any(judgement.grade == 2 for judgement in each.judgements), each.text
        assert all(judgement.opening for judgement in each.judgements), each.text


def test_a_judgement_holds_for_the_passage_in_which_its_words_stand():
    question = next(each for each in QUESTIONS if each.text == "tail wheel shimmies")
    (answer,) = (judgement for judgement in question.judgements if judgement.grade == 2)
    whole = Passage("p-1", answer.file, answer.pdf_page, "", f"Before it. {answer.opening.upper()} and on.")
    elsewhere = Passage("p-2", answer.file, answer.pdf_page + 1, "", whole.text)
    found, lost = grades(question, [whole, elsewhere])
    assert found == {"p-1": 2} and answer not in lost
