"""What counts how much in a hit's score. Values and arithmetic only; the same for every engine.

    score = (each word's or phrase's BM25F  +  a bonus for words of the question that stand close together)
            x a share for pages that are only a list of what stands elsewhere

A word weighs more in a heading than in the text, and a number in a heading still more: it is the number
that the passage is filed under, or that of its publication. A word that other words stand for counts as the
best of them (search_plan.py). With any_word, what the words give is multiplied by how much of them is there,
each by its rarity, so that two rare words come before many common ones, and by ALL_THERE where all are there,
so that what holds them all comes first.
"""

from math import log

from indexer.library.analysis import Atom

B, K1 = 0.75, 1.2  # of BM25, as Whoosh has them
FIELD_BOOSTS = {"heading": 2.0, "text": 1.0}
TEXT_FIELDS = tuple(FIELD_BOOSTS)
NUMBER_IN_HEADING = 3.0
CLOSE = 0.5  # of the rarity of the commoner of two words that stand in a row
FARTHEST = 8  # words apart; farther is not close
ALL_THERE = 10.0  # times the score, with any_word, where every word is there
LISTING = 0.5  # share of its score that a page of contents or an index keeps


def boost(field: str, atom: Atom) -> float:
    """Weight of what is found in a field."""
    if field == "heading" and any(letter.isdigit() for word in atom for letter in word):
        return NUMBER_IN_HEADING
    return FIELD_BOOSTS[field]


def rarity(documents: int, holding: int) -> float:
    """Inverse document frequency as Whoosh's BM25F has it: of `documents`, so many hold it. 1 or a bit less
    when all do."""
    return log(max(documents, 1) / (holding + 1)) + 1
