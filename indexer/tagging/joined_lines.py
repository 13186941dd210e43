"""Text on one line, so that a reference broken over lines is one; places lead back to the text as given.

A number broken after its dash ("32-41-" at a line's end, "00" on the next) is closed up, its line end moved
behind it. Nothing else moves, and the length stays.
"""

import re
from dataclasses import dataclass

from indexer.trade.dashes import plain_dashes

_BROKEN = re.compile(
    r"(?<=[0-9A-Z]-)(?P<blank>[ ]{0,3}\n[ ]{0,3})(?P<rest>[0-9][0-9A-Z]{0,5}(?:-[0-9A-Z]{1,6}){0,4})"
)


@dataclass(frozen=True, slots=True)
class Flat:
    """text   plain dashes, blanks and line ends as " ", numbers closed up
    lined   the same with its line ends
    """

    text: str
    lined: str
    moved: tuple[tuple[int, int, int], ...]  # start of a closed-up rest here, its length, the gap it jumped

    def place(self, start: int, end: int) -> tuple[int, int]:
        """Where text[start:end] stands in the text as given."""
        return self._start(start), self._end(end)

    def _start(self, place: int) -> int:
        for at, length, gap in self.moved:
            if at <= place < at + length:
                return place + gap
        return place

    def _end(self, place: int) -> int:
        for at, length, gap in self.moved:
            if at < place <= at + length + gap:
                return min(place + gap, at + length + gap)
        return place


def joined_lines(text: str) -> Flat:
    """The text as one line."""
    lined = plain_dashes(text)
    moved: list[tuple[int, int, int]] = []
    if "-\n" in lined or "- \n" in lined:

        def close_up(match: re.Match) -> str:
            moved.append((match.start(), len(match["rest"]), len(match["blank"])))
            return match["rest"] + match["blank"]

        lined = _BROKEN.sub(close_up, lined)
    return Flat(lined.replace("\n", " "), lined, tuple(moved))
