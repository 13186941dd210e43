"""What OCR read of a page -> a raw page that can be laid out like any other.

OCR boxes fit the ink: "one" is lower than "Ally". Each word gets the box and the size of the type it is set
in, told from which of its letters reach up or down. A line's words share one size.
"""

import sys
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from statistics import median

from indexer.reading.frame import tenth
from indexer.reading.own_layer import is_better, says_something_else
from indexer.reading.page import Page, TextState, Word
from indexer.reading.raw_page import Judged, RawPage
from indexer.reading.recognized import RecognizedPage, RecognizedWord
from indexer.reading.straightened import Straightening
from indexer.reading.usable_text import texts_of
from indexer.reading.well_read import quality
from indexer.trade.evidence import Box

KEPT = "OCR read it no better: the text that came with the page is kept."
SAYS_OTHERWISE = (
    "The text that came with the page says something else than its picture: the picture was read."
)
NOTHING_READ = "OCR read nothing on it."
NO_WORDS_READ = "Read by OCR, but what came out is not words (is its language installed?)."

_HARDLY_SLANTED = 0.3  # degrees
_READ_AT_ALL = 0.4  # quality of what is words at all
_SURE_AT_ALL = 0.4  # mean confidence; a language that the engine does not know is read with 0.3

# Heights in parts of the type's size, as in Times and Helvetica; from memory of their metrics.
_SMALL, _TALL, _BELOW, _COMMA_BELOW = 0.49, 0.7, 0.21, 0.13
_ABOVE_BASELINE, _UNDER_BASELINE = 0.78, 0.22  # of a word's box in the end, as digital text has it
_DESCENDS = frozenset("gjpqyQ()[]{}|/$§@")
_COMMAS = frozenset(",;")
_LOW = frozenset("acemnorsuvwxzgpqy+<>=~:;")
_NO_HEIGHT = frozenset(".,-–—_'`\"‘’“”«»·•°*^~=…:;")
_ALIKE = 1.11  # times the body's size: a line that differs by less is set in it
_ALIKE_TITLES = 1.15  # the same among larger and smaller sizes
_LOWER = 0.4  # of a line's words, the smallest: a speck makes a word's box higher, nothing makes it lower
_SIDE = 0.04  # of the size: the white that a letter keeps beside it

_DUST_CONFIDENCE = 0.5
_MAY_BELONG = frozenset(".-–—·•*°'\"%&()/,+=")  # signs that stand by words in print
_BARS = frozenset("|[]{}/\\_—–-~")
_DUST_REACH = 3.0  # times its neighbour's height: a dot this near to a word may belong to it
_RULE_HEIGHT = 1.8  # times the size of the line: a bar this high is a drawn line


@dataclass(slots=True)
class _Measured:
    word: RecognizedWord
    size: float  # points; 0.0 = its letters do not tell
    baseline: float


def recognized_raw(raw: RawPage, read: RecognizedPage) -> RawPage:
    """The page with the words that OCR read, or with its own where those are better, or OCR read no words.

    raw   judged; its own text will not do
    read  words on the straightened page
    """
    own = raw.judged
    reason = own.ocr_reason
    if not read.words:
        return replace(raw, judged=Judged(own.state, own.problem or NOTHING_READ, reason))
    own_texts, read_texts = texts_of(raw), [word.text for word in read.words]
    says_otherwise = own.state is TextState.TEXT and says_something_else(
        own_texts, read_texts, read.confidence
    )
    if own.state is TextState.TEXT and not says_otherwise and is_better(own_texts, read_texts):
        return replace(raw, judged=Judged(TextState.TEXT, KEPT, reason))
    straightening = Straightening(read.width, read.height, read.turned, read.skew)
    width, height = straightening.size
    words = _set_words(_on_the_page(_without_dust(read.words), straightening))
    measured = quality([word.text for word in words])
    words = _with_own_words(raw, straightening, words)
    well_read = read.confidence >= _SURE_AT_ALL and (measured is None or measured >= _READ_AT_ALL)
    is_words = bool(words) and well_read
    if words and not well_read and own.state is TextState.TEXT:
        return replace(raw, judged=Judged(TextState.TEXT, NO_WORDS_READ, reason))
    state = TextState.TEXT if is_words else TextState.GARBLED if words else own.state
    problem = (SAYS_OTHERWISE if says_otherwise else "") if is_words else NO_WORDS_READ
    return RawPage(
        pdf_page=raw.pdf_page,
        width=width,
        height=height,
        rotation=raw.rotation,
        label=raw.label,
        words={0: words},
        rulings=_rulings(raw, straightening),
        picture_part=raw.picture_part,
        has_drawing=raw.has_drawing,
        hidden=False,
        judged=Judged(state, problem if words else NOTHING_READ, reason),
        straightening=straightening,
    )


def _with_own_words(raw: RawPage, straightening: Straightening, read: list[Word]) -> list[Word]:
    """What was read, and in its place the file's own words that are plain to see: a head over a scan.

    Only where the page was hardly straightened, so that both lie on one page.
    """
    plain = raw.judged.state is TextState.TEXT and not raw.hidden
    if not plain or straightening.turned or abs(straightening.skew) > _HARDLY_SLANTED:
        return read
    own = list(raw.words.get(0, ()))
    return own + [word for word in read if not any(_is_over(word.box, each.box) for each in own)]


def _is_over(box: Box, other: Box) -> bool:
    """Whether the middle of one box lies in the other."""
    x, y = (box.x0 + box.x1) / 2, (box.top + box.bottom) / 2
    return other.x0 <= x <= other.x1 and other.top <= y <= other.bottom


def with_common_sizes(pages: list[RawPage | Page]) -> None:
    """Give lines that are set alike on all pages read by OCR one size, in place: a heading is told by it."""
    letters: Counter[float] = Counter()
    for page in filter(_is_read, pages):
        for word in page.words[0]:
            letters[word.font_size] += len(word.text)
    common = _common_sizes(letters)
    for index, page in enumerate(pages):
        if _is_read(page):
            words = [replace(word, font_size=common[word.font_size]) for word in page.words[0]]
            pages[index] = replace(page, words={0: words})


def _is_read(page: RawPage | Page) -> bool:
    return isinstance(page, RawPage) and page.straightening is not None


def _common_sizes(letters: Mapping[float, int]) -> dict[float, float]:
    """For each measured size the one it stands for; `letters` = how many are set in each, in points.

    Sizes about the body's are the body's. From there outward each size takes in those that lie close.
    """
    body = _weighted_median(list(letters.items()))
    common = {size: body for size in letters if body / _ALIKE <= size <= body * _ALIKE}
    for outward in (sorted(letters), sorted(letters, reverse=True)):
        rest = [
            size for size in outward if size not in common and (size > body) == (outward[0] < outward[-1])
        ]
        while rest:
            near = [size for size in rest if rest[0] / _ALIKE_TITLES <= size <= rest[0] * _ALIKE_TITLES]
            middle = _weighted_median([(size, letters[size]) for size in near])
            common.update(dict.fromkeys(near, middle))
            rest = [size for size in rest if size not in common]
    return common


def _rulings(raw: RawPage, straightening: Straightening) -> Sequence[Box]:
    """Lines that the file itself draws. On a scan there are none."""
    if straightening.skew:
        return ()
    return [straightening.straightened(ruling) for ruling in raw.rulings]


def _without_dust(words: Sequence[RecognizedWord]) -> list[RecognizedWord]:
    """The words without specks read as dots and bars: signs read doubtfully that stand near no word.

    The dots before a nomenclature in a parts list stand close to it, and are kept; so is a dash.
    """
    real = [word for word in words if any(map(str.isalnum, word.text))]
    tall = _RULE_HEIGHT * median([word.box.height for word in real]) if real else 0.0
    return [
        word
        for word in words
        if not (real and word.box.height > tall and _BARS.issuperset(word.text))
        if word.confidence >= _DUST_CONFIDENCE
        or any(map(str.isalnum, word.text))
        or (_MAY_BELONG.issuperset(word.text) and any(_stands_by(word.box, other.box) for other in real))
    ]


def _on_the_page(words: Sequence[RecognizedWord], straightening: Straightening) -> list[RecognizedWord]:
    """The words that lie on the page as displayed, cut to the straightened one.

    Dark edges of a photograph are read as signs beside the page. What stood in a corner of a slanted page may
    lie outside once that is straightened: it is moved to the edge.
    """
    width, height = straightening.size
    return [
        replace(word, box=_cut(word.box, width, height))
        for word in words
        if _touches(straightening.displayed(word.box), straightening.width, straightening.height)
    ]


def _touches(box: Box, width: float, height: float) -> bool:
    return box.x1 > 0.0 and box.bottom > 0.0 and box.x0 < width and box.top < height


def _cut(box: Box, width: float, height: float) -> Box:
    """The part of a box that lies on the page; the whole of it at the nearest edge where no part does."""
    (x0, x1), (top, bottom) = _side(box.x0, box.x1, width), _side(box.top, box.bottom, height)
    return Box(x0, top, x1, bottom)


def _side(start: float, end: float, most: float) -> tuple[float, float]:
    if end <= 0.0 or start >= most:
        long = min(end - start, most)
        return (0.0, long) if end <= 0.0 else (most - long, most)
    return max(start, 0.0), min(end, most)


def _stands_by(sign: Box, word: Box) -> bool:
    if sign.height > _RULE_HEIGHT * max(word.height, 1.0):
        return False
    middle = (sign.top + sign.bottom) / 2
    if not word.top - 0.5 * word.height <= middle <= word.bottom + 0.5 * word.height:
        return False
    gap = max(word.x0 - sign.x1, sign.x0 - word.x1)
    return gap <= _DUST_REACH * word.height


def _set_words(words: Sequence[RecognizedWord]) -> list[Word]:
    """Words with the boxes and sizes of type, in the engine's order."""
    page = [_measured(word) for word in words]
    usual = _usual_size(page) or 10.0
    found: list[Word] = []
    for _, group in groupby(page, key=lambda each: each.word.line):
        line = list(group)
        size = _usual_size(line) or usual
        found += [_set_word(each, line, size) for each in line]
    return found


def _measured(word: RecognizedWord) -> _Measured:
    """The size of the type and where its baseline lies, from which letters reach up or down."""
    letters = [each for each in word.text if each not in _NO_HEIGHT]
    below = 0.0
    if not _DESCENDS.isdisjoint(word.text):
        below = _BELOW
    elif not _COMMAS.isdisjoint(word.text):
        below = _COMMA_BELOW
    if not letters:
        return _Measured(word, 0.0, word.box.bottom)
    top = _SMALL if all(each in _LOW for each in letters) else _TALL
    size = word.box.height / (top + below)
    return _Measured(word, size, word.box.bottom - below * size)


def _usual_size(words: Sequence[_Measured]) -> float:
    """The size that words of one line are set in; 0.0 when none of them tells."""
    sizes = sorted(each.size for each in words if each.size)
    return sizes[int(_LOWER * len(sizes))] if sizes else 0.0


def _set_word(each: _Measured, line: Sequence[_Measured], size: float) -> Word:
    box = each.word.box
    baseline = each.baseline
    if not each.size or abs(each.size - size) > 0.35 * size:
        told = [other for other in line if other.size and abs(other.size - size) <= 0.35 * size]
        if told:
            baseline = min(told, key=lambda other: abs(other.word.box.x0 - box.x0)).baseline
    top, bottom = baseline - _ABOVE_BASELINE * size, baseline + _UNDER_BASELINE * size
    if box.bottom <= top or box.top >= bottom:  # a mark far off its line
        top, bottom = box.top, box.bottom
    x0, x1 = max(box.x0 - _SIDE * size, 0.0), box.x1 + _SIDE * size
    return Word(
        sys.intern(each.word.text),
        Box(tenth(x0), tenth(max(top, 0.0)), tenth(x1), tenth(max(bottom, 0.0))),
        tenth(size),
        False,
        each.word.confidence,
    )


def _weighted_median(values: Sequence[tuple[float, int]]) -> float:
    """The middle value where each counts by its weight; 0.0 without any."""
    half = sum(weight for _, weight in values) / 2
    passed = 0.0
    for value, weight in sorted(values):
        passed += weight
        if passed >= half:
            return value
    return 0.0
