"""The place of the reader in one sentence or item of a printed applicability, and what it has found."""

import re

from indexer.tagging import applicability_words as words
from indexer.tagging.applicability_clauses import Article
from indexer.tagging.applicability_drafts import Draft


class SegmentCursor:
    """Stands at a place of the text; what is passed is read, and read in one direction only."""

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

    def _pass(self, pattern: re.Pattern) -> bool:
        found = self._match(pattern)
        if found:
            self.place = found.end()
        return bool(found)

    def _pass_blank(self, pattern: re.Pattern) -> bool:
        while self.text[self.place : self.place + 1] == " ":
            self.place += 1
        return self._pass(pattern)

    def _account_for(self, start: int, end: int) -> None:
        """Words inside what was read as one thing ("up to and including 50") open nothing."""
        found = words.WIDENS.finditer(self.text, start, end)
        self._accounted += [each.end() for each in found]

    def _next_draft(self) -> None:
        article = self.draft.article if self.table else Article.UNSTATED
        self.drafts.append(Draft(article=article, start=self.place))
        self._accounted.append(self.place)


def past_blank(text: str, place: int) -> int:
    """The first place from here on that is no blank."""
    return place + len(text[place:]) - len(text[place:].lstrip())
