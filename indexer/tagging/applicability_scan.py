"""One sentence or item of a printed applicability, read from left to right into drafts of clauses."""

import re
from dataclasses import replace

from indexer.tagging import applicability_words as words
from indexer.tagging.applicability_clauses import Article, Condition, ConditionKind, ModelName
from indexer.tagging.applicability_drafts import Draft
from indexer.tagging.applicability_names import TakenNames, holds_serials, is_noun, maker_end, take_names
from indexer.trade.serial_lists import starts_serials, take_serials
from indexer.trade.serials import SerialList


class SegmentScan:
    """Reads one sentence or item."""

    def __init__(self, text: str, effectivity: bool):
        self.text = text
        self.place = 0
        self.drafts: list[Draft] = [Draft()]
        self.unread: list[str] = []
        self.closed = True
        self.table = False
        self._effectivity = effectivity
        self._accounted: list[int] = []  # where words that widen were read as such

    @property
    def draft(self) -> Draft:
        return self.drafts[-1]

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

    def _skip_marks(self) -> bool:
        while self.place < len(self.text) and self.text[self.place] in " ,;:.-":
            if self.text[self.place] == "-" and not self.text[: self.place + 1].endswith(" -"):
                break
            if self.text[self.place] == "-" and self.text[self.place + 1 : self.place + 2] != " ":
                break
            self.place += 1
        return self.place < len(self.text)

    def _match(self, pattern: re.Pattern) -> re.Match | None:
        found = pattern.match(self.text, self.place)
        if found and found.end() > self.place:
            return found
        return None

    def _idle(self) -> bool:
        start = self.place
        if not self._pass(words.IDLE):
            return False
        self._account_for(start, self.place)
        return True

    def _small(self) -> bool:
        return self._pass(words.SMALL)

    def _pass(self, pattern: re.Pattern) -> bool:
        found = self._match(pattern)
        if found:
            self.place = found.end()
        return bool(found)

    def _effectivity_label(self) -> bool:
        if not self._pass(words.EFFECTIVITY):
            return False
        self._effectivity = True
        return True

    def _table_head(self) -> bool:
        found = self._match(words.TABLE_HEAD)
        if not found or take_serials(self.text, found.end()) and starts_serials(self.text, found.end() + 1):
            return False
        if words.CONDITIONS[0][1].match(self.text, _past_blank(self.text, found.end())):
            self.unread.append(self.text[self.place :])  # "models and serial numbers listed in Appendix 1"
        self._account_for(self.place, found.end())
        self.place = found.end()
        self.table = True
        self._next_draft()
        return True

    def _line_numbers(self) -> bool:
        if not self._match(words.LINE_NUMBERS):
            return False
        self._take_condition(ConditionKind.LINE_NUMBERS, self.place)
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
        if not label and is_noun(self.text, _past_blank(self.text, taken.end)):
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

    def _account_for(self, start: int, end: int) -> None:
        """Words inside what was read as one thing ("up to and including 50") open nothing."""
        found = words.WIDENS.finditer(self.text, start, end)
        self._accounted += [each.end() for each in found]

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

    def _pass_blank(self, pattern: re.Pattern) -> bool:
        while self.text[self.place : self.place + 1] == " ":
            self.place += 1
        return self._pass(pattern)

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
        place = _past_blank(self.text, self.place)
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

    def _next_draft(self) -> None:
        article = self.draft.article if self.table else Article.UNSTATED
        self.drafts.append(Draft(article=article, start=self.place))
        self._accounted.append(self.place)

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


def _past_blank(text: str, place: int) -> int:
    return place + len(text[place:]) - len(text[place:].lstrip())


def _holds_a_stranger(serials: SerialList) -> bool:
    """Whether a single number with another prefix than the list begins with stands before a range."""
    first = serials.included[0].prefix if serials.included else ""
    return any(
        one.low == one.high and one.prefix != first and then.low != then.high
        for one, then in zip(serials.included, serials.included[1:], strict=False)
    )


def _only_bare_numbers(serials: SerialList) -> bool:
    return bool(serials.included) and not any(each.prefix for each in serials.included)
