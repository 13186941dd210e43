"""Why a passage stands where it stands: its score taken apart into named parts. Pure.

Each way of answering says what it found in one passage (`Look`); the names and the sum are made here.
"""

from collections import defaultdict
from collections.abc import Iterable
from typing import Protocol

from indexer.library.analysis import Atom
from indexer.library.fulltext import ScorePart
from indexer.library.scoring import ALL_THERE, LISTING, TEXT_FIELDS
from indexer.library.search_plan import Other, Pair, Plan, Wanted


class Look(Protocol):
    """What one way of answering finds in one passage."""

    listing: bool

    def atom(self, field: str, atom: Atom) -> float:
        """The score that an atom gives in a field; 0 when it is not there."""

    def times(self, field: str, word: str) -> int:
        """How often a word stands in a field."""

    def pair(self, pair: Pair) -> float:
        """What is added for two words close together."""

    def rarity(self, wanted: Wanted) -> float:
        """The rarity of one thing looked for, other words included."""


def parts(plan: Plan, look: Look) -> list[ScorePart]:
    """Greatest first. They add up to the score of the passage, which must be a hit of the plan."""
    found: dict[str, float] = defaultdict(float)
    for wanted in plan.required:
        _add(found, _parts_of(wanted, look))
    rarities = {wanted: look.rarity(wanted) for wanted in plan.any_of} if len(plan.any_of) > 1 else {}
    of_any = {wanted: _parts_of(wanted, look) for wanted in plan.any_of}
    there = sum(rarities[wanted] for wanted in rarities if of_any[wanted])
    share = there / sum(rarities.values()) if rarities else 1.0
    if rarities and all(of_any.values()):
        share *= ALL_THERE
    for each in of_any.values():
        _add(found, ((name, score * share) for name, score in each))
    _add(found, ((f"{pair.text} close together", look.pair(pair)) for pair in plan.pairs))
    if look.listing:
        found["only a list of what stands elsewhere"] = (LISTING - 1) * sum(found.values())
    named = [ScorePart(name, score) for name, score in found.items() if score]
    return sorted(named, key=lambda part: -part.score)


def _add(found: dict[str, float], more: Iterable[tuple[str, float]]) -> None:
    for name, score in more:
        found[name] += score


def _parts_of(wanted: Wanted, look: Look) -> list[tuple[str, float]]:
    """The best of the ways in which it holds; the word itself where others are no better."""
    best: list[tuple[str, float]] = []
    for way in wanted.ways:
        found = _parts_of_way(way, look)
        if sum(score for _, score in found) > sum(score for _, score in best):
            best = found
    return best


def _parts_of_way(way: Other, look: Look) -> list[tuple[str, float]]:
    by_field = {
        field: way.share * sum(look.atom(field, atom) for atom in way.clause) for field in TEXT_FIELDS
    }
    if way.text != way.instead_of:
        return _there([(f"{way.text}, looked for with {way.instead_of}", sum(by_field.values()))])
    return _there([(f"{way.text}, {_place(field, way, look)}", score) for field, score in by_field.items()])


def _there(named: list[tuple[str, float]]) -> list[tuple[str, float]]:
    return [(name, score) for name, score in named if score]


def _place(field: str, way: Other, look: Look) -> str:
    if field == "heading":
        return "in its number or a heading" if any(map(str.isdigit, way.text)) else "in a heading"
    times = max((look.times(field, atom[0]) for atom in way.clause if len(atom) == 1), default=0)
    return f"in the text ({times} times)" if times > 1 else "in the text"
