"""The piece of a passage shown with a hit, and where its marked words stand in it. Pure."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

SNIPPET_LENGTH = 280  # characters: about four lines on a tablet
_BLANK = re.compile(r"\s")
_ELLIPSIS = "… "


@dataclass(frozen=True, slots=True)
class Snippet:
    """`text` on one line; `marks` are (start, end) character ranges in it, in order, not overlapping."""

    text: str
    marks: tuple[tuple[int, int], ...] = ()

    def parts(self) -> Iterable[tuple[str, bool]]:
        """The text in pieces: (words, marked)."""
        at = 0
        for start, end in self.marks:
            if start > at:
                yield self.text[at:start], False
            yield self.text[start:end], True
            at = end
        if at < len(self.text):
            yield self.text[at:], False


def snippet(text: str, marks: Sequence[tuple[int, int]], length: int = SNIPPET_LENGTH) -> Snippet:
    """The window of `text` that holds the most marked words, cut at spaces.

    text    a passage; line breaks become spaces, which keeps every position
    marks   character ranges in `text`; those outside it are dropped
    """
    flat = _BLANK.sub(" ", text)
    kept = _clean(marks, len(flat))
    start, end = _window(flat, kept, length)
    before = _ELLIPSIS if start > 0 else ""
    after = " …" if end < len(flat) else ""
    shift = len(before) - start
    inside = tuple((a + shift, b + shift) for a, b in kept if a >= start and b <= end)
    return Snippet(f"{before}{flat[start:end]}{after}", inside)


def _clean(marks: Sequence[tuple[int, int]], length: int) -> list[tuple[int, int]]:
    kept: list[tuple[int, int]] = []
    for start, end in sorted((max(a, 0), min(b, length)) for a, b in marks):
        if start >= end:
            continue
        if kept and start < kept[-1][1]:
            kept[-1] = (kept[-1][0], max(end, kept[-1][1]))
        else:
            kept.append((start, end))
    return kept


def _window(text: str, marks: Sequence[tuple[int, int]], length: int) -> tuple[int, int]:
    if len(text) <= length:
        return 0, len(text)
    if not marks:
        return 0, _back_to_space(text, length)
    lead = length // 4
    best = max(
        marks,
        key=lambda first: (sum(first[0] <= a and b <= first[0] + length - lead for a, b in marks), -first[0]),
    )
    start = max(0, min(best[0] - lead, len(text) - length))
    if start:
        space = text.find(" ", start, best[0])
        start = space + 1 if space >= 0 else best[0]
    end = min(len(text), max(start + length, best[1]))
    return start, max(_back_to_space(text, end), best[1])


def _back_to_space(text: str, end: int) -> int:
    if end >= len(text):
        return len(text)
    space = text.rfind(" ", 0, end)
    return space if space > 0 else end
