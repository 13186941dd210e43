"""A query through our tokens: what must hold for a passage to be a hit. Pure; the same for every engine.

Other words (`FullTextQuery.also`) stand beside each word they stand for:

    a word holds in a passage when it occurs there, or when one of its other words does
    its score is the best of them: its own, or the weight times the score of the other words

Other words for several words at once ("tail wheel": "tail landing gear") stand beside each of these, each
time with their share of the score. So every word is looked at by itself, and other words may overlap.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from indexer.errors import NothingToSearchFor
from indexer.library.analysis import Clause, clauses, phrase
from indexer.library.fulltext import Also, Filters, FullTextQuery

_LEAST = 1e-4  # a weight of 0 still makes a hit


class Other(NamedTuple):
    """What will do in place of a word, for `share` of its score; `text` as given, `instead_of` as asked."""

    clause: Clause
    share: float
    text: str
    instead_of: str


class Wanted(NamedTuple):
    """One thing to look for, and what will do in its place. `text` is as asked, for a person to read."""

    clause: Clause
    others: tuple[Other, ...]
    text: str

    @property
    def ways(self) -> tuple[Other, ...]:
        """Itself and the others, each with its share."""
        return (Other(self.clause, 1.0, self.text, self.text), *self.others)


class Pair(NamedTuple):
    """Two words that follow one another in the question, and how they were written."""

    first: str
    second: str
    text: str


@dataclass(frozen=True, slots=True)
class Plan:
    """`required` must all hold; of `any_of`, if there are some, one; none of `excluded`; and the filters.

    Without required and any_of, the filters alone choose. Pairs decide nothing; they add to the score of a
    hit in which they stand close together.
    """

    required: tuple[Wanted, ...]
    any_of: tuple[Wanted, ...]
    excluded: tuple[Clause, ...]
    filters: Filters
    pairs: tuple[Pair, ...] = ()

    @property
    def wanted(self) -> tuple[Wanted, ...]:
        return self.required + self.any_of


def plan(query: FullTextQuery) -> Plan:
    """What `query` asks for.

    An excluded text with blanks is a phrase. Stop words ask for nothing and exclude nothing. Other words for
    something that is not asked for are left out.
    Raises NothingToSearchFor when words or phrases were given and none is left, or nothing at all was given.
    """
    asked: dict[Clause, str] = {}
    for word in query.words:
        for clause in clauses(word):
            asked.setdefault(clause, word)
    words = _with_others(asked, query.also)
    phrases = [Wanted(clause, (), f'"{quoted}"') for quoted in query.phrases if (clause := phrase(quoted))]
    given = bool(query.words or query.phrases)
    if not words and not phrases and (given or query.filters == Filters()):
        raise NothingToSearchFor(" ".join([*query.words, *(f'"{quoted}"' for quoted in query.phrases)]))
    return Plan(
        required=_once(phrases if query.any_word else (*words, *phrases)),
        any_of=words if query.any_word else (),
        excluded=tuple(dict.fromkeys(clause for text in query.excluded for clause in _excluded(text))),
        filters=query.filters,
        pairs=tuple(_pairs(query.words)),
    )


def single_word(asked: str) -> str | None:
    """The one word, through our tokens, that `asked` looks for; None for several, for none, and for numbers
    that are also found in other forms."""
    found = clauses(asked)
    return found[0][0][0] if len(found) == 1 == len(found[0]) == len(found[0][0]) else None


def _with_others(asked: dict[Clause, str], also: Iterable[Also]) -> tuple[Wanted, ...]:
    others: dict[Clause, list[Other]] = {clause: [] for clause in asked}
    for each in also:
        replaced = tuple(dict.fromkeys(clause for word in each.words for clause in clauses(word)))
        if not replaced or any(clause not in asked for clause in replaced):
            continue
        for text in each.others:
            other = _other(text)
            for clause in replaced:
                if other and other != clause:
                    share = max(each.weight, _LEAST) / len(replaced)
                    others[clause].append(Other(other, share, text, " ".join(each.words)))
    return tuple(Wanted(clause, tuple(others[clause]), text) for clause, text in asked.items())


def _other(text: str) -> Clause | None:
    """What must hold for other words: several stand in a row, also around a stroke."""
    found = clauses(text)
    return found[0] if len(found) == 1 else phrase(text)


def _pairs(words: Iterable[str]) -> Iterator[Pair]:
    """Neighbours that are one word each: what has dashes or strokes asks for its own order."""
    single = [
        (clause[0][0] if len(clause) == 1 == len(clause[0]) else "", word)
        for word in words
        for clause in clauses(word)
    ]
    for (first, printed), (second, next_printed) in pairwise(single):
        if first and second and first != second:
            yield Pair(first, second, f"{printed} and {next_printed}")


def _excluded(text: str) -> list[Clause]:
    if len(text.split()) < 2:
        return clauses(text)
    quoted = phrase(text)
    return [quoted] if quoted else []


def _once(found: Iterable[Wanted]) -> tuple[Wanted, ...]:
    """The first of those that ask for the same, with its other words."""
    kept: dict[Clause, Wanted] = {}
    for wanted in found:
        kept.setdefault(wanted.clause, wanted)
    return tuple(kept.values())
