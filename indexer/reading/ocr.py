"""One page read from its picture: drawn, straightened, read by the engine that is installed."""

import time
from pathlib import Path

from indexer.reading.ocr_engine import Engine, EngineFailed, NoOcrEngine, PageNotRead, Picture, PictureWord
from indexer.reading.ocr_tesseract import find_tesseract
from indexer.reading.page_picture import NoPicture, PagePicture, page_picture
from indexer.reading.recognized import RecognizedPage, RecognizedWord
from indexer.reading.straighten import skew_of, turned_upright, without_skew
from indexer.settings import SettingRefused, Settings
from indexer.trade.evidence import Box

__all__ = ["Engine", "NoOcrEngine", "PageNotRead", "find_engine", "recognize_page"]

TESSERACT, NONE = "tesseract", "none"
_FINDERS = {TESSERACT: find_tesseract}


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

    def time_left() -> float:
        left = settings.ocr_page_time_limit_s - (time.monotonic() - began)
        if left <= 0:
            raise EngineFailed(f"it took more than {settings.ocr_page_time_limit_s:g} seconds")
        return left

    try:
        page = page_picture(path, pdf_page, settings)
        dpi = round(page.dpi)
        turned = engine.turned(page.picture, dpi, time_left()) or 0
        upright = turned_upright(page.picture, turned)
        skew = skew_of(upright, page.dpi)
        straight = without_skew(upright, skew)
        words = engine.read(straight, dpi, time_left())
    except (NoPicture, EngineFailed) as problem:
        raise PageNotRead(path.name, pdf_page, str(problem)) from None
    return RecognizedPage(
        pdf_page=pdf_page,
        width=page.width,
        height=page.height,
        turned=turned,
        skew=skew,
        words=tuple(_on_page(word, page, upright, straight) for word in words),
        engine=engine.name,
        dpi=dpi,
        confidence=_confidence(words),
        seconds=time.monotonic() - began,
    )


def _on_page(word: PictureWord, page: PagePicture, upright: Picture, straight: Picture) -> RecognizedWord:
    """Pixels of the straightened picture to points. It grew on all sides alike when it was turned."""
    points = 72 / page.dpi
    beside = (straight.shape[1] - upright.shape[1]) / 2
    above = (straight.shape[0] - upright.shape[0]) / 2
    box = Box(
        round((word.x0 - beside) * points, 2),
        round((word.top - above) * points, 2),
        round((word.x1 - beside) * points, 2),
        round((word.bottom - above) * points, 2),
    )
    return RecognizedWord(word.text, box, word.confidence, word.line)


def _confidence(words: list[PictureWord]) -> float:
    """Mean over the characters read; 0.0 without any."""
    characters = sum(len(word.text) for word in words)
    return sum(word.confidence * len(word.text) for word in words) / characters if characters else 0.0
