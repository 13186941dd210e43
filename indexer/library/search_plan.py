"""A query through our tokens: what must hold for a passage to be a hit. Pure; the same for every engine."""

from dataclasses import dataclass

from indexer.errors import NothingToSearchFor
from indexer.library.analysis import Clause, clauses, phrase
from indexer.library.fulltext import Filters, FullTextQuery


@dataclass(frozen=True, slots=True)
class Plan:
    """`required` must all hold; of `any_of`, if there are some, one; none of `excluded`; and the filters.

    Without required and any_of, the filters alone choose.
    """

    required: tuple[Clause, ...]
    any_of: tuple[Clause, ...]
    excluded: tuple[Clause, ...]
    filters: Filters

    @property
    def wanted(self) -> tuple[Clause, ...]:
        return self.required + self.any_of


def plan(query: FullTextQuery) -> Plan:
    """What `query` asks for.

    An excluded text with blanks is a phrase. Stop words ask for nothing and exclude nothing.
    Raises NothingToSearchFor when words or phrases were given and none is left, or nothing at all was given.
    """
    words = _once(clause for word in query.words for clause in clauses(word))
    phrases = _once(clause for quoted in query.phrases if (clause := phrase(quoted)))
    given = bool(query.words or query.phrases)
    if not words and not phrases and (given or query.filters == Filters()):
        raise NothingToSearchFor(" ".join([*query.words, *(f'"{quoted}"' for quoted in query.phrases)]))
    return Plan(
        required=phrases if query.any_word else _once((*words, *phrases)),
        any_of=words if query.any_word else (),
        excluded=_once(clause for text in query.excluded for clause in _excluded(text)),
        filters=query.filters,
    )


def _excluded(text: str) -> list[Clause]:
    if len(text.split()) < 2:
        return clauses(text)
    quoted = phrase(text)
    return [quoted] if quoted else []


def _once(found) -> tuple[Clause, ...]:
    return tuple(dict.fromkeys(found))
