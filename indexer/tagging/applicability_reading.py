"""Printed applicability -> clauses, and the words that no rule understood.

Every word must be accounted for: what is not known is kept as unread, and then nothing is proved by the text.
Conditions are kept as printed; they only ever narrow.
"""

from dataclasses import replace

from indexer.tagging import applicability_words as words
from indexer.tagging.applicability_clauses import (
    Article,
    Clause,
    Condition,
    ConditionKind,
    ReadApplicability,
)
from indexer.tagging.applicability_drafts import Draft
from indexer.tagging.applicability_scan import SegmentScan
from indexer.tagging.applicability_text import Segment, missing_items, plain_text, segments


def read_clauses(text: str) -> ReadApplicability:
    """Take a printed applicability apart."""
    plain = plain_text(text)
    reader = _Reader(effectivity=bool(words.EFFECTIVITY.search(plain)))
    for segment in segments(plain):
        reader.take(segment)
    missing = missing_items(plain)
    unread = [*reader.unread, *([missing] if missing else [])]
    return ReadApplicability(tuple(reader.clauses), tuple(unread), reader.closed)


class _Reader:
    def __init__(self, effectivity: bool):
        self.clauses: list[Clause] = []
        self.unread: list[str] = []
        self.closed = True
        self._effectivity = effectivity
        self._lead: Draft | None = None

    def take(self, segment: Segment) -> None:
        if words.SPARES.search(segment.text) and not words.NO_ADDITION.search(segment.text):
            self._spares(segment.text)
            return
        scan = SegmentScan(segment.text, self._effectivity)
        scan.run()
        drafts = scan.read_drafts()
        self.unread += scan.unread
        self.closed = self.closed and scan.closed
        if segment.leads:
            self._take_lead(drafts, segment.text)
            return
        if not drafts:
            return
        shared = [condition for draft in drafts for condition in draft.conditions]
        if len(drafts) == 1 and drafts[0].is_bare_noun:
            return
        for place, draft in enumerate(drafts):
            draft.conditions = list(dict.fromkeys(shared))
            self._doubt_shared_serials(draft, drafts[place + 1 :])
            end = drafts[place + 1].start if place + 1 < len(drafts) else len(segment.text)
            self._add(draft, segment.text[draft.start : end].strip(" ,;"))

    def _take_lead(self, drafts: list[Draft], text: str) -> None:
        if len(drafts) > 1 or (drafts and drafts[0].serials) or words.WIDENS.search(text):
            self.unread.append(text)
            return
        if drafts and self._lead:
            drafts[0].conditions = [*self._lead.conditions, *drafts[0].conditions]
        self._lead = drafts[0] if drafts else self._lead

    def _doubt_shared_serials(self, draft: Draft, later: list[Draft]) -> None:
        """Serials printed after a second model may be meant for the first one too."""
        with_serials = next((each for each in later if each.serials), None)
        if draft.serials is None and draft.models and with_serials and not draft.labelled:
            draft.conditions.append(
                Condition(ConditionKind.UNCLEAR, "serial numbers that follow may be meant for it too")
            )

    def _add(self, draft: Draft, printed: str) -> None:
        lead = self._lead
        before = self.clauses[-1] if self.clauses else None
        models, article, excepted = draft.models, draft.article, draft.excepted
        if not models and not draft.noun and lead and lead.models:
            models = lead.models
        elif not models and draft.serials and not draft.noun:
            if before and before.models and before.serials is None and not before.conditions:
                self.clauses[-1] = replace(
                    before,
                    serials=draft.serials,
                    labelled=draft.labelled,
                    conditions=tuple(draft.conditions),
                    words=f"{before.words}. {printed}",
                )
                return
            elif before:
                models = list(before.models)
        if lead:
            excepted = [*lead.excepted, *excepted]
            article = lead.article if article is Article.UNSTATED else article
        conditions = [*(lead.conditions if lead else ()), *draft.conditions]
        if draft.models or draft.serials or draft.general or draft.noun or conditions:
            self.clauses.append(
                Clause(
                    article,
                    tuple(models),
                    tuple(excepted),
                    draft.serials,
                    draft.labelled,
                    tuple(dict.fromkeys(conditions)),
                    printed,
                    draft.exceptions_sure,
                )
            )

    def _spares(self, text: str) -> None:
        """Parts in stock are reached by themselves, whatever aircraft they are put on."""
        condition = Condition(ConditionKind.EQUIPMENT, text.strip(" ,;."))
        self.clauses.append(Clause(Article.APPLIANCE, (), (), None, False, (condition,), text.strip(" ,;.")))
