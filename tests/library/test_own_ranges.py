"""Passages of a manual with its own order and the ranges of its sections that people name.

That one passage may hold several short paragraphs follows from how passages are cut; numbers are invented.
"""

import datetime

import pytest

from indexer.library.anchoring import Spot
from indexer.library.records import MapRow
from indexer.library.relation_rules.filing import mapped_passages

SPOTS = [
    Spot("drums", (8,), "text", own="5-10", further=("5-11", "5-12")),
    Spot("section", (7,), "text", own="V"),
    Spot("trim", (10,), "text", own="6-1"),
    Spot("title", (1,), "text"),
]


def row(first, last):
    return MapRow(
        1, "Service Manual", first, last, ("32",), "A. Person", datetime.datetime(2031, 1, 1), "why"
    )


@pytest.mark.parametrize(
    "first, last, reached",
    [
        ("V", "V", ["drums", "section"]),
        ("5-12", "5-20", ["drums"]),  # the last of its paragraphs
        ("5-11", "5-11", ["drums"]),
        ("5-13", "5-20", []),
        ("5", "6", ["drums", "section", "trim"]),
    ],
)
def test_a_line_of_the_map_reaches_each_passage_that_holds_a_paragraph_of_its_range(first, last, reached):
    assert list(mapped_passages([row(first, last)], SPOTS)) == reached
