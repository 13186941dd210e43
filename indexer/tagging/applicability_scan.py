"""One sentence or item of a printed applicability, read from left to right into drafts of clauses."""

import re

from indexer.tagging import applicability_words as words
from indexer.tagging.applicability_clauses import Article, Condition, ConditionKind, ModelName
from indexer.tagging.applicability_cursor import past_blank
from indexer.tagging.applicability_drafts import Draft
from indexer.tagging.applicability_limits import LimitSteps
from indexer.tagging.applicability_names import TakenNames, holds_serials, maker_end, take_names
from indexer.trade.serials import SerialList


class SegmentScan(LimitSteps):
    """Reads one sentence or item."""

    def run(self) -> None:
        steps = (
            self._effectivity_label,
            self._table_head,
            self._idle,
            self._line_numbers,
            self._all_serials,
            self._exception,
            self._not_complete,
            self._serials,
            self._with_serials,
            self._condition,
            self._all,
            self._certain,
            self._article,
            self._series,
            self._maker,
            self._model,
            self._names,
            self._bracket,
            self._small,
        )
        while self._skip_marks():
            if not any(step() for step in steps):
                self._leave_unread()
        if self.table and any(not draft.models or not draft.serials for draft in self._rows()):
            self.unread.append(self.text)
        self.unread += self._widening_unread()

    def _widening_unread(self) -> list[str]:
        """Words that open another set of articles and stand where no clause was begun: in a maker's note, in
        a condition, among names."""
        return [
            self.text[found.start() :]
            for found in words.WIDENS.finditer(self.text)
            if not any(found.start() < place <= found.end() + 1 for place in self._accounted)
        ]

    def read_drafts(self) -> list[Draft]:
        """What the segment says, without "the airplanes" that stand before a list of them."""
        found = [draft for draft in self.drafts if draft.says_something]
        if self.table:
            shared = [condition for draft in found for condition in draft.conditions if not draft.models]
            others = [draft for draft in found if not draft.models and draft is not self.drafts[0]]
            self.unread += [self.text[draft.start :] for draft in others]
            found = [draft for draft in found if draft.models]
            for draft in found:
                draft.conditions = [*shared, *draft.conditions]
            return found
        self.unread += [self.text[draft.start :] for draft in found[1:] if draft.is_bare_noun]
        return [draft for draft in found if len(found) == 1 or not draft.is_bare_noun]

    def _rows(self) -> list[Draft]:
        return [draft for draft in self.drafts[1:] if draft.says_something]

    def _idle(self) -> bool:
        start = self.place
        if not self._pass(words.IDLE):
            return False
        self._account_for(start, self.place)
        return True

    def _small(self) -> bool:
        return self._pass(words.SMALL)

    def _effectivity_label(self) -> bool:
        if not self._pass(words.EFFECTIVITY):
            return False
        self._effectivity = True
        return True

    def _all(self) -> bool:
        found = self._match(words.ALL)
        if not found:
            return False
        self.place = found.end()
        if self.table and self.draft.models and self.draft.serials is None and self._row_is_all():
            self._set_serials(SerialList(everything=True), labelled=True)
            return True
        rest = self.text[self.place :].strip(" .,;:")
        models = re.match(r"models?\b\s*(?![\w(-])", rest)
        if not rest or models or words.ARTICLES[0][1].match(rest):
            self._break_after_noun()
            self.draft.general = True
        if models:
            self.place = self.text.index(models[0].strip(), self.place) + len(models[0].strip())
        return True

    def _row_is_all(self) -> bool:
        """Whether "All" stands for the serials of a table's row: the next row or the end follows."""
        place = past_blank(self.text, self.place)
        return place >= len(self.text.rstrip(" .")) or bool(take_names(self.text, place, table=True).names)

    def _certain(self) -> bool:
        found = self._match(words.CERTAIN)
        if not found or not self._boundary(found):
            return False
        self._break_after_noun()
        self.place = found.end()
        self.draft.conditions.append(Condition(ConditionKind.LIST_ELSEWHERE, found[0].strip()))
        return True

    def _article(self) -> bool:
        for article, pattern in words.ARTICLES:
            found = self._match(pattern)
            if found:
                joined = words.ANY_OTHER.search(self.text[: self.place]) and self.draft.says_something
                if joined or self.draft.noun or self.draft.serials is not None:
                    self._next_draft()
                if self.draft.article not in (Article.UNSTATED, article):
                    self.unread.append(found[0])
                if "series" in found[0].lower():
                    self._mark_series()
                self.draft.article = article
                self.draft.noun = True
                self.place = found.end()
                return True
        return False

    def _series(self) -> bool:
        if not self.draft.models or not self._pass(words.SERIES):
            return False
        self._mark_series()
        return True

    def _mark_series(self) -> None:
        self.draft.models = [ModelName(each.name, True) for each in self.draft.models]

    def _model(self) -> bool:
        found = self._match(words.MODEL)
        if not found:
            return False
        taken = take_names(self.text, found.end(), lettered=True, table=self.table)
        self._break_after_noun()
        self.place = found.end()
        if not taken.names:
            self.unread.append(found[0])
            return True
        self._add_names(taken)
        return True

    def _names(self) -> bool:
        """Models without that word before them: "QZ62 and QZ62S airplanes", a row, "H-14: 1 to 9"."""
        taken = take_names(self.text, self.place, table=self.table)
        if not taken.names:
            return False
        self._break_after_noun()
        self._add_names(taken)
        return True

    def _add_names(self, taken: TakenNames) -> None:
        self.draft.models += taken.names
        self.draft.conditions += taken.conditions
        self.unread += taken.unread
        self.place = taken.end

    def _break_after_noun(self) -> None:
        """A model or "all" after the serials, or after what was said of airplanes, begins another clause."""
        if self.draft.serials is not None or (
            self.draft.noun and (self.draft.models or self.draft.conditions)
        ):
            self._next_draft()

    def _bracket(self) -> bool:
        for pattern in (words.MAKER_NOTE, words.MAKER_SHORT):
            if self._pass(pattern):
                return True
        if self.text[self.place] == ")":
            self.place += 1
            return True
        inside = self.text[self.place + 1 :].lstrip()
        if self.text[self.place] == "(" and holds_serials(inside):
            self.place += 1  # what stands in the bracket is read in its place, then its closing mark
            return True
        return False

    def _maker(self) -> bool:
        """The maker's name, where a model follows it."""
        end = maker_end(self.text, self.place)
        if not end:
            return False
        self._break_after_noun()
        self.place = end
        return True

    def _leave_unread(self) -> None:
        found = re.compile(r"\S+").match(self.text, self.place)
        self.unread.append(found[0].strip(",;:.") if found else self.text[self.place :])
        self.place = found.end() if found else len(self.text)
