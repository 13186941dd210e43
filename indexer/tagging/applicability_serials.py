"""The serials of one sentence or item of a printed applicability: labelled, bare, in a table's row."""

import re

from indexer.tagging import applicability_words as words
from indexer.tagging.applicability_clauses import Article, Condition, ConditionKind
from indexer.tagging.applicability_cursor import SegmentCursor, past_blank
from indexer.tagging.applicability_names import is_noun
from indexer.trade.serial_lists import starts_serials, take_serials
from indexer.trade.serials import SerialList


class SerialSteps(SegmentCursor):
    """Steps of the reader that take serials."""

    def _table_head(self) -> bool:
        found = self._match(words.TABLE_HEAD)
        if not found or take_serials(self.text, found.end()) and starts_serials(self.text, found.end() + 1):
            return False
        if words.CONDITIONS[0][1].match(self.text, past_blank(self.text, found.end())):
            self.unread.append(self.text[self.place :])  # "models and serial numbers listed in Appendix 1"
        self._account_for(self.place, found.end())
        self.place = found.end()
        self.table = True
        self._next_draft()
        return True

    def _all_serials(self) -> bool:
        found = self._match(words.ALL_SERIALS)
        if not found:
            return False
        self.place = found.end()
        if take_serials(self.text, self.place) and not words.EXCEPT.match(
            self.text[self.place :].lstrip(" ,")
        ):
            return False
        if words.ADDED.search(self.text[: found.start()]):
            self.unread.append(self.text[found.start() :])
        self._set_serials(SerialList(everything=True), labelled=True)
        return True

    def _serials(self) -> bool:
        """Serials after their label, or without one where their form shows it, or in a table's row."""
        label = self._match(words.LABELLED)
        start = label.end() if label else self.place
        shown = (
            label
            or starts_serials(self.text, self.place)
            or self._row_begins_serials()
            or (self._effectivity and words.BARE_NUMBERS.match(self.text, self.place))
        )
        taken = take_serials(self.text, start) if shown else None
        if taken is None:
            return bool(label) and self._serials_elsewhere(start)
        after = self.text[taken.end :]
        if not label and re.match(r"\s*:", after):
            return False
        if not label and is_noun(self.text, past_blank(self.text, taken.end)):
            return False  # "QZ62 through QZ66 airplanes" are models
        if not label and any(words.YEARS.fullmatch(each.printed) for each in taken.serials.included):
            self.unread.append(self.text[self.place : taken.end])  # "Model 172 series, 1977 thru 1986": years
        if not label and self.draft.serials is not None and not words.JOINED.search(self.text[: self.place]):
            self.unread.append(self.text[self.place : taken.end])  # a list goes on without a mark between
        if words.OF_ARTICLE.match(self.text, self.place) and self.draft.article is Article.AIRCRAFT:
            self.unread.append(self.text[self.place : taken.end])  # "airplanes, engine serial numbers 1 to 9"
        if self.table and _holds_a_stranger(taken.serials):
            self.unread.append(self.text[self.place : taken.end])  # it may be the model of the next row
        self._doubt_after_equipment(taken.end)
        self._account_for(start, taken.end)
        self._accounted.append(start)
        self.place = taken.end
        self._set_serials(taken.serials, labelled=bool(label) or not self._effectivity)
        return True

    def _with_serials(self) -> bool:
        found = self._match(words.WITH_SERIALS)
        return bool(found and take_serials(self.text, found.end())) and self._pass(words.WITH_SERIALS)

    def _doubt_after_equipment(self, end: int) -> None:
        """ "Any airplane with kit 9; QZ-001 to QZ-009": whether these serials belong to it is not said."""
        told = any(not words.CERTAIN.match(condition.words) for condition in self.draft.conditions)
        if told and self.draft.noun and not self.draft.models:
            self.unread.append(self.text[self.draft.start : end])

    def _serials_elsewhere(self, start: int) -> bool:
        """ "Serial numbers listed in Table 1": the condition that follows says it all."""
        place = start + len(self.text[start:]) - len(self.text[start:].lstrip())
        if not words.CONDITIONS[0][1].match(self.text, place):
            return False
        if self.draft.serials is not None or words.ADDED.search(self.text[: self.place]):
            self.unread.append(self.text[self.place :])  # "and serial numbers listed in Table 1": more
        self.place = place
        return True

    def _row_begins_serials(self) -> bool:
        """In a table the serials begin where a number follows the models without a mark between."""
        if not (self.table and self.draft.models and self.draft.serials is None):
            return False
        return self.text[self.place - 1] == " " and self.text[: self.place].rstrip()[-1:].isalnum()

    def _set_serials(self, serials: SerialList, labelled: bool) -> None:
        held = self.draft.serials
        if held is None:
            self.draft.serials = serials
        else:
            self.draft.serials = SerialList(
                (*held.included, *serials.included),
                (*held.excepted, *serials.excepted),
                held.everything or (serials.everything and not serials.excepted),
            )
        self.draft.labelled = labelled and (held is None or self.draft.labelled)
        if self._effectivity and not labelled and _only_bare_numbers(serials):
            self.draft.conditions.append(
                Condition(ConditionKind.LINE_NUMBERS, ", ".join(each.printed for each in serials.included))
            )


def _holds_a_stranger(serials: SerialList) -> bool:
    """Whether a single number with another prefix than the list begins with stands before a range."""
    first = serials.included[0].prefix if serials.included else ""
    return any(
        one.low == one.high and one.prefix != first and then.low != then.high
        for one, then in zip(serials.included, serials.included[1:], strict=False)
    )


def _only_bare_numbers(serials: SerialList) -> bool:
    return bool(serials.included) and not any(each.prefix for each in serials.included)
