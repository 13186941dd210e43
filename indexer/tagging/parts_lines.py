"""A page's words -> upright printed rows of pieces: words that stand close together. No column is known yet.

Boxes here are on the page as straightened (skew taken out, a turned page upright); each word keeps the box it
has on the page as displayed.
"""

import math
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median

from indexer.reading.page import Line, Page, Word
from indexer.trade.evidence import Box, Origin

_SAME_ROW = 0.5  # of the lower one's height that two words of one row share
_PIECE_GAP = 0.85  # times the size of the type: a wider gap parts two pieces; a typed blank is 0.6
_PIECE_GAP_OCR = 0.75  # times the height of a line of OCR, whose boxes fit the letters
_TALL = 1.3  # times as high as wide: a word of several letters set on its side
_LEADER = re.compile(r"(?:[.\u2026\u00b7_]\s?){3,}|\u2026+")
_RULE = re.compile(r"[|\[\]{}!\u00a6_=~\u2014\u2013-]*[|\[\]{}\u00a6_]+[|\[\]{}!\u00a6_=~\u2014\u2013-]*")
_EDGES_OF_RULES = "|[]{}\u00a6_"
_LEADER_CONFIDENCE = 0.5  # leaders that OCR read as letters have less
_LEADER_ROWS = 4  # the fewest rows of a page on which it did
_LEADER_SHARE = 0.2  # of the page's rows
_NARROW = ".,:;'|!iIl1 "


@dataclass(frozen=True, slots=True)
class PlacedWord:
    """A word of the table: box upright; shown: on the page as displayed; confidence None = digital."""

    text: str
    box: Box
    shown: Box
    confidence: float | None


_Placed = tuple[PlacedWord, Word, bool]  # the word, as reading gave it, and whether it is of a running line


@dataclass(frozen=True, slots=True)
class Piece:
    """Words of one row with no wide gap between them, left to right."""

    words: tuple[PlacedWord, ...]

    @property
    def x0(self) -> float:
        return self.words[0].box.x0

    @property
    def x1(self) -> float:
        return max(word.box.x1 for word in self.words)

    @property
    def text(self) -> str:
        return " ".join(word.text for word in self.words)


@dataclass(frozen=True, slots=True)
class PrintedRow:
    """One printed line over the whole width of the page.

    margin  it stands in the running head or foot
    """

    pieces: tuple[Piece, ...]
    top: float
    bottom: float
    margin: bool = False

    @property
    def middle(self) -> float:
        return (self.top + self.bottom) / 2

    @property
    def words(self) -> list[PlacedWord]:
        return [word for piece in self.pieces for word in piece.words]

    @property
    def text(self) -> str:
        return " ".join(piece.text for piece in self.pieces)


def printed_rows(page: Page) -> list[PrintedRow]:
    """The page's printed rows from top to bottom; marks of rules and leaders left out."""
    upright = _uprighter(page)
    ocr = page.origin is not Origin.DIGITAL
    placed: list[_Placed] = []
    for lines, margin in ((page.head, True), (page.body, False), (page.foot, True)):
        for line in lines:
            for word in line.words:
                for part in _parts(PlacedWord(word.text, upright(word.box), word.box, word.confidence), ocr):
                    placed.append((part, word, margin))
    if not placed:
        return []
    usual = median(part.box.bottom - part.box.top for part, _, _ in placed)
    rows = _grouped(placed, usual)
    for row in rows:
        row.sort(key=lambda each: each[0].box.x0)
    if ocr:
        _drop_misread_leaders(rows)
    made = []
    for row in rows:
        gap = (
            _PIECE_GAP_OCR * usual if ocr else _PIECE_GAP * (median(w.font_size for _, w, _ in row) or usual)
        )
        words = [part for part, _, _ in row]
        pieces = _without_leaders(_pieces(words, gap))
        if pieces:
            made.append(
                PrintedRow(
                    tuple(pieces),
                    median(word.box.top for word in words),
                    median(word.box.bottom for word in words),
                    all(margin for _, _, margin in row),
                )
            )
    return made


def _drop_misread_leaders(rows: list[list[_Placed]]) -> None:
    """Take out what OCR made of dotted leaders: small letters of no confidence between a name and its units.

    Only where many rows of the page have them: elsewhere such a word may be a word.
    """
    junk = [_misread_leader(row) for row in rows]
    if sum(bool(each) for each in junk) < max(_LEADER_ROWS, _LEADER_SHARE * len(rows)):
        return
    for row, (first, last) in ((row, each) for row, each in zip(rows, junk, strict=True) if each):
        del row[first:last]


def _misread_leader(row: Sequence[_Placed]) -> tuple[int, int] | None:
    """(first, past last) of a run of such words at the end of a row or before its last word."""
    last = len(row)
    while last and not _is_misread_leader(row[last - 1][0]) and len(row) - last < 1:
        last -= 1
    first = last
    while first > 1 and _is_misread_leader(row[first - 1][0]):
        first -= 1
    return (first, last) if first < last else None


def _is_misread_leader(word: PlacedWord) -> bool:
    plain = not any(letter.isupper() or letter.isdigit() for letter in word.text)
    return plain and (word.confidence or 0.0) < _LEADER_CONFIDENCE


def _grouped(placed: list[_Placed], usual: float) -> list[list[_Placed]]:
    """Words by printed row: each joins the row whose height it shares. Low marks (dots, dashes) join last."""
    rows: list[list[_Placed]] = []
    spans: list[list[float]] = []
    low = [each for each in placed if each[0].box.height < 0.5 * usual and _is_mark(each[0].text)]
    marks = {id(each) for each in low}
    high = [each for each in placed if id(each) not in marks]
    for each in sorted(high, key=lambda each: each[0].box.top + each[0].box.bottom):
        box = each[0].box
        for number in range(len(rows) - 1, max(len(rows) - 4, -1), -1):
            top, bottom = spans[number]
            shared = min(bottom, box.bottom) - max(top, box.top)
            if shared >= _SAME_ROW * max(min(bottom - top, box.height), 0.1):
                rows[number].append(each)
                break
        else:
            rows.append([each])
            spans.append([box.top, box.bottom])
    for each in low:
        middle = (each[0].box.top + each[0].box.bottom) / 2
        near = min(range(len(rows)), key=lambda n: abs(middle - sum(spans[n]) / 2), default=None)
        if near is not None and spans[near][0] - usual / 3 <= middle <= spans[near][1] + usual / 3:
            rows[near].append(each)
    order = sorted(range(len(rows)), key=lambda n: sum(spans[n]))
    return [rows[n] for n in order]


def _pieces(words: Sequence[PlacedWord], gap: float) -> list[Piece]:
    if not words:
        return []
    groups = [[words[0]]]
    for before, word in pairwise(words):
        if word.box.x0 - max(before.box.x1, before.box.x0) > gap:
            groups.append([])
        groups[-1].append(word)
    return [Piece(tuple(group)) for group in groups]


def _parts(word: PlacedWord, ocr: bool) -> list[PlacedWord]:
    """A word cut where leaders are printed into it ("BOLT.......4"); rules read as letters taken off."""
    text = word.text
    if ocr:
        if _RULE.fullmatch(text):
            return []
        bare = text.strip(_EDGES_OF_RULES)
        if bare != text:
            start = text.find(bare)
            word = PlacedWord(
                bare, _part_of(word.box, text, start, start + len(bare)), word.shown, word.confidence
            )
            text = bare
    found = [match for match in _LEADER.finditer(text) if match.start() > 0]
    if not found:
        return [word] if text else []
    parts, start = [], 0
    for begin, end in [*((match.start(), match.end()) for match in found), (len(text), len(text))]:
        if begin > start:
            box = _part_of(word.box, text, start, begin)
            shown = _part_of(word.shown, text, start, begin)
            parts.append(PlacedWord(text[start:begin], box, shown, word.confidence))
        if end > begin:
            box = _part_of(word.box, text, begin, end)
            parts.append(PlacedWord("...", box, box, word.confidence))
        start = end
    return parts


def _part_of(box: Box, text: str, start: int, end: int) -> Box:
    """Where text[start:end] stands in the box of the text, by the usual widths of letters."""
    ends = [0.0]
    for letter in text:
        ends.append(ends[-1] + (0.5 if letter in _NARROW else 1.0))
    scale = box.width / ends[-1]
    return Box(box.x0 + ends[start] * scale, box.top, box.x0 + ends[end] * scale, box.bottom)


def _without_leaders(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces without rows of dots between two of them; the dots before a name are kept."""
    kept: list[Piece] = []
    for piece in pieces:
        words = list(piece.words)
        if not any(_is_dots(word.text) for word in words):
            kept.append(piece)
            continue
        groups: list[list[PlacedWord]] = [[]]
        for number, word in enumerate(words):
            begins = all(_is_dots(each.text) for each in groups[-1])
            if not _is_dots(word.text) or (begins and _names(words[number:])):
                groups[-1].append(word)
            elif groups[-1]:
                groups.append([])
        kept += [Piece(tuple(group)) for group in groups if any(not _is_leader(each.text) for each in group)]
    return [piece for piece in kept if not all(_is_leader(word.text) for word in piece.words)]


def _names(words: Sequence[PlacedWord]) -> bool:
    """Whether few dots come before a word: dots of the nomenclature, not leaders."""
    dots = 0
    for word in words:
        if not _is_dots(word.text):
            return dots <= 8 and any(letter.isalpha() for letter in word.text)
        dots += len(word.text)
    return False


def _is_mark(text: str) -> bool:
    return not any(letter.isalnum() for letter in text)


def _is_dots(text: str) -> bool:
    return not text.strip(".\u2026\u00b7")


def _is_leader(text: str) -> bool:
    return not text.strip(".\u2026\u00b7-_") and len(text) > 2


def _uprighter(page: Page) -> Callable[[Box], Box]:
    """From a box on the page as displayed to one on the page upright and without skew."""
    turned = _turned(page)
    straight = _straightener(page.skew, page.width, page.height)
    if turned == 90:
        return lambda box: _ordered(box.top, page.width - box.x1, box.bottom, page.width - box.x0)
    if turned == 270:
        return lambda box: _ordered(page.height - box.bottom, box.x0, page.height - box.top, box.x1)
    return straight


def _ordered(x0: float, top: float, x1: float, bottom: float) -> Box:
    return Box(min(x0, x1), min(top, bottom), max(x0, x1), max(top, bottom))


def _straightener(skew: float, width: float, height: float) -> Callable[[Box], Box]:
    if abs(skew) < 0.01:
        return lambda box: box
    angle = math.radians(skew)
    cos, sin = math.cos(angle), math.sin(angle)
    middle_x, middle_y = width / 2, height / 2

    def straight(box: Box) -> Box:
        x, y = (box.x0 + box.x1) / 2 - middle_x, (box.top + box.bottom) / 2 - middle_y
        over = cos * cos - sin * sin
        wide = max((box.width * cos - box.height * abs(sin)) / over, 0.5)
        high = max((box.height * cos - box.width * abs(sin)) / over, min(box.height, 2.0))
        x, y = x * cos + y * sin + middle_x, y * cos - x * sin + middle_y
        return Box(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)

    return straight


def _turned(page: Page) -> int:
    """Degrees clockwise that most of the page's text runs: 0, 90 (downward) or 270 (upward)."""
    lines = [line for line in page.body if len(line.words) > 1]
    on_side = [line for line in lines if _on_side(line)]
    if len(on_side) * 2 <= len(lines) or not on_side:
        return 0
    down = sum(line.words[0].box.top < line.words[-1].box.top for line in on_side)
    return 90 if down * 2 > len(on_side) else 270


def _on_side(line: Line) -> bool:
    return all(word.box.height > _TALL * word.box.width for word in line.words if len(word.text) > 2) and any(
        len(word.text) > 2 for word in line.words
    )
