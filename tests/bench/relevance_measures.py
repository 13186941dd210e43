"""How good an order of hits is, by the grades of its passages. Pure.

recall@20         share of the passages of grade 1 or 2 that stand among the first 20
reciprocal rank   1 / the place of the first passage that answers (grade 2) among the first 20; 0 for none
nDCG@10           sum of (2^grade - 1) / log2(place + 1) over the first 10, as a share of the best order's
right chapter     1 when the right chapter is one of the first three that the hits are grouped under
no number         share of the first 10 hits that are filed under no chapter
no standing       share of the first 10 hits whose standing is not determined

The first three are the common measures of text retrieval (as in Manning, Raghavan and Schütze, Introduction
to Information Retrieval, chapter 8); the gain 2^grade - 1 is the one of Burges and others, 2005.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, fields
from math import log2
from statistics import fmean

RECALL_AT, NDCG_AT, CHAPTERS = 20, 10, 3


@dataclass(frozen=True, slots=True)
class Score:
    """Each 0 to 1; None where the question has no right chapter, or there is no hit."""

    recall: float
    reciprocal_rank: float
    ndcg: float
    right_chapter: float | None
    no_number: float | None
    no_standing: float | None


def recall(order: Sequence[str], grades: Mapping[str, int]) -> float:
    relevant = {passage for passage, grade in grades.items() if grade > 0}
    return len(relevant.intersection(order[:RECALL_AT])) / len(relevant)


def reciprocal_rank(order: Sequence[str], grades: Mapping[str, int]) -> float:
    places = (place for place, passage in enumerate(order[:RECALL_AT], 1) if grades.get(passage) == 2)
    return 1 / next(places, float("inf"))


def ndcg(order: Sequence[str], grades: Mapping[str, int]) -> float:
    best = sorted(grades.values(), reverse=True)
    return _gained(grades.get(passage, 0) for passage in order[:NDCG_AT]) / _gained(best[:NDCG_AT])


def _gained(grades: Iterable[int]) -> float:
    return sum((2**grade - 1) / log2(place + 1) for place, grade in enumerate(grades, 1))


def right_chapter(chapters: Iterable[str], right: str) -> float | None:
    """`chapters` is the one each hit is grouped under, in the order of the hits; "" = none."""
    return float(right in list(dict.fromkeys(chapters))[:CHAPTERS]) if right else None


def mean(scores: Sequence[Score]) -> Score:
    """Each measure over the questions that have it."""
    columns = ([getattr(score, each.name) for score in scores] for each in fields(Score))
    held = ([value for value in column if value is not None] for column in columns)
    return Score(*(fmean(column) if column else None for column in held))
