"""What an engine left unread on a picture, and words of a second look joined to those of the first. Pure."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from PIL import Image

from indexer.reading.ocr_engine import Picture, PictureWord
from indexer.reading.worn_pictures import best_threshold

LIKELY = 0.6  # confidence of a word that most likely stands there
_AROUND = 3  # pixels about a word's box that are still its ink
_ALIKE = 2.0  # one word's height over the other's
_WHITE = 255
_CELLS_PER_INCH = 36
_RULE_INCHES = 1.2  # dark without a break over more than this is a rule or a picture, not text
_INK_IN_CELL = 215  # mean gray: about a sixth of the cell is ink, which a lone speck is not
_LEAST_CELLS = 40  # dark ones: about four digits
_Line = Sequence[PictureWord]


def without_words(picture: Picture, words: Sequence[PictureWord]) -> Picture:
    """The picture's ink without these words, on paper made white all over.

    What is paper is told by the whole page: with little else left, the grain of paper would pass for ink.
    """
    ink = _with_edges(picture < best_threshold(picture))
    left_over = np.where(ink, picture, np.uint8(_WHITE))
    for word in words:
        top, left = max(int(word.top) - _AROUND, 0), max(int(word.x0) - _AROUND, 0)
        left_over[top : int(word.bottom) + _AROUND, left : int(word.x1) + _AROUND] = _WHITE
    return left_over


def unread_text(picture: Picture, words: Sequence[PictureWord], dpi: int) -> Picture | None:
    """What is left of a picture without these words, its rules and dark areas; None = hardly a speck."""
    left_over = without_words(picture, words)
    by = max(1, round(dpi / _CELLS_PER_INCH))
    dark = np.asarray(Image.fromarray(left_over).reduce(by)) < _INK_IN_CELL
    longest = round(_RULE_INCHES * _CELLS_PER_INCH)
    rules = _long_runs(dark, longest) | _long_runs(dark.T, longest).T
    if int((dark & ~rules).sum()) < _LEAST_CELLS:
        return None
    height, width = left_over.shape
    left_over[np.repeat(np.repeat(rules, by, axis=0), by, axis=1)[:height, :width]] = _WHITE
    return left_over


def with_second_look(words: Sequence[PictureWord], more: Sequence[PictureWord]) -> list[PictureWord]:
    """All words, and likely ones of a second look in place of unlikely ones.

    A word of the second look takes the place of those of its own size that it covers. One that lies over a
    likely word is what was left of its edges, for that word was taken out before. A line that is new comes
    under the line above it, or else beside the line in its row, so that an item stands before its row; last
    without either.
    Signs without a letter or figure are no words: what is left of rules is read as bars.
    """
    sure = [word for word in words if word.confidence >= LIKELY]
    new = [
        word
        for word in more
        if word.confidence >= LIKELY and any(map(str.isalnum, word.text))
        if not any(_covers(word, other) for other in sure)
    ]
    joined: list[PictureWord] = []
    used: list[PictureWord] = []
    for word in words:
        if word.confidence < LIKELY and any(_covers(other, word) for other in used):
            continue
        over = [] if word.confidence >= LIKELY else [other for other in new if _overlap(word, other)]
        here = [other for other in over if _alike_in_size(word, other)]
        joined += [replace(other, line=word.line) for other in here] if over else [word]
        new = [other for other in new if other not in here]
        used += here
    lines = _lines_of(joined)
    likely = [line for line in lines if any(word.confidence >= LIKELY for word in line)]
    for line in _lines_of(new):
        after = _line_above(line, likely)
        beside = None if after else _line_beside(line, likely)
        if after or beside:
            there = next(place for place, other in enumerate(lines) if other is (after or beside))
            lines.insert(there + (after is not None or line[0].x0 > beside[0].x0), line)
        else:
            lines.append(line)
    return [replace(word, line=number) for number, line in enumerate(lines) for word in line]


def _lines_of(words: Sequence[PictureWord]) -> list[list[PictureWord]]:
    """The words of each line, in the order of their lines."""
    lines: dict[int, list[PictureWord]] = {}
    for word in words:
        lines.setdefault(word.line, []).append(word)
    return [line for _, line in sorted(lines.items())]


def _line_above(line: _Line, others: Sequence[_Line]) -> _Line | None:
    """The nearest line that ends less than a line's height above this one, over some of its width."""
    box = _box(line)
    near = []
    for other in others:
        x0, top, x1, bottom = _box(other)
        gap = box[1] - bottom
        if x0 < box[2] and box[0] < x1 and top < box[1] and gap <= box[3] - box[1]:
            near.append((gap, other))
    return min(near, key=lambda each: each[0], default=(0, None))[1]


def _line_beside(line: _Line, others: Sequence[_Line]) -> _Line | None:
    """The nearest line in the same row."""
    box = _box(line)
    middle = (box[1] + box[3]) / 2
    row = [other for other in others if _box(other)[1] <= middle <= _box(other)[3]]
    return min(row, key=lambda other: max(_box(other)[0] - box[2], box[0] - _box(other)[2]), default=None)


def _box(line: _Line) -> tuple[float, float, float, float]:
    """x0, top, x1, bottom."""
    return (
        min(word.x0 for word in line),
        min(word.top for word in line),
        max(word.x1 for word in line),
        max(word.bottom for word in line),
    )


def _alike_in_size(one: PictureWord, other: PictureWord) -> bool:
    heights = one.bottom - one.top, other.bottom - other.top
    return max(heights) <= _ALIKE * min(heights)


def _covers(one: PictureWord, other: PictureWord) -> bool:
    """Whether one box covers most of the smaller of the two."""
    across = min(one.x1, other.x1) - max(one.x0, other.x0)
    down = min(one.bottom, other.bottom) - max(one.top, other.top)
    if across <= 0 or down <= 0:
        return False
    smaller = min((each.x1 - each.x0) * (each.bottom - each.top) for each in (one, other))
    return across * down > 0.5 * smaller


def _overlap(one: PictureWord, other: PictureWord) -> bool:
    return one.x0 < other.x1 and other.x0 < one.x1 and one.top < other.bottom and other.top < one.bottom


def _with_edges(ink: np.ndarray) -> np.ndarray:
    """Ink and the pixels next to it: the gray edges of letters belong to them."""
    wider = ink.copy()
    wider[:, 1:] |= ink[:, :-1]
    wider[:, :-1] |= ink[:, 1:]
    higher = wider.copy()
    higher[1:] |= wider[:-1]
    higher[:-1] |= wider[1:]
    return higher


def _long_runs(dark: np.ndarray, longest: int) -> np.ndarray:
    """Where a row is dark over at least `longest` cells on end."""
    height, width = dark.shape
    if width < longest:
        return np.zeros_like(dark)
    counts = np.cumsum(np.pad(dark, ((0, 0), (1, 0))).astype(np.int32), axis=1)
    full = counts[:, longest:] - counts[:, :-longest] == longest  # a run begins here
    spread = np.zeros((height, width + 1), dtype=np.int32)
    spread[:, : full.shape[1]] += full
    spread[:, longest : longest + full.shape[1]] -= full
    return np.cumsum(spread, axis=1)[:, :width] > 0
