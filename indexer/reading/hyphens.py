"""Words broken over a line end, joined: with their hyphen when it belongs to the word, else without."""

import re
from collections.abc import Iterable, Sequence

_END = re.compile(r"(?P<word>[^\s-][^\s]*?)-$")
_LETTERS_END = re.compile(r"(?:^|[^A-Za-z])([A-Za-z]+)$")
_LETTERS_START = re.compile(r"[A-Za-z]+")
# First parts that keep their hyphen where the file does not show the whole word. Common practice, no source.
_KEEPS = frozenset(
    ("all", "anti", "co", "cross", "half", "heat", "high", "left", "long", "low", "mid", "multi", "non")
    + ("off", "on", "one", "out", "part", "post", "pre", "quick", "right", "self", "semi", "short")
    + ("single", "two", "three", "turbo", "type", "well")
)


def ends_in_hyphen(text: str) -> bool:
    """Whether a line ends in a hyphen that belongs to a word (a dash on its own does not)."""
    return _END.search(text) is not None


class Hyphenation:
    """Joins broken words as the rest of the file writes them."""

    def __init__(self, texts: Iterable[str]):
        """`texts`: all lines of the file."""
        self._words: set[str] = set()
        for text in texts:
            self._words.update(word.strip(".,;:()[]\"'“”").casefold() for word in text.split())

    def joined(self, lines: Sequence[str]) -> str:
        """The lines as one text, parted by line ends; the rest of a broken word moves up to its beginning."""
        text = ""
        for index, line in enumerate(lines):
            if index == 0:
                text = line
                continue
            first, _, rest = line.partition(" ")
            together = self._together(text, first)
            text, line = (text, line) if together is None else (together, rest)
            text = f"{text}\n{line}" if line else text
        return text

    def _together(self, text: str, first: str) -> str | None:
        """`text` with the next line's first word joined on; None when no word is broken here."""
        if not first or not ends_in_hyphen(text) or not first[0].isalnum():
            return None
        before = _LETTERS_END.search(text[:-1])
        after = _LETTERS_START.match(first)
        # A part or chapter number ("32-" / "41-00", "MS20470-" / "4") or a name ("One-" / "Time") keeps it.
        if before is None or after is None or not first[0].islower() or not before[1][-1].islower():
            return text + first
        return text + first if self._keeps(before[1], after[0]) else text[:-1] + first

    def _keeps(self, before: str, after: str) -> bool:
        before, after = before.casefold(), after.casefold()
        if before + after in self._words:
            return False
        if f"{before}-{after}" in self._words or before in _KEEPS:
            return True
        return before in self._words and after in self._words and min(len(before), len(after)) > 3
