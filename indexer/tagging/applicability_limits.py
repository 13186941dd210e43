"""What narrows one sentence or item of a printed applicability: exceptions and conditions."""

import re
from dataclasses import replace

from indexer.tagging import applicability_words as words
from indexer.tagging.applicability_clauses import Article, Condition, ConditionKind, ModelName
from indexer.tagging.applicability_names import maker_end, take_names
from indexer.tagging.applicability_serials import SerialSteps
from indexer.trade.serial_lists import starts_serials, take_serials
from indexer.trade.serials import SerialList


class LimitSteps(SerialSteps):
    """Steps of the reader that take what narrows."""

    def _line_numbers(self) -> bool:
        if not self._match(words.LINE_NUMBERS):
            return False
        self._take_condition(ConditionKind.LINE_NUMBERS, self.place)
        return True

    def _exception(self) -> bool:
        found = self._match(words.EXCEPT)
        if not found:
            return False
        if self._excepted_models(found.end()):
            return True
        taken = take_serials(self.text, found.end())
        if taken and taken.serials.included:
            self._doubt_after_equipment(taken.end)
            self.place = taken.end
            held = self.draft.serials
            if held is None:
                self._set_serials(SerialList((), taken.serials.included, everything=True), labelled=True)
            else:
                self.draft.serials = replace(held, excepted=(*held.excepted, *taken.serials.included))
            return True
        self._take_condition(ConditionKind.RECORD, found.start(), words.EXCEPTION_MAY_WIDEN)
        return True

    def _excepted_models(self, start: int) -> bool:
        """ "Except Model 737-100 and -200 airplanes", with or without a maker's name before."""
        place = start + len(self.text[start:]) - len(self.text[start:].lstrip())
        place = maker_end(self.text, place) or place
        label = words.MODEL.match(self.text, place)
        if not label:
            return False
        taken = take_names(self.text, label.end())
        self.place = max(taken.end, label.end())
        series = self._pass_blank(words.SERIES)
        self._pass_blank(words.ARTICLES[0][1])
        if not taken.names:
            self.unread.append(label[0])
        self.draft.excepted += [ModelName(each.name, series or each.series) for each in taken.names]
        self.draft.conditions += taken.conditions
        self.unread += taken.unread
        self._exception_must_end()
        return True

    def _exception_must_end(self) -> None:
        """Words that go on after excepted models may take some of them in again."""
        rest = re.split(r"[;:]", self.text[self.place :])[0]
        rest = re.sub(r"certificated in (?:any|all) categor(?:y|ies)", "", rest, flags=re.IGNORECASE)
        if rest.strip(" ,.)"):
            self.unread.append(rest.strip(" ,."))

    def _not_complete(self) -> bool:
        if not self._pass(words.NOT_COMPLETE):
            return False
        self.closed = False
        self.unread.append(self.text[self.place :].strip() or self.text)
        self.place = len(self.text)
        return True

    def _condition(self) -> bool:
        if self.draft.article not in (Article.AIRCRAFT, Article.UNSTATED) and self._installed_on():
            return True
        for kind, pattern in words.CONDITIONS:
            found = self._match(pattern)
            if found and self._boundary(found):
                self._take_condition(kind, self.place)
                return True
        return False

    def _boundary(self, found: re.Match) -> bool:
        after = self.text[found.end() : found.end() + 1]
        return not (found[0][-1:].isalnum() and after.isalnum())

    def _installed_on(self) -> bool:
        """Where articles are found does not narrow them when the words say that it is not a complete list."""
        found = self._match(words.INSTALLED_ON)
        if not found:
            return False
        end = self._condition_end(self.place)
        told, place = self.text[self.place : end], found.end() - self.place
        self.place = end
        after = [told[word.start() :] for word in re.finditer(r"\w+", told) if word.start() >= place]
        open_list = words.NOT_COMPLETE.search(told) or re.search(r"\b(?:any|various)\b", told, re.IGNORECASE)
        narrowed = any(pattern.match(words_left) for words_left in after for _, pattern in words.CONDITIONS)
        if narrowed or not open_list:
            self.draft.conditions.append(Condition(ConditionKind.EQUIPMENT, told.strip(" ,;.")))
        if words.GOES_ON.search(told) or len(words.NOT_COMPLETE.findall(told)) > 1:
            self.unread.append(told.strip(" ,;."))
        limited = words.NOT_LIMITED.search(self.text, found.start(), end)
        if limited:
            self._account_for(limited.start(), limited.end())
        return True

    def _take_condition(
        self, kind: ConditionKind, start: int, may_widen: re.Pattern = words.MAY_WIDEN
    ) -> None:
        end = self._condition_end(start)
        told = self.text[start:end].strip(" ,;.")
        self.place = max(end, start + 1)
        if self.draft.excepted or (self.draft.serials and self.draft.serials.excepted):
            self.draft.exceptions_sure = False
        self.draft.conditions.append(Condition(kind, told))
        joined = re.search(r"\b(?:or|plus|also)\s+$", self.text[:start], re.IGNORECASE)
        goes_on = joined or words.GOES_ON.search(told) or told.lower().startswith("those")
        if goes_on or may_widen.search(told) or self._holds_a_list(told) or len(told) < 3:
            self.unread.append(told)

    def _holds_a_list(self, told: str) -> bool:
        """Whether serials stand inside a condition: a list may go on there. Bare numbers count where
        serials were listed before."""
        bare_too = any(draft.serials is not None for draft in self.drafts)
        return any(
            starts_serials(told, word.start()) and (bare_too or words.LETTERED.match(told, word.start()))
            for word in re.finditer(r"\S+", told)
        )

    def _condition_end(self, start: int) -> int:
        stops = [len(self.text)]
        opened = self.text[start] == "("
        for mark in re.finditer(r"[;:]|,?\s*certificated\s+in\s+any\b", self.text[start:], re.IGNORECASE):
            stops.append(start + mark.start())
        if opened and ")" in self.text[start:]:
            stops.append(self.text.index(")", start) + 1)
        return min(stops)
