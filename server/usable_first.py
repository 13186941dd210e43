"""Hits that may be of use before those that are not: superseded, blocked, or not for the aircraft in hand.

All of them stay hits, counts stay as they are, and each of the two keeps the order of its ranking. What is
superseded or does not apply is what "current only" and "hide what does not apply" would leave out. Where any
of the words will do, hits that hold all of them still stand first.

The order follows from the hits alone and not from how many are handed out: fewer are the beginning of more.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from indexer.library.fulltext import ChapterHits, Filters, FullTextResult, ScoredPassage
from indexer.tagging.tags import StandingValue
from server.applying import NotApplying
from server.looking import Looked
from server.not_current import LeftOut
from server.opened import OpenedLibrary

_BLOCKED = StandingValue.BLOCKED.value
_OTHERS = tuple(each.value for each in StandingValue if each is not StandingValue.BLOCKED)


@dataclass(frozen=True, slots=True)
class InOrder:
    """`result` in the order of use; `tiers` = in which run of hits each passage of it stands, 0 the first."""

    result: FullTextResult
    tiers: dict[str, int]

    def place(self, scored: ScoredPassage) -> tuple[int, float, str]:
        """What hits of several chapters sort by."""
        return self.tiers[scored.passage_id], -scored.score, scored.passage_id


def usable_first(
    library: OpenedLibrary, found: Looked, out: LeftOut | NotApplying, limit: int, per_chapter: int
) -> InOrder:
    """`out` = what is superseded or does not apply, with all that `found` was asked without."""
    query = found.query
    usable = _usable(found, out)
    runs = [query if usable is None else replace(query, filters=usable), query]
    if query.any_word and found.with_all:
        runs = [*(replace(each, any_word=False) for each in runs), *runs]
    return _joined(
        [
            found.result if each == query else library.engine.search(each, limit, per_chapter)
            for each in dict.fromkeys(runs)
        ]
    )


def _usable(found: Looked, out: LeftOut | NotApplying) -> Filters | None:
    """The filters that leave hits of use only; None where every hit may be, or none is."""
    filters = out.left_out_of(found.query.filters)
    if _BLOCKED in found.result.counts_by_standing:
        standings = tuple(each for each in filters.standings or _OTHERS if each != _BLOCKED)
        if not standings:
            return None
        filters = replace(filters, standings=standings)
    return None if filters == found.query.filters else filters


def _joined(results: Sequence[FullTextResult]) -> InOrder:
    """The hits of each result after those of the one before it; the last holds all of them, and the counts.

    Each hands out the best `limit` of its own. One that has fewer handed out all, and those that have as many
    leave no room for what comes after, so the same number joined are the best of all in this order.
    """
    whole = results[-1]
    room = len(whole.top)
    tiers: dict[str, int] = {}
    scores = {}
    for tier, result in enumerate(results):
        for scored in _handed_out(result):
            tiers.setdefault(scored.passage_id, tier)
            scores[scored.passage_id] = scored.score  # of the last: what "why is this here" explains
    chapters: dict[str, list[ScoredPassage]] = {}
    for result in results:
        for each in result.chapters:
            if each.best:
                chapters.setdefault(each.chapter, []).extend(each.best)
    known = {each.chapter: each for each in whole.chapters}

    def once(found: Iterable[ScoredPassage], most: int) -> tuple[ScoredPassage, ...]:
        ids = dict.fromkeys(each.passage_id for each in found)
        return tuple(ScoredPassage(each, scores[each]) for each in list(ids)[:most])

    in_order = [*chapters, *(each for each in known if each not in chapters)]
    return InOrder(
        replace(
            whole,
            chapters=tuple(
                ChapterHits(each, known[each].count, once(chapters.get(each, ()), len(known[each].best)))
                for each in in_order
            ),
            top=once((scored for result in results for scored in result.top), room),
        ),
        tiers,
    )


def _handed_out(result: FullTextResult) -> Iterable[ScoredPassage]:
    yield from result.top
    for each in result.chapters:
        yield from each.best
