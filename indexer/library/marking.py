"""Where in a text the words of a query stand. Pure."""

from collections import defaultdict
from collections.abc import Iterable

from indexer.errors import NothingToSearchFor
from indexer.library.analysis import Atom, Token, tokens
from indexer.library.fulltext import FullTextQuery
from indexer.library.search_plan import plan

Range = tuple[int, int]


def marks(query: FullTextQuery, text: str) -> list[Range]:
    """Character ranges of `text` to mark, in order, not touching one another; [] when nothing is asked or
    found.

    Words in a row are marked as one range, and only where they stand in a row. Other words that will do are
    marked as well.
    """
    try:
        wanted = plan(query).wanted
    except NothingToSearchFor:
        return []
    found: dict[str, list[Token]] = defaultdict(list)
    for token in tokens(text):
        found[token.text].append(token)
    atoms = dict.fromkeys(atom for each in wanted for way in each.ways for atom in way.clause)
    ranges = [mark for atom in atoms for mark in _places(atom, found)]
    return _merged(ranges)


def _places(atom: Atom, found: dict[str, list[Token]]) -> Iterable[Range]:
    """Where an atom stands: any form of a single word; printed words only, where several stand in a row."""
    if len(atom) == 1:
        yield from ((token.start, token.end) for token in found.get(atom[0], ()))
        return
    rows = [{token.position: token for token in found.get(word, ()) if not token.variant} for word in atom]
    for token in rows[0].values():
        run = [row.get(token.position + step) for step, row in enumerate(rows)]
        if all(run):
            yield token.start, max(step.end for step in run)


def _merged(ranges: Iterable[Range]) -> list[Range]:
    merged: list[Range] = []
    for start, end in sorted(ranges):
        if merged and start <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(end, merged[-1][1]))
        else:
            merged.append((start, end))
    return merged
