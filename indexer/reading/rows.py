"""Words -> runs (words set side by side) -> rows (runs on one printed line)."""

from collections.abc import Sequence
from dataclasses import dataclass

from indexer.reading.page import Line, Word
from indexer.trade.evidence import Box

_RUN_GAP = 0.65  # times the font size; a wider gap parts two runs: a word space is 0.25, a narrow gutter 1.0
_SAME_ROW = 0.5  # two runs share a row when they overlap by this part of the lower one's height
_MARK_SIZE = 0.8  # of its neighbour's size: smaller words may be raised or lowered marks
_MARK_GAP = 0.15  # of the font size, between a word and its mark
_SAME_ROW_MARK = 0.2
_LEAST_SIZE = 4.0  # points; stands in where a font states a size of nothing


@dataclass(slots=True)
class Run:
    """Words on one line with no wide gap between them, left to right."""

    words: list[Word]
    x0: float
    top: float
    x1: float
    bottom: float
    solid: bool = False  # a table in the run of the text: takes a row of its own, whatever stands beside it

    @property
    def middle(self) -> float:
        return (self.top + self.bottom) / 2

    @property
    def height(self) -> float:
        return self.bottom - self.top

    @property
    def text(self) -> str:
        return " ".join(word.text for word in self.words)


def printed_runs(words: Sequence[Word]) -> list[Run]:
    """Join words that stand side by side. `words` may be in any order; the file's own order is fastest.

    Words that the file writes one after another are joined as they come; pieces of one line that it writes at
    different times are joined afterwards.
    """
    pieces: list[Run] = []
    run: Run | None = None
    for word in words:
        if run is None or not _follows(run, word):
            run = run_of([word])
            pieces.append(run)
        else:
            _extend(run, word)
    return _joined(pieces)


def rows_of(runs: Sequence[Run]) -> list[list[Run]]:
    """Group runs into printed rows: top to bottom, and left to right within a row."""
    rows: list[list[Run]] = []
    for run in sorted(runs, key=lambda run: (run.top if run.solid else run.middle, run.x0)):
        for row in reversed(rows[-3:]):
            if not (run.solid or row[0].solid) and _overlap(row[0], run) >= _SAME_ROW:
                row.append(run)
                break
        else:
            rows.append([run])
    for row in rows:
        row.sort(key=lambda run: run.x0)
    return rows


def line_of(runs: Sequence[Run], column: int = 0, heading_level: int = 0) -> Line:
    """One line from the runs of one row."""
    words = tuple(word for run in runs for word in run.words)
    box = Box(
        min(word.box.x0 for word in words),
        min(run.top for run in runs),
        max(word.box.x1 for word in words),
        max(run.bottom for run in runs),
    )
    return Line(words, box, column, heading_level)


def run_of(words: list[Word]) -> Run:
    """One run of the words given, left to right or in the order in which they are read."""
    boxes = [word.box for word in words]
    return Run(
        words,
        min(box.x0 for box in boxes),
        min(box.top for box in boxes),
        max(box.x1 for box in boxes),
        max(box.bottom for box in boxes),
    )


def _extend(run: Run, word: Word) -> None:
    box = word.box
    run.words.append(word)
    run.x1 = max(run.x1, box.x1)
    run.top = min(run.top, box.top)
    run.bottom = max(run.bottom, box.bottom)


def _follows(run: Run, word: Word) -> bool:
    """Whether a word stands next on the same line as a run."""
    box = word.box
    size = max(word.font_size, run.words[-1].font_size, _LEAST_SIZE)
    gap = box.x0 - run.x1
    if not -0.5 * size <= gap <= _RUN_GAP * size:
        return False
    # A raised or lowered mark shares less height with its word; the word after it lines up with the word.
    beside = word.font_size < _MARK_SIZE * size and gap <= _MARK_GAP * size
    needed = _SAME_ROW_MARK if beside else _SAME_ROW
    return any(_overlap_of(last.box, box) >= needed for last in run.words[-2:])


def _joined(pieces: list[Run]) -> list[Run]:
    """Join pieces of one line that stand close to each other; pieces that do not come back as they are."""
    runs: list[Run] = []
    for row in rows_of(pieces):
        current = row[0]
        for piece in row[1:]:
            if _follows(current, piece.words[0]):
                for word in piece.words:
                    _extend(current, word)
            else:
                runs.append(current)
                current = piece
        runs.append(current)
    return runs


def _overlap(one: Run, two: Run) -> float:
    """How much two runs share a height, as a part of the lower one's."""
    shared = min(one.bottom, two.bottom) - max(one.top, two.top)
    return shared / max(min(one.height, two.height), 0.1)


def _overlap_of(one: Box, two: Box) -> float:
    shared = min(one.bottom, two.bottom) - max(one.top, two.top)
    return shared / max(min(one.bottom - one.top, two.bottom - two.top), 0.1)
