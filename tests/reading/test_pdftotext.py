"""Against the outside: the words and their order that poppler's pdftotext reads from the same files.

pdftotext is run with -bbox-layout, which gives words in reading order. Differences of form that are not
differences of reading are levelled on both sides: ligatures, dotted leaders, lone bullets and dashes.
"""

import html
import re
import shutil
import subprocess
from collections import Counter
from pathlib import Path

import pytest
from paper import Paper, prose

from indexer.reading.characters import cleaned
from indexer.reading.document import read_document
from indexer.reading.page import TextState
from indexer.settings import Settings

REAL = Path(__file__).parent.parent / "data" / "real"

pytestmark = [
    pytest.mark.poppler,
    pytest.mark.skipif(shutil.which("pdftotext") is None, reason="pdftotext (poppler-utils) is missing"),
]

# Pages of one, two or three columns of text. Left out are pages of tables, where pdftotext reads columns
# of cells and we read rows: AC 43-210A, the lists of codes of the JASC table and of the NTSB manual.
IN_ORDER = {
    "AC-43-9C_CHG_1.pdf": range(1, 13),
    "AC-43-11_CHG1.pdf": range(1, 7),
    "AC-43-14_pages_1_2.pdf": (1, 2),
    "JASC_Codes_2008_pages_9_12_20_21.pdf": (3, 4),
    "FAA-H-8083-32_index_pages_1_2.pdf": (1, 2),
    "NTSB_coding_manual_1998_pages_7_8_19_35_36.pdf": (1, 2),
}


def _levelled(words):
    return [
        part for word in words for part in re.split(r"\.{3,}", cleaned(word)) if set(part) - set(".·\ufffd•-")
    ]


def _theirs(path):
    """Words of each page, in pdftotext's reading order."""
    command = ["pdftotext", "-bbox-layout", str(path), "-"]
    out = subprocess.run(command, capture_output=True, check=True).stdout.decode("utf-8")
    pages = re.findall(r"<page [^>]*>(.*?)</page>", out, re.DOTALL)
    words = [re.findall(r"<word [^>]*>(.*?)</word>", page, re.DOTALL) for page in pages]
    return [_levelled(map(html.unescape, page)) for page in words]


def _ours(path):
    """Words of each page, in our reading order; None for a page that we say we cannot read."""
    pages = read_document(path, Settings()).pages
    return [_words(page) if page.state in (TextState.TEXT, TextState.BLANK) else None for page in pages]


def _words(page):
    lines = (*page.head, *page.body, *page.foot)
    return _levelled(word.text for line in lines for word in line.words)


def _common_subsequence(one, two):
    """Length of the longest common subsequence (bit-parallel, Hyyrö 2004)."""
    places = {}
    for index, word in enumerate(one):
        places[word] = places.get(word, 0) | 1 << index
    every = (1 << len(one)) - 1
    state = every
    for word in two:
        match = state & places.get(word, 0)
        state = ((state + match) | (state - match)) & every
    return len(one) - state.bit_count()


@pytest.mark.parametrize("path", sorted(REAL.glob("*.pdf")), ids=lambda path: path.stem)
def test_at_least_99_percent_of_the_words(path):
    ours, theirs = _ours(path), _theirs(path)
    assert len(ours) == len(theirs)
    pages = [(mine, other) for mine, other in zip(ours, theirs, strict=True) if mine is not None]
    missing = sum((Counter(other) - Counter(mine)).total() for mine, other in pages)
    assert missing <= 0.01 * sum(len(other) for _, other in pages)


@pytest.mark.parametrize("file", IN_ORDER)
def test_the_order_of_the_words(file):
    ours, theirs = _ours(REAL / file), _theirs(REAL / file)
    ratios = {}
    for number in IN_ORDER[file]:
        mine, other = ours[number - 1], theirs[number - 1]
        if mine or other:
            ratios[number] = _common_subsequence(mine, other) / max(len(mine), len(other))
    assert ratios
    assert min(ratios.values()) >= 0.95, ratios


def test_two_columns_of_prose(tmp_path):
    """No public paper in two columns is small enough to keep here, so these columns are drawn."""
    paper = Paper(tmp_path / "a.pdf")
    for left, start in ((54, 0), (320, 40)):
        for row, line in enumerate(prose(400, 9, start)):
            paper.text(left, 80 + 14 * row, line, size=10)
    path = paper.save()
    assert _ours(path) == _theirs(path)


def test_the_measure_itself():
    assert _common_subsequence(list("abcd"), list("acbd")) == 3
    assert _common_subsequence([], ["a"]) == 0
