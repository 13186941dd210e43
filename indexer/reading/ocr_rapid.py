"""The engine rapidocr (extra `ocr`): its models come in its wheel, so that it works offline. Imported late.

It gives whole lines, in no order that knows of columns. Words get their share of the line's box, and lines
are put in order here.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from importlib import metadata, util

import numpy as np

from indexer.reading.ocr_engine import EngineFailed, Picture, PictureWord
from indexer.reading.reading_order import in_reading_order
from indexer.trade.evidence import Box

_PACKAGE, _MODULE = "rapidocr-onnxruntime", "rapidocr_onnxruntime"
_LONGEST_SIDE = 1600  # pixels of the picture in which lines are looked for; they are read in full size
_EVERY_LINE = 0.0  # confidence from which lines are given: doubt is for us to judge


@dataclass(frozen=True, slots=True)
class Rapid:
    version: str

    @property
    def name(self) -> str:
        return f"rapidocr {self.version}"

    def read(self, picture: Picture, dpi: int, time_limit_s: float) -> list[PictureWord]:
        """See Engine. It cannot be stopped half way: the time limit is held by the process it runs in."""
        try:
            lines, _ = _loaded()(np.dstack([picture] * 3), use_cls=False, text_score=_EVERY_LINE)
        except (
            Exception
        ) as problem:  # its libraries raise of every kind; whatever it was, this page is not read
            raise EngineFailed(f"rapidocr: {type(problem).__name__}: {problem}") from problem
        return words_of(lines or [])

    def turned(self, picture: Picture, dpi: int, time_limit_s: float) -> int | None:
        """See Engine. It cannot tell."""
        return None


@cache
def find_rapid() -> Rapid | None:
    """rapidocr as installed, None without it. It is not loaded: that takes seconds and hundreds of MB."""
    return Rapid(metadata.version(_PACKAGE)) if util.find_spec(_MODULE) else None


@cache
def _loaded():
    from rapidocr_onnxruntime import RapidOCR

    return RapidOCR(
        intra_op_num_threads=1,  # a worker a core reads more pages than one page over many cores
        inter_op_num_threads=1,
        max_side_len=1_000_000,  # never reads from a picture made smaller
        det_limit_type="max",
        det_limit_side_len=_LONGEST_SIDE,
    )


def words_of(lines: Sequence[tuple[Sequence[Sequence[float]], str, float]]) -> list[PictureWord]:
    """Words from lines given as (corners clockwise from the top left, text, confidence)."""
    boxes = [_box(corners) for corners, _, _ in lines]
    words = []
    for number, index in enumerate(in_reading_order(boxes)):
        _, text, confidence = lines[index]
        words += _shared_out(text, boxes[index], min(max(float(confidence), 0.0), 1.0), number)
    return words


def _box(corners: Sequence[Sequence[float]]) -> Box:
    xs, ys = [float(x) for x, _ in corners], [float(y) for _, y in corners]
    return Box(min(xs), min(ys), max(xs), max(ys))


def _shared_out(text: str, box: Box, confidence: float, line: int) -> list[PictureWord]:
    """A line's words, each as wide as its part of the line's characters."""
    words, at = [], 0
    one = box.width / max(len(text), 1)
    for word in text.split():
        at = text.index(word, at)
        left, right = box.x0 + at * one, box.x0 + (at + len(word)) * one
        words.append(PictureWord(word, left, box.top, math.ceil(right), box.bottom, confidence, line))
        at += len(word)
    return words
