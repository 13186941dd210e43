"""A page's words turned upright: one sheet for each direction in which its text runs."""

from collections.abc import Sequence
from dataclasses import dataclass

from indexer.reading.frame import turned_word, upright_box
from indexer.reading.page import Word
from indexer.reading.raw_page import ASKEW, RawPage
from indexer.reading.rows import Run, printed_runs, rows_of
from indexer.trade.evidence import Box


@dataclass(frozen=True, slots=True)
class Sheet:
    """Text of one direction, turned upright. Boxes in points, origin at the top left of the turned page.

    pdf_page       1-based
    direction      see RawPage; how far it has been turned
    width, height  of the turned page
    words          in the order of the file
    """

    pdf_page: int
    direction: int
    width: float
    height: float
    words: Sequence[Word]
    runs: Sequence[Run]
    rows: Sequence[Sequence[Run]]
    rulings: Sequence[Box]


def sheets_of(raw: RawPage) -> tuple[Sheet, ...]:
    """The page's sheets, the one with the most text first; () for a page without words."""
    directions = sorted(raw.words, key=lambda direction: (-_letters(raw.words[direction]), direction))
    return tuple(_sheet(raw, direction) for direction in directions)


def _sheet(raw: RawPage, direction: int) -> Sheet:
    words, rulings = raw.words[direction], raw.rulings
    width, height = raw.width, raw.height
    if direction not in (0, ASKEW):
        turn = upright_box(direction, width, height)
        words = [turned_word(word, turn) for word in words]
        rulings = [turn(ruling) for ruling in rulings]
        if direction in (90, 270):
            width, height = height, width
    runs = printed_runs(words)
    return Sheet(raw.pdf_page, direction, width, height, words, runs, rows_of(runs), rulings)


def _letters(words: Sequence[Word]) -> int:
    return sum(len(word.text) for word in words)
