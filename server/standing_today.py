"""What a stored standing is not yet: a directive gives nothing before the day on which it takes effect.

The catalogue has no clock. Answers for a day put the words below before the other conditions of a standing,
so that nothing approved only from a later day on is shown without that day.
"""

import datetime
from collections.abc import Mapping
from dataclasses import replace

from indexer.library.catalogue import Catalogue
from indexer.library.day import today
from indexer.library.directives_held import NotYet, not_yet_effective
from indexer.library.records import PassageRecord
from indexer.library.stated import documents_generation
from indexer.tagging.tags import Standing, StandingValue
from indexer.trade.evidence import Basis
from server.kept import KeptByState
from server.words import date_words

_kept = KeptByState(most=1, states=4)  # by day


class StandingToday:
    """Make one for each answer, inside `reading`."""

    def __init__(self, catalogue: Catalogue, on: datetime.date | None = None):
        """`on`: None = the library's today."""
        day = on or today(catalogue)
        with catalogue.reading():
            kept = _kept.of(catalogue, documents_generation(catalogue), day)
            self._not_yet: Mapping[str, NotYet] = kept.once(
                "not yet", lambda: not_yet_effective(catalogue, day)
            )
        self._named = {each.name: each for each in self._not_yet.values()}

    def passage(self, record: PassageRecord) -> PassageRecord:
        """The passage with its standing as it is on the day."""
        standing = self.standing(record.standing, record.publication_id)
        return record if standing is record.standing else replace(record, standing=standing)

    def standing(self, standing: Standing, publication_id: str) -> Standing:
        """The standing, with what must be said first where a directive does not bind yet."""
        if not self._not_yet:
            return standing
        evidence = standing.evidence
        by = self._not_yet.get(publication_id) if standing.value is StandingValue.APPROVED else None
        if by is None and evidence is not None and evidence.basis is Basis.LINKED_DIRECTIVE:
            by = self._named.get(evidence.source)
        if by is None:
            return standing
        return replace(standing, conditions=(_words(by, standing), *standing.conditions))


def _words(by: NotYet, standing: Standing) -> str:
    since = date_words(by.effective)
    if standing.value is StandingValue.APPROVED:
        return f"Not in force before {since}: until then nothing is approved through {by.name}."
    return f"{by.name} takes effect on {since}: until then what it replaces is in force."
