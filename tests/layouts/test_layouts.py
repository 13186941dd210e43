"""The drawn layouts are read right: words, order, running lines, page numbers, warnings with steps.

Layouts and truth were written down and drawn without sight of the reading code; layouts.md tells how.
"""

import json

import pytest
from draw import books
from score import TRUTH, score_file


def test_the_truth_is_what_the_drawing_script_draws():
    assert json.loads(json.dumps([book.truth() for book in books()])) == TRUTH


@pytest.mark.parametrize("truth", TRUTH, ids=[truth["file"][:-4] for truth in TRUTH])
def test_a_layout_is_read_right(truth):
    score = score_file(truth)
    faults = [f"page {page.pdf_page} {fault}" for page in score.pages for fault in page.faults] + score.faults
    told = "\n".join(faults)
    assert score.words >= 0.99, told
    assert score.order >= 0.95, told
    assert score.wrong("head") == [], told
    assert score.wrong("foot") == [], told
    assert score.wrong("printed_page") == [], told
    assert score.warnings == 1.0, told
    assert score.passages >= 0.98, told
