"""One page read from its picture: drawn, straightened, read by the engine that is installed."""

import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from indexer.reading.ocr_engine import (
    Engine,
    EngineFailed,
    NoOcrEngine,
    OutOfTime,
    PageNotRead,
    Picture,
    PictureWord,
)
from indexer.reading.ocr_rapid import find_rapid
from indexer.reading.ocr_tesseract import find_tesseract
from indexer.reading.page_picture import NoPicture, page_picture
from indexer.reading.recognized import RecognizedPage, RecognizedWord
from indexer.reading.straighten import lines_run_across, skew_of, turned_upright, without_skew
from indexer.reading.worn_pictures import restored
from indexer.settings import SettingRefused, Settings
from indexer.trade.evidence import Box

__all__ = ["Engine", "NoOcrEngine", "PageNotRead", "find_engine", "recognize_page"]

TESSERACT, RAPIDOCR, NONE = "tesseract", "rapidocr", "none"
_FINDERS = {TESSERACT: find_tesseract, RAPIDOCR: find_rapid}  # the better and faster one first
_SURE = 0.75  # mean confidence of a page that is read the right way round; upside down it is below 0.6
_LEAST_WORDS = 10  # fewer tell nothing


def find_engine(settings: Settings) -> Engine | None:
    """The engine of settings.ocr_engine, or the first installed; None without one, or with "none".

    Raises NoOcrEngine when one was asked for by name and is not installed, SettingRefused for a name
    that is none.
    """
    wanted = settings.ocr_engine.strip().lower()
    if wanted == NONE:
        return None
    if not wanted:
        return next((engine for find in _FINDERS.values() if (engine := find())), None)
    if wanted not in _FINDERS:
        raise SettingRefused(
            "HANGARLEAF_OCR_ENGINE", settings.ocr_engine, f"one of {', '.join(_FINDERS)}, {NONE}"
        )
    engine = _FINDERS[wanted]()
    if engine is None:
        raise NoOcrEngine(wanted)
    return engine


def recognize_page(path: Path, pdf_page: int, settings: Settings, engine: Engine) -> RecognizedPage:
    """Read one page (1-based) from its picture. A page that shows no word gives a page without words.

    Raises PageNotRead when it cannot be drawn, or not be read within settings.ocr_page_time_limit_s.
    """
    began = time.monotonic()
    try:
        page = page_picture(path, pdf_page, settings)
        picture = restored(page.picture)
        way = _best_way(picture, page.dpi, engine, Deadline(began, settings.ocr_page_time_limit_s))
    except OutOfTime:
        why = f"it took more than {settings.ocr_page_time_limit_s:g} seconds"
        raise PageNotRead(path.name, pdf_page, why) from None
    except (NoPicture, EngineFailed) as problem:
        raise PageNotRead(path.name, pdf_page, str(problem)) from None
    return RecognizedPage(
        pdf_page=pdf_page,
        width=page.width,
        height=page.height,
        turned=way.turned,
        skew=way.skew,
        words=tuple(_on_page(word, way, page.dpi) for word in way.words),
        engine=engine.name,
        dpi=round(page.dpi),
        confidence=way.confidence,
        seconds=time.monotonic() - began,
    )


class Deadline:
    """The time one page may take, over everything that is done for it."""

    def __init__(self, began: float, limit_s: float):
        self._began, self._limit_s = began, limit_s

    def left_s(self) -> float:
        """Seconds left. Raises OutOfTime when there are none."""
        left = self._limit_s - (time.monotonic() - self._began)
        if left <= 0:
            raise OutOfTime("no time is left for this page")
        return left


@dataclass(frozen=True, slots=True)
class _Way:
    """A page as read one way round; margins = pixels by which its picture grew on each side."""

    turned: int
    skew: float
    words: Sequence[PictureWord]
    margins: tuple[float, float]

    @property
    def confidence(self) -> float:
        """Mean over the characters read; 0.0 without any."""
        characters = sum(len(word.text) for word in self.words)
        return (
            sum(word.confidence * len(word.text) for word in self.words) / characters if characters else 0.0
        )

    @property
    def sense(self) -> float:
        """How much of what was read is words: characters of the words that the engine is sure of."""
        return sum(len(word.text) for word in self.words if word.confidence >= _SURE)

    @property
    def reads_well(self) -> bool:
        return len(self.words) >= _LEAST_WORDS and self.confidence >= _SURE


def _best_way(picture: Picture, dpi: float, engine: Engine, deadline: Deadline) -> _Way:
    """The page read the way round in which it makes most sense.

    Nearly all pages are upright, and a page read well is the right way round: the engine is asked how a page
    lies, which takes half as long as reading it, only where it does not.
    """
    across = lines_run_across(picture, dpi)
    ways = []
    if across is not False:
        ways.append(_read(picture, 0, dpi, engine, deadline))
        if ways[0].reads_well:
            return ways[0]
    told = engine.turned(picture, round(dpi), deadline.left_s())
    if told is not None:
        others = (told,)
    elif across is None:
        others = (0,)
    else:
        others = (180,) if across else (270, 90, 0)
    for turned in others:
        if turned not in [way.turned for way in ways]:
            ways.append(_read(picture, turned, dpi, engine, deadline))
            if ways[-1].reads_well:
                return ways[-1]
    return max(ways, key=lambda way: way.sense)


def _read(picture: Picture, turned: int, dpi: float, engine: Engine, deadline: Deadline) -> _Way:
    upright = turned_upright(picture, turned)
    skew = skew_of(upright, dpi)
    straight = without_skew(upright, skew)
    words = engine.read(straight, round(dpi), deadline.left_s())
    grown = [(after - before) / 2 for after, before in zip(straight.shape, upright.shape, strict=True)]
    return _Way(turned, skew, words, (grown[1], grown[0]))


def _on_page(word: PictureWord, way: _Way, dpi: float) -> RecognizedWord:
    """Pixels of the straightened picture to points on the straightened page."""
    points = 72 / dpi
    beside, above = way.margins
    box = Box(
        round((word.x0 - beside) * points, 2),
        round((word.top - above) * points, 2),
        round((word.x1 - beside) * points, 2),
        round((word.bottom - above) * points, 2),
    )
    return RecognizedWord(word.text, box, word.confidence, word.line)
